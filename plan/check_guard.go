package plan

import "moiety/plan/rules"

// flightRails asks about the handrails of a flight, and about its guards where
// it rises higher than a set lets go without.
func (c *checking) flightRails(f flight, a about) {
	a.note, a.cure = "handrails were not surveyed", "measure them over the line of the nosings"
	c.unknown("handrail-least", "", a)
	c.unknown("handrail-most", "", a)
	if c.needsGuard(f.rise) {
		c.guard("guard-height", f.rise, a)
	}
}

// needsGuard tells whether a drop is one that needs a guard; where a set does
// not say from which drop, any is.
func (c *checking) needsGuard(drop float64) bool {
	least, ok := c.set.Get("guard-drop")
	return !ok || drop > least.Value()+rules.LengthTolerance
}

// guard asks about one guard, its height and its gaps.
func (c *checking) guard(height rules.ID, drop float64, a about) {
	a.note = "a drop of " + c.set.Text(rules.Length, drop) + "; guards were not surveyed"
	if least, ok := c.set.Get("guard-drop"); ok {
		a.note = "a drop of " + least.Provided(drop) + ", over " + least.Limit.String() + "; guards were not surveyed"
	}
	a.cure = "look for a guard at every open side and measure it"
	c.unknown(height, "", a)
	a.cure = "measure the gaps in its guards"
	c.unknown("guard-gap", "", a)
}

// outdoorGuards asks about the guards of decks, balconies and porches that lie
// high above the ground.
func (c *checking) outdoorGuards() {
	ground, known := c.b.grade()
	if !known {
		return
	}
	for i := range c.b.Cells {
		cell := &c.b.Cells[i]
		drop := cell.Floor - ground
		if c.s.Owners[i] == Nobody || cell.Flight || !raised(cell.Use) || drop <= 0 || !c.needsGuard(drop) {
			continue
		}
		a := about{subject: cell.ID}
		if c.s.Owners[i] <= UnitB {
			a.unit = c.s.Owners[i].String()
		}
		height := rules.ID("guard-height")
		if _, ok := c.set.Get("guard-height-high"); ok {
			// A set may let a lower guard do outdoors above a drop that is not too high.
			if most, ok := c.set.Get("guard-low-drop"); !ok || drop > most.Value()+rules.LengthTolerance {
				height = "guard-height-high"
			}
		}
		c.guard(height, drop, a)
	}
}
