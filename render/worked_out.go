package render

import (
	"moiety/geom"
	"moiety/plan"
)

// workedOut is what several sheets of a set show and is dear to find: the
// visual centres of regions, known by where their points are kept, and the
// walls of levels with their openings taken out. Regions are not changed
// while a set is drawn.
type workedOut struct {
	centres map[*geom.Pt]geom.Pt
	cuts    map[cutKey]geom.Shape
}

type cutKey struct {
	b     *plan.Building
	s     *plan.Scheme
	level int
}

func newWorkedOut() *workedOut {
	return &workedOut{centres: map[*geom.Pt]geom.Pt{}, cuts: map[cutKey]geom.Shape{}}
}

// centre is the visual centre of a region.
func (w *workedOut) centre(r geom.Region) geom.Pt {
	if w == nil || len(r.Outer) == 0 {
		at, _ := geom.VisualCentre(r)
		return at
	}
	key := &r.Outer[0]
	at, ok := w.centres[key]
	if !ok {
		at, _ = geom.VisualCentre(r)
		w.centres[key] = at
	}
	return at
}

// cut is the walls of a floor without its openings.
func (w *workedOut) cut(f *floor) (geom.Shape, error) {
	key := cutKey{f.b, f.s, f.level}
	if shape, ok := w.cuts[key]; ok {
		return shape, nil
	}
	shape, err := f.cutOpenings()
	if err == nil {
		w.cuts[key] = shape
	}
	return shape, err
}
