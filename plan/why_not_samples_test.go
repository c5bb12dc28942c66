package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// impossibleBrief is a brief that a sample cannot be parted by, with what a
// person would say of it: the beginnings of the sentences.
type impossibleBrief struct {
	sample, name string
	change       func(a, b *plan.UnitBrief, brief *plan.Brief)
	want         []string // of what the brief asks
	because      string   // part of what is said beside; "" where there is nothing or it may vary
}

func impossibleBriefs() []impossibleBrief {
	const living = "a living space: the house has 2"
	leave := func(brief *plan.Brief, ids ...string) { brief.Leave = slices.Concat(brief.Leave, ids) }
	keep := func(u *plan.UnitBrief, ids ...string) { u.Keep = slices.Concat(u.Keep, ids) }
	avoid := func(u *plan.UnitBrief, ids ...string) { u.Avoid = slices.Concat(u.Avoid, ids) }
	return []impossibleBrief{
		{"long-bungalow", "more bedrooms than there could be", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Bedrooms.Min = 6 },
			[]string{"unit A asks for 6 bedrooms: the house has 3"}, ""},
		{"long-bungalow", "three bedrooms each", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Bedrooms.Min, b.Bedrooms.Min = 3, 3 },
			[]string{"unit A asks for 3 bedrooms: the house has 3", "unit B asks for 3 bedrooms of the same"}, ""},
		{"long-bungalow", "four bedrooms in one", func(a, b *plan.UnitBrief, _ *plan.Brief) { b.Bedrooms.Min = 4 },
			[]string{"unit B asks for 4 bedrooms: the house has 3"}, "each unit needs " + living},
		{"long-bungalow", "nearly all the area for one", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.AreaMin = 100 },
			[]string{"unit A asks for at least 100.0 m2: the house has 109.0 m2"}, "unit B needs " + living},
		{"long-bungalow", "more stalls than there are", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Parking.Min, b.Parking.Min = 3, 5 },
			[]string{"unit A asks for 3 parking stalls of its own: the house has 6", "unit B asks for 5 parking stalls of its own: the house has 6"}, ""},
		{"split-level", "two bedrooms above and three below", func(a, b *plan.UnitBrief, _ *plan.Brief) { b.Bedrooms.Min = 3 },
			[]string{"unit A asks for 2 bedrooms: the house has 4", "unit B asks for 3 bedrooms of the same"}, ""},
		{"split-level", "two bedrooms on the ground floor, the workshop left as it is", func(a, b *plan.UnitBrief, brief *plan.Brief) {
			b.Bedrooms.Min = 2
			avoid(b, "top-hall", "main-landing")
			leave(brief, "workshop")
		}, []string{"unit B asks for 2 bedrooms: the house has 4", "unit B avoids main-landing"}, ""},
		{"split-level", "more garden than the lot has", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.OutdoorMin, b.OutdoorMin = 300, 150 },
			[]string{"unit A asks for at least 300.0 m2 of yard", "unit B asks for at least 150.0 m2 of yard"}, ""},
		{"storey-and-a-half", "too much area for both", func(a, b *plan.UnitBrief, _ *plan.Brief) { b.AreaMin = 120 },
			[]string{"unit A asks for at least 80.0 m2: the house has 161.9 m2", "unit B asks for at least 120.0 m2: the house has 161.9 m2"}, ""},
		{"storey-and-a-half", "three bedrooms below", func(a, b *plan.UnitBrief, _ *plan.Brief) { b.Bedrooms.Min = 3 },
			[]string{"unit A asks for 3 bedrooms: the house has 4", "unit B asks for 3 bedrooms of the same"}, ""},
		{"storey-and-a-half", "a bedroom in a basement that may not be touched", func(a, b *plan.UnitBrief, brief *plan.Brief) {
			avoid(b, "living", "bed-1", "bed-2", "kitchen", "bed-3", "bed-4")
			leave(brief, "bed-5", "family", "workshop")
		}, []string{"unit A asks for 3 bedrooms: the house has 3", "unit B asks for a bedroom of the same", "no work may touch bed-5", "no work may touch workshop"}, "each unit needs " + living},
		{"terrace", "two bedrooms below and three above", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Bedrooms.Min, b.Bedrooms.Min = 2, 3 },
			[]string{"unit A asks for 2 bedrooms: the house has 3", "unit B asks for 3 bedrooms of the same"}, "each unit needs a kitchen: the house has 1"},
		{"terrace", "both entries from one side", func(a, b *plan.UnitBrief, brief *plan.Brief) {
			b.EntryFrom = "side-return"
			leave(brief, "hall", "landing")
		}, []string{"unit A keeps kitchen", "unit B asks for an entry from side-return: a door leads there from Kitchen"}, "unit B needs an entry door of its own"},
		{"terrace", "the hall for the flat below", func(a, b *plan.UnitBrief, _ *plan.Brief) { keep(a, "hall") },
			[]string{"unit A keeps hall", "unit B asks for an entry from path (Front path): a door leads there from Hall"}, "unit B needs an entry door of its own"},
		{"turned-bay", "stalls for nine cars each", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Parking.Min, b.Parking.Min = 9, 9 },
			[]string{"unit A asks for 9 parking stalls of its own: the house has 4"}, ""},
		{"turned-bay", "three bedrooms each", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.Bedrooms.Min, b.Bedrooms.Min = 3, 3 },
			[]string{"unit A asks for 3 bedrooms: the house has 4", "unit B asks for 3 bedrooms of the same"}, "unit A needs " + living},
		{"turned-bay", "more area than there is", func(a, b *plan.UnitBrief, _ *plan.Brief) { a.AreaMin, b.AreaMin = 80, 105 },
			[]string{"unit A asks for at least 80.0 m2 (861 ft2): the house has 169.1 m2", "unit B asks for at least 105.0 m2 (1130 ft2): the house has 169.1 m2"}, ""},
		{"turned-bay", "two bedrooms below without the work that makes the second", func(a, b *plan.UnitBrief, brief *plan.Brief) {
			b.Bedrooms.Min = 2
			avoid(b, "living", "bed-1", "dining", "bed-2")
			leave(brief, "bed-4", "family")
		}, []string{"unit A asks for 2 bedrooms: the house has 3", "unit B asks for 2 bedrooms of the same", "no work may touch bed-4"}, "each unit needs " + living},
	}
}

