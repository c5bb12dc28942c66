package partition

import (
	"context"
	"fmt"
	"slices"
)

// Demands are what is asked of a problem, each of which can be dropped.
type Demands struct {
	// Must marks, per demand, what stands behind the others: it is kept while
	// those are dropped, and dropped itself only to see what of it matters to them.
	Must []bool
	// Problem states the problem with some of the demands alone, given by rising
	// indices. Each is its caller's own. With fewer demands there are no fewer schemes.
	Problem func(kept []int) *Problem
}

// ConflictOptions steer Conflict; the zero value looks as long as it takes.
type ConflictOptions struct {
	// Nodes bounds each question whether some demands hold together, in parts
	// of the search tree; Total bounds all those of a stage: looking for the
	// smallest set, dropping what is beside the point, dropping musts. What is not
	// answered by then is left open: see Core. The same problem gives the same answer.
	Nodes, Total int64
	// Known is a set known to conflict: only a smaller one is looked for.
	Known []int
	// Least demands that are no musts are known to be in every conflict.
	Least int
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
	// Smallest is proved: with all musts kept, no set with fewer demands that
	// are no musts conflicts; where there is none of those in it, none with fewer
	// musts does.
	Smallest bool
	// Minimal is proved: with all musts kept, the others hold without any one of
	// the demands that are no musts. Musts that do not matter may be left among
	// Demands.
	Minimal bool
}

// What is looked for of a conflict, so that it is told plainly.
const (
	// mostDemands is the size up to which a smallest conflict is looked for: more
	// demands at once nobody surveys anyhow.
	mostDemands = 8
	// mostConflicts is how many conflicts as small are compared by how few musts
	// they need.
	mostConflicts = 6
	// mustNodes bounds the question whether a must matters, widerNodes that whether
	// a set of demands that hold together can be had with one more, and widerTries
	// how many of those come to no end before they are left.
	mustNodes  = 150
	widerNodes = 10
	widerTries = 2
)

// Conflict finds a smallest set of demands that cannot hold together, all
// others being dropped: as few as can be of those that are no musts, and with
// as few musts as come out in a few steps. The error is for a malformed problem
// or for ctx ending.
//
// Every set of demands that is seen to hold leaves out something of every
// conflict; so a smallest set that has something of each remainder either
// conflicts, and no smaller one does, or holds, and is one more that is seen to
// (implicit hitting sets: Ignatiev, Previti, Liffiton, Marques-Silva, CP 2015).
// A set that holds is grown by all demands that its scheme meets too. Where that
// comes to no end, demands are dropped one by one instead, the last first.
func Conflict(ctx context.Context, demands Demands, o ConflictOptions) (Core, error) {
	s := &conflictSearch{ctx: ctx, demands: demands, o: o}
	var asked, musts, every []int
	for i, must := range demands.Must {
		every = append(every, i)
		if must {
			musts = append(musts, i)
		} else {
			asked = append(asked, i)
		}
	}
	if err := demands.Problem(every).Check(); err != nil {
		return Core{}, err
	}
	known := slices.Clone(o.Known)
	if known == nil {
		known = every
		switch status, err := s.ask(known); {
		case err != nil || status != Infeasible:
			return Core{Status: status}, err
		}
	}
	among := func(set, some []int) []int {
		return slices.DeleteFunc(slices.Clone(set), func(i int) bool { return !slices.Contains(some, i) })
	}
	out := Core{Status: Infeasible, Demands: []int{}}
	all, proved, err := s.smallest(asked, among(known, asked), musts, o.Least)
	if err != nil {
		return Core{}, err
	}
	out.Smallest, out.Minimal = proved, proved
	if !proved {
		if all[0], out.Minimal, err = s.shrink(all[0], musts); err != nil {
			return Core{}, err
		}
	}
	if len(all[0]) == 0 { // what every unit must have is too much
		s.open = nil
		core := musts
		if len(among(known, asked)) == 0 {
			core = known
		}
		all, out.Smallest, err = s.smallest(musts, core, nil, 0)
		if err != nil {
			return Core{}, err
		}
		if out.Demands, out.Minimal = all[0], true; !out.Smallest {
			out.Demands, out.Minimal, err = s.shrink(all[0], nil)
		}
		return out, err
	}
	s.nodes = 0
	for i, few := range all {
		behind := musts
		if len(known) < len(every) && subset(among(known, asked), few) {
			behind = among(known, musts)
		}
		behind, err = s.behind(few, behind)
		if err != nil {
			return Core{}, err
		}
		if set := together(few, behind); i == 0 || len(set) < len(out.Demands) {
			out.Demands = set
		}
		if len(out.Demands) == len(few) {
			break
		}
	}
	return out, nil
}

// askNodes is what a question costs beside its search, in parts of the tree:
// so that many easy ones come to an end too.
const askNodes = 10

// conflictSearch asks which demands hold together.
type conflictSearch struct {
	ctx     context.Context
	demands Demands
	o       ConflictOptions
	held    [][]int // sets that hold together
	open    [][]int // sets of which that is not known
	nodes   int64
}

// relaxed is the problem with some of the demands alone, in one of its forms.
func (s *conflictSearch) relaxed(kept []int, form int) *Problem {
	q := s.demands.Problem(kept)
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
	return s.askWithin(kept, s.o.Nodes, max(1, len(s.o.Forms)))
}

