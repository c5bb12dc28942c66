package geom_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

func TestOverlays(t *testing.T) {
	// Squares of 1 m; a is what lies left, b what lies right of the bar:
	//
	//	AAA.   .BBB
	//	AAA.   .BBB
	a := geom.Shape{rect(0, 0, 3, 2)}
	b := geom.Shape{rect(1, 0, 4, 2)}
	yard := geom.Shape{geom.Wound(geom.Region{Outer: ring(-5, -5, 9, -5, 9, 9, -5, 9), Holes: []geom.Ring{ring(0, 0, 3, 0, 3, 2, 0, 2)}})}
	must := func(s geom.Shape, err error) geom.Shape {
		require.NoError(t, err)
		return s
	}
	assert.Equal(t, geom.Shape{rect(0, 0, 4, 2)}, must(geom.Union(a, b)))
	assert.Equal(t, geom.Shape{rect(1, 0, 3, 2)}, must(geom.Intersection(a, b)))
	assert.Equal(t, geom.Shape{rect(0, 0, 1, 2)}, must(geom.Difference(a, b)))
	assert.Equal(t, geom.Shape{rect(3, 0, 4, 2)}, must(geom.Difference(b, a)))
	assert.Equal(t, geom.Shape{rect(-5, -5, 9, 9)}, must(geom.Union(yard, a)), "a house fills the hole in its yard")
	assert.Equal(t, yard, must(geom.Difference(must(geom.Union(yard, a)), a)), "and leaves it again")
	assert.Empty(t, must(geom.Intersection(yard, a)), "a common border is no area")
	assert.Empty(t, must(geom.Difference(a, a)))
	assert.Empty(t, must(geom.Union()))
	assert.Empty(t, must(geom.Intersection(a, nil)))
	assert.Equal(t, a, must(geom.Difference(a, nil)))
	assert.Equal(t, geom.Shape{rect(0, 0, 3, 2), rect(5, 0, 6, 2)}, must(geom.Union(geom.Shape{rect(5, 0, 6, 2)}, a)), "apart, in order of place")

	ringed := []geom.Shape{ // four rooms round a court, all over a slab
		{rect(0, 0, 6, 1)}, {rect(0, 5, 6, 6)}, {rect(0, 0, 1, 6)}, {rect(5, 0, 6, 6)}, {rect(-1, -1, 7, 7)},
	}
	assert.Equal(t, geom.Shape{rect(-1, -1, 7, 7)}, must(geom.Union(ringed...)))
	assert.Equal(t, geom.Shape{geom.Wound(geom.Region{Outer: ring(0, 0, 6, 0, 6, 6, 0, 6), Holes: []geom.Ring{ring(1, 1, 1, 5, 5, 5, 5, 1)}})},
		must(geom.Union(ringed[:4]...)))
}

// drawnShape is a union of a few quadrangles; the coarse ones lie on a grid of
// a few units, where crossings round to corners and strips fall together.
func drawnShape(t *rapid.T, name string, spread int64) geom.Shape {
	var parts []geom.Shape
	for range rapid.IntRange(1, 4).Draw(t, name) {
		r := make(geom.Ring, rapid.IntRange(3, 5).Draw(t, "corners"))
		for i := range r {
			r[i] = geom.Pt{X: rapid.Int64Range(0, spread).Draw(t, "x"), Y: rapid.Int64Range(0, spread).Draw(t, "y")}
		}
		if len(geom.Breaches([]geom.Ring{r})) == 0 {
			parts = append(parts, geom.Shape{geom.Wound(geom.Region{Outer: r.WithoutRepeats()})})
		}
	}
	s, err := geom.Union(parts...)
	require.NoError(t, err)
	return s
}

// Whatever two shapes are, what both cover and what only one covers make up
// each, and all results are sound. Corners move by less than a unit, so areas
// agree to a unit along all edges; slivers that are dropped count as edges.
func TestPartsOfAnOverlayAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		spread := rapid.SampledFrom([]int64{2000, 50_000, 500_000, 20_000_000}).Draw(t, "spread")
		a, b := drawnShape(t, "a", spread), drawnShape(t, "b", spread)
		for range 3 {
			union, err := geom.Union(a, b)
			require.NoError(t, err)
			both, err := geom.Intersection(a, b)
			require.NoError(t, err)
			onlyA, err := geom.Difference(a, b)
			require.NoError(t, err)
			onlyB, err := geom.Difference(b, a)
			require.NoError(t, err)
			for _, s := range []geom.Shape{union, both, onlyA, onlyB} {
				requireSoundRapid(t, s)
			}
			tolerance := 0.0006 * (around(a) + around(b))
			require.InDelta(t, a.AreaM2(), both.AreaM2()+onlyA.AreaM2(), tolerance)
			require.InDelta(t, b.AreaM2(), both.AreaM2()+onlyB.AreaM2(), tolerance)
			require.InDelta(t, union.AreaM2(), both.AreaM2()+onlyA.AreaM2()+onlyB.AreaM2(), tolerance)
			a, b = onlyA, drawnShape(t, "next", spread)
		}
	})
}

