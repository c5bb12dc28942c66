package plan

import "slices"

// Function is something that a unit must have of its own.
type Function int

// The functions, in the order in which results list them.
const (
	HasKitchen Function = iota
	HasLiving
	HasBathroom
	HasBedroom
	HasLaundry
	HasHeat
	HasHotWater
	HasPanel
	HasStorage
	HasOutdoor
	HasParking
	functionCount
)

// functionTrait is what the partition needs to know of a function.
type functionTrait struct {
	name      string
	room      Use  // the use of a space that has the function; "" none
	uncounted bool // takes no room of the space that hosts it
	service   bool // where the survey shows none anywhere, it is not surveyed rather than missing
	work      string
	fixtures  []string // one of these in a space gives it the function
}

var functions = [functionCount]functionTrait{
	HasKitchen:  {name: "kitchen", room: Kitchen, work: "new_kitchen"},
	HasLiving:   {name: "living space", room: Living},
	HasBathroom: {name: "bathroom", room: Bathroom, work: "new_bathroom"},
	HasBedroom:  {name: "bedroom", room: Bedroom},
	HasLaundry:  {name: "laundry", room: Laundry, work: "new_laundry", fixtures: []string{"washer"}},
	HasHeat:     {name: "source of heat", service: true, work: "new_furnace", fixtures: []string{"furnace", "boiler"}},
	HasHotWater: {name: "hot water", service: true, work: "new_water_heater", fixtures: []string{"water_heater"}},
	HasPanel:    {name: "electrical panel", uncounted: true, service: true, work: "new_panel", fixtures: []string{"electrical_panel"}},
	HasStorage:  {name: "storage", service: true},
	HasOutdoor:  {name: "outdoor area", uncounted: true},
	HasParking:  {name: "parking"},
}

// String names the function as a sentence does.
func (f Function) String() string { return functions[f].name }

// Sizes below which a room is not thought of for a conversion. What fits is
// found out by placing the fixtures; the least areas only spare the trouble.
const (
	// ceiling-nbc: the least kitchen, 3.2 m2 (NBC Alberta Edition 2023, Table 9.5.3.1; read).
	kitchenMinM2 = 3.2
	// wc, basin and shower on 1.5 m2, and a door (common practice, no source).
	bathroomMinM2 = 1.8
	// 70 ft2 and 7 ft in either direction: IRC R304 (from memory).
	bedroomMinM2    = 6.5
	bedroomMinWidth = 2.1
	// ceiling-nbc: the least living space, 10 m2 (NBC as above; read), here also
	// beside a kitchen and its aisle; the width is from memory.
	livingMinM2    = 10.0
	livingMinWidth = 2.7
	// The footprint of the least of the machines.
	laundryMinM2 = 0.5
	plantMinM2   = 0.3
)

// has tells whether a cell has the function as surveyed.
func (b *Building) has(c int, f Function) bool {
	cell := &b.Cells[c]
	if cell.isPiece() && !b.pieceHas(c, f) {
		return false
	}
	switch f {
	case HasBedroom:
		return cell.is(Bedroom) && !cell.Through
	case HasLiving:
		return cell.is(Living) || cell.is(Family)
	case HasBathroom:
		return cell.is(Bathroom) && b.fullBathroom(c)
	case HasStorage:
		return cell.is(Closet) || cell.is(Storage) || cell.is(Pantry) || cell.is(Unfinished) || cell.is(Garage)
	case HasOutdoor:
		return slices.Contains([]Use{Yard, Patio, Deck, Balcony, Porch}, cell.Use)
	case HasParking:
		return b.stalls(c) > 0
	}
	t := functions[f]
	return (t.room != "" && cell.is(t.room)) || b.holds(c, t.fixtures...)
}

// is tells whether u is the cell's use or one of its further uses.
func (c *Cell) is(u Use) bool { return c.Use == u || slices.Contains(c.Also, u) }

// holds tells whether one of the fixtures stands in the cell.
func (b *Building) holds(c int, uses ...string) bool {
	for i, f := range b.House.Fixtures {
		if b.FixtureCell[i] == c && slices.Contains(uses, f.Use) {
			return true
		}
	}
	return false
}

// fullBathroom tells whether a bathroom has wc, basin and bath or shower. One
// whose fixtures were not drawn counts as complete.
func (b *Building) fullBathroom(c int) bool {
	wc, basin, bath := b.holds(c, "wc"), b.holds(c, "basin"), b.holds(c, "bath", "shower")
	return wc == basin && basin == bath
}

// surveyed tells whether the function is shown anywhere in the house.
func (b *Building) surveyed(f Function) bool {
	for c := range b.Cells {
		if b.has(c, f) {
			return true
		}
	}
	for _, fix := range b.House.Fixtures {
		if slices.Contains(functions[f].fixtures, fix.Use) {
			return true
		}
	}
	return false
}

// stalls is how many cars a cell parks. A stall is 2.6 x 5.2 m; the area test
// allows for the way in to a double one (common practice, no source).
func (b *Building) stalls(c int) int {
	cell := &b.Cells[c]
	const stallM2 = 2.6 * 5.2
	switch cell.Use {
	case Garage, Carport, Parking, Drive:
		return int(cell.AreaM2 / stallM2)
	}
	return 0
}
