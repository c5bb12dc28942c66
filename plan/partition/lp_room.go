package partition

import "fmt"

// host is the variable for cell c hosting function f for unit u; ok is false
// where there is none.
func (l *linear) host(u, f, c int) (name string, ok bool) {
	cell := &l.p.Cells[c]
	ok = l.p.Units[u].Need[f] > 0 && !cell.Public && cell.Host[f] != Impossible
	return fmt.Sprintf("host.%s.%s.%s", Label(u), l.funcs[f], l.cells[c]), ok
}

// clashes keeps a cell from hosting all of a clash, for either unit each.
func (l *linear) clashes(c int) {
	if l.p.Cells[c].Public {
		return
	}
	for _, clash := range l.p.Cells[c].Clashes {
		for units := range 1 << len(clash) {
			terms, all := []string{}, true
			for k, f := range clash {
				name, ok := l.host(units>>k&1, f, c)
				all = all && ok
				terms = append(terms, term(1, name))
			}
			if all {
				l.row(terms, "<=", int64(len(clash)-1))
			}
		}
	}
}

// barred lets nothing flow along a variable while cell c hosts what closes it.
func (l *linear) barred(c int, size int64, name string) {
	for f, closes := range l.p.Cells[c].Closes {
		for u := range l.p.Units {
			if host, ok := l.host(u, f, c); ok && closes {
				l.row([]string{term(1, name), term(size, host)}, "<=", size)
			}
		}
	}
}
