package geom

import (
	"fmt"
	"math"
	"slices"

	sf "github.com/peterstace/simplefeatures/geom"
)

// Union returns the area that any of the shapes covers. The result is on the
// grid, without slivers, and normalised: equal areas are equal values. Shapes
// may overlap each other; the order in which they are given does not matter.
//
// The overlay library takes operands whose regions do not overlap, so the
// regions are dealt out to as few such operands as a simple rule finds, and
// those are united two by two.
func Union(shapes ...Shape) (Shape, error) {
	operands := apart(shapes)
	if len(operands) == 1 {
		operands = append(operands, nil)
	}
	for len(operands) > 1 {
		var next []Shape
		for i := 0; i+1 < len(operands); i += 2 {
			s, err := overlay(operands[i], operands[i+1], union)
			if err != nil {
				return nil, fmt.Errorf("geom: union: %w", err)
			}
			next = append(next, s)
		}
		if len(operands)%2 == 1 {
			next = append(next, operands[len(operands)-1])
		}
		operands = next
	}
	if len(operands) == 0 {
		return nil, nil
	}
	return operands[0], nil
}

// apart deals the regions of all shapes out to shapes in which no two boxes overlap.
func apart(shapes []Shape) []Shape {
	var all Shape
	for _, s := range shapes {
		all = append(all, s...)
	}
	slices.SortStableFunc(all, func(a, b Region) int { return compareRings(a.Outer, b.Outer) })
	x := newIndex(len(all), func(i int) Box { return all[i].Bounds() })
	var out []Shape
	class := make([]int, len(all))
	var near []int
	for i, r := range all {
		box := r.Bounds()
		near = x.near(box, near)
		taken := make([]bool, len(out)+1)
		for _, j := range near {
			if j < i && box.overlaps(all[j].Bounds()) {
				taken[class[j]] = true
			}
		}
		class[i] = slices.Index(taken, false)
		if class[i] == len(out) {
			out = append(out, nil)
		}
		out[class[i]] = append(out[class[i]], r)
	}
	return out
}

// Intersection returns the area that both shapes cover, in the form of Union.
func Intersection(a, b Shape) (Shape, error) {
	if !a.Bounds().Meets(b.Bounds()) {
		return nil, nil
	}
	s, err := overlay(a, b, intersection)
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
	s, err := overlay(a, b, difference)
	if err != nil {
		return nil, fmt.Errorf("geom: difference: %w", err)
	}
	return s, nil
}

// operation is one of the overlay library's, with the rule that it follows.
type operation struct {
	run  func(a, b sf.Geometry) (sf.Geometry, error)
	keep func(inA, inB bool) bool
}

var (
	union        = operation{sf.Union, func(inA, inB bool) bool { return inA || inB }}
	intersection = operation{sf.Intersection, func(inA, inB bool) bool { return inA && inB }}
	difference   = operation{sf.Difference, func(inA, inB bool) bool { return inA && !inB }}
)

// overlay runs one operation of the overlay library on shapes that are noded
// on the grid, in coordinates that start at their common corner: whole numbers
// up to the size of a house, whose products floating point holds exactly.
//
// The library may still fail where a line passes very near to a needle
// hundreds of metres long. Then the edges are combined exactly, and slowly.
func overlay(a, b Shape, op operation) (Shape, error) {
	noded := nodeShapes(a, b)
	a, b = noded[0], noded[1]
	s, err := runLibrary(a, b, op)
	if err != nil {
		s = combine(a, b, op.keep)
	}
	s = withoutSlivers(tidied(s)).normalised()
	for _, r := range s {
		if found := Breaches(r.Rings()); err != nil && len(found) > 0 {
			return nil, fmt.Errorf("%w; and %s at %v", err, found[0].Kind, found[0].At)
		}
	}
	return s, nil
}

// runLibrary runs the operation; a panic inside the library is an error.
func runLibrary(a, b Shape, op operation) (s Shape, err error) {
	defer func() {
		if p := recover(); p != nil {
			s, err = nil, fmt.Errorf("overlay library: %v", p)
		}
	}()
	c := corners{origin: a.Bounds().Join(b.Bounds()).Min, nodes: make(map[Pt]bool)}
	c.add(a)
	c.add(b)
	g, err := op.run(c.toLibrary(a), c.toLibrary(b))
	if err != nil {
		return nil, fmt.Errorf("overlay library: %w", err)
	}
	return c.fromLibrary(g), nil
}

// corners takes shapes to the library and back: it knows the origin of the
// library's coordinates, and the nodes of the overlay, which are the only
// corners that its result has; the library adds others where its own lines
// cross edges.
type corners struct {
	origin Pt
	nodes  map[Pt]bool
}

func (c corners) add(s Shape) {
	for _, r := range s {
		for _, ring := range r.Rings() {
			for _, p := range ring {
				c.nodes[p] = true
			}
		}
	}
}

// toLibrary gives the shape as a collection of polygons.
func (c corners) toLibrary(s Shape) sf.Geometry {
	polygons := make([]sf.Geometry, 0, len(s))
	for _, r := range s {
		var rings []sf.LineString
		for _, ring := range r.Rings() {
			if len(ring) < 3 {
				continue
			}
			xy := make([]float64, 0, 2*len(ring)+2)
			for i := range len(ring) + 1 {
				p := ring[i%len(ring)].Sub(c.origin)
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
func (c corners) fromLibrary(g sf.Geometry) Shape {
	switch g.Type() {
	case sf.TypePolygon:
		return c.region(g.MustAsPolygon())
	case sf.TypeMultiPolygon:
		var out Shape
		m := g.MustAsMultiPolygon()
		for i := range m.NumPolygons() {
			out = append(out, c.region(m.PolygonN(i))...)
		}
		return out
	case sf.TypeGeometryCollection:
		var out Shape
		all := g.MustAsGeometryCollection()
		for i := range all.NumGeometries() {
			out = append(out, c.fromLibrary(all.GeometryN(i))...)
		}
		return out
	}
	return nil
}

func (c corners) region(p sf.Polygon) Shape {
	if p.IsEmpty() {
		return nil
	}
	rings := []Ring{c.ring(p.ExteriorRing())}
	for i := range p.NumInteriorRings() {
		rings = append(rings, c.ring(p.InteriorRingN(i)))
	}
	return rebuilt(rings)
}

func (c corners) ring(l sf.LineString) Ring {
	seq := l.Coordinates()
	ring := make(Ring, 0, seq.Length())
	for i := range seq.Length() - 1 {
		xy := seq.GetXY(i)
		p := Pt{int64(math.Round(xy.X)), int64(math.Round(xy.Y))}.Add(c.origin)
		if c.nodes[p] {
			ring = append(ring, p)
		}
	}
	return ring.WithoutRepeats()
}

// tidied tidies every ring.
func tidied(s Shape) Shape {
	var out Shape
	for _, r := range s {
		t := Region{Outer: tidy(r.Outer)}
		for _, h := range r.Holes {
			t.Holes = append(t.Holes, tidy(h))
		}
		out = append(out, t)
	}
	return out
}

// tidy drops repeated corners and corners on the line of their neighbours;
// exact. What is left may be empty.
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
