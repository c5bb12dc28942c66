package plan_test

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// demand is one more thing asked of a brief; ok is false where it is asked already.
type demand struct {
	name string
	add  func(t *rapid.T, b *plan.Building, brief *plan.Brief) (ok bool)
}

func drawSpace(t *rapid.T, b *plan.Building, public bool) string {
	var ids []string
	for _, c := range b.Cells {
		if (!c.Public || public) && (c.Outdoor || !public) {
			ids = append(ids, c.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	return rapid.SampledFrom(ids).Draw(t, "space")
}

func drawUnit(t *rapid.T, brief *plan.Brief) *plan.UnitBrief {
	return &brief.Units[rapid.IntRange(0, 1).Draw(t, "unit")]
}

// oneMore lists the ways to ask one thing more.
var oneMore = []demand{
	{"a bedroom", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		drawUnit(t, brief).Bedrooms.Min++
		return true
	}},
	{"area", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		drawUnit(t, brief).AreaMin += rapid.Float64Range(1, 30).Draw(t, "m2")
		return true
	}},
	{"keep", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		u, id := drawUnit(t, brief), drawSpace(t, b, false)
		if slices.Contains(brief.Units[0].Keep, id) || slices.Contains(brief.Units[1].Keep, id) {
			return false
		}
		u.Keep = append(slices.Clone(u.Keep), id)
		return true
	}},
	{"avoid", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		u := drawUnit(t, brief)
		u.Avoid = append(slices.Clone(u.Avoid), drawSpace(t, b, false))
		return true
	}},
	{"leave", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		ids := []string{}
		for _, d := range b.House.Doors {
			ids = append(ids, d.ID)
		}
		for _, w := range b.House.Walls {
			ids = append(ids, w.ID)
		}
		for _, c := range b.Cells {
			ids = append(ids, c.Of)
		}
		brief.Leave = append(slices.Clone(brief.Leave), rapid.SampledFrom(ids).Draw(t, "feature"))
		return true
	}},
	{"entry_from", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		u, id := drawUnit(t, brief), drawSpace(t, b, true)
		if u.EntryFrom != "" || id == "" {
			return false
		}
		u.EntryFrom = id
		return true
	}},
	{"outdoor area", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		drawUnit(t, brief).OutdoorMin += rapid.Float64Range(1, 40).Draw(t, "m2")
		return true
	}},
	{"parking", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		drawUnit(t, brief).Parking.Min++
		return true
	}},
	{"nothing shared", func(t *rapid.T, b *plan.Building, brief *plan.Brief) bool {
		if len(brief.Share) == 0 {
			return false
		}
		i := rapid.IntRange(0, len(brief.Share)-1).Draw(t, "word")
		brief.Share = slices.Delete(slices.Clone(brief.Share), i, i+1)
		return true
	}},
}

// patience is how long a proof is waited for. A few briefs for the samples
// take much longer; they are passed over.
const patience = 3 * time.Second

// bestPrice gives the price of the best scheme, never where there is none. It
// asks the partition itself, since the reasons why there is none are not wanted.
func bestPrice(t *rapid.T, b *plan.Building, brief *plan.Brief) refPrice {
	p, _ := plan.ProblemOf(b, brief, plan.DefaultPrices())
	for _, c := range p.Cells {
		if !c.Public && c.Allowed == 0 {
			return never // kept from both units
		}
	}
	ctx, stop := context.WithTimeout(t.Context(), patience)
	defer stop()
	result, err := partition.Solve(ctx, p, partition.Options{Workers: 1})
	require.NoError(t, err)
	if ctx.Err() != nil {
		t.Skip("not decided in time")
	}
	if len(result.Solutions) == 0 {
		require.Equal(t, partition.Infeasible, result.Status)
		return never
	}
	best := result.Solutions[0]
	require.True(t, best.Proved)
	return refPrice{best.Price.Shared, float64(best.Price.Money) / 10_000}
}

// asksOneMore checks that a demand more, drawn at random, makes nothing better.
func asksOneMore(t *rapid.T, b *plan.Building, brief *plan.Brief) {
	before := bestPrice(t, b, brief)
	more := *brief
	d := rapid.SampledFrom(oneMore).Draw(t, "demand")
	if !d.add(t, b, &more) || more.Check(b.House) != nil {
		return
	}
	after := bestPrice(t, b, &more)
	// What breaks ties weighs less than a cent.
	require.False(t, after.less(refPrice{before.shared, before.cost - 0.01}),
		fmt.Sprintf("with one more demand, %s, the price is %+v instead of %+v", d.name, after, before))
}

func TestOneMoreDemandMakesNoSampleCheaper(t *testing.T) {
	samples := sampleHouses(t)
	names := slices.Sorted(maps.Keys(samples))
	checkTimes(t, 30, func(t *rapid.T) {
		s := samples[rapid.SampledFrom(names).Draw(t, "house")]
		brief := *s.brief
		brief.Schemes = 1
		asksOneMore(t, s.building, &brief)
	})
}

func TestOneMoreDemandMakesNoGeneratedHouseCheaper(t *testing.T) {
	checkTimes(t, 60, func(t *rapid.T) {
		seed := rapid.Uint64Range(0, 1<<32).Draw(t, "seed")
		h := housetest.Small(seed)
		b, err := plan.Build(h)
		require.NoError(t, err)
		brief := housetest.Demands(h, seed, true)
		if rapid.Bool().Draw(t, "few demands") {
			brief = plan.DefaultBrief()
			brief.Schemes = 1
		}
		asksOneMore(t, b, brief)
	})
}
