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

// demandsOf lists what can be dropped from any problem.
func demandsOf(p *partition.Problem) (demands []partition.Demand) {
	add := func(name string, relax func(*partition.Problem)) {
		demands = append(demands, partition.Demand{Name: name, Relax: relax})
	}
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

// relaxed is the problem with only the demands of the set left.
func relaxed(t *testing.T, seed uint64, set []int) *partition.Problem {
	t.Helper()
	p := randomProblem(seed)
	for i := range p.Units { // own slices, to be changed
		p.Units[i].Need = slices.Clone(p.Units[i].Need)
	}
	for i, d := range demandsOf(randomProblem(seed)) {
		if !slices.Contains(set, i) {
			d.Relax(p)
		}
	}
	return p
}

// A conflict is impossible by itself and possible without any one of its
// demands, and no smaller set of demands is impossible: by trying everything.
func TestConflictIsASmallestImpossibleSet(t *testing.T) {
	sizes := map[int]int{}
	for seed := uint64(1); seed < fewer(400); seed++ {
		p := randomProblem(seed)
		demands := demandsOf(p)
		core, err := partition.Conflict(context.Background(), p, demands, partition.ConflictOptions{})
		require.NoError(t, err)
		require.Equal(t, randomProblem(seed), p, "the problem is left alone")
		possible := func(set []int) bool { return len(reference(relaxed(t, seed, set))) > 0 }
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
		demands := demandsOf(p)
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
			core, err := partition.Conflict(context.Background(), p, demands, o)
			require.NoError(t, err)
			possible := func(set []int) bool { return len(reference(relaxed(t, seed, set))) > 0 }
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

func TestConflictSaysWhichDemandsOfAHouse(t *testing.T) {
	p := readInstance(t, "t024_s1") // infeasible by its README
	demands := demandsOf(p)
	core, err := partition.Conflict(context.Background(), p, demands, partition.ConflictOptions{})
	require.NoError(t, err)
	var names []string
	for _, i := range core.Demands {
		names = append(names, demands[i].Name)
	}
	assert.Equal(t, []string{"B needs 1 entry", "shares"}, names)
	assert.True(t, core.Smallest)
}

func TestConflictOfAStoppedSearchIsAnError(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := readInstance(t, "t024_s1")
	_, err := partition.Conflict(ctx, p, demandsOf(p), partition.ConflictOptions{})
	assert.ErrorIs(t, err, context.Canceled)
}
