package partition

// components looks at the parts of the house that hang together for unit u
// while none of its through cells is known: a part that cannot hold the unit
// is excluded.
func (s *state) components(u int) bool {
	r := &s.reach
	for c := range r.comp {
		r.comp[c] = -1
	}
	viable := 0
	for c, k := range s.m.kind {
		if k != throughCell || r.comp[c] >= 0 || !mayBe(s.dom[c], u) || s.dead(c) {
			continue
		}
		s.flood(u, c)
		if s.holds(u, c) {
			viable++
			continue
		}
		for x, of := range r.comp {
			if of == c && !s.exclude(x, u) {
				return false
			}
		}
	}
	if viable > 0 || !s.m.units[u].NeedEntry {
		return true
	}
	return false
}

// flood marks the through cells that hang together with c, in comp.
func (s *state) flood(u, c int) {
	r := &s.reach
	r.comp[c] = c
	r.stack = append(r.stack[:0], c)
	for len(r.stack) > 0 {
		x := r.stack[len(r.stack)-1]
		r.stack = r.stack[:len(r.stack)-1]
		for _, h := range s.m.thru[x] {
			if r.comp[h.to] < 0 && mayBe(s.dom[h.to], u) && !s.dead(h.to) {
				r.comp[h.to] = c
				r.stack = append(r.stack, h.to)
			}
		}
	}
}

// holds reports whether the part marked c may hold all of unit u indoors.
func (s *state) holds(u, c int) bool {
	r := &s.reach
	unit := &s.m.units[u]
	if unit.NeedEntry {
		found := false
		for _, g := range s.m.entry[u] {
			found = found || r.comp[g.to] == c && r.live[g.from]
		}
		if !found {
			return false
		}
	}
	for _, d := range s.m.deads {
		r.done[d] = false
		if !s.dead(d) || !mayBe(s.dom[d], u) {
			continue
		}
		for _, h := range s.m.into[d] {
			if dead := s.dead(h.to); dead && h.ensuite && r.done[h.to] || !dead && r.comp[h.to] == c {
				r.done[d] = true
				break
			}
		}
		if !r.done[d] && mustBe(s.dom[d], u) {
			return false
		}
	}
	usable := func(x int) bool {
		switch {
		case s.dead(x):
			return r.done[x]
		case s.m.kind[x] == throughCell:
			return r.comp[x] == c
		}
		return mayBe(s.dom[x], u)
	}
	var area int64
	for x, dom := range s.dom {
		if dom&(1<<u) != 0 && usable(x) {
			area += s.m.cells[x].Area
		}
	}
	if area < unit.MinArea {
		return false
	}
	for f, need := range unit.Need {
		if need == 0 || s.m.lack[u][f] != never {
			continue
		}
		left := 0
		for x, h := range s.m.host[f] {
			if h != never && mayBe(s.dom[x], u) && s.mayHost(f, x) && usable(x) {
				left++
			}
		}
		if left < need {
			return false
		}
	}
	return true
}
