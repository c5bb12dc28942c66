package partition

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// LPOptions say how WriteLP writes a problem. Zero values are the plain way.
type LPOptions struct {
	// Notes are comments at the head of the file, a line each.
	Notes []string
	// PerUnit is how many of the problem's money units make one in the file
	// (10000: prices in whole money with four decimals). 0 means 1; else a
	// power of ten.
	PerUnit Money
}

// WriteLP writes the problem as a mixed-integer program in the LP text format
// that general solvers read (minimise, subject to, bounds, general, binary,
// end). The objective is the price, with a shared element weighing
// SharedWeight(p). Names are own.A.CELL, own.B.CELL and common.CELL for the
// labels, part.LINK and share.LINK for the links that part, host.UNIT.FUNCTION.CELL,
// lack.UNIT.FUNCTION, door.LINK, and in.UNIT.LINK for the entries; flows (go,
// out, to) say how a unit hangs together. LINK is CELL.CELL, and numbered where
// two cells have several links. The head of the file tells which link of the
// problem each is. Letters that the format does not allow become underscores.
//
// A unit hangs together if each of its indoor cells can draw one unit of flow
// from its entry (or from one cell of its own) over its ways, and likewise
// outdoors from the public way and the unit's rooms. Where the balance does not
// come out in whole money it is rounded down by a row whose numbers may be
// large: a solver's tolerance can let it be one unit of money less.
func WriteLP(w io.Writer, p *Problem, o LPOptions) error {
	l, err := newLinear(p, o)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	l.write(out)
	if err := out.Flush(); err != nil {
		return fmt.Errorf("partition: LP file: %w", err)
	}
	return nil
}

// newLinear states the problem as rows and columns.
func newLinear(p *Problem, o LPOptions) (*linear, error) {
	if err := p.Check(); err != nil {
		return nil, err
	}
	l := &linear{p: p, notes: o.Notes, perUnit: int64(max(o.PerUnit, 1)), weight: SharedWeight(p)}
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
	if len(l.price) == 0 && len(l.binaries) > 0 {
		l.price = []string{term(0, l.binaries[0])}
	}
	used := l.columns()
	l.binaries = slices.DeleteFunc(l.binaries, func(name string) bool { return !slices.Contains(used, name) })
	return l, nil
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
	p       *Problem
	notes   []string
	perUnit int64 // money of the problem in one of the file
	weight  Money // of a shared element
	cells   []string
	funcs   []string
	ways    []string // per link

	price    []string // terms of the objective
	rows     []string // constraints, and comments that begin with a backslash
	bounds   []string
	binaries []string
	integers []string
}

// block heads the rows that follow with what they mean.
func (l *linear) block(format string, args ...any) {
	l.rows = append(l.rows, `\ `+fmt.Sprintf(format, args...))
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

// pay adds a variable's price to the objective.
func (l *linear) pay(price Price, name string) {
	total := int64(price.Money) + int64(l.weight)*int64(price.Shared)
	if total == 0 {
		return
	}
	l.price = append(l.price, "+ "+l.decimal(total)+" "+name)
}

// decimal spells an amount of money, which is not negative, in the file's unit.
func (l *linear) decimal(total int64) string {
	text := strconv.FormatInt(total/l.perUnit, 10)
	if rest := total % l.perUnit; rest != 0 {
		digits := strconv.FormatInt(l.perUnit+rest, 10)[1:]
		text += "." + strings.TrimRight(digits, "0")
	}
	return text
}

func (l *linear) binary(name string) string {
	l.binaries = append(l.binaries, name)
	return name
}

func (l *linear) own(u, c int) string   { return fmt.Sprintf("own.%s.%s", Label(u), l.cells[c]) }
func (l *linear) common(c int) string   { return "common." + l.cells[c] }
func (l *linear) doorOf(i int) string   { return "door." + l.ways[i] }
func (l *linear) enter(u, i int) string { return fmt.Sprintf("in.%s.%s", Label(u), l.ways[i]) }

// has is k if the cell is the unit's; constant says that it is in any case.
func (l *linear) has(k int64, u, c int) (terms []string, constant bool) {
	if l.p.Cells[c].Public {
		return nil, true
	}
	return []string{term(k, l.own(u, c)), term(k, l.common(c))}, false
}

func (l *linear) labels() {
	l.block("Each cell is A's, B's or common.")
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
	l.block("A link parts where its ends have different owners: part between A and B,\n" +
		"share between common and one of them.")
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
			l.row(append(terms, term(-1, kind+"."+l.ways[i])), "<=", slack)
		}
		a, b := link.U, link.V
		apart, shared := Price{Money: link.Sep}, Price{Shared: link.SharedEdge, Money: link.SepCommon}
		part("part", apart, l.own(0, a), l.own(1, b), 1)
		part("part", apart, l.own(1, a), l.own(0, b), 1)
		part("share", shared, l.common(a), l.common(b), 0)
		part("share", shared, l.common(b), l.common(a), 0)
		if link.Sep != Impossible {
			l.pay(apart, "part."+l.ways[i])
		}
		if link.SepCommon != Impossible {
			l.pay(shared, "share."+l.ways[i])
		}
	}
}

func (l *linear) hosting() {
	l.block("Functions are hosted by cells of the unit, or lacked.")
	load := make([][]string, len(l.p.Cells))
	for u, unit := range l.p.Units {
		for f, need := range unit.Need {
			if need == 0 {
				continue
			}
			var hosts []string
			for c, cell := range l.p.Cells {
				name, ok := l.host(u, f, c)
				if !ok {
					continue
				}
				l.binary(name)
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
	l.block("What a cell can host at most, over both units.")
	for c, terms := range load {
		l.row(terms, "<=", int64(l.p.Cells[c].Capacity))
		l.clashes(c)
	}
}
