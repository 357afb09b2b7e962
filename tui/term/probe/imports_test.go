package probe_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

const (
	module = "borewright"
	cure   = module + "/tui/term/probe"
	asker  = "github.com/charmbracelet/bubbletea"
)

// root is the module's folder.
const root = "../../.."

// imports reads which packages each package of the module imports. Tests are
// left out: they are no part of what is shipped.
func imports(t *testing.T) map[string]map[string]bool {
	t.Helper()
	of := map[string]map[string]bool{}
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && name != "." && strings.HasPrefix(path.Base(name), ".") {
			return fs.SkipDir
		}
		if path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, filepath.FromSlash(name)), nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		from := path.Join(module, path.Dir(name))
		if of[from] == nil {
			of[from] = map[string]bool{}
		}
		for _, spec := range file.Imports {
			to, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			of[from][to] = true
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return of
}

// reaches reports whether package from imports package to, directly or
// through others of the module.
func reaches(of map[string]map[string]bool, from, to string, seen map[string]bool) bool {
	if seen[from] {
		return false
	}
	seen[from] = true
	for next := range of[from] {
		if next == to || reaches(of, next, to, seen) {
			return true
		}
	}
	return false
}

func TestEveryPackageWithBubbleTeaHasTheCure(t *testing.T) {
	of := imports(t)
	if !of[module+"/tui/term"][asker] {
		t.Fatalf("the packages of the module were not found under %s", root)
	}
	for from, to := range of {
		// bubbles and huh bring Bubble Tea with them.
		asks := to[asker] || hasPrefix(to, "github.com/charmbracelet/bubbles/") || hasPrefix(to, "github.com/charmbracelet/huh")
		if asks && !reaches(of, from, cure, map[string]bool{}) {
			t.Errorf("%s imports Bubble Tea but not %s", from, cure)
		}
	}
}

func hasPrefix(set map[string]bool, prefix string) bool {
	for s := range set {
		if strings.HasPrefix(s, prefix) {
			return true
		}
	}
	return false
}

func TestTheCureComesFirst(t *testing.T) {
	if cure >= asker {
		t.Errorf("%s does not sort before %s, so it is initialised too late", cure, asker)
	}
	file, err := parser.ParseFile(token.NewFileSet(), "probe.go", nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	// Whatever else it imported could come after Bubble Tea and pull it along.
	if len(file.Imports) != 1 || file.Imports[0].Path.Value != `"github.com/charmbracelet/lipgloss"` {
		t.Errorf("%s imports more than Lip Gloss", cure)
	}
}
