package plan_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// Distances that a new door keeps, in metres (common practice, no source). They
// are a little less than what the doors are placed by.
const (
	jambClear   = 0.10 // beside the opening, for trimmer stud and casing
	wayClear    = 0.75 // before it, without a fixture
	flightClear = 0.60 // before it, without a flight
	doorStep    = 0.05
)

// doorChecker looks at the new doors of a scheme with none of the means by which
// they were placed: it samples points of the wall, the way and the leaf's swing,
// and asks of each what it lies in.
type doorChecker struct {
	s       *plan.Scheme
	regions []orb.Polygon // of the cells
	faults  []string
	tight   []string // in each other's way in use
}

func checkDoors(s *plan.Scheme) *doorChecker {
	k := &doorChecker{s: s}
	for c := range s.Building.Cells {
		k.regions = append(k.regions, polygonOf(s.Building.Cells[c].Region))
	}
	for _, p := range newDoors(s) {
		k.door(p)
	}
	return k
}

// newDoor tells doors in new places from those put where a surveyed one stands.
func newDoor(s *plan.Scheme, p *plan.Passage) bool {
	return p.State == plan.New && p.Door != nil && p.Type == "door" &&
		!slices.ContainsFunc(s.Building.House.Doors, func(d plan.Door) bool { return d.ID == p.Door.ID })
}

func newDoors(s *plan.Scheme) (doors []*plan.Passage) {
	for i := range s.Passages {
		if newDoor(s, &s.Passages[i]) {
			doors = append(doors, &s.Passages[i])
		}
	}
	return doors
}

func polygonOf(r geom.Region) orb.Polygon {
	ring := func(points []geom.Pt) orb.Ring {
		var out orb.Ring
		for _, p := range points {
			out = append(out, metresOf(p))
		}
		return append(out, out[0])
	}
	out := orb.Polygon{ring(r.Outer)}
	for _, h := range r.Holes {
		out = append(out, ring(h))
	}
	return out
}

func (k *doorChecker) fault(p *plan.Passage, format string, args ...any) {
	k.faults = append(k.faults, fmt.Sprintf("%s between %s and %s: ", p.Door.ID, p.Between[0], p.Between[1])+fmt.Sprintf(format, args...))
}

// metresOf is a point of the grid in metres.
func metresOf(p geom.Pt) orb.Point {
	return orb.Point{float64(p.X) / geom.UnitsPerMetre, float64(p.Y) / geom.UnitsPerMetre}
}

// onLine tells points by how far along a door they lie and how far beside it.
type onLine struct{ from, dir, side orb.Point }

func lineOf(s geom.Segment) (l onLine, length float64) {
	a, b := metresOf(s.A), metresOf(s.B)
	dx, dy := b[0]-a[0], b[1]-a[1]
	length = math.Hypot(dx, dy)
	dir := orb.Point{dx / length, dy / length}
	return onLine{a, dir, orb.Point{-dir[1], dir[0]}}, length
}

func (l onLine) at(along, beside float64) orb.Point {
	return orb.Point{l.from[0] + l.dir[0]*along + l.side[0]*beside, l.from[1] + l.dir[1]*along + l.side[1]*beside}
}

func (k *doorChecker) in(c int, p orb.Point) bool { return planar.PolygonContains(k.regions[c], p) }

func (k *doorChecker) cell(id string) int {
	return slices.IndexFunc(k.s.Building.Cells, func(c plan.Cell) bool { return c.ID == id })
}

func (k *doorChecker) door(p *plan.Passage) {
	l, length := lineOf(p.Line)
	if math.Abs(length-0.90) > 0.002 {
		k.fault(p, "%.3f m wide", length)
	}
	level := map[int]bool{p.Level: true}
	sides := 0
	for _, id := range p.Between {
		c := k.cell(id)
		if c < 0 {
			continue
		}
		cell := &k.s.Building.Cells[c]
		level[cell.Level] = true
		sign, face, ok := k.face(l, length, c)
		switch {
		case !ok && cell.Outdoor:
			sides++ // the ground may begin beyond a step
			continue
		case !ok:
			k.fault(p, "%s does not lie beside it", id)
			continue
		}
		sides++
		if cell.Outdoor {
			continue
		}
		for t := -jambClear; t <= length+jambClear+1e-9; t += doorStep {
			if !k.in(c, l.at(t, sign*(face+0.02))) {
				k.fault(p, "no wall along it in %s at %.2f m", id, t)
				break
			}
		}
		k.way(p, l, length, c, sign, face)
		if p.Door.OpensInto == cell.Of {
			k.swing(p, l, length, c, sign, face)
		}
	}
	if want := len(p.Between); sides < want && !slices.Contains(p.Between[:], "outside") {
		k.fault(p, "has %d of %d sides", sides, want)
	}
	for t := -jambClear; t <= length+jambClear+1e-9; t += doorStep {
		for c := range k.s.Building.Cells {
			if cell := &k.s.Building.Cells[c]; level[cell.Level] && !cell.Outdoor && !cell.Flight && k.in(c, l.at(t, 0)) {
				k.fault(p, "stands in %s at %.2f m", cell.ID, t)
			}
		}
	}
	k.openings(p, level)
	k.divisions(p, l, length)
}

