package plan_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// wished splits a house and prices every demand.
func wished(t testing.TB, b *plan.Building, brief *plan.Brief) *plan.Answer {
	t.Helper()
	a, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1, Wishes: true})
	require.NoError(t, err)
	return a
}

// dropping is the brief without what a wish asks.
func dropping(t testing.TB, brief *plan.Brief, w plan.Wish) *plan.Brief {
	t.Helper()
	b := *brief
	but := func(words []string) []string {
		require.Contains(t, words, w.Word)
		return slices.DeleteFunc(slices.Clone(words), func(word string) bool { return word == w.Word })
	}
	if w.Unit == "" {
		switch {
		case w.Key == "leave":
			b.Leave = but(b.Leave)
		case w.Word == "":
			b.Units[0].AreaShare, b.Units[1].AreaShare = 0, 0
		default:
			b.Share = append(slices.Clone(b.Share), w.Word)
		}
		return &b
	}
	u := &b.Units[w.Unit[0]-'A']
	switch w.Key {
	case "bedrooms":
		u.Bedrooms.Min--
	case "area":
		u.AreaMin = 0
	case "keep":
		u.Keep = but(u.Keep)
	case "avoid":
		u.Avoid = but(u.Avoid)
	case "entry_from":
		u.EntryFrom = ""
	case "parking":
		u.Parking.Min--
	case "outdoor":
		u.OutdoorMin = 0
	default:
		t.Fatalf("no demand %q", w.Key)
	}
	return &b
}

// wishOf finds the wish for a demand.
func wishOf(t testing.TB, a *plan.Answer, unit, key, word string) plan.Wish {
	t.Helper()
	i := slices.IndexFunc(a.Wishes, func(w plan.Wish) bool { return w.Unit == unit && w.Key == key && w.Word == word })
	require.GreaterOrEqual(t, i, 0, "%s %s %s", unit, key, word)
	return a.Wishes[i]
}

// A flat that has all it needs, and a demand that takes it from its neighbour.
func TestWhatADemandCosts(t *testing.T) {
	tests := map[string]struct {
		change          func(*plan.Brief)
		unit, key, word string
		want            float64
	}{
		// The flats as they are cost their party walls, and so they do with
		// or without what each has anyway.
		"a bedroom that is there costs nothing":  {func(b *plan.Brief) {}, "A", "bedrooms", "", 0},
		"a room that is its own costs nothing":   {func(b *plan.Brief) {}, "B", "keep", "b-bed", 0},
		"area that is there costs nothing":       {func(b *plan.Brief) { b.Units[0].AreaMin = 30 }, "A", "area", "", 0},
		"leaving what needs no work is for free": {func(b *plan.Brief) { b.Leave = []string{"a-front"} }, "", "leave", "a-front", 0},
		// Of 69.4 m2 each unit has the half but for nothing: a wanted share of 0.8 costs
		// |0.5 - 0.8| of the area at the price file's price, since what is kept cannot change.
		"a share that cannot be had costs what it falls short by": {func(b *plan.Brief) { b.Units[0].AreaShare = 0.8 }, "", "share", "", 0.3 * 69.4 * plan.DefaultPrices().Priorities.Balance},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			brief := kept()
			tt.change(brief)
			a := wished(t, build(t, pair().House()), brief)
			w := wishOf(t, a, tt.unit, tt.key, tt.word)
			assert.True(t, w.Proved)
			assert.Zero(t, w.Shared)
			assert.InDelta(t, tt.want, w.Cost, 0.02)
		})
	}
}

