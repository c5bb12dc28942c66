package partition

import (
	"context"
	"fmt"
	"slices"
)

// Demand is something asked of a problem that can be dropped from it.
type Demand struct {
	Name string
	// Relax drops the demand from a copy of the problem. Relaxations may be
	// applied together, in any order.
	Relax func(*Problem)
}

// Conflict returns a smallest set of demands, as rising indices, that cannot
// hold together: without any one of them a scheme exists for the others of the
// set, all further demands dropped. It is nil where the problem has a scheme,
// and empty where it has none even with every demand dropped.
//
// Demands are dropped one by one, the last first, so that of several such
// sets the one with earlier demands is found; a set of one or two demands is
// looked for beforehand. The error is for a malformed problem or a search that
// ctx stopped: a set that is not proved is not returned.
func Conflict(ctx context.Context, p *Problem, demands []Demand) ([]int, error) {
	all := make([]int, len(demands))
	for i := range all {
		all[i] = i
	}
	if possible, err := p.possible(ctx, demands, all); err != nil || possible {
		return nil, err
	}
	if possible, err := p.possible(ctx, demands, nil); err != nil || !possible {
		return []int{}, err
	}
	core := slices.Clone(all)
	for i := len(core) - 1; i >= 0; i-- {
		without := slices.Delete(slices.Clone(core), i, i+1)
		possible, err := p.possible(ctx, demands, without)
		if err != nil {
			return nil, err
		}
		if !possible {
			core = without
		}
	}
	return p.smaller(ctx, demands, core)
}

// smaller looks for a conflict of one or two demands, where core has more.
func (p *Problem) smaller(ctx context.Context, demands []Demand, core []int) ([]int, error) {
	try := func(set ...int) (bool, error) {
		if len(set) >= len(core) {
			return false, nil
		}
		possible, err := p.possible(ctx, demands, set)
		return !possible, err
	}
	for i := range demands {
		if found, err := try(i); found || err != nil {
			return []int{i}, err
		}
	}
	if len(core) <= 2 {
		return core, nil
	}
	for i := range demands {
		for j := i + 1; j < len(demands); j++ {
			if found, err := try(i, j); found || err != nil {
				return []int{i, j}, err
			}
		}
	}
	return core, nil
}

// possible tells whether a scheme exists under the kept demands alone.
func (p *Problem) possible(ctx context.Context, demands []Demand, kept []int) (bool, error) {
	relaxed := p.clone()
	for i, d := range demands {
		if !slices.Contains(kept, i) {
			d.Relax(relaxed)
		}
	}
	result, err := Solve(ctx, relaxed, Options{})
	if err != nil {
		return false, err
	}
	switch {
	case result.Status == Infeasible:
		return false, nil
	case len(result.Solutions) > 0:
		return true, nil
	}
	return false, fmt.Errorf("partition: looking for a conflict: %w", context.Cause(ctx))
}

// clone copies the problem so that a relaxation of the copy leaves p alone.
func (p *Problem) clone() *Problem {
	out := *p
	out.Cells = slices.Clone(p.Cells)
	for i := range out.Cells {
		out.Cells[i].Host = slices.Clone(p.Cells[i].Host)
	}
	out.Links = slices.Clone(p.Links)
	out.Functions = slices.Clone(p.Functions)
	for u := range out.Units {
		out.Units[u].Need = slices.Clone(p.Units[u].Need)
		out.Units[u].Lack = slices.Clone(p.Units[u].Lack)
	}
	return &out
}
