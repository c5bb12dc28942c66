package partition_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// otherwise gives the problems that together hold all labellings but those that
// agree with a list.
func otherwise(problems []*partition.Problem, list []partition.Ownership) (out []*partition.Problem) {
	for _, p := range problems {
		for i := range list {
			q := p.Clone()
			empty := false
			for k, o := range list[:i+1] {
				c := &q.Cells[o.Cell]
				if k == i {
					c.Allowed &^= 1 << o.Label
				} else {
					c.Allowed &= 1 << o.Label
				}
				empty = empty || c.Allowed == 0
			}
			if !empty {
				out = append(out, q)
			}
		}
	}
	return out
}

// Leaving out one way after the other to label some cells, by trying everything
// that is left; once with the units told apart and once as they come.
func TestLabelsThatAreLeftOut(t *testing.T) {
	left, ended, alike := 0, 0, 0
	for seed := uint64(1); seed < fewer(500); seed++ {
		p := randomProblem(seed)
		mirrored := partition.Symmetric(p)
		var cells []int
		for c := range p.Cells {
			if !p.Cells[c].Public && (uint64(c)+seed)%3 != 0 {
				cells = append(cells, c)
			}
		}
		if len(cells) == 0 {
			continue
		}
		rest := []*partition.Problem{p}
		var except [][]partition.Ownership
		for step := range 4 {
			r, err := partition.Solve(context.Background(), p, partition.Options{Workers: 1, Except: except})
			require.NoError(t, err)
			var want *partition.Price
			for _, q := range rest {
				for shared, money := range byShared(q) {
					if price := (partition.Price{Shared: shared, Money: money}); want == nil || price.Less(*want) {
						want = &price
					}
				}
			}
			if want == nil {
				require.Equal(t, partition.Infeasible, r.Status, "seed %d, step %d", seed, step)
				ended++
				break
			}
			require.Equal(t, partition.Proved, r.Status, "seed %d, step %d", seed, step)
			s := r.Solutions[0]
			require.Equal(t, *want, s.Price, "seed %d, step %d", seed, step)
			require.NoError(t, partition.Verify(p, &s))
			within, err := partition.SolveWithin(context.Background(), p, want.Shared, partition.Options{Workers: 1, Except: except})
			require.NoError(t, err)
			require.Equal(t, want.Money, within.Solutions[0].Price.Money, "seed %d, step %d", seed, step)
			var list, mirror []partition.Ownership
			for _, c := range cells {
				o := partition.Ownership{Cell: c, Label: s.Labels[c]}
				list = append(list, o)
				if o.Label != partition.Common {
					o.Label = 1 - o.Label
				}
				mirror = append(mirror, o)
			}
			except = append(except, list)
			rest = otherwise(rest, list)
			if mirrored {
				alike++
				rest = otherwise(rest, mirror)
			}
			require.False(t, slices.ContainsFunc(except[:step], func(old []partition.Ownership) bool { return slices.Equal(old, list) }))
			left++
		}
	}
	t.Log(left, "left out,", alike, "with mirror images;", ended, "to the end")
	assert.Positive(t, left)
	assert.Positive(t, ended)
	assert.Positive(t, alike)
}
