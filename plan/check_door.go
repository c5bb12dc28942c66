package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// leafLoss is what the leaf and the stops of a hinged door take off the width
// between its jambs: a leaf of 45 mm, stops and a hinge's set-off (common
// practice, no source).
const leafLoss = 0.06

// checkDoors compares the widths and heights of the doors on each unit's ways.
func checkDoors(c *checking) {
	for _, u := range bothUnits {
		entrance := c.entrance(u)
		for i := range c.s.Passages {
			p := &c.s.Passages[i]
			if p.Type != "door" && p.Type != "opening" || p.State == Sealed || p.State == Removed {
				continue
			}
			owner, inner := c.doorOf(p)
			switch {
			case p == entrance:
				c.door(p, "door-entrance-width", "door-entrance-height", about{unit: u.String(), subject: p.Of, cure: "a wider or higher opening, with a lintel"})
			case owner == u && inner:
				c.innerDoor(p, u)
			}
		}
	}
}

// entrance is the door of a unit that has to do as its way out: the widest of
// its hinged entry doors, else the widest of them all; nil where it has none.
func (c *checking) entrance(u Owner) *Passage {
	var best *Passage
	score := 0.0
	for i := range c.s.Passages {
		p := &c.s.Passages[i]
		if p.Type != "door" && p.Type != "opening" || p.State == Sealed || !slices.Contains(c.s.Units[u].Entries, p.Of) {
			continue
		}
		worth := p.Line.Length()
		if sideHinged(p.Door) {
			worth += 100 // metres: before any that is not
		}
		if best == nil || worth > score+geom.Coincide {
			best, score = p, worth
		}
	}
	return best
}

// sideHinged tells whether a door's leaf, or either of its leaves, turns on
// hinges; one whose leaf was not surveyed is taken to.
func sideHinged(d *Door) bool {
	return d != nil && !d.Opening && (d.Leaf == Single || d.Leaf == Double || d.Leaf == NoLeaf)
}

// doorOf tells whose door it is, and whether it is between two rooms.
func (c *checking) doorOf(p *Passage) (owner Owner, inner bool) {
	owner, inner = Nobody, true
	for _, id := range p.Between {
		cell := c.b.CellNamed(id)
		if cell < 0 || c.b.Cells[cell].Outdoor {
			inner = false
			continue
		}
		if o := c.s.Owners[cell]; owner == Nobody || owner == Common {
			owner = o
		}
	}
	return owner, inner
}

// innerDoor compares a door between two rooms. What only closes a cupboard is
// no door that somebody goes through.
func (c *checking) innerDoor(p *Passage, u Owner) {
	width, height := rules.ID("door-room-width"), rules.ID("door-height")
	if _, ok := c.set.Get("door-height-suite"); ok && c.IsSecondary() {
		height = "door-height-suite"
	}
	for _, id := range p.Between {
		cell := c.b.CellNamed(id)
		switch {
		case cell < 0:
		case c.used(cell, Closet, Pantry, Storage) && !c.used(cell, habitable...):
			return
		case c.used(cell, Bathroom, PowderRoom):
			if _, ok := c.set.Get("door-bathroom-width"); ok {
				width = "door-bathroom-width"
			}
		}
	}
	c.door(p, width, height, about{unit: u.String(), subject: p.Of, cure: "a wider or higher opening"})
}

// door compares a door's width, jamb to jamb as surveyed, and height.
func (c *checking) door(p *Passage, width, height rules.ID, a about) {
	if p.State == New {
		a.note = "new"
	}
	figure, asked := c.set.Get(width)
	w := p.Line.Length()
	hinged := p.Type == "door" && (p.Door == nil || p.Door.Leaf == Single || p.Door.Leaf == NoLeaf)
	b := a
	if clear := c.set.Asks("door-width-clear"); asked && clear && hinged && figure.Meets(w) && !figure.Meets(w-leafLoss) {
		b.note = joinNotes(b.note, "jamb to jamb; leaf and stops take off some of it")
		b.cure = "measure the clear width with the leaf open at 90 degrees"
		c.unknown(width, figure.Provided(w), b)
	} else {
		b.note = joinNotes(b.note, "jamb to jamb")
		if asked && clear && hinged {
			b.note = joinNotes(b.note, fmt.Sprintf("less about %s for leaf and stops", c.set.Text(rules.Length, leafLoss)))
		}
		c.measured(width, w, b)
	}
	if p.Door == nil || p.Door.Height <= 0 {
		a.cure = "measure its height"
		c.unknown(height, "", a)
		return
	}
	c.measured(height, p.Door.Height, a)
}
