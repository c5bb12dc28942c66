package plan

import (
	"context"
	"math"

	"moiety/plan/partition"
)

// priceSlack is more than prices differ by between a scheme and its solution:
// works and priorities are rounded to the cent, and the units below a cent only
// break ties.
const priceSlack = 0.05

// optionsFor are the options of the search in one problem.
func (x *lineSearch) optionsFor(m *model, set lineSet) partition.Options {
	o := x.options
	o.Except = m.ownership(set.except)
	if x.single && x.below != nil {
		price := m.priceOf(x.below, priceSlack)
		o.AtMost = &price
	}
	return o
}

// sharedUnit is what one shared element counts in the problem: two where spaces
// are divided, see joinShared.
func (m *model) sharedUnit() int {
	if m.whole != nil {
		return 2
	}
	return 1
}

// priceOf gives the price of a scheme, and so much more, as the problem reckons
// it: without what two units cost however the house is parted.
func (m *model) priceOf(s *Scheme, more float64) partition.Price {
	return partition.Price{
		Shared: s.unaccepted() * m.sharedUnit(),
		Money:  max(0, money(s.Cost.Total-m.always()+more)),
	}
}

// wholePrice gives a bound of the problem in whole shared elements.
func (m *model) wholePrice(p partition.Price) partition.Price {
	if unit := m.sharedUnit(); p.Shared%unit != 0 {
		return partition.Price{Shared: p.Shared/unit + 1}
	} else {
		p.Shared /= unit
	}
	return p
}

// always is what two units cost however the house is parted.
func (m *model) always() float64 {
	sum := 2 * cents(m.prices.cost("address_set", 0, 0, 1))
	for _, o := range m.b.House.Opened {
		sum += o.Cost
	}
	for _, w := range m.meterWorks() {
		sum += w.Cost
	}
	return cents(sum)
}

// promises tells whether a solution could make a better scheme than the best.
func (x *lineSearch) promises(m *model, solution *partition.Solution) bool {
	if x.below == nil {
		return true
	}
	price := m.priceOf(x.below, -priceSlack)
	if m.byMoney() {
		return solution.Price.Money < price.Money
	}
	return solution.Price.Less(price)
}

// better tells whether a scheme is the better answer to what is asked.
func (m *model) better(s, t *Scheme) bool {
	if m.byMoney() {
		return s.Cost.Total < t.Cost.Total
	}
	return better(s, t) < 0
}

// best is what a search for a single scheme came to.
type best struct {
	scheme *Scheme // nil where there is none, or none was found
	bound  partition.Price
	proved bool // that there is no better one, or none at all
}

// runBelow looks for the best scheme, better than one known to hold if there is
// one. It gives that scheme, or the known one, with a proven bound of its price.
func (x *lineSearch) runBelow(ctx context.Context, known *Scheme) (best, error) {
	x.single, x.options.Schemes = true, 1
	x.below, x.results, x.bounds, x.tried, x.thin, x.open = known, nil, nil, nil, nil, false
	if err := x.run(ctx); err != nil {
		return best{}, err
	}
	out := best{scheme: x.below, proved: !x.open && ctx.Err() == nil}
	for _, r := range x.results {
		if r.Status == partition.Bounded || r.Status == partition.Unknown {
			out.proved = false
		}
	}
	bounds := x.bounds
	if x.below != nil {
		bounds = append(bounds, x.whole.priceOf(x.below, 0))
		if out.proved {
			bounds = bounds[len(bounds)-1:]
		}
	}
	for i, b := range bounds {
		if i == 0 || b.Less(out.bound) {
			out.bound = b
		}
	}
	return out, nil
}

// say writes into the best scheme how far it is proved.
func (m *model) say(s *Scheme, b best) {
	s.Proved, s.Bound, s.Gap = b.proved, s.Cost.Total, 0
	if b.proved {
		return
	}
	s.Bound = m.always()
	if m.byMoney() || b.bound.Shared == s.unaccepted() {
		s.Bound = math.Min(s.Cost.Total, cents(currency(b.bound.Money)+m.always()))
	}
	s.Gap = (s.Cost.Total - s.Bound) / s.Cost.Total
}
