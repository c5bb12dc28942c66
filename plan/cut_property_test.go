package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// dividable is the samples, the duplex and houses made up, all with what is
// divisible by default.
func dividable(t testing.TB) map[string]*plan.House {
	houses := map[string]*plan.House{}
	for name, h := range corpus(t) {
		houses[name] = housetest.Divisible(h)
	}
	for _, seed := range []uint64{3, 8, 21, 34} {
		h := housetest.Divisible(housetest.Small(seed))
		houses[h.Name] = h
	}
	return houses
}

// nearest finds among the lines of a space the one whose points lie nearest to
// those given, in either sense, and how far the farthest of them lies.
func nearest(cuts []plan.Cut, space string, line []geom.Pt) (found plan.Cut, off float64) {
	off = math.Inf(1)
	for _, c := range cuts {
		if c.Space != space || len(c.Line) != len(line) {
			continue
		}
		for range 2 {
			most := 0.0
			for i, p := range c.Line {
				most = max(most, p.Distance(line[i]))
			}
			if most < off {
				found, off = c, most
			}
			line = slices.Clone(line)
			slices.Reverse(line)
		}
	}
	return found, off
}

// However a house is turned, mirrored, moved, given in feet or in another
// order, the same lines come out, to the millimetre.
func TestCutsTurnWithTheHouse(t *testing.T) {
	houses := dividable(t)
	var names []string
	want := map[string][]plan.Cut{}
	for name, h := range houses {
		names = append(names, name)
		want[name] = build(t, h).Cuts(newWall)
	}
	slices.Sort(names)
	checkTimes(t, 30, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "house")
		angle := rapid.Float64Range(-360, 360).Draw(t, "angle")
		mirrored := rapid.Bool().Draw(t, "mirrored")
		move := geom.FromMetres(rapid.Float64Range(-2000, 2000).Draw(t, "dx"), rapid.Float64Range(-2000, 2000).Draw(t, "dy"))
		sin, cos := math.Sincos(angle / 180 * math.Pi)
		to := func(p geom.Pt) geom.Pt {
			x, y := p.Metres()
			if mirrored {
				x = -x
			}
			return geom.FromMetres(x*cos-y*sin, x*sin+y*cos).Add(move)
		}
		h := housetest.Placed(housetest.Shuffled(houses[name], rapid.Uint64().Draw(t, "order")), to)
		if rapid.Bool().Draw(t, "feet") {
			h = housetest.InFeet(h)
		}
		b, err := plan.Build(h)
		require.NoError(t, err)
		got := b.Cuts(newWall)
		require.Len(t, got, len(want[name]))
		for _, c := range want[name] {
			line := make([]geom.Pt, len(c.Line))
			for i, p := range c.Line {
				line[i] = to(p)
			}
			same, off := nearest(got, c.Space, line)
			require.LessOrEqual(t, off, 0.001, "%s: %s", c.Space, c.Why)
			require.Equal(t, c.Why, same.Why)
			require.InDelta(t, c.LengthM, same.LengthM, 0.001)
		}
	})
}

// The pieces of a space tile it: their areas add up, everything that belonged
// to the space belongs to one of them, each is reached, and the house does not
// fall into too many.
func TestPiecesTileTheSpace(t *testing.T) {
	for name, h := range dividable(t) {
		b := build(t, h)
		cuts := b.Cuts(newWall)
		divided, err := plan.Divide(h, cuts)
		require.NoError(t, err, name)
		d := build(t, divided)
		assert.LessOrEqual(t, len(d.Cells), max(64, len(b.Cells)+12), "%s: cells", name)
		area := map[string]float64{}
		pieces := map[string]int{}
		for c, cell := range d.Cells {
			area[cell.Of] += cell.AreaM2
			pieces[cell.Of]++
			assert.Equal(t, b.Reached()[find(b, cell.Of)], d.Reached()[c], "%s: %s", name, cell.ID)
		}
		for _, cell := range b.Cells {
			assert.InDelta(t, cell.AreaM2, area[cell.ID], 0.002, "%s: %s", name, cell.ID)
		}
		for _, c := range cuts {
			assert.GreaterOrEqual(t, pieces[c.Space], 2, "%s: %s", name, c.Space)
		}
		for i := range h.Fixtures {
			assert.Equal(t, idOf(b, b.FixtureCell[i]), ofCell(d, d.FixtureCell[i]), "%s: %s", name, h.Fixtures[i].ID)
		}
		for i := range h.Windows {
			for side := range 2 {
				assert.Equal(t, idOf(b, b.WindowCells[i][side]), ofCell(d, d.WindowCells[i][side]), "%s: %s", name, h.Windows[i].ID)
			}
		}
		before := map[string][2]string{}
		for _, l := range b.Links {
			if l.Kind == plan.LinkDoor || l.Kind == plan.LinkOpening || l.Kind == plan.LinkStair {
				before[l.ID] = [2]string{idOf(b, l.U), idOf(b, l.V)}
			}
		}
		for _, l := range d.Links {
			switch {
			case l.Kind == plan.LinkDoor || l.Kind == plan.LinkOpening:
				assert.ElementsMatch(t, before[l.ID], []string{ofCell(d, l.U), ofCell(d, l.V)}, "%s: %s", name, l.ID)
			case l.V != plan.Outside && d.Cells[l.U].Of == d.Cells[l.V].Of && l.Kind != plan.LinkFloor:
				assert.Contains(t, []plan.LinkKind{plan.LinkOpen, plan.LinkWall}, l.Kind, "%s: %s", name, l.ID)
			}
		}
	}
}

