package partition

import (
	"hash/fnv"
	"math/bits"
	"reflect"
	"slices"
	"strings"
)

// cost is a price as the search reckons with it: Shared, Money and tie weight
// in one number, in this order of weight.
type cost = int64

// never is above every sum of costs; two of them still fit a cost.
const never cost = 1 << 60

// tieBits is the width of a tie weight; a scheme's tie weights sum up to less
// than one unit of money.
const tieBits = 8

// model is a problem made ready for the search: cells, links and functions
// sorted by name, so that nothing depends on their order, and prices as costs.
type model struct {
	cellAt, linkAt, funcAt []int // sorted index -> the problem's

	n, nf   int
	cells   []Cell
	links   []Link
	funcs   []Function
	units   [2]Unit
	share   [2]int64 // ShareMin, ShareMax
	balance Balance

	shared    cost // of one shared element
	money     cost // of one unit of money
	symmetric bool // the units are alike
	public    bool // there is a public cell

	own    [][3]cost // per cell and label, with tie weight
	sep    []cost    // per link: the ends part
	sepc   []cost    // per link: one end common
	limit  cost      // no scheme costs more
	step   cost      // multipliers rise by no more at a time, so that sums keep within bounds
	door   []cost    // per link: 0 open, never if impossible
	host   [][]cost  // per function and cell: never if impossible
	lack   [2][]cost // per unit and function: never if it may not
	closes [][]bool  // per function and cell: hosting it makes a through cell a dead end
	shuts  []bool    // per cell: some function closes it
	clash  [][][]int // per cell: sets of functions that it does not host all at once
	clashy bool      // some cell has clashes
	kind   []cellKind
	incid  [][]half      // per cell: all links
	thru   [][]half      // per through cell: links to through cells
	into   [][]half      // per dead end, or what may become one: links that lead into it
	ground [][]half      // per outdoor or detached cell: links by which it is reached
	deads  []int         // dead ends, an ensuite one after its parents; first those that may become one
	grove  []int         // through-through links by rising door price
	yards  []int         // links for reaching outdoor cells, by rising door price
	except [][]Ownership // labels that must not all be given
	entry  [2][]gate     // per unit: links that may serve as its entry
}

// half is one end's view of a link.
type half struct {
	link, to int
	ensuite  bool // in into: leads on even from a dead end
}

// gate is an entry link seen from outdoors.
type gate struct{ link, from, to int }

type cellKind uint8

const (
	throughCell cellKind = iota
	deadCell
	outdoorCell
	detachedCell
	publicCell
)

func kindOf(c *Cell) cellKind {
	switch {
	case c.Public:
		return publicCell
	case c.Outdoor:
		return outdoorCell
	case c.Detached:
		return detachedCell
	case c.DeadEnd:
		return deadCell
	}
	return throughCell
}

func newModel(p *Problem) *model {
	m := &model{n: len(p.Cells), nf: len(p.Functions), balance: p.Balance}
	m.share = [2]int64{int64(p.ShareMin), int64(p.ShareMax)}
	m.sort(p)
	m.prices(p)
	m.graph()
	m.symmetric = m.alike()
	return m
}

func (m *model) sort(p *Problem) {
	m.cellAt = order(len(p.Cells), func(i, j int) int {
		return strings.Compare(p.Cells[i].Name, p.Cells[j].Name)
	})
	m.funcAt = order(len(p.Functions), func(i, j int) int {
		return strings.Compare(p.Functions[i].Name, p.Functions[j].Name)
	})
	place := make([]int, m.n)
	for s, i := range m.cellAt {
		place[i] = s
	}
	funcPlace := make([]int, m.nf)
	for s, f := range m.funcAt {
		funcPlace[f] = s
		m.funcs = append(m.funcs, p.Functions[f])
	}
	for _, i := range m.cellAt {
		c := p.Cells[i]
		c.Host = pick(c.Host, m.funcAt)
		c.Closes = pick(c.Closes, m.funcAt)
		var clashes [][]int
		for _, clash := range c.Clashes {
			clashes = append(clashes, pick(funcPlace, clash))
			m.clashy = m.clashy || !c.Public
		}
		m.clash = append(m.clash, clashes)
		m.shuts = append(m.shuts, c.indoor() && c.closable())
		m.cells = append(m.cells, c)
		m.kind = append(m.kind, kindOf(&c))
		m.public = m.public || c.Public
	}
	for u, unit := range p.Units {
		unit.Need = pick(unit.Need, m.funcAt)
		unit.Lack = pick(unit.Lack, m.funcAt)
		m.units[u] = unit
	}
	links := make([]Link, len(p.Links))
	for i, l := range p.Links {
		l.U, l.V = place[l.U], place[l.V]
		if !l.Ensuite && l.U > l.V {
			l.U, l.V = l.V, l.U
		}
		links[i] = l
	}
	m.linkAt = order(len(links), func(i, j int) int { return compareLinks(&links[i], &links[j]) })
	m.links = pick(links, m.linkAt)
}

