package powercut

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// What is flushed stays; of the rest any sectors, sizes and names may.
func TestCut(t *testing.T) {
	d := NewDisk()
	old, fresh := bytes.Repeat([]byte{1}, 4*Sector), bytes.Repeat([]byte{2}, 4*Sector)
	for _, o := range []Op{
		{Kind: Create, File: 1, Name: "a"},
		{Kind: Write, File: 1, Data: old},
		{Kind: Sync, File: 1},
		{Kind: SyncFolder},
		{Kind: Ack, At: 7},
		{Kind: Write, File: 1, At: Sector / 2, Data: fresh},
		{Kind: Rename, Name: "a", To: "b"},
	} {
		d.Do(o)
	}
	if d.Acked() != 7 {
		t.Errorf("acknowledged %d", d.Acked())
	}
	names, torn, sizes := map[string]bool{}, map[string]bool{}, map[int]bool{}
	for seed := range uint64(300) {
		for name, data := range d.Cut(rand.New(rand.NewPCG(seed, 0))) {
			names[name], sizes[len(data)] = true, true
			if !bytes.Equal(data[:Sector/2], old[:Sector/2]) {
				t.Fatalf("a flushed byte is gone: % x", data[:Sector])
			}
			shape := ""
			for at := Sector / 2; at < len(data); at += Sector {
				shape += string('0' + rune(data[at]))
			}
			torn[shape] = true
		}
	}
	if len(names) != 2 || len(sizes) != 2 || len(torn) < 16 {
		t.Errorf("names %v, sizes %v, shapes %v", names, sizes, torn)
	}
	if got := d.Whole(); len(got) != 1 || len(got["b"]) != 4*Sector+Sector/2 {
		t.Errorf("whole: %v", got)
	}
}

func TestReadStrace(t *testing.T) {
	const dir = "/d"
	line := func(process, call string) string {
		return process + " " + strings.NewReplacer("'/d'", `"\x2f\x64"`, "'/d/a'", `"\x2f\x64\x2f\x61"`, "'/d/b'", `"\x2f\x64\x2f\x62"`, "'hi'", `"\x68\x69"`, "'3\n'", `"\x33\x0a"`).Replace(call) + "\n"
	}
	trace := line("7", "openat(AT_FDCWD, '/d/a', O_RDWR|O_CREAT|O_EXCL, 0600) = 5") +
		line("7", "pwrite64(5, 'hi', 2, 512 <unfinished ...>") +
		line("8", "write(1, 'hi', 2 <unfinished ...>)") +
		line("7", "<... pwrite64 resumed>) = 2") +
		line("7", "write(5, 'hi', 2) = 2") + line("7", "write(5, 'hi', 2) = 2") +
		line("7", "fdatasync(5) = 0 (INJECTED)") + line("7", "fdatasync(5)     = 0") +
		line("7", "ftruncate(5, 4096) = 0") + line("7", "ftruncate(5, 1) = -1 EIO (Input/output error)") +
		line("7", "write(1, '3\n', 2) = 2") +
		line("7", "renameat2(AT_FDCWD, '/d/a', AT_FDCWD, '/d/b', RENAME_NOREPLACE) = 0") +
		line("7", "openat(AT_FDCWD, '/d', O_RDONLY) = 6") + line("7", "fsync(6) = 0") + line("7", "close(5) = 0") +
		line("7", "write(5, 'hi', 2) = 2") + line("7", "unlinkat(AT_FDCWD, '/d/b', 0) = 0") + "7 +++ exited with 0 +++\n"
	ops, err := ReadStrace(strings.NewReader(trace), dir)
	if err != nil {
		t.Fatal(err)
	}
	hi := []byte("hi")
	want := []Op{
		{Kind: Create, File: 1, Name: "a"},
		{Kind: Write, File: 1, At: 512, Data: hi},
		{Kind: Write, File: 1, At: 0, Data: hi},
		{Kind: Write, File: 1, At: 2, Data: hi},
		{Kind: Sync, File: 1},
		{Kind: Truncate, File: 1, At: 4096},
		{Kind: Ack, At: 3},
		{Kind: Rename, Name: "a", To: "b"},
		{Kind: SyncFolder},
		{Kind: Remove, Name: "b"},
	}
	if !reflect.DeepEqual(ops, want) {
		t.Errorf("read\n%+v, want\n%+v", ops, want)
	}
	for _, refused := range []string{
		"pwritev(5, [], 1, 0) = 2", "mmap(NULL, 4096, PROT_READ|PROT_WRITE, MAP_SHARED, 5, 0) = 4096",
		`write(5, "\x68"..., 2) = 2`, "openat(AT_FDCWD, '/d/b', O_RDWR) = 6",
	} {
		text := line("7", "openat(AT_FDCWD, '/d/a', O_RDWR|O_CREAT|O_EXCL, 0600) = 5") + line("7", refused)
		if ops, err := ReadStrace(strings.NewReader(text), dir); err == nil {
			t.Errorf("%s is read as %+v", refused, ops)
		}
	}
}
