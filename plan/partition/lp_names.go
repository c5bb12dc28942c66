package partition

import (
	"strconv"
	"strings"
)

// The longest name of a flow is go.A.CELL.CELL_99.CELL: with these lengths below
// the 100 characters that every reader of the format takes.
const (
	cellNameLength     = 24
	functionNameLength = 20
)

// name gives cells, functions and links names that the format allows. None
// begins a variable's name: so none needs to keep clear of numbers and of the
// format's words.
func (l *linear) name() {
	l.cells = make([]string, len(l.p.Cells))
	taken := map[string]bool{}
	for c, cell := range l.p.Cells {
		l.cells[c] = unique(clean(cell.Name, cellNameLength), "_", taken)
	}
	l.funcs = make([]string, len(l.p.Functions))
	taken = map[string]bool{}
	for f, function := range l.p.Functions {
		l.funcs[f] = unique(clean(function.Name, functionNameLength), "_", taken)
	}
	l.ways = make([]string, len(l.p.Links))
	taken = map[string]bool{}
	for i, link := range l.p.Links {
		l.ways[i] = unique(l.cells[link.U]+"."+l.cells[link.V], "__", taken)
	}
}

// clean leaves letters, digits and underscores, so many at most.
func clean(name string, length int) string {
	name = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' {
			return r
		}
		return '_'
	}, name)
	return name[:min(len(name), length)]
}

// unique numbers a name that is taken, after a mark.
func unique(name, mark string, taken map[string]bool) string {
	free := name
	for n := 2; taken[free]; n++ {
		free = name + mark + strconv.Itoa(n)
	}
	taken[free] = true
	return free
}
