package plan_test

import (
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// facts gives the links of a building without their places, and their measures
// with them.
func facts(b *plan.Building) map[string][]plan.Link {
	out := map[string][]plan.Link{}
	for _, l := range b.Links {
		key := fmt.Sprint(string(l.Kind), " ", between(b, l), " ", l.Of, " head ", l.Head)
		out[key] = append(out[key], l)
	}
	for _, links := range out {
		slices.SortStableFunc(links, func(k, l plan.Link) int {
			for _, d := range [...]float64{k.Length - l.Length, k.Height - l.Height, k.Thickness - l.Thickness} {
				if math.Abs(d) > 0.0015 {
					return int(math.Copysign(1, d))
				}
			}
			return 0
		})
	}
	return out
}

// sameLinks compares links by kind and ends, and their measures to the
// millimetre (areas to what a millimetre makes).
func sameLinks(t require.TestingT, want, got *plan.Building) {
	w, g := facts(want), facts(got)
	for _, key := range slices.Sorted(maps.Keys(g)) {
		assert.Len(t, w[key], len(g[key]), key)
	}
	for _, key := range slices.Sorted(maps.Keys(w)) {
		if !assert.Len(t, g[key], len(w[key]), key) {
			continue
		}
		for i, l := range w[key] {
			m := g[key][i]
			assert.InDelta(t, l.Length, m.Length, 0.001, key)
			assert.InDelta(t, l.Line.Length(), m.Line.Length(), 0.001, key)
			assert.InDelta(t, l.Thickness, m.Thickness, 0.001, key)
			assert.InDelta(t, l.Height, m.Height, 0.001, key)
			assert.InDelta(t, l.Rise, m.Rise, 0.001, key)
			assert.InDelta(t, l.AreaM2, m.AreaM2, 0.005+0.001*l.AreaM2, key)
			assert.Equal(t, l.Bearing, m.Bearing, key)
			assert.Len(t, m.Runs, len(l.Runs), key)
		}
	}
	assert.InDelta(t, want.ExteriorThickness, got.ExteriorThickness, 0.001)
}

// ids gives the ids of the links, in order.
func ids(b *plan.Building) []string {
	var out []string
	for _, l := range b.Links {
		out = append(out, l.ID)
	}
	return out
}

// corpus is the duplex, the samples and a generated house.
func corpus(t testing.TB) map[string]*plan.House {
	t.Helper()
	houses := map[string]*plan.House{"generated": housetest.Corridors(60)}
	files, err := filepath.Glob("../samples/*/*.house.json")
	require.NoError(t, err)
	for _, name := range append(files, "../testdata/houses/duplex.house.json") {
		f, err := os.Open(name)
		require.NoError(t, err)
		h, err := plan.Read(f, name)
		f.Close()
		require.NoError(t, err)
		houses[filepath.Base(name)] = h
	}
	return houses
}

func TestTurningMirroringMovingFeetAndOrderChangeNoLink(t *testing.T) {
	houses := corpus(t)
	names := slices.Sorted(maps.Keys(houses))
	built := map[string]*plan.Building{}
	for _, name := range names {
		built[name] = build(t, houses[name])
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "house")
		c := housetest.Shuffled(houses[name], rapid.Uint64().Draw(t, "order"))
		c = housetest.Turned(c, rapid.Float64Range(-360, 360).Draw(t, "angle"))
		mirrored := rapid.Bool().Draw(t, "mirrored")
		if mirrored {
			c = housetest.Mirrored(c)
		}
		c = housetest.Moved(c, rapid.Float64Range(-2000, 2000).Draw(t, "dx"), rapid.Float64Range(-2000, 2000).Draw(t, "dy"))
		if rapid.Bool().Draw(t, "feet") {
			c = housetest.InFeet(c)
		}
		want := built[name]
		got, err := plan.Build(c)
		require.NoError(t, err)
		sameLinks(t, want, got)
		if !mirrored { // a mirror turns the order of walls around a room
			require.Equal(t, ids(want), ids(got), "names")
		}
		require.Equal(t, want.Reached(), got.Reached())
		assertFixtures(t, want, got)
	})
}

func TestShufflingFeaturesGivesTheSameBuilding(t *testing.T) {
	houses := corpus(t)
	for _, name := range slices.Sorted(maps.Keys(houses)) {
		want := build(t, houses[name])
		for seed := range uint64(3) {
			got := build(t, housetest.Shuffled(houses[name], seed))
			require.Equal(t, want.Cells, got.Cells, name)
			require.Equal(t, want.Links, got.Links, name)
			require.Equal(t, want.Walls, got.Walls, name)
			require.Equal(t, want.Levels, got.Levels, name)
			require.Equal(t, want.Warnings, got.Warnings, name)
			assertFixtures(t, want, got)
		}
	}
}

// A survey that lacks rooms or flights is refused with the features that then
// join nothing, or built; it is no fault of the program.
func TestAHouseWithPartsMissingIsBuiltOrRefused(t *testing.T) {
	houses := corpus(t)
	names := slices.Sorted(maps.Keys(houses))
	rapid.Check(t, func(t *rapid.T) {
		h := housetest.Shuffled(houses[rapid.SampledFrom(names).Draw(t, "house")], 1)
		h.Spaces = h.Spaces[:rapid.IntRange(0, len(h.Spaces)).Draw(t, "spaces")]
		h.Stairs = h.Stairs[:rapid.IntRange(0, len(h.Stairs)).Draw(t, "stairs")]
		b, err := plan.Build(h)
		if err != nil {
			var problems *plan.Problems
			require.ErrorAs(t, err, &problems)
			return
		}
		require.Len(t, b.Cells, len(h.Spaces)+len(h.Stairs))
		unique := map[string]bool{}
		for _, l := range b.Links {
			require.False(t, unique[l.ID], l.ID)
			unique[l.ID] = true
		}
	})
}

// assertFixtures compares what belongs to which cell, feature by feature.
func assertFixtures(t require.TestingT, want, got *plan.Building) {
	places := func(b *plan.Building) map[string]string {
		m := map[string]string{}
		for i, c := range b.FixtureCell {
			m[b.House.Fixtures[i].ID] = idOf(b, c)
		}
		for i, w := range b.WindowCells {
			m[b.House.Windows[i].ID] = idOf(b, w[0]) + "|" + idOf(b, w[1])
		}
		return m
	}
	require.Equal(t, places(want), places(got))
}

func BenchmarkBuild(b *testing.B) {
	houses := corpus(b)
	houses["300-spaces"] = housetest.Corridors(300)
	for _, name := range []string{"duplex.house.json", "300-spaces"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				if _, err := plan.Build(houses[name]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
