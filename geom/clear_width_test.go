package geom_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

func stretch(x0, y0, x1, y1 float64) geom.Segment {
	return geom.Segment{A: geom.FromMetres(x0, y0), B: geom.FromMetres(x1, y1)}
}

func TestClearWidthByHand(t *testing.T) {
	hall := rect(0, 0, 5, 1)
	angled := geom.Region{Outer: ring(0, 0, 4, 0, 4, 3, 2.8, 3, 2.8, 0.9, 0, 0.9)}
	chimney := geom.Region{Outer: ring(0, 0, 2, 0, 2, 0.3, 2.5, 0.3, 2.5, 0, 5, 0, 5, 1.1, 0, 1.1)}
	pillar := geom.Wound(geom.Region{Outer: ring(0, 0, 6, 0, 6, 3, 0, 3), Holes: []geom.Ring{ring(2, 1, 3, 1, 3, 1.8, 2, 1.8)}})
	pair := geom.Wound(geom.Region{Outer: ring(0, 0, 6, 0, 6, 3, 0, 3), Holes: []geom.Ring{
		ring(2, 0.4, 3, 0.4, 3, 1, 2, 1), ring(2.5, 1.7, 3.5, 1.7, 3.5, 2.2, 2.5, 2.2)}})
	around := geom.Wound(geom.Region{Outer: ring(0, 0, 4, 0, 4, 6, 0, 6), Holes: []geom.Ring{ring(1.3, 1, 3.2, 1, 3.2, 5, 1.3, 5)}})
	for _, test := range []struct {
		name     string
		region   geom.Region
		from, to geom.Segment
		want     float64
	}{
		{"a straight hall", hall, stretch(0, 0.1, 0, 0.9), stretch(5, 0.1, 5, 0.9), 1},
		{"its doors in one long side", hall, stretch(0.2, 0, 1, 0), stretch(4, 0, 4.8, 0), 1},
		{"its doors across from each other", hall, stretch(2, 0, 2.8, 0), stretch(2, 1, 2.8, 1), math.Inf(1)},
		{"a hall open across its whole end", hall, stretch(0, 0, 0, 1), stretch(5, 0.1, 5, 0.9), 1},
		{"around a corner, the narrower arm", angled, stretch(0, 0.1, 0, 0.8), stretch(2.9, 3, 3.7, 3), 0.9},
		{"past a chimney breast", chimney, stretch(0, 0.1, 0, 0.9), stretch(5, 0.1, 5, 0.9), 0.8},
		{"not as far as the chimney breast", chimney, stretch(0, 0.1, 0, 0.9), stretch(0.5, 1.1, 1.3, 1.1), math.Inf(1)},
		// Past a pillar that leaves 1.0 m below and 1.2 m above: the wider side.
		{"past a pillar", pillar, stretch(0, 1, 0, 2), stretch(6, 1, 6, 2), 1.2},
		// 0.4 m below both, 0.8 m above both, between them 0.7 m: above.
		{"between two pillars", pair, stretch(0, 1, 0, 2), stretch(6, 1, 6, 2), 0.8},
		// A flight in the middle of a hall, its foot at its south end: from the
		// door in the east, 0.8 m beside the flight or 1.3 m around the west of it.
		{"to the flight in the middle of a hall", around, stretch(4, 4, 4, 5.8), stretch(1.3, 1, 3.2, 1), 1},
	} {
		t.Run(test.name, func(t *testing.T) {
			for _, degrees := range []float64{0, 90, 37} {
				for _, mirror := range []bool{false, true} {
					m := motion{degrees: degrees, mirror: mirror, x: 11}
					move := func(s geom.Segment) geom.Segment { return geom.Segment{A: m.pt(s.A), B: m.pt(s.B)} }
					width, at, ok := geom.ClearWidth(m.region(test.region), move(test.from), move(test.to))
					if math.IsInf(test.want, 1) {
						assert.False(t, ok && width < 1, "nothing narrows the way: %v", width)
						continue
					}
					require.True(t, ok)
					assert.InDelta(t, test.want, width, 0.00003)
					assert.InDelta(t, width, at.Length(), 1e-9)
				}
			}
		})
	}
}

