package partition

// shift is a change of the hosts: a cell taken on or given up by a demand, or
// (cell -1) one of its hosts missing or no longer.
type shift struct {
	demand, cell int
	in           bool
}

// shiftTo carries out a change and notes it.
func (t *transport) shiftTo(s shift) {
	t.shifts = append(t.shifts, s)
	t.apply(s)
}

func (t *transport) apply(s shift) {
	switch {
	case s.cell >= 0:
		t.move(s.demand, s.cell, s.in)
	case s.in:
		t.lacks[s.demand]++
	default:
		t.lacks[s.demand]--
	}
}

// unshift undoes the changes since there were so many.
func (t *transport) unshift(length int) {
	for i := len(t.shifts) - 1; i >= length; i-- {
		s := t.shifts[i]
		s.in = !s.in
		t.apply(s)
	}
	t.shifts = t.shifts[:length]
}

// expel takes a host from a demand that may have it no more, the hosts being
// the cheapest ones so far, and makes them the cheapest again; it returns what
// that adds to the cost, never where the demand cannot be met. It is one shortest
// path from the demand in what is left of the network: to a cell with room, or
// to the room that is given up here. On from a cell with room it leads to every
// host that might as well be given up.
func (t *transport) expel(d, c int, dom []LabelSet) cost {
	anywhere := len(t.demands) // some cell with room, as if it were a demand
	full := d < t.counted && t.load[c] == t.m.cells[c].Capacity
	t.shiftTo(shift{d, c, false})
	for i := range t.dist {
		t.dist[i] = never
	}
	room, end, endCell := never, -1, -1 // the way to a cell with room
	back, backBy := never, -1           // the way to the room given up
	t.dist[d], t.byDemand[d] = -t.price[d][c], -1
	t.queue = append(t.queue[:0], d)
	waiting := false // for the ways on from a cell with room
	reach := func(from, to, cell int, v cost) {
		if v < t.dist[to] {
			t.dist[to], t.byDemand[to], t.byCell[to] = v, from, cell
			if !t.queued[to] {
				t.queued[to] = true
				t.queue = append(t.queue, to)
			}
		}
	}
	arrive := func(from, cell int, w cost) {
		if w < room {
			room, end, endCell = w, from, cell
			if !waiting {
				waiting = true
				t.queue = append(t.queue, anywhere)
			}
		}
	}
	for i := 0; i < len(t.queue); i++ {
		from := t.queue[i]
		if from == anywhere {
			waiting = false
			for to, dem := range t.demands {
				if to == d {
					continue
				}
				for _, x := range t.cheap[dem.function] {
					if t.at[to][x] {
						reach(anywhere, to, x, room-t.price[to][x])
					}
				}
				if t.lacks[to] > 0 {
					reach(anywhere, to, -1, room-t.lack[dem.unit][dem.function])
				}
			}
			continue
		}
		t.queued[from] = false
		dem := t.demands[from]
		base := t.dist[from]
		for _, x := range t.open[from] {
			if t.at[from][x] || t.clash.bars(dem.function, x) {
				continue
			}
			switch w := base + t.price[from][x]; {
			case t.taken(dem, x, dom):
				if dem.twin != d {
					reach(from, dem.twin, x, w-t.price[dem.twin][x])
				}
			case x == c && (dem.twin == d && dom[c]&(1<<Common) == 0 || full && from < t.counted):
				if w < back {
					back, backBy = w, from
				}
			case from >= t.counted || t.load[x] < t.m.cells[x].Capacity:
				arrive(from, x, w)
			default:
				for _, to := range t.occ[x] {
					if to != from && to != d {
						reach(from, to, x, w-t.price[to][x])
					}
				}
			}
		}
		if lack := t.lack[dem.unit][dem.function]; lack != never {
			arrive(from, -1, base+lack)
		}
	}
	if min(room, back) >= never/2 {
		return never
	}
	at := end
	if back < room {
		t.shiftTo(shift{backBy, c, true})
		at = backBy
	} else {
		t.shiftTo(shift{end, endCell, true})
	}
	for at != d {
		from, x := t.byDemand[at], t.byCell[at]
		t.shiftTo(shift{at, x, false})
		if from == anywhere {
			t.shiftTo(shift{end, endCell, true})
			at = end
			continue
		}
		t.shiftTo(shift{from, x, true})
		at = from
	}
	return min(room, back)
}

// bar keeps a function out of a cell, the hosts being the cheapest ones, and
// makes them so again; it returns what that adds to the cost.
func (t *transport) bar(function, c int, dom []LabelSet) (more cost) {
	t.clash.barred[function][c] = true
	for d, dem := range t.demands {
		if dem.function == function && t.at[d][c] && more < never {
			more += t.expel(d, c, dom)
		}
	}
	return min(more, never)
}
