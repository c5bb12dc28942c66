package plan_test

import (
	"math"
	"slices"

	"moiety/plan"
)

// refOwners is whose each cell is: A's, B's, common.
type refOwners [3]uint64

// may tells which owners the brief and the house leave to a cell.
func (r *reference) may(c int) (out [3]bool) {
	cell := r.b.Cells[c]
	out[0], out[1] = true, true
	out[2] = r.accepted(c) || cell.Flight || cell.Outdoor ||
		slices.Contains([]plan.Use{plan.Entry, plan.Hall, plan.Laundry, plan.Mechanical, plan.Garage, plan.Storage, plan.Unfinished}, cell.Use)
	for u, unit := range r.brief.Units {
		if slices.ContainsFunc(unit.Keep, func(word string) bool { return r.means(word, c) }) {
			out[1-u], out[2] = false, false
		}
		if slices.ContainsFunc(unit.Avoid, func(word string) bool { return r.means(word, c) }) {
			out[u], out[2] = false, false
		}
	}
	return out
}

func (r *reference) accepted(c int) bool {
	cell := r.b.Cells[c]
	return slices.ContainsFunc(r.brief.Share, func(word string) bool { return word == cell.ID || word == string(cell.Use) })
}

// means tells whether keep or avoid mean a cell: the one of that id, otherwise
// all of that use.
func (r *reference) means(word string, c int) bool {
	if slices.ContainsFunc(r.b.Cells, func(d plan.Cell) bool { return d.ID == word }) {
		return r.b.Cells[c].ID == word
	}
	return string(r.b.Cells[c].Use) == word
}

// best tries all owners of all cells and gives the least price with the owners
// that have it, or never.
func (r *reference) best() (refPrice, refOwners) {
	return r.bestAround(refOwners{}, r.owned, never)
}

// bestAround tries all owners of the free cells, the others staying with
// theirs, and gives the least price below the limit, or never.
func (r *reference) bestAround(fixed refOwners, free []int, limit refPrice) (refPrice, refOwners) {
	best, at := limit, refOwners{}
	var try func(i int, o refOwners, shared int)
	try = func(i int, o refOwners, shared int) {
		if shared > best.shared {
			return
		}
		if i == len(free) {
			if p := r.price(o, best); p.less(best) {
				best, at = p, o
			}
			return
		}
		c := free[i]
		for owner, allowed := range r.may(c) {
			if !allowed {
				continue
			}
			p := o
			p[owner] |= 1 << c
			more := shared
			if owner == 2 && !r.accepted(c) {
				more++
			}
			try(i+1, p, more)
		}
	}
	for _, c := range free {
		for owner := range fixed {
			fixed[owner] &^= 1 << c
		}
	}
	try(0, fixed, 0)
	if best == limit {
		return never, at
	}
	return best, at
}

// grounds tells whether each unit alone has the yard that it asks for, and the
// stalls where it asks for several.
func (r *reference) grounds(o refOwners) bool {
	if !slices.ContainsFunc(r.b.Cells, func(c plan.Cell) bool { return c.Outdoor }) {
		return true
	}
	for u, unit := range r.brief.Units {
		yard, cars := int64(0), 0
		for _, c := range r.owned {
			if o[u]>>c&1 == 0 {
				continue
			}
			cars += r.cars(c)
			if r.serves(c, int(plan.HasOutdoor)) {
				yard += int64(math.Round(r.b.Cells[c].AreaM2 * 100))
			}
		}
		if yard < int64(math.Round(unit.OutdoorMin*100)) || unit.Parking.Min > 1 && cars < unit.Parking.Min {
			return false
		}
	}
	return true
}

// meters counts those of which the survey shows one, for the two units, and
// that the brief does not share.
func (r *reference) meters() (missing float64) {
	for _, use := range []string{"electric_meter", "gas_meter"} {
		there, shared := 0, slices.Contains(r.brief.Share, use) || use == "gas_meter" && r.brief.Conditions.Fuel == plan.NoFuel
		for _, f := range r.b.House.Fixtures {
			if f.Use == use {
				there++
				shared = shared || slices.Contains(r.brief.Share, f.ID)
			}
		}
		if there == 1 && !shared {
			missing++
		}
	}
	return missing
}

