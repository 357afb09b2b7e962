package limit

import (
	"encoding/json"
	"math"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
)

// FuzzLimits: limits that are accepted judge every figure: inside exactly when
// neither limit is passed, with a margin that is a number.
func FuzzLimits(f *testing.F) {
	for _, text := range []string{
		`{"on":"size","of":"bore","new":{"low":"3.7490 in","high":"3.7510 in"},"target":"3.7500 in"}`,
		`{"on":"out-of-round","of":"bore/3","new":{"high":"0.0005 in"},"wear":{"high":"0.002 in"},"judge":"wear"}`,
		`{"on":"clearance","of":"main-bearing","new":{"low":"0.03 mm","high":"0.06 mm"}}`,
		`{"on":"taper","of":"bore","new":{"high":"0.0005 in"},"per":"1 in","travel":"3.5 in"}`,
		`{"on":"end gap","of":"top-ring","new":{"low":"0.014 in"}}`, `{"on":"size","of":"bore","new":{"low":"1 in","high":"0.5 in"}}`,
		`{"on":"size","of":"bore","new":{"low":"99999999 in","high":"0.000000000001 mm"}}`,
	} {
		f.Add([]byte(text), int64(95_250_000_000), uint8(0), int64(1_000_000), false)
		f.Add([]byte(text), int64(-1), uint8(1), int64(0), true)
	}
	f.Fuzz(func(t *testing.T, data []byte, y int64, shape uint8, doubt int64, guard bool) {
		var l Limits
		if json.Unmarshal(data, &l) != nil {
			return
		}
		if err := l.Validate(); err != nil {
			if err.Error() == "" {
				t.Fatalf("%s is refused without a word", data)
			}
			return
		}
		const most = int64(1) << 52 // 4.5 km in picometres
		value := length.Of(length.Length(y % most))
		s := Subject{Shape: plan.Shape(shape % 3), Doubt: length.Length(max(doubt%most, -(doubt % most))), Guard: guard}
		j := l.Judge(value, s)
		if j.Ranked && (math.IsNaN(j.Margin) || math.IsInf(j.Margin, 0)) {
			t.Fatalf("%s judges %v with a margin of %v", data, value, j.Margin)
		}
		if j.Ranked && !guard && (j.Margin > 1) != (j.Verdict == Outside) && !j.Interference {
			t.Fatalf("%s judges %v as %v with a margin of %v", data, value, j.Verdict, j.Margin)
		}
		for _, d := range l.Doubts(nil) {
			if d.String() == "" {
				t.Fatalf("%s is doubted without a word", data)
			}
		}
	})
}
