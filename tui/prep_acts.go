package tui

import (
	"borewright/engine/gauge"
	"borewright/engine/plan"
	"borewright/engine/prep"
	"borewright/engine/record"
	"borewright/tui/draw"
	"borewright/tui/keying"
)

// tick ticks the step in hand, or holds it.
func (p *prepScreen) tick(t prep.Tick) {
	if held := p.hold(t); held != "" {
		p.st.Hush()
		p.keys = keying.State{
			At: keying.Held, Asking: keying.Asking{What: askTick}, Held: gauge.Result{Kind: gauge.Held, Reason: held},
		}
		p.st.Ring(2)
		return
	}
	p.record(t)
}

// record takes a tick to the desk and goes on. A tick that is work on metal, at
// a feature that was read, is recorded as that work too.
func (p *prepScreen) record(t prep.Tick) {
	var bodies []record.Body
	step, of := p.step(), prep.SpotOf(t.Place).Of
	if step.Did != "" && p.wasRead(of) {
		bodies = append(bodies, workOn(of, step.Did, true))
	}
	if !p.keep(append(bodies, record.Done{Tick: t})...) {
		return
	}
	p.st.Hush()
	if len(bodies) > 0 {
		p.st.Say(draw.Plain, p.desk.Session.Name(of)+" "+step.Did+": what was read before is as found now")
	}
	p.advance()
}

// wasRead reports whether a feature has readings of its present stage.
func (p *prepScreen) wasRead(f plan.Feature) bool {
	x, ok := p.desk.Now.Feature(f)
	return ok && x.Read > 0
}

// keep records what happened, or says why it is refused.
func (p *prepScreen) keep(bodies ...record.Body) bool {
	if err := p.desk.Record(bodies...); err != nil {
		p.refuse(err.Error())
		p.ask()
		return false
	}
	p.awaiting = append(p.awaiting, p.desk.Session.Head().N)
	return true
}

// account records that some of what came out does not come back.
func (p *prepScreen) account(why string) {
	t := prep.Tick{Step: p.step().ID, Way: prep.Accounted, Count: p.accounted, Choice: why}
	if before, ok := p.state().AccountedFor(p.step(), why); ok {
		t.Count += before
	}
	if p.keep(record.Done{Tick: t}) {
		p.advance()
	}
}

// withdraw takes back the last tick and goes to where it was.
func (p *prepScreen) withdraw() {
	n := p.desk.Session.LastDone()
	d, _ := p.desk.Session.Events()[n-1].Body.(record.Done)
	if !p.keep(record.Withdrawn{Event: n}) {
		return
	}
	p.st.Say(draw.Plain, p.desk.Session.Log()[p.desk.Session.Head().N-1].Text)
	if _, at, ok := p.steps().Find(d.Step); ok {
		p.goStep(at, d.Place)
	}
}

// askWork asks what was done, and first to which bore when the place in hand is
// no feature.
func (p *prepScreen) askWork() {
	if p.worked = prep.SpotOf(p.place).Of; p.worked.IsZero() {
		p.askFor(askBore)
		return
	}
	p.askFor(askDid)
}

// work records work on metal: it withdraws the wash and what rests on it, and
// what was read of the feature is as found.
func (p *prepScreen) work(did string) {
	if p.keep(workOn(p.worked, did, true)) {
		p.st.Say(draw.Warn, p.desk.Session.Name(p.worked)+" "+did+": the wash is withdrawn, and its readings are as found")
		p.goOpen("")
	}
}

// metalWorks are the works of the menu that take off metal.
func metalWorks() []struct {
	did   string
	metal bool
} {
	out := works[:0:0]
	for _, w := range works {
		if w.metal {
			out = append(out, w)
		}
	}
	return out
}

// workOn is work done to one feature.
func workOn(f plan.Feature, did string, metal bool) record.Work {
	fs := []plan.Feature{f}
	return record.Work{Did: did, To: fs, Changes: fs, Metal: metal}
}

// edit opens the list for changes.
func (p *prepScreen) edit() { p.st.Push(newPrepEdit(p.st, p.desk, p.at)) }
