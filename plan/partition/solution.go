package partition

import (
	"fmt"
	"slices"
)

// solution spells a scheme out in the problem's own order.
func (m *model) solution(l *completion, s *scheme) Solution {
	l.load(s.labels)
	l.open()
	d := l.finish(s.entry, never)
	sol := Solution{Labels: make([]Label, m.n), Entry: [2]int{-1, -1}}
	for c, label := range s.labels {
		sol.Labels[m.cellAt[c]] = label
		if m.kind[c] == publicCell {
			continue
		}
		switch label {
		case Common:
			sol.Terms.Common.Shared += m.cells[c].Common.Shared
			sol.Terms.Common.Money += m.cells[c].Common.Money
		default:
			sol.Terms.Own += m.cells[c].Own[label]
		}
	}
	for i := range m.links {
		price := m.price(m.parting(i, s.labels))
		sol.Terms.Separation += price.Money
		sol.Terms.Common.Shared += price.Shared
	}
	hosts := l.hosts.hosts()
	for u := range hosts {
		sol.Hosts[u] = make([][]int, m.nf)
		for f, cells := range hosts[u] {
			at := []int{}
			for _, c := range cells {
				at = append(at, m.cellAt[c])
				sol.Terms.Hosting += m.cells[c].Host[f]
			}
			slices.Sort(at)
			sol.Hosts[u][m.funcAt[f]] = at
			if missing := m.units[u].Need[f] - len(at); missing > 0 {
				sol.Terms.Lack.Shared += missing * m.units[u].Lack[f].Shared
				sol.Terms.Lack.Money += Money(missing) * m.units[u].Lack[f].Money
			}
		}
	}
	for _, i := range d.bought {
		sol.Bought = append(sol.Bought, m.linkAt[i])
		sol.Terms.Doors += m.links[i].Door
	}
	slices.Sort(sol.Bought)
	for u, i := range d.entry {
		if i >= 0 {
			sol.Entry[u] = m.linkAt[i]
		}
	}
	area := l.areas()
	sol.Terms.Balance = Money(m.imbalance(area[A], area[B]) / m.money)
	sol.Price = sol.Terms.Sum()
	return sol
}

// Complete finds the cheapest hosts, doors and entries for given labels, one
// for each cell (Common for public ones), such as a general solver may have
// found. It reports false where the labels allow no scheme. Nothing is proved
// of other labels: the solution's Bound is nought.
func Complete(p *Problem, labels []Label) (s Solution, ok bool, err error) {
	if err := p.Check(); err != nil {
		return s, false, err
	}
	if len(labels) != len(p.Cells) {
		return s, false, fmt.Errorf("partition: %d labels for %d cells", len(labels), len(p.Cells))
	}
	m := newModel(p)
	sorted := pick(labels, m.cellAt)
	for c, dom := range m.start() {
		if sorted[c] > Common || dom>>sorted[c]&1 == 0 {
			return s, false, nil
		}
	}
	l := newCompletion(m)
	if !l.load(sorted) || l.fixed() > m.limit || !l.open() {
		return s, false, nil
	}
	way := l.finish(anyEntry, never)
	if way.cost >= never {
		return s, false, nil
	}
	return m.solution(l, &scheme{labels: sorted, entry: way.entry}), true, nil
}
