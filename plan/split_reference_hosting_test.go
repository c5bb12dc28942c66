package plan_test

import (
	"math"
	"slices"

	"moiety/plan"
)

// refFunctions lists what a unit must have, with what the survey shows of it.
var refFunctions = [...]struct {
	name     string
	fixtures []string // that make a space have it
	free     bool     // takes up no room of its host
	service  bool     // asked of nobody where the survey shows none at all
}{
	0:  {name: "kitchen"},
	1:  {name: "living"},
	2:  {name: "bathroom"},
	3:  {name: "bedroom"},
	4:  {name: "laundry", fixtures: []string{"washer"}},
	5:  {name: "heat", fixtures: []string{"furnace", "boiler"}, service: true},
	6:  {name: "hot water", fixtures: []string{"water_heater"}, service: true},
	7:  {name: "panel", fixtures: []string{"electrical_panel"}, free: true, service: true},
	8:  {name: "storage", service: true},
	9:  {name: "outdoor", free: true},
	10: {name: "parking"},
}

func (r *reference) isUse(c int, uses ...plan.Use) bool {
	cell := r.b.Cells[c]
	return slices.Contains(uses, cell.Use) || slices.ContainsFunc(cell.Also, func(u plan.Use) bool { return slices.Contains(uses, u) })
}

func (r *reference) stands(c int, uses ...string) bool {
	for i, f := range r.b.House.Fixtures {
		if r.b.FixtureCell[i] == c && slices.Contains(uses, f.Use) {
			return true
		}
	}
	return false
}

// serves tells whether a cell is what a function asks for as it was surveyed.
func (r *reference) serves(c, f int) bool {
	if r.b.Cells[c].Flight {
		return false
	}
	switch refFunctions[f].name {
	case "kitchen":
		return r.isUse(c, plan.Kitchen)
	case "living":
		return r.isUse(c, plan.Living, plan.Family)
	case "bathroom":
		drawn := 0
		for _, parts := range [][]string{{"wc"}, {"basin"}, {"bath", "shower"}} {
			if r.stands(c, parts...) {
				drawn++
			}
		}
		return r.isUse(c, plan.Bathroom) && (drawn == 0 || drawn == 3)
	case "bedroom":
		return r.isUse(c, plan.Bedroom) && !r.b.Cells[c].Through
	case "laundry":
		return r.isUse(c, plan.Laundry) || r.stands(c, "washer")
	case "storage":
		return r.isUse(c, plan.Closet, plan.Storage, plan.Pantry, plan.Unfinished, plan.Garage)
	case "outdoor":
		return slices.Contains([]plan.Use{plan.Yard, plan.Patio, plan.Deck, plan.Balcony, plan.Porch}, r.b.Cells[c].Use)
	case "parking":
		return r.cars(c) > 0
	}
	return r.stands(c, refFunctions[f].fixtures...)
}

func (r *reference) cars(c int) int {
	if !slices.Contains([]plan.Use{plan.Garage, plan.Carport, plan.Parking, plan.Drive}, r.b.Cells[c].Use) {
		return 0
	}
	return int(r.b.Cells[c].AreaM2 / (2.6 * 5.2))
}

// host works out what it takes for a cell to serve. Whether a room can be
// converted is a fact about it that has tests of its own (fit_test.go).
func (r *reference) host(c, f int) refHost {
	cell := r.b.Cells[c]
	if cell.Public {
		return refHost{}
	}
	if refFunctions[f].name == "bedroom" && (r.serves(c, f) || !r.left(cell.Of)) {
		// Which rooms can legally be bedrooms, and for what, is a fact about them with
		// tests of its own (bedroom_test.go).
		price, can := plan.BedroomOf(r.b, r.brief, r.prices, c)
		return refHost{can: can, price: price}
	}
	if r.serves(c, f) {
		return refHost{can: true}
	}
	price, can := plan.ConversionOf(r.b, r.prices, c, plan.Function(f))
	return refHost{can: can && !r.left(cell.Of), price: price}
}

// capacity is how many things a cell can be at once, panels and ground apart:
// a fact about the room, too, that has tests of its own (fit_offer_test.go).
func (r *reference) capacity(c int) int { return plan.CapacityOf(r.b, c) }

// clashing gives the sets of functions that do not go together in a cell:
// likewise.
func (r *reference) clashing(c int) (sets []uint64) {
	for _, clash := range plan.ClashesOf(r.b, c) {
		set := uint64(0)
		for _, f := range clash {
			set |= 1 << f
		}
		sets = append(sets, set)
	}
	return sets
}

// closes tells whether taking on a function makes a room that people pass
// through a dead end: a bedroom, a bathroom, or a laundry in place of a store.
func (r *reference) closes(c, f int) bool {
	if r.serves(c, f) || r.rooms>>c&1 == 0 || r.deadEnd>>c&1 != 0 {
		return false
	}
	switch refFunctions[f].name {
	case "bedroom":
		return true
	case "bathroom":
		// Into a large unfinished room a bathroom is built, which leaves it what it is.
		built := r.b.Cells[c].Use == plan.Unfinished && r.b.Cells[c].AreaM2 >= 12
		return !built && !r.isUse(c, plan.Bathroom, plan.PowderRoom)
	case "laundry":
		return slices.Contains([]plan.Use{plan.Storage, plan.Pantry}, r.b.Cells[c].Use)
	}
	return false
}

