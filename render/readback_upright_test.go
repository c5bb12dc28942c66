package render_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// floorMarks are the tips of the filled triangles that mark floors on an
// upright drawing, from the top of the sheet down.
func (p page) floorMarks() []spot {
	var tips []spot
	for i := range p.paths {
		q := &p.paths[i]
		if q.group != "signs" || q.fill != "#000000" || len(q.lines) != 1 || len(q.lines[0].points) != 3 {
			continue
		}
		a, b, c := q.lines[0].points[0], q.lines[0].points[1], q.lines[0].points[2]
		if math.Abs(b.y-c.y) < 0.01 && math.Abs(b.y-a.y-2) < 0.01 && math.Abs(c.x-b.x-2.8) < 0.01 {
			tips = append(tips, a)
		}
	}
	slices.SortStableFunc(tips, func(a, b spot) int { return int(math.Copysign(1, b.y-a.y)) })
	return tips
}

// level tells whether a line of at least some width runs level at a height,
// for a length.
func (p page) level(y, long, width float64) bool {
	for i := range p.paths {
		q := &p.paths[i]
		found := false
		if q.stroke == "" || q.width < width-1e-3 {
			continue
		}
		q.sides(func(a, b spot) {
			found = found || math.Abs(a.y-y) <= tightly && math.Abs(b.y-y) <= tightly && math.Abs(math.Abs(a.x-b.x)-long) <= tightly
		})
		if found {
			return true
		}
	}
	return false
}

// The section has the floor and the ceiling of every room that it runs
// through at their surveyed heights, as long as it runs through the room, and
// every flight in its true rise and run.
func TestTheSectionStandsAtItsHeights(t *testing.T) {
	rooms, flights := 0, 0
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		cut, ok := s.Section()
		if !ok {
			return
		}
		i := slices.IndexFunc(sheets, func(s *render.Sheet) bool { return strings.HasPrefix(s.Title, "Section") })
		require.GreaterOrEqual(t, i, 0)
		sheet := sheets[i]
		p, k := readSheetSVG(t, sheet), 1000/ratioOf(t, sheet.Scale.Text)
		b := s.Building
		var floors []float64
		for _, r := range cut.Rooms {
			if f := b.House.Levels[b.Cells[r.Cell].Level].Floor; !slices.Contains(floors, f) {
				floors = append(floors, f)
			}
		}
		slices.Sort(floors)
		marks := p.floorMarks()
		require.Len(t, marks, len(floors))
		low := marks[len(marks)-1].y
		for n, f := range floors {
			assert.InDelta(t, (f-floors[0])*k, marks[len(marks)-1-n].y-low, tightly, "the mark of a floor")
		}
		for _, r := range cut.Rooms {
			c := &b.Cells[r.Cell]
			rooms++
			// Each room at its own floor and ceiling, as surveyed.
			assert.InDelta(t, c.Floor, r.Floor, 1e-6)
			assert.True(t, p.level(low+(c.Floor-floors[0])*k, (r.To-r.From)*k, 0.5), "the floor of %s", c.ID)
			assert.True(t, p.level(low+(r.Ceiling-floors[0])*k, (r.To-r.From)*k, 0.5), "the ceiling of %s", c.ID)
		}
		for _, f := range cut.Flights {
			flights++
			assert.True(t, p.steps(f, low-floors[0]*k, k), "a flight of %d risers from %.2f to %.2f", f.Risers, f.Low, f.High)
		}
		// A flight that the section runs along rises from level to level.
		for _, f := range cut.Flights {
			known := slices.ContainsFunc(b.House.Stairs, func(st plan.Stair) bool {
				return math.Abs(b.House.Levels[st.Level].Floor-f.Low) < 1e-6 && math.Abs(b.House.Levels[st.To].Floor-f.High) < 1e-6 && st.Risers == f.Risers
			})
			assert.True(t, known)
		}
	})
	assert.Greater(t, rooms, 15)
	assert.Positive(t, flights)
}

// steps finds a flight drawn step by step: as many rises as it has risers, all
// alike, and goings all alike between them, from its foot to its head.
func (p page) steps(f plan.SectionFlight, zero, k float64) bool {
	for i := range p.paths {
		q := &p.paths[i]
		if q.group != "flights" || q.fill == "" || len(q.lines) != 1 {
			continue
		}
		points := q.lines[0].points
		if f.Risers < 2 {
			continue
		}
		rise, going := (f.High-f.Low)/float64(f.Risers)*k, (f.Head-f.Foot)/float64(f.Risers-1)*k
		at, ok := points[0], math.Abs(points[0].y-(zero+f.Low*k)) <= tightly
		n := 1
		for step := 0; step < f.Risers && ok; step++ {
			for _, by := range []spot{{0, rise}, {going, 0}} {
				if by.x != 0 && step == f.Risers-1 {
					break
				}
				at = at.plus(by)
				ok = ok && n < len(points) && points[n].to(at) <= 2*tightly
				n++
			}
		}
		if ok {
			return true
		}
	}
	return f.Risers < 2
}

// Each opening of each side drawn has its surveyed width and height, as high
// above its floor as it was surveyed.
func TestElevationsShowOpeningsAtTheirHeights(t *testing.T) {
	openings := 0
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		sides := s.Elevations()
		for _, sheet := range sheets {
			if !strings.HasPrefix(sheet.Number, "A-2") {
				continue
			}
			p, k := readSheetSVG(t, sheet), 1000/ratioOf(t, sheet.Scale.Text)
			marks := p.floorMarks()
			for len(marks) > 0 && len(sides) > 0 {
				e := sides[0]
				sides = sides[1:]
				require.GreaterOrEqual(t, len(marks), len(e.Storeys))
				var floors []float64
				for _, st := range e.Storeys {
					floors = append(floors, st.Floor)
				}
				slices.Sort(floors)
				slices.Reverse(floors)
				zero := marks[0].y - floors[0]*k // of elevation 0, on the sheet
				for n, f := range floors {
					assert.InDelta(t, zero+f*k, marks[n].y, tightly)
				}
				marks = marks[len(floors):]
				for _, o := range e.Openings {
					openings++
					assert.True(t, p.opening((o.To-o.From)*k, zero+o.Sill*k, zero+o.Head*k), "sheet %s: an opening %.2f wide from %.2f to %.2f", sheet.Number, o.To-o.From, o.Sill, o.Head)
					if o.Window < 0 {
						continue
					}
					w := s.Windows[o.Window]
					assert.InDelta(t, w.Line.Length(), o.To-o.From, 0.01, w.ID)
					assert.InDelta(t, w.Height, o.Head-o.Sill, 1e-6, w.ID)
					assert.InDelta(t, s.Building.House.Levels[w.Level].Floor+w.Sill, o.Sill, 0.5, w.ID) // or from its room's own floor
				}
			}
		}
		assert.Empty(t, sides, "a side that is not drawn")
	})
	assert.Greater(t, openings, 20)
}

// opening finds an upright rectangle of a width between two heights.
func (p page) opening(width, sill, head float64) bool {
	for i := range p.paths {
		q := &p.paths[i]
		if q.group != "openings" || len(q.lines) != 1 || len(q.lines[0].points) != 4 {
			continue
		}
		x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, c := range q.lines[0].points {
			x0, x1, y0, y1 = min(x0, c.x), max(x1, c.x), min(y0, c.y), max(y1, c.y)
		}
		if math.Abs(x1-x0-width) <= tightly && math.Abs(y0-sill) <= tightly && math.Abs(y1-head) <= tightly {
			return true
		}
	}
	return false
}
