package partition

import (
	"cmp"
	"math"
	"slices"
)

// child is a part of a part: cell keeps only the labels in set.
type child struct {
	cell  int
	set   LabelSet
	form  form
	bound cost
}

// branch splits the present part, the most promising child first; nil once
// every cell has its one label. While a unit has no through cell of its own
// yet, the split is over a cell by which it could be entered or which could
// host what few cells can; that gives the cut and the ways something to hold
// on to. After that it is over the cell whose labels raise the bound most.
func (d *dive) branch() []child {
	if c := d.state.mirrored(); c >= 0 {
		mine := child{c, 1 << A, unformed, d.squeezed.total}
		common := child{c, 1 << Common, unformed, d.squeezed.total}
		return []child{mine, common}
	}
	for u := range d.s.m.units {
		if c := d.seed(u); c >= 0 {
			in := child{c, d.state.dom[c] & (1<<u | 1<<Common), unformed, d.squeezed.total}
			out := child{c, d.state.dom[c] & (1 << (1 - u)), unformed, d.squeezed.total}
			return []child{in, out}
		}
	}
	if c := d.closing(); c >= 0 {
		dead := child{c, Any, closed, d.squeezed.total}
		open := child{c, Any, passable, d.squeezed.total}
		return []child{dead, open}
	}
	if u, c := d.scarce(); c >= 0 {
		in := child{c, d.state.dom[c] & (1<<u | 1<<Common), unformed, d.squeezed.total}
		out := child{c, d.state.dom[c] & (1 << (1 - u)), unformed, d.squeezed.total}
		return []child{in, out}
	}
	best := d.split()
	if best < 0 {
		return nil
	}
	var children []child
	for l := A; l <= Common; l++ {
		if d.state.dom[best]&(1<<l) != 0 {
			children = append(children, child{best, 1 << l, unformed, max(d.squeezed.total, d.total+d.probes.known(d, best, l)+d.rehosted(best, l))})
		}
	}
	slices.SortStableFunc(children, func(a, b child) int { return compareCosts(a.bound, b.bound) })
	return children
}

// tried bounds the cells compared for splitting on.
const tried = 8

// split chooses the cell to split on, -1 if all labels are known. Splitting on
// a cell on which the cut that falls short of an area bound and the one that
// exceeds it disagree makes either of them dearer on one side; else the cell
// is taken whose labels raise the bound most.
func (d *dive) split() int {
	z := &d.squeezed
	d.host(d.total - d.hosted)
	var cells, swinging []int
	for c, dom := range d.state.dom {
		if !single(dom) {
			cells = append(cells, c)
			if z.bound >= 0 && z.beyond >= 0 && z.labels[c] != d.labels[c] {
				swinging = append(swinging, c)
			}
		}
	}
	if len(swinging) > 0 {
		cells = swinging
	}
	network := d.probes.left
	network.load()
	offers := func(c int) (sum cost) {
		for l := A; l <= Common; l++ {
			if d.state.dom[c]&(1<<l) != 0 && l != d.labels[c] {
				sum += network.offers(c, l)
			}
		}
		return sum
	}
	for _, c := range cells {
		d.score[c] = float64(offers(c))
	}
	slices.SortStableFunc(cells, func(a, b int) int { return cmp.Compare(d.score[b], d.score[a]) })
	few := min(len(cells), tried)
	for i := few; i < len(cells); i++ {
		if d.contested(cells[i]) {
			cells[few], cells[i] = cells[i], cells[few]
			few++
		}
	}
	cells = cells[:few]
	gap := d.gap()
	for _, c := range cells {
		d.score[c] = 0
		for l := A; l <= Common; l++ {
			if d.state.dom[c]&(1<<l) != 0 && (l != d.labels[c] || len(swinging) == 0) {
				d.score[c] += left(d.probes.rise(d, c, l)+d.rehosted(c, l), gap)
			}
		}
	}
	if len(swinging) > 0 {
		d.backwards(cells)
	}
	best := -1
	for _, c := range cells {
		if best < 0 || d.score[c] < d.score[best] {
			best = c
		}
	}
	return best
}

// contested tells whether the cheapest hosts are in cell c for a unit to which
// the cut does not give it.
func (d *dive) contested(c int) bool {
	for i, dem := range d.hosts.demands {
		if d.hosts.at[i][c] && d.labels[c] != Label(dem.unit) && d.labels[c] != Common {
			return true
		}
	}
	return false
}