// around is the length of all edges in metres.
func around(s geom.Shape) float64 {
	var sum float64
	for _, e := range s.Edges() {
		sum += e.Length()
	}
	return sum
}

// On rectangles of a 5 cm grid the overlay is what the raster says, cell by cell.
func TestOverlaysAgreeWithRaster(t *testing.T) {
	draw := func(t *rapid.T, name string) geom.Shape {
		var parts []geom.Shape
		for range rapid.IntRange(1, 5).Draw(t, name) {
			at := func(name string, from, to int) float64 { return 0.05 * float64(rapid.IntRange(from, to).Draw(t, name)) }
			x, y := at("x", 0, 20), at("y", 0, 20)
			parts = append(parts, geom.Shape{rect(x, y, x+at("width", 1, 14), y+at("depth", 1, 14))})
		}
		s, err := geom.Union(parts...)
		require.NoError(t, err)
		white := newGrid(0.05, 0.1, slices.Concat(parts...)...)
		var separate []geom.Region
		for _, p := range parts {
			separate = append(separate, p...)
		}
		require.Equal(t, white.paint(separate...).black, white.paint(s...).black)
		return s
	}
	rapid.Check(t, func(t *rapid.T) {
		a, b := draw(t, "a"), draw(t, "b")
		union, err := geom.Union(a, b)
		require.NoError(t, err)
		both, err := geom.Intersection(a, b)
		require.NoError(t, err)
		less, err := geom.Difference(a, b)
		require.NoError(t, err)
		white := newGrid(0.05, 0.1, append(slices.Clone(a), b...)...)
		inA, inB := white.paint(a...), white.paint(b...)
		require.Equal(t, white.each(func(i int) bool { return inA.black[i] || inB.black[i] }).black, white.paint(union...).black)
		require.Equal(t, white.each(func(i int) bool { return inA.black[i] && inB.black[i] }).black, white.paint(both...).black)
		require.Equal(t, white.each(func(i int) bool { return inA.black[i] && !inB.black[i] }).black, white.paint(less...).black)
	})
}

// Turned plans have edges that coincide only to a unit. Their overlay has no
// sliver along them: it has the corners of the plan before it was turned.
func TestTurnedOverlayHasNoSlivers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := motion{degrees: rapid.Float64Range(0, 360).Draw(t, "degrees"), x: 3}
		rooms := geom.Shape{rect(0, 0, 4, 3), rect(4, 0, 7, 3), rect(0, 3, 7, 5)}
		union, err := geom.Union(m.shape(rooms))
		require.NoError(t, err)
		require.Len(t, union, 1)
		require.Empty(t, union[0].Holes)
		require.InDelta(t, 35, union.AreaM2(), 0.0002)
		less, err := geom.Difference(union, m.shape(rooms[2:]))
		require.NoError(t, err)
		require.Len(t, less, 1)
		require.InDelta(t, 21, less.AreaM2(), 0.0002)
		both, err := geom.Intersection(m.shape(rooms[:1]), m.shape(rooms[1:]))
		require.NoError(t, err)
		require.Empty(t, both, "rooms that touch do not overlap")
	})
}

func TestOrderOfShapesChangesNoUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := motion{degrees: rapid.Float64Range(0, 360).Draw(t, "degrees")}
		var shapes []geom.Shape
		for i := range 6 {
			shapes = append(shapes, geom.Shape{m.region(rect(float64(i), math.Mod(float64(i)*1.7, 3), float64(i)+1.5, 4))})
		}
		want, err := geom.Union(shapes...)
		require.NoError(t, err)
		got, err := geom.Union(rapid.Permutation(shapes).Draw(t, "order")...)
		require.NoError(t, err)
		require.Equal(t, want, got)
	})
}
