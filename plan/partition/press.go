package partition

// A bound on area is brought into the cut by a multiplier (Lagrangian
// relaxation): the cut pays for the area of A and of B what makes up for the
// bound, so that the value stays below the price of every labelling that keeps
// to it.

// bounds of area, as which the multipliers are numbered.
const (
	leastShare = iota // (1000-ShareMin) a - ShareMin b >= 0
	mostShare         // ShareMax b - (1000-ShareMax) a >= 0
	leastA            // a - MinArea >= 0
	leastB            // b - MinArea >= 0
	areaBounds
)

// slope returns what a unit of A's, of B's area, and 1, contribute to the left
// side of an area bound.
func (m *model) slope(bound int) (a, b, one int64) {
	switch bound {
	case leastShare:
		return 1000 - m.share[0], -m.share[0], 0
	case mostShare:
		return m.share[1] - 1000, m.share[1], 0
	case leastA:
		return 1, 0, -m.units[A].MinArea
	}
	return 0, 1, -m.units[B].MinArea
}

// setPress makes the cut charge for area.
func (k *cut) setPress(press [2]cost) {
	for c := range k.p {
		area := k.m.cells[c].Area
		if k.p[c] < 0 || area == 0 {
			continue
		}
		if x := (press[A] - k.press[A]) * area; x > 0 {
			k.add(k.q[c], -x)
		} else if x < 0 {
			k.add(k.q[c], -x)
			k.value += x
		}
		if x := (press[B] - k.press[B]) * area; x > 0 {
			k.add(k.p[c], x)
		} else if x < 0 {
			k.add(k.p[c], x)
			k.value += x
		}
	}
	k.press = press
	k.flow()
}

// pressure holds the multipliers of the area bounds.
type pressure [areaBounds]cost

// charge makes the cut charge for area by the multipliers; it returns the
// constant that belongs to its value then.
func (k *cut) charge(by pressure) (constant cost) {
	var press [2]cost
	for i, x := range by {
		a, b, one := k.m.slope(i)
		press[A] -= x * a
		press[B] -= x * b
		constant -= x * one
	}
	k.setPress(press)
	return constant
}

// mostCharge is a multiplier that keeps all sums within bounds.
func (m *model) mostCharge(bound int) cost {
	a, b, one := m.slope(bound)
	var area int64
	for c := range m.cells {
		area += m.cells[c].Area
	}
	return never / 16 / (max(a, -a, b, -b)*max(area, 1) + max(one, -one))
}

// shortfall is by how much the labels miss an area bound.
func (m *model) shortfall(bound int, labels []Label) int64 {
	var area [2]int64
	for c, l := range labels {
		if l != Common {
			area[l] += m.cells[c].Area
		}
	}
	a, b, one := m.slope(bound)
	return -(a*area[A] + b*area[B] + one)
}

// missed is the area bound that the labels fall short of most, -1 if none.
func (m *model) missed(labels []Label) int {
	bound, by := -1, int64(0)
	for i := range areaBounds {
		a, b, _ := m.slope(i)
		if per := max(a, b); per > 0 {
			if short := m.shortfall(i, labels) / per; short > by {
				bound, by = i, short
			}
		}
	}
	return bound
}

// squeezeSteps bounds the cuts made to find a good multiplier.
const squeezeSteps = 8

// squeezed is what squeezing has found for the present part.
type squeezed struct {
	bound  int     // area bound that the cut falls short of, -1 if none
	total  cost    // the best lower bound
	best   cost    // the multiplier that gives it
	beyond cost    // a multiplier with which the cut exceeds the bound, -1
	excess cost    // the lower bound with that one
	labels []Label // and the cut's labels
}

// squeeze looks for the multiplier of the area bound that the cut falls short
// of most that gives the best lower bound: where the lines of a cut on this
// side and one on the other side of the bound meet there may be a better one.
// The cut is left as it was.
func (d *dive) squeeze() {
	z := &d.squeezed
	hint := z.best
	if z.bound != d.s.m.missed(d.labels) {
		hint = 0
	}
	z.bound, z.total, z.best, z.beyond = d.s.m.missed(d.labels), d.total, 0, -1
	if z.bound < 0 {
		return
	}
	limit := d.s.pool.limit.Load()
	known := limit < d.s.m.limit
	most := d.s.m.mostCharge(z.bound)
	start := d.cut.mark()
	rest := d.total - d.cut.value
	left, leftValue, leftShort := cost(0), d.total, d.s.m.shortfall(z.bound, d.labels)
	var rightShort int64
	labels := d.scratch
	for range squeezeSteps {
		var at cost
		if z.beyond < 0 {
			if hint > left {
				at, hint = hint, 0
			} else {
				want := leftValue / 2
				if known {
					want = limit - leftValue + 1
				}
				at = min(left+want/leftShort+1, most)
			}
			if at <= left {
				break
			}
		} else {
			at = (z.excess - leftValue + left*leftShort - z.beyond*rightShort) / (leftShort - rightShort)
			if at <= left || at >= z.beyond {
				break
			}
		}
		var by pressure
		by[z.bound] = at
		constant := d.cut.charge(by)
		if d.cut.value >= never {
			z.total = never
			break
		}
		total := d.cut.value + constant + rest
		if total > z.total {
			z.total, z.best = total, at
		}
		if total > limit {
			break
		}
		d.cut.labels(labels)
		short := d.s.m.shortfall(z.bound, labels)
		if short > 0 {
			left, leftValue, leftShort = at, total, short
			continue
		}
		z.beyond, z.excess, rightShort = at, total, short
		copy(z.labels, labels)
		if short == 0 {
			break
		}
	}
	d.cut.rewind(start)
}
