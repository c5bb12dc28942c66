package geom

// Orient tells where c lies: 1 to the left of the line from a to b, -1 to its
// right, 0 on it. Exact for points within 10 km of the origin.
func Orient(a, b, c Pt) int { return sign(b.Sub(a).Cross(c.Sub(a))) }

func sign(v int64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// Crossing says how two segments meet.
type Crossing int

// The ways in which two segments meet.
const (
	Apart    Crossing = iota // no common point
	Touching                 // one common point, an end of at least one of them
	Crossed                  // one common point, inside both
	Overlaid                 // a common stretch
)

// Meet tells, exactly, how s and t meet. A segment without length is a point.
func Meet(s, t Segment) Crossing {
	if !s.Bounds().Meets(t.Bounds()) {
		return Apart
	}
	a, b := Orient(s.A, s.B, t.A), Orient(s.A, s.B, t.B)
	c, d := Orient(t.A, t.B, s.A), Orient(t.A, t.B, s.B)
	if a == 0 && b == 0 && c == 0 && d == 0 {
		return meetOnLine(s, t)
	}
	if a*b < 0 && c*d < 0 {
		return Crossed
	}
	if (a == 0 && s.holds(t.A)) || (b == 0 && s.holds(t.B)) || (c == 0 && t.holds(s.A)) || (d == 0 && t.holds(s.B)) {
		return Touching
	}
	return Apart
}

// meetOnLine is Meet for segments on one line.
func meetOnLine(s, t Segment) Crossing {
	if s.B.Less(s.A) {
		s.A, s.B = s.B, s.A
	}
	if t.B.Less(t.A) {
		t.A, t.B = t.B, t.A
	}
	from, to := s.A, s.B
	if from.Less(t.A) {
		from = t.A
	}
	if t.B.Less(to) {
		to = t.B
	}
	switch {
	case from == to:
		return Touching
	case from.Less(to):
		return Overlaid
	}
	return Apart
}

// holds tells whether p, known to be on the line of s, lies on s.
func (s Segment) holds(p Pt) bool { return s.Bounds().Holds(p) }

// On tells whether p lies on s, ends included; exact.
func (s Segment) On(p Pt) bool { return s.holds(p) && Orient(s.A, s.B, p) == 0 }

// Position says where a point lies with respect to a region.
type Position int

// The positions. The border of a hole is Border too.
const (
	Out Position = iota
	Border
	Inside
)

// position finds p by the crossing number of a ray to the right; exact.
func (r Ring) position(p Pt) Position {
	in := false
	for i, a := range r {
		b := r[(i+1)%len(r)]
		if (Segment{a, b}).On(p) {
			return Border
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && (Orient(a, b, p) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	if in {
		return Inside
	}
	return Out
}
