package plan

import (
	"cmp"
	"slices"
)

// cellOffer is what a cell takes on: which functions, how many counted ones at
// once, and which do not go together.
type cellOffer struct {
	functions functionSet // that it lacks and could take on
	capacity  int
	// clashes are the smallest sets of what it has and could take on that do
	// not go together in it.
	clashes []functionSet
}

// clash tells whether a set holds what does not go together.
func (o *cellOffer) clash(set functionSet) bool {
	return slices.ContainsFunc(o.clashes, func(c functionSet) bool { return c.without(set) == 0 })
}

// offerOf works out what a cell offers.
func (b *Building) offerOf(c int) *cellOffer {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	if known := b.fitting.offers[c]; known != nil {
		return known
	}
	if b.fitting.offers == nil {
		b.fitting.offers = map[int]*cellOffer{}
	}
	o := b.findOffer(c)
	b.fitting.offers[c] = &o
	return &o
}

func (b *Building) findOffer(c int) cellOffer {
	has := b.hasAll(c)
	offer := cellOffer{capacity: max(b.roomFor(c), has.without(uncountedFunctions).len())}
	for f := range functionCount {
		if !has.has(f) && b.takesUp(c, f) && len(b.fitSet(c, setOf(f), 1)) > 0 {
			offer.functions |= setOf(f)
		}
	}
	if has.has(HasBedroom) && offer.functions.has(HasLaundry) && len(b.fitSet(c, setOf(HasBedroom, HasLaundry), 1)) == 0 {
		offer.functions = offer.functions.without(setOf(HasLaundry)) // a bedroom is not given up for machines
	}
	if offer.functions == 0 {
		return offer
	}
	all := has | offer.functions
	var sets []functionSet
	for set := all; set != 0; set = (set - 1) & all {
		if set&offer.functions != 0 && set.len() > 1 && set.without(uncountedFunctions).len() <= offer.capacity {
			sets = append(sets, set)
		}
	}
	// The smallest first: what does not go together does so no more with others.
	slices.SortFunc(sets, func(s, t functionSet) int { return cmp.Or(cmp.Compare(s.len(), t.len()), cmp.Compare(s, t)) })
	for _, set := range sets {
		if !offer.clash(set) && len(b.fitSet(c, set, 1)) == 0 {
			offer.clashes = append(offer.clashes, set)
		}
	}
	return offer
}

// closedBy tells whether taking on a function makes a dead end of a cell that
// is none: where it becomes a bedroom, a bathroom or a laundry.
func (b *Building) closedBy(c int, f Function) bool {
	cell := &b.Cells[c]
	if cell.Outdoor || cell.deadEnd() || b.has(c, f) {
		return false
	}
	set := setOf(f)
	return functions[f].room.DeadEnd() && (b.replacesUse(c, set) || b.storesNoMore(c, set))
}

var uncountedFunctions = func() functionSet {
	var s functionSet
	for f := range functionCount {
		if functions[f].uncounted {
			s |= setOf(f)
		}
	}
	return s
}()
