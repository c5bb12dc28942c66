package plan_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// Impossible briefs for the samples, and what is said of each.
func TestWhyTheSamplesCannotBePartedAsAsked(t *testing.T) {
	samples := sampleHouses(t)
	var told bytes.Buffer
	for _, tt := range []struct {
		sample, name string
		change       func(a, b *plan.UnitBrief, brief *plan.Brief)
	}{
		{"long-bungalow", "more bedrooms than there could be", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Bedrooms.Min = 6 }},
		{"long-bungalow", "too much area for one", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.AreaMin = 100 }},
		{"storey-and-a-half", "too much area for both", func(a, b *plan.UnitBrief, _ *plan.Brief) { b.AreaMin = 120 }},
		{"terrace", "both entries from one side", func(a, b *plan.UnitBrief, brief *plan.Brief) {
			b.EntryFrom = "side-return"
			brief.Leave = append(brief.Leave, "hall", "landing")
		}},
		{"turned-bay", "a stall too many", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Parking.Min, b.Parking.Min = 9, 9 }},
	} {
		s := samples[tt.sample]
		brief := *s.brief
		brief.Schemes, brief.Cuts = 1, false
		tt.change(&brief.Units[0], &brief.Units[1], &brief)
		a, err := plan.Split(t.Context(), s.building, &brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1})
		require.NoError(t, err)
		require.Equal(t, partition.Infeasible, a.Status, tt.name)
		require.NotEmpty(t, a.WhyNot)
		require.NotEmpty(t, a.WhyNotProof)
		var text bytes.Buffer
		require.NoError(t, plan.WriteText(&text, a))
		said, _, _ := bytes.Cut(text.Bytes(), []byte("\nNotes\n"))
		fmt.Fprintf(&told, "# %s\n%s\n", tt.name, said)
	}
	golden(t, "why_not/samples.txt", told.Bytes())
}

// Demands that are said to conflict do; without any one of them the others hold.
func TestWithoutOneDemandOfAConflictTheOthersHold(t *testing.T) {
	sizes := map[int]int{}
	for seed := range seeds(t, 30, 80) {
		h := housetest.Small(seed)
		b, brief := build(t, h), housetest.Demands(h, seed, true)
		brief.Cuts, brief.Schemes = false, 1
		if a := split(t, b, brief); len(a.Schemes) > 0 {
			continue
		}
		r, err := plan.ReasonOf(b, brief, plan.DefaultPrices())
		require.NoError(t, err)
		if len(r.Names) == 0 {
			continue
		}
		require.True(t, r.Core.Minimal, "house %d: %v", seed, r.Core)
		sizes[len(r.Core.Demands)]++
		all := map[int]bool{}
		for _, i := range r.Core.Demands {
			all[i] = true
		}
		status, err := r.Hold(all)
		require.NoError(t, err)
		require.Equal(t, partition.Infeasible, status, "house %d: %v", seed, r.Core)
		for _, i := range r.Core.Demands {
			all[i] = false
			status, err := r.Hold(all)
			require.NoError(t, err)
			require.Equal(t, partition.Proved, status, "house %d without %s", seed, r.Names[i])
			all[i] = true
		}
	}
	t.Log("sizes of conflicts:", sizes)
	assert.Greater(t, len(sizes), 1)
}
