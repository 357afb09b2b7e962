package keying_test

import (
	"reflect"
	"testing"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/tui/keying"
)

// The keys, each column of the design's table and the keys beside it.
var (
	digit  = keying.Token{Kind: keying.Digit, Rune: '5'}
	point  = keying.Token{Kind: keying.Point, Rune: '.'}
	comma  = keying.Token{Kind: keying.Point, Rune: ','}
	plus   = keying.Token{Kind: keying.Plus, Rune: '+'}
	minus  = keying.Token{Kind: keying.Minus, Rune: '-'}
	star   = keying.Token{Kind: keying.Star, Rune: '*'}
	slash  = keying.Token{Kind: keying.Slash, Rune: '/'}
	enter  = keying.Token{Kind: keying.Enter}
	erase  = keying.Token{Kind: keying.Erase}
	letter = keying.Token{Kind: keying.Text, Rune: 'O'}
	arrow  = keying.Token{Kind: keying.Navigation}
	escape = keying.Token{Kind: keying.Escape}
	ctrl   = keying.Token{Kind: keying.Control}
	other  = keying.Token{}
)

var everyKey = map[string]keying.Token{
	"5": digit, ".": point, ",": comma, "+": plus, "-": minus, "*": star, "/": slash, "enter": enter,
	"erase": erase, "letter": letter, "arrow": arrow, "escape": escape, "ctrl": ctrl, "other": other,
}

// ring is what goes with every refusal and every hold.
func refused(reason string) []keying.Effect {
	return []keying.Effect{keying.Refuse{Reason: reason}, keying.Bell{Times: 2}}
}

// reading is a meaning to be kept, so that a held one can be.
var reading = gauge.Meaning{Size: length.Written{Length: 67 * length.Millimetre, Unit: length.MM, Places: 3}}

var (
	fine = gauge.Result{Kind: gauge.Taken, Meaning: reading}
	slip = gauge.Result{Kind: gauge.Held, Meaning: reading, Reason: "one turn out?", Likely: "67.018 mm", Slip: gauge.OneTurn}
	twin = gauge.Result{Kind: gauge.Held, Reason: "ends two sizes", Slip: gauge.Ambiguous}
	bad  = gauge.Result{Kind: gauge.Refused, Reason: "a point alone is no number"}
)

// answers makes a Read that always answers so.
func answers(r gauge.Result) func(string, bool) gauge.Result {
	return func(string, bool) gauge.Result { return r }
}

// step is what a key is expected to do.
type step struct {
	next    keying.State
	effects []keying.Effect
}

func typing(text string) keying.State { return keying.State{At: keying.Typing, Text: text} }

const (
	heldReason = "held: * keeps it as keyed, / clears it"
	menuReason = "the menu is open: choose 0 to 9, or / to go back one place"
	noSign     = "a sign makes no sense here"
)

