package partition

// propagate narrows the labels by what every solution below must fulfil,
// until nothing changes; it reports false where there is none. It sets doors
// and entries, the lower bounds of what doors cost.
func (s *state) propagate() bool {
	for {
		before := len(s.trail)
		if !s.mirror() || !s.excepted() || !s.areas() || !s.amounts() || !s.hostable() {
			return false
		}
		for u := range s.m.units {
			if !s.connect(u) || !s.grounds(u) {
				return false
			}
		}
		if !s.enterable() {
			return false
		}
		if len(s.trail) == before {
			return true
		}
	}
}

// slack is what may still be spent on the doors of unit u beyond the bound of
// everything else.
func (s *state) slack(u int) cost {
	if s.limit == never {
		return never - 1
	}
	return s.limit - s.base - s.doors[1-u] - s.entries
}

// mirror keeps one of each two mirror images when the units are alike: the
// first cell that is not common is A's.
func (s *state) mirror() bool {
	if !s.m.symmetric {
		return true
	}
	for c := range s.dom {
		if s.m.kind[c] == publicCell {
			continue
		}
		if !s.keep(c, 1<<A|1<<Common) {
			return false
		}
		if s.dom[c] != 1<<Common {
			break
		}
	}
	return true
}

// mirrored is the cell, not decided yet, on which it hangs which of two mirror
// images is kept; -1 if there is none.
func (s *state) mirrored() int {
	if !s.m.symmetric {
		return -1
	}
	for c, dom := range s.dom {
		if s.m.kind[c] == publicCell || dom == 1<<Common {
			continue
		}
		if single(dom) {
			break
		}
		return c
	}
	return -1
}

// hostable gives a unit all possible hosts of a function that it may not lack
// once there are no more than it needs.
func (s *state) hostable() bool {
	for u := range s.m.units {
		for f, need := range s.m.units[u].Need {
			if need == 0 || s.m.lack[u][f] != never {
				continue
			}
			left := 0
			for c, h := range s.m.host[f] {
				if h != never && mayBe(s.dom[c], u) && s.mayHost(f, c) {
					left++
				}
			}
			if left < need {
				return false
			}
			if left > need {
				continue
			}
			for c, h := range s.m.host[f] {
				if h == never || !mayBe(s.dom[c], u) || !s.mayHost(f, c) {
					continue
				}
				if !s.include(c, u) || s.m.closes[f][c] && !s.keepForm(c, closed) {
					return false
				}
			}
		}
	}
	return true
}

// mayHost tells whether the cell's form lets it host a function.
func (s *state) mayHost(f, c int) bool { return !s.m.closes[f][c] || s.form[c]&closed != 0 }

// connect keeps the indoor cells of unit u together.
func (s *state) connect(u int) bool {
	s.doors[u] = 0
	s.walk(u, -1)
	root := s.root(u)
	if root < 0 {
		return s.components(u)
	}
	s.spread(u, root)
	r := &s.reach
	slack := s.slack(u)
	for c, dom := range s.dom {
		if !mayBe(dom, u) || s.m.kind[c] > deadCell {
			continue
		}
		if r.dist[c] > slack || r.dist[c] == never {
			if !s.exclude(c, u) {
				return false
			}
		} else if mustBe(dom, u) {
			s.doors[u] = max(s.doors[u], r.dist[c])
		}
	}
	s.passes(u, root)
	if !s.throughAll(u, root) {
		return false
	}
	if !s.m.units[u].NeedEntry {
		return true
	}
	land := -1
	for _, g := range s.m.entry[u] {
		if r.live[g.from] && mayBe(s.dom[g.to], u) && r.disc[g.to] >= 0 && s.m.door[g.link] <= s.limit {
			land = r.meet(land, g.to)
		}
	}
	if land < 0 {
		return false
	}
	for c := land; c != root; c = r.head[c] {
		if !s.passed(c, u) {
			return false
		}
	}
	return true
}

// root is a through cell that is unit u's in any case, -1 if there is none;
// rather one that nothing closes.
func (s *state) root(u int) int {
	root := -1
	for c, dom := range s.dom {
		if s.through(c) && mustBe(dom, u) {
			if !s.m.shuts[c] || s.form[c] == passable {
				return c
			}
			if root < 0 {
				root = c
			}
		}
	}
	return root
}

