package record

import (
	"strconv"
	"strings"

	"borewright/engine/plan"
)

// path is where a value stands in a JSON text, as a list from the value up. The
// nil path is the top.
type path struct {
	up    *path
	key   string
	index int // of a list; -1 under a key
	depth int
}

// under returns the path of the value under a key.
func (p *path) under(key string) *path {
	return &path{up: p, key: key, index: -1, depth: p.deep() + 1}
}

// item returns the path of an item of a list.
func (p *path) item(i int) *path { return &path{up: p, index: i, depth: p.deep() + 1} }

// deep returns how many objects and lists the value stands in.
func (p *path) deep() int {
	if p == nil {
		return 0
	}
	return p.depth
}

// String writes the path as readings[3].across[1]; empty at the top. A key
// that is not a plain word is quoted.
func (p *path) String() string {
	if p == nil {
		return ""
	}
	up := p.up.String()
	switch {
	case p.index >= 0:
		return up + "[" + strconv.Itoa(p.index) + "]"
	case !plainWord(p.key):
		return up + "[" + plan.Quote(p.key) + "]"
	case up == "":
		return p.key
	default:
		return up + "." + p.key
	}
}

// plainWord reports whether a key can stand in a path without being quoted.
func plainWord(key string) bool {
	return key != "" && len(key) <= 32 && strings.Trim(key, "abcdefghijklmnopqrstuvwxyz0123456789_-") == ""
}
