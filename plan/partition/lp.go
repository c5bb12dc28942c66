package partition

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// WriteLP writes the problem as a mixed-integer program in the LP text format
// that general solvers read (minimise, subject to, bounds, general, binary,
// end). The objective is the price, with a shared element weighing
// SharedWeight(p). Names are own.A.CELL, own.B.CELL and common.CELL for the
// labels, part.LINK and share.LINK for the links that part, host.UNIT.FUNCTION.CELL, lack.UNIT.FUNCTION, door.LINK, in.UNIT.LINK
// for the entries; flows (go, out, to) say how a unit hangs together. LINK is
// the number of the link in the problem. Letters that the format does not
// allow become underscores.
//
// A unit hangs together if each of its indoor cells can draw one unit of flow
// from its entry (or from one cell of its own) over its ways, and likewise
// outdoors from the public way and the unit's rooms. The balance is rounded
// down by a row whose numbers may be large: a solver's tolerance can let it be
// one unit of money less.
func WriteLP(w io.Writer, p *Problem) error {
	if err := p.Check(); err != nil {
		return err
	}
	l := &linear{p: p, out: bufio.NewWriter(w)}
	l.name()
	l.labels()
	l.partings()
	l.hosting()
	for u := range p.Units {
		l.indoors(u)
		l.outdoors(u)
		l.entry(u)
	}
	l.areas()
	l.write()
	if err := l.out.Flush(); err != nil {
		return fmt.Errorf("partition: LP file: %w", err)
	}
	return nil
}

// SharedWeight is what one shared element weighs in the objective of WriteLP:
// a power of ten above the money of every scheme, 0 if nothing has a shared
// part.
func SharedWeight(p *Problem) Money {
	money, shared, _ := p.totals()
	if shared == 0 {
		return 0
	}
	weight := Money(1)
	for uint64(weight) <= money {
		weight *= 10
	}
	return weight
}

type linear struct {
	p     *Problem
	out   *bufio.Writer
	cells []string
	funcs []string

	price    []string // terms of the objective
	rows     []string
	bounds   []string
	binaries []string
	integers []string
}

func (l *linear) name() {
	l.cells = make([]string, len(l.p.Cells))
	taken := map[string]bool{}
	for c, cell := range l.p.Cells {
		l.cells[c] = unique(cell.Name, taken)
	}
	l.funcs = make([]string, len(l.p.Functions))
	taken = map[string]bool{}
	for f, function := range l.p.Functions {
		l.funcs[f] = unique(function.Name, taken)
	}
}

// unique makes a name that the format allows and that is not taken.
func unique(name string, taken map[string]bool) string {
	clean := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' || r == '/' {
			return r
		}
		return '_'
	}, name)
	clean = clean[:min(len(clean), 40)]
	for n := 2; taken[clean]; n++ {
		clean = clean[:min(len(clean), 40)] + "_" + strconv.Itoa(n)
	}
	taken[clean] = true
	return clean
}

// row adds a constraint: terms, a relation, and a number.
func (l *linear) row(terms []string, relation string, right int64) {
	if len(terms) > 0 {
		l.rows = append(l.rows, fmt.Sprintf("%s %s %d", strings.Join(terms, " "), relation, right))
	}
}

// term spells a coefficient and a variable.
func term(k int64, name string) string {
	if k < 0 {
		return fmt.Sprintf("- %d %s", -k, name)
	}
	return fmt.Sprintf("+ %d %s", k, name)
}

func (l *linear) pay(price Price, name string) {
	total := int64(price.Money) + int64(SharedWeight(l.p))*int64(price.Shared)
	if total != 0 {
		l.price = append(l.price, term(total, name))
	}
}

func (l *linear) binary(name string) string {
	l.binaries = append(l.binaries, name)
	return name
}

func (l *linear) own(u, c int) string   { return fmt.Sprintf("own.%s.%s", Label(u), l.cells[c]) }
func (l *linear) common(c int) string   { return "common." + l.cells[c] }
func (l *linear) doorOf(i int) string   { return "door." + strconv.Itoa(i) }
func (l *linear) enter(u, i int) string { return fmt.Sprintf("in.%s.%d", Label(u), i) }

// has is k if the cell is the unit's; constant says that it is in any case.
func (l *linear) has(k int64, u, c int) (terms []string, constant bool) {
	if l.p.Cells[c].Public {
		return nil, true
	}
	return []string{term(k, l.own(u, c)), term(k, l.common(c))}, false
}

func (l *linear) labels() {
	for c, cell := range l.p.Cells {
		if cell.Public {
			continue
		}
		l.row([]string{term(1, l.own(0, c)), term(1, l.own(1, c)), term(1, l.common(c))}, "=", 1)
		names := []string{l.own(0, c), l.own(1, c), l.common(c)}
		for label, name := range names {
			l.binary(name)
			if cell.Allowed>>label&1 == 0 {
				l.row([]string{term(1, name)}, "=", 0)
			}
		}
		l.pay(Price{Money: cell.Own[A]}, names[A])
		l.pay(Price{Money: cell.Own[B]}, names[B])
		l.pay(cell.Common, names[Common])
	}
}

