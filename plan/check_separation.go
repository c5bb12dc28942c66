package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// checkSeparation says what the walls, floors and doors between the units must
// be. What stands there today was not surveyed: the rating is asked of what the
// works build, and an assembly has to be chosen that was tested to it.
func checkSeparation(c *checking) {
	rule, why := c.separationRule()
	walls, floors := c.separatingWalls(), c.separatingFloors()
	for _, part := range []struct{ subject, quantity string }{{"walls", walls}, {"floors", floors}} {
		if part.quantity == "" {
			continue
		}
		a := about{subject: part.subject, note: joinNotes(why, part.quantity)}
		a.cure = "build both faces to an assembly tested to that; the works price it and do not design it"
		if rule == "separation-suite-lining" {
			a.cure = "line both sides of the walls and the underside of the floor's framing, joints finished"
		}
		if !c.separationBuilt(rule, part.subject, a) {
			c.unknown(rule, "to be built", a)
		}
		c.unknown("separation-compartment", "to be built", about{subject: part.subject, note: part.quantity, cure: "build them as compartment walls and floors: of the rating asked for, without gaps, with rated doors alone in them"})
		c.unknown("separation-penetrations", "", about{subject: part.subject, cure: "trace pipes, wires and ducts and have each sealed"})
	}
	if floors != "" {
		c.unknown("separation-support", "", about{subject: "floors", cure: "an engineer and the building authority look at what carries them"})
	}
	c.stacks()
	c.separationDoors(rule)
	c.commonLinings()
	c.ducts()
}

// separationRule picks the figure for the fire rating between the units, and
// says why that one.
func (c *checking) separationRule() (id rules.ID, why string) {
	has := func(id rules.ID) bool { _, ok := c.set.Get(id); return ok }
	switch {
	case has("separation-suite-lining") && c.IsSecondary():
		return "separation-suite-lining", "a house with a secondary suite, as the brief says"
	case has("separation-rating-sprinklers") && c.IsSprinklered():
		return "separation-rating-sprinklers", "sprinklers throughout, as the brief says"
	case has("separation-rating-upper") && c.highTop():
		return "separation-rating-upper", "the top floor lies high"
	case has("separation-rating-storeys") && max(c.storeys(UnitA), c.storeys(UnitB)) > 1:
		return "separation-rating-storeys", "a unit of two storeys or more"
	}
	return "separation-rating", ""
}

// highTop tells whether the top floor is higher above the ground than a set's
// lower rating allows.
func (c *checking) highTop() bool {
	most, ok := c.set.Get("separation-upper-height")
	grade, known := c.b.grade()
	if !ok || !known {
		return false
	}
	for _, u := range bothUnits {
		for _, cell := range c.indoors(u) {
			if c.b.Cells[cell].Floor-grade > most.Value()+rules.LengthTolerance {
				return true
			}
		}
	}
	return false
}

