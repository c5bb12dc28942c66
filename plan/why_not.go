package plan

import (
	"context"
	"fmt"

	"moiety/plan/partition"
)

// WhyNotProof says what is proved of the demands that cannot hold together.
type WhyNotProof string

// What is proved of conflicting demands, the most first. All of it is said of
// what the brief asks, on top of what every unit must have.
const (
	SmallestConflict WhyNotProof = "smallest" // no fewer demands conflict
	MinimalConflict  WhyNotProof = "minimal"  // without any one of them the others hold
	SomeConflict     WhyNotProof = "conflict" // they conflict; some may be beside the point
)

// How much is looked at to find out which demands conflict, in parts of the
// search tree: for each question whether some hold together, and for all.
const (
	whyNotNodes      = 2_000
	mostWhyNotNodes  = 8_000
	whyNotProofNodes = 2_000 // to carry a reason over to the divided house
)

// whyNot finds the smallest set of demands that cannot hold together and says
// each in a sentence. Counted are those of the brief; what every unit must have
// (a kitchen, a way in) stands behind them and is told as far as it matters.
// Demands that conflict by number and size alone, wherever the rooms lie, are
// the plainest reason: no larger set than of the others.
//
// Of a divided house the reason is first looked for in the undivided one, whose
// schemes the divided one has too: what conflicts there is the smallest set
// here, if it conflicts here.
func (m *model) whyNot(ctx context.Context) ([]string, WhyNotProof, error) {
	least := 0
	if m.whole != nil {
		core, byPlace, err := m.whole.reason(ctx, 0)
		if err != nil {
			return nil, "", err
		}
		if holds, err := m.impossible(ctx, core.Demands); err != nil || holds {
			return m.whole.saying(core.Demands, byPlace), proofOf(core), err
		}
		if core.Smallest {
			least = asked(m.demands(), core.Demands)
		}
	}
	core, byPlace, err := m.reason(ctx, least)
	if err != nil {
		return nil, "", err
	}
	return m.saying(core.Demands, byPlace), proofOf(core), nil
}

func proofOf(core partition.Core) WhyNotProof {
	switch {
	case core.Smallest:
		return SmallestConflict
	case core.Minimal:
		return MinimalConflict
	}
	return SomeConflict
}

// reason finds the smallest set of demands that conflict, and tells whether
// they do so by where rooms lie; so many demands are known to be in every conflict.
func (m *model) reason(ctx context.Context, least int) (core partition.Core, byPlace bool, err error) {
	demands := m.demands()
	plain, err := m.conflict(ctx, demands, nil, least, func(p *partition.Problem) {
		anywhere(p)
		forFree(p)
	})
	if err != nil {
		return core, false, err
	}
	// What conflicts wherever rooms lie conflicts where they do lie.
	known := plain.Demands
	if plain.Status != partition.Infeasible || len(known) == 0 {
		for i := range demands {
			known = append(known, i)
		}
	} else if asked(demands, known) == 0 {
		return plain, false, nil
	}
	core, err = m.conflict(ctx, demands, known, least, forFree, asPriced)
	if err != nil {
		return core, false, err
	}
	if plain.Status == partition.Infeasible && len(plain.Demands) > 0 && asked(demands, core.Demands) >= asked(demands, plain.Demands) {
		plain.Smallest, plain.Minimal = core.Smallest, core.Minimal
		return plain, false, nil
	}
	return core, true, nil
}

// asked counts those of some demands that are no musts.
func asked(demands []demand, some []int) int {
	n := 0
	for _, i := range some {
		if !demands[i].must {
			n++
		}
	}
	return n
}

// impossible tells whether it is found that nothing holds under some of the
// demands alone.
func (m *model) impossible(ctx context.Context, kept []int) (bool, error) {
	demands := m.demands()
	core, err := partition.Conflict(ctx, partition.Demands{
		Problem: func([]int) *partition.Problem { return m.stating(demands)(kept) },
	}, partition.ConflictOptions{
		Nodes: whyNotProofNodes, Forms: []func(*partition.Problem){forFree, asPriced},
	})
	if err != nil {
		return false, fmt.Errorf("plan: looking for the demands that conflict: %w", err)
	}
	return core.Status == partition.Infeasible, nil
}

// conflict finds the smallest set of demands that conflict, smaller than a known
// one if there is one, in forms of the problem.
func (m *model) conflict(ctx context.Context, demands []demand, known []int, least int, forms ...func(*partition.Problem)) (partition.Core, error) {
	of := partition.Demands{Problem: m.stating(demands)}
	for _, d := range demands {
		of.Must = append(of.Must, d.must)
	}
	core, err := partition.Conflict(ctx, of, partition.ConflictOptions{
		Nodes: whyNotNodes, Total: mostWhyNotNodes, Known: known, Least: least, Forms: forms,
	})
	if err != nil {
		return core, fmt.Errorf("plan: looking for the demands that conflict: %w", err)
	}
	return core, nil
}
