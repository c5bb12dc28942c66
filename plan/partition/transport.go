package partition

import "slices"

// transport hosts the functions of both units at the least price, given which
// cells each unit may use: a transport problem with the functions to host at
// one end and the capacity of the cells at the other. It is solved by shortest
// augmenting paths (Ford and Fulkerson; see Ahuja, Magnanti, Orlin, Network
// Flows, ch. 9), one for each host. Where functions clash in a cell it is
// solved without each of them in turn (clash.go).
type transport struct {
	m       *model
	form    []form    // of the cells, shared with whoever asks
	lack    [2][]cost // per unit and function: never if it may not
	demands []demand  // counted functions that a unit needs
	free    []demand  // uncounted ones
	cheap   [][]int   // per function: its possible hosts by rising price
	// price is what a host costs here, per demand and cell: counted demands
	// first, then the uncounted.
	price  [][]cost
	raised []raise // journal of prices

	at    [][]bool // per demand and cell
	lacks []int    // per demand: hosts missing
	load  []int    // per cell
	occ   [][]int  // per cell: the demands it hosts
	taken [][]int  // per uncounted demand: its hosts
	clash clashes

	dist     []cost
	byDemand []int // the demand from which the path came ...
	byCell   []int // ... by taking this cell
	queued   []bool
	queue    []int
}

type demand struct{ unit, function, need int }

type raise struct {
	demand, cell int
	was          cost
}

// rewind undoes the raises since there were so many.
func (t *transport) rewind(length int) {
	for i := len(t.raised) - 1; i >= length; i-- {
		r := t.raised[i]
		t.price[r.demand][r.cell] = r.was
	}
	t.raised = t.raised[:length]
}

// lift makes a host dearer.
func (t *transport) lift(demand, cell int, by cost) {
	t.raised = append(t.raised, raise{demand, cell, t.price[demand][cell]})
	t.price[demand][cell] += by
}

func newTransport(m *model, form []form) *transport {
	t := &transport{m: m, form: form, lack: m.lack}
	for u := range m.units {
		for f, need := range m.units[u].Need {
			if need == 0 {
				continue
			}
			if m.funcs[f].Uncounted {
				t.free = append(t.free, demand{u, f, need})
			} else {
				t.demands = append(t.demands, demand{u, f, need})
			}
		}
	}
	t.cheap = make([][]int, m.nf)
	for f := range t.cheap {
		for c := range m.n {
			if m.host[f][c] != never {
				t.cheap[f] = append(t.cheap[f], c)
			}
		}
		slices.SortStableFunc(t.cheap[f], func(a, b int) int { return compareCosts(m.host[f][a], m.host[f][b]) })
	}
	for _, d := range t.all() {
		t.price = append(t.price, slices.Clone(m.host[d.function]))
	}
	k := len(t.demands)
	t.at = make([][]bool, k)
	for d := range t.at {
		t.at[d] = make([]bool, m.n)
	}
	t.lacks = make([]int, k)
	t.load = make([]int, m.n)
	t.occ = make([][]int, m.n)
	t.dist = make([]cost, k)
	t.byDemand = make([]int, k)
	t.byCell = make([]int, k)
	t.queued = make([]bool, k)
	t.taken = make([][]int, len(t.free))
	t.clash.init(m)
	return t
}

// solve returns the least cost of hosting everything with each unit using only
// the cells that dom leaves it, never if a demand cannot be met.
func (t *transport) solve(dom []LabelSet) cost {
	total := t.ignoring(dom)
	if t.m.clashy && total < never {
		return t.apart(dom, total)
	}
	return total
}

// ignoring is solve but for clashes, apart from those that are barred.
func (t *transport) ignoring(dom []LabelSet) cost {
	total := t.uncounted(dom)
	if total >= never {
		return never
	}
	for c := range t.load {
		t.load[c] = 0
		t.occ[c] = t.occ[c][:0]
	}
	for d := range t.demands {
		clear(t.at[d])
		t.lacks[d] = 0
	}
	for d := range t.demands {
		for range t.demands[d].need {
			more := t.augment(d, dom)
			if more >= never {
				return never
			}
			total += more
		}
	}
	return total
}

