package housetest_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func TestSmallHousesAreHousesThatTheirBriefsFit(t *testing.T) {
	flights, ground, bare := 0, 0, 0
	for seed := range uint64(200) {
		h := housetest.Small(seed)
		b, err := plan.Build(h)
		require.NoError(t, err, "seed %d", seed)
		require.NoError(t, housetest.Demands(h, seed, true).Check(h), "seed %d", seed)
		owned := 0
		for c, reached := range b.Reached() {
			if reached && !b.Cells[c].Public {
				owned++
			}
		}
		require.LessOrEqual(t, owned, 15, "seed %d", seed)
		flights += len(h.Stairs)
		for _, s := range h.Spaces {
			if s.Outdoor {
				ground++
			}
		}
		if h.Levels[0].ID != "site" {
			bare++
		}
	}
	require.Positive(t, flights)
	require.Positive(t, ground)
	require.Positive(t, bare, "houses without any ground surveyed")
}
