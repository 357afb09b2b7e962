package engine

import (
	"maps"
	"slices"
	"strconv"

	"borewright/engine/gauge"
	"borewright/engine/length"
	"borewright/engine/record"
)

// Shop is what outlives a session, as its stream tells it. So far these are the
// instruments, each once under its name. The zero value is an empty shop.
type Shop struct {
	Instruments []gauge.Instrument
	// said are the live events that say an instrument, by its id.
	said map[string][]int64
}

// ReadShop reads the shop's stream. What it does not know it leaves alone.
func ReadShop(events []record.Sealed) Shop {
	dead := withdrawnIn(events)
	var s Shop
	for _, e := range events {
		b, ok := e.Body.(record.Instrument)
		if _, gone := dead[e.N]; !ok || gone {
			continue
		}
		s = s.With(b.Instrument, e.N)
	}
	return s
}

// Named returns the shop's instrument of a name.
func (s Shop) Named(name string) (gauge.Instrument, bool) {
	return find(s.Instruments, func(x *gauge.Instrument) bool { return x.Name == name })
}

// Keeping returns an instrument as the shop is to keep it: in the place of the one
// that was called was, or else under an id of its own.
func (s Shop) Keeping(i gauge.Instrument, was string) gauge.Instrument {
	if old, ok := s.Named(was); ok {
		i.ID = old.ID
		return i
	}
	i.ID = freeName(i.ID, func(id string) bool {
		_, taken := find(s.Instruments, func(x *gauge.Instrument) bool { return x.ID == id })
		return taken
	})
	return i
}

// Copying returns a shop's instrument as the session is to have it: in the place
// of the one of the same name, or else under an id of its own.
func (s *Session) Copying(i gauge.Instrument) gauge.Instrument {
	if old, ok := find(s.instruments, func(x *gauge.Instrument) bool { return x.Name == i.Name }); ok {
		i.ID = old.ID
		return i
	}
	i.ID = freeName(i.ID, func(id string) bool { _, taken := s.Instrument(id); return taken })
	return i
}

// Learned returns an instrument of the session with its repeatability pooled over
// its past and this session, as the next session is to begin with it.
func (s *Session) Learned(i gauge.Instrument) gauge.Instrument {
	if e := s.Repeatability(i.ID); e.Known() && e.DF > i.DF {
		i.S, i.DF = length.Written{Length: e.Length(), Unit: length.MM, Places: picometres}, e.DF
	}
	return i
}

// picometres is how many decimals of a millimetre a picometre has.
const picometres = 9

// freeName returns a name that is not taken: the name itself, or with the first
// number behind it that is free.
func freeName(name string, taken func(string) bool) string {
	if name != "" && !taken(name) {
		return name
	}
	for n := 2; ; n++ {
		if next := name + "-" + strconv.Itoa(n); !taken(next) {
			return next
		}
	}
}

// With returns the shop with an instrument kept in it, by its id, as event n of
// its stream says.
func (s Shop) With(i gauge.Instrument, n int64) Shop {
	said := maps.Clone(s.said)
	if said == nil {
		said = map[string][]int64{}
	}
	said[i.ID] = append(slices.Clone(said[i.ID]), n)
	return Shop{replace(slices.Clip(s.Instruments), i, func(a, b gauge.Instrument) bool { return a.ID == b.ID }), said}
}

// OutOfUse returns what takes an instrument off the shop's shelf: everything that
// was said of it there is withdrawn. Sessions keep the copies that they have.
func (s Shop) OutOfUse(i gauge.Instrument) []record.Body {
	var out []record.Body
	for _, n := range s.said[i.ID] {
		out = append(out, record.Withdrawn{Event: n, Why: "out of use"})
	}
	return out
}

// Without returns the shop without an instrument.
func (s Shop) Without(i gauge.Instrument) Shop {
	said := maps.Clone(s.said)
	delete(said, i.ID)
	left := slices.DeleteFunc(slices.Clone(s.Instruments), func(x gauge.Instrument) bool { return x.ID == i.ID })
	return Shop{left, said}
}
