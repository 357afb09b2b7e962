package tui

import (
	"fmt"

	"borewright/engine"
	"borewright/engine/plan"
)

// makeSeats lists where the parts of a kind sit and where they would sit best.
func (s *fits) makeSeats(part plan.Family) fitsPage {
	session, now := s.desk.Session, s.now()
	x := session.Arrange(s.desk.Now, part)
	tried := now.s.Arrange(now.a, part)
	noun := part.Noun()
	p := fitsPage{
		name: part.Plural(), as: "as it is", best2: "best", notes: x.Missing, best: x.Changes,
		asks: func(r fitsRow) string { return "key the " + noun + " to try at " + r.name },
		read: func(r fitsRow, text string) ([]engine.Change, error) { return s.seat(part, r.of, text) },
	}
	gain := "as numbered against best: " + engine.GainText(x.Numbered, x.Best)
	if !x.Now.Same(x.Numbered) {
		gain += "; as it is against best: " + engine.GainText(x.Now, x.Best)
	}
	for i, seat := range x.Seats {
		row := fitsRow{name: seat.Name, of: seat.Seat, about: []string{gain}}
		row.asIs = cellOf(s.partWord(seat.Now), seat.NowFit)
		row.finer = cellOf(s.partWord(seat.Best), seat.BestFit)
		if i < len(tried.Seats) {
			row.tried = cellOf(s.partWord(tried.Seats[i].Now), tried.Seats[i].NowFit)
		}
		if seat.Best != seat.Now && !seat.Best.IsZero() {
			row.best, _ = s.seat(part, seat.Seat, session.Layout().Label(seat.Best))
		}
		if seat.NowFit.Text != "" {
			row.about = append(row.about, seat.NowFit.Text)
		}
		p.rows = append(p.rows, row)
	}
	return p
}

// partWord says which part it is, or that there is none.
func (s *fits) partWord(part plan.Feature) string {
	if part.IsZero() {
		return "none"
	}
	return part.Family.Noun() + " " + s.desk.Session.Layout().Label(part)
}

// seat puts the part that is called so to a position, and the part that was
// there to where that one came from.
func (s *fits) seat(part plan.Family, at plan.Feature, label string) ([]engine.Change, error) {
	session := s.now().s
	f, ok := labelled(session.Layout(), part, label)
	if !ok {
		return nil, fmt.Errorf("there is no %s %s", part.Noun(), label)
	}
	from := session.Seat(f)
	there := session.FeatureAt(part, f.Part, at.At)
	out := s.seating(f, at)
	if from > 0 && from != at.At && !there.IsZero() {
		out = append(out, s.seating(there, plan.Feature{Family: at.Family, At: from})...)
	}
	return out, nil
}

// seating puts a part to a position, of a shell both halves.
func (s *fits) seating(f, at plan.Feature) []engine.Change {
	out := []engine.Change{{Did: engine.Seat, Of: f, At: at}}
	if f.Part == plan.Upper {
		f.Part = plan.Lower
		out = append(out, engine.Change{Did: engine.Seat, Of: f, At: at})
	}
	return out
}
