package fit_test

import (
	"testing"

	. "borewright/engine/fit"
)

func rungs(t fataler, by ...string) []Rung {
	var out []Rung
	for _, b := range by {
		out = append(out, Rung{Name: b, By: at(t, b).Round()})
	}
	return out
}

// TM 5-3805-260-24: 4.5000-4.5015, oversizes 0.020 and 0.040; worn by more than
// 0.020 it goes to 0.040.
func TestOversize(t *testing.T) {
	ladder, fresh := rungs(t, "0.040", "0.020"), from(t, "4.5000", "4.5015")
	for _, c := range []struct{ largest, stock, want string }{
		{"4.5012", "0", "0.020"},
		{"4.5200", "0", "0.020"},
		{"4.5201", "0", "0.040"},
		{"4.5190", "0.0015", "0.040"},
		{"4.5185", "0.0015", "0.020"},
		{"4.5400", "0", "0.040"},
		{"4.5401", "0", ""},
		{"", "0", ""},
	} {
		r, ok := Oversize(ladder, fresh, at(t, c.largest), at(t, c.stock))
		if r.Name != c.want || ok != (c.want != "") {
			t.Errorf("largest %s, stock %s: %q %v, want %q", c.largest, c.stock, r.Name, ok, c.want)
		}
	}
	if r := ladder[1].Bored(fresh); r != from(t, "4.5200", "4.5215") {
		t.Errorf("bored to %v", r)
	}
}

// TM 5-3805-262-34 p. 4-23: mains of 2.998-2.999 are ground to 2.988-2.989,
// 2.978-2.979 or 2.968-2.969, all of them if one is.
func TestUndersize(t *testing.T) {
	ladder, fresh := rungs(t, "0.010", "0.020", "0.030"), from(t, "2.998", "2.999")
	for _, c := range []struct{ least, stock, want, low, high string }{
		{"2.9975", "0.002", "0.010", "2.988", "2.989"},
		{"2.9890", "0", "0.010", "2.988", "2.989"},
		{"2.9889", "0", "0.020", "2.978", "2.979"},
		{"2.9800", "0.002", "0.030", "2.968", "2.969"},
		{"2.9689", "0", "", "", ""},
	} {
		r, ok := Undersize(ladder, fresh, at(t, c.least), at(t, c.stock))
		if r.Name != c.want || ok != (c.want != "") {
			t.Errorf("least %s: %q, want %q", c.least, r.Name, c.want)
		}
		if ok && r.Ground(fresh) != from(t, c.low, c.high) {
			t.Errorf("least %s: ground to %v", c.least, r.Ground(fresh))
		}
	}
	if _, ok := Undersize(nil, fresh, at(t, "2.9975"), at(t, "0")); ok {
		t.Error("a rung of no ladder")
	}
}

func TestWithWashers(t *testing.T) {
	var got []string
	for _, w := range WithWashers(rungs(t, "0.0025", "0.0050"), at(t, "0.0160")) {
		got = append(got, in(w.Play))
		if len(w.Names) < 1 || len(w.Names) > 2 || in(at(t, "0.0160").Sub(w.Play)) == "0.0000" {
			t.Errorf("%+v", w)
		}
	}
	want := []string{"0.0135", "0.0110", "0.0085", "0.0110", "0.0060"}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("play %v, want %v", got, want)
		}
	}
	if WithWashers(rungs(t, "0.0025"), at(t, "")) != nil {
		t.Error("washers for a play that was not measured")
	}
}
