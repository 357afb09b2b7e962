package tui

import (
	"testing"

	"borewright/engine/record"
)

func TestTheRulesForGaugesAreSettable(t *testing.T) {
	b, s := atGauges(t)
	b.press("r", "0.0002", "<down>", "12", "<down>", "3,5", "<down>", "<right>", "<down>", "0,1", "<down>", "<right>", "<down>", "2", "<f2>")
	top[*gaugesScreen](b.station)
	r := b.last(launchUID).Body.(record.Rules)
	if r.Drift.String() != "0.0002 in" || r.StaleHours != 12 || r.StaleWarm != "3.5" || !r.DriftSpread || r.BlindRate != "0.1" || r.Decision != record.Guarded || r.Coverage != "2" {
		t.Errorf("recorded %+v", r)
	}
	if s.desk.Session.StaleHours() != 12 {
		t.Errorf("a zero holds for %d hours", s.desk.Session.StaleHours())
	}
	n := b.last(launchUID).N
	b.press("r", "<f2>")
	if b.last(launchUID).N != n {
		t.Error("nothing was changed, and something is recorded")
	}
}

func TestImpossibleRulesAreNotKept(t *testing.T) {
	for _, keys := range [][]string{{"-0.0002"}, {"<down>", "0"}, {"<down>", "1.5"}, {"<down>", "<down>", "101"}, {"<down>", "<down>", "<down>", "<down>", "1.1"}, {"<down>", "<down>", "<down>", "<down>", "-.1"}, {"<down>", "<down>", "<down>", "<down>", "<down>", "<down>", "99"}} {
		b, _ := atGauges(t)
		n := b.last(launchUID).N
		b.press("r")
		b.press(keys...)
		b.press("<f2>")
		if _, open := b.r.top().(*entry); !open || b.last(launchUID).N != n {
			t.Errorf("%v is kept: %+v", keys, b.last(launchUID).Body)
		}
	}
}
