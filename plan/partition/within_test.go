package partition_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// byShared tries everything and gives, for every number of shared elements
// that a scheme can have, the least money of one.
func byShared(p *partition.Problem) map[int]partition.Money {
	least := map[int]partition.Money{}
	e := exhaustive{p: p, labels: make([]partition.Label, len(p.Cells)), best: map[string]partition.Price{}}
	for i, l := range p.Links {
		if !l.Open && l.Door != partition.Impossible {
			e.closed = append(e.closed, i)
		}
	}
	e.told = func(price partition.Price) {
		if old, ok := least[price.Shared]; !ok || price.Money < old {
			least[price.Shared] = price.Money
		}
	}
	e.label(0)
	return least
}

// cheapest is the least money with so many shared elements at most.
func cheapest(least map[int]partition.Money, shared int) (money partition.Money, ok bool) {
	for s, m := range least {
		if s <= shared && (!ok || m < money) {
			money, ok = m, true
		}
	}
	return money, ok
}

func TestTheLeastMoneyWithinSoManySharedElementsByTryingEverything(t *testing.T) {
	between := 0
	for seed := uint64(1); seed < fewer(1500); seed++ {
		p := randomProblem(seed)
		least := byShared(p)
		free, _ := cheapest(least, 1000)
		for shared := range 5 {
			want, ok := cheapest(least, shared)
			r, err := partition.SolveWithin(context.Background(), p, shared, partition.Options{Workers: 1})
			require.NoError(t, err)
			require.Equal(t, randomProblem(seed), p, "the problem is left alone")
			if !ok {
				require.Equal(t, partition.Infeasible, r.Status, "seed %d, %d shared", seed, shared)
				continue
			}
			require.Equal(t, partition.Proved, r.Status, "seed %d, %d shared", seed, shared)
			s := r.Solutions[0]
			require.Equal(t, want, s.Price.Money, "seed %d, %d shared", seed, shared)
			require.LessOrEqual(t, s.Price.Shared, shared)
			s.Bound = s.Price // Verify knows only the order of prices
			require.NoError(t, partition.Verify(p, &s), "seed %d, %d shared", seed, shared)
			if want > free {
				between++
			}
			most := partition.Price{Money: want}
			r, err = partition.SolveWithin(context.Background(), p, shared, partition.Options{Workers: 1, AtMost: &most})
			require.NoError(t, err)
			require.Equal(t, partition.Proved, r.Status, "seed %d, %d shared", seed, shared)
			if most.Money--; most.Money >= 0 {
				r, err = partition.SolveWithin(context.Background(), p, shared, partition.Options{Workers: 1, AtMost: &most})
				require.NoError(t, err)
				require.Equal(t, partition.Infeasible, r.Status, "seed %d, %d shared", seed, shared)
			}
		}
	}
	assert.Positive(t, between, "how often fewer shared elements cost money")
}

// A search that is stopped has a bound that holds.
func TestABoundWithinSoManySharedElementsHolds(t *testing.T) {
	for seed := range uint64(40) {
		p := houseLike(seed, 18)
		for shared := range 3 {
			best, err := partition.SolveWithin(context.Background(), p, shared, partition.Options{Workers: 1})
			require.NoError(t, err)
			for _, nodes := range []int64{1, 5, 20} {
				r, err := partition.SolveWithin(context.Background(), p, shared, partition.Options{Workers: 1, Nodes: nodes})
				require.NoError(t, err)
				if best.Status == partition.Infeasible {
					require.Contains(t, []partition.Status{partition.Infeasible, partition.Unknown}, r.Status)
					continue
				}
				require.NotEqual(t, partition.Infeasible, r.Status, "seed %d", seed)
				require.LessOrEqual(t, r.Bound.Money, best.Solutions[0].Price.Money, "seed %d", seed)
				if r.Status == partition.Proved {
					require.Equal(t, best.Solutions[0].Price.Money, r.Solutions[0].Price.Money, "seed %d", seed)
				}
			}
		}
	}
}