// ask is the brief of a sample as an impossible one has it.
func (i *impossibleBrief) ask(samples map[string]sample) (*plan.Building, *plan.Brief) {
	s := samples[i.sample]
	brief := *s.brief
	brief.Schemes = 1
	i.change(&brief.Units[0], &brief.Units[1], &brief)
	return s.building, &brief
}

// Impossible briefs for the samples: what the brief asks comes first and is
// proved to be the fewest demands that conflict; what every unit must have follows,
// as far as it was seen to matter.
func TestWhyTheSamplesCannotBePartedAsAsked(t *testing.T) {
	samples := sampleHouses(t)
	for _, tt := range impossibleBriefs() {
		b, brief := tt.ask(samples)
		a, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1})
		require.NoError(t, err)
		require.Equal(t, partition.Infeasible, a.Status, tt.name)
		assert.Equal(t, plan.SmallestConflict, a.WhyNotProof, tt.name)
		said := strings.Join(a.WhyNot, "\n")
		if !assert.GreaterOrEqual(t, len(a.WhyNot), len(tt.want), "%s: %s", tt.name, said) {
			continue
		}
		for i, sentence := range a.WhyNot {
			if i < len(tt.want) {
				assert.True(t, strings.HasPrefix(sentence, tt.want[i]), "%s: %q begins %q", tt.name, sentence, tt.want[i])
			} else {
				assert.Regexp(t, "^((each unit|unit A|unit B) needs |the rooms of a unit hang together|.* is reached through .* alone$)", sentence, tt.name)
			}
		}
		if tt.because != "" {
			assert.Contains(t, said, tt.because, tt.name)
		}
	}
}

// BenchmarkWhyNotOfTheSamples is each impossible brief of a sample from search to reason.
func BenchmarkWhyNotOfTheSamples(b *testing.B) {
	samples := sampleHouses(b)
	for _, tt := range impossibleBriefs() {
		house, brief := tt.ask(samples)
		b.Run(tt.sample+"/"+tt.name, func(b *testing.B) {
			for b.Loop() {
				if a, err := plan.Split(b.Context(), house, brief, plan.DefaultPrices(), plan.SplitOptions{}); err != nil || len(a.WhyNot) == 0 {
					b.Fatal(err, a)
				}
			}
		})
	}
}

// Demands that are said to conflict do; without any one of those that the brief
// asks, what every unit must have being kept, the others hold.
func TestWithoutOneDemandOfAConflictTheOthersHold(t *testing.T) {
	sizes := map[int]int{}
	for seed := range seeds(t, 30, 50) {
		h := housetest.Small(seed)
		b, brief := build(t, h), housetest.Demands(h, seed, true)
		brief.Cuts, brief.Schemes = false, 1
		if a := split(t, b, brief); len(a.Schemes) > 0 {
			continue
		}
		r, err := plan.ReasonOf(b, brief, plan.DefaultPrices())
		require.NoError(t, err)
		if len(r.Musts) == 0 {
			continue
		}
		require.True(t, r.Core.Minimal, "house %d: %v", seed, r.Core)
		kept := map[int]bool{}
		for _, i := range r.Core.Demands {
			kept[i] = true
		}
		status, err := r.Hold(kept)
		require.NoError(t, err)
		require.Equal(t, partition.Infeasible, status, "house %d: %v", seed, r.Core)
		asked := 0
		for i, must := range r.Musts {
			if kept[i] && !must {
				asked++
			}
		}
		if asked > 0 {
			for i, must := range r.Musts {
				kept[i] = kept[i] || must
			}
		}
		sizes[asked]++
		for _, i := range r.Core.Demands {
			if asked > 0 && r.Musts[i] {
				continue
			}
			kept[i] = false
			status, err := r.Hold(kept)
			require.NoError(t, err)
			require.Equal(t, partition.Proved, status, "house %d without demand %d", seed, i)
			kept[i] = true
		}
	}
	t.Log("sizes of conflicts:", sizes)
	assert.Greater(t, len(sizes), 1)
}