// asked is how many of a function each unit must have.
func (r *reference) asked(u, f int) int {
	t := refFunctions[f]
	shown := slices.ContainsFunc(r.b.House.Fixtures, func(x plan.Fixture) bool { return slices.Contains(t.fixtures, x.Use) })
	for c := range r.b.Cells {
		shown = shown || r.serves(c, f)
	}
	if t.service && !shown {
		return 0
	}
	for _, word := range r.brief.Share {
		accepted := slices.Contains(t.fixtures, word) || slices.ContainsFunc(r.b.House.Fixtures, func(x plan.Fixture) bool {
			return x.ID == word && slices.Contains(t.fixtures, x.Use)
		})
		if accepted && shown {
			return 0
		}
	}
	outdoors := slices.ContainsFunc(r.b.Cells, func(c plan.Cell) bool { return c.Outdoor })
	unit := r.brief.Units[u]
	switch t.name {
	case "bedroom":
		return unit.Bedrooms.Min
	case "parking":
		if outdoors && unit.Parking.Min == 1 {
			return 1
		}
		return 0
	case "outdoor":
		return 0 // a matter of square metres: see grounds
	}
	return 1
}

// lacking is what a unit without a function costs; false where it must have it.
func (r *reference) lacking(f int) (refPrice, bool) {
	switch refFunctions[f].name {
	case "laundry", "heat", "hot water", "panel":
		return refPrice{shared: 1}, true
	case "storage":
		return refPrice{cost: toCents(r.prices.Priorities.NoStorage)}, true
	}
	return refPrice{}, false
}

// refTask is one function that one unit must have.
type refTask struct {
	unit, f int
	again   bool // another one of the same: a later cell
	least   refPrice
}

// hosting tries every way to have each unit's functions in its cells, with the
// new doors that it takes when some of them become dead ends, and gives the
// least price of both, or never.
func (r *reference) hosting(owns [2]uint64, limit refPrice) refPrice {
	doors := map[uint64]float64{} // by the cells that become dead ends
	dearest := math.Inf(1)
	if limit.shared == 0 {
		dearest = limit.cost
	}
	var tasks []refTask
	for u := range r.brief.Units {
		for f := range refFunctions {
			for i := range r.asked(u, f) {
				least, can := r.lacking(f)
				if !can {
					least = never
				}
				for _, c := range r.owned {
					if h := r.hosts[c][f]; owns[u]>>c&1 != 0 && h.can && (refPrice{0, h.price}).less(least) {
						least = refPrice{0, h.price}
					}
				}
				if least == never {
					return never
				}
				tasks = append(tasks, refTask{u, f, i > 0, least})
			}
		}
	}
	rest := make([]refPrice, len(tasks)+1) // the least that the tasks from here on can cost
	for i := len(tasks) - 1; i >= 0; i-- {
		rest[i] = refPrice{rest[i+1].shared + tasks[i].least.shared, rest[i+1].cost + tasks[i].least.cost}
	}
	best := limit
	load := make([]int, len(r.b.Cells))
	used := make([][len(refFunctions)]int, len(r.b.Cells))
	// dead gives the cells that become dead ends by what is used so far, and
	// the doors that it takes then; false where functions clash.
	dead := func() (price float64, ok bool) {
		closed := uint64(0)
		for _, c := range r.owned {
			set := uint64(0)
			for f, n := range used[c] {
				if n > 0 {
					set |= 1 << f
					if r.closes(c, f) {
						closed |= 1 << c
					}
				}
			}
			if slices.ContainsFunc(r.clashes[c], func(clash uint64) bool { return clash&^set == 0 }) {
				return 0, false
			}
		}
		if _, known := doors[closed]; !known {
			today := r.deadEnd
			r.deadEnd |= closed
			doors[closed] = r.doors(owns, dearest)
			r.deadEnd = today
		}
		return doors[closed], !math.IsInf(doors[closed], 1)
	}
	var try func(i int, spent refPrice, last int)
	try = func(i int, spent refPrice, last int) {
		// More dead ends never take fewer doors.
		ways, ok := dead()
		total := refPrice{spent.shared + rest[i].shared, spent.cost + rest[i].cost + ways}
		if !ok || !total.less(best) {
			return
		}
		if i == len(tasks) {
			best = total
			return
		}
		t := tasks[i]
		if !t.again {
			last = -1
		}
		for _, c := range r.owned {
			h := r.hosts[c][t.f]
			if c <= last || owns[t.unit]>>c&1 == 0 || !h.can || !refFunctions[t.f].free && load[c] >= r.room[c] {
				continue
			}
			if !refFunctions[t.f].free {
				load[c]++
			}
			used[c][t.f]++
			try(i+1, refPrice{spent.shared, spent.cost + h.price}, c)
			used[c][t.f]--
			if !refFunctions[t.f].free {
				load[c]--
			}
		}
		if p, can := r.lacking(t.f); can {
			// What is lacked once is lacked again: no later cell serves.
			try(i+1, refPrice{spent.shared + p.shared, spent.cost + p.cost}, len(r.b.Cells))
		}
	}
	try(0, refPrice{}, -1)
	if best == limit {
		return never
	}
	return best
}
