package partition

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// SolveWithin looks for the scheme that costs the least money among those with
// at most so many shared elements, where Solve takes fewer shared elements
// first. Of the options it heeds Workers, Nodes, Except and the Money of AtMost.
//
// At most one scheme comes back. Its Bound, and the result's, says that none
// within so many shared elements costs less money; their Shared is nought.
//
// A shared element is given a price in money; whatever that is, the least sum
// less the price of so many elements is a bound (Lagrange), and a scheme that
// has exactly so many and the least sum is the best. The price is found from
// two schemes at a time, as a line between two points of the lower hull. What
// then remains open is split: a cell is common or it is not, a unit lacks a
// function or it does not.
func SolveWithin(ctx context.Context, p *Problem, shared int, o Options) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	w := &within{p: p, shared: shared, options: o}
	if o.AtMost != nil {
		w.most, w.limited = o.AtMost.Money, true
	}
	if err := w.run(ctx); err != nil {
		return Result{}, err
	}
	return w.result(), nil
}

type within struct {
	p       *Problem
	shared  int
	options Options
	most    Money // no scheme of interest costs more
	limited bool
	best    *Solution
	bound   Money // no scheme costs less, if open
	open    bool  // something is left unexplored
	stopped bool  // the search was stopped while it split
	nodes   int64
}

// choice is what has been decided in a part of the problem.
type choice struct {
	common map[int]bool    // per cell: it is common, or it is not
	lacks  map[[2]int]int  // per unit and function: so many are missing
	has    map[[2]int]bool // per unit and function: no more are missing
}

// fork copies a choice.
func (c choice) fork() choice {
	out := choice{map[int]bool{}, map[[2]int]int{}, map[[2]int]bool{}}
	for k, v := range c.common {
		out.common[k] = v
	}
	for k, v := range c.lacks {
		out.lacks[k] = v
	}
	for k, v := range c.has {
		out.has[k] = v
	}
	return out
}

// priced is the problem under a choice, a shared element costing so much
// money and nothing else; always is what the choice costs anyhow. It is nil
// where a cell has no label left.
func (w *within) priced(c choice, each Money) (q *Problem, always Price) {
	q = w.p.Clone()
	for i := range q.Cells {
		cell := &q.Cells[i]
		if cell.Public {
			continue
		}
		if common, decided := c.common[i]; decided {
			cell.Allowed &^= 1 << Common
			if common {
				cell.Allowed = w.p.Cells[i].Allowed & (1 << Common)
			}
			if cell.Allowed == 0 {
				return nil, always
			}
		}
		cell.Common = Price{Money: cell.Common.Money + each*Money(cell.Common.Shared)}
	}
	for i := range q.Links {
		l := &q.Links[i]
		if l.SepCommon != Impossible {
			l.SepCommon += each * Money(l.SharedEdge)
		}
		l.SharedEdge = 0
	}
	for u := range q.Units {
		unit := &q.Units[u]
		for f := range unit.Lack {
			lack := unit.Lack[f]
			if lack.Money == Impossible {
				continue
			}
			if n := c.lacks[[2]int{u, f}]; n > 0 {
				unit.Need[f] -= n
				always.Shared += n * lack.Shared
				always.Money += Money(n) * lack.Money
			}
			unit.Lack[f] = Price{Money: lack.Money + each*Money(lack.Shared)}
			if c.has[[2]int{u, f}] {
				unit.Lack[f].Money = Impossible
			}
		}
	}
	return q, always
}

// optimum finds the least sum of money and of shared elements at a price under
// a choice, no more than most. bound is below all such sums; there is no
// solution where none was found, and over tells that the bound is exact.
func (w *within) optimum(ctx context.Context, c choice, each Money, most *Money) (s *Solution, bound Money, over bool, err error) {
	q, always := w.priced(c, each)
	if q == nil {
		return nil, 0, true, nil
	}
	fixed := always.Money + each*Money(always.Shared)
	o := Options{Workers: w.options.Workers, Except: w.options.Except}
	if w.options.Nodes > 0 {
		if o.Nodes = w.options.Nodes - w.nodes; o.Nodes <= 0 {
			return nil, fixed, false, nil
		}
	}
	if most != nil {
		if *most < fixed {
			return nil, *most, true, nil
		}
		o.AtMost = &Price{Money: *most - fixed}
	}
	r, err := Solve(ctx, q, o)
	if err != nil {
		return nil, 0, false, fmt.Errorf("partition: a shared element at %d: %w", each, err)
	}
	w.nodes += r.Nodes
	if len(r.Solutions) > 0 {
		s = w.restored(&r.Solutions[0], each, always)
	}
	return s, r.Bound.Money + fixed, r.Status == Proved || r.Status == Infeasible, nil
}

