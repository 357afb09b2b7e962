package powercut

import (
	"bufio"
	"encoding/hex"
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// Calls are the system calls that strace has to record, with -f -xx and an -s
// above the largest write.
const Calls = "openat,creat,close,write,pwrite64,writev,pwritev,pwritev2,copy_file_range,sendfile,fallocate," +
	"ftruncate,truncate,fsync,fdatasync,sync_file_range,rename,renameat,renameat2,link,linkat,unlink,unlinkat,mmap,msync"

// reader makes a trace of the lines of strace.
type reader struct {
	dir   string
	fds   map[int]*open
	names map[string]int
	files int
	begun map[string]string // by process: a call whose end comes later
	ops   []Op
}

// open is a file that is open; file is 0 for the folder itself.
type open struct {
	file int
	at   int64
}

var (
	wholeCall = regexp.MustCompile(`^(\w+)\((.*)\) += (-?\w+|\?)(.*)$`)
	resumed   = regexp.MustCompile(`^<\.\.\. \w+ resumed>(.*)$`)
)

// ReadStrace reads what strace recorded of a program whose files lie in the
// folder and that acknowledges numbers on its standard output, one a line. A
// call that the reader does not know how to replay is an error.
func ReadStrace(in io.Reader, dir string) ([]Op, error) {
	r := &reader{dir: dir, fds: map[int]*open{}, names: map[string]int{}, begun: map[string]string{}}
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, 64<<20)
	for lines.Scan() {
		process, rest, _ := strings.Cut(strings.TrimSpace(lines.Text()), " ")
		if err := r.line(process, strings.TrimSpace(rest)); err != nil {
			return nil, fmt.Errorf("%.200q: %w", lines.Text(), err)
		}
	}
	return r.ops, lines.Err()
}

func (r *reader) line(process, text string) error {
	if begun, found := strings.CutSuffix(text, "<unfinished ...>"); found {
		r.begun[process] = strings.TrimSpace(begun)
		return nil
	}
	if m := resumed.FindStringSubmatch(text); m != nil {
		text = r.begun[process] + m[1]
	}
	m := wholeCall.FindStringSubmatch(text)
	if m == nil || strings.HasPrefix(m[3], "-") || m[3] == "?" {
		return nil // a signal, an end, or a call that failed
	}
	result, err := strconv.ParseInt(m[3], 0, 64)
	if err != nil {
		return nil //nolint:nilerr // an address: of no interest
	}
	return r.call(m[1], strings.Split(m[2], ", "), int(result), strings.Contains(m[4], "INJECTED"))
}

// call takes a call in that succeeded.
func (r *reader) call(name string, args []string, result int, injected bool) error {
	switch name {
	case "openat":
		return r.open(args, result)
	case "close":
		delete(r.fds, number(args[0]))
		return nil
	case "renameat", "renameat2":
		return r.rename(args)
	case "unlinkat":
		return r.remove(args)
	case "mmap":
		if f := r.fds[number(args[4])]; f != nil && strings.Contains(args[2], "PROT_WRITE") && strings.Contains(args[3], "MAP_SHARED") {
			return fmt.Errorf("a file of the folder is mapped to be written")
		}
		return nil
	case "write":
		if args[0] == "1" {
			return r.ack(args[1])
		}
	}
	return r.onFile(name, args, injected)
}

// onFile takes a call on an open file in.
func (r *reader) onFile(name string, args []string, injected bool) error {
	f := r.fds[number(args[0])]
	if f == nil {
		return nil // not in the folder
	}
	switch name {
	case "write", "pwrite64":
		data, err := unhex(args[1])
		if err != nil {
			return err
		}
		at := &f.at
		if name == "pwrite64" {
			here := int64(number(args[3]))
			at = &here
		}
		r.ops = append(r.ops, Op{Kind: Write, File: f.file, At: *at, Data: data})
		*at += int64(len(data))
	case "ftruncate":
		r.ops = append(r.ops, Op{Kind: Truncate, File: f.file, At: int64(number(args[1]))})
	case "fsync", "fdatasync":
		switch {
		case injected: // it was not done
		case f.file == 0:
			r.ops = append(r.ops, Op{Kind: SyncFolder})
		default:
			r.ops = append(r.ops, Op{Kind: Sync, File: f.file})
		}
	default:
		return fmt.Errorf("the call %s is not replayed", name)
	}
	return nil
}

func (r *reader) open(args []string, fd int) error {
	path, err := unhex(args[1])
	if err != nil {
		return err
	}
	delete(r.fds, fd)
	name, ok := r.inside(string(path))
	if !ok {
		return nil
	}
	file := r.names[name]
	switch {
	case name == ".":
	case file == 0 && !strings.Contains(args[2], "O_CREAT"):
		return fmt.Errorf("%s was not made here", name)
	case file == 0:
		r.files++
		file = r.files
		r.names[name] = file
		r.ops = append(r.ops, Op{Kind: Create, File: file, Name: name})
	case strings.Contains(args[2], "O_TRUNC"):
		r.ops = append(r.ops, Op{Kind: Truncate, File: file})
	}
	r.fds[fd] = &open{file: file}
	return nil
}

func (r *reader) rename(args []string) error {
	from, err1 := unhex(args[1])
	to, err2 := unhex(args[3])
	if err1 != nil || err2 != nil {
		return fmt.Errorf("a name is not in hexadecimal digits")
	}
	old, ok1 := r.inside(string(from))
	name, ok2 := r.inside(string(to))
	if !ok1 || !ok2 {
		return nil
	}
	r.names[name] = r.names[old]
	delete(r.names, old)
	r.ops = append(r.ops, Op{Kind: Rename, Name: old, To: name})
	return nil
}

func (r *reader) remove(args []string) error {
	path, err := unhex(args[1])
	if err != nil {
		return err
	}
	if name, ok := r.inside(string(path)); ok {
		delete(r.names, name)
		r.ops = append(r.ops, Op{Kind: Remove, Name: name})
	}
	return nil
}

// ack takes the numbers in that the program prints.
func (r *reader) ack(text string) error {
	data, err := unhex(text)
	if err != nil {
		return err
	}
	for _, line := range strings.Fields(string(data)) {
		n, err := strconv.ParseInt(line, 10, 64)
		if err != nil {
			return err
		}
		r.ops = append(r.ops, Op{Kind: Ack, At: n})
	}
	return nil
}

// inside returns a path's name in the folder, "." for the folder itself.
func (r *reader) inside(path string) (string, bool) {
	name, err := filepath.Rel(r.dir, path)
	if err != nil || strings.ContainsRune(name, filepath.Separator) || name == ".." {
		return "", false
	}
	return name, true
}

// unhex reads a text that strace wrote with -xx.
func unhex(text string) ([]byte, error) {
	inner, ok := strings.CutPrefix(strings.TrimSuffix(text, `"`), `"`)
	if !ok || strings.HasSuffix(text, "...") {
		return nil, fmt.Errorf("%.20q is not a whole text", text)
	}
	return hex.DecodeString(strings.ReplaceAll(inner, `\x`, ""))
}

// number reads a decimal number, -1 when it is none.
func number(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return -1
	}
	return n
}
