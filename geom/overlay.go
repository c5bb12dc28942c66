package geom

import (
	"fmt"
	"math"

	sf "github.com/peterstace/simplefeatures/geom"
)

// Union returns the area that any of the shapes covers. The result is on the
// grid, without slivers, and normalised: equal areas are equal values. Shapes
// may overlap each other.
func Union(shapes ...Shape) (Shape, error) {
	var all Shape
	for _, s := range shapes {
		all = append(all, s...)
	}
	if len(all) == 0 {
		return nil, nil
	}
	s, err := overlay(all, nil, func(a, _ sf.Geometry) (sf.Geometry, error) { return sf.UnaryUnion(a) })
	if err != nil {
		return nil, fmt.Errorf("geom: union: %w", err)
	}
	return s, nil
}

// Intersection returns the area that both shapes cover, in the form of Union.
func Intersection(a, b Shape) (Shape, error) {
	if !a.Bounds().Meets(b.Bounds()) {
		return nil, nil
	}
	s, err := overlay(a, b, sf.Intersection)
	if err != nil {
		return nil, fmt.Errorf("geom: intersection: %w", err)
	}
	return s, nil
}

// Difference returns the area that a covers and b does not, in the form of Union.
func Difference(a, b Shape) (Shape, error) {
	if len(a) == 0 {
		return nil, nil
	}
	s, err := overlay(a, b, sf.Difference)
	if err != nil {
		return nil, fmt.Errorf("geom: difference: %w", err)
	}
	return s, nil
}

// overlay runs one operation of the overlay library on coordinates that start
// at the corner of the two shapes: whole numbers up to the size of a house,
// whose products floating point holds exactly.
func overlay(a, b Shape, op func(a, b sf.Geometry) (sf.Geometry, error)) (out Shape, err error) {
	defer func() {
		if p := recover(); p != nil {
			out, err = nil, fmt.Errorf("overlay library: %v", p)
		}
	}()
	origin := a.Bounds().Join(b.Bounds()).Min
	g, err := op(toLibrary(a, origin), toLibrary(b, origin))
	if err != nil {
		return nil, fmt.Errorf("overlay library: %w", err)
	}
	s := withoutSlivers(fromLibrary(g, origin)).normalised()
	return s, nil
}

// toLibrary gives the shape as a collection, in which regions may overlap.
func toLibrary(s Shape, origin Pt) sf.Geometry {
	polygons := make([]sf.Geometry, 0, len(s))
	for _, r := range s {
		var rings []sf.LineString
		for _, ring := range r.Rings() {
			if len(ring) < 3 {
				continue
			}
			xy := make([]float64, 0, 2*len(ring)+2)
			for i := range len(ring) + 1 {
				p := ring[i%len(ring)].Sub(origin)
				xy = append(xy, float64(p.X), float64(p.Y))
			}
			rings = append(rings, sf.NewLineString(sf.NewSequence(xy, sf.DimXY)))
		}
		if len(rings) > 0 {
			polygons = append(polygons, sf.NewPolygon(rings).AsGeometry())
		}
	}
	return sf.NewGeometryCollection(polygons).AsGeometry()
}

// fromLibrary takes the polygons of a result; lines and points, where two
// shapes only touch, are no area and left out.
func fromLibrary(g sf.Geometry, origin Pt) Shape {
	switch g.Type() {
	case sf.TypePolygon:
		return regionOf(g.MustAsPolygon(), origin)
	case sf.TypeMultiPolygon:
		var out Shape
		m := g.MustAsMultiPolygon()
		for i := range m.NumPolygons() {
			out = append(out, regionOf(m.PolygonN(i), origin)...)
		}
		return out
	case sf.TypeGeometryCollection:
		var out Shape
		c := g.MustAsGeometryCollection()
		for i := range c.NumGeometries() {
			out = append(out, fromLibrary(c.GeometryN(i), origin)...)
		}
		return out
	}
	return nil
}

func regionOf(p sf.Polygon, origin Pt) Shape {
	if p.IsEmpty() {
		return nil
	}
	r := Region{Outer: ringOf(p.ExteriorRing(), origin)}
	for i := range p.NumInteriorRings() {
		r.Holes = append(r.Holes, ringOf(p.InteriorRingN(i), origin))
	}
	return Shape{r}
}

// ringOf drops the corners that lie on the line of their neighbours, which the
// library adds where it joins or cuts lines, and rounds the others to the grid.
func ringOf(l sf.LineString, origin Pt) Ring {
	seq := l.Coordinates()
	points := make([]sf.XY, 0, seq.Length())
	for i := range seq.Length() - 1 {
		points = append(points, seq.GetXY(i))
	}
	points = withoutStraight(points)
	ring := make(Ring, len(points))
	for i, p := range points {
		ring[i] = Pt{int64(math.Round(p.X)), int64(math.Round(p.Y))}.Add(origin)
	}
	return tidy(ring)
}

func withoutStraight(points []sf.XY) []sf.XY {
	for changed := true; changed && len(points) >= 3; {
		changed = false
		kept := points[:0:0]
		for i, p := range points {
			last := points[(i+len(points)-1)%len(points)]
			if len(kept) > 0 {
				last = kept[len(kept)-1]
			}
			next := points[(i+1)%len(points)]
			along := next.Sub(last)
			length := math.Hypot(along.X, along.Y)
			d := p.Sub(last)
			if length > 0 && math.Abs(along.X*d.Y-along.Y*d.X) < straight*length && d.X*along.X+d.Y*along.Y > 0 && math.Hypot(d.X, d.Y) < length {
				changed = true
				continue
			}
			kept = append(kept, p)
		}
		points = kept
	}
	return points
}

// tidy drops repeated corners, corners on the line of their neighbours and
// spikes, which rounding leaves; exact. What is left may be empty.
func tidy(r Ring) Ring {
	for changed := true; changed; {
		r = r.WithoutRepeats()
		if len(r) < 3 {
			return nil
		}
		changed = false
		kept := make(Ring, 0, len(r))
		for i, p := range r {
			last := r[(i+len(r)-1)%len(r)]
			if len(kept) > 0 {
				last = kept[len(kept)-1]
			}
			if Orient(last, p, r[(i+1)%len(r)]) == 0 {
				changed = true
				continue
			}
			kept = append(kept, p)
		}
		r = kept
	}
	return r
}

// withoutSlivers drops regions and fills holes that are narrower than sliver.
func withoutSlivers(s Shape) Shape {
	var out Shape
	for _, r := range s {
		if narrow(r.Outer) {
			continue
		}
		kept := Region{Outer: r.Outer}
		for _, h := range r.Holes {
			if !narrow(h) {
				kept.Holes = append(kept.Holes, h)
			}
		}
		out = append(out, kept)
	}
	return out
}

// narrow tells whether a ring encloses no more than a strip of half its
// length and the width of sliver.
func narrow(r Ring) bool {
	return len(r) < 3 || r.AreaM2() <= sliver*r.Length()/2
}