// The table of the design, written out: what every key does in every situation.
// Signs make sense, and nothing is off.
func TestEveryKeyInEverySituation(t *testing.T) {
	type rows = map[string]step
	none := func(s keying.State) step { return step{s, nil} }
	numLock := func(s keying.State) step { return step{s, []keying.Effect{keying.NumLockOff{}}} }

	empty := keying.State{}
	repeating := keying.State{Repeat: true}
	asked := keying.State{Asking: keying.Asking{What: "temperature", Signed: true}}
	mid := typing("3.7")
	answering := asked
	answering.At, answering.Text = keying.Typing, "3.7"
	held := keying.State{At: keying.Held, Text: "67.518", Held: slip}
	heldAnswer := held
	heldAnswer.Asking = asked.Asking
	menu := keying.State{At: keying.Menu}

	with := func(s keying.State, at keying.Situation, text string) keying.State {
		s.At, s.Text = at, text
		return s
	}
	late := func(s keying.State, r rune) step {
		s.Arrived = string(r)
		return step{s, refused(heldReason)}
	}
	dropped := func(s keying.State, reason string) step {
		s.Dropped = true
		return step{s, refused(reason)}
	}
	// starts are the keys that start a number, alike wherever nothing is keyed.
	starts := func(s keying.State, more rows) rows {
		out := rows{
			"5": none(with(s, keying.Typing, "5")), ".": none(with(s, keying.Typing, ".")), ",": none(with(s, keying.Typing, ",")),
			"+": none(with(s, keying.Typing, "+")), "-": none(with(s, keying.Typing, "-")), "letter": none(with(s, keying.Typing, "O")),
			"enter": none(s), "erase": none(s), "arrow": numLock(s), "escape": none(s), "ctrl": none(s), "other": none(s),
		}
		for key, do := range more {
			out[key] = do
		}
		return out
	}
	types := func(s keying.State, done step) rows {
		return rows{
			"5": none(with(s, keying.Typing, "3.75")), ".": none(with(s, keying.Typing, "3.7.")), ",": none(with(s, keying.Typing, "3.7,")),
			"+": none(with(s, keying.Typing, "3.7+")), "-": none(with(s, keying.Typing, "3.7-")), "letter": none(with(s, keying.Typing, "3.7O")),
			"*": dropped(s, "a number is being keyed; Enter takes it, / clears it"),
			"/": none(with(s, keying.Empty, "")), "enter": done, "erase": none(with(s, keying.Typing, "3.")),
			"arrow": numLock(s), "escape": none(s), "ctrl": none(s), "other": none(s),
		}
	}
	holds := func(s, cleared keying.State, kept step) rows {
		return rows{
			"5": late(s, '5'), ".": late(s, '.'), ",": late(s, ','), "+": late(s, '+'), "-": late(s, '-'), "letter": late(s, 'O'),
			"*": kept, "/": none(cleared), "enter": {s, refused(heldReason)},
			"erase": none(s), "arrow": numLock(s), "escape": none(s), "ctrl": none(s), "other": none(s),
		}
	}
	take := func(as keying.As, text string, r gauge.Result, despite string) step {
		return step{empty, []keying.Effect{keying.Take{Text: text, Result: r, As: as, Despite: despite}}}
	}
	answer := func(text string, r gauge.Result, despite string) step {
		return step{empty, []keying.Effect{keying.Answer{What: "temperature", Text: text, Result: r, Despite: despite}}}
	}

	for _, tt := range []struct {
		name  string
		at    keying.Situation
		state keying.State
		view  keying.View
		want  rows
	}{
		{"empty", keying.Empty, empty, keying.View{}, starts(empty, rows{
			"*": {repeating, []keying.Effect{keying.GoRepeat{}}}, "/": none(menu),
		})},
		{"revisit", keying.Revisit, empty, keying.View{HasReading: true}, starts(empty, rows{
			"*": none(repeating), "/": none(menu),
		})},
		{"repeating", keying.Repeating, repeating, keying.View{HasReading: true}, starts(repeating, rows{
			"*": {repeating, refused("a repeat is awaited already; key it, or / for the menu")},
			"/": none(with(repeating, keying.Menu, "")),
		})},
		{"asked", keying.Asked, asked, keying.View{}, starts(asked, rows{
			"*": {asked, refused("a number is asked for; key it, or / to cancel")},
			"/": {empty, []keying.Effect{keying.Cancel{What: "temperature"}}},
		})},
		{"typing", keying.Typing, mid, keying.View{}, types(mid, take(keying.First, "3.7", fine, ""))},
		{"typing on a revisit", keying.Typing, mid, keying.View{HasReading: true}, types(mid, take(keying.Replace, "3.7", fine, ""))},
		{"typing a repeat", keying.Typing, with(repeating, keying.Typing, "3.7"), keying.View{HasReading: true}, types(with(repeating, keying.Typing, "3.7"), take(keying.Repeat, "3.7", fine, ""))},
		{"typing an answer", keying.Typing, answering, keying.View{}, types(answering, answer("3.7", fine, ""))},
		{"held", keying.Held, held, keying.View{}, holds(held, empty, take(keying.First, "67.518", slip, "one turn out?"))},
		{"held on a revisit", keying.Held, held, keying.View{HasReading: true}, holds(held, empty, take(keying.Replace, "67.518", slip, "one turn out?"))},
		{"held answer", keying.Held, heldAnswer, keying.View{}, holds(heldAnswer, asked, answer("67.518", slip, "one turn out?"))},
		{"menu", keying.Menu, menu, keying.View{}, rows{
			"5": {keying.State{Asking: keying.Asking{What: keying.AskGauge, Title: "which gauge?"}}, []keying.Effect{keying.AskFor{What: keying.AskGauge}}},
			".": {menu, refused(menuReason)}, ",": {menu, refused(menuReason)}, "+": {menu, refused(menuReason)}, "-": {menu, refused(menuReason)},
			"*": {menu, refused(menuReason)}, "letter": {menu, refused(menuReason)},
			"/": {empty, []keying.Effect{keying.Back{}}}, "enter": none(empty), "erase": none(menu),
			"arrow": numLock(menu), "escape": none(menu), "ctrl": none(menu), "other": none(menu),
		}},
	} {
		tt.view.Signed, tt.view.JustTaken, tt.view.Read = true, true, answers(fine)
		if at := keying.Where(tt.state, tt.view); at != tt.at {
			t.Errorf("%s: the state is %q", tt.name, at)
		}
		for key, token := range everyKey {
			want, ok := tt.want[key]
			if !ok {
				t.Errorf("%s: nothing is expected of %s", tt.name, key)
				continue
			}
			next, effects := keying.Step(tt.state, token, tt.view)
			if !reflect.DeepEqual(next, want.next) || !reflect.DeepEqual(effects, want.effects) {
				t.Errorf("%s, key %s:\n got %+v %+v\nwant %+v %+v", tt.name, key, next, effects, want.next, want.effects)
			}
		}
	}
}

