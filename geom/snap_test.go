package geom_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

func TestSnapBringsNeighboursTogether(t *testing.T) {
	for _, c := range []struct {
		name       string
		give, want []geom.Region
	}{
		{"rooms apart stay as they are",
			[]geom.Region{rect(0, 0, 4, 3), rect(4.1, 0, 8, 3)},
			[]geom.Region{rect(0, 0, 4, 3), rect(4.1, 0, 8, 3)}},
		{"corners within a centimetre become one",
			[]geom.Region{rect(0, 0, 4, 3), rect(4.006, 0, 8, 3.004)},
			[]geom.Region{rect(0, 0, 4, 3), {Outer: ring(4, 0, 8, 0, 8, 3.004, 4, 3)}}},
		//   +----+
		//   |    |+---+
		//   |    ||   |
		//   |    |+---+
		//   +----+
		{"a side near a longer one is moved onto it, and parts it",
			[]geom.Region{rect(0, 0, 4, 5), rect(4.008, 1, 8, 4)},
			[]geom.Region{{Outer: ring(0, 0, 4, 0, 4, 1, 4, 4, 4, 5, 0, 5)}, rect(4, 1, 8, 4)}},
		{"a side on a longer one parts it",
			[]geom.Region{rect(0, 0, 4, 5), rect(4, 1, 8, 4)},
			[]geom.Region{{Outer: ring(0, 0, 4, 0, 4, 1, 4, 4, 4, 5, 0, 5)}, rect(4, 1, 8, 4)}},
		{"what lies farther off than the tolerance stays",
			[]geom.Region{rect(0, 0, 4, 5), rect(4.012, 1, 8, 4)},
			[]geom.Region{rect(0, 0, 4, 5), rect(4.012, 1, 8, 4)}},
		{"a region thinner than the tolerance keeps its corners",
			[]geom.Region{rect(0, 0, 4, 0.004), rect(0, 2, 4, 3)},
			[]geom.Region{rect(0, 0, 4, 0.004), rect(0, 2, 4, 3)}},
	} {
		assert.Equal(t, c.want, geom.Snap(c.give, geom.Coincide), c.name)
	}
}

// A room in the hole of another is snapped to the hole.
func TestSnapIntoAHole(t *testing.T) {
	around := geom.Wound(geom.Region{Outer: ring(0, 0, 9, 0, 9, 9, 0, 9), Holes: []geom.Ring{ring(3, 3, 3, 6, 6, 6, 6, 3)}})
	got := geom.Snap([]geom.Region{around, rect(3.005, 3.002, 5.996, 5.999)}, geom.Coincide)
	assert.ElementsMatch(t, got[0].Holes[0], got[1].Outer, "they have the same corners")
	assert.Equal(t, around.Outer, got[0].Outer)
}

// The plan of a house measured with an error of up to 3 mm in every corner is
// sound after snapping, no corner has moved by more than the tolerance allows,
// and rooms that touch share every corner along their common side: nothing is
// left of the overlaps and slits between them.
func TestSnapMendsAnUnsteadyTape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 23))
		m := motion{degrees: rapid.Float64Range(0, 360).Draw(t, "degrees")}
		//  +-----+----+
		//  |  0  | 1  |
		//  +---+-+----+
		//  | 2 |  3   |
		//  +---+------+
		plan := []geom.Region{rect(0, 3, 4, 6), rect(4, 3, 7, 6), rect(0, 0, 3, 3), rect(3, 0, 7, 3)}
		var unsteady []geom.Region
		for _, r := range plan {
			r = m.region(r)
			for i := range r.Outer {
				r.Outer[i] = r.Outer[i].Add(geom.FromMetres(0.003*(2*rnd.Float64()-1)/1.5, 0.003*(2*rnd.Float64()-1)/1.5))
			}
			unsteady = append(unsteady, r)
		}
		got := geom.Snap(unsteady, geom.Coincide)
		var sum float64
		for i, r := range got {
			require.Empty(t, geom.Breaches(r.Rings()))
			require.InDelta(t, plan[i].AreaM2(), r.AreaM2(), 0.06)
			sum += r.AreaM2()
			for _, p := range r.Outer {
				require.LessOrEqual(t, unsteady[i].DistanceToBorder(p), 2*geom.Coincide)
			}
		}
		union, err := geom.Union(got)
		require.NoError(t, err)
		require.Len(t, union, 1)
		require.Empty(t, union[0].Holes)
		require.InDelta(t, sum, union.AreaM2(), 0.001, "no overlap")
		open := 0
		for _, w := range inner(geom.Walls(storeys(got...), 0.25)) {
			require.True(t, w.Open)
			open++
		}
		require.Equal(t, 5, open)
	})
}

func TestSnapLeavesEveryRegionSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 29))
		var regions []geom.Region
		for range 12 { // shapes with much detail below the tolerance
			r := geom.Ring{}
			x, y := rnd.Int64N(8000), rnd.Int64N(8000)
			for range 3 + rnd.IntN(5) {
				r = append(r, geom.Pt{X: x + rnd.Int64N(4000), Y: y + rnd.Int64N(4000)})
			}
			if len(r.RepeatedCorners()) == 0 && len(geom.Breaches([]geom.Ring{r})) == 0 {
				regions = append(regions, geom.Wound(geom.Region{Outer: r}))
			}
		}
		for _, r := range geom.Snap(regions, geom.Coincide) {
			require.Empty(t, geom.Breaches(r.Rings()))
			require.True(t, r.Outer.CounterClockwise())
		}
	})
}
