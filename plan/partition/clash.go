package partition

import "slices"

// clashes keeps apart functions that a cell does not host all at once, by
// branch and bound: where the cheapest hosts run into a clash, one of its
// functions after the other is barred from the cell.
type clashes struct {
	barred [][]bool // per function and cell; nil where nothing clashes
	path   []bar
	best   cost
	kept   []shift // that led to the best
}

type bar struct{ function, cell int }

func (k *clashes) init(m *model) {
	if !m.clashy {
		return
	}
	k.barred = make([][]bool, m.nf)
	for f := range k.barred {
		k.barred[f] = make([]bool, m.n)
	}
}

// bars tells whether a function is kept out of a cell at present.
func (k *clashes) bars(f, c int) bool { return k.barred != nil && k.barred[f][c] }

// apart is the least cost of hosting everything without a clash, total what it
// is with the clashes of the present hosts. The hosts are then those that cost
// it, unless it is above stop: then it is as much as one more than that.
func (t *transport) apart(dom []LabelSet, total cost) cost {
	f, _ := t.clashing()
	if f == nil {
		return total
	}
	k := &t.clash
	k.best, k.kept, t.shifts = min(t.stop+1, never), k.kept[:0], t.shifts[:0]
	most := k.best
	t.keepApart(dom, total)
	if k.best < most {
		for _, s := range k.kept {
			t.apply(s)
		}
	}
	return k.best
}

// keepApart looks for hosts at less than the best with what is barred already;
// total is what they cost if clashes are ignored.
func (t *transport) keepApart(dom []LabelSet, total cost) {
	k := &t.clash
	if total >= k.best {
		return
	}
	functions, c := t.clashing()
	if functions == nil {
		k.best = total
		k.kept = append(k.kept[:0], t.shifts...)
		return
	}
	order := slices.Clone(functions)
	slices.SortStableFunc(order, func(f, g int) int { return compareCosts(t.elsewhere(f, c), t.elsewhere(g, c)) })
	for _, f := range order {
		length := len(t.shifts)
		t.keepApart(dom, total+t.bar(f, c, dom))
		t.unshift(length)
		k.barred[f][c] = false
	}
}

// roughly is what hosting everything without a clash costs if in each clash
// the function is barred that seems the cheapest to host elsewhere; total is
// what the present hosts cost.
func (t *transport) roughly(dom []LabelSet, total cost) cost {
	if !t.m.clashy {
		return total
	}
	k := &t.clash
	k.path = k.path[:0]
	for total < never {
		functions, c := t.clashing()
		if functions == nil {
			break
		}
		best, at := never, functions[0]
		for _, f := range functions {
			if x := t.elsewhere(f, c); x < best {
				best, at = x, f
			}
		}
		k.barred[at][c] = true
		k.path = append(k.path, bar{at, c})
		total = t.ignoring(dom)
	}
	for _, b := range k.path {
		k.barred[b.function][b.cell] = false
	}
	return total
}

// elsewhere is about how much dearer it is to host function f not in cell c.
func (t *transport) elsewhere(f, c int) (more cost) {
	for d, dem := range t.demands {
		if dem.function != f || !t.at[d][c] {
			continue
		}
		least := t.lack[dem.unit][f]
		for _, x := range t.open[d] {
			if !t.at[d][x] {
				least = min(least, t.price[d][x])
			}
		}
		more += min(least, never/4) - t.price[d][c]
	}
	return more
}

// clashing is the first clash that the present hosts run into; nil if none.
func (t *transport) clashing() (functions []int, cell int) {
	for c, sets := range t.m.clash {
		for _, set := range sets {
			if !slices.ContainsFunc(set, func(f int) bool { return !t.used(f, c) }) {
				return set, c
			}
		}
	}
	return nil, -1
}

// used tells whether cell c hosts function f for either unit.
func (t *transport) used(f, c int) bool {
	for d, dem := range t.demands {
		if dem.function == f && t.at[d][c] {
			return true
		}
	}
	return false
}

// shut tells whether cell c hosts a function that closes it.
func (t *transport) shut(c int) bool {
	for f, at := range t.m.closes {
		if at[c] && t.used(f, c) {
			return true
		}
	}
	return false
}
