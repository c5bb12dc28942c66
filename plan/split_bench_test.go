package plan_test

import (
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// BenchmarkSplit measures a sample from its building to its schemes.
func BenchmarkSplit(b *testing.B) {
	samples := sampleHouses(b)
	samples["duplex"] = sample{duplex(b), twoBedroomsEach()}
	for _, name := range slices.Sorted(maps.Keys(samples)) {
		b.Run(name, func(b *testing.B) {
			s := samples[name]
			b.ReportAllocs()
			for b.Loop() {
				// Built anew: what a building remembers of its rooms counts too.
				b.StopTimer()
				building := build(b, s.building.House)
				b.StartTimer()
				a, err := plan.Split(b.Context(), building, s.brief, plan.DefaultPrices(), plan.SplitOptions{})
				require.NoError(b, err)
				require.NotEmpty(b, a.Schemes)
				b.ReportMetric(float64(a.Nodes), "nodes")
			}
		})
	}
}

// BenchmarkWhyNot measures how long it takes to say that there is no scheme.
func BenchmarkWhyNot(b *testing.B) {
	brief := nothingAsked()
	brief.Units[0].Bedrooms.Min, brief.Units[1].Bedrooms.Min = 1, 2
	building := build(b, pair().House())
	for b.Loop() {
		a, err := plan.Split(b.Context(), building, brief, plan.DefaultPrices(), plan.SplitOptions{})
		require.NoError(b, err)
		require.NotEmpty(b, a.WhyNot)
	}
}

// BenchmarkGeneratedHouses measures houses made by rule: the split of two
// complete units put together, and how building grows with the rooms.
func BenchmarkGeneratedHouses(b *testing.B) {
	b.Run("split of two planted units", func(b *testing.B) {
		planted := housetest.Plant(1)
		brief := twoBedroomsEach()
		brief.Schemes = 1
		for b.Loop() {
			a, err := plan.Split(b.Context(), build(b, planted.House), brief, plan.DefaultPrices(), plan.SplitOptions{})
			require.NoError(b, err)
			require.NotEmpty(b, a.Schemes)
		}
	})
	for _, rooms := range [...]int{75, 150, 300} {
		h := housetest.Corridors(rooms)
		b.Run("build of "+h.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				build(b, h)
			}
		})
	}
}

// BenchmarkStating measures the statement of the problem apart from its
// solution, for a house of 75 rooms.
func BenchmarkStating(b *testing.B) {
	h := housetest.Corridors(75)
	brief := plan.DefaultBrief()
	for b.Loop() {
		b.StopTimer()
		building := build(b, h)
		b.StartTimer()
		plan.ProblemOf(building, brief, plan.DefaultPrices())
	}
}
