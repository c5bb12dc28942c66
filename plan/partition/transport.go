package partition

import "slices"

// transport hosts the functions of both units at the least price, given which
// cells each unit may use: a transport problem with the functions to host at
// one end and the capacity of the cells at the other. A cell that cannot be
// common hosts a function for one unit only. It is solved by shortest
// augmenting paths (Ford and Fulkerson; see Ahuja, Magnanti, Orlin, Network
// Flows, ch. 9), one for each host. Where functions clash in a cell it is
// solved without each of them in turn (clash.go).
type transport struct {
	m       *model
	form    []form    // of the cells, shared with whoever asks
	lack    [2][]cost // per unit and function: never if it may not
	demands []demand  // what the units need, counted functions first
	counted int       // how many of them are of counted functions
	cheap   [][]int   // per function: its possible hosts by rising price
	// price is what a host costs here, per demand and cell.
	price  [][]cost
	raised []raise // journal of prices

	at     [][]bool // per demand and cell
	lacks  []int    // per demand: hosts missing
	load   []int    // per cell: counted functions that it hosts
	occ    [][]int  // per cell: the counted demands it hosts
	shifts []shift  // journal of hosts, see rehost.go
	clash  clashes
	stop   cost // what costs more need not be known exactly

	open     [][]int // per demand: its possible hosts at present
	dist     []cost
	byDemand []int // the demand from which the path came ...
	byCell   []int // ... by taking this cell
	queued   []bool
	queue    []int
}

type demand struct {
	unit, function, need int
	twin                 int // the other unit's demand of the same function, -1
}

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
	t := &transport{m: m, form: form, lack: m.lack, stop: never - 1}
	for _, uncounted := range []bool{false, true} {
		for u := range m.units {
			for f, need := range m.units[u].Need {
				if need > 0 && m.funcs[f].Uncounted == uncounted {
					t.demands = append(t.demands, demand{u, f, need, -1})
				}
			}
		}
		if !uncounted {
			t.counted = len(t.demands)
		}
	}
	for d := range t.demands {
		for e := range t.demands {
			if d != e && t.demands[d].function == t.demands[e].function {
				t.demands[d].twin = e
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
	k := len(t.demands)
	t.at = make([][]bool, k)
	for d, dem := range t.demands {
		t.price = append(t.price, slices.Clone(m.host[dem.function]))
		t.at[d] = make([]bool, m.n)
	}
	t.lacks = make([]int, k)
	t.load = make([]int, m.n)
	t.occ = make([][]int, m.n)
	t.open = make([][]int, k)
	t.dist = make([]cost, k)
	t.byDemand = make([]int, k)
	t.byCell = make([]int, k)
	t.queued = make([]bool, k)
	t.clash.init(m)
	return t
}

// solve returns the least cost of hosting everything with each unit using only
// the cells that dom leaves it, never if a demand cannot be met. It may be less,
// though more than stop.
func (t *transport) solve(dom []LabelSet) cost {
	total := t.ignoring(dom)
	if t.m.clashy && total < never {
		return t.apart(dom, total)
	}
	return total
}

// ignoring is solve but for clashes, apart from those that are barred.
func (t *transport) ignoring(dom []LabelSet) (total cost) {
	for c := range t.load {
		t.load[c] = 0
		t.occ[c] = t.occ[c][:0]
	}
	for d, dem := range t.demands {
		clear(t.at[d])
		t.lacks[d] = 0
		t.open[d] = t.open[d][:0]
		for _, c := range t.cheap[dem.function] {
			if t.may(dem, c, dom) {
				t.open[d] = append(t.open[d], c)
			}
		}
	}
	for d, dem := range t.demands {
		for range dem.need {
			more := t.augment(d, dom)
			if more >= never {
				return never
			}
			total += more
		}
	}
	return total
}

// may tells whether a cell may host for a demand.
func (t *transport) may(d demand, c int, dom []LabelSet) bool {
	return mayBe(dom[c], d.unit) && (t.form[c] != passable || !t.m.closes[d.function][c]) && !t.clash.bars(d.function, c)
}

// taken tells whether a cell that cannot be common hosts the demand's function
// for the other unit.
func (t *transport) taken(d demand, c int, dom []LabelSet) bool {
	return d.twin >= 0 && t.at[d.twin][c] && dom[c]&(1<<Common) == 0
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
	displace := func(from, to, c int, w cost) {
		if v := w - t.price[to][c]; to != from && v < t.dist[to] {
			t.dist[to], t.byDemand[to], t.byCell[to] = v, from, c
			if !t.queued[to] {
				t.queued[to] = true
				t.queue = append(t.queue, to)
			}
		}
	}
	for i := 0; i < len(t.queue); i++ {
		from := t.queue[i]
		t.queued[from] = false
		dem := t.demands[from]
		base := t.dist[from]
		host := t.price[from]
		for _, c := range t.open[from] {
			switch w := base + host[c]; {
			case t.at[from][c]:
			case t.taken(dem, c, dom):
				displace(from, dem.twin, c, w)
			case from >= t.counted || t.load[c] < t.m.cells[c].Capacity:
				if w < best {
					best, end, endCell = w, from, c
				}
			default:
				for _, to := range t.occ[c] {
					displace(from, to, c, w)
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
	if d >= t.counted {
		return
	}
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
			if in && (!t.may(dem, c, dom) || t.taken(dem, c, dom)) {
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
	return at
}