// A disc of the clear width less a little gets through, one of the clear width
// and a little does not: a search over a grid of places for its middle, with
// the openings prolonged outwards as lobbies, so that they narrow nothing.
func TestClearWidthsAgreeWithAGridSearch(t *testing.T) {
	tried := 0
	for seed := uint64(0); tried < 20; seed++ {
		rnd := rand.New(rand.NewPCG(seed, 5))
		r := randomFloor(rnd)
		edges := r.Outer.Edges()
		from, to := edges[rnd.IntN(len(edges))], edges[rnd.IntN(len(edges))]
		if from == to || from.Length() < 0.8 || to.Length() < 0.8 {
			continue
		}
		shrink := func(s geom.Segment) geom.Segment { return geom.Segment{A: s.At(0.1), B: s.At(s.Length() - 0.1)} }
		from, to = shrink(from), shrink(to)
		width, _, ok := geom.ClearWidth(r, from, to)
		if !ok || width > min(from.Length(), to.Length())-0.1 {
			continue
		}
		tried++
		const step = 0.025
		start, end := from.Beside(from.Length()/2, width/2), to.Beside(to.Length()/2, width/2)
		_, narrower := gridPasses(r, from, to, start, end, width/2-step, step)
		_, wider := gridPasses(r, from, to, start, end, width/2+step, step)
		what := fmt.Sprintf("seed %d: %.3f m", seed, width)
		assert.True(t, narrower, "%s: a smaller disc passes", what)
		assert.False(t, wider, "%s: a larger disc does not", what)
	}
}

// gridPasses floods the places that a disc's middle can be in, walls being all
// of the border but the openings.
func gridPasses(r geom.Region, from, to geom.Segment, start, end geom.Pt, radius, step float64) (int, bool) {
	var walls []geom.Segment
	for _, e := range r.Edges() {
		switch {
		case e.DistanceTo(from.Mid()) < 1e-4:
			walls = append(walls, geom.Segment{A: e.A, B: from.A}, geom.Segment{A: from.B, B: e.B})
		case e.DistanceTo(to.Mid()) < 1e-4:
			walls = append(walls, geom.Segment{A: e.A, B: to.A}, geom.Segment{A: to.B, B: e.B})
		default:
			walls = append(walls, e)
		}
	}
	b := r.Bounds()
	nx, ny := int(geom.Metres(b.Max.X-b.Min.X)/step)+1, int(geom.Metres(b.Max.Y-b.Min.Y)/step)+1
	free := func(i int) bool {
		p := b.Min.Add(geom.FromMetres((float64(i%nx)+0.5)*step, (float64(i/nx)+0.5)*step))
		if r.Contains(p) != geom.Inside {
			return false
		}
		for _, w := range walls {
			// What lies beyond an opening is the lobby's.
			line := geom.Segment{A: p, B: w.Nearest(p)}
			if w.DistanceTo(p) < radius && geom.Meet(line, from) != geom.Crossed && geom.Meet(line, to) != geom.Crossed {
				return false
			}
		}
		return true
	}
	index := func(p geom.Pt) int {
		d := p.Sub(b.Min)
		return int(geom.Metres(d.Y)/step)*nx + int(geom.Metres(d.X)/step)
	}
	seen := make([]bool, nx*ny)
	queue := []int{}
	for i := range seen {
		p := b.Min.Add(geom.FromMetres((float64(i%nx)+0.5)*step, (float64(i/nx)+0.5)*step))
		if p.Distance(start) < 2*step || from.DistanceTo(p) < 1.5*step {
			if free(i) {
				seen[i] = true
				queue = append(queue, i)
			}
		}
	}
	for n := 0; n < len(queue); n++ {
		i := queue[n]
		p := b.Min.Add(geom.FromMetres((float64(i%nx)+0.5)*step, (float64(i/nx)+0.5)*step))
		if to.DistanceTo(p) < 1.5*step || i == index(end) {
			return len(queue), true
		}
		for _, d := range []int{-1, 1, -nx, nx} {
			j := i + d
			if j >= 0 && j < len(seen) && !seen[j] && math.Abs(float64(j%nx-i%nx)) <= 1 && free(j) {
				seen[j] = true
				queue = append(queue, j)
			}
		}
	}
	return len(queue), false
}
