package partition

// areas keeps least areas and the share within reach.
func (s *state) areas() bool {
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
	lo, hi := s.m.share[0], s.m.share[1]
	fits := func(mostA, leastA, mostB, leastB int64) bool {
		return mostA >= s.m.units[A].MinArea && mostB >= s.m.units[B].MinArea &&
			(1000-lo)*mostA >= lo*leastB && (1000-hi)*leastA <= hi*mostB
	}
	if !fits(most[A], least[A], most[B], least[B]) {
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
			m, k := most, least
			for u := range most {
				if Label(u) == l {
					k[u] += area
				} else if dom&(1<<u) != 0 {
					m[u] -= area
				}
			}
			if !fits(m[A], k[A], m[B], k[B]) && !s.keep(c, Any&^(1<<l)) {
				return false
			}
		}
	}
	return true
}

// amounts keeps the least amounts within reach: a cell that a unit cannot do
// without is its own.
func (s *state) amounts() bool {
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
