package keying

// cell is what one key does in one situation.
type cell struct {
	do act
	// does says it in plain words, with {reading} for the place's reading; a
	// key without words is not listed.
	does string
	// off gives the reason for which the key is refused now; nil never.
	off func(State, View) string
	// late marks a key that gathers what arrives too late.
	late bool
}

// never refuses a key always, for the reason.
func never(reason string) cell {
	return cell{off: func(State, View) string { return reason }}
}

// arriving refuses a value and shows all of it.
var arriving = cell{do: late, late: true}

// none is a key that does nothing.
var none = cell{do: nothing}

// noted says that NumLock looks off, and start starts a number.
var (
	noted = cell{do: numLock}
	start = cell{do: add, does: "start the number"}
)

// table says what every key does in every situation.
var table = [situations][columns]cell{
	Empty: {
		colDigit: start, colPoint: start, colText: {do: add},
		colSign:  {do: add, does: "start with the sign", off: unsigned},
		colStar:  {do: goRepeat, does: "repeat the place just taken", off: nothingTaken},
		colSlash: {do: openMenu, does: "menu"},
		colEnter: none, colErase: none, colNavigation: noted, colOther: none,
	},
	Typing: {
		colDigit: {do: add, does: "add"}, colPoint: {do: add, does: "add"}, colText: {do: add},
		colSign:  {do: setSign, does: "set the sign", off: unsigned},
		colStar:  never("a number is being keyed; Enter takes it, / clears it"),
		colSlash: {do: giveUp, does: "clear"},
		colEnter: {do: complete, does: "take it"},
		colErase: {do: erase, does: "remove one character"}, colNavigation: noted, colOther: none,
	},
	Held: {
		colDigit: arriving, colPoint: arriving, colText: arriving, colSign: arriving,
		colStar:  {do: keep, does: "keep as keyed"},
		colSlash: {do: giveUp, does: "clear, same place"},
		colEnter: arriving, colErase: none, colNavigation: noted, colOther: none,
	},
	Menu: {
		colDigit: {do: choose, does: "choose"},
		colPoint: never(chooseOne), colText: never(chooseOne), colSign: never(chooseOne), colStar: never(chooseOne),
		colSlash: {do: back, does: "back one place"},
		colEnter: {do: shut, does: "close"},
		colErase: none, colNavigation: noted, colOther: none,
	},
	Revisit: {
		colDigit: {do: add, does: "replaces {reading}"}, colPoint: {do: add, does: "replaces {reading}"}, colText: {do: add},
		colSign:  {do: add, does: "start with the sign", off: unsigned},
		colStar:  {do: addRepeat, does: "add a repeat to {reading}"},
		colSlash: {do: openMenu, does: "menu"},
		colEnter: none, colErase: none, colNavigation: noted, colOther: none,
	},
	Repeating: {
		colDigit: {do: add, does: "start the repeat"}, colPoint: {do: add, does: "start the repeat"}, colText: {do: add},
		colSign:  {do: add, does: "start with the sign", off: unsigned},
		colStar:  never("a repeat is awaited already; key it, or / for the menu"),
		colSlash: {do: openMenu, does: "menu"},
		colEnter: none, colErase: none, colNavigation: noted, colOther: none,
	},
	Asked: {
		colDigit: start, colPoint: start, colText: {do: add},
		colSign:  {do: add, does: "start with the sign", off: unsigned},
		colStar:  never("a number is asked for; key it, or / to cancel"),
		colSlash: {do: cancel, does: "cancel"},
		colEnter: none, colErase: none, colNavigation: noted, colOther: none,
	},
}

const chooseOne = "the menu is open: choose 0 to 9, or / to go back one place"

// unsigned says why a sign is refused where it makes no sense.
func unsigned(s State, v View) string {
	if s.signed(v) {
		return ""
	}
	return "a sign makes no sense here"
}

func nothingTaken(_ State, v View) string {
	if v.JustTaken {
		return ""
	}
	return "nothing was taken just before"
}
