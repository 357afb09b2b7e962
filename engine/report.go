package engine

import (
	"math"
	"strings"

	"borewright/engine/form"
	"borewright/engine/length"
	"borewright/engine/limit"
	"borewright/engine/plan"
)

// Report is an assessment as other programs read it. Lengths are text with
// their unit and diametral, "" when not measured.
type Report struct {
	Borewright int          `json:"borewright"`
	Digest     ReportDigest `json:"digest"`
	Title      string       `json:"title"`
	Unit       string       `json:"unit"`
	Places     ReportPlaces `json:"places"`
	// Prep is where the prep list stands, absent without one.
	Prep       *ReportPrep     `json:"prep,omitempty"`
	Findings   []ReportFinding `json:"findings"`
	Cylinders  []ReportRank    `json:"cylinders"`
	Mains      []ReportRank    `json:"mains"`
	Features   []ReportFeature `json:"features"`
	Clearances []ReportFit     `json:"clearances"`
	// Intended is what was decided, absent when nothing was.
	Intended []ReportIntention `json:"intended,omitempty"`
}

// ReportDigest proves which events were assessed: the last one's number and
// the hash of its stored bytes.
type ReportDigest struct {
	N      int64  `json:"n"`
	SHA256 string `json:"sha256"`
}

// ReportPlaces counts the places of the plan and those settled.
type ReportPlaces struct {
	Settled int `json:"settled"`
	Planned int `json:"planned"`
}

// ReportFinding is one characteristic as judged.
type ReportFinding struct {
	Of        string `json:"of"`
	With      string `json:"with,omitempty"`
	On        string `json:"on"`
	By        string `json:"by,omitempty"`
	Value     string `json:"value"`
	AsRead    string `json:"as_read,omitempty"`
	Bound     bool   `json:"bound,omitempty"`
	Level     string `json:"level,omitempty"`
	Direction string `json:"direction,omitempty"`
	Verdict   string `json:"verdict"`
	// Suspect says that it rests on a gauge whose zero cannot be believed.
	Suspect bool `json:"suspect,omitempty"`
	// Margin is the margin used: 0 at the target, 1 on a limit; absent when
	// there is no reference to rank by.
	Margin *float64 `json:"margin,omitempty"`
	Judged string   `json:"judged,omitempty"`
	Low    string   `json:"low,omitempty"`
	High   string   `json:"high,omitempty"`
	// Notes are what stays on the figure, such as "not yet washed".
	Notes []string `json:"notes,omitempty"`
	Text  string   `json:"text"`
	// Remedy says what to do about it.
	Remedy string `json:"remedy,omitempty"`
}

// ReportIntention is something that was decided and what came of it: a size or
// the clearance that it makes.
type ReportIntention struct {
	N         int64  `json:"n"`
	Text      string `json:"text"`
	Done      bool   `json:"done"`
	Predicted string `json:"predicted,omitempty"`
	Found     string `json:"found,omitempty"`
}

// ReportRank is a member of a summary line, worst first.
type ReportRank struct {
	Label   string `json:"label"`
	Verdict string `json:"verdict"`
	Worst   string `json:"worst,omitempty"`
}

// ReportFigures are the figures of one stage of a feature.
type ReportFigures struct {
	Read          int    `json:"read"`
	Smallest      string `json:"smallest"`
	Largest       string `json:"largest"`
	Mean          string `json:"mean"`
	OutOfRound    string `json:"out_of_round"`
	EndToEnd      string `json:"taper_end_to_end"`
	Spread        string `json:"taper_spread"`
	OverallSpread string `json:"overall_spread"`
	Shape         string `json:"shape,omitempty"`
	// Eccentricity is by how much a shell is larger at the parting line.
	Eccentricity string        `json:"eccentricity,omitempty"`
	Levels       []ReportLevel `json:"levels"`
}

// ReportLevel are the figures at one level.
type ReportLevel struct {
	Level           string `json:"level"`
	Smallest        string `json:"smallest"`
	Largest         string `json:"largest"`
	Mean            string `json:"mean"`
	OutOfRound      string `json:"out_of_round"`
	AcrossLessAlong string `json:"across_less_along,omitempty"`
}

// ReportFeature is one feature's figures.
type ReportFeature struct {
	Of      string `json:"of"`
	Name    string `json:"name"`
	Stage   string `json:"stage"`
	Planned int    `json:"planned"`
	LeftOut int    `json:"left_out,omitempty"`
	// Notes are what stays on its figures, such as "not yet washed".
	Notes []string `json:"notes,omitempty"`
	ReportFigures
	AsFound *ReportFigures `json:"as_found,omitempty"`
}

// ReportFit is one clearance.
type ReportFit struct {
	Hole     string `json:"hole"`
	Shaft    string `json:"shaft"`
	By       string `json:"by"`
	Judged   string `json:"judged"`
	Tightest string `json:"tightest"`
	Mean     string `json:"mean"`
	Loosest  string `json:"loosest"`
	Bound    bool   `json:"bound,omitempty"`
	// FromParts says that it is housing less walls less journal, Difference
	// the assembled clearance less that one.
	FromParts  bool   `json:"from_parts,omitempty"`
	Difference string `json:"difference,omitempty"`
}

