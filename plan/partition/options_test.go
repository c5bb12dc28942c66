package partition_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// A price that is known to be had changes nothing about the best scheme; a
// price below the best is had by none.
func TestOnlySchemesAtMostAsDearAreFound(t *testing.T) {
	found := 0
	for seed := uint64(1); seed < fewer(1000); seed++ {
		p := randomProblem(seed)
		free := solve(t, p, partition.Options{Workers: 1})
		if len(free.Solutions) == 0 {
			dear := partition.Price{Shared: 1000, Money: 1 << 40}
			r := solve(t, p, partition.Options{Workers: 1, AtMost: &dear})
			require.Equal(t, partition.Infeasible, r.Status, "seed %d", seed)
			continue
		}
		found++
		best := free.Solutions[0]
		require.Equal(t, best.Price, free.Bound, "seed %d", seed)
		for _, most := range []partition.Price{best.Price, {Shared: best.Price.Shared, Money: 1 << 40}, {Shared: best.Price.Shared + 1}} {
			r := solve(t, p, partition.Options{Workers: 1, AtMost: &most})
			require.Equal(t, partition.Proved, r.Status, "seed %d", seed)
			require.Equal(t, best, r.Solutions[0], "seed %d", seed)
		}
		if best.Price == (partition.Price{}) {
			continue
		}
		below := best.Price
		if below.Money--; below.Money < 0 {
			below = partition.Price{Shared: below.Shared - 1, Money: 1 << 40}
		}
		r := solve(t, p, partition.Options{Workers: 1, AtMost: &below})
		require.Equal(t, partition.Infeasible, r.Status, "seed %d", seed)
		require.Empty(t, r.Solutions)
		require.Equal(t, below.Shared, r.Bound.Shared, "seed %d", seed)
	}
	assert.Positive(t, found)
}

// A search that stops after some parts gives the same answer each time, and a
// bound that holds.
func TestASearchOfSoManyPartsIsTheSameEachTime(t *testing.T) {
	for _, name := range []string{"h048_s0", "h064_s0"} {
		p := readInstance(t, name)
		best := solve(t, p, partition.Options{})
		require.Equal(t, partition.Proved, best.Status)
		for _, nodes := range []int64{1, 3, 10, 30} {
			o := partition.Options{Workers: 1, Nodes: nodes}
			r := solve(t, p, o)
			require.Equal(t, r, solve(t, p, o))
			assert.LessOrEqual(t, r.Nodes, nodes)
			assert.NotEqual(t, partition.Infeasible, r.Status)
			assert.False(t, best.Solutions[0].Price.Less(r.Bound), "%s after %d: %v", name, nodes, r.Bound)
		}
	}
}
