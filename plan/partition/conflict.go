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
// sets the one with earlier demands is found; then a set of one or two demands
// is looked for, if that would be smaller. When ctx ends during the latter the
// set in hand is returned, which is minimal. The error is for a malformed
// problem or for ctx ending earlier: a set that is not proved is not returned.
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
	smaller, err := p.smaller(ctx, demands, core)
	if err != nil && ctx.Err() != nil {
		return core, nil
	}
	return smaller, err
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
		if found, err := try(i); err != nil {
			return nil, err
		} else if found {
			return []int{i}, nil
		}
	}
	if len(core) <= 2 {
		return core, nil
	}
	for i := range demands {
		for j := i + 1; j < len(demands); j++ {
			if found, err := try(i, j); err != nil {
				return nil, err
			} else if found {
				return []int{i, j}, nil
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
	status, err := feasible(ctx, relaxed)
	switch {
	case err != nil:
		return false, err
	case status == Infeasible:
		return false, nil
	case status != Unknown:
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
