package partition

// growths bounds the separators priced for one unit in one part.
const growths = 16

// grow raises the bound by what it costs the cut to let unit u hang together.
// Where the unit needs more than the cells around its root that the cut gives
// it, at least one of the cells next to them must be the unit's, too
// (a separator inequality). Giving it any of them is made cheaper by the same
// amount, as far as the cut does not give that up again; that amount is then
// due. The cell for which that was first becomes one that the cut may as well
// give to the unit, and the next separator lies beyond it.
func (d *dive) grow(u int) {
	root := d.state.root(u)
	if root < 0 {
		return
	}
	for range growths {
		if d.total > d.s.pool.limit.Load() {
			return
		}
		d.cut.owned(u, d.own)
		ring := d.ring(u, root)
		if ring == nil {
			return
		}
		start := d.cut.mark()
		by := min(d.gap()+1, d.s.m.step)
		took := d.reward(ring, u, by)
		if took < by {
			d.cut.rewind(start)
			if took < d.s.m.money {
				return
			}
			by = took
			d.reward(ring, u, by)
		}
		d.grant += by
		d.total += by
	}
}

// ring is the through cells next to those that hang together with root by the
// labels in own; nil if the unit may do without them.
func (d *dive) ring(u, root int) []int {
	m, dom := d.s.m, d.state.dom
	const (
		inside = 1 + iota
		beside
	)
	at := d.flags
	clear(at)
	at[root] = inside
	queue := append(d.queue[:0], root)
	var ring []int
	for i := 0; i < len(queue); i++ {
		for _, h := range m.thru[queue[i]] {
			if at[h.to] != 0 || !mayBe(dom[h.to], u) || d.state.dead(h.to) {
				continue
			}
			if d.own[h.to] {
				at[h.to] = inside
				queue = append(queue, h.to)
			} else {
				at[h.to] = beside
				ring = append(ring, h.to)
			}
		}
	}
	d.queue = queue
	if len(ring) == 0 {
		return nil
	}
	for _, c := range m.deads {
		if !d.state.dead(c) || !mayBe(dom[c], u) {
			continue
		}
		for _, h := range m.into[c] {
			if at[h.to] == inside && mayBe(dom[h.to], u) && m.leads(h, d.state.form) {
				at[c] = inside
				break
			}
		}
	}
	has := func(c int) bool { return m.kind[c] > deadCell || at[c] == inside }
	var area, all int64
	for c := range dom {
		if m.kind[c] == publicCell {
			continue
		}
		if mustBe(dom[c], u) && !has(c) {
			return ring
		}
		if dom[c]&(1<<u) != 0 && has(c) {
			area += m.cells[c].Area
		}
		if dom[c]&(1<<Common) == 0 {
			all += m.cells[c].Area
		}
	}
	share := m.share[0]
	if u == int(B) {
		share = 1000 - m.share[1]
	}
	if area < m.units[u].MinArea || 1000*area < share*all {
		return ring
	}
	for f, need := range m.units[u].Need {
		if need == 0 || m.lack[u][f] != never {
			continue
		}
		left := 0
		for _, c := range d.hosts.cheap[f] {
			if mayBe(dom[c], u) && d.state.mayHost(f, c) && has(c) {
				left++
			}
		}
		if left < need {
			return ring
		}
	}
	return nil
}
