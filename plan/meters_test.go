package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

// metered is the house of two flats with meters at its outer wall.
func metered(t *testing.T, uses ...string) *plan.House {
	t.Helper()
	h := *twoFlats(t)
	h.Fixtures = slices.Clone(h.Fixtures)
	for i, use := range uses {
		h.Fixtures = append(h.Fixtures, plan.Fixture{ID: "meter-" + string(rune('a'+i)), Use: use, Level: 1, At: geom.FromMetres(0.3+0.4*float64(i), 3.5)})
	}
	return &h
}

func TestEachUnitPaysByAMeterOfItsOwn(t *testing.T) {
	for _, c := range []struct {
		name   string
		meters []string
		brief  string
		want   []string // what the new ones stand beside
		shared int
	}{
		{"none was surveyed", nil, "", nil, 0},
		{"one of each", []string{"electric_meter", "gas_meter"}, "", []string{"meter-a", "meter-b"}, 0},
		{"two already", []string{"electric_meter", "electric_meter"}, "", nil, 0},
		{"gas shared", []string{"electric_meter", "gas_meter"}, "share: [gas_meter]", []string{"meter-a"}, 1},
		{"one shared by its id", []string{"electric_meter"}, "share: [meter-a]", nil, 1},
		{"no gas is burnt", []string{"electric_meter", "gas_meter"}, "fuel: none", []string{"meter-a"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			brief := readBrief(t, c.brief)
			plain := bestScheme(t, metered(t), readBrief(t, strings.ReplaceAll(c.brief, "meter-a", "electric_meter")))
			s := bestScheme(t, metered(t, c.meters...), brief)
			var got []string
			for _, w := range s.Works {
				if w.Kind == "new_meter" {
					got = append(got, w.Of)
				}
			}
			assert.Equal(t, c.want, got)
			shared := 0
			for _, e := range s.Shared {
				if e.Use == "electric_meter" || e.Use == "gas_meter" {
					assert.True(t, e.Accepted)
					shared++
				}
			}
			assert.Equal(t, c.shared, shared)
			require.Equal(t, len(plain.Shared), len(s.Shared)-shared)
			assert.InDelta(t, plain.Cost.Total+float64(len(c.want))*plan.DefaultPrices().NewMeter, s.Cost.Total, 0.01)
			assert.InDelta(t, s.Cost.Total, s.Bound, 0.005, "and the proof has them")
		})
	}
}