// separatingWalls sums the walls between the units; "" where there are none.
func (c *checking) separatingWalls() string {
	n, length := 0, 0.0
	for _, w := range c.s.Walls {
		if !w.Fence && (w.State == Separating || w.State == New) {
			n++
			length += w.Line.Length()
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s, %s together", counted(float64(n), "run"), c.set.Text(rules.Length, length))
}

// separatingFloors sums the floors between the units.
func (c *checking) separatingFloors() string {
	n, m2 := 0, 0.0
	for _, f := range c.s.Floors {
		if f.State == Separating {
			n++
			m2 += f.Region.AreaM2()
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s, %s together", counted(float64(n), "place"), c.set.Text(rules.Area, m2))
}

// stacks finds the drain stacks that pass through a separating floor: another
// unit's rooms lie over or under them.
func (c *checking) stacks() {
	said := map[[2]int]bool{}
	for i, f := range c.b.House.Fixtures {
		from := c.b.FixtureCell[i]
		if f.Use != "drain_stack" || from == Outside {
			continue
		}
		for cell := range c.b.Cells {
			other := &c.b.Cells[cell]
			if other.Outdoor || other.Flight || other.Level == f.Level || c.s.Owners[cell] == c.s.Owners[from] || c.s.Owners[cell] == Nobody {
				continue
			}
			if other.Region.Contains(f.centre()) != geom.Out && c.nextTo(from, cell, f.centre()) && !said[[2]int{min(from, cell), max(from, cell)}] {
				said[[2]int{min(from, cell), max(from, cell)}] = true
				note := fmt.Sprintf("it runs on between %s (%s) and %s (%s)", c.b.Cells[from].ID, c.s.Owners[from], other.ID, c.s.Owners[cell])
				if drains, ok := c.set.Get("separation-drains"); ok && drains.Yes() {
					note = joinNotes(note, drains.When+" ("+drains.Clause+")")
				}
				c.unknown("separation-penetrations", "", about{
					subject: f.ID, note: note,
					cure: "a fire stop of the separation's rating where it passes through the floor",
				})
			}
		}
	}
}

// nextTo tells whether no other room lies between two at a place, of which one
// is over the other.
func (c *checking) nextTo(a, b int, at geom.Pt) bool {
	low, high := c.b.Cells[a].Floor, c.b.Cells[b].Floor
	if low > high {
		low, high = high, low
	}
	return !slices.ContainsFunc(c.b.Cells, func(between Cell) bool {
		return !between.Outdoor && !between.Flight && between.Floor > low && between.Floor < high && between.Region.Contains(at) != geom.Out
	})
}

// separationDoors compares doors that stay between a unit and what both use.
func (c *checking) separationDoors(rule rules.ID) {
	rating := rules.ID("separation-door-rating")
	if f, ok := c.set.Get(rule); ok && f.Quantity == rules.Time && f.Value() >= 60 {
		if _, ok := c.set.Get("separation-door-rating-1h"); ok {
			rating = "separation-door-rating-1h"
		}
	}
	if rule == "separation-suite-lining" {
		rating = "separation-door-thickness"
	}
	for _, p := range c.s.Passages {
		a, b := c.b.CellNamed(p.Between[0]), c.b.CellNamed(p.Between[1])
		if p.Type != "door" || p.State == Sealed || a < 0 || b < 0 || c.s.Owners[a] == c.s.Owners[b] || c.b.Cells[a].Outdoor || c.b.Cells[b].Outdoor {
			continue
		}
		unit := c.s.Owners[a]
		if unit > UnitB {
			unit = c.s.Owners[b]
		}
		about := about{unit: unit.String(), subject: p.Of, cure: "a door of that kind, which latches and closes itself"}
		if c.newDoorAt(p) {
			about.note = "the works put in a new one of that kind"
			c.judged(rating, true, "new", about)
			c.judged("separation-door-closer", true, "new", about)
			continue
		}
		if d := p.Door; d != nil && d.RatingMinutes > 0 && rating != "separation-door-thickness" {
			c.measured(rating, float64(d.RatingMinutes), about)
		} else {
			c.unknown(rating, "", about)
		}
		c.unknown("separation-door-closer", "", about)
	}
}

// commonLinings asks, in a house with a secondary suite, what lines the halls
// and flights that both units use.
func (c *checking) commonLinings() {
	if !c.IsSecondary() {
		return
	}
	for i := range c.b.Cells {
		cell := &c.b.Cells[i]
		if c.s.Owners[i] != Common || cell.Outdoor || !cell.Flight && !c.used(i, Hall, Entry) {
			continue
		}
		a := about{subject: cell.ID, note: "both units use it; what lines it was not surveyed", cure: "line both sides of its walls and the underside of the floors over and under it, joints finished"}
		if !cell.Flight {
			c.unknown("corridor-lining", "", a)
		}
		if c.leadsOut(i) {
			c.unknown("exit-lining", "", a)
		}
	}
}

// leadsOut tells whether a common hall or flight is an exit: a flight between
// levels, or a hall with a door to the outdoors.
func (c *checking) leadsOut(cell int) bool {
	return c.b.Cells[cell].Flight || slices.ContainsFunc(c.b.Links, func(l Link) bool {
		return l.Kind == LinkDoor && l.U == cell && (l.V == Outside || c.b.Cells[l.V].Outdoor)
	})
}

// newDoorAt tells whether the works put a new door into a passage.
func (c *checking) newDoorAt(p Passage) bool {
	return p.State == New || slices.ContainsFunc(c.s.Works, func(w Work) bool { return w.Kind == "new_door" && w.Of == p.Of })
}

// ducts asks about the air that two units may have in common.
func (c *checking) ducts() {
	var furnaces, fresh []string
	for _, f := range c.s.Fixtures {
		switch {
		case f.Use != "furnace" || f.State == Removed:
		case f.State == New:
			fresh = append(fresh, f.ID)
		default:
			furnaces = append(furnaces, f.ID)
		}
	}
	if len(furnaces) == 0 && len(fresh) > 0 {
		c.judged("ducts-own", true, "new", about{subject: fresh[0], note: "the house has no ducts; whoever puts the new ones in keeps them within the unit"})
	}
	if len(furnaces) > 0 {
		c.unknown("ducts-own", "", about{
			subject: furnaces[0], note: "ducts were not surveyed",
			cure: "cut off and seal the ducts that lead into the other unit, and heat that unit by itself",
		})
	}
	shared := slices.ContainsFunc(c.s.Shared, func(s Shared) bool { return s.Use == "furnace" || s.Use == "boiler" || s.Use == "source_of_heat" })
	if shared {
		c.unknown("heating-control", "", about{subject: "heat", cure: "a control in each unit, and no ducts in common"})
	}
}
