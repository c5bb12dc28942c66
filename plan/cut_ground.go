package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// groundGuides gives the straight lines of a space outdoors: those along or
// square to a long side, as the house and the lot have them, not those in line
// with the side of a bay.
func (s *cutSpace) groundGuides() []cutLine {
	var g guides
	g.space = s
	s.wallEnds(&g)
	s.corners(&g)
	s.midways(&g)
	s.houseMiddles(&g)
	s.halves(&g)
	return slices.DeleteFunc(g.lines, func(l cutLine) bool { return !s.square(l) })
}

// square tells whether a line runs along or square to a long side of the ground.
func (s *cutSpace) square(l cutLine) bool {
	d := along(l.legs()[0])
	return slices.ContainsFunc(s.edges, func(e geom.Segment) bool {
		f := along(e)
		sine, cosine := math.Abs(d.dx*f.dy-d.dy*f.dx), math.Abs(d.dx*f.dx+d.dy*f.dy)
		return e.Length() >= 2*s.clear-widthTolerance && min(sine, cosine) <= parallelSine
	})
}

// houseMiddles adds, from the middle of each wall of the house along the
// ground, the line square to it.
func (s *cutSpace) houseMiddles(g *guides) {
	for _, l := range s.b.Links {
		if l.Kind != LinkExterior || l.V != s.c {
			continue
		}
		if base, ok := s.baseOf(l.Line); ok && base.Length() >= s.clear-widthTolerance {
			g.from(across(base, base.Length()/2), midway, "square to the middle of the wall of "+s.b.Cells[l.U].ID)
		}
	}
	for _, e := range s.edges {
		if e.Length() < 2*s.clear-widthTolerance || !s.alongHouse(e) {
			continue
		}
		g.from(across(e, e.Length()/2), midway, "square to the middle of a side of the house")
	}
}

// alongHouse tells whether an edge of the ground runs along the house.
func (s *cutSpace) alongHouse(e geom.Segment) bool {
	for _, l := range s.b.Links {
		if l.Kind == LinkExterior && l.V == s.c && math.Abs(e.Off(l.Line.Mid())) <= s.b.ExteriorThickness+outdoorGap {
			if at := e.Along(l.Line.Mid()); at > 0 && at < e.Length() {
				return true
			}
		}
	}
	return false
}

// halves adds the lines that halve the area, which in a space of four sides
// is its middle: square to the house where it stands at the house, otherwise
// along either side; where cars stand along either side.
func (s *cutSpace) halves(g *guides) {
	var square, other []ray
	for _, e := range s.edges {
		if e.Length() < s.clear-widthTolerance {
			continue
		}
		if r := along(e); s.alongHouse(e) && !s.forCars() {
			square = withAxis(square, ray{r.at, -r.dy, r.dx})
		} else {
			other = withAxis(other, r)
		}
	}
	if len(square) > 0 {
		other = square
	}
	for _, axis := range other {
		if r, ok := s.halving(axis); ok {
			g.all(r, midway, "where it halves the area")
		}
	}
}

// withAxis adds a direction to those that differ.
func withAxis(axes []ray, r ray) []ray {
	for _, a := range axes {
		if math.Abs(a.dx*r.dy-a.dy*r.dx) <= parallelSine {
			return axes
		}
	}
	return append(axes, r)
}

// halving moves an axis sideways until it has half of the space on its left.
func (s *cutSpace) halving(axis ray) (ray, bool) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range s.region.Outer {
		d := p.Sub(axis.at)
		off := (axis.dx*float64(d.Y) - axis.dy*float64(d.X)) / geom.UnitsPerMetre
		low, high = min(low, off), max(high, off)
	}
	half := s.region.AreaM2() / 2
	for range 40 {
		mid := (low + high) / 2
		if s.areaLeftOf(axis.beside(mid)) > half {
			low = mid
		} else {
			high = mid
		}
	}
	return axis.beside((low + high) / 2), high-low < geom.Coincide
}

// areaLeftOf is the area of the space on the left of a line, in m2: its rings
// clipped to that side (Sutherland and Hodgman 1974, "Reentrant polygon
// clipping"); the edges that run back along the line enclose nothing.
func (s *cutSpace) areaLeftOf(r ray) float64 {
	sum := 0.0
	for _, ring := range s.region.Rings() {
		type spot struct{ x, y float64 }
		var kept []spot
		place := func(p geom.Pt) (at, off float64) {
			d := p.Sub(r.at)
			x, y := float64(d.X)/geom.UnitsPerMetre, float64(d.Y)/geom.UnitsPerMetre
			return x*r.dx + y*r.dy, r.dx*y - r.dy*x
		}
		for i, p := range ring {
			x, y := place(p)
			u, v := place(ring[(i+1)%len(ring)])
			if y >= 0 {
				kept = append(kept, spot{x, y})
			}
			if (y >= 0) != (v >= 0) {
				kept = append(kept, spot{x + (u-x)*y/(y-v), 0})
			}
		}
		for i, p := range kept {
			q := kept[(i+1)%len(kept)]
			sum += (p.x*q.y - p.y*q.x) / 2
		}
	}
	return sum
}
