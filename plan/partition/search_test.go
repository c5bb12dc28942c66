package partition_test

import (
	"context"
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

var (
	seedFlag  = flag.Uint64("seed", 1, "first seed of the random problems")
	seedsFlag = flag.Uint64("seeds", 3000, "number of random problems")
)

func solve(t testing.TB, p *partition.Problem, o partition.Options) partition.Result {
	t.Helper()
	r, err := partition.Solve(context.Background(), p, o)
	require.NoError(t, err)
	return r
}

// The search agrees with trying everything, on small problems with every
// feature there or not: on whether there is a scheme, on the prices of the
// best different ones, on whether there are more.
func TestSearchAgreesWithTryingEverything(t *testing.T) {
	counts := map[partition.Status]int{}
	for seed := *seedFlag; seed < *seedFlag+*seedsFlag; seed++ {
		p := randomProblem(seed)
		want := reference(p)
		k := 1 + int(seed%4)
		r := solve(t, p, partition.Options{Schemes: k, Workers: 1})
		counts[r.Status]++
		if len(want) == 0 {
			require.Equal(t, partition.Infeasible, r.Status, "seed %d", seed)
			require.Empty(t, r.Solutions)
			continue
		}
		require.Equal(t, partition.Proved, r.Status, "seed %d", seed)
		require.Equal(t, len(want) < k, r.Complete, "seed %d", seed)
		var got []partition.Price
		classes := map[string]bool{}
		for i := range r.Solutions {
			s := &r.Solutions[i]
			require.NoError(t, partition.Verify(p, s), "seed %d, scheme %d", seed, i)
			require.True(t, s.Proved)
			got = append(got, s.Price)
			classes[class(p, s.Labels, alike(p))] = true
		}
		require.Equal(t, want[:min(k, len(want))], got, "seed %d", seed)
		require.Len(t, classes, len(got), "seed %d: schemes that do not differ", seed)
	}
	assert.Greater(t, counts[partition.Proved], int(*seedsFlag)/4)
	assert.Greater(t, counts[partition.Infeasible], int(*seedsFlag)/20)
	t.Log(counts)
}
