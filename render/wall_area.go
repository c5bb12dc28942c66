package render

import (
	"fmt"

	"moiety/geom"
	"moiety/plan"
)

// layAreas works out the areas that walls are drawn as, once per floor,
// whatever the scale: those that stand, apart for a unit and the other, and
// those that a scheme changes, by kind.
func (f *floor) layAreas() error {
	fail := func(what string, err error) error {
		return fmt.Errorf("render: %s of level %q: %w", what, f.b.House.Levels[f.level].ID, err)
	}
	f.own, f.others = f.cut, nil
	if f.unit != "" {
		near, err := geom.Union(f.ownWalls()...)
		if err != nil {
			return fail("walls of unit "+f.unit, err)
		}
		if f.own, err = geom.Intersection(f.cut, near); err != nil {
			return fail("walls of unit "+f.unit, err)
		}
		if f.others, err = geom.Difference(f.cut, near); err != nil {
			return fail("walls of the other unit", err)
		}
	}
	var byKind [wallKinds][]geom.Shape
	var separation []geom.Shape
	for _, part := range f.parts {
		if !part.mine {
			continue
		}
		byKind[part.kind] = append(byKind[part.kind], geom.Shape{part.region})
		if part.kind == wallNewSeparating || part.kind == wallUpgraded {
			separation = append(separation, geom.Shape{part.region})
		}
	}
	for k, shapes := range byKind {
		area, err := geom.Union(shapes...)
		if err == nil && wallKind(k) == wallUpgraded {
			area, err = geom.Intersection(area, f.cut)
		}
		if err != nil {
			return fail("changed walls", err)
		}
		f.changed[k] = area
	}
	// One outline around all that separates, sealed openings too: it has no
	// line where one stretch goes on in another.
	for i := range f.doors {
		if d := &f.doors[i]; d.mine && d.state == plan.Sealed {
			separation = append(separation, geom.Shape{d.at.rectangle(0)})
		}
	}
	area, err := geom.Union(separation...)
	if err != nil {
		return fail("separation", err)
	}
	f.separation = area
	return nil
}

// ownWalls are the walls around the unit's rooms, with their corners.
func (f *floor) ownWalls() []geom.Shape {
	var near []geom.Shape
	for _, w := range f.b.Walls {
		if w.Open || w.Thickness <= 0 {
			continue
		}
		mine := f.onLevel(w.A) && f.shows(w.A) || w.B != geom.Exposed && f.onLevel(w.B) && f.shows(w.B)
		if !mine {
			continue
		}
		long := w.FaceA.Length()
		around := strip(geom.Segment{A: w.FaceA.Beside(0, -w.Thickness/2), B: w.FaceA.Beside(long, -w.Thickness/2)},
			-w.Thickness, long+w.Thickness, w.Thickness/2+overcut)
		near = append(near, geom.Shape{around})
	}
	return near
}