// rehosted is how much dearer the hosts become if cell c gets label l.
func (d *dive) rehosted(c int, l Label) cost {
	t := d.hosts
	hosts := false
	for i, dem := range t.demands {
		hosts = hosts || t.at[i][c] && (l == Label(1-dem.unit))
	}
	if !hosts {
		return 0
	}
	was := d.state.dom[c]
	d.state.dom[c] = 1 << l
	d.spare.stop = d.hosted + d.gap()
	x := d.spare.solve(d.state.dom)
	d.state.dom[c] = was
	return min(max(0, x-d.hosted), never/8)
}

// steep is how fast the search tree of a part is taken to shrink with its gap.
// Tried on houses and instances: from 3 to 7 it makes little difference; 10 is too
// much for some houses.
const steep = 6

// left estimates how much of the search tree a rise of the bound leaves, from 1
// where there is none to 0 where it closes the gap.
func left(rise, gap cost) float64 {
	if rise > gap {
		return 0
	}
	return math.Exp(-steep * float64(rise) / float64(gap+1))
}

// backwards adds to the scores what the labels of the cut that falls short of
// an area bound leave: by how much they make the cut dearer that exceeds it.
func (d *dive) backwards(cells []int) {
	z := &d.squeezed
	over := min(d.s.pool.limit.Load()-z.excess, never/8)
	start := d.cut.mark()
	var by pressure
	by[z.bound] = z.beyond
	d.cut.charge(by)
	d.probes.left.load()
	for _, c := range cells {
		d.score[c] += left(d.probes.left.rise(c, d.labels[c], over, d.words), over)
	}
	d.cut.rewind(start)
}

// scarcest is how many cells more than both units need may be left where hosts
// are looked at although the area does not suffice yet.
const scarcest = 3

// scarce is, while no scheme is known, a cell that would host for unit u what
// the unit must have and few cells can, though it need not be the unit's; -1
// if there is none. A house that has too little for two units shows it so
// before all else is tried.
func (d *dive) scarce() (unit, cell int) {
	m, dom := d.s.m, d.state.dom
	unit, cell = -1, -1
	if d.s.pool.limit.Load() < m.limit {
		return unit, cell
	}
	fewest := m.n + 1
	if d.squeezed.bound >= 0 {
		fewest = scarcest + 1
	}
	for i, dem := range d.hosts.demands {
		if m.lack[dem.unit][dem.function] != never {
			continue
		}
		at, spare := -1, 0
		for u := range m.units {
			spare -= m.units[u].Need[dem.function]
		}
		for _, c := range d.hosts.cheap[dem.function] {
			if !d.state.mayHost(dem.function, c) {
				continue
			}
			spare++
			if at < 0 && d.hosts.at[i][c] && !mustBe(dom[c], dem.unit) {
				at = c
			}
		}
		if at >= 0 && spare < fewest {
			unit, cell, fewest = dem.unit, at, spare
		}
	}
	return unit, cell
}

// closing is a cell, of one owner, that the cheapest hosts would close though
// it may still be passed; -1 if there is none or all labels are known.
func (d *dive) closing() int {
	at, known := -1, true
	for c, dom := range d.state.dom {
		if !single(dom) {
			known = false
		} else if at < 0 && d.state.form[c] == unformed && d.hosts.shut(c) {
			at = c
		}
	}
	if known {
		return -1
	}
	return at
}

// seed is an undecided cell to split on while unit u has no through cell in
// any case; -1 if it has one or needs none.
func (d *dive) seed(u int) int {
	m, dom := d.s.m, d.state.dom
	for c, k := range m.kind {
		if k == throughCell && mustBe(dom[c], u) && !d.state.dead(c) {
			return -1
		}
	}
	undecided := func(c int) bool { return d.state.through(c) && mayBe(dom[c], u) && !mustBe(dom[c], u) }
	best, fewest := -1, m.n+1
	consider := func(cells []int) {
		first, count := -1, 0
		for _, c := range cells {
			if undecided(c) {
				if first < 0 {
					first = c
				}
				count++
			}
		}
		if count > 0 && count < fewest {
			best, fewest = first, count
		}
	}
	if m.units[u].NeedEntry {
		var cells []int
		for _, g := range m.entry[u] {
			if !slices.Contains(cells, g.to) {
				cells = append(cells, g.to)
			}
		}
		consider(cells)
	}
	for f, need := range m.units[u].Need {
		if need > 0 && m.lack[u][f] == never {
			consider(d.hosts.cheap[f])
		}
	}
	return best
}
