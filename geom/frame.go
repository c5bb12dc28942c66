package geom

import "math"

// vec is a position or direction in metres.
type vec struct{ x, y float64 }

func (a vec) dot(b vec) float64 { return a.x*b.x + a.y*b.y }

// frame measures along an edge and away from it to the outside, in metres from
// the first end of the edge.
type frame struct {
	origin Pt
	along  vec // of length 1
}

// direction returns the unit vector from A to B, or zero.
func (s Segment) direction() vec {
	d := s.B.Sub(s.A)
	length := math.Hypot(float64(d.X), float64(d.Y))
	if length == 0 {
		return vec{}
	}
	return vec{float64(d.X) / length, float64(d.Y) / length}
}

// frameOf returns the frame along one edge.
func frameOf(e Segment) frame { return frame{e.A, e.direction()} }

// frameBetween returns the frame along the middle direction of two edges that
// run against each other, the same whichever is named first but for the sense.
func frameBetween(e, f Segment) frame {
	a, b := e.direction(), f.direction()
	x, y := a.x-b.x, a.y-b.y
	length := math.Hypot(x, y)
	return frame{e.A, vec{x / length, y / length}}
}

// measure returns how far along and how far out p lies.
func (f frame) measure(p Pt) (along, out float64) {
	d := p.Sub(f.origin)
	x, y := Metres(d.X), Metres(d.Y)
	return x*f.along.x + y*f.along.y, x*f.along.y - y*f.along.x
}

// place returns the point at the given measures, on the grid.
func (f frame) place(along, out float64) Pt {
	return f.origin.Add(FromMetres(
		float64(along*f.along.x)+float64(out*f.along.y),
		float64(along*f.along.y)-float64(out*f.along.x)))
}

// line is a segment in a frame: how far out it lies, for every place along.
type line struct {
	span
	out, slope float64 // out at 0 along
}

func (l line) at(along float64) float64 { return l.out + l.slope*along }

// line returns s as a line; false where it runs straight out.
func (f frame) line(s Segment) (line, bool) {
	a, outA := f.measure(s.A)
	b, outB := f.measure(s.B)
	if b < a {
		a, b, outA, outB = b, a, outB, outA
	}
	if b-a <= settled {
		return line{}, false
	}
	slope := (outB - outA) / (b - a)
	return line{span{a, b}, outA - slope*a, slope}, true
}

// on returns the stretch of the line over a span.
func (f frame) on(l line, s span) Segment {
	return Segment{f.place(s.from, l.at(s.from)), f.place(s.to, l.at(s.to))}
}

// gap returns the part of s in which m lies between least and most beyond l.
func gap(s span, l, m line, least, most float64) span {
	a, b := m.out-l.out, m.slope-l.slope
	return s.where(a-least, b).where(most-a, -b)
}
