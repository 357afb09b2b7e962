package store_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"borewright/store"
)

func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path, err := store.WriteFile(dir, "Launch.html", []byte("one"), false)
	if err != nil || path != filepath.Join(dir, "Launch.html") {
		t.Fatalf("path %s, %v", path, err)
	}
	if _, err := store.WriteFile(dir, "Launch.html", []byte("two"), false); !errors.Is(err, store.ErrExists) || !strings.Contains(err.Error(), path) {
		t.Errorf("over another: %v", err)
	}
	if got := read(t, path); string(got) != "one" {
		t.Errorf("it holds %q", got)
	}
	if _, err := store.WriteFile(dir, "Launch.html", []byte("three"), true); err != nil {
		t.Error(err)
	}
	if got := read(t, path); string(got) != "three" {
		t.Errorf("it holds %q", got)
	}
	if info, err := os.Stat(path); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 1 {
		t.Errorf("the folder holds %v, %v", names, err)
	}
}

func TestWriteFileRefuses(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "taken"), 0o700); err != nil {
		t.Fatal(err)
	}
	for name, try := range map[string]struct {
		dir, name string
		overwrite bool
		want      error
	}{
		"no name":          {dir, "", false, store.ErrName},
		"only dots":        {dir, "..", false, store.ErrName},
		"only what goes":   {dir, "\u202e\x1b\u200b .", false, store.ErrName},
		"no folder":        {filepath.Join(dir, "none"), "a.txt", false, store.ErrNoFolder},
		"a folder's name":  {dir, "taken", false, store.ErrExists},
		"over a folder":    {dir, "taken", true, store.ErrExists},
		"a file as folder": {write(t, filepath.Join(dir, "file"), nil), "a.txt", false, store.ErrNoFolder},
	} {
		if path, err := store.WriteFile(try.dir, try.name, nil, try.overwrite); !errors.Is(err, try.want) || path != "" {
			t.Errorf("%s: %q %v, want %v", name, path, err, try.want)
		}
	}
}

// TestWriteFileStaysInside: neither a name nor a link leads out of the folder.
func TestWriteFileStaysInside(t *testing.T) {
	outside := filepath.Join(t.TempDir(), "outside.txt")
	write(t, outside, []byte("theirs"))
	dir := t.TempDir()
	if err := os.Symlink(outside, filepath.Join(dir, "link.txt")); err != nil {
		t.Skipf("no links here: %v", err)
	}
	if _, err := store.WriteFile(dir, "link.txt", []byte("ours"), false); !errors.Is(err, store.ErrExists) {
		t.Errorf("over a link: %v", err)
	}
	if _, err := store.WriteFile(dir, "link.txt", []byte("ours"), true); err != nil {
		t.Error(err)
	}
	for _, name := range []string{"../outside.txt", outside, `..\outside.txt`, "sub/../../outside.txt"} {
		path, err := store.WriteFile(dir, name, []byte("ours"), true)
		if err != nil || filepath.Dir(path) != dir {
			t.Errorf("%q became %q, %v", name, path, err)
		}
	}
	if got := read(t, outside); !bytes.Equal(got, []byte("theirs")) {
		t.Errorf("the file outside holds %q", got)
	}
}

func TestCleanName(t *testing.T) {
	for name, want := range map[string]string{
		"Launch.html":                      "Launch.html",
		"Wörthsee Nr. 5.pdf":               "Wörthsee Nr. 5.pdf",
		"../../etc/passwd":                 "-..-etc-passwd",
		`C:\temp\x?.csv`:                   "C--temp-x-.csv",
		".hidden":                          "hidden",
		"ends. . ":                         "ends",
		"\u202egnp.exe\x00\x1b[31m\u200b":  "gnp.exe[31m",
		"a\tb\nc\u2028d":                   "abcd",
		"no\u00a0break":                    "no break",
		"bad\xff\xfeutf8":                  "badutf8",
		"con":                              "_con",
		"NUL.txt":                          "_NUL.txt",
		"Aux .html":                        "_Aux .html",
		"com7.csv":                         "_com7.csv",
		"LPT²":                             "_LPT²",
		"com10":                            "com10",
		"console":                          "console",
		strings.Repeat("ä", 300) + ".html": strings.Repeat("ä", 97) + ".html",
		strings.Repeat("x", 300):           strings.Repeat("x", 200),
	} {
		if got := store.CleanName(name); got != want {
			t.Errorf("%q became %q, want %q", name, got, want)
		}
	}
}

// TestCleanNameHolds: whatever comes in, one plain file name comes out, and it
// is clean already.
func TestCleanNameHolds(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		name := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
			rapid.StringMatching(`[./\\: ]{0,4}(con|nul|LPT1|a{0,260})(\.[a-z. ]{0,20})?`)).Draw(r, "name")
		got := store.CleanName(name)
		bad := func(c rune) bool { return strings.ContainsRune(`/\:*?"<>|`, c) || !unicode.IsGraphic(c) }
		if len(got) > 200 || !utf8.ValidString(got) || strings.IndexFunc(got, bad) >= 0 || strings.Trim(got, ". ") != got {
			r.Fatalf("%q became %q", name, got)
		}
		if got != "" && (!filepath.IsLocal(got) || filepath.Base(got) != got) {
			r.Fatalf("%q became %q, which is no plain name", name, got)
		}
		if again := store.CleanName(got); again != got {
			r.Fatalf("%q became %q and then %q", name, got, again)
		}
	})
}

// TestWriteFileLeavesNothing: a write that fails leaves the folder as it was.
func TestWriteFileLeavesNothing(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("the superuser may write everywhere")
	}
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	if _, err := store.WriteFile(dir, "a.txt", nil, false); !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("write: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "a.txt")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("it is there: %v", err)
	}
}
