package plan

import (
	"fmt"
	"slices"

	"moiety/plan/rules"
)

// ceilingPart is a part of a room that must have the full ceiling height,
// where a set lets the rest be lower.
type ceilingPart struct {
	use Use
	id  rules.ID
}

var ceilingParts = []ceilingPart{
	{Living, "ceiling-area-living"}, {Family, "ceiling-area-living"}, {Dining, "ceiling-area-dining"},
	{Kitchen, "ceiling-area-kitchen"}, {Bedroom, "ceiling-area-bedroom"},
	{Bathroom, "ceiling-area-bathroom"}, {PowderRoom, "ceiling-area-bathroom"}, {Laundry, "ceiling-area-bathroom"},
}

// checkCeilings compares ceiling heights. A survey gives one height for a
// space, so a room is either of full height throughout or is not at all; where
// a set asks for it over a part of the room only, what is short says so.
func checkCeilings(c *checking) {
	for _, u := range bothUnits {
		high, whole := 0.0, 0.0
		dwelling, ofDwelling := c.set.Get("ceiling-dwelling")
		for _, cell := range c.indoors(u) {
			room := &c.b.Cells[cell]
			if room.Use == Garage {
				continue
			}
			height := room.Ceiling - room.Floor - c.s.lining(cell).CeilingM - c.s.lining(cell).FloorM
			whole += room.AreaM2
			if ofDwelling && dwelling.Meets(height) {
				high += room.AreaM2
			}
			c.ceiling(u, cell, height)
		}
		c.underBeams(u)
		if ofDwelling && whole > 0 {
			c.measured("ceiling-dwelling-share", high/whole, about{
				unit: u.String(), subject: u.String(),
				note: fmt.Sprintf("of the area of the unit's rooms, at %s or more", dwelling.Limit),
				cure: "a lower floor or a higher ceiling; the standard binds only where it was adopted",
			})
		}
	}
}

// ceiling compares the height of one room.
func (c *checking) ceiling(u Owner, cell int, height float64) {
	room := &c.b.Cells[cell]
	a := about{
		unit: u.String(), subject: room.ID, note: c.s.lining(cell).heightNote(),
		cure: "lower the floor, which needs an engineer and a look at the footings, or give the room another use",
	}
	id := rules.ID("")
	switch {
	case c.used(cell, Bathroom, PowderRoom, Laundry) && !c.used(cell, habitable...):
		id = "ceiling-bathroom"
	case c.used(cell, habitable...) || c.used(cell, Hall, Entry):
		id = "ceiling-habitable"
	case c.used(cell, Unfinished):
		id = "ceiling-unfinished"
	default:
		return
	}
	if _, relaxed := c.set.Get("ceiling-suite"); relaxed && id != "ceiling-unfinished" && c.IsSecondary() {
		id = "ceiling-suite"
		a.note = joinNotes(a.note, "a house with a secondary suite")
	}
	if mayBeSloped(c.b, c.set, cell, height) && id != "ceiling-unfinished" {
		if f, ok := c.set.Get(id); ok && !f.Meets(height) {
			a.note = joinNotes(a.note, c.partOfCeiling(cell))
			a.cure = "measure the ceiling along the slope"
			c.unknown(id, f.Provided(height), a)
			return
		}
	}
	if f, ok := c.set.Get(id); ok && !f.Meets(height) {
		a.note = joinNotes(a.note, c.partOfCeiling(cell))
		if l := c.s.lining(cell); f.Meets(height + l.CeilingM + l.FloorM) {
			a.cure = "a build-up of the separating floor that takes less height, or one built from the other side; else " + a.cure
		}
	}
	c.measured(id, height, a)
}

// isFirstBedroom tells whether a room is the largest bedroom of its unit.
func (c *checking) isFirstBedroom(cell int) bool {
	for _, other := range c.bySize(c.indoors(c.s.Owners[cell])) {
		if c.used(other, Bedroom) {
			return other == cell
		}
	}
	return false
}

// underBeams asks about what hangs below the ceilings, which a survey does not
// tell: in basements, and throughout a secondary suite where the set says so.
func (c *checking) underBeams(u Owner) {
	id, everywhere := rules.ID("ceiling-under-beams"), false
	if _, ok := c.set.Get("ceiling-suite-under-beams"); ok && c.IsSecondary() {
		id, everywhere = "ceiling-suite-under-beams", true
	}
	var levels []string
	for _, cell := range c.indoors(u) {
		level := c.b.House.Levels[c.b.Cells[cell].Level].ID
		if (everywhere || c.b.isBasement(cell)) && c.b.Cells[cell].Use != Garage && !slices.Contains(levels, level) {
			levels = append(levels, level)
			c.unknown(id, "", about{unit: u.String(), subject: level, note: "beams and ducts below the ceilings were not surveyed", cure: "measure under each of them"})
		}
	}
}

// mayBeSloped tells whether a room that is too low may be in order all the
// same: it lies under the roof, where a ceiling slopes, its one surveyed height
// is that of a slope that the set accepts, and how much of the room is of full
// height was not surveyed.
func mayBeSloped(b *Building, set *rules.Set, cell int, height float64) bool {
	lowest, ok := set.Get("ceiling-slope-lowest")
	if !ok || !lowest.Meets(height) {
		return false
	}
	for _, l := range b.Links {
		if l.Kind == LinkFloor && l.U == cell {
			return false
		}
	}
	return b.onTop(cell)
}

// onTop tells whether no level lies above a cell's own.
func (b *Building) onTop(cell int) bool {
	for _, l := range b.House.Levels {
		if !l.Outdoor && l.Floor > b.House.Levels[b.Cells[cell].Level].Floor {
			return false
		}
	}
	return true
}

// partOfCeiling says over which part of a room that is too low throughout the
// set asks for the full height.
func (c *checking) partOfCeiling(cell int) string {
	part := 0.0
	for _, p := range ceilingParts {
		if f, ok := c.set.Get(p.id); ok && c.used(cell, p.use) {
			if first, ok := c.set.Get("ceiling-area-first-bedroom"); ok && p.use == Bedroom && c.isFirstBedroom(cell) {
				f = first
			}
			part += f.Value()
		}
	}
	if part > 0 {
		part = min(part, c.b.Cells[cell].AreaM2)
		return fmt.Sprintf("surveyed with one height; full height is asked over %s of it", c.set.Text(rules.Area, part))
	}
	if f, ok := c.set.Get("ceiling-slope-share"); ok && c.b.onTop(cell) {
		return fmt.Sprintf("surveyed with one height; under a slope full height is asked over %s of the area required", f.Limit)
	}
	return ""
}