// face finds on which side of a door a cell lies, and how far off its face is.
func (k *doorChecker) face(l onLine, length float64, c int) (sign, face float64, ok bool) {
	for face = 0.01; face < 0.8; face += 0.01 {
		for _, sign = range [...]float64{1, -1} {
			if k.in(c, l.at(length/2, sign*face)) {
				return sign, face, true
			}
		}
	}
	return 0, 0, false
}

// way looks at what stands before the door: fixtures, flights.
func (k *doorChecker) way(p *plan.Passage, l onLine, length float64, c int, sign, face float64) {
	level := k.s.Building.Cells[c].Level
	for t := doorStep; t < length; t += doorStep {
		for off := doorStep; off < wayClear; off += doorStep {
			at := l.at(t, sign*(face+off))
			if f := k.fixtureAt(at, c); f != "" {
				k.fault(p, "%s stands before it in %s", f, k.s.Building.Cells[c].ID)
				return
			}
			for o := range k.s.Building.Cells {
				if flight := &k.s.Building.Cells[o]; flight.Flight && flight.Level == level && off < flightClear && !k.in(c, at) && k.in(o, at) && k.joined(c, o) {
					k.fault(p, "%s begins before it", flight.ID)
					return
				}
			}
		}
	}
}

// joined tells whether two cells are open to each other.
func (k *doorChecker) joined(c, o int) bool {
	for _, link := range k.s.Building.Links {
		if (link.U == c && link.V == o || link.U == o && link.V == c) && link.Passage() {
			return true
		}
	}
	return false
}

// fixtureAt is the fixture of a cell that covers a point, if any.
func (k *doorChecker) fixtureAt(at orb.Point, c int) string {
	if !k.in(c, at) {
		return ""
	}
	for _, f := range k.s.Fixtures {
		if f.State == plan.Removed || f.Footprint == nil || f.Use == "electrical_panel" || f.Level != k.s.Building.Cells[c].Level {
			continue
		}
		if planar.PolygonContains(polygonOf(*f.Footprint), at) {
			return f.Use
		}
	}
	return ""
}

// openings looks at what other openings are too near, but for those sealed.
func (k *doorChecker) openings(p *plan.Passage, level map[int]bool) {
	near := func(id string, at int, line geom.Segment) {
		if level[at] && id != p.Door.ID && apart(line, p.Line) < jambClear {
			k.fault(p, "%.2f m from %s", apart(line, p.Line), id)
		}
	}
	for _, d := range k.s.Building.House.Doors {
		near(d.ID, d.Level, d.Line)
	}
	for _, w := range k.s.Building.House.Windows {
		near(w.ID, w.Level, w.Line)
	}
	for _, o := range k.s.Passages {
		if o.State == plan.New && o.Door != nil {
			near(o.Door.ID, o.Level, o.Line)
		}
	}
}

// apart is how far two stretches that do not cross are apart.
func apart(a, b geom.Segment) float64 {
	p := metresOf
	return min(
		planar.DistanceFromSegment(p(a.A), p(a.B), p(b.A)), planar.DistanceFromSegment(p(a.A), p(a.B), p(b.B)),
		planar.DistanceFromSegment(p(b.A), p(b.B), p(a.A)), planar.DistanceFromSegment(p(b.A), p(b.B), p(a.B)),
	)
}

// divisions looks at new walls that end on the door.
func (k *doorChecker) divisions(p *plan.Passage, l onLine, length float64) {
	for _, d := range k.s.Building.House.Divisions {
		if d.Level != p.Level || d.Thickness == 0 {
			continue
		}
		for _, end := range [...]geom.Pt{d.Line.A, d.Line.B} {
			e := metresOf(end)
			x, y := e[0]-l.from[0], e[1]-l.from[1]
			along, off := x*l.dir[0]+y*l.dir[1], math.Abs(x*l.side[0]+y*l.side[1])
			if off < 0.3 && along > -d.Thickness/2 && along < length+d.Thickness/2 {
				k.fault(p, "a new wall ends on it")
			}
		}
	}
}