// open tells whether a cell may host for a demand.
func (t *transport) open(d demand, c int, dom []LabelSet) bool {
	return mayBe(dom[c], d.unit) && (t.form[c] != passable || !t.m.closes[d.function][c]) && !t.clash.bars(d.function, c)
}

// all lists the demands as price numbers them.
func (t *transport) all() []demand { return slices.Concat(t.demands, t.free) }

// uncounted functions compete for nothing: each takes its cheapest hosts.
func (t *transport) uncounted(dom []LabelSet) cost {
	var total cost
	for i, d := range t.free {
		lack := t.lack[d.unit][d.function]
		hosts := t.choose(i, dom)
		t.taken[i] = hosts
		for _, c := range hosts {
			total += t.price[len(t.demands)+i][c]
		}
		if len(hosts) < d.need {
			if lack == never {
				return never
			}
			total += cost(d.need-len(hosts)) * lack
		}
	}
	return total
}

// choose is the cheapest hosts of the i-th uncounted demand.
func (t *transport) choose(i int, dom []LabelSet) (hosts []int) {
	d := t.free[i]
	price := t.price[len(t.demands)+i]
	for _, c := range t.cheap[d.function] {
		if !t.open(d, c, dom) || price[c] > t.lack[d.unit][d.function] {
			continue
		}
		at := len(hosts)
		for at > 0 && price[c] < price[hosts[at-1]] {
			at--
		}
		if hosts = slices.Insert(hosts, at, c); len(hosts) > d.need {
			hosts = hosts[:d.need]
		}
	}
	return hosts
}

// augment finds one more host for demand d, moving others where that helps,
// and returns what it adds to the cost.
func (t *transport) augment(d int, dom []LabelSet) cost {
	for i := range t.dist {
		t.dist[i] = never
	}
	t.dist[d], t.byDemand[d] = 0, -1
	best, end, endCell := never, -1, -1
	t.queue = append(t.queue[:0], d)
	for i := 0; i < len(t.queue); i++ {
		from := t.queue[i]
		t.queued[from] = false
		dem := t.demands[from]
		base := t.dist[from]
		host := t.price[from]
		for _, c := range t.cheap[dem.function] {
			if t.at[from][c] || !t.open(dem, c, dom) {
				continue
			}
			w := base + host[c]
			if t.load[c] < t.m.cells[c].Capacity {
				if w < best {
					best, end, endCell = w, from, c
				}
				continue
			}
			for _, to := range t.occ[c] {
				if v := w - t.price[to][c]; to != from && v < t.dist[to] {
					t.dist[to], t.byDemand[to], t.byCell[to] = v, from, c
					if !t.queued[to] {
						t.queued[to] = true
						t.queue = append(t.queue, to)
					}
				}
			}
		}
		if lack := t.lack[dem.unit][dem.function]; lack != never && base+lack < best {
			best, end, endCell = base+lack, from, -1
		}
	}
	if end < 0 {
		return never
	}
	if endCell < 0 {
		t.lacks[end]++
	} else {
		t.move(end, endCell, true)
	}
	for end != d {
		from, c := t.byDemand[end], t.byCell[end]
		t.move(end, c, false)
		t.move(from, c, true)
		end = from
	}
	return best
}

func (t *transport) move(d, c int, in bool) {
	t.at[d][c] = in
	if in {
		t.load[c]++
		t.occ[c] = append(t.occ[c], d)
		return
	}
	t.load[c]--
	i := slices.Index(t.occ[c], d)
	t.occ[c] = slices.Delete(t.occ[c], i, i+1)
}

// allowed reports whether the hosts last found are all left by dom; they are
// then still the cheapest, provided that dom only became narrower.
func (t *transport) allowed(dom []LabelSet) bool {
	for d, dem := range t.demands {
		for c, in := range t.at[d] {
			if in && !t.open(dem, c, dom) {
				return false
			}
		}
	}
	return true
}

// hosts lists, per unit and function, the cells of the last solution.
func (t *transport) hosts() (at [2][][]int) {
	for u := range at {
		at[u] = make([][]int, t.m.nf)
	}
	for d, dem := range t.demands {
		for c, in := range t.at[d] {
			if in {
				at[dem.unit][dem.function] = append(at[dem.unit][dem.function], c)
			}
		}
	}
	for i, d := range t.free {
		at[d.unit][d.function] = t.taken[i]
	}
	return at
}
