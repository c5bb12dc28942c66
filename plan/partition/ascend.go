package partition

import "slices"

// Cut and transport each choose what is cheapest for themselves, and disagree
// where a host is not the unit's by the labels of the cut. That disagreement
// is priced (Lagrangian decomposition): a host costs the unit more by some
// amount, and giving the cell to the unit costs the cut less by the same. Any
// amounts leave the sum of both values a lower bound. They are found by dual
// ascent, one demand at a time: its hosts that are not the unit's become
// dearer together, as far as the cut does not give up the gain and no other
// host becomes cheaper.

// ascents bounds the rises tried for one demand.
const ascents = 3

// ascend raises the bound by such amounts.
func (d *dive) ascend() {
	for i, dem := range d.hosts.demands {
		for range ascents {
			if d.total > d.s.pool.limit.Load() || !d.dearer(i, dem) {
				break
			}
			d.cut.labels(d.labels)
			d.probes.anew = true
		}
	}
	for u := range d.s.m.units {
		d.grow(u)
	}
}

// dearer tries to make the hosts of a demand dearer that are not the unit's by
// the labels of the cut; it reports whether that raised the bound.
func (d *dive) dearer(i int, dem demand) bool {
	own := func(c int) bool { return d.labels[c] == Label(dem.unit) || d.labels[c] == Common }
	price := d.hosts.price[i]
	var hosts []int
	for _, c := range d.hosts.cheap[dem.function] {
		if d.hosts.at[i][c] {
			hosts = append(hosts, c)
		}
	}
	level := cost(-1)
	for _, c := range hosts {
		if !own(c) {
			level = max(level, price[c])
		}
	}
	if level < 0 {
		return false
	}
	by := min(d.gap()+1, d.s.m.step)
	if lack := d.hosts.lack[dem.unit][dem.function]; lack > level {
		by = min(by, lack-level)
	}
	var cells []int
	for _, c := range d.hosts.cheap[dem.function] {
		switch {
		case !mayBe(d.state.dom[c], dem.unit):
		case price[c] <= level && !own(c):
			cells = append(cells, c)
		case price[c] > level && !slices.Contains(hosts, c):
			by = min(by, price[c]-level)
		}
	}
	start := d.cut.mark()
	took := d.reward(cells, dem.unit, by)
	if took < by {
		d.cut.rewind(start)
		if took < d.s.m.money {
			return false
		}
		by = took
		d.reward(cells, dem.unit, by)
	}
	length := len(d.hosts.raised)
	for _, c := range cells {
		d.hosts.lift(i, c, by)
	}
	d.hosts.stop = max(0, d.gap()+d.hosted-d.cut.value+start.value)
	hosted := d.hosts.solve(d.state.dom)
	gain := hosted - d.hosted + d.cut.value - start.value
	if gain <= 0 {
		d.cut.rewind(start)
		d.hosts.rewind(length)
		d.hosted = d.hosts.solve(d.state.dom)
		return false
	}
	d.hosted = hosted
	d.total += gain
	return true
}

// reward makes it cheaper by x for the cut to give the cells to unit u. It
// returns the least that a cell's reward added to the flow: if that is x, the
// value of the cut has stayed the same.
func (d *dive) reward(cells []int, u int, x cost) cost {
	k := d.cut
	least := x
	for _, c := range cells {
		was := k.value
		node := k.p[c]
		if u == int(A) {
			k.add(node, x)
			if e := k.ends[node]; e > 0 {
				sent := k.push(node, min(e, x), true)
				k.value += sent
				k.setEnd(node, k.ends[node]-sent)
			}
		} else {
			node = k.q[c]
			k.add(node, -x)
			if e := -k.ends[node]; e > 0 {
				sent := k.push(node, min(e, x), false)
				k.value += sent
				k.setEnd(node, k.ends[node]+sent)
			}
		}
		k.loose = false
		least = min(least, k.value-was)
		k.value -= x
		if least == 0 {
			break
		}
	}
	return least
}
