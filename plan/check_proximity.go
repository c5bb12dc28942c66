package plan

import (
	"fmt"
	"math"

	"moiety/geom"
)

// meetingWalls is the angle, in degrees seen from outside, between two walls
// beyond which they are taken not to face each other (NBC 9.9.4.6.(1) and
// 9.10.12.3.(1): 135 degrees).
const meetingWalls = 135

// outerOpening is a door or window to the outdoors.
type outerOpening struct {
	id    string
	unit  Owner
	level int
	line  geom.Segment // the outdoors on its right
	low   float64      // elevation of its sill
	door  bool
	entry bool // an entry door of its unit
}

// checkProximity compares how near the openings of one unit come to the exit
// door of the other, and to its openings about a corner.
func checkProximity(c *checking) {
	openings := c.outerOpenings()
	for _, u := range bothUnits {
		c.nearExit(u, openings)
	}
	c.aboutCorners(openings)
	c.entrancesApart(openings)
	c.approaches(openings)
}

// outerOpenings lists the windows and doors of both units to the outdoors.
func (c *checking) outerOpenings() []outerOpening {
	var out []outerOpening
	add := func(o outerOpening, cell int) {
		if c.s.Owners[cell] > UnitB {
			return
		}
		o.unit = c.s.Owners[cell]
		if c.b.Cells[cell].Region.Contains(o.line.Beside(o.line.Length()/2, -thickest)) == geom.Inside ||
			c.b.Cells[cell].Region.Contains(o.line.Beside(o.line.Length()/2, -thickest/2)) == geom.Inside {
			o.line = o.line.Reverse()
		}
		out = append(out, o)
	}
	for _, win := range c.s.Windows {
		for i := range c.b.House.Windows {
			if sides := c.b.WindowCells[i]; c.b.House.Windows[i].ID == win.ID && win.State != Removed && sides[0] != Outside &&
				(sides[1] == Outside || c.b.Cells[sides[1]].Outdoor) {
				add(outerOpening{id: win.ID, level: win.Level, line: win.Line, low: c.b.House.Levels[win.Level].Floor + win.Sill}, sides[0])
			}
		}
	}
	for _, win := range c.s.Windows {
		if cell := c.b.CellNamed(win.Cell); win.State == New && cell >= 0 {
			add(outerOpening{id: win.ID, level: win.Level, line: win.Line, low: c.b.House.Levels[win.Level].Floor + win.Sill}, cell)
		}
	}
	for _, p := range c.s.Passages {
		if p.Type != "door" || p.State == Sealed {
			continue
		}
		u, v := c.b.CellNamed(p.Between[0]), c.b.CellNamed(p.Between[1])
		if u >= 0 && c.b.Cells[u].Outdoor {
			u, v = v, u
		}
		if u >= 0 && !c.b.Cells[u].Outdoor && (v < 0 || c.b.Cells[v].Outdoor) {
			add(outerOpening{id: p.Of, level: p.Level, line: p.Line, low: c.b.Cells[u].Floor, door: true, entry: p.Entry != ""}, u)
		}
	}
	return out
}

// faceEachOther tells whether two openings lie in walls that meet at no more than
// meetingWalls outside, or stand across from each other.
func faceEachOther(a, b outerOpening) bool {
	turn := math.Abs(degreesBetween(a.line, b.line))
	if 180-turn > meetingWalls {
		return false // in one line, or nearly so
	}
	return a.line.Off(b.line.Mid()) < -geom.Coincide && b.line.Off(a.line.Mid()) < -geom.Coincide
}

// nearExit measures the distance from a unit's entrance to the other unit's
// openings that face it.
func (c *checking) nearExit(u Owner, openings []outerOpening) {
	for _, door := range openings {
		if !door.entry || door.unit != u {
			continue
		}
		nearest, what := math.Inf(1), ""
		for _, o := range openings {
			if o.unit == u || !faceEachOther(door, o) {
				continue
			}
			if d := segmentsApart(door.line, o.line); d < nearest {
				nearest, what = d, o.id
			}
		}
		a := about{unit: u.String(), subject: door.id, cure: "another place for the door, or protect the opening"}
		if what == "" {
			c.judged("opening-exit-distance", true, "none faces it", a)
			continue
		}
		a.note = "to " + what + " of the other unit"
		c.measured("opening-exit-distance", nearest, a)
	}
}

