package geom

const unitsPerM2 = float64(UnitsPerMetre) * UnitsPerMetre

// Area2 returns twice the signed area in square grid units, positive for a
// counter-clockwise ring. Exact: a partial sum may pass 2^63 and wrap, the
// whole cannot.
func (r Ring) Area2() int64 {
	if len(r) < 3 {
		return 0
	}
	var sum int64
	for i := 1; i+1 < len(r); i++ {
		sum += r[i].Sub(r[0]).Cross(r[i+1].Sub(r[0]))
	}
	return sum
}

// AreaM2 returns the area enclosed, in square metres, whatever the winding.
func (r Ring) AreaM2() float64 {
	a := float64(r.Area2()) / 2 / unitsPerM2
	if a < 0 {
		return -a
	}
	return a
}

// CounterClockwise tells the winding.
func (r Ring) CounterClockwise() bool { return r.Area2() > 0 }

// Length returns the length of the closed line in metres.
func (r Ring) Length() float64 {
	var sum float64
	for i, p := range r {
		sum += p.Distance(r[(i+1)%len(r)])
	}
	return sum
}

// Bounds returns the smallest box that holds the ring.
func (r Ring) Bounds() Box { return boxOf(r...) }

// Edges returns the sides in order, the first from the first corner.
func (r Ring) Edges() []Segment {
	edges := make([]Segment, len(r))
	for i, p := range r {
		edges[i] = Segment{p, r[(i+1)%len(r)]}
	}
	return edges
}

// Reverse returns the ring with the other winding and the same first corner.
func (r Ring) Reverse() Ring {
	if len(r) == 0 {
		return nil
	}
	out := make(Ring, 0, len(r))
	out = append(out, r[0])
	for i := len(r) - 1; i > 0; i-- {
		out = append(out, r[i])
	}
	return out
}

// RepeatedCorners returns every corner that follows an equal one, the last
// followed by the first included.
func (r Ring) RepeatedCorners() []Pt {
	var out []Pt
	for i, p := range r {
		if len(r) > 1 && p == r[(i+len(r)-1)%len(r)] {
			out = append(out, p)
		}
	}
	return out
}

// WithoutRepeats returns the ring without the corners that RepeatedCorners reports.
func (r Ring) WithoutRepeats() Ring {
	out := make(Ring, 0, len(r))
	for _, p := range r {
		if len(out) == 0 || out[len(out)-1] != p {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return out
}

// fromLowest returns the ring that starts at its lowest corner by Less.
func (r Ring) fromLowest() Ring {
	if len(r) == 0 {
		return nil
	}
	low := 0
	for i, p := range r {
		if p.Less(r[low]) {
			low = i
		}
	}
	return append(append(make(Ring, 0, len(r)), r[low:]...), r[:low]...)
}

// withoutBends drops, in one round, repeated corners and corners that lie
// within the given distance of the line through their neighbours; a corner at
// which the line turns back stays.
func (r Ring) withoutBends(within float64) Ring {
	r = r.WithoutRepeats()
	var out Ring
	for i, p := range r {
		last := r[(i+len(r)-1)%len(r)]
		if len(out) > 0 {
			last = out[len(out)-1]
		}
		next := r[(i+1)%len(r)]
		if last != next && (Segment{last, next}).DistanceTo(p) <= within {
			continue
		}
		out = append(out, p)
	}
	return out
}

func (r Ring) wound(counterClockwise bool) Ring {
	if r.CounterClockwise() == counterClockwise {
		return r
	}
	return r.Reverse()
}
