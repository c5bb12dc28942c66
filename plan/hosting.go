package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// conversion is what it takes for a cell to take on a function it lacks.
type conversion struct {
	work   string  // kind of work, "" when only the use changes
	part   bool    // completes what is partly there
	finish float64 // m2 to finish where the space is unfinished
}

// finishM2 is how much of an unfinished space is finished for a function: a
// usual room of its kind (common practice, no source).
var finishM2 = map[Function]float64{HasKitchen: 8, HasLiving: 20, HasBathroom: 5, HasBedroom: 12}

// convertible tells whether and how a cell that lacks f can take it on: its
// use and size must be of the kind, and its fixtures must fit with their clear
// spaces and drains. What does not go together in it is among its clashes (see
// offerOf).
func (b *Building) convertible(c int, f Function) (conversion, bool) {
	if !b.takesUp(c, f) || !b.offerOf(c).functions.has(f) {
		return conversion{}, false
	}
	cell := &b.Cells[c]
	how := conversion{work: functions[f].work}
	how.part = f == HasBathroom && (cell.Use == Bathroom || cell.Use == PowderRoom)
	if cell.Use == Unfinished {
		how.finish = math.Min(finishM2[f], cell.AreaM2)
	}
	return how, true
}

// takesUp tells whether a cell of this use and size can be thought of for a
// function that it lacks.
func (b *Building) takesUp(c int, f Function) bool {
	cell := &b.Cells[c]
	if cell.Flight || cell.Outdoor || cell.Public || b.has(c, f) || cell.isPiece() && !b.pieceTakesUp(c, f) {
		return false
	}
	large := func(m2, width float64) bool {
		return cell.AreaM2 >= m2-roomAreaTolerance && (width == 0 || cell.Region.HoldsDisc((width-roomWidthTolerance)/2))
	}
	among := func(uses ...Use) bool { return slices.Contains(uses, cell.Use) }
	var ok bool
	switch f {
	case HasKitchen:
		ok = among(Living, Family, Dining, Office, Bedroom, Storage, Unfinished) && large(kitchenMinM2, 0)
	case HasLiving:
		ok = among(Dining, Office, Bedroom, Unfinished) && large(livingMinM2, livingMinWidth)
	case HasBathroom:
		ok = among(Bathroom, PowderRoom, Laundry, Storage, Closet, Office, Bedroom, Unfinished) && large(bathroomMinM2, 0)
	case HasBedroom:
		ok = among(Office, Dining, Living, Family, Unfinished) && large(bedroomMinM2, bedroomMinWidth) && b.windows(c) > 0
		if _, openPlan := b.casedOpenings(c); openPlan {
			ok = false
		}
	case HasLaundry:
		ok = among(Closet, Storage, Pantry, Mechanical, Unfinished, Bathroom, PowderRoom, Kitchen) && large(laundryMinM2, 0) || buildsClosets(cell.Use) || among(Bedroom)
	case HasHeat, HasHotWater:
		ok = among(Mechanical, Closet, Storage, Unfinished, Laundry) && large(plantMinM2, 0) || buildsClosets(cell.Use)
	case HasPanel:
		// Not in a bathroom or a clothes closet (NEC 240.24, from memory).
		ok = among(Entry, Hall, Mechanical, Storage, Laundry, Unfinished, Garage, Office, Kitchen)
	}
	return ok
}

// roomFor is how many counted functions a cell of this use may be thought of
// for at once; which of them really go together offerOf finds out.
func (b *Building) roomFor(c int) int {
	cell := &b.Cells[c]
	switch cell.Use {
	case Living, Family: // and a kitchen, and a closet for machines
		return 3
	case Dining, Office, Bedroom: // turned into a living space, say, with a closet for machines
		return 2
	case Mechanical:
		return 3
	case Garage, Carport, Parking, Drive:
		return 1 + b.stalls(c)
	case Storage, Laundry:
		return 2
	case Bathroom, Kitchen: // and a laundry closet
		return 2
	case Unfinished:
		return 1 + int(cell.AreaM2/10)
	}
	return 1
}

// width is the diameter of the widest circle in the cell, in metres.
func (b *Building) width(c int) float64 {
	_, clearance := geom.VisualCentre(b.Cells[c].Region)
	return 2 * clearance
}

// windows counts the windows of a cell.
func (b *Building) windows(c int) int {
	n := 0
	for _, sides := range b.WindowCells {
		if sides[0] == c {
			n++
		}
	}
	return n
}

// centre is the point of a fixture, or the middle of its footprint.
func (f *Fixture) centre() geom.Pt {
	if f.Footprint == nil {
		return f.At
	}
	return f.Footprint.Bounds().Centre()
}
