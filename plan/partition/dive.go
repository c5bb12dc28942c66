package partition

import "slices"

// dive is one worker's way down the search tree.
type dive struct {
	s      *search
	worker int
	state  *state
	cut    *cut
	root   mark
	hosts  *transport
	spare  *transport // for questions
	leaf   *completion

	hosted   cost // least cost of hosting for the present labels
	fresh    bool // hosts is up to date
	total    cost // lower bound of the present part
	squeezed squeezed
	labels   []Label
	probes   probes
	scratch  []Label
	keep     []Label
	own      []bool
	flags    []uint8
	queue    []int
	grant    cost // constant that belongs to the value of the cut
	score    []float64
	words    []uint64
	descent  *descent
	met      int

	parts []*node
}

func newDive(s *search, worker int) *dive {
	d := &dive{s: s, worker: worker, state: newState(s.m), cut: newCut(s.m),
		leaf: newCompletion(s.m), labels: make([]Label, s.m.n)}
	d.hosts = newTransport(s.m, d.state.form)
	d.spare = newTransport(s.m, d.state.form)
	d.spare.price = d.hosts.price
	for c, dom := range d.state.dom {
		d.cut.sync(c, dom)
	}
	d.root = d.cut.mark()
	d.squeezed.labels = make([]Label, s.m.n)
	d.scratch = make([]Label, s.m.n)
	d.own, d.flags = make([]bool, s.m.n), make([]uint8, s.m.n)
	d.keep = make([]Label, s.m.n)
	d.score = make([]float64, s.m.n)
	d.words = make([]uint64, (s.m.n+63)/64)
	d.descent = newDescent(s.m)
	d.probes.init(d)
	return d
}

// run dives into a part. It returns the least bound of what it left undone
// because the search was stopped, never if nothing was.
func (d *dive) run(n *node) cost {
	d.cut.rewind(d.root)
	d.state.back(0)
	d.state.base, d.state.doors, d.state.entries = 0, [2]cost{}, 0
	d.fresh = false
	d.hosts.rewind(0)
	d.squeezed.best = 0
	d.probes.reset()
	for c, dom := range n.dom {
		d.state.keep(c, dom)
		d.state.keepForm(c, n.form[c])
	}
	bound := n.bound
	for {
		on, crowded := d.s.count(d.worker, bound)
		if !on {
			return bound
		}
		if crowded {
			return d.deep(bound)
		}
		if !d.narrow() {
			return never
		}
		children := d.branch()
		if children == nil {
			d.offer(d.singles())
			return never
		}
		d.parts = d.parts[:0]
		for _, c := range children[1:] {
			if c.bound > d.s.pool.limit.Load() {
				continue
			}
			part := &node{dom: slices.Clone(d.state.dom), form: slices.Clone(d.state.form), bound: c.bound}
			part.dom[c.cell] &= c.set
			part.form[c.cell] &= c.form
			d.parts = append(d.parts, part)
		}
		d.s.leave(d.parts)
		d.state.keep(children[0].cell, children[0].set)
		d.state.keepForm(children[0].cell, children[0].form)
		bound = max(bound, children[0].bound)
	}
}

// deep is run without leaving parts open: depth first.
func (d *dive) deep(bound cost) cost {
	on, _ := d.s.count(d.worker, bound)
	if !on {
		return bound
	}
	if !d.narrow() {
		return never
	}
	children := d.branch()
	if children == nil {
		d.offer(d.singles())
		return never
	}
	rest := never
	at, flow, raised := len(d.state.trail), d.cut.mark(), len(d.hosts.raised)
	base, doors, entries := d.state.base, d.state.doors, d.state.entries
	for _, c := range children {
		if c.bound > d.s.pool.limit.Load() {
			continue
		}
		d.state.keep(c.cell, c.set)
		d.state.keepForm(c.cell, c.form)
		rest = min(rest, d.deep(max(bound, c.bound)))
		d.state.back(at)
		d.cut.rewind(flow)
		d.hosts.rewind(raised)
		d.state.base, d.state.doors, d.state.entries = base, doors, entries
		d.fresh = false
		d.probes.reset()
	}
	return rest
}

// narrow propagates, bounds and probes until nothing changes; it reports false
// if the part holds nothing of interest.
func (d *dive) narrow() bool {
	for {
		d.state.limit = d.s.pool.limit.Load()
		if !d.state.propagate() || !d.bound() {
			return false
		}
		before := len(d.state.trail)
		if d.state.limit < never && !d.state.propagate() {
			return false
		}
		if len(d.state.trail) != before {
			continue
		}
		d.cut.labels(d.labels)
		d.offer(d.labels)
		if !d.probes.run(d) {
			return false
		}
		if len(d.state.trail) > before {
			continue
		}
		d.squeeze()
		if !d.tighten() {
			return false
		}
		if len(d.state.trail) > before {
			continue
		}
		d.improve()
		return d.squeezed.total <= d.s.pool.limit.Load()
	}
}

