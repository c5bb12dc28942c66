package plan

import (
	"fmt"
	"slices"

	"moiety/plan/rules"
)

// clearWidth is the diameter of the widest disc in a cell: the width of a room
// of any shape, not that of the box around it, inside the separation's linings.
func (c *checking) clearWidth(cell int) float64 { return 2 * c.lined(cell).Clearance() }

// checkRooms compares areas and widths of rooms, what each unit has, and the
// sizes of the two units.
func checkRooms(c *checking) {
	for _, u := range bothUnits {
		var doubles, singles int
		for _, cell := range c.bySize(c.indoors(u)) {
			c.room(u, cell)
			if !c.used(cell, Bedroom) {
				continue
			}
			if c.bedroom(u, cell, doubles) {
				doubles++
			} else {
				singles++
			}
		}
		c.firstBedroom(u)
		if _, ok := c.set.Get("bedroom-double-required"); ok && doubles+singles > 1 {
			c.judged("bedroom-double-required", doubles > 0, counted(float64(doubles), "bedroom")+" for two", about{unit: u.String(), subject: u.String(), cure: "a larger bedroom"})
		}
		c.dwellingArea(u, doubles, singles)
		c.fixtures(u)
	}
	c.secondUnit()
}

// bySize sorts cells from the largest; of equal ones the first stays first.
func (c *checking) bySize(cells []int) []int {
	out := slices.Clone(cells)
	slices.SortStableFunc(out, func(a, b int) int {
		switch x, y := c.b.Cells[a].AreaM2, c.b.Cells[b].AreaM2; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return out
}

// room compares one room with what is asked of rooms of its use.
func (c *checking) room(u Owner, cell int) {
	room := &c.b.Cells[cell]
	a := about{unit: u.String(), subject: room.ID, cure: "move or take out a wall, or give the room another use"}
	lining := c.s.lining(cell)
	if c.used(cell, Bedroom, Living, Family, Dining, Office, Sunroom) {
		c.measured("room-area", c.s.AfterM2(cell), a.noted(c.areaNote(cell)))
		if f, ok := c.set.Get("room-width"); ok {
			wide, b := c.clearWidth(cell), a.noted(lining.widthNote())
			if beside := c.openBeside(cell); beside != "" && !f.Meets(wide) {
				b.note = joinNotes(b.note, "measured for itself; it is open to "+beside)
			}
			c.measured("room-width", wide, b)
		}
	}
	for _, of := range []struct {
		id   rules.ID
		uses []Use
	}{{"living-area", []Use{Living, Family}}, {"dining-area", []Use{Dining}}, {"kitchen-area", []Use{Kitchen}}} {
		if c.used(cell, of.uses...) {
			c.measured(of.id, c.s.AfterM2(cell), a.noted(c.areaNote(cell)))
		}
	}
}

// openBeside names a room that a room is open to; "" for none.
func (c *checking) openBeside(cell int) string {
	id := c.b.Cells[cell].ID
	for _, p := range c.s.Passages {
		if p.Type == "open" && p.State == Kept {
			for side := range p.Between {
				if other := c.b.CellNamed(p.Between[1-side]); p.Between[side] == id && other >= 0 && !c.b.Cells[other].Flight {
					return p.Between[1-side]
				}
			}
		}
	}
	return ""
}

// bedroom compares one bedroom, and tells whether it is one for two; first is
// how many of those the unit has before it.
func (c *checking) bedroom(u Owner, cell, first int) (double bool) {
	room := &c.b.Cells[cell]
	a := about{unit: u.String(), subject: room.ID, cure: "move or take out a wall, or give the room another use"}
	lining, after := c.s.lining(cell), c.s.AfterM2(cell)
	area, ok := c.set.Get("bedroom-double-area")
	if !ok {
		c.measured("bedroom-area", after, a.noted(c.areaNote(cell)))
		if _, ok := c.set.Get("bedroom-width"); ok {
			c.measured("bedroom-width", c.clearWidth(cell), a.noted(lining.widthNote()))
		}
		return false
	}
	wide := c.clearWidth(cell)
	id := rules.ID("bedroom-double-width")
	if first > 0 {
		id = "bedroom-double-other-width"
	}
	if width, ok := c.set.Get(id); area.Meets(after) && (!ok || width.Meets(wide)) {
		a.note = "a bedroom for two"
		c.measured("bedroom-double-area", after, a.noted(c.areaNote(cell)))
		c.measured(id, wide, a.noted(lining.widthNote()))
		return true
	}
	a.note = "a bedroom for one: too small or too narrow for two"
	c.measured("bedroom-area", after, a.noted(c.areaNote(cell)))
	c.measured("bedroom-width", wide, a.noted(lining.widthNote()))
	return false
}

// firstBedroom compares the largest bedroom of a unit, where a set has a
// figure for it alone.
func (c *checking) firstBedroom(u Owner) {
	for _, cell := range c.bySize(c.indoors(u)) {
		if c.used(cell, Bedroom) {
			c.measured("bedroom-first-area", c.s.AfterM2(cell), about{unit: u.String(), subject: c.b.Cells[cell].ID, note: c.areaNote(cell), cure: "a larger bedroom"})
			return
		}
	}
}

// dwellingArea compares a unit's area with that for its bedrooms and the people
// they are for. The standard measures to the inside of the external walls,
// inner walls included: no less than the rooms alone, no more than with the
// outer walls.
func (c *checking) dwellingArea(u Owner, doubles, singles int) {
	bedrooms, people := doubles+singles, 2*doubles+singles
	if bedrooms == 0 {
		return
	}
	id := rules.ID(fmt.Sprintf("dwelling-area-%db%dp", bedrooms, people))
	if c.storeys(u) > 1 {
		if _, ok := c.set.Get(id + "-two-storeys"); ok {
			id += "-two-storeys"
		}
	} else if _, ok := c.set.Get(id + "-shower"); ok && !c.has(u, "bath") && c.has(u, "shower") {
		id += "-shower"
	}
	f, ok := c.set.Get(id)
	if !ok {
		return
	}
	unit := &c.s.Units[u]
	a := about{unit: u.String(), subject: u.String(), cure: "more of the house for this unit, or fewer people in its bedrooms"}
	switch {
	case f.Meets(unit.AfterM2()):
		a.note = "its rooms alone"
		c.measured(id, unit.AfterM2(), a)
	case !f.Meets(unit.GrossM2):
		a.note = "with its outer walls"
		c.measured(id, unit.GrossM2, a)
	default:
		a.note = "the inside of its outer walls was not measured; its rooms alone are less, with its outer walls it is more"
		c.unknown(id, f.Provided(unit.AfterM2())+" to "+f.Provided(unit.GrossM2), a)
	}
}

// storeys counts the levels on which a unit has rooms.
func (c *checking) storeys(u Owner) int {
	var levels []int
	for _, cell := range c.indoors(u) {
		if l := c.b.Cells[cell].Level; !slices.Contains(levels, l) && c.b.Cells[cell].Use != Garage {
			levels = append(levels, l)
		}
	}
	return len(levels)
}

// has tells whether the scheme has a fixture in a unit.
func (c *checking) has(u Owner, use string) bool {
	return slices.ContainsFunc(c.s.Fixtures, func(f PlacedFixture) bool {
		return f.Use == use && f.Unit == u.String() && f.State != Removed
	})
}

// fixtures tells whether a unit has a kitchen and a whole bathroom.
func (c *checking) fixtures(u Owner) {
	var missing []string
	kitchen := slices.ContainsFunc(c.indoors(u), func(cell int) bool { return c.used(cell, Kitchen) })
	if !kitchen {
		missing = append(missing, "kitchen")
	}
	if c.s.Units[u].Bathrooms < 1 {
		missing = append(missing, "whole bathroom")
	}
	provided := "kitchen and bathroom, there or put in by the works"
	if len(missing) > 0 {
		provided = "no " + missing[0]
		if len(missing) > 1 {
			provided += ", no " + missing[1]
		}
	}
	c.judged("fixtures-required", len(missing) == 0, provided, about{unit: u.String(), subject: u.String(), cure: "put it in"})
}

// secondUnit compares the size of a secondary suite: the smaller unit.
func (c *checking) secondUnit() {
	if !c.IsSecondary() {
		return
	}
	u, other := UnitA, UnitB
	if c.s.Units[u].GrossM2 > c.s.Units[other].GrossM2 {
		u, other = other, u
	}
	suite, both := c.s.Units[u].GrossM2, c.s.Units[u].GrossM2+c.s.Units[other].GrossM2
	a := about{
		unit: u.String(), subject: u.String(), cure: "less of the house for this unit",
		note: "the smaller unit, measured to the outer face of its walls, garages left out: a bylaw may measure otherwise",
	}
	c.measured("second-unit-area", suite, a)
	if both > 0 {
		c.measured("second-unit-share", suite/both, a)
	}
}
