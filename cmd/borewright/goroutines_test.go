package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// guarded are the files in which a goroutine may be begun: term.Go, which sends
// its panic to the station, and the store's writer, which turns one into an error.
var guarded = []string{"tui/term/guard.go", "store/book.go"}

// TestEveryGoroutineIsGuarded: a panic in a goroutine that nobody guards leaves
// the terminal raw.
func TestEveryGoroutineIsGuarded(t *testing.T) {
	t.Parallel()
	begun := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		ours := strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") && !strings.Contains(path, "storetest")
		if err != nil || !ours {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if _, ok := n.(*ast.GoStmt); ok {
				begun++
				if name, _ := filepath.Rel("../..", path); !slices.Contains(guarded, filepath.ToSlash(name)) {
					t.Errorf("%s begins a goroutine of its own; term.Go does so with a guard", name)
				}
			}
			return true
		})
		return nil
	})
	if err != nil || begun == 0 {
		t.Errorf("%d goroutines were found: %v", begun, err)
	}
}
