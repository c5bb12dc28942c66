package plan_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// sample is one of the sample houses with its brief.
type sample struct {
	building *plan.Building
	brief    *plan.Brief
}

// sampleHouses gives the samples by name.
func sampleHouses(t testing.TB) map[string]sample {
	t.Helper()
	files, err := filepath.Glob("../samples/*/*.house.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	out := map[string]sample{}
	for _, name := range files {
		f, err := os.Open(name)
		require.NoError(t, err)
		h, err := plan.Read(f, name)
		f.Close()
		require.NoError(t, err)
		name = strings.TrimSuffix(name, ".house.json")
		g, err := os.Open(name + ".brief.yaml")
		require.NoError(t, err)
		brief, err := plan.ReadBrief(g, name)
		g.Close()
		require.NoError(t, err)
		out[filepath.Base(name)] = sample{build(t, h), brief}
	}
	return out
}

// eachSample runs a test on each sample.
func eachSample(t *testing.T, test func(t *testing.T, s sample)) {
	samples := sampleHouses(t)
	for _, name := range slices.Sorted(maps.Keys(samples)) {
		t.Run(name, func(t *testing.T) { test(t, samples[name]) })
	}
}

// Each scheme of a sample keeps the rules and costs what its works come to,
// counted again from the description.
func TestTheSchemesOfTheSamplesKeepTheRulesAndCostWhatTheySay(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		a := split(t, s.building, s.brief)
		require.NotEmpty(t, a.Schemes)
		for _, scheme := range a.Schemes {
			r := newReference(scheme.Building, s.brief, plan.DefaultPrices())
			want := r.price(ownersOf(scheme), never)
			require.NotEqual(t, never, want, "scheme %s holds", scheme.ID)
			assert.Equal(t, want.shared, unaccepted(scheme), "scheme %s", scheme.ID)
			assert.InDelta(t, want.cost, scheme.Cost.Total, 0.011, "scheme %s", scheme.ID)
			assert.True(t, scheme.Proved)
		}
	})
}

// Where all but some neighbouring rooms of a sample are kept as the best scheme
// has them, no way to give out the rest is better.
func TestNoCornerOfASampleIsBetterGivenOutOtherwise(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		s.brief.Schemes, s.brief.Cuts = 1, false
		a := split(t, s.building, s.brief)
		require.NotEmpty(t, a.Schemes)
		scheme := a.Schemes[0]
		found := refPrice{unaccepted(scheme), scheme.Cost.Total}
		r := newReference(s.building, s.brief, plan.DefaultPrices())
		random := rand.New(rand.NewPCG(5, 9))
		for range seeds(t, 3, 8) {
			free := corner(r, random, 9)
			best, at := r.bestAround(ownersOf(scheme), free, refPrice{found.shared, found.cost - 0.02})
			require.Equal(t, never, best, "better than %+v: %+v by %s", found, best, sayOwners(s.building, at))
		}
	})
}

// corner picks a cell that has an owner and its neighbours, and theirs, until
// it has n.
func corner(r *reference, random *rand.Rand, n int) []int {
	free := []int{r.owned[random.IntN(len(r.owned))]}
	for i := 0; i < len(free) && len(free) < n; i++ {
		for _, l := range r.links {
			for _, e := range [2][2]int{{l.u, l.v}, {l.v, l.u}} {
				if e[0] == free[i] && len(free) < n && slices.Contains(r.owned, e[1]) && !slices.Contains(free, e[1]) {
					free = append(free, e[1])
				}
			}
		}
	}
	return free
}

// cutDown gives a house of some neighbouring rooms and pieces of ground of a
// larger one, with what stands in them; doors to what is left out lead outside.
func cutDown(b *plan.Building, random *rand.Rand, rooms int) *plan.House {
	r := newReference(b, plan.DefaultBrief(), plan.DefaultPrices())
	kept := map[string]bool{}
	for _, c := range corner(r, random, rooms) {
		kept[b.Cells[c].ID] = true
	}
	h := *b.House
	h.Spaces = slices.DeleteFunc(slices.Clone(h.Spaces), func(s plan.Space) bool { return !kept[s.ID] && !s.Use.Public() })
	for i := range h.Spaces {
		if s := &h.Spaces[i]; !s.Outdoor && s.Use != plan.Garage && s.Region.AreaM2() > 8 {
			s.Also = append(slices.Clone(s.Also), plan.Living, plan.Kitchen) // so few rooms make no two units otherwise
		}
	}
	ends := map[string]int{} // of a flight: how many of its ends arrive at a space that is kept
	leads := map[string]bool{}
	for _, l := range b.Links {
		for _, c := range [...]int{l.U, l.V} {
			if c == plan.Outside || !kept[b.Cells[c].ID] || l.Of == "" {
				continue
			}
			if l.Kind == plan.LinkStair && !b.Cells[c].Flight {
				ends[l.Of]++
			} else if l.Kind != plan.LinkStair {
				leads[l.Of] = true
			}
		}
	}
	h.Stairs = slices.DeleteFunc(slices.Clone(h.Stairs), func(s plan.Stair) bool { return ends[s.ID] < 2 })
	h.Doors = slices.DeleteFunc(slices.Clone(h.Doors), func(d plan.Door) bool { return !leads[d.ID] })
	h.Windows, h.Fixtures, h.Walls = nil, nil, nil
	for i, w := range b.House.Windows {
		if c := b.WindowCells[i][0]; c != plan.Outside && kept[b.Cells[c].ID] {
			h.Windows = append(h.Windows, w)
		}
	}
	for i, f := range b.House.Fixtures {
		if c := b.FixtureCell[i]; c != plan.Outside && kept[b.Cells[c].ID] {
			h.Fixtures = append(h.Fixtures, f)
		}
	}
	return &h
}

func TestNoWayToPartApieceOfASampleIsBetterThanTheOneFound(t *testing.T) {
	samples := sampleHouses(t)
	names := slices.Sorted(maps.Keys(samples))
	feasible, all := 0, seeds(t, 5, 12)
	for seed := range all {
		name := names[seed%uint64(len(names))]
		t.Run(fmt.Sprintf("%s %d", name, seed), func(t *testing.T) {
			h := cutDown(samples[name].building, rand.New(rand.NewPCG(seed, 17)), 12)
			b, err := plan.Build(h)
			if err != nil {
				t.Skip(err) // a flight without its landing
			}
			brief := housetest.Demands(h, seed, false)
			for i := range brief.Units {
				brief.Units[i].Bedrooms.Min = int(seed+uint64(i)) % 2
			}
			if agree(t, b, brief) {
				feasible++
			}
		})
	}
	t.Logf("%d of %d pieces can be parted", feasible, all)
}
