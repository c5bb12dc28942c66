package render_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
)

// openingLines are the doors and windows of the level shown, surveyed and new.
func (v planView) openingLines() []geom.Segment {
	var lines []geom.Segment
	for _, d := range v.house.Doors {
		if d.Level == v.view.Level {
			lines = append(lines, d.Line)
		}
	}
	for _, w := range v.house.Windows {
		if w.Level == v.view.Level {
			lines = append(lines, w.Line)
		}
	}
	if v.scheme != nil {
		for _, p := range v.scheme.Passages {
			if p.Level == v.view.Level && p.Door != nil {
				lines = append(lines, p.Door.Line)
			}
		}
		for _, w := range v.scheme.Windows {
			if w.Level == v.view.Level {
				lines = append(lines, w.Line)
			}
		}
	}
	return lines
}

// jambsAreCut finds both jambs of an opening: wall up to each, and none from
// there on. A jamb is not asked about where another opening, a corner of a
// room or something new begins beside it.
func (v planView) jambsAreCut(t *testing.T, id string, line geom.Segment) (asked int) {
	t.Helper()
	const clear = 0.03 // metres of wall to be found beside a jamb
	for _, l := range []geom.Segment{line, line.Reverse()} {
		along := v.at(l.B).minus(v.at(l.A)).unit()
		if c := v.at(l.A).plus(along.times(tightly)); v.onWall(c) {
			t.Errorf("sheet %s: %s begins after %v", v.sheet.Number, id, l.A)
		}
		beyond := l.At(-clear)
		busy := slices.ContainsFunc(v.openingLines(), func(o geom.Segment) bool {
			return o != line && o != line.Reverse() && (o.DistanceTo(beyond) < clear || o.DistanceTo(l.A) < clear)
		})
		for _, s := range v.house.Spaces {
			busy = busy || s.Level == v.view.Level && (s.Region.Contains(beyond) != geom.Out || s.Region.DistanceToBorder(beyond) < clear)
		}
		for _, f := range v.house.Stairs {
			busy = busy || f.Region.DistanceToBorder(beyond) < clear || f.Region.Contains(beyond) != geom.Out
		}
		if v.scheme != nil {
			for _, r := range v.scheme.Walls {
				busy = busy || r.Level == v.view.Level && (r.State == plan.New || r.State == plan.Removed) && r.Line.DistanceTo(beyond) < r.Thickness+clear
			}
		}
		if busy {
			continue
		}
		asked++
		if c := v.at(l.A).minus(along.times(tightly)); !v.onWall(c) {
			t.Errorf("sheet %s: %s begins before %v: %q", v.sheet.Number, id, l.A, v.colourAt(c))
		}
	}
	return asked
}

// Every door of the survey, and every new one, has its jambs where its line ends.
func TestDoorsAreWhereTheSurveyPutsThem(t *testing.T) {
	asked, leaves := 0, 0
	everyPlanView(t, func(t *testing.T, v planView) {
		for _, d := range v.house.Doors {
			if d.Level == v.view.Level {
				asked += v.jambsAreCut(t, d.ID, d.Line)
			}
		}
		if v.what == "existing" {
			for _, d := range v.house.Doors {
				if d.Level == v.view.Level && d.Leaf == plan.Single && !d.Opening {
					leaves++
					v.leafStandsOpen(t, d)
				}
			}
		}
		if v.what != "proposed" {
			return
		}
		for _, p := range v.scheme.Passages {
			if p.Level != v.view.Level || p.State != plan.New || p.Door == nil {
				continue
			}
			asked += v.jambsAreCut(t, p.Of, p.Door.Line)
			if p.Door.Leaf == plan.Single {
				leaves++
				v.leafStandsOpen(t, *p.Door)
			}
		}
	})
	assert.Greater(t, asked, 500)
	assert.Greater(t, leaves, 60)
}

