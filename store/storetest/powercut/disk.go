package powercut

import (
	"maps"
	"math/rand/v2"
	"slices"
)

// Sector is how many bytes a disk writes whole or not at all.
const Sector = 512

// Disk is a folder on a disk as a program's steps have left it.
type Disk struct {
	names   map[string]int // durable
	renames []Op           // steps that change names, not flushed
	files   map[int]*file
	acked   int64
}

// file is what of a file is durable, and the steps since.
type file struct {
	stable  []byte
	pending []Op
}

// NewDisk returns an empty folder.
func NewDisk() *Disk { return &Disk{names: map[string]int{}, files: map[int]*file{}} }

// Acked returns the highest number that the program acknowledged.
func (d *Disk) Acked() int64 { return d.acked }

// Do takes the next step.
func (d *Disk) Do(o Op) {
	switch o.Kind {
	case Create:
		d.files[o.File] = &file{}
		d.renames = append(d.renames, o)
	case Rename, Remove:
		d.renames = append(d.renames, o)
	case SyncFolder:
		d.names = named(d.names, d.renames)
		d.renames = nil
	case Write, Truncate:
		f := d.files[o.File]
		f.pending = append(f.pending, o)
	case Sync:
		f := d.files[o.File]
		f.stable, f.pending = f.landed(len(f.pending), func(Op, int) bool { return true }), nil
	case Ack:
		d.acked = max(d.acked, o.At)
	}
}

// named returns the names after the steps.
func named(names map[string]int, steps []Op) map[string]int {
	names = maps.Clone(names)
	for _, o := range steps {
		switch o.Kind {
		case Create:
			names[o.Name] = o.File
		case Rename:
			names[o.To] = names[o.Name]
			delete(names, o.Name)
		case Remove:
			delete(names, o.Name)
		default:
		}
	}
	return names
}

// Cut returns the files by their names as they may be found after the power was
// cut now. Chance says what landed of what was not flushed.
func (d *Disk) Cut(chance *rand.Rand) map[string][]byte {
	names := named(d.names, d.renames[:chance.IntN(len(d.renames)+1)])
	out := map[string][]byte{}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		f := d.files[names[name]]
		lands := f.tear(chance)
		sizes := len(f.pending)
		if chance.IntN(2) == 0 {
			sizes = chance.IntN(sizes + 1)
		}
		out[name] = f.landed(sizes, lands)
	}
	return out
}

// Whole returns the files as they are while the power stays on.
func (d *Disk) Whole() map[string][]byte {
	out := map[string][]byte{}
	for name, file := range named(d.names, d.renames) {
		f := d.files[file]
		out[name] = f.landed(len(f.pending), func(Op, int) bool { return true })
	}
	return out
}

// tear chooses a way in which sectors land, of each pending step.
func (f *file) tear(chance *rand.Rand) func(step Op, sector int) bool {
	all := func(Op, int) bool { return true }
	if len(f.pending) == 0 {
		return all
	}
	one := f.pending[chance.IntN(len(f.pending))].At
	first := chance.IntN(8)
	switch chance.IntN(7) {
	case 0:
		return func(Op, int) bool { return false }
	case 1:
		return all
	case 2: // one step only
		return func(o Op, _ int) bool { return o.At == one }
	case 3: // all but one
		return func(o Op, _ int) bool { return o.At != one }
	case 4: // one is torn inside its first page
		return func(o Op, sector int) bool { return o.At != one || sector < first }
	case 5: // nearly all
		return func(Op, int) bool { return chance.IntN(10) > 0 }
	default:
		return func(Op, int) bool { return chance.IntN(2) == 0 }
	}
}

// landed returns the content when the sectors that lands says were written, and
// the size is the one after the first so many pending steps.
func (f *file) landed(sizes int, lands func(step Op, sector int) bool) []byte {
	size := int64(len(f.stable))
	most := size
	for i, o := range f.pending {
		end := o.At
		if o.Kind == Write {
			end = max(most, o.At+int64(len(o.Data)))
		}
		if i < sizes {
			size = end
		}
		most = max(most, end)
	}
	out := make([]byte, most)
	copy(out, f.stable)
	for _, o := range f.pending {
		if o.Kind != Write {
			continue
		}
		for n, at := 0, 0; at < len(o.Data); n++ {
			// The first piece ends where a sector of the disk does.
			end := min(len(o.Data), at+Sector-int((o.At+int64(at))%Sector))
			if lands(o, n) {
				copy(out[o.At+int64(at):], o.Data[at:end])
			}
			at = end
		}
	}
	return out[:size]
}
