package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// tallPair is two houses of two storeys side by side, each the other's mirror
// image, as A has it:
//
//	7 +----+--------+     main: hall, living room with kitchen (a-living),
//	  |hall| bath   |     bathroom; upper: landing and bedroom (a-bed), the
//	  | +--+--------+     whole depth. The flight goes up northwards in the
//	  | |/\| living |     hall from y = 1.5 to 4.74: 13 risers of 0.20 m,
//	  | +--+        |     12 goings of 0.27 m, 0.9 m wide.
//	0 +-d--+--------+
//	  0  1.2 2.1    5
func tallPair() *housetest.Draft {
	d := housetest.New("tall pair").Level("main", 0, 2.4).Level("upper", 2.6, 2.4)
	for _, side := range []struct {
		name string
		x    func(float64) float64
	}{{"a", func(x float64) float64 { return x }}, {"b", func(x float64) float64 { return 10.2 - x }}} {
		x := side.x
		hall := []float64{x(0), 0, x(2.1), 0, x(2.1), 1.5, x(1.2), 1.5, x(1.2), 4.74, x(2.1), 4.74, x(2.1), 7, x(0), 7}
		d.Room(side.name+"-hall", plan.Hall, "main", hall...)
		d.Room(side.name+"-living", plan.Living, "main", x(2.2), 0, x(5), 4).Also(plan.Kitchen)
		d.Room(side.name+"-bath", plan.Bathroom, "main", x(2.2), 4.1, x(5), 7)
		d.Room(side.name+"-landing", plan.Hall, "upper", hall...)
		d.Room(side.name+"-bed", plan.Bedroom, "upper", x(2.2), 0, x(5), 7)
		d.Flight(side.name+"-stair", "main", "upper", "n", x(1.2), 1.5, x(2.1), 4.74)
		d.Door(side.name+"-front", "main", x(0.15), -0.1, x(1.05), -0.1)
		d.Door(side.name+"-living-door", "main", x(2.15), 0.35, x(2.15), 1.2)
		d.Door(side.name+"-bath-door", "main", x(2.15), 5, x(2.15), 5.8)
		d.Door(side.name+"-bed-door", "upper", x(2.15), 5.2, x(2.15), 6.02)
		d.Window(side.name+"-window", "upper", 0.9, 1.2, x(3), 7.1, x(4.2), 7.1)
		d.Fixture(side.name+"-washer", "washer", "main", x(4.6), 6.6)
	}
	h := d.House()
	for i := range h.Stairs {
		h.Stairs[i].Risers, h.Stairs[i].Width = 13, 0.9
	}
	return d
}

// tallPairWith is the tall pair with some of its flights changed.
func tallPairWith(change func(s *plan.Stair)) *plan.House {
	h := tallPair().House()
	h.Stairs = slices.Clone(h.Stairs)
	for i := range h.Stairs {
		h.Stairs[i].Risers, h.Stairs[i].Width = 13, 0.9
		if change != nil {
			change(&h.Stairs[i])
		}
	}
	return h
}

func travel(t testing.TB, s *plan.Scheme, from string, to plan.TravelEnd) plan.Travel {
	t.Helper()
	for _, w := range plan.Travels(s) {
		if w.From == from && w.To == to {
			return w
		}
	}
	t.Fatalf("no way from %s to %s", from, to)
	return plan.Travel{}
}

// The flight rises 2.6 m over 3.24 m: sqrt(2.6^2 + 3.24^2) = 4.154 m walked.
// From its foot, at (1.65, 1.5), the front door's middle at (0.6, -0.1) is in
// sight: somebody half a metre wide steps 0.25 m and the floor's tolerance out
// of the flight, and into the doorway likewise.
func TestAWayDownAFlightIsAsLongAsItsSlope(t *testing.T) {
	s := schemeOf(t, tallPairWith(nil), plan.DefaultBrief())
	w := travel(t, s, "a-bed", plan.ToOutside)
	assert.Equal(t, "a-front", w.Door)
	assert.Equal(t, []string{"a-bed", "a-landing", "a-stair", "a-hall"}, w.Through)
	require.Len(t, w.Legs, 3)
	assert.Equal(t, "a-stair", w.Legs[1].Flight)
	assert.InDelta(t, 4.154, w.Legs[1].LengthM, 0.001)
	// 0.26 m straight down from (1.65, 1.5), straight on to 0.26 m before the
	// door's wall, 0.1 m thick or so, and on to its middle.
	straight := math.Hypot(1.65-0.6, 1.5-0.26-0.26)
	assert.InDelta(t, 0.26+straight+0.26+0.1, w.Legs[2].LengthM, 0.15)
	sum := 0.0
	for _, l := range w.Legs {
		sum += l.LengthM
	}
	assert.InDelta(t, w.LengthM, sum, 1e-6)
	mirror := travel(t, s, "b-bed", plan.ToOutside)
	assert.InDelta(t, w.LengthM, mirror.LengthM, 0.03, "the mirror image is as far")
}