// throughAll gives unit u every cell that lies on all ways to one of its own.
func (s *state) throughAll(u, root int) bool {
	r := &s.reach
	for i := len(s.m.deads) - 1; i >= 0; i-- {
		c := s.m.deads[i]
		if !s.dead(c) || !mustBe(s.dom[c], u) {
			continue
		}
		only, ways, suite, leadsOn := -1, 0, false, false
		for _, h := range s.m.into[c] {
			if !mayBe(s.dom[h.to], u) || !s.m.leads(h, s.form) || !s.dead(h.to) && r.disc[h.to] < 0 {
				continue
			}
			leadsOn = leadsOn || h.ensuite
			if s.dead(h.to) {
				suite = true
				if only != h.to {
					ways++
				}
				only = h.to
				continue
			}
			ways++
			if suite {
				continue
			}
			only = r.meet(only, h.to)
		}
		if suite && ways > 1 {
			continue
		}
		if only >= 0 && !s.include(only, u) {
			return false
		}
		if only >= 0 && only != root && !leadsOn && !s.keepForm(only, passable) {
			return false
		}
	}
	for i := len(r.order) - 1; i > 0; i-- {
		c := r.order[i]
		if !mustBe(s.dom[c], u) {
			continue
		}
		if !s.include(r.head[c], u) || r.head[c] != root && !s.keepForm(r.head[c], passable) {
			return false
		}
	}
	return true
}

// grounds keeps outdoor and detached cells of unit u within reach.
func (s *state) grounds(u int) bool {
	if !s.m.public {
		return true
	}
	r := &s.reach
	clear(r.done)
	r.stack = r.stack[:0]
	for c, k := range s.m.kind {
		if k != outdoorCell && k != detachedCell && mayBe(s.dom[c], u) {
			r.done[c] = true
		}
	}
	for again := true; again; {
		again = false
		for c, k := range s.m.kind {
			if k != outdoorCell || r.done[c] || !mayBe(s.dom[c], u) {
				continue
			}
			for _, h := range s.m.ground[c] {
				if r.done[h.to] {
					r.done[c], again = true, true
					break
				}
			}
		}
	}
	for c, k := range s.m.kind {
		if !mayBe(s.dom[c], u) {
			continue
		}
		switch k {
		case outdoorCell:
			if !r.done[c] && !s.exclude(c, u) {
				return false
			}
		case detachedCell:
			reached := false
			for _, h := range s.m.ground[c] {
				reached = reached || r.done[h.to]
			}
			if !reached && !s.exclude(c, u) {
				return false
			}
		}
	}
	return true
}

// enterable bounds the price of the entries from below. One door may serve
// both units and is then bought once.
func (s *state) enterable() bool {
	s.entries = 0
	var open [2][]gate
	for u := range s.m.units {
		if !s.m.units[u].NeedEntry {
			continue
		}
		s.walk(u, -1)
		for _, g := range s.m.entry[u] {
			if s.reach.live[g.from] && mayBe(s.dom[g.to], u) && !s.dead(g.to) {
				open[u] = append(open[u], g)
			}
		}
		if len(open[u]) == 0 {
			return false
		}
	}
	for u := range s.m.units {
		if s.m.units[u].NeedEntry && !s.approach(u, open[u]) {
			return false
		}
	}
	least := func(gates []gate) cost {
		best := never
		for _, g := range gates {
			best = min(best, s.m.door[g.link])
		}
		if best == never {
			return 0
		}
		return best
	}
	s.entries = least(open[A]) + least(open[B])
	for _, a := range open[A] {
		for _, b := range open[B] {
			if a.link == b.link {
				s.entries = min(s.entries, s.m.door[a.link])
			}
		}
	}
	return s.limit == never || s.base+s.doors[A]+s.doors[B]+s.entries <= s.limit
}

// approach gives unit u every outdoor cell that all ways to its gates pass.
func (s *state) approach(u int, gates []gate) bool {
	for _, g := range gates {
		if s.m.kind[g.from] == publicCell {
			return true
		}
	}
	for c, k := range s.m.kind {
		if k != outdoorCell || !mayBe(s.dom[c], u) || mustBe(s.dom[c], u) {
			continue
		}
		s.walk(u, c)
		reached := false
		for _, g := range gates {
			reached = reached || s.reach.live[g.from]
		}
		if !reached && !s.include(c, u) {
			return false
		}
	}
	return true
}
