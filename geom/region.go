package geom

import (
	"cmp"
	"math"
	"slices"
)

// regionOf takes rings, the outer first; without holes, Holes is nil.
func regionOf(rings []Ring) Region {
	r := Region{Outer: rings[0]}
	if len(rings) > 1 {
		r.Holes = rings[1:]
	}
	return r
}

// Rings returns the outer ring followed by the holes.
func (r Region) Rings() []Ring { return append([]Ring{r.Outer}, r.Holes...) }

// Edges returns the sides of the outer ring, then those of the holes. The
// interior is on the left of each.
func (r Region) Edges() []Segment {
	out := r.Outer.Edges()
	for _, h := range r.Holes {
		out = append(out, h.Edges()...)
	}
	return out
}

// AreaM2 returns the area of the outer ring less the holes, in square metres.
func (r Region) AreaM2() float64 {
	a := r.Outer.AreaM2()
	for _, h := range r.Holes {
		a -= h.AreaM2()
	}
	return a
}

// Bounds returns the smallest box that holds the region.
func (r Region) Bounds() Box { return r.Outer.Bounds() }

// Contains tells where p lies; exact. The inside of a hole is Out, its border Border.
func (r Region) Contains(p Pt) Position {
	at := r.Outer.position(p)
	if at != Inside {
		return at
	}
	for _, h := range r.Holes {
		switch h.position(p) {
		case Inside:
			return Out
		case Border:
			return Border
		}
	}
	return Inside
}

// DistanceToBorder returns the distance from p to the nearest edge in metres,
// whether p is inside or not.
func (r Region) DistanceToBorder(p Pt) float64 {
	best := math.Inf(1)
	for _, ring := range r.Rings() {
		for i, a := range ring {
			best = min(best, Segment{a, ring[(i+1)%len(ring)]}.DistanceTo(p))
		}
	}
	return best
}

// Centroid returns the centre of mass in metres; that of the corners where the
// region has no area.
func (r Region) Centroid() (x, y float64) {
	if len(r.Outer) == 0 {
		return 0, 0
	}
	o := r.Outer[0]
	var area, mx, my float64
	for _, ring := range r.Rings() {
		for i, a := range ring {
			a, b := a.Sub(o), ring[(i+1)%len(ring)].Sub(o)
			c := float64(a.Cross(b))
			area += c
			mx += c * float64(a.X+b.X)
			my += c * float64(a.Y+b.Y)
		}
	}
	if area == 0 {
		for _, p := range r.Outer {
			mx += float64(p.X - o.X)
			my += float64(p.Y - o.Y)
		}
		area = float64(len(r.Outer)) / 3
	}
	return Metres(o.X) + mx/(3*area)/UnitsPerMetre, Metres(o.Y) + my/(3*area)/UnitsPerMetre
}

// Wound returns the region with its outer ring counter-clockwise and its holes
// clockwise; rings that already are so are shared with r.
func Wound(r Region) Region {
	out := Region{Outer: r.Outer.wound(true)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, h.wound(false))
	}
	return out
}

// AreaM2 returns the area of the regions together, in square metres.
func (s Shape) AreaM2() float64 {
	var sum float64
	for _, r := range s {
		sum += r.AreaM2()
	}
	return sum
}

// Bounds returns the smallest box that holds the shape.
func (s Shape) Bounds() Box {
	b := noBox
	for _, r := range s {
		b = b.Join(r.Bounds())
	}
	return b
}

// Contains tells where p lies; exact. A border between two regions is Border.
func (s Shape) Contains(p Pt) Position {
	for _, r := range s {
		if at := r.Contains(p); at != Out {
			return at
		}
	}
	return Out
}

// Edges returns the edges of all regions.
func (s Shape) Edges() []Segment {
	var out []Segment
	for _, r := range s {
		out = append(out, r.Edges()...)
	}
	return out
}

// normalised winds the rings, starts each at its lowest corner, and orders
// holes and regions by their corners, so that equal shapes are equal values.
func (s Shape) normalised() Shape {
	out := make(Shape, 0, len(s))
	for _, r := range s {
		r = Wound(r)
		r.Outer = r.Outer.fromLowest()
		for i, h := range r.Holes {
			r.Holes[i] = h.fromLowest()
		}
		slices.SortFunc(r.Holes, compareRings)
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b Region) int { return compareRings(a.Outer, b.Outer) })
	if len(out) == 0 {
		return nil
	}
	return out
}

func compareRings(a, b Ring) int {
	return slices.CompareFunc(a, b, comparePts)
}

func comparePts(p, q Pt) int {
	return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
}