// Ways on one level agree with a search over a grid of places half a body's
// width from what stands around, doors being gaps in the walls.
func TestWaysOfTheSamplesAgreeWithAGridSearch(t *testing.T) {
	tried := 0
	eachSample(t, func(t *testing.T, sample sample) {
		a := splitBuilding(t, sample)
		s := a.Schemes[0]
		for _, w := range plan.Travels(s) {
			if w.To != plan.ToOutside || slices.ContainsFunc(w.Legs, func(l plan.TravelLeg) bool { return l.Flight != "" }) {
				continue
			}
			from := w.Legs[0].Points[0]
			last := w.Legs[len(w.Legs)-1].Points
			grid, ok := gridTravel(s, w.Unit, w.Legs[0].Level, from, last[len(last)-1])
			if !ok {
				continue // through a gap that the grid's squares do not fit
			}
			tried++
			// The grid walks in 16 directions (at most 2.7 % longer) and its places
			// stand up to a square nearer or farther; the door's middle is a detour
			// of a few centimetres for those who cut corners.
			assert.InDelta(t, grid, w.LengthM, 0.03*grid+0.25*float64(len(w.Legs))+0.1, "%s from %s: %v %v", w.Unit, w.From, w.Through, w.Legs)
		}
	})
	assert.Greater(t, tried, 8)
}

// gridTravel is the length of the shortest way over places 5 cm apart.
func gridTravel(s *plan.Scheme, unit string, level int, from, to geom.Pt) (float64, bool) {
	const step, half = 0.05, 0.245
	type box struct{ line geom.Segment }
	var rooms []geom.Region
	for c, cell := range s.Building.Cells {
		if cell.Level == level && !cell.Outdoor && !cell.Flight && (s.Owners[c].String() == unit || s.Owners[c] == plan.Common) {
			rooms = append(rooms, cell.Region)
		}
	}
	var walls []geom.Segment
	var doors []box
	for _, r := range rooms {
		walls = append(walls, r.Edges()...)
	}
	for _, f := range s.Fixtures {
		if f.Footprint != nil && f.Level == level && f.State != plan.Removed {
			walls = append(walls, f.Footprint.Edges()...)
		}
	}
	for _, p := range s.Passages {
		if p.Level == level && p.State != plan.Sealed {
			doors = append(doors, box{p.Line})
			for _, l := range s.Building.Links {
				if p.Type == "open" && l.Kind == plan.LinkOpen && l.Level == level && l.Line == p.Line {
					for _, r := range l.Runs {
						doors = append(doors, box{r})
					}
				}
			}
		}
	}
	// A wall blocks where it is nearer than half, but for what lies within a
	// door's width of a doorway's line and the thickness of a wall.
	clear := func(p geom.Pt) bool {
		in := slices.ContainsFunc(rooms, func(r geom.Region) bool { return r.Contains(p) != geom.Out })
		gate := slices.ContainsFunc(doors, func(d box) bool {
			at := d.line.Along(p)
			return math.Abs(d.line.Off(p)) < 0.3 && at > half && at < d.line.Length()-half
		})
		if gate {
			return true
		}
		return in && !slices.ContainsFunc(walls, func(w geom.Segment) bool {
			if w.DistanceTo(p) >= half {
				return false
			}
			at := w.Nearest(p)
			return !slices.ContainsFunc(doors, func(d box) bool {
				return d.line.DistanceTo(at) < 0.02 && d.line.DistanceTo(w.Mid()) < 0.02
			})
		})
	}
	bounds := geom.Ring{from, to}.Bounds()
	for _, r := range rooms {
		bounds = bounds.Join(r.Bounds())
	}
	nx := int(geom.Metres(bounds.Max.X-bounds.Min.X)/step) + 2
	ny := int(geom.Metres(bounds.Max.Y-bounds.Min.Y)/step) + 2
	at := func(i int) geom.Pt { return bounds.Min.Add(geom.FromMetres(float64(i%nx)*step, float64(i/nx)*step)) }
	free := make([]bool, nx*ny)
	start, end := -1, -1
	for i := range free {
		free[i] = clear(at(i))
		if free[i] && (start < 0 || at(i).Distance(from) < at(start).Distance(from)) {
			start = i
		}
		if free[i] && (end < 0 || at(i).Distance(to) < at(end).Distance(to)) {
			end = i
		}
	}
	if start < 0 || end < 0 {
		return 0, false
	}
	moves := [][2]int{{1, 0}, {0, 1}, {1, 1}, {1, -1}, {1, 2}, {2, 1}, {1, -2}, {2, -1}}
	length := make([]float64, len(free))
	for i := range length {
		length[i] = math.Inf(1)
	}
	length[start] = 0
	for queue := []int{start}; len(queue) > 0; queue = queue[1:] { // Bellman-Ford with a queue
		i := queue[0]
		for _, m := range moves {
			for _, sign := range []int{1, -1} {
				x, y := i%nx+sign*m[0], i/nx+sign*m[1]
				if x < 0 || y < 0 || x >= nx || y >= ny || !free[y*nx+x] {
					continue
				}
				if d := length[i] + step*math.Hypot(float64(m[0]), float64(m[1])); d < length[y*nx+x]-1e-9 {
					length[y*nx+x] = d
					queue = append(queue, y*nx+x)
				}
			}
		}
	}
	return length[end] + at(start).Distance(from) + at(end).Distance(to), !math.IsInf(length[end], 1)
}

// splitBuilding gives the best scheme of a sample.
func splitBuilding(t testing.TB, s sample) *plan.Answer {
	t.Helper()
	brief := *s.brief
	brief.Schemes = 1
	a := split(t, s.building, &brief)
	require.NotEmpty(t, a.Schemes)
	return a
}