// The menu's digits, each with what it does.
func TestEveryItemOfTheMenu(t *testing.T) {
	want := map[rune]struct {
		asking string
		effect keying.Effect
		stays  bool
	}{
		'0': {"", nil, true},
		'1': {"", keying.LeaveOut{}, false},
		'2': {"", keying.Forward{}, false},
		'3': {"", keying.NextFeature{}, false},
		'4': {keying.AskZero, keying.AskFor{What: keying.AskZero}, true},
		'5': {keying.AskGauge, keying.AskFor{What: keying.AskGauge}, true},
		'6': {keying.AskTemperature, keying.AskFor{What: keying.AskTemperature}, true},
		'7': {"", keying.Withdraw{}, false},
		'8': {keying.AskGoTo, keying.AskFor{What: keying.AskGoTo}, false},
		'9': {keying.AskWork, keying.AskFor{What: keying.AskWork}, false},
	}
	for key, w := range want {
		menu := keying.State{At: keying.Menu, Repeat: true}
		next, effects := keying.Step(menu, keying.Token{Kind: keying.Digit, Rune: key}, keying.View{})
		if next.At != keying.Empty || next.Asking.What != w.asking || next.Repeat != w.stays {
			t.Errorf("%c: next is %+v", key, next)
		}
		if w.asking != "" && next.Asking.Title == "" {
			t.Errorf("%c: nothing says what is asked", key)
		}
		if w.effect == nil && effects != nil || w.effect != nil && !reflect.DeepEqual(effects, []keying.Effect{w.effect}) {
			t.Errorf("%c: %+v, want %+v", key, effects, w.effect)
		}
		off := keying.View{Off: map[keying.Item]string{keying.Item(key - '0'): "nothing is left"}}
		next, effects = keying.Step(menu, keying.Token{Kind: keying.Digit, Rune: key}, off)
		if !reflect.DeepEqual(next, menu) || !reflect.DeepEqual(effects, refused("nothing is left")) {
			t.Errorf("%c off: %+v %+v", key, next, effects)
		}
	}
	back := keying.View{Off: map[keying.Item]string{keying.BackOne: "this is the first place"}}
	if next, effects := keying.Step(keying.State{At: keying.Menu}, slash, back); next.At != keying.Menu || !reflect.DeepEqual(effects, refused("this is the first place")) {
		t.Errorf("back off: %+v %+v", next, effects)
	}
}

// What is refused where it makes no sense, and what the host's knowledge changes.
func TestWhatMakesNoSenseIsRefused(t *testing.T) {
	for _, tt := range []struct {
		name   string
		state  keying.State
		token  keying.Token
		view   keying.View
		reason string
	}{
		{"sign at the start", keying.State{}, minus, keying.View{}, noSign},
		{"sign on a revisit", keying.State{}, plus, keying.View{HasReading: true}, noSign},
		{"sign of a repeat", keying.State{Repeat: true}, plus, keying.View{HasReading: true}, noSign},
		{"sign in a number", typing("3"), minus, keying.View{}, noSign},
		{"sign of an answer", keying.Ask(keying.State{}, keying.Asking{What: "go to"}), minus, keying.View{Signed: true}, noSign},
		{"repeat of nothing", keying.State{}, star, keying.View{}, "nothing was taken just before"},
		{"a reading that means nothing", typing("."), enter, keying.View{Read: answers(bad)}, "a point alone is no number"},
		{"nothing to read with", typing("3"), enter, keying.View{}, "nothing can be read here yet"},
		{"two meanings are not kept", keying.State{At: keying.Held, Text: "000", Held: twin}, star, keying.View{}, "it has two meanings; / clears it, then key it in full"},
	} {
		next, effects := keying.Step(tt.state, tt.token, tt.view)
		next.Dropped = false
		if !reflect.DeepEqual(next, tt.state) || !reflect.DeepEqual(effects, refused(tt.reason)) {
			t.Errorf("%s: %+v %+v", tt.name, next, effects)
		}
	}
}

func TestHoldShowsTheReasonAndRings(t *testing.T) {
	next, effects := keying.Step(typing("67.518"), enter, keying.View{Read: answers(slip)})
	want := keying.State{At: keying.Held, Text: "67.518", Held: slip}
	if !reflect.DeepEqual(next, want) || !reflect.DeepEqual(effects, []keying.Effect{keying.Hold{Result: slip}, keying.Bell{Times: 2}}) {
		t.Errorf("%+v %+v", next, effects)
	}
}

func TestAnAnswerNeedsNoRead(t *testing.T) {
	s := keying.Ask(keying.State{Repeat: true}, keying.Asking{What: "initials"})
	s, _ = keying.Step(s, digit, keying.View{})
	s, effects := keying.Step(s, enter, keying.View{})
	want := []keying.Effect{keying.Answer{What: "initials", Text: "5", Result: gauge.Result{Kind: gauge.Taken}}}
	if !reflect.DeepEqual(effects, want) || !s.Repeat {
		t.Errorf("%+v %+v", s, effects)
	}
}