// tighten raises the bound by multipliers for area, hosts and connection, and
// probes with them; it reports false if the part holds nothing of interest.
// Cut and hosts are left as they were: what the multipliers make nearly equal
// is a poor guide for splitting.
func (d *dive) tighten() bool {
	z := &d.squeezed
	if z.total > d.s.pool.limit.Load() {
		return false
	}
	total, hosted, start, raised := d.total, d.hosted, d.cut.mark(), len(d.hosts.raised)
	copy(d.keep, d.labels)
	if z.bound >= 0 && z.best > 0 {
		var by pressure
		by[z.bound] = z.best
		d.grant = d.cut.charge(by)
		d.total += d.cut.value - start.value + d.grant
	}
	d.cut.labels(d.labels)
	d.ascend()
	z.total = max(z.total, d.total)
	d.probes.anew = true
	d.probes.wary = true
	alive := z.total <= d.s.pool.limit.Load() && d.probes.run(d)
	d.probes.anew = true
	d.probes.wary = false
	d.grant, d.total, d.hosted = 0, total, hosted
	d.cut.rewind(start)
	d.hosts.rewind(raised)
	copy(d.labels, d.keep)
	d.fresh = false
	return alive
}

// improve looks for better schemes from the labels at hand, at every part at
// first and then ever more rarely.
func (d *dive) improve() {
	d.met++
	if d.met&(d.met-1) != 0 {
		return
	}
	d.descent.run(d.labels, d.offer)
	if z := &d.squeezed; z.bound >= 0 && z.beyond >= 0 {
		d.descent.run(z.labels, d.offer)
	}
}

// core is the part of the bound that labels raise.
func (d *dive) core() cost { return d.cut.value + d.grant + d.hosted }

// gap is what the bound may still rise by.
func (d *dive) gap() cost { return min(d.s.pool.limit.Load()-d.total, never/8) }

// bound brings the lower bound up to date: cut, hosts, doors and imbalance are
// different parts of the price.
func (d *dive) bound() bool {
	for _, c := range d.state.changed {
		d.cut.sync(c, d.state.dom[c])
		d.probes.note(c, d.state.dom[c], d.labels[c])
	}
	d.state.changed = d.state.changed[:0]
	d.cut.flow()
	if d.cut.value >= never {
		return false
	}
	if !d.fresh || !d.hosts.allowed(d.state.dom) {
		d.host(d.cut.value + d.state.imbalance() + d.state.doors[A] + d.state.doors[B] + d.state.entries)
	}
	if d.hosted >= never {
		d.fresh = false
		return false
	}
	core := d.cut.value + d.hosted
	d.state.base = core + d.state.imbalance()
	d.total = d.state.base + d.state.doors[A] + d.state.doors[B] + d.state.entries
	return d.total <= d.s.pool.limit.Load()
}

// host finds the cheapest hosts; rest is what all else costs at least.
func (d *dive) host(rest cost) {
	d.hosts.stop = max(0, d.s.pool.limit.Load()-rest)
	d.hosted = d.hosts.solve(d.state.dom)
	d.fresh = d.hosted <= d.hosts.stop
}

// offer completes a labelling and puts it in the pool.
func (d *dive) offer(labels []Label) {
	l, pool := d.leaf, d.s.pool
	if !l.load(labels) || !d.canonical(labels) || d.s.m.leftOut(labels) {
		return
	}
	sum := l.fixed()
	if sum > pool.limit.Load() || !l.open() {
		return
	}
	try := func(entry [2]int) {
		if way := l.finish(entry, pool.limit.Load()-sum); way.cost < never {
			pool.offer(sum+way.cost, labels, way.entry)
		}
	}
	if len(l.joint) == 0 {
		try(anyEntry)
		return
	}
	for _, a := range links(l.gates[A]) {
		for _, b := range links(l.gates[B]) {
			try([2]int{a, b})
		}
	}
}

// links lists the links of gates, or -1 alone where there are none.
func links(gates []gate) []int {
	if len(gates) == 0 {
		return []int{-1}
	}
	var at []int
	for _, g := range gates {
		if len(at) == 0 || at[len(at)-1] != g.link {
			at = append(at, g.link)
		}
	}
	return at
}

// canonical reports whether this is the one of two mirror images that counts,
// and every label is allowed.
func (d *dive) canonical(labels []Label) bool {
	for c, l := range labels {
		if d.s.m.kind[c] != publicCell && d.s.m.cells[c].Allowed&(1<<l) == 0 {
			return false
		}
	}
	if !d.s.m.symmetric {
		return true
	}
	for c, l := range labels {
		if d.s.m.kind[c] != publicCell && l != Common {
			return l == A
		}
	}
	return true
}

// singles are the labels once only one is left to each cell.
func (d *dive) singles() []Label {
	for c, dom := range d.state.dom {
		d.labels[c] = labelOf(dom)
	}
	return d.labels
}
