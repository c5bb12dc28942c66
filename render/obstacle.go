package render

// obstacle is a polygon on paper that labels keep clear of.
type obstacle []Point

// meets tells whether a convex quadrangle and the obstacle share ground.
func (o obstacle) meets(q [4]Point) bool {
	if !boundsOf(o...).meets(boundsOf(q[:]...)) {
		return false
	}
	for i, a := range o {
		b := o[(i+1)%len(o)]
		for j := range q {
			if cross(a, b, q[j], q[(j+1)%4]) {
				return true
			}
		}
	}
	return within(q[0], o) || within(o[0], q[:])
}

// cross tells whether two segments cross or touch.
func cross(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 { return q.sub(p).cross(r.sub(p)) }
	d1, d2 := side(a, b, c), side(a, b, d)
	d3, d4 := side(c, d, a), side(c, d, b)
	if (d1 > 0) == (d2 > 0) && d1 != 0 && d2 != 0 || (d3 > 0) == (d4 > 0) && d3 != 0 && d4 != 0 {
		return false
	}
	if d1 == 0 && d2 == 0 {
		return boundsOf(a, b).grown(1e-9).meets(boundsOf(c, d).grown(1e-9))
	}
	return true
}

// within tells whether a point lies inside a polygon (even-odd).
func within(p Point, ring []Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)*(b.X-a.X)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// hindrance is a line as an obstacle: a thin quadrangle.
func hindrance(a, b Point) obstacle {
	const half = 0.2
	n := b.sub(a).unit().left().times(half)
	return obstacle{a.sub(n), b.sub(n), b.add(n), a.add(n)}
}