// restored gives a solution its price in the problem itself.
func (w *within) restored(s *Solution, each Money, always Price) *Solution {
	out := *s
	common := 0
	for c, l := range s.Labels {
		if l == Common && !w.p.Cells[c].Public {
			common += w.p.Cells[c].Common.Shared
		}
	}
	edges := 0
	for _, l := range w.p.Links {
		if w.p.Cells[l.U].Public || w.p.Cells[l.V].Public {
			continue
		}
		if (s.Labels[l.U] == Common) != (s.Labels[l.V] == Common) {
			edges += l.SharedEdge
		}
	}
	out.Terms.Common = Price{Shared: common + edges, Money: s.Terms.Common.Money - each*Money(common)}
	out.Terms.Separation -= each * Money(edges)
	out.Terms.Lack = Price{}
	for u, unit := range w.p.Units {
		for f, need := range unit.Need {
			if missing := need - len(s.Hosts[u][f]); missing > 0 {
				out.Terms.Lack.Shared += missing * unit.Lack[f].Shared
				out.Terms.Lack.Money += Money(missing) * unit.Lack[f].Money
			}
		}
	}
	out.Price = out.Terms.Sum()
	return &out
}

// keep notes a scheme that is within so many shared elements and better.
func (w *within) keep(s *Solution) {
	if s == nil || s.Price.Shared > w.shared || w.limited && s.Price.Money > w.most {
		return
	}
	if w.best == nil || s.Price.Money < w.best.Price.Money {
		w.best = s
	}
}

// ceiling is the most that a better scheme may cost, with so many shared
// elements at a price; nil where there is no such limit.
func (w *within) ceiling(each Money) *Money {
	var most Money
	switch {
	case w.best != nil:
		most = w.best.Price.Money - 1
	case w.limited:
		most = w.most
	default:
		return nil
	}
	most += each * Money(w.shared)
	return &most
}

func (w *within) run(ctx context.Context) error {
	w.open = true
	fewest, err := w.fewest(ctx)
	if err != nil || fewest == nil {
		return err
	}
	w.keep(fewest)
	if fewest.Proved && fewest.Price.Shared == w.shared {
		w.open = false
		return nil
	}
	each, closed, err := w.price(ctx, fewest)
	if err != nil || closed {
		return err
	}
	return w.split(ctx, each)
}

// fewest finds the scheme with the fewest shared elements; nil where it has
// more than asked, or none was found.
func (w *within) fewest(ctx context.Context) (*Solution, error) {
	o := Options{Workers: w.options.Workers, Nodes: w.options.Nodes, Except: w.options.Except, AtMost: &Price{Shared: w.shared, Money: math.MaxInt64}}
	r, err := Solve(ctx, w.p, o)
	if err != nil {
		return nil, err
	}
	w.nodes += r.Nodes
	if w.open = r.Status == Unknown; len(r.Solutions) == 0 {
		return nil, nil
	}
	w.open = true
	return &r.Solutions[0], nil
}

// fall is how far the price of a shared element falls from one to the next
// that is tried.
const fall = 4

// mostPrices bounds how many prices are tried; any of them gives a bound.
const mostPrices = 40

