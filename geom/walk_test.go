package geom_test

import (
	"container/heap"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// gridWalk is an independent search: Dijkstra over the squares of a grid whose
// middles keep half from the border, with steps to the 32 places of a 5 x 5
// and a knight's neighbourhood. A way on it is never shorter than the
// shortest, and longer by no more than about 3 % and a few squares.
func gridWalk(r geom.Region, from, to geom.Pt, half, step float64) (float64, bool) {
	b := r.Bounds()
	nx, ny := int(geom.Metres(b.Max.X-b.Min.X)/step)+1, int(geom.Metres(b.Max.Y-b.Min.Y)/step)+1
	at := func(i int) geom.Pt {
		return b.Min.Add(geom.FromMetres((float64(i%nx)+0.5)*step, (float64(i/nx)+0.5)*step))
	}
	clear := func(p geom.Pt) bool {
		return r.Contains(p) == geom.Inside && r.DistanceToBorder(p) >= half
	}
	free := make([]bool, nx*ny)
	for i := range free {
		free[i] = clear(at(i))
	}
	nearest := func(p geom.Pt) int {
		best := -1
		for i := range free {
			if free[i] && (best < 0 || at(i).Distance(p) < at(best).Distance(p)) {
				best = i
			}
		}
		return best
	}
	start, end := nearest(from), nearest(to)
	if start < 0 || end < 0 {
		return 0, false
	}
	length := make([]float64, len(free))
	for i := range length {
		length[i] = math.Inf(1)
	}
	length[start] = 0
	q := &gridQueue{{start, 0}}
	for q.Len() > 0 {
		s := heap.Pop(q).(gridStep)
		if s.length > length[s.at] {
			continue
		}
		if s.at == end {
			return s.length + at(start).Distance(from) + at(end).Distance(to), true
		}
		x, y := s.at%nx, s.at/nx
		for dx := -3; dx <= 3; dx++ {
			for dy := -3; dy <= 3; dy++ {
				if gcd(dx, dy) != 1 || x+dx < 0 || x+dx >= nx || y+dy < 0 || y+dy >= ny {
					continue
				}
				n := (y+dy)*nx + x + dx
				if !free[n] || !clear(geom.Segment{A: at(s.at), B: at(n)}.Mid()) ||
					!clear(geom.Segment{A: at(s.at), B: geom.Segment{A: at(s.at), B: at(n)}.Mid()}.Mid()) {
					continue
				}
				if d := s.length + step*math.Hypot(float64(dx), float64(dy)); d < length[n] {
					length[n] = d
					heap.Push(q, gridStep{n, d})
				}
			}
		}
	}
	return 0, false
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

type gridStep struct {
	at     int
	length float64
}
type gridQueue []gridStep

func (q gridQueue) Len() int           { return len(q) }
func (q gridQueue) Less(i, j int) bool { return q[i].length < q[j].length }
func (q gridQueue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *gridQueue) Push(v any)        { *q = append(*q, v.(gridStep)) }
func (q *gridQueue) Pop() any {
	v := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return v
}

// The ways around one corner and around a pillar, by Pythagoras.
//
//	+-----+            an L of two arms 2 m wide and 6 m long
//	|     |
//	|     +--------+
//	|              |
//	+--------------+
func TestShortestWayByHand(t *testing.T) {
	l := geom.Region{Outer: ring(0, 0, 6, 0, 6, 2, 2, 2, 2, 6, 0, 6)}
	pillar := geom.Wound(geom.Region{Outer: ring(0, 0, 6, 0, 6, 6, 0, 6), Holes: []geom.Ring{ring(2, 2, 4, 2, 4, 4, 2, 4)}})
	for _, test := range []struct {
		name           string
		floor          geom.Region
		x0, y0, x1, y1 float64
		half           float64
		want           float64
	}{
		{"along a wall", l, 0, 0, 6, 0, 0, 6},
		{"around the corner at (2, 2)", l, 6, 1, 1, 6, 0, 2 * math.Hypot(4, 1)},
		{"in sight past the corner", l, 3, 1, 1, 3, 0, math.Hypot(2, 2)},
		{"along two walls of the pillar", pillar, 2, 1, 2, 5, 0, 2*1 + 2},
		{"around the pillar's corner", pillar, 1, 2, 3, 1, 0, math.Hypot(2, 1)},
		{"between opposite corners", pillar, 0, 0, 6, 6, 0, 2 * math.Hypot(2, 4)},
		// Half a metre off the walls: the middle lies 0.5 m off the outer walls at
		// the ends, straight ahead to the arc of radius 0.5 m about (2, 2).
		{"around the corner at half a metre", l, 5.5, 1, 1, 5.5, 0.5, 2*math.Sqrt(3.5*3.5+1-0.25) + 0.5*arc(3.5, 1, 0.5)},
	} {
		t.Run(test.name, func(t *testing.T) {
			w := geom.NewWalkway(test.floor, test.half)
			way, length, ok := w.Way(geom.FromMetres(test.x0, test.y0), geom.FromMetres(test.x1, test.y1))
			require.True(t, ok)
			assert.InDelta(t, test.want, length, 0.0001+0.02*test.half)
			sum := 0.0
			for i := 1; i < len(way); i++ {
				sum += way[i-1].Distance(way[i])
			}
			assert.InDelta(t, length, sum, 1e-6, "the points make up the length")
		})
	}
}

// arc is the angle of the arc between the tangents, to a circle of radius r
// about a corner of 90 degrees, from a place along and off one of its walls
// and from that place's mirror image at the other.
func arc(along, off, r float64) float64 {
	return 3*math.Pi/2 - 2*math.Atan2(off, along) - 2*math.Acos(r/math.Hypot(along, off))
}

func TestNoWayThroughAWall(t *testing.T) {
	// Two rooms joined by a gap of 0.5 m: somebody 0.6 m wide does not get through.
	floor := geom.Region{Outer: ring(0, 0, 2, 0, 2, 1, 2.1, 1, 2.1, 0, 4, 0, 4, 3, 2.1, 3, 2.1, 1.5, 2, 1.5, 2, 3, 0, 3)}
	from, to := geom.FromMetres(1, 2), geom.FromMetres(3, 2)
	_, _, ok := geom.NewWalkway(floor, 0.3).Way(from, to)
	assert.False(t, ok)
	_, _, ok = geom.NewWalkway(floor, 0.25).Way(from, to)
	assert.True(t, ok, "somebody 0.5 m wide just does")
}

// randomFloor is a house's rooms thrown together, with pillars.
func randomFloor(rnd *rand.Rand) geom.Region {
	var rooms []geom.Shape
	for range 3 + rnd.IntN(4) {
		x, y := float64(rnd.IntN(60))*0.1, float64(rnd.IntN(40))*0.1
		rooms = append(rooms, geom.Shape{rect(x, y, x+1+float64(rnd.IntN(30))*0.1, y+1+float64(rnd.IntN(30))*0.1)})
	}
	s, err := geom.Union(rooms...)
	if err != nil {
		panic(err)
	}
	for range rnd.IntN(5) {
		x, y := float64(rnd.IntN(80))*0.1, float64(rnd.IntN(60))*0.1
		if d, err := geom.Difference(s, geom.Shape{rect(x, y, x+0.3, y+0.4+float64(rnd.IntN(8))*0.1)}); err == nil && len(d) > 0 {
			s = d
		}
	}
	best := s[0]
	for _, r := range s {
		if r.AreaM2() > best.AreaM2() {
			best = r
		}
	}
	return best
}

func randomPlace(rnd *rand.Rand, r geom.Region) geom.Pt {
	b := r.Bounds()
	for {
		p := geom.Pt{X: b.Min.X + rnd.Int64N(b.Max.X-b.Min.X), Y: b.Min.Y + rnd.Int64N(b.Max.Y-b.Min.Y)}
		if r.Contains(p) == geom.Inside {
			return p
		}
	}
}

func TestWaysAgreeWithAGridSearch(t *testing.T) {
	for seed := range uint64(9) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		r := randomFloor(rnd)
		turned := motion{degrees: rnd.Float64() * 360, x: 3, y: -2}
		from, to := randomPlace(rnd, r), randomPlace(rnd, r)
		// A body that no gap on the 0.1 m grid of walls just fits or just does not.
		half := []float64{0, 0.17, 0.23}[rnd.IntN(3)]
		w := geom.NewWalkway(r, half)
		if _, ok := w.StandAt(from); !ok {
			continue
		}
		if a, _ := w.StandAt(from); a != from && half > 0 {
			from = a
		}
		if a, _ := w.StandAt(to); a != to && half > 0 {
			to = a
		}
		_, length, ok := w.Way(from, to)
		grid, gridOK := gridWalk(r, from, to, half, 0.05)
		what := fmt.Sprintf("seed %d, half %g", seed, half)
		if gridOK {
			require.True(t, ok, what)
			// The grid's middles may stand half a square nearer to the walls' arcs.
			assert.LessOrEqual(t, length, grid+0.03, what)
			assert.GreaterOrEqual(t, length, grid/1.03-0.25, what)
		}
		assert.GreaterOrEqual(t, length, from.Distance(to)-1e-6, what)
		_, back, _ := w.Way(to, from)
		assert.InDelta(t, length, back, 0.011, "%s: as long back", what)
		_, moved, movedOK := geom.NewWalkway(turned.region(r), half).Way(turned.pt(from), turned.pt(to))
		require.Equal(t, ok, movedOK, what)
		assert.InDelta(t, length, moved, 0.011, "%s: as long when turned", what)
	}
}