// aboutCorners measures the least distance between openings of the two units
// in walls that face each other about a corner.
func (c *checking) aboutCorners(openings []outerOpening) {
	nearest, a := math.Inf(1), about{cure: "another place for one of them, or protect it"}
	for _, o := range openings {
		for _, p := range openings {
			if o.unit != UnitA || p.unit != UnitB || o.level != p.level || !faceEachOther(o, p) {
				continue
			}
			if d := segmentsApart(o.line, p.line); d < nearest {
				nearest = d
				a.subject, a.note = o.id, "to "+p.id
			}
		}
	}
	if a.subject != "" {
		c.measured("opening-corner-distance", nearest, a)
	}
}

// segmentsApart is the distance between two segments that do not cross.
func segmentsApart(s, t geom.Segment) float64 {
	return min(s.DistanceTo(t.A), s.DistanceTo(t.B), t.DistanceTo(s.A), t.DistanceTo(s.B))
}

// passingBy is how near, in metres, a way outdoors comes to a window that it is
// said to pass: an arm's length and a little (common practice, no source).
const passingBy = 1.5

// eyeHeight is the height above the ground, in metres, over which nobody looks
// in at a window (common practice, no source).
const eyeHeight = 1.8

// approaches measures the way from each unit's entrance to the public way: its
// width, and how near it comes to the other unit's windows.
func (c *checking) approaches(openings []outerOpening) {
	for _, u := range bothUnits {
		a := about{unit: u.String(), subject: u.String(), cure: "measure the path from the street to the entrance"}
		width, way, known := newWalks(c.s, u).approach()
		if !known {
			c.unknown("approach-width", "", a)
			continue
		}
		c.measured("approach-width", width, withCure(a, "a wider path"))
		c.passes(u, way, openings)
	}
}

// passes measures how near a way comes to each window of the other unit that
// it passes.
func (c *checking) passes(u Owner, way []geom.Pt, openings []outerOpening) {
	ground, known := c.b.grade()
	figure, limited := c.set.Get("way-past-window")
	for _, o := range openings {
		if o.unit == u || o.door || known && o.low > ground+eyeHeight {
			continue
		}
		nearest := math.Inf(1)
		for i := 1; i < len(way); i++ {
			nearest = min(nearest, segmentsApart(geom.Segment{A: way[i-1], B: way[i]}, o.line))
		}
		if nearest < passingBy || limited && !figure.Meets(nearest) {
			c.informed("way-past-window", nearest, about{
				unit: u.String(), subject: o.id, note: fmt.Sprintf("the way to the entrance of %s passes this window of %s", u, o.unit),
				cure: "another way or entrance, or a screen before the window",
			})
		}
	}
}

// entrancesApart measures how far apart the units' entrances are, middle to middle.
func (c *checking) entrancesApart(openings []outerOpening) {
	nearest, a := math.Inf(1), about{cure: "another place for one of the entrances"}
	for _, o := range openings {
		for _, p := range openings {
			if !o.entry || !p.entry || o.unit != UnitA || p.unit != UnitB {
				continue
			}
			if d := o.line.Mid().Distance(p.line.Mid()); d < nearest {
				nearest = d
				a.subject, a.note = o.id, "to "+p.id+", middle to middle"
			}
		}
	}
	if a.subject != "" {
		c.informed("entrances-apart", nearest, a)
	}
}

// approach gives the way from the unit's entrance to the public way and how
// wide it is at its narrowest; known is false where no street was surveyed.
func (w *walks) approach() (width float64, way []geom.Pt, known bool) {
	best := math.Inf(1)
	r := w.outward(ToStreet, true)
	start := -1
	for g := range w.gates {
		if w.gates[g].out && w.gates[g].entry && r.length[g] < best {
			best, start = r.length[g], g
		}
	}
	if start < 0 {
		return 0, nil, false
	}
	legs, _ := r.legs(w, start)
	width = math.Inf(1)
	gates := append([]int{start}, r.gatesFrom(start)...)
	for i, l := range legs {
		way = append(way, l.points...)
		if l.flight != "" || i+1 >= len(gates) {
			continue
		}
		region := w.floors[l.floors[0]].clear()
		from, ok := mouthOf(region, w.gates[gates[i]].line, w.gates[gates[i]].thick)
		to, also := mouthOf(region, w.gates[gates[i+1]].line, w.gates[gates[i+1]].thick)
		if !ok || !also {
			continue
		}
		if clear, _, ok := geom.ClearWidth(region, from, to); ok {
			width = min(width, clear)
		} else {
			width = min(width, max(from.Length(), to.Length()))
		}
	}
	return width, way, !math.IsInf(width, 1)
}