func (l *linear) partings() {
	for i, link := range l.p.Links {
		if !link.Open && link.Door != Impossible {
			l.pay(Price{Money: link.Door}, l.binary(l.doorOf(i)))
		}
		if l.p.Cells[link.U].Public || l.p.Cells[link.V].Public {
			continue
		}
		part := func(kind string, price Price, u, v string, slack int64) {
			if price == (Price{}) {
				return
			}
			terms := []string{term(1, u), term(1, v)}
			if slack == 0 {
				terms[1] = term(-1, v)
			}
			if price.Money == Impossible {
				l.row(terms, "<=", slack)
				return
			}
			l.row(append(terms, term(-1, fmt.Sprintf("%s.%d", kind, i))), "<=", slack)
		}
		a, b := link.U, link.V
		apart, shared := Price{Money: link.Sep}, Price{Shared: link.SharedEdge, Money: link.SepCommon}
		part("part", apart, l.own(0, a), l.own(1, b), 1)
		part("part", apart, l.own(1, a), l.own(0, b), 1)
		part("share", shared, l.common(a), l.common(b), 0)
		part("share", shared, l.common(b), l.common(a), 0)
		if link.Sep != Impossible {
			l.pay(apart, fmt.Sprintf("part.%d", i))
		}
		if link.SepCommon != Impossible {
			l.pay(shared, fmt.Sprintf("share.%d", i))
		}
	}
}

func (l *linear) hosting() {
	load := make([][]string, len(l.p.Cells))
	for u, unit := range l.p.Units {
		for f, need := range unit.Need {
			if need == 0 {
				continue
			}
			var hosts []string
			for c, cell := range l.p.Cells {
				if cell.Public || cell.Host[f] == Impossible {
					continue
				}
				name := l.binary(fmt.Sprintf("host.%s.%s.%s", Label(u), l.funcs[f], l.cells[c]))
				l.pay(Price{Money: cell.Host[f]}, name)
				hosts = append(hosts, term(1, name))
				has, _ := l.has(-1, u, c)
				l.row(append([]string{term(1, name)}, has...), "<=", 0)
				if !l.p.Functions[f].Uncounted {
					load[c] = append(load[c], term(1, name))
				}
			}
			lack := fmt.Sprintf("lack.%s.%s", Label(u), l.funcs[f])
			l.integers = append(l.integers, lack)
			if unit.Lack[f].Money == Impossible {
				l.bounds = append(l.bounds, fmt.Sprintf("%s = 0", lack))
			} else {
				l.bounds = append(l.bounds, fmt.Sprintf("0 <= %s <= %d", lack, need))
				l.pay(unit.Lack[f], lack)
			}
			l.row(append(hosts, term(1, lack)), "=", int64(need))
		}
	}
	for c, terms := range load {
		l.row(terms, "<=", int64(l.p.Cells[c].Capacity))
	}
}

// areas bounds areas and amounts, and prices the balance, rounded down.
func (l *linear) areas() {
	sum := func(u int, k int64, measure func(c *Cell) int64) (terms []string) {
		for c := range l.p.Cells {
			if x := measure(&l.p.Cells[c]); x != 0 && !l.p.Cells[c].Public {
				terms = append(terms, term(k*x, l.own(u, c)))
			}
		}
		return terms
	}
	area := func(c *Cell) int64 { return c.Area }
	least := func(u int, need int64, measure func(c *Cell) int64) {
		if need == 0 {
			return
		}
		terms := sum(u, 1, measure)
		if len(terms) == 0 {
			terms = []string{term(0, l.own(u, l.anyCell()))}
		}
		l.row(terms, ">=", need)
	}
	for u, unit := range l.p.Units {
		least(u, unit.MinArea, area)
		for i, need := range unit.MinAmount {
			least(u, need, func(c *Cell) int64 { return c.Amount[i] })
		}
	}
	lo, hi := int64(l.p.ShareMin), int64(l.p.ShareMax)
	l.row(append(sum(0, 1000-lo, area), sum(1, -lo, area)...), ">=", 0)
	l.row(append(sum(0, 1000-hi, area), sum(1, -hi, area)...), "<=", 0)
	if bal := l.p.Balance; bal.PerArea > 0 && len(sum(0, 1, area)) > 0 {
		k, s := int64(bal.PerArea), int64(bal.Share)
		for _, sign := range []int64{1, -1} {
			off := append(sum(0, sign*(1000-s)*k, area), sum(1, -sign*s*k, area)...)
			l.row(append(off, term(-1000, "imbalance")), "<=", 999)
		}
		l.integers = append(l.integers, "imbalance")
		l.pay(Price{Money: 1}, "imbalance")
	}
}

// anyCell is a cell that has a label.
func (l *linear) anyCell() int {
	for c := range l.p.Cells {
		if !l.p.Cells[c].Public {
			return c
		}
	}
	return 0
}

func (l *linear) write() {
	section := func(title string, lines []string) {
		if len(lines) == 0 {
			return
		}
		fmt.Fprintln(l.out, title)
		for _, line := range lines {
			fmt.Fprintln(l.out, " "+line)
		}
	}
	fmt.Fprintf(l.out, "\\ %s\n", strings.Join(strings.Fields(l.p.Name), " "))
	if len(l.price) == 0 {
		l.price = []string{term(0, l.binaries[0])}
	}
	section("minimize", append([]string{"price:"}, l.price...))
	rows := make([]string, len(l.rows))
	for i, row := range l.rows {
		rows[i] = fmt.Sprintf("r%d: %s", i+1, row)
	}
	section("subject to", rows)
	section("bounds", l.bounds)
	section("general", l.integers)
	section("binary", l.binaries)
	fmt.Fprintln(l.out, "end")
}
