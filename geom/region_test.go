package geom_test

import (
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

// A room of 6 by 4 m with a pier of 1 by 1 m.
var withPier = geom.Wound(geom.Region{
	Outer: ring(0, 0, 6, 0, 6, 4, 0, 4),
	Holes: []geom.Ring{ring(2, 1, 3, 1, 3, 2, 2, 2)},
})

func TestAreaIsThatOfTheFloor(t *testing.T) {
	assert.InDelta(t, 23, withPier.AreaM2(), 1e-12)
	assert.InDelta(t, 46, geom.Shape{withPier, withPier}.AreaM2(), 1e-12)
	assert.InDelta(t, 24, withPier.Outer.Reverse().AreaM2(), 1e-12, "whatever the winding")
	assert.Zero(t, geom.Region{}.AreaM2())
	everything := geom.Ring{
		{X: -tenKilometres, Y: -tenKilometres}, {X: tenKilometres, Y: -tenKilometres},
		{X: tenKilometres, Y: tenKilometres}, {X: -tenKilometres, Y: tenKilometres},
	}
	assert.Equal(t, int64(8*tenKilometres)*tenKilometres, everything.Area2(), "exact as far as a survey reaches")
}

func TestContains(t *testing.T) {
	for _, c := range []struct {
		x, y float64
		want geom.Position
	}{
		{1, 1, geom.Inside}, {4, 1, geom.Inside}, {0, 2, geom.Border}, {6, 4, geom.Border}, {3, 0, geom.Border},
		{2.5, 1.5, geom.Out}, {2, 1.5, geom.Border}, {3, 2, geom.Border}, {7, 2, geom.Out}, {-1, 4, geom.Out}, {-1, 0, geom.Out},
	} {
		assert.Equal(t, c.want, withPier.Contains(geom.FromMetres(c.x, c.y)), "%v", c)
	}
	assert.Equal(t, geom.Out, geom.Shape(nil).Contains(geom.Pt{}))
	assert.Equal(t, geom.Inside, geom.Shape{rect(10, 0, 12, 2), withPier}.Contains(geom.FromMetres(1, 1)))
}

func TestInteriorIsOnTheLeftOfEveryEdge(t *testing.T) {
	edges := withPier.Edges()
	require.Len(t, edges, 8)
	for _, e := range edges {
		assert.Equal(t, geom.Inside, withPier.Contains(e.Beside(e.Length()/2, 0.01)), "%v", e)
		assert.Equal(t, geom.Out, withPier.Contains(e.Beside(e.Length()/2, -0.01)), "%v", e)
	}
}

// The reference for areas, centroids and points is orb/planar, which is not
// exact on borders: random points are off them.
func TestMeasuresAgreeWithPlanarLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 5))
		for _, room := range randomHouse(rnd, 9, 8) {
			room = motion{shear: rnd.Float64() - 0.5, degrees: rnd.Float64() * 360, x: rnd.Float64() * 1000}.region(room)
			reference := orb.Polygon{orbRing(room.Outer)}
			centroid, area := planar.CentroidArea(reference)
			require.InDelta(t, area, room.AreaM2(), 1e-6)
			x, y := room.Centroid()
			require.InDelta(t, centroid[0], x, 1e-5)
			require.InDelta(t, centroid[1], y, 1e-5)
			p := geom.FromMetres(centroid[0]+4*(rnd.Float64()-0.5), centroid[1]+4*(rnd.Float64()-0.5))
			px, py := p.Metres()
			require.Equal(t, planar.PolygonContains(reference, orb.Point{px, py}), room.Contains(p) == geom.Inside)
		}
	})
}

func TestWoundPutsRingsInOrder(t *testing.T) {
	r := geom.Wound(geom.Region{Outer: withPier.Outer.Reverse(), Holes: []geom.Ring{withPier.Holes[0].Reverse()}})
	assert.True(t, r.Outer.CounterClockwise())
	assert.False(t, r.Holes[0].CounterClockwise())
	assert.Equal(t, withPier.AreaM2(), r.AreaM2())
	assert.Equal(t, geom.FromMetres(0, 0), withPier.Outer.Reverse()[0], "the first corner stays the first")
}

func TestBoxes(t *testing.T) {
	assert.Equal(t, geom.Box{Min: geom.FromMetres(0, 0), Max: geom.FromMetres(6, 4)}, withPier.Bounds())
	nothing := geom.Shape(nil).Bounds()
	assert.True(t, nothing.Empty())
	assert.False(t, nothing.Meets(withPier.Bounds()))
	assert.Equal(t, withPier.Bounds(), nothing.Join(withPier.Bounds()))
	assert.True(t, withPier.Bounds().Meets(rect(6, 4, 8, 8).Bounds()), "corner to corner")
	width, height := withPier.Bounds().Size()
	assert.Equal(t, []float64{6, 4}, []float64{width, height})
}
