package plan_test

import (
	"bytes"
	"flag"
	"fmt"
	"maps"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// checkTimes runs a property n times, or as often as -rapid.checks says.
func checkTimes(t *testing.T, n int, property func(t *rapid.T)) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	if checks.Value.String() == checks.DefValue {
		require.NoError(t, checks.Value.Set(strconv.Itoa(n)))
		defer func() { _ = checks.Value.Set(checks.DefValue) }()
	}
	rapid.Check(t, property)
}

// placedOtherwise draws the same house as somebody else would have surveyed it:
// turned, mirrored, moved, in feet, its features in another order.
func placedOtherwise(t *rapid.T, h *plan.House) *plan.House {
	c := housetest.Shuffled(h, rapid.Uint64().Draw(t, "order"))
	if rapid.Bool().Draw(t, "turned") {
		c = housetest.Turned(c, rapid.Float64Range(-360, 360).Draw(t, "angle"))
	}
	if rapid.Bool().Draw(t, "mirrored") {
		c = housetest.Mirrored(c)
	}
	if rapid.Bool().Draw(t, "moved") {
		c = housetest.Moved(c, rapid.Float64Range(-2000, 2000).Draw(t, "dx"), rapid.Float64Range(-2000, 2000).Draw(t, "dy"))
	}
	if rapid.Bool().Draw(t, "feet") {
		c = housetest.InFeet(c)
	}
	return c
}

// owners gives the owner of each cell of a scheme.
func owners(s *plan.Scheme) map[string]string {
	out := map[string]string{}
	for c, o := range s.Owners {
		out[s.Building.Cells[c].ID] = o.String()
	}
	return out
}

var squareFeet = regexp.MustCompile(` \([0-9]+ ft2\)`)

// inMetres leaves out what a survey in feet says in feet too.
func inMetres(sentences []string) []string {
	out := make([]string, len(sentences))
	for i, s := range sentences {
		out[i] = squareFeet.ReplaceAllString(s, "")
	}
	return out
}

// sameAnswer holds the best schemes of one house, surveyed twice, against each other.
func sameAnswer(t require.TestingT, want, got *plan.Answer) {
	require.Len(t, got.Schemes, len(want.Schemes))
	require.Equal(t, inMetres(want.WhyNot), inMetres(got.WhyNot))
	if len(want.Schemes) == 0 {
		return
	}
	w, g := want.Schemes[0], got.Schemes[0]
	require.Equal(t, owners(w), owners(g))
	require.Equal(t, unaccepted(w), unaccepted(g))
	// Coordinates are rounded; nothing else may change a price.
	require.InEpsilon(t, w.Cost.Total, g.Cost.Total, 0.001)
	for u := range w.Units {
		require.InDelta(t, w.Units[u].GrossM2, g.Units[u].GrossM2, 0.001*w.Units[u].GrossM2+0.01)
		require.InDelta(t, w.Units[u].NetM2, g.Units[u].NetM2, 0.001*w.Units[u].NetM2+0.01)
		require.Equal(t, w.Units[u].Entries, g.Units[u].Entries)
		require.Equal(t, w.Units[u].Bedrooms, g.Units[u].Bedrooms)
	}
	require.Equal(t, w.Shared, g.Shared)
}

func TestWhereAHouseLiesOnItsLotChangesNoOwner(t *testing.T) {
	samples := sampleHouses(t)
	samples["duplex"] = sample{duplex(t), twoBedroomsEach()}
	names := slices.Sorted(maps.Keys(samples))
	before := map[string]*plan.Answer{}
	for _, name := range names {
		s := samples[name]
		s.brief.Schemes = 1
		before[name] = split(t, s.building, s.brief)
	}
	checkTimes(t, 25, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "house")
		s := samples[name]
		b, err := plan.Build(placedOtherwise(t, s.building.House))
		require.NoError(t, err)
		got, err := plan.Split(t.Context(), b, s.brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1})
		require.NoError(t, err)
		sameAnswer(t, before[name], got)
	})
}

func TestWhereAGeneratedHouseLiesChangesNoOwner(t *testing.T) {
	checkTimes(t, 30, func(t *rapid.T) {
		seed := rapid.Uint64Range(0, 1<<32).Draw(t, "seed")
		h := housetest.Small(seed)
		brief := housetest.Demands(h, seed, true)
		var answers [2]*plan.Answer
		for i, h := range [...]*plan.House{h, placedOtherwise(t, h)} {
			b, err := plan.Build(h)
			require.NoError(t, err)
			answers[i], err = plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1})
			require.NoError(t, err)
		}
		sameAnswer(t, answers[0], answers[1])
	})
}

// resultFiles gives the summary and the divided houses of an answer as they are
// written to files.
func resultFiles(t testing.TB, a *plan.Answer) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, plan.WriteSummary(&out, a))
	for _, s := range a.Schemes {
		require.NoError(t, plan.WriteScheme(&out, s))
	}
	return out.Bytes()
}

func TestTheSameInputGivesTheSameBytes(t *testing.T) {
	if runtime.GOMAXPROCS(0) < 2 {
		runtime.GOMAXPROCS(2)
	}
	eachSample(t, func(t *testing.T, s sample) {
		var first []byte
		for i, workers := range [...]int{1, 2, 2} {
			// Built anew each time: nothing may hang on the order of a map.
			b := build(t, s.building.House)
			a, err := plan.Split(t.Context(), b, s.brief, plan.DefaultPrices(), plan.SplitOptions{Workers: workers})
			require.NoError(t, err)
			files := resultFiles(t, a)
			if i == 0 {
				first = files
			}
			assert.Equal(t, string(first), string(files), fmt.Sprintf("%d workers", workers))
		}
	})
}

// Features in another order: not the same file, but the same schemes.
func TestTheOrderOfFeaturesChangesNoScheme(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		want := split(t, s.building, s.brief)
		got := split(t, build(t, housetest.Shuffled(s.building.House, 1)), s.brief)
		require.Len(t, got.Schemes, len(want.Schemes))
		for i := range want.Schemes {
			assert.Equal(t, owners(want.Schemes[i]), owners(got.Schemes[i]))
			assert.Equal(t, want.Schemes[i].Cost, got.Schemes[i].Cost)
			assert.Equal(t, want.Schemes[i].Works, got.Schemes[i].Works)
			assert.Equal(t, want.Schemes[i].Shared, got.Schemes[i].Shared)
		}
	})
}
