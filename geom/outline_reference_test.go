package geom_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// Where the exterior walls are 0.30 m thick and no gap between rooms is wider
// than 0.60 m, the outline of an upright house is its rooms grown by 0.30 m
// to all sides, which a raster does exactly; slots narrower than 0.30 m and
// closed voids narrower than 0.60 m may be filled. The rest of what is black is no room.
func TestOutlineAgreesWithGrownRaster(t *testing.T) {
	const thickness, cell = 0.30, 0.05
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 11))
		rooms := randomHouse(rnd, 8+rnd.IntN(5), 6+rnd.IntN(5))
		if len(rooms) == 0 {
			continue
		}
		prisms := storeys(rooms...)
		walls := geom.Walls(prisms, thickness)
		outline, err := geom.Outline(prisms, walls, 0)
		require.NoError(t, err)
		requireSound(t, outline, "outline")
		mass, err := geom.Mass(outline, prisms, 0)
		require.NoError(t, err)
		requireSound(t, mass, "mass")

		white := newGrid(cell, 0.5, rooms...)
		floor := white.paint(rooms...)
		least := floor.grown(int(thickness / cell))
		slots, closed, outdoors := least.grown(3).shrunk(3), least.grown(6).shrunk(6), least.outside()
		most := white.each(func(i int) bool { return slots.black[i] || (closed.black[i] && !outdoors.black[i]) })
		got, solid := white.paint(outline...), white.paint(mass...)
		for i := range got.black {
			x, y := got.middle(i)
			require.True(t, got.black[i] || !least.black[i], "seed %d: (%.3f, %.3f) is in the wall and not in the outline", seed, x, y)
			require.True(t, most.black[i] || !got.black[i], "seed %d: (%.3f, %.3f) is outdoors and in the outline", seed, x, y)
			require.Equal(t, got.black[i] && !floor.black[i], solid.black[i], "seed %d: (%.3f, %.3f) is solid, or not", seed, x, y)
		}
		require.InDelta(t, got.area(), outline.AreaM2(), 0.001, "seed %d", seed)
		require.InDelta(t, outline.AreaM2()-floor.area(), mass.AreaM2(), 0.001, "seed %d", seed)

		m := motion{mirror: seed%2 == 0, degrees: rnd.Float64() * 360, x: 12, y: -7}
		turned := m.prisms(prisms)
		turnedOutline, err := geom.Outline(turned, geom.Walls(turned, thickness), 0)
		require.NoError(t, err)
		requireSound(t, turnedOutline, "turned outline")
		require.InDelta(t, outline.AreaM2(), turnedOutline.AreaM2(), 0.002, "seed %d: turned by %v", seed, m)
		require.Equal(t, corners(outline), corners(turnedOutline), "seed %d: turned by %v", seed, m)
		turnedMass, err := geom.Mass(turnedOutline, turned, 0)
		require.NoError(t, err)
		requireSound(t, turnedMass, "turned mass")
		require.InDelta(t, mass.AreaM2(), turnedMass.AreaM2(), 0.003, "seed %d: turned by %v", seed, m)
	}
}

// A turned house that was measured to the millimetre, or to a thousandth of a
// foot, has the outline of the true one but for steps of that size: no folds
// and slits where the faces of neighbouring rooms, a little out of true, meet.
func TestOutlineOfAMeasuredHouseHasNoFolds(t *testing.T) {
	touching := 0
	for seed := range uint64(80) {
		rnd := rand.New(rand.NewPCG(seed, 41))
		rooms := storeys(randomHouse(rnd, 8+rnd.IntN(5), 6+rnd.IntN(5))...)
		want, err := geom.Outline(rooms, geom.Walls(rooms, 0.3), 0)
		require.NoError(t, err)
		measured := tape(motion{degrees: rnd.Float64() * 360}.prisms(rooms), []float64{0.001, 0.0003048}[seed%2])
		got, err := geom.Outline(measured, geom.Walls(measured, 0.3), 0)
		require.NoError(t, err)
		requireSound(t, got, "outline")
		require.InDelta(t, want.AreaM2(), got.AreaM2(), 0.03, "seed %d", seed)
		if len(got) != len(want) {
			touching++ // wings that touch in a line may come apart
			continue
		}
		require.InDelta(t, around(want), around(got), 0.02, "seed %d: a fold would make the border longer", seed)
	}
	require.LessOrEqual(t, touching, 2)
}

// corners returns how many corners each region has, in no particular order.
func corners(s geom.Shape) map[int]int {
	count := make(map[int]int)
	for _, r := range s {
		n := 0
		for _, ring := range r.Rings() {
			n += len(ring)
		}
		count[n]++
	}
	return count
}
