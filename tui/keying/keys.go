package keying

import "strings"

// KeyHelp is one line of what the keys do now. Off gives the reason when the
// key is off.
type KeyHelp struct {
	Key  string
	Does string
	Off  string
}

// Keys says what every key does in the state, from the table that Step uses and
// in its order. Keys that do the same stand together; keys that do nothing, or
// are refused there always, are left out.
func Keys(s State, v View) []KeyHelp {
	at := Where(s, v)
	if at == Menu {
		return menuKeys(v)
	}
	out := make([]KeyHelp, 0, len(keyNames))
	for col, c := range table[at] {
		if c.does == "" {
			continue
		}
		help := KeyHelp{Key: keyNames[col], Does: strings.ReplaceAll(c.does, "{reading}", v.Reading)}
		if c.off != nil {
			help.Off = c.off(s, v)
		}
		if last := len(out) - 1; last >= 0 && out[last].Does == help.Does && out[last].Off == help.Off {
			out[last].Key += " " + help.Key
			continue
		}
		out = append(out, help)
	}
	return out
}

// menuKeys are the items of the menu, back and close last.
func menuKeys(v View) []KeyHelp {
	var out []KeyHelp
	for _, i := range append(Items()[1:], CloseMenu) {
		key := i.Key()
		if i == CloseMenu {
			key += " " + keyNames[colEnter]
		}
		out = append(out, KeyHelp{Key: key, Does: i.String(), Off: v.Off[i]})
	}
	return out
}

// Prompt says in plain words where the keying stands.
func Prompt(s State, v View) string {
	switch Where(s, v) {
	case Typing:
		return "keying: nothing is taken before Enter"
	case Held:
		return "HELD: " + s.Held.Reason
	case Menu:
		return "menu"
	case Revisit:
		return "this place reads " + v.Reading + ": a new number replaces it"
	case Repeating:
		if v.Reading != "" {
			return "repeat: the number is added to " + v.Reading
		}
		return "repeat: the number is added"
	case Asked:
		return s.Asking.Title
	default:
		return "key the reading"
	}
}
