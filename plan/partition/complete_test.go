package partition_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// The best labels complete to the best scheme; no others to a cheaper one.
func TestLabelsCompleteToTheirCheapestScheme(t *testing.T) {
	completed := 0
	for seed := range uint64(300) {
		p := randomProblem(seed)
		best := solve(t, p, partition.Options{})
		if best.Status != partition.Proved {
			continue
		}
		s, ok, err := partition.Complete(p, best.Solutions[0].Labels)
		require.NoError(t, err)
		require.True(t, ok)
		require.Equal(t, best.Solutions[0].Price, s.Price)
		r := rand.New(rand.NewPCG(seed, 3))
		for range 10 {
			labels := make([]partition.Label, len(p.Cells))
			for c := range labels {
				labels[c] = partition.Label(r.IntN(3))
				if p.Cells[c].Public {
					labels[c] = partition.Common
				}
			}
			s, ok, err := partition.Complete(p, labels)
			require.NoError(t, err)
			if ok {
				completed++
				require.NoError(t, partition.Verify(p, &s))
				require.False(t, s.Price.Less(best.Solutions[0].Price))
			}
		}
	}
	assert.Greater(t, completed, 30)
	_, _, err := partition.Complete(twoRooms(), nil)
	assert.ErrorContains(t, err, "0 labels for 3 cells")
}
