package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan/rules"
)

// burners are fixtures that burn fuel unless the brief says that nothing does.
var burners = []string{"furnace", "boiler", "water_heater"}

// checkPlant compares rooms that hold plant which burns fuel.
func checkPlant(c *checking) {
	if !c.MayBurnFuel() {
		return
	}
	for cell := range c.b.Cells {
		room := &c.b.Cells[cell]
		if room.Outdoor || room.Flight || c.s.Owners[cell] == Nobody {
			continue
		}
		var plant []string
		for _, f := range c.s.Fixtures {
			if slices.Contains(burners, f.Use) && f.State != Removed && f.Level == room.Level && c.standsIn(f, cell) {
				plant = append(plant, f.ID)
			}
		}
		if len(plant) > 0 {
			c.plantRoom(cell, plant)
		}
	}
}

// standsIn tells whether a fixture stands in a cell.
func (c *checking) standsIn(f PlacedFixture, cell int) bool {
	for i, old := range c.b.House.Fixtures {
		if old.ID == f.ID {
			return c.b.FixtureCell[i] == cell
		}
	}
	return slices.ContainsFunc(c.s.Fits, func(fit Fit) bool {
		return fit.Cell == cell && slices.ContainsFunc(fit.Fixtures, func(n Fixture) bool { return n.ID == f.ID })
	})
}

func (c *checking) plantRoom(cell int, plant []string) {
	room := &c.b.Cells[cell]
	a := about{subject: room.ID, note: "holds " + strings.Join(plant, ", ")}
	if c.Fuel == FuelNotSaid {
		a.note += ", taken to burn fuel: the brief says nothing of it"
	}
	owner := c.s.Owners[cell]
	if owner <= UnitB {
		a.unit = owner.String()
	}
	serves := owner == Common || slices.ContainsFunc(c.s.Shared, func(s Shared) bool {
		return slices.Contains(plant, s.ID) || s.Use == "source_of_heat" || s.Use == "hot_water"
	})
	house, levels := 0.0, c.storeysHigh()
	for _, u := range c.s.Units {
		house += u.GrossM2
	}
	most, small := c.set.Get("plant-room-largest-house")
	switch {
	case !serves && small:
		a.note = joinNotes(a.note, "it serves one unit alone")
		c.judged("plant-room-largest-house", true, "one unit's own", a)
	case small && house <= most.Value() && levels <= 2:
		c.judged("plant-room-largest-house", true, fmt.Sprintf("%s on %s", most.Provided(house), counted(float64(levels), "storey")), a)
	case c.IsSecondary():
		c.unknown("plant-room-lining", "", withCure(a, "line both sides of its walls and the underside of its ceiling's framing"))
	default:
		c.unknown("plant-room-rating", "", withCure(a, "build its walls and ceiling to an assembly tested to that"))
	}
	c.plantDoor(cell, a)
}

// firstStoreyMost is how high, in metres above the ground, the floor of a first
// storey lies at most (NBC 1.4.1.2. of Division A, from memory).
const firstStoreyMost = 2.0

// storeysHigh counts the storeys of the house from its first one up: the highest
// whose floor is no more than firstStoreyMost above the ground. Basements do
// not count; where the ground is not known every level does.
func (c *checking) storeysHigh() int {
	ground, known := c.b.grade()
	first := math.Inf(-1)
	for _, l := range c.b.House.Levels {
		if known && !l.Outdoor && l.Floor <= ground+firstStoreyMost+rules.LengthTolerance {
			first = max(first, l.Floor)
		}
	}
	n := 0
	for _, l := range c.b.House.Levels {
		if !l.Outdoor && l.Floor >= first-geom.Coincide {
			n++
		}
	}
	return n
}

// plantDoor compares how the doors of a plant room open.
func (c *checking) plantDoor(cell int, a about) {
	if c.b.Cells[cell].Use != Mechanical {
		return
	}
	const id = rules.ID("plant-room-door")
	for _, p := range c.s.Passages {
		if p.Type != "door" || p.State == Sealed || p.Door == nil || !slices.Contains(p.Between[:], c.b.Cells[cell].ID) {
			continue
		}
		at := about{unit: a.unit, subject: p.Of, note: "of " + c.b.Cells[cell].ID, cure: "hang it the other way"}
		switch p.Door.OpensInto {
		case "":
			c.unknown(id, "", at)
		case c.b.Cells[cell].Of:
			c.judged(id, false, "inwards", at)
		default:
			c.judged(id, true, "outwards", at)
		}
	}
}
