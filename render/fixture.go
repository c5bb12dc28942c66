package render

import (
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// fixture is a fixture as a plan shows it: a rectangle with its back to a wall.
type fixture struct {
	plan.Fixture
	state   plan.State
	cell    int
	back    geom.Pt // middle of its back
	facing  float64 // direction it faces, degrees in the house's coordinates
	width   float64 // along the wall, metres
	depth   float64
	mine    bool
	carries bool // a dryer stands on it

	elsewhere bool // lettered on the sheet of another part of the level
}

// shortBack lists the fixtures that stand with a short side to the wall.
var shortBack = map[string]bool{"wc": true, "furnace": true}

func (f *floor) gatherFixtures() {
	add := func(x plan.Fixture, state plan.State, cell int) {
		if x.Level != f.level {
			return
		}
		d := fixture{Fixture: x, state: state, cell: cell, mine: f.unit == "" || cell >= 0 && f.shows(cell)}
		if x.Footprint != nil {
			d.fit(*x.Footprint, f.borders(cell))
		} else {
			d.stand(f.borders(cell))
		}
		f.fixtures = append(f.fixtures, d)
	}
	if f.s == nil {
		for i, x := range f.b.House.Fixtures {
			cell := plan.Outside
			if i < len(f.b.FixtureCell) {
				cell = f.b.FixtureCell[i]
			}
			add(x, plan.Existing, cell)
		}
		return
	}
	for _, x := range f.s.Fixtures {
		at := x.At
		if x.Footprint != nil {
			at, _ = geom.VisualCentre(*x.Footprint)
		}
		add(x.Fixture, x.State, f.cellAt(at))
	}
	f.stackMachines()
}

// gatherOutside adds what hangs on the house outdoors, as meters do, to the
// plan of the level that it hangs beside.
func (f *floor) gatherOutside() {
	for _, x := range f.s.Fixtures {
		if !f.b.House.Levels[x.Level].Outdoor || f.hangsOn(x.Fixture) != f.level {
			continue
		}
		faces := f.facesOutside(f.level)
		d := fixture{Fixture: x.Fixture, state: x.State, cell: plan.Outside, mine: true}
		if x.Footprint != nil {
			d.fit(*x.Footprint, faces)
		} else {
			d.stand(faces)
		}
		f.fixtures = append(f.fixtures, d)
	}
}

// facesOutside are the exterior faces of a level, seen from outdoors.
func (f *floor) facesOutside(level int) []geom.Segment {
	var faces []geom.Segment
	for _, e := range f.b.Levels[level].Outline.Edges() {
		faces = append(faces, e.Reverse())
	}
	return faces
}

// hangsOn is the level that something outdoors stands beside, of several the
// one nearest to the ground; -1 where it stands away from the house.
func (f *floor) hangsOn(x plan.Fixture) int {
	at := x.At
	if x.Footprint != nil {
		at = x.Footprint.Bounds().Centre()
	}
	best, nearest := -1, math.Inf(1)
	for l, level := range f.b.House.Levels {
		if level.Outdoor {
			continue
		}
		if _, off := nearestEdge(f.facesOutside(l), at); off > besideHouse {
			continue
		}
		away := math.Abs(level.Floor - f.b.House.Grade)
		if l == groundLevel(f.b) {
			away = -1
		}
		if away < nearest {
			best, nearest = l, away
		}
	}
	return best
}

// stackMachines draws a dryer that stands on a washer as one with it.
func (f *floor) stackMachines() {
	var out []fixture
	for _, d := range f.fixtures {
		i := slices.IndexFunc(out, func(o fixture) bool {
			return o.state == d.state && o.back == d.back && o.facing == d.facing && (o.Use == "washer" && d.Use == "dryer" || o.Use == "dryer" && d.Use == "washer")
		})
		if i < 0 {
			out = append(out, d)
			continue
		}
		out[i].Use, out[i].carries = "washer", true
	}
	f.fixtures = out
}

// borders are the edges of a cell, or of all rooms where the cell is not known.
func (f *floor) borders(cell int) []geom.Segment {
	if cell >= 0 {
		return f.b.Cells[cell].Region.Edges()
	}
	var all []geom.Segment
	for _, r := range f.rooms {
		all = append(all, f.b.Cells[r.cell].Region.Edges()...)
	}
	return all
}

// nearestEdge is the edge nearest to a point, and how far.
func nearestEdge(edges []geom.Segment, p geom.Pt) (geom.Segment, float64) {
	var best geom.Segment
	least := math.Inf(1)
	for _, e := range edges {
		if d := e.DistanceTo(p); d < least-geom.Coincide/10 {
			best, least = e, d
		}
	}
	return best, least
}

// stand gives a fixture surveyed as a point its nominal size and turns its
// back to the nearest wall; one within its own depth of the wall is set against it.
func (d *fixture) stand(edges []geom.Segment) {
	d.width, d.depth = plan.NominalSize(d.Use)
	wall, off := nearestEdge(edges, d.At)
	if math.IsInf(off, 1) {
		d.facing, d.back = 90, d.At.Add(geom.FromMetres(0, -d.depth/2))
		return
	}
	along := wall.Along(d.At)
	if d.width < wall.Length() {
		along = min(max(along, d.width/2), wall.Length()-d.width/2)
	} else {
		along = wall.Length() / 2
	}
	gap := 0.0
	if free := wall.Off(d.At) - d.depth/2; free > d.depth/2 {
		gap = free
	}
	d.back = wall.Beside(along, gap)
	d.facing = bearing(wall) + 90
}

// fit lays a rectangle over a footprint, its back the side nearest to a wall:
// a long side before a short one, but for what stands with its short side to
// the wall.
func (d *fixture) fit(r geom.Region, edges []geom.Segment) {
	base := r.Outer.Edges()[0]
	for _, e := range r.Outer.Edges() {
		if e.Length() > base.Length()+geom.Coincide/10 {
			base = e
		}
	}
	a0, a1, o0, o1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range r.Outer {
		a, o := base.Along(p), base.Off(p)
		a0, a1, o0, o1 = min(a0, a), max(a1, a), min(o0, o), max(o1, o)
	}
	corners := [4]geom.Pt{base.Beside(a0, o0), base.Beside(a1, o0), base.Beside(a1, o1), base.Beside(a0, o1)}
	const preference = 0.10 // metres that the better side may be farther from a wall
	least := math.Inf(1)
	for i := range corners {
		side := geom.Segment{A: corners[i], B: corners[(i+1)%4]}
		next := geom.Segment{A: side.B, B: corners[(i+2)%4]}
		_, off := nearestEdge(edges, side.Mid())
		if (side.Length() < next.Length()-geom.Coincide) != shortBack[d.Use] {
			off += preference
		}
		if off < least-geom.Coincide/10 {
			least = off
			d.back, d.facing = side.Mid(), bearing(side)+90
			d.width, d.depth = side.Length(), next.Length()
		}
	}
}

// bearing is the direction of a line, degrees counter-clockwise from +x.
func bearing(s geom.Segment) float64 {
	d := s.B.Sub(s.A)
	return math.Atan2(float64(d.Y), float64(d.X)) * 180 / math.Pi
}

// quad is the fixture's rectangle, from the left of its back counter-clockwise.
func (d *fixture) quad() [4]geom.Pt {
	at := func(x, y float64) geom.Pt {
		p := Point{x, y}.turned(d.facing - 90)
		return d.back.Add(geom.FromMetres(p.X, p.Y))
	}
	return [4]geom.Pt{at(-d.width/2, 0), at(d.width/2, 0), at(d.width/2, d.depth), at(-d.width/2, d.depth)}
}