func order(n int, compare func(i, j int) int) []int {
	at := make([]int, n)
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, compare)
	return at
}

func pick[T any](from []T, at []int) []T {
	if len(from) == 0 {
		return nil
	}
	to := make([]T, len(at))
	for s, i := range at {
		to[s] = from[i]
	}
	return to
}

// compareLinks orders links by everything that tells them apart.
func compareLinks(a, b *Link) int {
	bit := func(b bool) int {
		if b {
			return 1
		}
		return 0
	}
	key := func(l *Link) [10]int {
		return [...]int{min(l.U, l.V), max(l.U, l.V), bit(!l.Open), int(l.Door), int(l.Sep), int(l.SepCommon), l.SharedEdge,
			bit(l.Ensuite) * (1 + bit(l.U > l.V)), bit(l.Entry[A]), bit(l.Entry[B])}
	}
	ka, kb := key(a), key(b)
	if c := slices.Compare(ka[:2], kb[:2]); c != 0 {
		return c
	}
	if c := strings.Compare(a.Name, b.Name); c != 0 {
		return c
	}
	return slices.Compare(ka[2:], kb[2:])
}

func (m *model) prices(p *Problem) {
	money, shared, _ := p.totals()
	m.money = 1 << (tieBits + bits.Len(uint(m.n)))
	m.shared = m.money * cost(money+1)
	m.limit = never
	m.step = never / 16 / cost(m.n+1)
	if p.forbidden() > 0 {
		m.limit = m.shared*cost(shared+1) - 1
	}
	// parting gives a price of parting; one that is impossible is above every
	// scheme that does without.
	parting := func(price Money) cost {
		if price == Impossible {
			return m.limit + 1
		}
		return cost(price) * m.money
	}
	m.own = make([][3]cost, m.n)
	for i, c := range m.cells {
		if c.Public {
			continue
		}
		for l := A; l <= Common; l++ {
			m.own[i][l] = tieWeight(c.Name, l)
		}
		m.own[i][A] += cost(c.Own[A]) * m.money
		m.own[i][B] += cost(c.Own[B]) * m.money
		m.own[i][Common] += m.cost(c.Common)
	}
	for _, l := range m.links {
		m.sep = append(m.sep, parting(l.Sep))
		m.sepc = append(m.sepc, parting(l.SepCommon)+cost(l.SharedEdge)*m.shared)
		door := cost(l.Door) * m.money
		if l.Open {
			door = 0
		} else if l.Door == Impossible {
			door = never
		}
		m.door = append(m.door, door)
	}
	m.host = make([][]cost, m.nf)
	m.closes = make([][]bool, m.nf)
	for f := range m.host {
		m.host[f] = make([]cost, m.n)
		m.closes[f] = make([]bool, m.n)
		for i, c := range m.cells {
			m.closes[f][i] = m.shuts[i] && c.Closes[f]
			m.host[f][i] = never
			if !c.Public && c.Host[f] != Impossible && (c.Capacity > 0 || m.funcs[f].Uncounted) {
				m.host[f][i] = cost(c.Host[f]) * m.money
			}
		}
	}
	for u := range m.units {
		m.lack[u] = make([]cost, m.nf)
		for f, price := range m.units[u].Lack {
			m.lack[u][f] = never
			if price.Money != Impossible {
				m.lack[u][f] = m.cost(price)
			}
		}
	}
}

func (m *model) cost(p Price) cost {
	return cost(p.Shared)*m.shared + cost(p.Money)*m.money
}

