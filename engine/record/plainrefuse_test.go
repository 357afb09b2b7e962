package record

import (
	"strings"
	"testing"
)

// meaningless are files that read well and mean nothing.
var meaningless = []struct{ name, text, want string }{
	{"no unit", `"readings":[{"of":"bore/1","across":["67.1"]}]`, "unit: it is missing, and no number states one: write in or mm"},
	{"a bare number without a unit", `"readings":[{"of":"bore/1","across":["67.1 mm","67.1"]}]`, `readings[0].across[1]: "67.1": no unit given: use in, mm, µm or µin (bore/1, level b, across)`},
	{"a layout that is none", `"unit":"mm","layout":{"form":"radial","cylinders":9}`, `layout: form "radial" is neither inline, vee nor flat`},
	{"an empty layout", `"unit":"mm","layout":{}`, `layout: form "" is neither inline, vee nor flat`},
	{"too many without a layout", `"unit":"mm","readings":[{"of":"bore/12","across":["67.1"]}]`, "layout: inline has 1 to 8 cylinders, not 12"},
	{"a family", `"unit":"mm","plan":[{"family":"valve"}]`, `plan[0].family: "valve": no family is called so`},
	{"a family twice", `"unit":"mm","plan":[{"family":"bore"},{"family":"bore"}]`, "plan: bore is given twice"},
	{"a nominal", `"unit":"mm","plan":[{"family":"bore","nominal":"wide"}]`, `plan[0].nominal: "wide": not a unit known here: use in, mm, µm or µin`},
	{"a depth", `"unit":"mm","plan":[{"family":"bore","levels":[{"id":"a"},{"depth":"1e3"}]}]`, `plan[0].levels[1].depth: "1e3": not a unit known here: use in, mm, µm or µin`},
	{"depths in disorder", `"unit":"mm","plan":[{"family":"bore","levels":[{"depth":"50"},{"depth":"10"}]}]`, `plan: level "b" of bore: depth 10 mm does not lie below the level before it`},
	{"a half", `"unit":"mm","plan":[{"family":"bore","levels":[{"half":"left"}]}]`, `plan: level "a" of bore: half "left" is neither front, rear nor both`},
	{"a planned direction", `"unit":"mm","plan":[{"family":"bore","directions":["up"]}]`, `plan: direction "up" of bores is neither across, along nor an angle from 0 to 360`},
	{"too many levels", `"unit":"mm","readings":[{"of":"bore/1","across":[1,2,3,4,5,6,7]}]`, "readings[0].across: 7 values for 6 levels; write null where nothing was measured"},
	{"a limit on nothing", `"unit":"mm","limits":[{"on":"weight","of":"bore","new":{"high":"1"}}]`, `limits[0]: limits of "weight" for "bore": nothing of that name is judged`},
	{"a limit that is no length", `"unit":"mm","limits":[{"on":"size","of":"bore","new":{"low":"67.O"}}]`, `limits[0].new.low: "67.O": not a unit known here: use in, mm, µm or µin`},
	{"a limit that is turned round", `"unit":"mm","limits":[{"on":"size","of":"bore","wear":{"low":"68","high":"67"}}]`, `limits[0]: limits of "size" for "bore": the low wear limit 68 mm is above the high one, 67 mm`},
	{"a limit for a missing feature", `"unit":"mm","limits":[{"on":"size","of":"bore/2","wear":{"high":"67"}}]`, `limits[0].of: "bore/2": the layout has 1 bores`},
	{"a limit with a long name", `"unit":"mm","limits":[{"on":"` + strings.Repeat("x", 99) + `","of":"bore","wear":{"high":"67"}}]`, `limits[0].on: "` + strings.Repeat("x", 40) + `…": at most 64 bytes long`},
	{"rules", `"unit":"mm","rules":{"judge":"old"}`, `rules.judge: "old": none of new, wear`},
	{"a figure without a value", `"unit":"mm","given":[{"name":"stroke"}]`, "given[0].value: it is missing"},
	{"a figure of what is not there", `"unit":"mm","given":[{"name":"stroke","of":"bore/2","value":"80"}]`, `given[0].of: "bore/2": the layout has 1 bores`},
	{"a table of nothing", `"unit":"mm","tables":[{"name":"shells"},{"name":"bolts"}]`, `tables[1].name: "bolts": none of shells, ladder, costs, locks`},
	{"a table of what is not there", `"unit":"mm","tables":[{"name":"locks","of":"piston/9"}]`, `tables[0].of: "piston/9": the layout has 1 pistons`},
	{"a part nowhere", `"unit":"mm","parts":[{"part":"piston/1"}]`, "parts[0].at: it names no feature"},
	{"a part that is not there", `"unit":"mm","parts":[{"part":"piston/4","at":"bore/1"}]`, `parts[0].part: "piston/4": the layout has 1 pistons`},
	{"a row of nothing", `"unit":"mm","plan":[{"family":"bore"}],"readings":[{"across":[]}]`, "readings[0].of: it names no feature"},
	{"a feature that is not there", `"unit":"mm","layout":{"form":"inline","cylinders":1},"readings":[{"of":"bore/2","across":[]}]`, `readings[0].of: "bore/2": the layout has 1 bores`},
	{"a family that is not planned", `"unit":"mm","plan":[{"family":"bore"}],"readings":[{"of":"piston/1","across":["66.9"]}]`, `readings[0].of: "piston/1": the plan measures no pistons`},
	{"a direction", `"unit":"mm","plan":[{"family":"bore","directions":["across"]}],"readings":[{"of":"bore/1","upward":["66.9"]}]`, `readings[0]: direction "upward" of bores is neither across, along nor an angle from 0 to 360`},
	{"a long direction", `"unit":"mm","readings":[{"of":"bore/1","` + strings.Repeat("x", 99) + `":["66.9"]}]`, `readings[0]: "` + strings.Repeat("x", 40) + `…": too long for what stands here`},
	{"a direction that is not planned", `"unit":"mm","plan":[{"family":"bore","levels":[{}],"directions":["across"]}],"readings":[{"of":"bore/1","across":["66.9"],"along":["66.8"]}]`, "readings[0].along: the plan reads bores in other directions"},
	{"a direction twice", `"unit":"mm","readings":[{"of":"bore/1","across":["66.9"],"90":["66.9"]}]`, "readings[0].across: this is the same direction as 90"},
	{"too many directions", `"unit":"mm","readings":[{"of":"bore/1","10":["66.9"],"20":["66.9"],"30":["66.9"],"40":["66.9"],"50":["66.9"]}]`, "plan: bore has 5 directions, not 1 to 4"},
	{"too few values", `"unit":"mm","readings":[{"of":"bore/1","across":["66.9","66.9"],"along":["66.8"]}]`, "readings[0].along: 1 values for 2 levels; write null where nothing was measured"},
	{"a value alone", `"unit":"mm","plan":[{"family":"bore","levels":[{},{},{}]}],"readings":[{"of":"bore/1","across":"66.9"}]`, "readings[0].across: 1 values for 3 levels; write null where nothing was measured"},
	{"a level", `"unit":"mm","plan":[{"family":"bore"}],"readings":[{"of":"bore/1","level":"top","across":"66.9"}]`, `readings[0].level: "top": neither the id of a level nor a number from 1 to 3`},
	{"a level beyond", `"unit":"mm","plan":[{"family":"bore"}],"readings":[{"of":"bore/1","level":4,"across":"66.9"}]`, `readings[0].level: "4": neither the id of a level nor a number from 1 to 3`},
	{"levels in a row of one", `"unit":"mm","plan":[{"family":"bore"}],"readings":[{"of":"bore/1","level":1,"across":["66.9",null]}]`, "readings[0].across: 2 values for 1 levels; write null where nothing was measured"},
	{"a place twice", `"unit":"mm","readings":[{"of":"bore/1","across":["66.9"]},{"of":"bore/1","across":["66.8"]}]`, "readings[1].across[0]: bore/1, level a, across is given twice: it stands at readings[0].across[0] too; repeats go into a list in its place"},
	{"no number", `"unit":"mm","readings":[{"of":"bore/1","across":["66.9","6x.9"]}]`, `readings[0].across[1]: "6x.9": not a unit known here: use in, mm, µm or µin (bore/1, level b, across)`},
	{"not a number", `"unit":"mm","readings":[{"of":"bore/1","across":["NaN"]}]`, `readings[0].across[0]: "NaN": not a unit known here: use in, mm, µm or µin (bore/1, level a, across)`},
	{"a repeat", `"unit":"mm","readings":[{"of":"bore/1","across":[["66.9","66..9"]]}]`, `readings[0].across[0][1]: "66..9": a number has one decimal point (bore/1, level a, across)`},
	{"no repeats", `"unit":"mm","readings":[{"of":"bore/1","across":[[]]}]`, "readings[0].across[0]: an empty list; write null where nothing was measured"},
	{"an empty text", `"unit":"mm","readings":[{"of":"bore/1","across":[""]}]`, "readings[0].across[0]: an empty text; write null where nothing was measured"},
	{"below zero", `"unit":"mm","readings":[{"of":"bore/1","across":["-66.9"]}]`, "readings[0].across[0].size: -66.9 mm is not above zero (bore/1, level a, across)"},
	{"a row's stage", `"unit":"mm","readings":[{"of":"bore/1","stage":"new","across":["66.9"]}]`, `readings[0].stage: "new": none of as found, after work`},
	{"after no work", `"unit":"mm","readings":[{"of":"bore/1","stage":"after work","across":["66.9"]}]`, `readings[0].stage: "after work": the file lists no work`},
	{"a stage", `"unit":"mm","stage":"new"`, `stage: "new": none of as found, after work, final`},
	{"a stage after no work", `"unit":"mm","stage":"after work"`, `stage: "after work": the file lists no work`},
	{"a stage before work", `"unit":"mm","stage":"as found","work":[{"did":"honed","to":["bore/1"]}]`, `stage: "as found": the file lists work`},
	{"work on nothing", `"unit":"mm","work":[{"did":"honed"}]`, "work[0].to: it names no feature"},
	{"work on what is not there", `"unit":"mm","work":[{"did":"honed","to":["bore/2"]}]`, `work[0]: "bore/2": the layout has 1 bores`},
	{"work that is nothing", `"unit":"mm","work":[{"to":["bore/1"]}]`, "work[0].did: it is missing"},
	{"an amount", `"unit":"mm","work":[{"did":"honed","to":["bore/1"],"amount":"a bit"}]`, `work[0].amount: "a bit": not a number with its unit`},
	{"a title", `"unit":"mm","title":"a\u001b[31m"`, `details title: "a\x1b[31m": a text holds no control characters`},
	{"a long title", `"unit":"mm","title":"` + strings.Repeat("x", 201) + `"`, `details title: "` + strings.Repeat("x", 40) + `…": at most 200 bytes long`},
}

func TestPlainRefuses(t *testing.T) {
	for _, c := range meaningless {
		events, err := readPlainText(t, `{"borewright":1,`+c.text+`}`).Events("u1", at, "rk")
		if err == nil || err.Error() != c.want || events != nil {
			t.Errorf("%s: %d events\nand says  %v\nnot       %s", c.name, len(events), err, c.want)
		}
	}
	if _, err := readPlainText(t, b9).Events("shop", at, "rk"); err == nil || err.Error() != `details uid: "shop": this name belongs to the shop` {
		t.Errorf("the identity of the shop: %v", err)
	}
}
