package plan

import "slices"

// cellOffer is what a cell takes on: which functions, and how many of them at
// once. Any so many of what it has and is offered go together.
type cellOffer struct {
	functions functionSet // that it lacks and could take on
	capacity  int
}

// offerOf works out what a cell offers. The partition knows only how many
// functions a cell takes at once, not which go together; so of all ways to
// leave functions out until any of the rest go together, up to so many, the
// one is taken that leaves most to choose from.
func (b *Building) offerOf(c int) *cellOffer {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	if known := b.fitting.offers[c]; known != nil {
		return known
	}
	if b.fitting.offers == nil {
		b.fitting.offers = map[int]*cellOffer{}
	}
	o := b.chooseOffer(c)
	b.fitting.offers[c] = &o
	return &o
}

func (b *Building) chooseOffer(c int) cellOffer {
	has := b.hasAll(c)
	today := has.without(uncountedFunctions).len()
	room := b.roomFor(c)
	best := cellOffer{capacity: max(room, today)}
	var could []Function
	for f := range functionCount {
		if !has.has(f) && b.takesUp(c, f) && len(b.fitSet(c, setOf(f), 1)) > 0 {
			could = append(could, f)
		}
	}
	if len(could) == 0 {
		return best
	}
	most := -1
	for capacity := max(room, today); capacity >= max(today, 1); capacity-- {
		for pick := range 1 << len(could) {
			offer := cellOffer{capacity: capacity}
			for i, f := range could {
				if pick>>i&1 == 1 {
					offer.functions |= setOf(f)
				}
			}
			if worth := b.worth(c, has, offer, most); worth > most {
				best, most = offer, worth
			}
		}
	}
	return best
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

// choiceWorth weighs a choice of functions by the scarcest of them: rooms to
// live in are harder to find than a place for a machine.
var choiceWorth = [functionCount]int{
	HasKitchen: 3, HasLiving: 2, HasBathroom: 3, HasBedroom: 3, HasLaundry: 1, HasHeat: 1, HasHotWater: 1, HasPanel: 1, HasStorage: 1, HasParking: 1,
}

// worth adds up the choices that an offer leaves, or gives -1 where one of
// them does not go together; atLeast is what it has to beat.
func (b *Building) worth(c int, has functionSet, offer cellOffer, atLeast int) int {
	all := has | offer.functions
	counted, free := all.without(uncountedFunctions), offer.functions&uncountedFunctions
	sum, choices := free.len(), []functionSet{}
	for set := counted; ; set = (set - 1) & counted {
		if n := set.len(); n <= offer.capacity {
			heaviest := 0
			for _, f := range set.list() {
				heaviest = max(heaviest, choiceWorth[f])
			}
			sum += heaviest
			choices = append(choices, set|free)
		}
		if set == 0 {
			break
		}
	}
	if sum <= atLeast {
		return -1
	}
	// The smallest first: they are the quickest to find out.
	slices.SortStableFunc(choices, func(s, t functionSet) int { return s.len() - t.len() })
	for _, set := range choices {
		if set != 0 && len(b.fitSet(c, set, 1)) == 0 {
			return -1
		}
	}
	return sum
}
