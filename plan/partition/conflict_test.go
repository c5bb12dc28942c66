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

// dropping is a demand and what drops it.
type dropping struct {
	name  string
	relax func(*partition.Problem)
}

// droppings lists what can be dropped from any problem.
func droppings(p *partition.Problem) (demands []dropping) {
	add := func(name string, relax func(*partition.Problem)) { demands = append(demands, dropping{name, relax}) }
	for u := range p.Units {
		for f := range p.Functions {
			if p.Units[u].Need[f] > 0 {
				add(fmt.Sprintf("%s needs %d %s", partition.Label(u), p.Units[u].Need[f], p.Functions[f].Name),
					func(p *partition.Problem) { p.Units[u].Need[f] = 0 })
			}
		}
		if p.Units[u].MinArea > 0 {
			add(fmt.Sprintf("%s has at least %d", partition.Label(u), p.Units[u].MinArea),
				func(p *partition.Problem) { p.Units[u].MinArea = 0 })
		}
		if p.Units[u].NeedEntry {
			add(fmt.Sprintf("%s has its entry", partition.Label(u)), func(p *partition.Problem) { p.Units[u].NeedEntry = false })
		}
	}
	add("shares", func(p *partition.Problem) { p.ShareMin, p.ShareMax = 0, 1000 })
	return demands
}

// demandsOf are the demands of a problem; must tells which are musts.
func demandsOf(p *partition.Problem, must func(i int) bool) partition.Demands {
	all := droppings(p)
	d := partition.Demands{Problem: func(kept []int) *partition.Problem {
		q := p.Clone()
		for i := range all {
			if !slices.Contains(kept, i) {
				all[i].relax(q)
			}
		}
		return q
	}}
	for i := range all {
		d.Must = append(d.Must, must(i))
	}
	return d
}

func noMust(int) bool { return false }

// A conflict is impossible by itself and possible without any one of its
// demands, and no smaller set of demands is impossible: by trying everything.
func TestConflictIsASmallestImpossibleSet(t *testing.T) {
	sizes := map[int]int{}
	for seed := uint64(1); seed < fewer(400); seed++ {
		p := randomProblem(seed)
		asked := demandsOf(p, noMust)
		demands := asked.Must
		core, err := partition.Conflict(context.Background(), asked, partition.ConflictOptions{})
		require.NoError(t, err)
		require.Equal(t, randomProblem(seed), p, "the problem is left alone")
		possible := func(set []int) bool { return len(reference(asked.Problem(set))) > 0 }
		if core.Status == partition.Proved {
			require.True(t, len(reference(p)) > 0)
			continue
		}
		require.Equal(t, partition.Infeasible, core.Status)
		require.True(t, core.Smallest && core.Minimal, "seed %d", seed)
		set := core.Demands
		require.False(t, possible(set), "seed %d", seed)
		for i := range set {
			require.True(t, possible(slices.Delete(slices.Clone(set), i, i+1)), "seed %d", seed)
		}
		if len(set) > 1 {
			for i := range demands {
				require.True(t, possible([]int{i}), "seed %d: demand %d alone", seed, i)
			}
		}
		if len(set) > 2 {
			for i := range demands {
				for j := range i {
					require.True(t, possible([]int{j, i}), "seed %d: demands %d and %d", seed, j, i)
				}
			}
		}
		sizes[len(set)]++
	}
	assert.Positive(t, sizes[1])
	assert.Positive(t, sizes[2])
	t.Log(sizes)
}

// Where little may be looked at, what comes back conflicts all the same, and
// what is said of it holds.
func TestConflictFoundInAHurryConflicts(t *testing.T) {
	for seed := uint64(1); seed < fewer(200); seed++ {
		p := randomProblem(seed)
		asked := demandsOf(p, noMust)
		demands := asked.Must
		all := make([]int, len(demands))
		for i := range all {
			all[i] = i
		}
		if len(reference(p)) > 0 {
			continue
		}
		for _, o := range []partition.ConflictOptions{
			{Nodes: 1, Total: 15, Known: all}, {Nodes: 2, Total: 40, Known: all}, {Nodes: 5, Total: 200, Known: all}, {Known: all},
		} {
			core, err := partition.Conflict(context.Background(), asked, o)
			require.NoError(t, err)
			possible := func(set []int) bool { return len(reference(asked.Problem(set))) > 0 }
			require.False(t, possible(core.Demands), "seed %d", seed)
			if core.Minimal {
				for i := range core.Demands {
					require.True(t, possible(slices.Delete(slices.Clone(core.Demands), i, i+1)), "seed %d", seed)
				}
			}
			if core.Smallest && len(core.Demands) > 1 {
				for i := range demands {
					require.True(t, possible([]int{i}), "seed %d: demand %d alone", seed, i)
				}
			}
		}
	}
}

// Where some demands are musts, no fewer of the others conflict with all musts
// kept, none of the others can be spared, and what is given conflicts by itself.
func TestConflictDropsMustsLast(t *testing.T) {
	met := [2]int{}
	for seed := uint64(1); seed < 300; seed++ {
		p := randomProblem(seed)
		musts := demandsOf(p, func(i int) bool { return (seed+uint64(i))%2 == 0 })
		core, err := partition.Conflict(context.Background(), musts, partition.ConflictOptions{})
		require.NoError(t, err)
		if core.Status == partition.Proved {
			continue
		}
		require.True(t, core.Smallest && core.Minimal, "seed %d", seed)
		possible := func(set []int) bool {
			slices.Sort(set)
			return len(reference(musts.Problem(slices.Compact(set)))) > 0
		}
		var behind, asked []int
		for i, must := range musts.Must {
			if must {
				behind = append(behind, i)
			} else if slices.Contains(core.Demands, i) {
				asked = append(asked, i)
			}
		}
		require.False(t, possible(slices.Clone(core.Demands)), "seed %d", seed)
		for i := range asked {
			require.True(t, possible(append(slices.Delete(slices.Clone(asked), i, i+1), behind...)), "seed %d", seed)
		}
		if len(asked) > 0 {
			require.True(t, possible(slices.Clone(behind)), "seed %d", seed)
			met[0]++
		}
		if len(asked) > 1 {
			for i, must := range musts.Must {
				if !must {
					require.True(t, possible(append([]int{i}, behind...)), "seed %d: demand %d alone", seed, i)
				}
			}
			met[1]++
		}
	}
	assert.Positive(t, met[0])
	assert.Positive(t, met[1])
}

func TestConflictSaysWhichDemandsOfAHouse(t *testing.T) {
	p := readInstance(t, "t024_s1") // infeasible by its README
	demands := droppings(p)
	core, err := partition.Conflict(context.Background(), demandsOf(p, noMust), partition.ConflictOptions{})
	require.NoError(t, err)
	var names []string
	for _, i := range core.Demands {
		names = append(names, demands[i].name)
	}
	assert.Equal(t, []string{"B needs 1 entry", "shares"}, names)
	assert.True(t, core.Smallest)
}

func TestConflictOfAStoppedSearchIsAnError(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := readInstance(t, "t024_s1")
	_, err := partition.Conflict(ctx, demandsOf(p, noMust), partition.ConflictOptions{})
	assert.ErrorIs(t, err, context.Canceled)
}
