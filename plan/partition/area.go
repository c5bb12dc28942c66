package partition

// areas keeps least areas and the share within reach.
func (s *state) areas() bool {
	var most, least [2]int64
	var both int64 // what the units have together at most
	for c, dom := range s.dom {
		for u := range most {
			if dom&(1<<u) != 0 {
				most[u] += s.m.cells[c].Area
				if single(dom) {
					least[u] += s.m.cells[c].Area
				}
			}
		}
		if dom&(1<<A|1<<B) != 0 {
			both += s.m.cells[c].Area
		}
	}
	lo, hi := s.m.share[0], s.m.share[1]
	minA, minB := s.m.units[A].MinArea, s.m.units[B].MinArea
	fits := func(mostA, leastA, mostB, leastB, both int64) bool {
		return mostA >= minA && mostB >= minB && both >= minA+minB &&
			(1000-lo)*mostA >= lo*leastB && (1000-hi)*leastA <= hi*mostB
	}
	if !fits(most[A], least[A], most[B], least[B], both) {
		return false
	}
	for c, dom := range s.dom {
		area := s.m.cells[c].Area
		if single(dom) || area == 0 {
			continue
		}
		for l := A; l <= Common; l++ {
			if dom&(1<<l) == 0 {
				continue
			}
			m, k, all := most, least, both
			if l == Common {
				all -= area
			}
			for u := range most {
				if Label(u) == l {
					k[u] += area
				} else if dom&(1<<u) != 0 {
					m[u] -= area
				}
			}
			if !fits(m[A], k[A], m[B], k[B], all) && !s.keep(c, Any&^(1<<l)) {
				return false
			}
		}
	}
	return true
}

// amounts keeps the least amounts within reach: a cell that a unit cannot do
// without is its own, and one that both together cannot do without is common
// in no case.
func (s *state) amounts() bool {
	for i := range s.m.units[A].MinAmount {
		need := s.m.units[A].MinAmount[i] + s.m.units[B].MinAmount[i]
		if need == 0 {
			continue
		}
		both := int64(0)
		for c, dom := range s.dom {
			if dom&(1<<A|1<<B) != 0 && s.m.kind[c] != publicCell {
				both += s.m.cells[c].Amount[i]
			}
		}
		if both < need {
			return false
		}
		for c, dom := range s.dom {
			if dom&(1<<A|1<<B) != 0 && dom&(1<<Common) != 0 && both-s.m.cells[c].Amount[i] < need && !s.keep(c, 1<<A|1<<B) {
				return false
			}
		}
	}
	for u, unit := range s.m.units {
		for i, need := range unit.MinAmount {
			if need == 0 {
				continue
			}
			most := int64(0)
			for c, dom := range s.dom {
				if dom&(1<<u) != 0 && s.m.kind[c] != publicCell {
					most += s.m.cells[c].Amount[i]
				}
			}
			if most < need {
				return false
			}
			for c, dom := range s.dom {
				if dom&(1<<u) != 0 && !single(dom) && most-s.m.cells[c].Amount[i] < need && !s.keep(c, 1<<u) {
					return false
				}
			}
		}
	}
	return true
}

// imbalance is a lower bound of the price of imbalance.
func (s *state) imbalance() cost {
	bal := s.m.balance
	if bal.PerArea == 0 {
		return 0
	}
	var most, least [2]int64
	for c, dom := range s.dom {
		for u := range most {
			if dom&(1<<u) != 0 {
				most[u] += s.m.cells[c].Area
				if single(dom) {
					least[u] += s.m.cells[c].Area
				}
			}
		}
	}
	share := int64(bal.Share)
	low := (1000-share)*least[A] - share*most[B]
	high := (1000-share)*most[A] - share*least[B]
	off := max(low, -high, 0)
	return cost(off*int64(bal.PerArea)/1000) * s.m.money
}