// leafStandsOpen finds the leaf of a door: as long as the door is wide, square
// to the wall at the jamb where it hangs, in the room that it opens into; and
// the arc from its end to the other jamb.
func (v planView) leafStandsOpen(t *testing.T, d plan.Door) {
	t.Helper()
	hinge, other := v.at(d.Line.A), v.at(d.Line.B)
	if d.HingeAtEnd {
		hinge, other = other, hinge
	}
	width := hinge.to(other)
	found, swings := false, false
	for i := range v.paths {
		q := &v.paths[i]
		if q.group != "doors" {
			continue
		}
		q.sides(func(a, b spot) {
			for _, end := range [][2]spot{{a, b}, {b, a}} {
				foot, tip := end[0], end[1]
				square := math.Abs(foot.along(hinge, other)) <= tightly && math.Abs(tip.along(hinge, other)) <= tightly
				if !square || math.Abs(foot.to(tip)-width) > tightly || math.Abs(foot.off(hinge, other)) > v.mm(0.4) || math.Abs(tip.off(hinge, other)) < math.Abs(foot.off(hinge, other)) {
					continue
				}
				if d.OpensInto != "" {
					room := slices.IndexFunc(v.house.Spaces, func(s plan.Space) bool { return s.ID == d.OpensInto })
					middle := v.view.House(foot.between(tip).sheet())
					if region := v.house.Spaces[room].Region; region.Contains(middle) == geom.Out && region.DistanceToBorder(middle) > 0.01 {
						continue
					}
				}
				found = true
			}
		})
		for _, l := range q.lines {
			if q.curved && len(l.points) == 2 {
				a, b := l.points[0], l.points[1]
				for _, end := range [][2]spot{{a, b}, {b, a}} {
					swings = swings || math.Abs(end[0].along(hinge, other)-width) <= tightly && math.Abs(end[1].along(hinge, other)) <= tightly &&
						math.Abs(math.Abs(end[1].off(hinge, other)-end[0].off(hinge, other))-width) <= tightly && math.Abs(end[0].off(hinge, other)) <= v.mm(0.4)
				}
			}
		}
	}
	assert.True(t, found, "sheet %s: the leaf of %s", v.sheet.Number, d.ID)
	assert.True(t, swings, "sheet %s: the swing of %s", v.sheet.Number, d.ID)
}

// Every window has its jambs where its line ends, and its glass between them.
func TestWindowsAreWhereTheSurveyPutsThem(t *testing.T) {
	asked := 0
	everyPlanView(t, func(t *testing.T, v planView) {
		for _, w := range v.house.Windows {
			if w.Level != v.view.Level {
				continue
			}
			if v.scheme != nil && slices.ContainsFunc(v.scheme.Windows, func(p plan.PlacedWindow) bool { return p.ID == w.ID && p.Line != w.Line }) {
				continue // made larger
			}
			asked += v.jambsAreCut(t, w.ID, w.Line)
			assert.True(t, v.glazed(w.Line), "sheet %s: %s", v.sheet.Number, w.ID)
		}
		if v.what != "proposed" {
			return
		}
		for _, w := range v.scheme.Windows {
			if w.Level == v.view.Level && w.State != plan.Removed {
				assert.True(t, v.glazed(w.Line), "sheet %s: %s, %s", v.sheet.Number, w.ID, w.State)
			}
		}
	})
	assert.Greater(t, asked, 200)
}

// glazed tells whether three or more lines run from jamb to jamb of a window.
func (v planView) glazed(line geom.Segment) bool {
	a, b := v.at(line.A), v.at(line.B)
	width, lines := a.to(b), 0
	for i := range v.paths {
		q := &v.paths[i]
		if q.group != "openings" {
			continue
		}
		q.sides(func(c, d spot) {
			from, to := c.along(a, b), d.along(a, b)
			if from > to {
				from, to = to, from
			}
			if math.Abs(from) <= tightly && math.Abs(to-width) <= tightly && math.Abs(c.off(a, b)) < v.mm(0.4) && math.Abs(d.off(a, b)-c.off(a, b)) <= tightly {
				lines++
			}
		})
	}
	return lines >= 3
}

// Every flight is outlined where the survey has it, and has a line for each
// riser: of a straight one evenly from its foot to its head.
func TestFlightsAreWhereTheSurveyPutsThem(t *testing.T) {
	outlined, stepped := 0, 0
	everyPlanView(t, func(t *testing.T, v planView) {
		for _, f := range v.house.Stairs {
			if f.Level != v.view.Level && f.To != v.view.Level || v.what == "unit" && !v.ownsFlight(f.ID) {
				continue
			}
			outlined++
			assert.True(t, v.outlines("flights", f.Region.Outer), "sheet %s: the outline of %s", v.sheet.Number, f.ID)
			over := slices.ContainsFunc(v.house.Stairs, func(o plan.Stair) bool {
				return o.ID != f.ID && f.Region.Contains(o.Region.Bounds().Centre()) == geom.Inside
			})
			if f.Risers == 0 || over {
				continue
			}
			stepped++
			v.hasRisers(t, f)
		}
	})
	assert.Greater(t, outlined, 30)
	assert.Greater(t, stepped, 15)
}

// ownsFlight tells whether a flight is of the unit that the sheet shows.
func (v planView) ownsFlight(id string) bool {
	c := slices.IndexFunc(v.scheme.Building.Cells, func(c plan.Cell) bool { return c.Flight && c.Of == id })
	return v.scheme.Owners[c].String() == v.view.Unit
}