// askWithin is ask in so many parts of the tree for each of the first forms.
func (s *conflictSearch) askWithin(kept []int, nodes int64, forms int) (Status, error) {
	for form := range forms {
		most := nodes
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
	for i := range s.demands.Must {
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

// smallest looks for fewer of the demands than core, and no fewer than least,
// that conflict with those kept; it gives all it finds of as many in about the
// time that it takes to find the first, at most mostConflicts. proved tells that there are none fewer.
func (s *conflictSearch) smallest(demands, core, kept []int, least int) (found [][]int, proved bool, err error) {
	s.nodes = 0
	first := int64(0) // what it took to find the first
	for size := least; size <= mostDemands && size < len(core) && (len(found) == 0 || s.nodes < 2*first+mustNodes); {
		set := s.hitting(demands, size, kept, found)
		if set == nil {
			if len(found) > 0 {
				break
			}
			size++
			continue
		}
		switch status, err := s.ask(together(set, kept)); {
		case err != nil:
			return nil, false, err
		case status == Proved:
			if err := s.widen(demands); err != nil {
				return nil, false, err
			}
		case status == Infeasible:
			if found = append(found, set); len(found) == 1 {
				proved, first = len(s.open) == 0, s.nodes
			}
			if len(found) == mostConflicts {
				return found, proved, nil
			}
		case status == Unknown:
			if s.o.Total > 0 && s.nodes >= s.o.Total {
				if len(found) == 0 {
					found = [][]int{core}
				}
				return found, proved, nil
			}
			s.open = append(s.open, together(set, kept))
		}
	}
	if len(found) == 0 {
		return [][]int{core}, len(core) <= mostDemands+1 && len(s.open) == 0, nil
	}
	return found, proved, nil
}

// widen adds to the set last seen to hold what else of the demands soon proves to
// hold with it: the less it leaves out, the fewer sets are left to be asked for.
func (s *conflictSearch) widen(demands []int) error {
	wide := s.held[len(s.held)-1]
	for left, at := widerTries, 0; left > 0 && at < len(demands); at++ {
		i := demands[at]
		if slices.Contains(wide, i) {
			continue
		}
		before := len(s.held)
		status, err := s.askWithin(together(wide, []int{i}), widerNodes, 1)
		if err != nil {
			return err
		}
		if status == Proved {
			wide = s.held[before]
			s.held = append(s.held[:before-1], wide)
		} else if status == Unknown {
			left--
		}
	}
	return nil
}

// behind drops the musts that a conflict does not need, as far as that is soon
// seen: at first all, then those on either side of the middle, then one by one.
func (s *conflictSearch) behind(conflict, musts []int) ([]int, error) {
	left := slices.Clone(musts)
	for many := len(left); many >= 1; many = (many + 1) / 2 {
		for to := len(left); to > 0; {
			from := max(0, to-many)
			without := slices.Delete(slices.Clone(left), from, to)
			status, err := s.askWithin(together(conflict, without), mustNodes, 1)
			if err != nil {
				return nil, err
			}
			if status == Infeasible {
				left = without
			}
			to = from
		}
		if many == 1 {
			break
		}
	}
	return left, nil
}

// together joins two sets, in rising order.
func together(a, b []int) []int {
	both := slices.Concat(a, b)
	slices.Sort(both)
	return slices.Compact(both)
}

// hitting finds the earliest set of so many of the demands that has, with those
// kept, some demand beside each set that holds, or is open, and that is none of
// those found already; nil where there is none.
func (s *conflictSearch) hitting(demands []int, size int, kept []int, found [][]int) []int {
	var misses [][]bool
	for _, set := range slices.Concat(s.held, s.open) {
		if !subset(kept, set) {
			continue
		}
		miss := make([]bool, len(s.demands.Must))
		for _, i := range demands {
			miss[i] = !slices.Contains(set, i)
		}
		misses = append(misses, miss)
	}
	chosen := make([]int, 0, size)
	var choose func(from int, left [][]bool) bool
	choose = func(from int, left [][]bool) bool {
		if len(chosen) == size {
			return len(left) == 0 && !slices.ContainsFunc(found, func(set []int) bool { return slices.Equal(set, chosen) })
		}
		if !mayHit(left, demands[from:], size-len(chosen)) {
			return false
		}
		for at := from; at < len(demands); at++ {
			i := demands[at]
			rest := slices.DeleteFunc(slices.Clone(left), func(miss []bool) bool { return miss[i] })
			chosen = append(chosen, i)
			if choose(at+1, rest) {
				return true
			}
			chosen = chosen[:len(chosen)-1]
		}
		return false
	}
	if !choose(0, misses) {
		return nil
	}
	return slices.Clone(chosen)
}

// mayHit is false where so many of the demands surely do not hit each of the
// sets: where more of these have nothing in common.
func mayHit(sets [][]bool, demands []int, size int) bool {
	taken, apart := map[int]bool{}, 0
	for _, set := range sets {
		any, free := false, true
		for _, i := range demands {
			if set[i] {
				any, free = true, free && !taken[i]
			}
		}
		if !any {
			return false
		}
		if free {
			for _, i := range demands {
				taken[i] = taken[i] || set[i]
			}
			if apart++; apart > size {
				return false
			}
		}
	}
	return true
}

// shrink drops demands as long as the others conflict with those kept, at first
// many at a time and then one by one, the last first; minimal tells that the
// others are proved to hold without any one of them.
func (s *conflictSearch) shrink(core, kept []int) (shrunk []int, minimal bool, err error) {
	s.nodes = 0
	for many := max(1, len(core)/2); many >= 1; many /= 2 {
		minimal = true
		for to := len(core); to > 0; {
			from := max(0, to-many)
			without := slices.Delete(slices.Clone(core), from, to)
			status, err := s.ask(together(without, kept))
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

// Clone copies the problem so that demands can be dropped from the copy: what a
// copy shares with the problem (clashes, what closes a cell) is not to be changed.
func (p *Problem) Clone() *Problem {
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