// Report puts an assessment into the form that other programs read, in the
// session's unit.
func (a *Assessment) Report(s *Session) Report {
	settled, planned := s.Progress()
	r := Report{
		Borewright: 1, Digest: ReportDigest{a.Head.N, a.Head.Hash}, Title: s.details.Title,
		Unit: s.Unit().String(), Places: ReportPlaces{settled, planned},
		Prep: a.Ready.report(), Findings: []ReportFinding{}, Features: []ReportFeature{}, Clearances: []ReportFit{},
	}
	for _, f := range a.Findings {
		x := s.reportFinding(f)
		x.Remedy = a.Remedy(s, *f)
		r.Findings = append(r.Findings, x)
	}
	for _, x := range a.Intentions(s) {
		r.Intended = append(r.Intended, ReportIntention{x.N, x.Text, x.Done, s.exactText(x.Predicted), s.exactText(x.Found)})
	}
	r.Cylinders, r.Mains = reportRanks(a.Cylinders), reportRanks(a.Mains)
	for _, m := range a.Features {
		r.Features = append(r.Features, s.reportFeature(m))
	}
	for _, c := range a.Clearances {
		r.Clearances = append(r.Clearances, s.reportFit(c))
	}
	return r
}

func (s *Session) reportFinding(f *Finding) ReportFinding {
	out := ReportFinding{
		Of: f.Of.String(), On: string(f.On), By: string(f.By), Value: s.exactText(f.Value), AsRead: s.exactText(f.AsRead),
		Bound: f.Bound, Level: f.Level, Direction: f.Dir,
		Verdict: f.Judgement.Verdict.String(), Suspect: f.Judgement.Suspect, Judged: f.Judgement.By, Notes: f.Notes, Text: f.Text,
	}
	if !f.With.IsZero() {
		out.With = f.With.String()
	}
	if f.Judgement.Ranked && !math.IsInf(f.Judgement.Margin, 0) {
		m := math.Round(f.Judgement.Margin*1e6) / 1e6
		out.Margin = &m
	}
	r := f.Limits.Range(f.Judgement.By)
	out.Low, out.High = writtenOrNone(r.Low), writtenOrNone(r.High)
	return out
}

func writtenOrNone(w length.Written) string {
	if w.IsZero() {
		return ""
	}
	return w.String()
}

func reportRanks(rs []Ranking) []ReportRank {
	out := []ReportRank{}
	for _, r := range rs {
		x := ReportRank{Label: r.Label, Verdict: limit.NotMeasured.String()}
		if f, ok := r.Worst(); ok {
			x.Verdict, x.Worst = f.Judgement.Verdict.String(), f.Text
		}
		out = append(out, x)
	}
	return out
}

func (s *Session) reportFeature(m *Measured) ReportFeature {
	out := ReportFeature{
		Of: m.Of.String(), Name: m.Name, Stage: m.Stage, Planned: m.Planned, LeftOut: m.LeftOut, Notes: m.Notes,
		ReportFigures: s.reportFigures(m.Of, m.Figures),
	}
	out.Eccentricity = s.exactText(m.Eccentricity())
	if m.Worked {
		before := s.reportFigures(m.Of, *m.AsFound)
		out.AsFound = &before
	}
	return out
}

func (s *Session) reportFigures(f plan.Feature, x form.Figures) ReportFigures {
	out := ReportFigures{
		Read: x.Measured, Smallest: s.exactText(x.Smallest), Largest: s.exactText(x.Largest),
		Mean: s.exactText(x.Mean), OutOfRound: s.exactText(x.OutOfRound), EndToEnd: s.exactText(x.EndToEnd),
		Spread: s.exactText(x.Spread), OverallSpread: s.exactText(x.Overall), Shape: x.Shape.String(),
		Levels: []ReportLevel{},
	}
	g, _ := s.plan.Group(f.Family)
	for i, l := range x.Levels {
		out.Levels = append(out.Levels, ReportLevel{
			Level: g.Levels[i].Called(), Smallest: s.exactText(l.Smallest), Largest: s.exactText(l.Largest),
			Mean: s.exactText(l.Mean), OutOfRound: s.exactText(l.OutOfRound),
			AcrossLessAlong: s.exactText(l.AcrossLessAlong),
		})
	}
	return out
}

func (s *Session) reportFit(c *Fit) ReportFit {
	return ReportFit{
		Hole: c.Hole.String(), Shaft: c.Shaft.String(), By: string(c.Clearance.By), Judged: s.exactText(c.Clearance.Judged),
		Tightest: s.exactText(c.Clearance.Tightest), Mean: s.exactText(c.Clearance.Mean),
		Loosest: s.exactText(c.Clearance.Loosest), Bound: c.Clearance.Bound,
		FromParts: c.FromParts, Difference: s.exactText(c.Difference),
	}
}

// exactText writes a figure as [FigureText] does, with its unit.
func (s *Session) exactText(e length.Exact) string {
	if !e.Measured() {
		return ""
	}
	return FigureText(e, s.Unit()) + " " + s.Unit().String()
}

// FigureText writes a figure with two decimals more than the unit's usual, the
// zeros behind the usual ones taken away: a mean keeps its fraction. It is ""
// for one that is not measured.
func FigureText(e length.Exact, u length.Unit) string {
	if !e.Measured() {
		return ""
	}
	text := e.Format(u, u.Decimals()+2)
	for range 2 {
		text = strings.TrimSuffix(text, "0")
	}
	return text
}
