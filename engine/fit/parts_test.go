package fit_test

import (
	"testing"

	. "borewright/engine/fit"
	"borewright/engine/length"
)

func text(r Range) string { return in(length.Of(r.Low)) + "-" + in(length.Of(r.High)) }

// TM 9-2815-202-34, wear table: big-end housing 3.2495-3.2515, wall
// 0.1240-0.1245, installed 3.0005-3.0035.
func TestInstalled(t *testing.T) {
	if got := text(Installed(from(t, "3.2495", "3.2515"), from(t, "0.1240", "0.1245"))); got != "3.0005-3.0035" {
		t.Error(got)
	}
}

// TM 55-1905-219-14-10 and TM 9-2815-202-34 p. 4-156: housing 4.812-4.813, wall
// 0.1545-0.1552, clearance 0.0016-0.0050 make a journal of 4.4990-4.5000
// (derived).
func TestJournalFor(t *testing.T) {
	housing, wall := from(t, "4.812", "4.813"), from(t, "0.1545", "0.1552")
	got, ok := JournalFor(housing, wall, from(t, "0.0016", "0.0050"))
	if !ok || text(got) != "4.4990-4.5000" {
		t.Error(text(got), ok)
	}
	if back := Clearances(Installed(housing, wall), got); text(back) != "0.0016-0.0050" {
		t.Errorf("that journal runs with %s", text(back))
	}
	if got, ok := JournalFor(housing, wall, from(t, "0.0016", "0.0039")); ok {
		t.Errorf("a clearance narrower than the parts leaves %s", text(got))
	}
}

// TM 9-2815-202-34 p. 6-35 and TM 5-3810-303-24: liner 4.2495-4.2511, skirt
// 4.2428-4.2450, clearance 0.0045-0.0083. In binary floating point 4.2511 -
// 4.2428 is more than 0.0083.
func TestClearances(t *testing.T) {
	got := Clearances(from(t, "4.2495", "4.2511"), from(t, "4.2428", "4.2450"))
	if text(got) != "0.0045-0.0083" || got != from(t, "0.0045", "0.0083") {
		t.Error(text(got))
	}
	if largest, smallest := 4.2511, 4.2428; largest-smallest <= 0.0083 {
		t.Error("floating point has become exact")
	}
	if most := at(t, "4.2511").Sub(at(t, "4.2428")); !got.Contains(most) {
		t.Errorf("a part at the printed maximum, %v, is not inside", most)
	}
}

// TM 9-2815-205-34 p. 3-203: the wall steps by half the undersize.
func TestUndersizeWall(t *testing.T) {
	standard := from(t, "0.1247", "0.1252")
	for undersize, want := range map[string]string{
		"0": "0.1247-0.1252", "0.002": "0.1257-0.1262", "0.010": "0.1297-0.1302",
		"0.020": "0.1347-0.1352", "0.030": "0.1397-0.1402", "-0.001": "0.1242-0.1247",
	} {
		if got := text(UndersizeWall(standard, at(t, undersize).Round())); got != want {
			t.Errorf("%s: %s, want %s", undersize, got, want)
		}
	}
}

// 0.001 undersize shells take 0.003 clearance to 0.002 (trade press; as the
// walls of TM 9-2815-205-34 p. 3-203 do).
func TestShellChange(t *testing.T) {
	for _, c := range []struct{ upper, lower, change, shift string }{
		{"0.001", "0.001", "-0.0010", "0.0000"},
		{"0.001", "0", "-0.0005", "-0.0002"},
		{"0", "0.002", "-0.0010", "0.0005"},
		{"-0.001", "-0.001", "0.0010", "0.0000"},
	} {
		upper, lower := at(t, c.upper).Round(), at(t, c.lower).Round()
		if got := in(ShellChange(upper, lower)); got != c.change {
			t.Errorf("%s over %s: %s, want %s", c.upper, c.lower, got, c.change)
		}
		if got := in(CentreShift(upper, lower)); got != c.shift {
			t.Errorf("%s over %s moves the centre by %s, want %s", c.upper, c.lower, got, c.shift)
		}
	}
	if got := at(t, "0.003").Add(ShellChange(at(t, "0.001").Round(), at(t, "0.001").Round())); in(got) != "0.0020" {
		t.Errorf("0.003 becomes %s", in(got))
	}
}

// From parts: the walls of an undersize shell close the clearance by what
// ShellChange says.
func TestFromParts(t *testing.T) {
	housing, wall, journal := at(t, "3.2500"), at(t, "0.1240"), at(t, "2.9990")
	standard := FromParts(housing, wall, wall, journal)
	if in(standard) != "0.0030" {
		t.Errorf("standard %s", in(standard))
	}
	thick := UndersizeWall(Range{wall.Round(), wall.Round()}, at(t, "0.001").Round()).Low
	mixed := FromParts(housing, length.Of(thick), wall, journal)
	if mixed != standard.Add(ShellChange(at(t, "0.001").Round(), 0)) {
		t.Errorf("mixed halves %s", in(mixed))
	}
	if FromParts(housing, length.Exact{}, wall, journal).Measured() {
		t.Error("a missing wall makes a clearance")
	}
}

// TM 55-1905-219-14-10 p. 5-368: 4.6260-4.6275 standard liner, 4.6270-4.6285
// first oversize; 4.6270-4.6275 fits both.
func TestSelection(t *testing.T) {
	ladder := []Choice{
		{"standard", from(t, "4.6260", "4.6275")},
		{"first oversize", from(t, "4.6270", "4.6285")},
	}
	for size, want := range map[string]string{
		"4.6259": "not covered by the table", "4.6260": "standard fits", "4.6269": "standard fits",
		"4.6270": "standard and first oversize both fit", "4.6275": "standard and first oversize both fit",
		"4.6276": "first oversize fits", "4.6285": "first oversize fits", "4.6286": "not covered by the table",
		"": "not measured",
	} {
		if got := Selection(ladder, at(t, size)).String(); got != want {
			t.Errorf("%s: %s, want %s", size, got, want)
		}
	}
	three := append(ladder, Choice{"any", from(t, "4", "5")})
	if got := Selection(three, at(t, "4.6272")).String(); got != "standard, first oversize and any all fit" {
		t.Error(got)
	}
}

// TM 5-6115-593-34 p. 1-9: a bore 0.001 larger opens the gap by π × 0.001, which
// it prints as 0.003.
func TestGap(t *testing.T) {
	got := GapChange(at(t, "0.001"))
	if got.Format(length.In, 7) != "0.0031416" || got.Format(length.In, 3) != "0.003" {
		t.Errorf("%s", got.Format(length.In, 7))
	}
	if back := GapChange(at(t, "-0.001")); back != got.Neg() {
		t.Errorf("0.001 smaller: %s", in(back))
	}
	small := GapAt(at(t, "0.0180"), at(t, "4.0020"), at(t, "4.0010"))
	if in(small) != "0.0149" {
		t.Errorf("at the smallest place %s", in(small))
	}
	if GapChange(length.Exact{}).Measured() || GapAt(at(t, "0.018"), length.Exact{}, at(t, "4")).Measured() {
		t.Error("what is not measured has a gap")
	}
}