// outlines tells whether a closed path of a group runs along a ring: each
// corner of either lies on the other.
func (v planView) outlines(group string, ring geom.Ring) bool {
	region := geom.Region{Outer: ring}
	for i := range v.paths {
		q := &v.paths[i]
		if q.group != group || q.stroke == "" || len(q.lines) != 1 || !q.lines[0].closed {
			continue
		}
		strays := slices.ContainsFunc(q.lines[0].points, func(p spot) bool {
			return v.mm(region.DistanceToBorder(v.view.House(p.sheet()))) > tightly
		})
		if !strays && !slices.ContainsFunc(ring, func(p geom.Pt) bool { return !q.runsThrough(v.at(p)) }) {
			return true
		}
	}
	return false
}

// hasRisers counts the lines across a flight.
func (v planView) hasRisers(t *testing.T, f plan.Stair) {
	t.Helper()
	onBorder := func(p spot) bool { return v.mm(f.Region.DistanceToBorder(v.view.House(p.sheet()))) <= tightly }
	var places []float64
	foot, head := v.at(f.Walk[0]), v.at(f.Walk[len(f.Walk)-1])
	count := 0
	for i := range v.paths {
		q := &v.paths[i]
		if q.group != "flights" || q.stroke == "" || q.width < 0.17 || len(q.lines) == 1 && q.lines[0].closed {
			continue
		}
		q.sides(func(a, b spot) {
			if onBorder(a) && onBorder(b) && a.to(b) > 1 {
				count++
				places = append(places, a.between(b).along(foot, head))
			}
		})
	}
	assert.Equal(t, f.Risers, count, "sheet %s: risers of %s", v.sheet.Number, f.ID)
	if len(f.Walk) != 2 || count != f.Risers {
		return
	}
	slices.Sort(places)
	run := foot.to(head)
	for i, at := range places {
		assert.InDelta(t, run*float64(i)/float64(f.Risers-1), at, tightly, "sheet %s: riser %d of %s", v.sheet.Number, i, f.ID)
	}
}

// Every new wall has a heavy line along each face that a room meets.
func TestNewWallsAreAsThickAndWhereTheSchemePutsThem(t *testing.T) {
	const heavy = 0.7 // drawn outside the face
	asked := 0
	everyPlanView(t, func(t *testing.T, v planView) {
		if v.what != "proposed" {
			return
		}
		for _, r := range v.scheme.Walls {
			if r.Level != v.view.Level || r.State != plan.New || r.Fence || r.Thickness <= 0 || r.Line.A == r.Line.B {
				continue
			}
			for _, part := range []float64{0.2, 0.5, 0.8} {
				for _, side := range []float64{1, -1} {
					q := r.Line.At(part * r.Line.Length())
					beyond := r.Line.Beside(part*r.Line.Length(), side*(r.Thickness/2+0.1))
					if !v.openFloor(beyond, r) {
						continue
					}
					n := v.at(beyond).minus(v.at(q)).unit()
					face := v.at(q).plus(n.times(v.mm(r.Thickness/2) + heavy/2))
					asked++
					assert.True(t, v.stroked(face, heavy), "sheet %s: the face of the new wall between %v at %v", v.sheet.Number, r.Between, q)
				}
			}
		}
	})
	assert.Greater(t, asked, 12)
}

// openFloor tells whether a point beside a new wall lies in a room, clear of
// openings and other new walls.
func (v planView) openFloor(p geom.Pt, of plan.WallRun) bool {
	const clear = 0.15
	in := slices.ContainsFunc(v.house.Spaces, func(s plan.Space) bool {
		return s.Level == v.view.Level && s.Region.Contains(p) == geom.Inside && s.Region.DistanceToBorder(p) > clear
	})
	return in && !slices.ContainsFunc(v.openingLines(), func(o geom.Segment) bool { return o.DistanceTo(p) < of.Thickness+2*clear }) &&
		!slices.ContainsFunc(v.scheme.Walls, func(r plan.WallRun) bool {
			return r.Level == of.Level && r.State == plan.New && r.Line != of.Line && r.Line.DistanceTo(p) < r.Thickness+clear
		})
}

// stroked tells whether the middle of a line of a width runs through a place.
func (p page) stroked(at spot, width float64) bool {
	for i := range p.paths {
		if q := &p.paths[i]; q.stroke != "" && math.Abs(q.width-width) <= 1e-3 && q.runsThrough(at) {
			return true
		}
	}
	return false
}

// runsThrough tells whether a path runs through a place.
func (q *inkedPath) runsThrough(at spot) bool {
	found := false
	q.sides(func(a, b spot) {
		if found || a.to(b) == 0 {
			return
		}
		along := at.along(a, b)
		found = along >= -tightly && along <= a.to(b)+tightly && math.Abs(at.off(a, b)) <= tightly
	})
	return found
}
