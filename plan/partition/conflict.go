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

// ConflictOptions steer Conflict; the zero value looks as long as it takes.
type ConflictOptions struct {
	// Nodes bounds each question whether some demands hold together, in parts
	// of the search tree; Total bounds them all. What is not answered by then
	// is left open: see Core. The same problem gives the same answer.
	Nodes, Total int64
	// Known is a set known to conflict: only a smaller one is looked for.
	Known []int
	// Forms change each copy of the problem once demands are dropped, without
	// changing whether it has a scheme: what is not answered in one form within
	// Nodes is asked in the next. None is the same as one that changes nothing.
	Forms []func(*Problem)
}

// Core is a set of demands that cannot hold together.
type Core struct {
	Status Status // Infeasible where the demands conflict, Proved where they hold, Unknown
	// Demands are rising indices; none where there is no scheme even with
	// every demand dropped.
	Demands []int
	// Smallest is proved: no set of fewer demands conflicts. Of several as
	// small it is then the one with the earliest demands, unless it was Known.
	Smallest bool
	// Minimal is proved: without any one of them the others hold together.
	Minimal bool
}

// mostDemands is the size up to which a smallest conflict is looked for: more
// demands at once nobody surveys anyhow.
const mostDemands = 4

// Conflict finds a smallest set of demands that cannot hold together, all
// others being dropped. The error is for a malformed problem or for ctx ending.
//
// Every set of demands that is seen to hold leaves out something of every
// conflict; so a smallest set that has something of each remainder either
// conflicts, and no smaller one does, or holds, and is one more that is seen to
// (implicit hitting sets: Ignatiev, Previti, Liffiton, Marques-Silva, CP 2015).
// A set that holds is grown by all demands that its scheme meets too. Where that
// comes to no end, demands are dropped one by one instead, the last first.
func Conflict(ctx context.Context, p *Problem, demands []Demand, o ConflictOptions) (Core, error) {
	if err := p.Check(); err != nil {
		return Core{}, err
	}
	s := &conflictSearch{ctx: ctx, p: p, demands: demands, o: o}
	all := make([]int, len(demands))
	for i := range all {
		all[i] = i
	}
	core := slices.Clone(o.Known)
	if core == nil {
		switch status, err := s.ask(all); {
		case err != nil || status != Infeasible:
			return Core{Status: status}, err
		}
		core = all
	}
	switch status, err := s.ask(nil); {
	case err != nil:
		return Core{}, err
	case status == Infeasible:
		return Core{Status: Infeasible, Demands: []int{}, Smallest: true, Minimal: true}, nil
	case status == Unknown:
		s.open = append(s.open, nil)
	}
	out := Core{Status: Infeasible}
	var err error
	if core, out.Smallest, err = s.smallest(core); err != nil {
		return Core{}, err
	}
	if out.Smallest {
		out.Demands, out.Minimal = core, true
		return out, nil
	}
	if out.Demands, out.Minimal, err = s.shrink(core); err != nil {
		return Core{}, err
	}
	return out, nil
}

// askNodes is what a question costs beside its search, in parts of the tree:
// so that many easy ones come to an end too.
const askNodes = 10

// conflictSearch asks which demands hold together.
type conflictSearch struct {
	ctx     context.Context
	p       *Problem
	demands []Demand
	o       ConflictOptions
	held    [][]int // sets that hold together
	open    [][]int // sets of which that is not known
	nodes   int64
}

// relaxed is the problem with some of the demands alone, in one of its forms.
func (s *conflictSearch) relaxed(kept []int, form int) *Problem {
	q := s.p.clone()
	for i, d := range s.demands {
		if !slices.Contains(kept, i) {
			d.Relax(q)
		}
	}
	if len(s.o.Forms) > 0 {
		s.o.Forms[form](q)
	}
	return q
}