// What each demand costs is the difference of two optima: of two splits, and
// for the first few found again by trying everything.
func TestTheCostOfADemandIsTheDifferenceOfTwoOptima(t *testing.T) {
	costly, free := 0, 0
	for seed := range seeds(t, 30, 60) {
		h := housetest.Small(seed)
		b, brief := build(t, h), housetest.Demands(h, seed, true)
		brief.Cuts, brief.Schemes = false, 1
		a := wished(t, b, brief)
		if len(a.Schemes) == 0 {
			require.Empty(t, a.Wishes)
			continue
		}
		best := a.Schemes[0]
		for _, w := range a.Wishes {
			require.True(t, w.Asked && w.Proved)
			where := fmt.Sprintf("house %d, %s", seed, w.Demand)
			without := dropping(t, brief, w)
			other := split(t, b, without).Schemes[0]
			require.Equal(t, unaccepted(other), unaccepted(best)-w.Shared, where)
			require.InDelta(t, other.Cost.Total, best.Cost.Total-w.Cost, 0.011, where)
			if w.Without == nil {
				require.Zero(t, w.Cost)
				require.Zero(t, w.Shared)
				free++
				continue
			}
			require.InDelta(t, other.Cost.Total, w.Without.Cost.Total, 0.011, where)
			if costly++; costly <= 3 {
				want, at := newReference(b, without, plan.DefaultPrices()).best()
				require.Equal(t, want.shared, unaccepted(other), "%s: %s", where, sayOwners(b, at))
				require.InDelta(t, want.cost, other.Cost.Total, 0.011, "%s: %s", where, sayOwners(b, at))
			}
		}
	}
	t.Logf("%d demands cost something, %d nothing", costly, free)
	assert.Positive(t, costly)
	assert.Positive(t, free)
}

// In a sample, where spaces are divided too, a demand costs what a split under
// the brief without it saves.
func TestTheCostOfADemandIsWhatASplitWithoutItSaves(t *testing.T) {
	s := sampleHouses(t)["terrace"]
	brief := *s.brief
	brief.Schemes = 1
	a := wished(t, s.building, &brief)
	for _, w := range a.Wishes {
		if w.Shared == 0 && w.Cost == 0 || w.Key == "share" {
			continue // many, and alike
		}
		other := split(t, s.building, dropping(t, &brief, w)).Schemes[0]
		require.True(t, w.Proved)
		assert.Equal(t, unaccepted(a.Schemes[0])-unaccepted(other), w.Shared, w.Demand)
		assert.InDelta(t, a.Schemes[0].Cost.Total-other.Cost.Total, w.Cost, 0.011, w.Demand)
	}
}

// Two flats of one size, of which one is to be the larger.
func TestWishesAsTheyAreTold(t *testing.T) {
	brief := nothingAsked()
	brief.Units[0].AreaMin, brief.Units[0].AreaShare = 20, 0.6
	a := wished(t, surveyed(t, "testdata/two-flats.house.json"), brief)
	require.NotEmpty(t, a.Schemes, "%v", a.WhyNot)
	var b bytes.Buffer
	require.NoError(t, plan.WriteText(&b, a))
	_, told, found := bytes.Cut(b.Bytes(), []byte("\n\nWhat each demand costs"))
	require.True(t, found)
	told, _, _ = bytes.Cut(told, []byte("\nNotes\n"))
	golden(t, "wishes/two-flats.txt", told)
}

func TestWishesAreTheSameForAnyNumberOfWorkers(t *testing.T) {
	b, brief := build(t, pair().House()), nothingAsked()
	two, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 2, Wishes: true})
	require.NoError(t, err)
	assert.Equal(t, string(summaryOf(t, wished(t, b, brief))), string(summaryOf(t, two)))
}

func TestWishesThatNobodyAskedForAreNotInTheSummary(t *testing.T) {
	assert.NotContains(t, string(summaryOf(t, cottageAnswer())), "wishes")
}

// A search that is stopped claims nothing of the demands that it did not come to.
func TestWishesOfAStoppedSearchAreLeftOpen(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	a, err := plan.Split(ctx, build(t, pair().House()), kept(), plan.DefaultPrices(), plan.SplitOptions{
		Workers: 1, Wishes: true, Trace: stopper{stop},
	})
	require.NoError(t, err)
	for _, w := range a.Wishes {
		assert.False(t, w.Asked || w.Proved, w.Demand)
	}
	if len(a.Schemes) > 0 {
		assert.Contains(t, fmt.Sprint(string(summaryOf(t, a))), `"asked": false`)
	}
}

// stopper stops a search at its end.
type stopper struct{ stop func() }

func (s stopper) Progress(partition.Progress) { s.stop() }
