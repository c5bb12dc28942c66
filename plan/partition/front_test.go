package partition_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// cornered lists the problems that together make a corner: what is counted is
// hosts of the first function, parted between the units in every way.
func cornered(p *partition.Problem, c partition.Corner) []*partition.Problem {
	var out []*partition.Problem
	for a := p.Units[0].Need[0]; a <= c.Count-p.Units[1].Need[0]; a++ {
		q := *p
		for u, n := range []int{a, c.Count - a} {
			q.Units[u].Need = slices.Clone(p.Units[u].Need)
			q.Units[u].Lack = slices.Clone(p.Units[u].Lack)
			q.Units[u].Need[0] = n
			q.Units[u].Lack[0].Money = partition.Impossible
		}
		q.ShareMin, q.ShareMax = max(p.ShareMin, 500-c.Off), min(p.ShareMax, 500+c.Off)
		if q.ShareMin <= q.ShareMax {
			out = append(out, &q)
		}
	}
	return out
}

// measured gives what a scheme reaches.
func measured(p *partition.Problem, s *partition.Solution, g partition.Grid) partition.Corner {
	c := partition.Corner{Shared: s.Price.Shared}
	var area [2]int64
	for i, l := range s.Labels {
		if l != partition.Common {
			area[l] += p.Cells[i].Area
		}
	}
	for _, hosts := range s.Hosts {
		c.Count += len(hosts[0])
	}
	for _, off := range slices.Sorted(slices.Values(g.Offs)) {
		all := area[0] + area[1]
		if c.Off = off; 1000*area[0] >= int64(500-off)*all && 1000*area[0] <= int64(500+off)*all {
			break
		}
	}
	return c
}

// cornerSolver solves the corners of a problem.
func cornerSolver(t *testing.T, p *partition.Problem, g partition.Grid) partition.FrontSolver {
	return func(ctx context.Context, c partition.Corner, known *partition.Point) (partition.Found, error) {
		found := partition.Found{None: true}
		for _, q := range cornered(p, c) {
			var r partition.Result
			var err error
			if c.Shared == partition.FewestShared {
				r, err = partition.Solve(ctx, q, partition.Options{Workers: 1})
			} else {
				o := partition.Options{Workers: 1}
				if known != nil {
					o.AtMost = &partition.Price{Money: known.Money}
				}
				r, err = partition.SolveWithin(ctx, q, c.Shared, o)
			}
			require.NoError(t, err)
			for i := range r.Solutions {
				s := &r.Solutions[i]
				point := partition.Point{Corner: measured(q, s, g), Money: s.Price.Money, Bound: s.Price.Money, Proved: true, Of: s}
				if old := found.Point; old == nil || c.Shared == partition.FewestShared && point.Shared < old.Shared ||
					(c.Shared != partition.FewestShared || point.Shared == old.Shared) && point.Money < old.Money {
					found = partition.Found{Point: &point}
				}
			}
		}
		return found, nil
	}
}

// The front of small problems: no point dominates another, and within every
// corner of the grid the cheapest point is as cheap as anything found by
// trying everything.
func TestTheFrontIsCompleteByTryingEverything(t *testing.T) {
	points, corners, sizes := 0, 0, map[int]int{}
	for seed := uint64(1); seed < fewer(600); seed++ {
		p := randomProblem(seed)
		if len(p.Functions) == 0 {
			continue
		}
		asked := p.Units[0].Need[0] + p.Units[1].Need[0]
		grid := partition.Grid{Counts: []int{asked, asked + 1, asked + 2}, Offs: []int{500, 200, 80}, More: 3}
		front, err := partition.FindFront(context.Background(), grid, cornerSolver(t, p, grid))
		require.NoError(t, err)
		require.True(t, front.Complete)
		for i, a := range front.Points {
			for j, b := range front.Points {
				dominates := a.Money <= b.Money && a.Shared <= b.Shared && a.Count >= b.Count && a.Off <= b.Off
				require.False(t, i != j && dominates, "seed %d: %v before %v", seed, a, b)
			}
		}
		points += len(front.Points)
		sizes[len(front.Points)]++
		for _, count := range grid.Counts {
			for _, off := range grid.Offs {
				least := map[int]partition.Money{}
				for _, q := range cornered(p, partition.Corner{Count: count, Off: off}) {
					for shared, money := range byShared(q) {
						if old, ok := least[shared]; !ok || money < old {
							least[shared] = money
						}
					}
				}
				fewest := 0
				for ; fewest < 20; fewest++ {
					if _, ok := cheapest(least, fewest); ok {
						break
					}
				}
				for shared := range fewest + grid.More + 1 {
					want, ok := cheapest(least, shared)
					best := partition.Money(-1)
					for _, a := range front.Points {
						if a.Shared <= shared && a.Count >= count && a.Off <= off && (best < 0 || a.Money < best) {
							best = a.Money
						}
					}
					where := fmt.Sprintf("seed %d: %d counted, %d off, %d shared", seed, count, off, shared)
					if !ok {
						require.EqualValues(t, -1, best, where)
						continue
					}
					corners++
					require.Equal(t, want, best, where)
				}
			}
		}
	}
	t.Log(points, "points for", corners, "corners; fronts of", sizes)
	assert.Positive(t, points)
}

// A front whose solver gives up says which corners are open.
func TestAFrontThatIsNotSettledSaysSo(t *testing.T) {
	grid := partition.Grid{Counts: []int{1}, Offs: []int{500, 100}}
	front, err := partition.FindFront(context.Background(), grid, func(_ context.Context, c partition.Corner, _ *partition.Point) (partition.Found, error) {
		if c.Off == 100 {
			return partition.Found{}, nil
		}
		return partition.Found{Point: &partition.Point{Corner: partition.Corner{Count: 1, Off: 500}, Money: 10, Bound: 7}}, nil
	})
	require.NoError(t, err)
	assert.False(t, front.Complete)
	assert.Equal(t, []partition.Corner{{Shared: partition.FewestShared, Count: 1, Off: 500}, {Shared: partition.FewestShared, Count: 1, Off: 100}}, front.Open)
	require.Len(t, front.Points, 1)
	assert.EqualValues(t, 7, front.Points[0].Bound)
}
