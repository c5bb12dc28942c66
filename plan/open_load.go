package plan

import (
	"fmt"
	"math"

	"moiety/geom"
	"moiety/plan/published"
	"moiety/plan/rules"
	"moiety/plan/structure"
)

// loadSamples is how many places along an opening the width that it carries is
// measured at; the most counts.
const loadSamples = 5

// loadsOf are the loads of the family of codes that a rule set belongs to.
func loadsOf(set *rules.Set) structure.LoadSet {
	loads, ok := structure.Loads(family(set))
	if !ok {
		loads, _ = structure.Loads("us")
	}
	return loads
}

// load gives what comes down on an opening, and the width that it carries: half
// the way to the next wall that surely bears on either side, the outer walls and
// those marked as bearing. Every storey above puts its floor and a wall on it,
// and the topmost the ceiling and, unless the brief knows better, the roof.
func (b *Building) load(o OpenBrief, l Link, line geom.Segment, set *rules.Set) (structure.Opening, float64) {
	loads := loadsOf(set)
	width := (b.toBearing(l, line, 1) + b.toBearing(l, line, -1)) / 2
	opening := structure.Opening{Kind: o.Kind}
	top, mid := l.low+l.Height, line.Mid()
	for i, level := range b.House.Levels {
		if level.Outdoor || level.Floor < top-geom.Coincide || !holds(b.Levels[i].Outline, mid) {
			continue
		}
		opening.Carries = append(opening.Carries,
			structure.Carried{
				What: "floor of " + level.ID, WidthM: width, DeadKPa: loads.FloorDead.Value, LiveKPa: loads.FloorLive.Value,
				Sources: []published.Source{loads.FloorDead.Source, loads.FloorLive.Source},
			}, structure.Carried{
				What: "a wall on " + level.ID, WidthM: level.Height, DeadKPa: loads.Wall.Value,
				Sources: []published.Source{loads.Wall.Source},
			})
	}
	opening.Carries = append(opening.Carries, structure.Carried{
		What: "ceiling and attic", WidthM: width, DeadKPa: loads.AtticDead.Value, LiveKPa: loads.AtticLive.Value,
		Sources: []published.Source{loads.AtticDead.Source, loads.AtticLive.Source},
	})
	if !o.NoRoof {
		opening.Carries = append(opening.Carries, structure.Carried{
			What: "roof", WidthM: width, DeadKPa: loads.RoofDead.Value, LiveKPa: max(loads.RoofLive.Value, o.SnowKPa),
			Sources: []published.Source{loads.RoofDead.Source, loads.RoofLive.Source},
		})
	}
	return opening, width
}

func holds(shape geom.Shape, p geom.Pt) bool {
	for _, r := range shape {
		if r.Contains(p) != geom.Out {
			return true
		}
	}
	return false
}

// toBearing is how far it is from an opening, square to it and on one side, to
// the next wall that surely bears: an outer face of the level, or a wall marked
// as bearing that runs the same way within a few degrees. The most of a few
// places along the opening counts.
func (b *Building) toBearing(l Link, line geom.Segment, side float64) float64 {
	box := line.Bounds()
	for _, r := range b.Levels[l.Level].Outline {
		box = box.Join(r.Bounds())
	}
	far := box.Min.Distance(box.Max) + 1
	most := 0.0
	for i := range loadSamples {
		at := line.Length() * (float64(i) + 0.5) / loadSamples
		ray := geom.Segment{A: line.At(at), B: line.Beside(at, side*far)}
		next := far
		meet := func(e geom.Segment) {
			if m := geom.Meet(ray, e); m != geom.Crossed && m != geom.Touching {
				return
			}
			if p, ok := geom.CrossingPoint(ray, e); ok {
				if d := ray.A.Distance(p); d > l.Thickness+geom.Coincide {
					next = min(next, d)
				}
			}
		}
		for _, r := range b.Levels[l.Level].Outline {
			for _, e := range r.Edges() {
				meet(e)
			}
		}
		for _, mark := range b.House.Walls {
			if !mark.Bearing || mark.Level != l.Level {
				continue
			}
			for k := range len(mark.Line) - 1 {
				e := geom.Segment{A: mark.Line[k], B: mark.Line[k+1]}
				if d, f := along(e), along(line); math.Abs(d.dx*f.dy-d.dy*f.dx) < alikeSlope {
					meet(e)
				}
			}
		}
		if next < far {
			most = max(most, next)
		}
	}
	return most
}

// alikeSlope is the sine of the angle between walls that joists span between:
// about 15 degrees.
const alikeSlope = 0.26

// beamWords says what a beam is.
func (o OpenedWall) beamWords() string {
	switch {
	case !o.Bears:
		return "no beam: " + o.Why
	case o.Beam == nil:
		return "a beam that an engineer has to find: " + o.Why
	}
	place := "within the floor above"
	if o.Below {
		place = "below the ceiling"
	}
	return fmt.Sprintf("%s %s, over %.2f m, on %d studs at each end (%.0f mm of bearing): %s",
		o.Beam.Name(), place, o.Line.Length(), o.Beam.PostStuds, o.Beam.BearingMM, o.Why)
}
