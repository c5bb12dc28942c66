package partition_test

import (
	"context"
	"flag"
	"fmt"
	"math/bits"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

var (
	seedFlag   = flag.Uint64("seed", 1, "first seed of the random problems")
	seedsFlag  = flag.Uint64("seeds", 10000, "number of random problems")
	housesFlag = flag.Uint64("houses", 25, "number of random small houses")
)

func solve(t testing.TB, p *partition.Problem, o partition.Options) partition.Result {
	t.Helper()
	r, err := partition.Solve(context.Background(), p, o)
	require.NoError(t, err)
	return r
}

// agree compares the search with trying everything: on whether there is a
// scheme, on the prices of the best different ones, on whether there are more.
func agree(t *testing.T, p *partition.Problem, k int) partition.Status {
	t.Helper()
	want := reference(p)
	r := solve(t, p, partition.Options{Schemes: k, Workers: 1})
	if len(want) == 0 {
		require.Equal(t, partition.Infeasible, r.Status)
		require.Empty(t, r.Solutions)
		return r.Status
	}
	require.Equal(t, partition.Proved, r.Status)
	require.Equal(t, len(want) < k, r.Complete)
	classes := map[string]bool{}
	for i := range r.Solutions {
		s := &r.Solutions[i]
		require.NoError(t, partition.Verify(p, s), "scheme %d", i)
		require.True(t, s.Proved)
		classes[class(p, s.Labels, alike(p))] = true
	}
	require.Equal(t, want[:min(k, len(want))], prices(r))
	require.Len(t, classes, len(r.Solutions), "schemes that do not differ")
	return r.Status
}

// fewer is how many of the random problems are looked at where time is short.
func fewer(n uint64) uint64 {
	if testing.Short() {
		return n / 10
	}
	return n
}

// Small problems have every feature, there or not.
func TestSearchAgreesWithTryingEverything(t *testing.T) {
	counts := map[partition.Status]int{}
	seeds := fewer(*seedsFlag)
	for seed := *seedFlag; seed < *seedFlag+seeds; seed++ {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			counts[agree(t, randomProblem(seed), 1+int(seed%4))]++
		})
	}
	assert.Greater(t, counts[partition.Proved], int(seeds)/4)
	assert.Greater(t, counts[partition.Infeasible], int(seeds)/20)
	t.Log(counts)
}

// Small houses are nearer to what the bounds are made for.
func TestSearchAgreesWithTryingEverythingOnSmallHouses(t *testing.T) {
	counts := map[partition.Status]int{}
	houses := fewer(*housesFlag)
	for seed := *seedFlag; seed < *seedFlag+houses; seed++ {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			p := houseLike(seed, 7+int(seed%4))
			if tries(p) > 60_000 {
				t.Skip("too many to try")
			}
			counts[agree(t, p, 1+int(seed%6))]++
		})
	}
	assert.Greater(t, counts[partition.Proved], int(houses)/4)
	t.Log(counts)
}

// tries is how many sets of labels and doors the reference looks at, at most.
func tries(p *partition.Problem) int {
	n := 1
	for _, c := range p.Cells {
		if !c.Public {
			n = min(n*bits.OnesCount8(uint8(c.Allowed)), 1<<40)
		}
	}
	for _, l := range p.Links {
		if !l.Open && l.Door != partition.Impossible {
			n = min(n*2, 1<<40)
		}
	}
	return n
}