// price checks that the owners make two units, and gives the least that they
// cost, address plates and all; never where they do not, or cost no less than
// the limit.
func (r *reference) price(o refOwners, limit refPrice) refPrice {
	total := refPrice{cost: 2*toCents(r.prices.AddressSet) + r.meters()*toCents(r.prices.NewMeter)}
	for _, c := range r.owned {
		if o[2]>>c&1 != 0 && !r.accepted(c) {
			total.shared++
		}
	}
	var area [2]int64
	for u, unit := range r.brief.Units {
		for _, c := range r.owned {
			if o[u]>>c&1 != 0 {
				area[u] += r.area[c]
			}
		}
		if area[u] < int64(math.Round(unit.AreaMin*100)) {
			return never
		}
	}
	if !r.grounds(o) {
		return never
	}
	total.cost += r.imbalance(area)
	for _, l := range r.links {
		var who [2]int
		for i, c := range [...]int{l.u, l.v} {
			who[i] = 3 // the public way
			for owner := range o {
				if o[owner]>>c&1 != 0 {
					who[i] = owner
				}
			}
		}
		switch {
		case who[0] == who[1] || who[0] == 3 || who[1] == 3:
			continue
		case who[0] != 2 && who[1] != 2:
			if l.fixed && l.apart > 0 {
				return never
			}
			total.cost += l.apart
		default:
			if l.fixed && l.shared > 0 {
				return never
			}
			total.cost += l.shared
		}
	}
	owns := [2]uint64{o[0] | o[2], o[1] | o[2]}
	if !total.less(limit) || !r.livable(owns, r.everyDoor(owns)) {
		return never
	}
	room := refPrice{limit.shared - total.shared, limit.cost - total.cost}
	hosting := r.hosting(owns, room)
	if hosting == never {
		return never
	}
	total.shared += hosting.shared
	total.cost += hosting.cost
	return total
}

func (r *reference) imbalance(area [2]int64) float64 {
	a, b := r.brief.Units[0].AreaShare, r.brief.Units[1].AreaShare
	if a == 0 && b == 0 {
		return 0
	}
	if a == 0 {
		a = 1 - b
	}
	off := math.Abs(float64(area[0]) - a*float64(area[0]+area[1]))
	return off / 100 * r.prices.Priorities.Balance * r.brief.Priorities.Balance
}

// everyDoor gives all doors that could be made for either unit.
func (r *reference) everyDoor(owns [2]uint64) []bool {
	made := make([]bool, len(r.links))
	for i, l := range r.links {
		made[i] = !l.open && l.door >= 0 && r.within(owns, l)
	}
	return made
}

// within tells whether one unit has both ends of a link.
func (r *reference) within(owns [2]uint64, l refLink) bool {
	for _, own := range owns {
		if own = own | r.public; own>>l.u&1 != 0 && own>>l.v&1 != 0 {
			return true
		}
	}
	return false
}

// doors tries all sets of new doors and gives the least price of one that
// makes both units livable; infinite where that is not less than the limit.
func (r *reference) doors(owns [2]uint64, limit float64) float64 {
	made := r.everyDoor(owns)
	var could []int
	for i := range made {
		if made[i] {
			could = append(could, i)
		}
	}
	slices.SortStableFunc(could, func(i, j int) int { return int(math.Copysign(1, r.links[j].door-r.links[i].door)) })
	best := limit
	// made holds the doors decided on and all those not decided yet.
	var try func(n int, spent float64)
	try = func(n int, spent float64) {
		if spent >= best-1e-6 || !r.livable(owns, made) {
			return
		}
		if n == len(could) {
			best = spent
			return
		}
		i := could[n]
		made[i] = false
		try(n+1, spent)
		made[i] = true
		try(n+1, spent+r.links[i].door)
	}
	try(0, 0)
	if best == limit {
		return math.Inf(1)
	}
	return best
}

// livable tells whether both units have a way in, and get everywhere from it.
func (r *reference) livable(owns [2]uint64, made []bool) bool {
	return r.livableUnit(0, owns[0], made) && r.livableUnit(1, owns[1], made)
}

func (r *reference) livableUnit(u int, own uint64, made []bool) bool {
	has := own | r.public
	way := func(i int) bool { return r.links[i].open || made[i] }
	// Ground walked over from the public way.
	walked := r.spread(r.public, func(i, from, to int) bool {
		return r.links[i].open && (r.ground&has)>>to&1 != 0
	})
	entered := false
	for i, l := range r.links {
		if !l.entry[u] || !way(i) || r.deadEnd>>l.u&1 != 0 || own>>l.u&1 == 0 || walked>>l.v&1 == 0 {
			continue
		}
		inside := r.spread(1<<l.u, func(i, from, to int) bool {
			if !way(i) || (own&r.rooms)>>to&1 == 0 {
				return false
			}
			return r.deadEnd>>from&1 == 0 || r.links[i].suite == from
		})
		if own&r.rooms&^inside == 0 {
			entered = true
			break
		}
	}
	if !entered {
		return false
	}
	// Ground and garages, from the public way or from the unit's own rooms.
	out := r.spread(r.public|own&r.rooms, func(i, from, to int) bool {
		return way(i) && r.garages>>from&1 == 0 && has>>to&1 != 0
	})
	return own&(r.ground|r.garages)&^out == 0
}

// spread gives what is reached from a set of cells by steps along links.
func (r *reference) spread(reached uint64, step func(link, from, to int) bool) uint64 {
	for again := true; again; {
		again = false
		for i, l := range r.links {
			for _, e := range [2][2]int{{l.u, l.v}, {l.v, l.u}} {
				if reached>>e[0]&1 != 0 && reached>>e[1]&1 == 0 && step(i, e[0], e[1]) {
					reached |= 1 << e[1]
					again = true
				}
			}
		}
	}
	return reached
}
