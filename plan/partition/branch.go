package partition

import "slices"

// child is a part of a part: cell keeps only the labels in set.
type child struct {
	cell  int
	set   LabelSet
	bound cost
}

// branch splits the present part, the most promising child first; nil once
// every cell has its one label. While a unit has no through cell of its own
// yet, the split is over a cell by which it could be entered or which could
// host what few cells can; that gives the cut and the ways something to hold
// on to. After that it is over the cell whose labels raise the bound most.
func (d *dive) branch() []child {
	for u := range d.s.m.units {
		if c := d.seed(u); c >= 0 {
			in := child{c, d.state.dom[c] & (1<<u | 1<<Common), d.total}
			out := child{c, d.state.dom[c] & (1 << (1 - u)), d.total}
			return []child{in, out}
		}
	}
	best, score := -1, cost(-1)
	for c, dom := range d.state.dom {
		if single(dom) {
			continue
		}
		var sum cost
		for l := A; l <= Common; l++ {
			if dom&(1<<l) != 0 {
				sum += min(d.rise[c][l], never/8)
			}
		}
		if sum > score {
			best, score = c, sum
		}
	}
	if best < 0 {
		return nil
	}
	var children []child
	for l := A; l <= Common; l++ {
		if d.state.dom[best]&(1<<l) != 0 {
			children = append(children, child{best, 1 << l, d.total + min(d.rise[best][l], never/2)})
		}
	}
	slices.SortStableFunc(children, func(a, b child) int { return compareCosts(a.bound, b.bound) })
	return children
}

// seed is an undecided cell to split on while unit u has no through cell in
// any case; -1 if it has one or needs none.
func (d *dive) seed(u int) int {
	m, dom := d.s.m, d.state.dom
	for c, k := range m.kind {
		if k == throughCell && mustBe(dom[c], u) {
			return -1
		}
	}
	undecided := func(c int) bool { return m.kind[c] == throughCell && mayBe(dom[c], u) && !mustBe(dom[c], u) }
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
