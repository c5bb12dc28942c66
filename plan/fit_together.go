package plan

import (
	"math/bits"
	"slices"

	"moiety/geom"
)

// functionSet is a set of functions.
type functionSet uint16

func setOf(fs ...Function) functionSet {
	var s functionSet
	for _, f := range fs {
		s |= 1 << f
	}
	return s
}

func (s functionSet) has(f Function) bool               { return s>>f&1 == 1 }
func (s functionSet) without(t functionSet) functionSet { return s &^ t }
func (s functionSet) len() int                          { return bits.OnesCount16(uint16(s)) }

func (s functionSet) list() []Function {
	var out []Function
	for f := range functionCount {
		if s.has(f) {
			out = append(out, f)
		}
	}
	return out
}

// indices lists the functions of a set as the partition numbers them.
func (s functionSet) indices() []int {
	var out []int
	for _, f := range s.list() {
		out = append(out, int(f))
	}
	return out
}

// hasAll is everything that the cell has as surveyed.
func (b *Building) hasAll(c int) functionSet {
	var s functionSet
	for f := range functionCount {
		if b.has(c, f) {
			s |= 1 << f
		}
	}
	return s
}

// sharesRoom lists, per function, those that it can share one undivided room with.
var sharesRoom = [functionCount]functionSet{
	HasKitchen:  setOf(HasLiving, HasLaundry, HasPanel),
	HasLiving:   setOf(HasKitchen, HasLaundry, HasHeat, HasHotWater),
	HasBathroom: setOf(HasLaundry),
	HasBedroom:  setOf(HasLaundry),
	HasLaundry:  setOf(HasKitchen, HasLiving, HasBedroom, HasBathroom, HasHeat, HasHotWater, HasPanel, HasStorage),
	HasHeat:     setOf(HasLiving, HasLaundry, HasHotWater, HasPanel, HasStorage),
	HasHotWater: setOf(HasLiving, HasLaundry, HasHeat, HasPanel, HasStorage),
	HasPanel:    setOf(HasKitchen, HasLaundry, HasHeat, HasHotWater, HasStorage, HasParking),
	HasStorage:  setOf(HasLaundry, HasHeat, HasHotWater, HasPanel, HasParking),
	HasOutdoor:  setOf(HasParking),
	HasParking:  setOf(HasPanel, HasStorage, HasOutdoor),
}

// sharing lists the functions that f can share the cell with.
func (b *Building) sharing(c int, f Function) functionSet {
	shares := sharesRoom[f]
	switch {
	case !b.buildsBathroom(c):
	case f == HasBathroom:
		shares |= besideBuiltBathroom
	case besideBuiltBathroom.has(f):
		shares |= setOf(HasBathroom)
	}
	return shares
}

// goTogether tells whether the functions of a set can share the cell. What it
// has today goes together as it is; plant that stands there stays there,
// whatever the room becomes.
func (b *Building) goTogether(c int, set functionSet) bool {
	has := b.hasAll(c)
	plant := has & setOf(HasHeat, HasHotWater, HasPanel)
	for _, f := range set.list() {
		others := set.without(setOf(f) | b.sharing(c, f))
		if has.has(f) {
			others = others.without(has)
		}
		if !plant.has(f) && others.without(plant) != 0 {
			return false
		}
	}
	return true
}

// replacesUse tells whether a set changes what the cell is used for, so that
// fixtures of the old use may go.
func (b *Building) replacesUse(c int, set functionSet) bool {
	cell := &b.Cells[c]
	fresh := set.without(b.hasAll(c))
	switch {
	case fresh.has(HasBathroom) && !b.buildsBathroom(c):
		return !cell.is(Bathroom) && !cell.is(PowderRoom)
	case fresh.has(HasKitchen):
		return !set.has(HasLiving) || fresh.has(HasLiving)
	}
	return fresh&setOf(HasLiving, HasBedroom) != 0
}

// servesNone lists the fixtures of a cell that no function of the set uses and
// that a change of use may take out; plant, pipes and hearths stay.
func (b *Building) servesNone(c int, set functionSet) []int {
	var out []int
	for i := range b.House.Fixtures {
		if b.FixtureCell[i] != c {
			continue
		}
		use := b.House.Fixtures[i].Use
		serves := servedBy(use)
		switch {
		case serves == functionCount || serves == HasHeat || serves == HasHotWater || serves == HasPanel:
			continue
		case use == "sink" && b.Cells[c].is(Laundry) && !b.Cells[c].is(Kitchen):
			serves = HasLaundry
		}
		if !set.has(serves) {
			out = append(out, i)
		}
	}
	slices.SortFunc(out, func(i, j int) int {
		if b.House.Fixtures[i].ID < b.House.Fixtures[j].ID {
			return -1
		}
		return 1
	})
	return out
}

