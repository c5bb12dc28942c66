package render

import (
	"fmt"
	"math"

	"moiety/geom"
	"moiety/plan"
)

// wallPart is a stretch of wall that a scheme changes.
type wallPart struct {
	run    plan.WallRun
	kind   wallKind
	region geom.Region
	mine   bool
}

// wallKind tells how a wall is drawn.
type wallKind int

const (
	wallNew           wallKind = iota // built where no wall stood, within a unit
	wallNewSeparating                 // built where no wall stood, between the units
	wallUpgraded                      // stands today, to be made fit to separate
	wallRemoved
	wallKinds
)

// overcut is how far, in metres, an opening is cut beyond both faces of its
// wall, so that no skin of rounding stays in it.
const overcut = 0.004

// cutWalls takes the openings out of the walls and lays the changed stretches.
func (f *floor) cutWalls() error {
	f.outline = f.b.Levels[f.level].Outline
	var err error
	if f.cut, err = f.found.cut(f); err != nil {
		return err
	}
	if f.s != nil {
		f.layRuns()
	}
	return f.layAreas()
}

// cutOpenings is the walls as they stand with their openings taken out.
func (f *floor) cutOpenings() (geom.Shape, error) {
	var holes []geom.Shape
	for _, d := range f.doors {
		holes = append(holes, geom.Shape{d.at.rectangle(overcut)})
	}
	for _, w := range f.windows {
		if w.state != plan.Removed {
			holes = append(holes, geom.Shape{w.at.rectangle(overcut)})
		}
	}
	gaps, err := geom.Union(holes...)
	if err != nil {
		return nil, fmt.Errorf("render: openings of level %q: %w", f.b.House.Levels[f.level].ID, err)
	}
	cut, err := geom.Difference(f.b.Levels[f.level].Mass, gaps)
	if err != nil {
		return nil, fmt.Errorf("render: walls of level %q: %w", f.b.House.Levels[f.level].ID, err)
	}
	return cut, nil
}

// layRuns finds the stretches that the scheme builds, upgrades or removes.
func (f *floor) layRuns() {
	cells := make(map[string]int, len(f.b.Cells))
	for i, c := range f.b.Cells {
		cells[c.ID] = i
	}
	for _, r := range f.s.Walls {
		if r.Level != f.level || r.Fence || r.Line.A == r.Line.B || r.Thickness <= 0 {
			continue
		}
		part := wallPart{run: r, mine: f.unit == ""}
		for _, id := range r.Between {
			if c, ok := cells[id]; ok {
				part.mine = part.mine || f.shows(c)
			}
		}
		kind, changes := kindOf(f.s, r, cells)
		if !changes {
			continue
		}
		part.kind = kind
		f.parts = append(f.parts, part)
	}
	for i := range f.parts {
		f.parts[i].region = f.joinedRun(i)
	}
}

// kindOf tells how a stretch of wall is changed; false where it is not.
func kindOf(s *plan.Scheme, r plan.WallRun, cells map[string]int) (wallKind, bool) {
	if r.Fence || r.Line.A == r.Line.B || r.Thickness <= 0 {
		return 0, false
	}
	switch r.State {
	case plan.New:
		a, ok := cells[r.Between[0]]
		b, okB := cells[r.Between[1]]
		if ok && okB && s.Owners[a] != s.Owners[b] {
			return wallNewSeparating, true
		}
		return wallNew, true
	case plan.Separating:
		return wallUpgraded, true
	case plan.Removed:
		return wallRemoved, true
	}
	return 0, false
}

// joinedRun is the ground that a stretch takes, lengthened where it meets
// another stretch at a corner, so that the two join.
func (f *floor) joinedRun(i int) geom.Region {
	r := f.parts[i].run
	line := r.Line
	long := line.Length()
	before, after := 0.0, 0.0
	for j, other := range f.parts {
		if j == i || other.kind == wallRemoved {
			continue
		}
		reach := (r.Thickness+other.run.Thickness)/2 + geom.Coincide
		for _, q := range []geom.Pt{line.A, line.B} {
			if other.run.Line.DistanceTo(q) > reach {
				continue
			}
			if parallel(line, other.run.Line) {
				continue // see goesOn
			}
			if q == line.A {
				before = max(before, other.run.Thickness/2+other.run.Line.DistanceTo(q))
			} else {
				after = max(after, other.run.Thickness/2+other.run.Line.DistanceTo(q))
			}
		}
	}
	for j, other := range f.parts {
		if j == i || other.kind != f.parts[i].kind || !parallel(line, other.run.Line) || math.Abs(line.Off(other.run.Line.Mid())) > r.Thickness/2 {
			continue
		}
		// It goes on beyond a wall that joins it: through the junction, half each.
		o := line.Along(other.run.Line.A)
		p := line.Along(other.run.Line.B)
		if gap := min(o, p) - long; gap > 0 && gap <= geom.ThickestWall && f.solid(line.At(long+gap/2)) {
			after = max(after, gap/2)
		}
		if gap := -max(o, p); gap > 0 && gap <= geom.ThickestWall && f.solid(line.At(-gap/2)) {
			before = max(before, gap/2)
		}
	}
	return strip(line, -before, long+after, r.Thickness/2)
}

// solid tells whether a point lies in a wall as surveyed, openings filled.
func (f *floor) solid(p geom.Pt) bool { return f.b.Levels[f.level].Mass.Contains(p) != geom.Out }

// strip is the rectangle along a line, from one distance along it to
// another, half to either side.
func strip(line geom.Segment, from, to, half float64) geom.Region {
	return geom.Region{Outer: geom.Ring{
		line.Beside(from, -half), line.Beside(to, -half), line.Beside(to, half), line.Beside(from, half),
	}}
}

// parallel tells whether two lines run along each other to within a degree or so.
func parallel(a, b geom.Segment) bool {
	const sine = 0.02
	p, q := a.B.Sub(a.A), b.B.Sub(b.A)
	cross := float64(p.Cross(q)) / geom.UnitsPerMetre / geom.UnitsPerMetre
	return cross*cross <= sine*sine*a.Length()*a.Length()*b.Length()*b.Length()
}
