package keying

// Item is an item of the menu. Its zero value is Close; the numbers are the
// keys.
type Item uint8

// The items of the menu. BackOne is the slash.
const (
	CloseMenu Item = iota
	LeaveItOut
	GoForward
	GoNextFeature
	CheckZero
	ChooseGauge
	KeyTemperature
	WithdrawLast
	GoTo
	WorkDone
	BackOne
)

// row is one line of the menu: its key, its name, and either what it does or
// what it asks. Where the place stays, a repeat that was awaited still is.
type row struct {
	key    string
	name   string
	effect Effect
	asks   Asking
	stays  bool
}

// rows are the lines of the menu in the order shown; a digit chooses its row.
var rows = [...]row{
	CloseMenu:     {key: "0", name: "close", stays: true},
	LeaveItOut:    {key: "1", name: "leave out", effect: LeaveOut{}},
	GoForward:     {key: "2", name: "forward", effect: Forward{}},
	GoNextFeature: {key: "3", name: "next feature", effect: NextFeature{}},
	CheckZero: {
		key: "4", name: "zero check", stays: true,
		asks: Asking{What: AskZero, Title: "zero check: what does it read on its master?", Signed: true},
	},
	ChooseGauge: {
		key: "5", name: "gauge", stays: true,
		asks: Asking{What: AskGauge, Title: "which gauge?"},
	},
	KeyTemperature: {
		key: "6", name: "temperature", stays: true,
		asks: Asking{What: AskTemperature, Title: "temperature in °C?", Signed: true},
	},
	WithdrawLast: {key: "7", name: "withdraw last", effect: Withdraw{}},
	GoTo:         {key: "8", name: "go to", asks: Asking{What: AskGoTo, Title: "go to which?"}},
	WorkDone:     {key: "9", name: "work done here", asks: Asking{What: AskWork, Title: "what was done here?"}},
	BackOne:      {key: "/", name: "back one place", effect: Back{}},
}

// Items returns the items of the menu in the order of their keys.
func Items() []Item {
	out := make([]Item, len(rows))
	for i := range rows {
		out[i] = Item(i)
	}
	return out
}

// Key returns the key that chooses the item.
func (i Item) Key() string {
	if int(i) < len(rows) {
		return rows[i].key
	}
	return ""
}

// String returns the item's name in the menu.
func (i Item) String() string {
	if int(i) < len(rows) {
		return rows[i].name
	}
	return ""
}

// choose does what a digit chooses.
func choose(s State, t Token, v View) (State, []Effect) {
	return pick(s, Item(t.Rune-'0'), v)
}

// back goes back one place.
func back(s State, _ Token, v View) (State, []Effect) { return pick(s, BackOne, v) }

// shut closes the menu.
func shut(s State, _ Token, v View) (State, []Effect) { return pick(s, CloseMenu, v) }

// pick does what an item says, unless it is off.
func pick(s State, i Item, v View) (State, []Effect) {
	if i > BackOne {
		return s, nil
	}
	if why := v.Off[i]; why != "" {
		return s, refusal(why)
	}
	r := rows[i]
	next := State{Asking: r.asks, Repeat: s.Repeat && r.stays}
	switch {
	case r.effect != nil:
		return next, []Effect{r.effect}
	case next.asked():
		return next, []Effect{AskFor{r.asks.What}}
	default:
		return next, nil
	}
}
