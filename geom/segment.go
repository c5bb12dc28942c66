package geom

import "math"

// Reverse returns the segment from B to A.
func (s Segment) Reverse() Segment { return Segment{s.B, s.A} }

// Bounds returns the smallest box that holds the segment.
func (s Segment) Bounds() Box { return boxOf(s.A, s.B) }

// Along returns how far along the line of s the foot of the perpendicular from
// p lies, in metres from A; negative before A, more than the length past B.
// A segment without length gives 0.
func (s Segment) Along(p Pt) float64 {
	d := s.B.Sub(s.A)
	length := math.Hypot(float64(d.X), float64(d.Y))
	if length == 0 {
		return 0
	}
	return float64(d.Dot(p.Sub(s.A))) / length / UnitsPerMetre
}

// Off returns the distance of p from the line of s in metres, positive to the left.
func (s Segment) Off(p Pt) float64 {
	d := s.B.Sub(s.A)
	length := math.Hypot(float64(d.X), float64(d.Y))
	if length == 0 {
		return s.A.Distance(p)
	}
	return float64(d.Cross(p.Sub(s.A))) / length / UnitsPerMetre
}

// At returns the point that lies the given metres from A towards B, rounded to
// the grid. A segment without length gives A.
func (s Segment) At(metres float64) Pt { return s.Beside(metres, 0) }

// Beside returns the point that lies the given metres along s from A and off
// metres to the left of it, rounded to the grid.
func (s Segment) Beside(along, off float64) Pt {
	dx, dy := float64(s.B.X-s.A.X), float64(s.B.Y-s.A.Y)
	length := math.Hypot(dx, dy)
	if length == 0 {
		return s.A
	}
	dx, dy = dx/length, dy/length
	x := float64(dx*along) - float64(dy*off)
	y := float64(dy*along) + float64(dx*off)
	return s.A.Add(FromMetres(x, y))
}

// Nearest returns the point of s nearest to p, rounded to the grid.
func (s Segment) Nearest(p Pt) Pt {
	along := s.Along(p)
	switch length := s.Length(); {
	case along <= 0:
		return s.A
	case along >= length:
		return s.B
	}
	return s.At(along)
}

// DistanceTo returns the distance from p to the nearest point of s in metres.
func (s Segment) DistanceTo(p Pt) float64 {
	along := s.Along(p)
	switch {
	case along <= 0:
		return s.A.Distance(p)
	case along >= s.Length():
		return s.B.Distance(p)
	}
	return math.Abs(s.Off(p))
}

// CrossingPoint returns the point in which the lines of s and t cross, rounded
// to the grid; false where they are parallel.
func CrossingPoint(s, t Segment) (Pt, bool) {
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	den := d.Cross(e)
	if den == 0 {
		return Pt{}, false
	}
	part := float64(t.A.Sub(s.A).Cross(e)) / float64(den)
	return s.A.Add(Pt{
		int64(math.Round(part * float64(d.X))),
		int64(math.Round(part * float64(d.Y))),
	}), true
}
