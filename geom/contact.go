package geom

import (
	"fmt"
	"slices"
)

// Contact is a floor: where prism Above lies over prism Below.
type Contact struct {
	Below, Above int
	Shape        Shape
	Depth        float64 // metres from the ceiling below to the floor above
}

// AreaM2 returns the area of the floor in square metres.
func (c Contact) AreaM2() float64 { return c.Shape.AreaM2() }

// Contacts returns the floors: every overlap of two enclosed prisms where the
// Low of one lies at most maxDepth above the High of the other, or no more
// than DeepestOverlapOfFloors below it. Pieces narrower than NarrowestContact
// are dropped. The contacts are sorted by Below, then Above. An error names
// the prisms whose overlay failed.
func Contacts(prisms []Prism, maxDepth float64) ([]Contact, error) {
	x := newIndex(len(prisms), func(i int) Box {
		if prisms[i].Unenclosed {
			return noBox
		}
		return prisms[i].Base.Bounds()
	})
	var out []Contact
	var near []int
	for below, p := range prisms {
		if p.Unenclosed {
			continue
		}
		box := p.Base.Bounds()
		near = x.near(box, near)
		for _, above := range near {
			q := prisms[above]
			depth := q.Low - p.High
			if above == below || depth > maxDepth || depth < -DeepestOverlapOfFloors || q.High <= p.High || !box.overlaps(q.Base.Bounds()) {
				continue
			}
			s, err := Intersection(Shape{p.Base}, Shape{q.Base})
			if err != nil {
				return nil, fmt.Errorf("geom: contact of prisms %d and %d: %w", below, above, err)
			}
			s = slices.DeleteFunc(s, func(r Region) bool { return r.narrower(NarrowestContact) })
			if len(s) > 0 {
				out = append(out, Contact{below, above, s, depth})
			}
		}
	}
	return out, nil
}

// narrower tells whether the mean width of a region, taken as a strip, is less
// than width metres.
func (r Region) narrower(width float64) bool {
	var around float64
	for _, ring := range r.Rings() {
		around += ring.Length()
	}
	return r.AreaM2() < width*around/2
}
