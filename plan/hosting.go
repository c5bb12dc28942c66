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

// convertible tells whether and how a cell that lacks f can take it on. The
// room must be large and wide enough, and what drains must be within reach of
// a stack.
func (b *Building) convertible(c int, f Function) (conversion, bool) {
	cell := &b.Cells[c]
	if cell.Flight || cell.Outdoor || cell.Public {
		return conversion{}, false
	}
	fits := func(m2, width float64) bool { return cell.AreaM2 >= m2 && b.width(c) >= width }
	among := func(uses ...Use) bool { return slices.Contains(uses, cell.Use) }
	how := conversion{work: functions[f].work}
	if cell.Use == Unfinished {
		how.finish = math.Min(finishM2[f], cell.AreaM2)
	}
	var ok bool
	switch f {
	case HasKitchen:
		ok = among(Living, Family, Dining, Office, Bedroom, Storage, Unfinished) && fits(kitchenMinM2, kitchenMinWidth)
	case HasLiving:
		ok = among(Dining, Office, Bedroom, Unfinished) && fits(livingMinM2, livingMinWidth)
	case HasBathroom:
		how.part = among(Bathroom, PowderRoom)
		ok = among(Bathroom, PowderRoom, Laundry, Storage, Closet, Office, Bedroom, Unfinished) && fits(bathroomMinM2, bathroomMinWidth)
	case HasBedroom:
		ok = among(Office, Dining, Living, Family, Unfinished) && fits(bedroomMinM2, bedroomMinWidth) && b.windows(c) > 0
	case HasLaundry:
		ok = among(Closet, Storage, Pantry, Mechanical, Unfinished) && fits(laundryClosetM2, laundryClosetWidth) ||
			among(Bathroom, PowderRoom) && fits(bathroomMinM2+laundryClosetM2, bathroomMinWidth) ||
			among(Kitchen, Hall) && fits(kitchenMinM2+laundryClosetM2, kitchenMinWidth)
	case HasHeat, HasHotWater:
		ok = among(Mechanical, Closet, Storage, Unfinished, Laundry) && fits(plantMinM2, plantMinWidth)
	case HasPanel:
		// Not in a bathroom or a clothes closet (NEC 240.24, from memory).
		ok = among(Entry, Hall, Mechanical, Storage, Laundry, Unfinished, Garage, Office, Kitchen)
	}
	if ok && drains(f) {
		ok = b.nearStack(c)
	}
	if ok && functions[f].room.DeadEnd() && !cell.Use.DeadEnd() && functions[f].room != Laundry {
		ok = !b.passedThrough(c)
	}
	return how, ok
}

func drains(f Function) bool {
	return f == HasKitchen || f == HasBathroom || f == HasLaundry || f == HasHotWater
}

// capacity is how many counted functions the cell can host at once.
func (b *Building) capacity(c int) int {
	cell := &b.Cells[c]
	room := 1
	switch cell.Use {
	case Living, Family:
		if cell.AreaM2 >= livingWithKitchenM2 {
			room = 2
		}
	case Mechanical:
		room = 3
	case Garage, Carport, Parking, Drive:
		room = 1 + b.stalls(c)
	case Storage, Laundry:
		room = 2
	case Bathroom, Kitchen:
		room = 2 // itself and a laundry closet
	case Unfinished:
		room = 1 + int(cell.AreaM2/10)
	case Closet, Entry:
		room = 1
	}
	today := 0
	for f := range functionCount {
		if !functions[f].uncounted && b.has(c, f) {
			today++
		}
	}
	return max(room, today)
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

// nearStack tells whether the cell lies within drainReachMetres, on plan, of a
// drain stack or, where none was surveyed, of a room that drains. A survey
// that shows neither says nothing against it.
func (b *Building) nearStack(c int) bool {
	stacks := b.stacks()
	if len(stacks) == 0 {
		return true
	}
	for _, at := range stacks {
		region := b.Cells[c].Region
		if region.Contains(at) != geom.Out || region.DistanceToBorder(at) <= drainReachMetres {
			return true
		}
	}
	return false
}

func (b *Building) stacks() []geom.Pt {
	var at []geom.Pt
	for _, f := range b.House.Fixtures {
		if f.Use == "drain_stack" {
			at = append(at, f.centre())
		}
	}
	if len(at) > 0 {
		return at
	}
	for c := range b.Cells {
		cell := &b.Cells[c]
		if cell.is(Kitchen) || cell.is(Bathroom) || cell.is(PowderRoom) || cell.is(Laundry) {
			centre, _ := geom.VisualCentre(cell.Region)
			at = append(at, centre)
		}
	}
	return at
}

// centre is the point of a fixture, or the middle of its footprint.
func (f *Fixture) centre() geom.Pt {
	if f.Footprint == nil {
		return f.At
	}
	return f.Footprint.Bounds().Centre()
}