// price finds the price of a shared element that bounds best: that at which
// schemes with more and with no more shared elements than asked cost the same.
// It comes down from a price at which hardly any is worth it, and then closes
// in. closed tells that the best scheme is known, or that the search stopped.
func (w *within) price(ctx context.Context, fewer *Solution) (each Money, closed bool, err error) {
	var more *Solution
	sum := func(s *Solution) Money { return s.Price.Money + each*Money(s.Price.Shared) }
	each = fewer.Price.Money
	for range mostPrices {
		if more == nil {
			each /= fall
		} else if each = (fewer.Price.Money - more.Price.Money) / Money(more.Price.Shared-fewer.Price.Shared); each <= 0 {
			return 0, false, nil
		}
		s, bound, over, err := w.optimum(ctx, choice{}, each, w.ceiling(each))
		if err != nil {
			return 0, false, err
		}
		w.bound = max(w.bound, bound-each*Money(w.shared))
		w.keep(s)
		switch {
		case !over:
			return each, true, nil
		case s == nil || s.Price.Shared == w.shared || s.Price.Shared < w.shared && each == 0:
			w.open = false // none is better, see ceiling
			return each, true, nil
		case more != nil && sum(s) >= min(sum(more), sum(fewer)):
			return each, false, nil // the hull has no corner between the two
		case s.Price.Shared < w.shared:
			fewer = s
		default:
			more = s
		}
	}
	return each, false, nil
}

// split looks for better schemes in ever smaller parts, depth first.
func (w *within) split(ctx context.Context, each Money) error {
	parts := []choice{{}}
	for len(parts) > 0 {
		c := parts[len(parts)-1]
		parts = parts[:len(parts)-1]
		on, err := w.part(ctx, c, each)
		if err != nil {
			return err
		}
		if w.stopped {
			return nil
		}
		parts = append(parts, on...)
	}
	w.open = false
	return nil
}

// part looks into one part and gives those that it is split into.
func (w *within) part(ctx context.Context, c choice, each Money) ([]choice, error) {
	for _, at := range []Money{each, 0} {
		s, _, over, err := w.optimum(ctx, c, at, w.ceiling(at))
		if err != nil {
			return nil, err
		}
		if !over {
			w.stopped = true
			return nil, nil
		}
		if s == nil {
			return nil, nil // nothing better here
		}
		w.keep(s)
		switch {
		case s.Price.Shared == w.shared || s.Price.Shared < w.shared && at == 0:
			return nil, nil // the best of this part
		case s.Price.Shared > w.shared:
			return w.parts(c, s), nil
		}
	}
	return nil, nil
}

// parts splits by a shared element of a solution that has too many.
func (w *within) parts(c choice, s *Solution) []choice {
	for u, unit := range w.p.Units {
		for f, need := range unit.Need {
			at := [2]int{u, f}
			if missing := need - len(s.Hosts[u][f]) - c.lacks[at]; missing > 0 && unit.Lack[f].Shared > 0 && !c.has[at] {
				with, without := c.fork(), c.fork()
				with.lacks[at]++
				without.has[at] = true
				return []choice{with, without}
			}
		}
	}
	for _, edges := range []bool{false, true} {
		for i := range w.p.Cells {
			cell := &w.p.Cells[i]
			_, decided := c.common[i]
			if cell.Public || decided || cell.Allowed>>Common&1 == 0 {
				continue
			}
			// A cell that is not common may still save edges.
			if (s.Labels[i] == Common && cell.Common.Shared > 0) || edges && (s.Labels[i] == Common || w.edged(i)) {
				with, without := c.fork(), c.fork()
				with.common[i], without.common[i] = true, false
				return []choice{with, without}
			}
		}
	}
	return nil
}

// edged tells whether a shared edge ends at the cell.
func (w *within) edged(c int) bool {
	return slices.ContainsFunc(w.p.Links, func(l Link) bool { return l.SharedEdge > 0 && (l.U == c || l.V == c) })
}

func (w *within) result() Result {
	r := Result{Nodes: w.nodes, Complete: !w.open}
	if !w.open {
		// All was looked into: the bound is the best, or what was not to be exceeded.
		w.bound = w.most
		if w.best != nil {
			w.bound = w.best.Price.Money
		}
	}
	r.Bound = Price{Money: max(0, w.bound)}
	if w.best == nil {
		r.Status = Infeasible
		if w.open {
			r.Status = Unknown
		}
		return r
	}
	s := *w.best
	s.Bound = Price{Money: min(r.Bound.Money, s.Price.Money)}
	s.Proved = !w.open || s.Bound.Money == s.Price.Money
	r.Bound = s.Bound
	r.Status = Bounded
	if s.Proved {
		r.Status = Proved
	}
	r.Solutions = []Solution{s}
	return r
}