// swing looks at what the leaf sweeps over.
func (k *doorChecker) swing(p *plan.Passage, l onLine, length float64, c int, sign, face float64) {
	hinge, way := 0.0, 1.0
	if p.Door.HingeAtEnd {
		hinge, way = length, -1
	}
	for r := 0.2; r < length; r += 0.1 {
		for turn := 10.0; turn <= 85; turn += 5 {
			rad := turn * math.Pi / 180
			at := l.at(hinge+way*r*math.Cos(rad), sign*(face+r*math.Sin(rad)))
			if f := k.fixtureAt(at, c); f != "" {
				k.tight = append(k.tight, fmt.Sprintf("%s sweeps over %s", p.Door.ID, f))
				return
			}
			if !k.in(c, at) {
				k.tight = append(k.tight, fmt.Sprintf("%s cannot open fully in %s", p.Door.ID, k.s.Building.Cells[c].ID))
				return
			}
		}
	}
}

// Every new door of every scheme of the samples stands in a wall that is there on
// both sides, clear of corners, windows, other doors, fixtures, flights and the
// ends of new walls.
func TestNewDoorsOfTheSamplesStandInClearWalls(t *testing.T) {
	doors := 0
	eachSample(t, func(t *testing.T, s sample) {
		for _, scheme := range split(t, s.building, s.brief).Schemes {
			k := checkDoors(scheme)
			assert.Empty(t, k.faults, "scheme %s", scheme.ID)
			assert.Empty(t, k.tight, "scheme %s", scheme.ID)
			doors += len(newDoors(scheme))
		}
	})
	assert.Greater(t, doors, 5)
}

// Doors that are moved into corners, over windows and before fixtures are seen.
func TestADoorInTheWrongPlaceIsSeen(t *testing.T) {
	d := twoRooms().Fixture("tub", "bath", "main", 0.8, 5).Footprint(2.0, 3.2, 2.6, 3.9).Door("d", "main", 2.7, 3.05, 3.5, 3.05)
	b := build(t, d.House())
	a, c := cellIndex(t, b, "a"), cellIndex(t, b, "b")
	for name, tt := range map[string]struct {
		x0, x1, y float64
		want      string // part of the fault, "" none
	}{
		"in the clear":      {0.12, 1.02, 3.05, ""},
		"in the corner":     {0.02, 0.92, 3.05, "no wall along it"},
		"beyond the end":    {3.60, 4.50, 3.05, "does not lie beside it"},
		"before the tub":    {1.20, 2.10, 3.05, "bath stands before it"},
		"too near the door": {1.75, 2.65, 3.05, "m from d"},
		"inside a room":     {0.12, 1.02, 2.80, "stands in a"},
		"too wide":          {0.12, 1.12, 3.05, "1.000 m wide"},
	} {
		at := plan.Door{ID: "new", Line: geom.Segment{A: geom.FromMetres(tt.x0, tt.y), B: geom.FromMetres(tt.x1, tt.y)}, OpensInto: "a"}
		s := &plan.Scheme{Building: b, Passages: []plan.Passage{{
			Between: [2]string{b.Cells[a].ID, b.Cells[c].ID}, Type: "door", State: plan.New, Line: at.Line, Door: &at,
		}}}
		for _, f := range b.House.Fixtures {
			s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, State: plan.Kept})
		}
		faults := checkDoors(s).faults
		if tt.want == "" {
			assert.Empty(t, faults, name)
		} else {
			assert.Contains(t, strings.Join(faults, "\n"), tt.want, name)
		}
	}
}

// The same of houses drawn at random.
func TestNewDoorsOfGeneratedHousesStandInClearWalls(t *testing.T) {
	doors := 0
	for seed := range seeds(t, 30, 40) {
		h := housetest.Divisible(housetest.Small(seed))
		a := split(t, build(t, h), housetest.Demands(h, seed, false))
		for _, scheme := range a.Schemes {
			k := checkDoors(scheme)
			assert.Empty(t, k.faults, "house %d, scheme %s", seed, scheme.ID)
			doors += len(newDoors(scheme))
			if len(k.tight) > 0 {
				t.Log("house", seed, k.tight)
			}
		}
	}
	assert.Greater(t, doors, 5)
}
