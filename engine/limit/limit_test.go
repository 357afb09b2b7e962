package limit_test

import (
	"testing"

	"pgregory.net/rapid"

	"borewright/engine/length"
	. "borewright/engine/limit"
	"borewright/engine/plan"
)

// w reads a written length; "" is nothing written.
func w(t interface{ Fatal(...any) }, text string) length.Written {
	if text == "" {
		return length.Written{}
	}
	out, err := length.Parse(text, length.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// at reads a length as a figure; "" is not measured.
func at(t interface{ Fatal(...any) }, text string) length.Exact { return w(t, text).Exact() }

// between reads a range.
func between(t interface{ Fatal(...any) }, low, high string) Range {
	return Range{Low: w(t, low), High: w(t, high)}
}

func TestDefinitions(t *testing.T) {
	for _, on := range Characteristics() {
		all := Definitions(on)
		if len(all) == 0 || all[0] != Usual(on) || KindOf(on) == AnyKind {
			t.Errorf("%s: definitions %q, usual %q, kind %d", on, all, Usual(on), KindOf(on))
		}
		all[0] = "changed"
		if Usual(on) == "changed" {
			t.Errorf("%s: the caller can change the table", on)
		}
	}
	if Usual("colour") != "" || KindOf("colour") != AnyKind || Definitions("colour") != nil {
		t.Error("an unknown characteristic has a definition")
	}
}

func TestDefinitionChosen(t *testing.T) {
	for _, c := range []struct {
		name    string
		l       Limits
		session Definition
		want    Definition
	}{
		{"its own first", Limits{On: Taper, By: Slope}, Spread, Slope},
		{"then the session's", Limits{On: Taper}, Spread, Spread},
		{"not another characteristic's", Limits{On: Taper}, MeanMean, EndToEnd},
		{"else the usual", Limits{On: Clearance}, "", SmallestLargest},
	} {
		if got := c.l.Definition(c.session); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestFind(t *testing.T) {
	family := Limits{On: Size, Of: "bore", Source: "family"}
	own := Limits{On: Size, Of: "bore/3", Source: "own"}
	all := []Limits{{On: Taper, Of: "bore/3"}, family, own}
	for at, want := range map[int]string{1: "family", 3: "own"} {
		got, ok := Find(all, Size, plan.Feature{Family: plan.Bore, At: at})
		if !ok || got.Source != want {
			t.Errorf("bore %d: %q %v, want %q", at, got.Source, ok, want)
		}
	}
	if got, ok := Find(all, Size, plan.Feature{Family: plan.Piston, At: 3}); ok {
		t.Errorf("piston 3 has %v", got)
	}
}

func TestJudgedBy(t *testing.T) {
	n, worn := between(t, "1 mm", "2 mm"), between(t, "", "3 mm")
	for _, c := range []struct {
		name    string
		l       Limits
		session string
		want    string
	}{
		{"the limits say", Limits{New: n, Wear: worn, JudgeBy: Wear}, New, Wear},
		{"the session says", Limits{New: n, Wear: worn}, Wear, Wear},
		{"new when nothing says", Limits{New: n, Wear: worn}, "", New},
		{"wear when there is no new", Limits{Wear: worn}, "", Wear},
		{"what is not there gives way", Limits{Wear: worn}, New, Wear},
		{"what is not there gives way", Limits{New: n, JudgeBy: Wear}, "", New},
		{"none", Limits{}, New, ""},
	} {
		if got := c.l.JudgedBy(c.session); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSigned(t *testing.T) {
	if !(Limits{New: between(t, "-0.001 in", "")}).Signed() || !(Limits{Wear: between(t, "0 in", "")}).Signed() {
		t.Error("a low side does not make a taper signed")
	}
	if (Limits{New: between(t, "", "0.001 in")}).Signed() {
		t.Error("a high side makes a taper signed")
	}
}

// written draws lengths of whole ten-thousandths of an inch in a range.
func written(low, high int64) *rapid.Generator[length.Written] {
	return rapid.Custom(func(t *rapid.T) length.Written {
		n := rapid.Int64Range(low, high).Draw(t, "ten-thousandths")
		return length.Written{Length: length.Length(n) * length.Inch / 10_000, Unit: length.In, Places: 4}
	})
}
