package plan

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"moiety/plan/partition"
)

// Wish is one demand of the brief, with what it costs: the price of the best
// scheme under the brief less that of the best scheme without the demand.
type Wish struct {
	Unit, Key, Word string // where the brief has it; Unit and Word may be ""
	Demand          string // in words
	// Shared is how many elements more stay shared, not accepted, for the demand.
	Shared int
	// Cost is in the price file's currency. It is negative only where Shared is not 0.
	Cost float64
	// Proved: that is exactly what it costs. Otherwise it is what it costs by
	// the best schemes found, and if Limited no more than Most.
	Proved  bool
	Limited bool
	Most    float64
	// Without is the best scheme found without the demand where it is better
	// than with it, nil otherwise.
	Without *Scheme
	// Asked is false where the search was stopped before it came to this demand.
	Asked bool
}

// mostWishNodes bounds the search for the best scheme without one demand, in
// parts of the search tree and not in time, so that the same question gets the
// same answer each time.
const mostWishNodes = 60_000

// wishes prices every demand of the brief, the dearest first. To drop a demand
// never makes a scheme dearer, so that only better ones than the best under the
// brief are looked for. Several demands are looked into at once, each by one
// worker.
func (a *Answer) wishes(ctx context.Context, m *model, o SplitOptions) ([]Wish, error) {
	demands := m.dropped()
	out := make([]Wish, len(demands))
	faults := make([]error, len(demands))
	var all sync.WaitGroup
	turn := make(chan struct{}, o.workers())
	for i := range demands {
		all.Go(func() {
			turn <- struct{}{}
			defer func() { <-turn }()
			out[i], faults[i] = a.wish(ctx, demands[i])
		})
	}
	all.Wait()
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	slices.SortStableFunc(out, func(v, w Wish) int {
		return cmp.Or(cmp.Compare(w.Shared, v.Shared), cmp.Compare(w.Cost, v.Cost))
	})
	return out, nil
}

// wish prices one demand.
func (a *Answer) wish(ctx context.Context, d droppedDemand) (Wish, error) {
	w := d.wish
	if ctx.Err() != nil {
		return w, nil
	}
	first := a.Schemes[0]
	without := &Answer{Building: a.Building, Brief: d.brief, Prices: a.Prices, houses: a.houses}
	x := without.lines(newModel(a.Building, d.brief, a.Prices), partition.Options{Workers: 1, Nodes: mostWishNodes})
	b, err := x.runBelow(ctx, first)
	if err != nil {
		return w, fmt.Errorf("plan: pricing %q: %w", w.Demand, err)
	}
	found := b.scheme
	w.Asked = true
	w.Proved = b.proved && first.Proved
	w.Shared = first.unaccepted() - found.unaccepted()
	w.Cost = cents(first.Cost.Total - found.Cost.Total)
	if w.Limited = b.bound.Shared == found.unaccepted(); w.Limited {
		w.Most = cents(math.Max(w.Cost, first.Cost.Total-currency(b.bound.Money)-x.whole.always()))
	}
	if found != first {
		w.Without = found
		x.whole.say(found, b)
	}
	return w, nil
}
