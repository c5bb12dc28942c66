package plan

import (
	"context"

	"moiety/plan/partition"
)

// priceSlack is more than prices differ by between a scheme and its solution:
// works and priorities are rounded to the cent, and the units below a cent only
// break ties.
const priceSlack = 0.05

// optionsFor are the options of the search in one problem.
func (x *lineSearch) optionsFor(m *model) partition.Options {
	o := x.options
	if x.below != nil {
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
	return cents(sum)
}

// promises tells whether a solution could make a better scheme than s.
func (m *model) promises(solution *partition.Solution, s *Scheme) bool {
	return solution.Price.Less(m.priceOf(s, -priceSlack))
}

// mostThin bounds how many solutions are looked through for one that the walls'
// thickness leaves standing.
const mostThin = 16

// runBelow looks for the best scheme that is better than one known to hold. It
// gives that scheme, or the known one, with a proven bound of the price; proved
// tells that the two are the same.
func (x *lineSearch) runBelow(ctx context.Context, known *Scheme) (best *Scheme, bound partition.Price, proved bool, err error) {
	for x.options.Schemes = 1; ; x.options.Schemes *= 4 {
		x.below, x.results, x.bounds, x.tried, x.thin, x.open = known, nil, nil, nil, 0, false
		if err := x.run(ctx); err != nil {
			return nil, bound, false, err
		}
		known = x.below
		if x.thin == 0 || x.options.Schemes >= mostThin || ctx.Err() != nil {
			break
		}
	}
	proved = x.thin == 0 && !x.open && ctx.Err() == nil
	bound = x.whole.priceOf(x.below, 0)
	for i, r := range x.results {
		if r.Status == partition.Bounded || r.Status == partition.Unknown {
			proved = false
		}
		if x.bounds[i].Less(bound) {
			bound = x.bounds[i]
		}
	}
	if proved {
		bound = x.whole.priceOf(x.below, 0)
	}
	return x.below, bound, proved, nil
}