// servedBy gives the function that a fixture is for, functionCount where none.
func servedBy(use string) Function {
	switch use {
	case "washer", "dryer":
		return HasLaundry
	case "sink", "range", "refrigerator", "dishwasher":
		return HasKitchen
	case "wc", "basin", "bath", "shower":
		return HasBathroom
	case "furnace", "boiler":
		return HasHeat
	case "water_heater":
		return HasHotWater
	case "electrical_panel":
		return HasPanel
	}
	return functionCount
}

// wants lists what is to be placed for the fresh functions of a set, the
// largest first, and what stands in the room today without having been drawn:
// the fixtures of a kitchen, bathroom or laundry that goes on, and a shelf
// where a store goes on.
func (r *fitRoom) wants(set, fresh functionSet, removed []int) []want {
	gone := map[int]bool{}
	for _, i := range removed {
		gone[i] = true
	}
	goesOn := func(u Use) bool { return r.cellIs(u) && !r.b.replacesUse(r.cell, set) }
	drawn := func(uses ...string) bool { return r.b.holds(r.cell, uses...) }
	var out []want
	add := func(reserved bool, wants ...want) {
		for _, w := range wants {
			if reserved {
				w = w.reserved()
			}
			out = append(out, w)
		}
	}
	if fresh.has(HasKitchen) {
		add(false, kitchenWant)
	} else if goesOn(Kitchen) && !drawn("sink", "range") {
		add(true, kitchenWant)
	}
	if fresh.has(HasBathroom) && r.b.buildsBathroom(r.cell) {
		add(false, builtBathroomWant)
	} else if fresh.has(HasBathroom) {
		add(false, r.bathroomWants(gone)...)
	} else if goesOn(Bathroom) && !drawn("wc", "basin", "bath", "shower") {
		add(true, r.bathroomWants(gone)...)
	} else if goesOn(PowderRoom) && !drawn("wc", "basin") {
		add(true, pieceWant(wcPiece), pieceWant(basinPiece))
	}
	if fresh.has(HasBedroom) {
		add(false, bedWant)
	}
	if fresh.has(HasLaundry) && r.buildsClosets(set) {
		add(false, laundryClosetWant)
	} else if fresh.has(HasLaundry) {
		add(false, laundryWant)
	} else if goesOn(Laundry) && !drawn("washer") {
		add(true, laundryWant)
	}
	plant := pieceWant
	if r.buildsClosets(set) {
		plant = closetWant
	}
	if fresh.has(HasHeat) {
		add(false, plant(furnacePiece))
	}
	if fresh.has(HasHotWater) {
		add(false, plant(heaterPiece))
	}
	if set.has(HasStorage) && len(out) > 0 {
		add(true, pieceWant(shelfPiece))
	}
	if fresh.has(HasPanel) {
		add(false, panelWant)
	}
	return out
}

// reserved is a want whose place is kept for what is there but was not drawn.
func (w want) reserved() want {
	return want{w.name, func(r *fitRoom, done []placed) []placed {
		out := w.options(r, done)
		for i := range out {
			out[i].reserved = true
		}
		return out
	}}
}

// leavesLiving tells whether an arrangement leaves the room a living space:
// livingMinM2 in one piece, livingMinWidth wide, beside kitchen and aisle.
func (r *fitRoom) leavesLiving(a arrangement) bool {
	patches := append(a.patches(aBody), a.patches(aClear)...)
	return r.leaves(patches, livingMinM2, livingMinWidth)
}

// leaves tells whether patches leave a piece of the room so large and so wide.
func (r *fitRoom) leaves(patches []patch, m2, width float64) bool {
	if !r.walkableRoom().mayBeWide(patches, width-roomWidthTolerance) {
		return false
	}
	var taken geom.Shape
	for _, p := range patches {
		taken = append(taken, r.frame.region(p))
	}
	room := r.b.Cells[r.cell].Region
	taken, err := geom.Union(taken)
	if err != nil {
		return false
	}
	left, err := geom.Difference(geom.Shape{room}, taken)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(left, func(piece geom.Region) bool {
		if piece.AreaM2() < m2-roomAreaTolerance {
			return false
		}
		return piece.HoldsDisc((width - roomWidthTolerance) / 2)
	})
}

// By how much a measured area (m2) and width (metres) may fall short of a
// limit: a tape's centimetre over the length of a room, and what the widest
// circle is found to.
const (
	roomAreaTolerance  = 0.01
	roomWidthTolerance = 0.012
)
