package prep

import "borewright/engine/plan"

// crankSteps are the steps of a crank.
var crankSteps = []entry{
	{Step: Step{
		ID: CrankPlugsOut, Name: "crank plugs out", Kind: Counted, On: Crank, Tally: "crank plugs", Way: Out,
		Text: "Take the plugs out of the oil drillings and key how many.", Cautions: []string{Lifting}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: CrankMachining, Name: "crank machining done", Kind: Once, On: Crank, NotBefore: []string{CrankPlugsOut},
		Text: "All grinding, drilling and polishing is done.", Cautions: []string{Grinding, Lifting}, Source: CommonPractice,
	}},
	{Step: Step{
		ID: CrankHoles, Name: "oil holes chamfered", Kind: PerPlace, On: Crank, NotBefore: []string{CrankMachining},
		Did: Deburred, Note: "not yet deburred",
		Text: "Break the edge of the oil hole and polish it.", Cautions: []string{Grinding}, Source: CommonPractice,
	}, places: journals},
	{Step: Step{
		ID: CrankBrush, Name: "oil drillings brushed", Kind: PerPlace, On: Crank, Metal: true,
		NotBefore: []string{CrankPlugsOut, CrankMachining, CrankHoles},
		Text:      "Run a brush through the drilling from this journal.", Cautions: []string{Solvents, Air}, Source: oilwayManual,
	}, places: each(plan.MainJournal, "")},
	{Step: Step{
		ID: CrankWash, Name: "crank washed", Kind: Once, On: Crank, Metal: true, NotBefore: []string{CrankBrush}, Note: "not yet washed",
		Text: "Wash the crank and flush every drilling.", Cautions: []string{Pressure, Lifting}, Source: oilwayManual,
	}},
	{Step: Step{
		ID: CrankDry, Name: "crank dry", Kind: Once, On: Crank, NotBefore: []string{CrankWash},
		Text: "Dry it at once, drillings too; the cloth stays white.", Cautions: []string{Air}, Source: steamManual,
	}},
	{Step: Step{
		ID: CrankPlugsIn, Name: "crank plugs in", Kind: Counted, On: Crank, Tally: "crank plugs", Way: In,
		NotBefore: []string{CrankPlugsOut, CrankDry},
		Text:      "Key how many plugs are in, locked as their maker says.", Source: CommonPractice,
	}},
	{Step: Step{
		ID: CrankOil, Name: "crank oiled", Kind: Once, On: Crank, NotBefore: []string{CrankDry},
		Text: "Oil the journals before they can rust.", Source: steamManual,
	}},
}

// assemblySteps are those of the day the engine goes together.
var assemblySteps = []entry{
	{Step: Step{
		ID: Soak, Name: "soaked", Kind: Value, Low: "60 min", Note: "not yet soaked",
		Text:   "Gauge, master and parts stand together to one temperature: key the minutes.",
		Source: "NAVEDTRA 14076",
	}, unit: [2]string{"min", "min"}},
	{Step: Step{
		ID: CapTorque, Name: "main caps torque", Kind: Value, NotBefore: []string{LastWipe, CapsIn, CrankOil, CrankPlugsIn},
		Text:   "Tighten in the order and steps that the maker says; key the last figure.",
		Source: "the part maker's figure",
	}, places: each(plan.MainHousing, ""), unit: [2]string{"ft lb", "N m"}},
	{Step: Step{
		ID: CrankFree, Name: "crank turns freely", Kind: Once, NotBefore: []string{CapTorque},
		Text: "Turn the crank by hand, all the way round: no tight spot.", Cautions: []string{Turning}, Source: crankManual,
	}},
	{Step: Step{
		ID: PistonsIn, Name: "pistons in their bores", Kind: PerPlace, NotBefore: []string{CapTorque, CrankFree},
		Text: "Its number, its mark to the front, its ring gaps spread.", Cautions: []string{Turning}, Source: CommonPractice,
	}, places: each(plan.Bore, "")},
	{Step: Step{
		ID: RodStretch, Name: "rod bolt stretch", Kind: Value, NotBefore: []string{PistonsIn},
		Text: "Key by how much the bolt grew; the maker's figure governs.", Source: "the part maker's figure",
	}, places: each(plan.Rod, "first bolt", "second bolt"), unit: [2]string{"in", "mm"}},
	{Step: Step{
		ID: Primed, Name: "oil pressure primed", Kind: Value, NotBefore: []string{RodStretch},
		Text:     "Drive the oil pump until oil comes at every journal; key the pressure.",
		Cautions: []string{Turning}, Source: CommonPractice,
	}, unit: [2]string{"psi", "bar"}},
}
