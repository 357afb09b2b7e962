package match

import "cmp"

// price is what a cell of an assignment adds to the whole. Prices are added
// part by part and compared by the first part that differs, which is all that
// an assignment of least price asks of them.
type price struct {
	unfilled, outside int64
	sum               Margin
	moved             int64
}

func (p price) plus(o price) price {
	return price{p.unfilled + o.unfilled, p.outside + o.outside, p.sum + o.sum, p.moved + o.moved}
}

func (p price) less(o price) price {
	return price{p.unfilled - o.unfilled, p.outside - o.outside, p.sum - o.sum, p.moved - o.moved}
}

func (p price) below(o price) bool {
	return cmp.Or(
		cmp.Compare(p.unfilled, o.unfilled), cmp.Compare(p.outside, o.outside),
		cmp.Compare(p.sum, o.sum), cmp.Compare(p.moved, o.moved),
	) < 0
}

// assign returns the column of every row of a square table, each column once,
// so that the prices of the cells chosen add up to the least. It is the
// Hungarian method: rows enter one at a time, each by the cheapest way of
// moving those that are in, and row and column prices that are kept up on the
// way make every way's length at least zero.
func assign(table [][]price) []int {
	a := assigner{
		table: table,
		row:   make([]price, len(table)), column: make([]price, len(table)),
		holds: make([]int, len(table)),
	}
	for i := range a.holds {
		a.holds[i] = nobody
	}
	for r := range table {
		a.enter(r)
	}
	at := make([]int, len(table))
	for c, r := range a.holds {
		at[r] = c
	}
	return at
}

// nobody holds a column that is free.
const nobody = -1

// assigner is an assignment of the rows that are in.
type assigner struct {
	table [][]price
	// row and column are the prices kept up; holds is the row in each column.
	row, column []price
	holds       []int
}

// way is the cheapest way found to a column: its length, the column before it
// and whether it is final.
type way struct {
	length price
	from   int
	known  bool
	final  bool
}

// enter brings a row in.
func (a *assigner) enter(r int) {
	ways := make([]way, len(a.table))
	from, so := nobody, price{}
	for at := r; ; {
		a.widen(ways, at, from, so)
		next := nearest(ways)
		ways[next].final = true
		if a.holds[next] == nobody {
			a.settle(ways, r, ways[next].length)
			a.shift(ways, r, next)
			return
		}
		from, at, so = next, a.holds[next], ways[next].length
	}
}

// widen looks at every column that is not final by way of a row, to which it
// took so much.
func (a *assigner) widen(ways []way, row, from int, so price) {
	for c := range ways {
		if ways[c].final {
			continue
		}
		l := so.plus(a.table[row][c]).less(a.row[row]).less(a.column[c])
		if !ways[c].known || l.below(ways[c].length) {
			ways[c] = way{length: l, from: from, known: true}
		}
	}
}

func nearest(ways []way) int {
	best := nobody
	for c, w := range ways {
		if !w.final && (best == nobody || w.length.below(ways[best].length)) {
			best = c
		}
	}
	return best
}

// settle brings the prices up to date with ways of which the last is so long.
func (a *assigner) settle(ways []way, r int, last price) {
	a.row[r] = a.row[r].plus(last)
	for c, w := range ways {
		if !w.final || a.holds[c] == nobody {
			continue
		}
		saved := last.less(w.length)
		a.row[a.holds[c]] = a.row[a.holds[c]].plus(saved)
		a.column[c] = a.column[c].less(saved)
	}
}

// shift moves every row on the way one column on and puts r into the first.
func (a *assigner) shift(ways []way, r, end int) {
	for c := end; ; c = ways[c].from {
		if ways[c].from == nobody {
			a.holds[c] = r
			return
		}
		a.holds[c] = a.holds[ways[c].from]
	}
}