func find(b *plan.Building, id string) int {
	return slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == id })
}

// ofCell is the id of the space that a cell is or is a piece of.
func ofCell(b *plan.Building, c int) string {
	if c == plan.Outside {
		return idOf(b, c)
	}
	return b.Cells[c].Of
}

// raster is a space seen as points a few centimetres apart: an independent way
// to find out where a person of some width gets.
type raster struct {
	region geom.Region
	walls  []geom.Segment // middle lines of new walls
	half   float64        // of a new wall's thickness
	radius float64        // of the person
	seen   map[[2]int]int
}

const rasterStep = 0.04

func (r *raster) free(at [2]int) bool {
	p := geom.FromMetres(float64(at[0])*rasterStep, float64(at[1])*rasterStep)
	if r.region.Contains(p) != geom.Inside || r.region.DistanceToBorder(p) < r.radius {
		return false
	}
	return !slices.ContainsFunc(r.walls, func(w geom.Segment) bool { return w.DistanceTo(p) < r.radius+r.half })
}

// fill numbers the part in which a person who stands at most a step from a
// place gets about; 0 where nobody can stand there.
func (r *raster) fill(p geom.Pt, number int) int {
	x, y := p.Metres()
	cx, cy := int(math.Round(x/rasterStep)), int(math.Round(y/rasterStep))
	reach := int(math.Ceil((r.radius + 0.15) / rasterStep))
	var queue [][2]int
	for dx := -reach; dx <= reach; dx++ {
		for dy := -reach; dy <= reach; dy++ {
			if at := [2]int{cx + dx, cy + dy}; r.free(at) {
				if n := r.seen[at]; n != 0 {
					return n
				}
				queue = append(queue, at)
			}
		}
	}
	if len(queue) == 0 {
		return 0
	}
	queue = queue[:1]
	r.seen[queue[0]] = number
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		for _, d := range [...][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if next := [2]int{at[0] + d[0], at[1] + d[1]}; r.seen[next] == 0 && r.free(next) {
				r.seen[next] = number
				queue = append(queue, next)
			}
		}
	}
	return number
}

// Ways that a person of the clear width can walk between today are still
// joined after a space is divided, if they lie on the same side. Found by
// walking over a raster, which knows nothing of corners and narrow places.
func TestWaysOfOnePieceAreJoined(t *testing.T) {
	for name, h := range dividable(t) {
		b := build(t, h)
		cuts := b.Cuts(newWall)
		divided, err := plan.Divide(h, cuts)
		require.NoError(t, err)
		d := build(t, divided)
		for c, piece := range d.Cells {
			if piece.ID == piece.Of || piece.Outdoor {
				continue
			}
			whole := b.Cells[find(b, piece.Of)].Region
			// The finest person who tells: a step less than the clear width.
			radius := 0.43 - rasterStep
			before := &raster{region: whole, radius: radius, seen: map[[2]int]int{}}
			after := &raster{region: whole, radius: radius, half: newWall / 2, seen: map[[2]int]int{}}
			for _, cut := range cuts {
				for i := range len(cut.Line) - 1 {
					if cut.Space == piece.Of {
						after.walls = append(after.walls, geom.Segment{A: cut.Line[i], B: cut.Line[i+1]})
					}
				}
			}
			var was, is []int
			n := 0
			for _, l := range d.Links {
				if !l.Passage() || l.Kind == plan.LinkOpen || l.U != c && l.V != c {
					continue
				}
				n++
				at := standing(piece.Region, l.Line)
				was, is = append(was, before.fill(at, n)), append(is, after.fill(at, n))
			}
			for i := range is {
				for j := range i {
					if was[i] != 0 && was[i] == was[j] {
						assert.NotZero(t, is[i], "%s: %s", name, piece.ID)
						assert.Equal(t, is[i], is[j], "%s: %s", name, piece.ID)
					}
				}
			}
		}
	}
}

// standing is a place half a step inside a room before an opening in its border.
func standing(region geom.Region, line geom.Segment) geom.Pt {
	at := line.Mid()
	best := math.Inf(1)
	for _, e := range region.Edges() {
		if d := e.DistanceTo(line.Mid()); d < best-1e-3 {
			best, at = d, e.Beside(min(max(e.Along(line.Mid()), 0), e.Length()), 0.40)
		}
	}
	return at
}