// price is the reverse of cost, without the tie weight.
func (m *model) price(c cost) Price {
	return Price{Shared: int(c / m.shared), Money: Money(c % m.shared / m.money)}
}

// tieWeight is the last 8 bits of the 32-bit FNV-1a hash of the cell's name
// followed by the label's number.
func tieWeight(name string, l Label) cost {
	h := fnv.New32a()
	h.Write([]byte(name))
	h.Write([]byte{byte(l)})
	return cost(h.Sum32() & (1<<tieBits - 1))
}

func (m *model) graph() {
	m.incid = make([][]half, m.n)
	m.thru = make([][]half, m.n)
	m.into = make([][]half, m.n)
	m.ground = make([][]half, m.n)
	for i, l := range m.links {
		for _, e := range [2][2]int{{l.U, l.V}, {l.V, l.U}} {
			m.incid[e[0]] = append(m.incid[e[0]], half{link: i, to: e[1]})
			for u := range m.entry {
				if l.Entry[u] && m.door[i] != never && m.cells[e[0]].ground() && m.kind[e[1]] == throughCell {
					m.entry[u] = append(m.entry[u], gate{i, e[0], e[1]})
				}
			}
			if m.door[i] == never {
				continue
			}
			switch from, to := m.kind[e[0]], m.kind[e[1]]; {
			case from == throughCell && to == throughCell:
				m.thru[e[0]] = append(m.thru[e[0]], half{link: i, to: e[1]})
				if m.shuts[e[1]] {
					m.into[e[1]] = append(m.into[e[1]], half{link: i, to: e[0]})
				}
			case to == deadCell && from == throughCell:
				m.into[e[1]] = append(m.into[e[1]], half{link: i, to: e[0], ensuite: l.Ensuite && l.U == e[0]})
			case to == deadCell && from == deadCell && l.Ensuite && l.U == e[0]:
				m.into[e[1]] = append(m.into[e[1]], half{link: i, to: e[0], ensuite: true})
			case (to == outdoorCell || to == detachedCell) && from != detachedCell:
				m.ground[e[1]] = append(m.ground[e[1]], half{link: i, to: e[0]})
			}
		}
		if m.door[i] == never {
			continue
		}
		u, v := m.kind[l.U], m.kind[l.V]
		if u == throughCell && v == throughCell {
			m.grove = append(m.grove, i)
		} else if (u == outdoorCell || v == outdoorCell) && u != detachedCell && v != detachedCell {
			m.yards = append(m.yards, i)
		}
	}
	byDoor := func(a, b int) int { return compareCosts(m.door[a], m.door[b]) }
	slices.SortStableFunc(m.grove, byDoor)
	slices.SortStableFunc(m.yards, byDoor)
	for c := range m.cells {
		slices.SortStableFunc(m.into[c], func(a, b half) int { return byDoor(a.link, b.link) })
		slices.SortStableFunc(m.ground[c], func(a, b half) int { return byDoor(a.link, b.link) })
	}
	m.sortDeads()
}

func compareCosts(a, b cost) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// sortDeads lists the dead ends, each after those that lead on to it.
func (m *model) sortDeads() {
	state := make([]uint8, m.n)
	var visit func(c int)
	visit = func(c int) {
		if state[c] != 0 {
			return
		}
		state[c] = 1
		for _, h := range m.into[c] {
			if h.ensuite && m.kind[h.to] == deadCell {
				visit(h.to)
			}
		}
		m.deads = append(m.deads, c)
	}
	for c, shuts := range m.shuts {
		if shuts {
			m.deads = append(m.deads, c)
		}
	}
	for c, k := range m.kind {
		if k == deadCell {
			visit(c)
		}
	}
}

// alike reports whether exchanging the units changes nothing.
func (m *model) alike() bool {
	if !reflect.DeepEqual(m.units[A], m.units[B]) || m.share[0]+m.share[1] != 1000 {
		return false
	}
	if m.balance.PerArea != 0 && m.balance.Share != 500 {
		return false
	}
	for _, c := range m.cells {
		if !c.Public && (c.Own[A] != c.Own[B] || c.Allowed>>A&1 != c.Allowed>>B&1) {
			return false
		}
	}
	for _, l := range m.links {
		if l.Entry[A] != l.Entry[B] {
			return false
		}
	}
	return true
}