// ask tells whether some demands hold together: Proved, Infeasible or Unknown.
func (s *conflictSearch) ask(kept []int) (Status, error) {
	if slices.ContainsFunc(s.held, func(set []int) bool { return subset(kept, set) }) {
		return Proved, nil
	}
	for form := range max(1, len(s.o.Forms)) {
		most := s.o.Nodes
		if s.o.Total > 0 {
			left := s.o.Total - s.nodes
			if left <= 0 {
				return Unknown, nil
			}
			if most == 0 || left < most {
				most = left
			}
		}
		r, err := feasible(s.ctx, s.relaxed(kept, form), most)
		if err != nil {
			return Unknown, err
		}
		s.nodes += r.Nodes + askNodes
		switch {
		case len(r.Solutions) > 0:
			grown, err := s.grow(kept, r.Solutions[0].Labels)
			s.held = append(s.held, grown)
			return Proved, err
		case r.Status == Infeasible:
			return Infeasible, nil
		case s.ctx.Err() != nil:
			return Unknown, fmt.Errorf("partition: looking for a conflict: %w", context.Cause(s.ctx))
		}
	}
	return Unknown, nil
}

// grow adds the demands that a labelling meets beside those for which it was found.
func (s *conflictSearch) grow(kept []int, labels []Label) ([]int, error) {
	grown := slices.Clone(kept)
	for i := range s.demands {
		if slices.Contains(grown, i) {
			continue
		}
		more := append(slices.Clone(grown), i)
		slices.Sort(more)
		_, meets, err := Complete(s.relaxed(more, 0), labels)
		if err != nil {
			return nil, err
		}
		if meets {
			grown = more
		}
	}
	return grown, nil
}

func subset(part, set []int) bool {
	for _, i := range part {
		if !slices.Contains(set, i) {
			return false
		}
	}
	return true
}

// smallest looks for a conflict smaller than core; proved tells that there is
// none smaller than what it gives.
func (s *conflictSearch) smallest(core []int) (smallest []int, proved bool, err error) {
	for size := 1; size <= mostDemands && size < len(core); {
		set := s.hitting(size)
		if set == nil {
			size++
			continue
		}
		switch status, err := s.ask(set); {
		case err != nil:
			return nil, false, err
		case status == Infeasible:
			return set, len(s.open) == 0, nil
		case status == Unknown:
			if s.o.Total > 0 && s.nodes >= s.o.Total/3 {
				return core, false, nil // the rest is for shrink
			}
			s.open = append(s.open, set)
		}
	}
	return core, len(core) <= mostDemands+1 && len(s.open) == 0, nil
}

// hitting finds the earliest set of so many demands that has some demand beside
// each set that holds, or is open; nil where there is none.
func (s *conflictSearch) hitting(size int) []int {
	misses := make([][]bool, 0, len(s.held)+len(s.open))
	for _, set := range slices.Concat(s.held, s.open) {
		miss := make([]bool, len(s.demands))
		for i := range miss {
			miss[i] = !slices.Contains(set, i)
		}
		misses = append(misses, miss)
	}
	chosen := make([]int, 0, size)
	var choose func(from int, left [][]bool) bool
	choose = func(from int, left [][]bool) bool {
		if len(left) == 0 && len(chosen) == size {
			return true
		}
		if len(chosen) == size {
			return false
		}
		for i := from; i < len(s.demands); i++ {
			rest := slices.DeleteFunc(slices.Clone(left), func(miss []bool) bool { return miss[i] })
			chosen = append(chosen, i)
			if choose(i+1, rest) {
				return true
			}
			chosen = chosen[:len(chosen)-1]
		}
		return false
	}
	if !choose(0, misses) {
		return nil
	}
	return chosen
}

// shrink drops demands as long as the others conflict, at first many at a time
// and then one by one, the last first; minimal tells that the others are proved
// to hold without any one of them.
func (s *conflictSearch) shrink(core []int) (shrunk []int, minimal bool, err error) {
	for many := len(core) / 2; many >= 1; many /= 2 {
		minimal = true
		for to := len(core); to > 0; {
			from := max(0, to-many)
			without := slices.Delete(slices.Clone(core), from, to)
			status, err := s.ask(without)
			if err != nil {
				return nil, false, err
			}
			if status == Infeasible {
				core = without
			}
			minimal = minimal && status != Unknown
			to = from
		}
	}
	return core, minimal, nil
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
