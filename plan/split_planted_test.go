package plan_test

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// Two units that were put together by opening what parts them come apart
// there: each complete, with no work but on the separation.
func TestTwoUnitsPutTogetherArePartedWhereTheyWereJoined(t *testing.T) {
	for seed := range seeds(t, 6, 20) {
		t.Run(strconv.FormatUint(seed, 10), func(t *testing.T) {
			planted := housetest.Plant(seed)
			b := build(t, planted.House)
			brief := twoBedroomsEach()
			brief.Share = append(brief.Share, "yard")
			brief.Schemes = 1
			brief.Rules = "none" // some of the bedrooms have no window
			a := split(t, b, brief)
			require.NotEmpty(t, a.Schemes, a.WhyNot)
			s := a.Schemes[0]

			called := map[string]plan.Owner{}
			for c, cell := range b.Cells {
				if unit := planted.Unit[cell.ID]; unit != "" {
					if _, ok := called[unit]; !ok {
						called[unit] = s.Owners[c]
					}
					require.Equal(t, called[unit], s.Owners[c], cell.ID)
				}
			}
			require.NotEqual(t, called["A"], called["B"])
			assert.Zero(t, unaccepted(s))
			assert.True(t, s.Proved)

			var sealed []string
			for _, p := range s.Passages {
				if p.State == plan.Sealed && p.Type != "open" {
					sealed = append(sealed, p.Of)
				}
				assert.NotEqual(t, plan.New, p.State)
			}
			slices.Sort(sealed)
			assert.Equal(t, planted.Joined, sealed)
			var walls [][2]string
			for _, w := range s.Walls {
				if w.State == plan.New && !w.Fence {
					walls = append(walls, w.Between)
				}
			}
			assert.Equal(t, planted.Open, walls)
			for _, w := range s.Works {
				assert.Contains(t, []string{
					"separating_wall", "upgrade_wall", "upgrade_floor", "seal_door", "seal_opening", "fence", "address_set",
				}, w.Kind)
			}
		})
	}
}
