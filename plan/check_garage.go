package plan

import (
	"fmt"
	"slices"

	"moiety/plan/rules"
)

// checkGarage compares what lies between a garage and the rooms beside and
// above it.
func checkGarage(c *checking) {
	for g := range c.b.Cells {
		if c.b.Cells[g].Use == Garage && c.s.Owners[g] != Nobody {
			c.garage(g)
		}
	}
}

// garageSides are the links of a garage to rooms.
type garageSides struct {
	doors   []Link
	walls   int
	above   int
	foreign bool // a room of somebody who does not have the garage alone
}

func (c *checking) garageSides(g int) garageSides {
	var out garageSides
	for _, l := range c.b.Links {
		room := l.other(g)
		if l.U != g && l.V != g || room == Outside || c.b.Cells[room].Outdoor || c.b.Cells[room].Flight || c.b.Cells[room].Use == Garage {
			continue
		}
		switch {
		case l.Kind == LinkDoor:
			out.doors = append(out.doors, l)
		case l.Kind == LinkWall:
			out.walls++
		case l.Kind == LinkFloor && l.U == g:
			out.above++
		default:
			continue
		}
		out.foreign = out.foreign || c.s.Owners[room] != c.s.Owners[g]
	}
	return out
}

func (c *checking) garage(g int) {
	sides := c.garageSides(g)
	if sides.walls+sides.above+len(sides.doors) == 0 {
		return
	}
	unit := ""
	if c.s.Owners[g] <= UnitB {
		unit = c.s.Owners[g].String()
	}
	a := about{unit: unit, subject: c.b.Cells[g].ID, note: "what lines the garage was not surveyed", cure: "line it on the garage's side"}
	c.unknown("garage-lining", "", a)
	if sides.above > 0 {
		c.unknown("garage-ceiling-lining", "", a)
	}
	rating := rules.ID("garage-rating")
	if _, ok := c.set.Get("garage-rating-shared"); ok && sides.foreign {
		rating = "garage-rating-shared"
		a.note = joinNotes("it serves more than the unit beside it, or lies by the other", a.note)
	}
	if f, ok := c.set.Get(rating); ok && f.Value() == 0 {
		c.measured(rating, 0, about{unit: unit, subject: a.subject, note: "an air barrier is asked all the same"})
	} else {
		a.cure = "build walls and ceiling of the garage to an assembly tested to that"
		c.unknown(rating, "", a)
	}
	c.unknown("garage-ducts", "", about{unit: unit, subject: a.subject, note: "ducts were not surveyed", cure: "trace them"})
	for _, l := range sides.doors {
		if c.keeps(l.Of) {
			c.garageDoor(g, l)
		}
	}
}

// keeps tells whether a surveyed door stays a way through.
func (c *checking) keeps(door string) bool {
	return slices.ContainsFunc(c.s.Passages, func(p Passage) bool { return p.Of == door && p.State != Sealed })
}

// garageDoor compares a door between a garage and a room.
func (c *checking) garageDoor(g int, l Link) {
	room := l.other(g)
	a := about{subject: l.Of, note: "into " + c.b.Cells[room].ID}
	if c.s.Owners[room] <= UnitB {
		a.unit = c.s.Owners[room].String()
	}
	sleeping := c.used(room, Bedroom)
	kind := "no sleeping room"
	if sleeping {
		kind = "a sleeping room"
	}
	c.judged("garage-no-bedroom-door", !sleeping, kind, withCure(a, "wall the door up and enter the bedroom from elsewhere"))
	if d := c.b.House.door(l.Of); d != nil && d.RatingMinutes > 0 {
		c.measured("garage-door-rating", float64(d.RatingMinutes), withCure(a, "a door of that rating"))
	} else {
		c.unknown("garage-door-rating", "", withCure(a, "look for its label, or set a door of that rating"))
	}
	c.unknown("garage-door-closer", "", withCure(a, "fit a closer and a seal"))
	if f, ok := c.set.Get("garage-floor-step"); ok {
		step := c.b.Cells[room].Floor - c.b.Cells[g].Floor
		if f.Meets(step) {
			c.measured(f.ID, step, a)
		} else {
			c.unknown(f.ID, f.Provided(max(0, step)), about{
				unit: a.unit, subject: l.Of, note: fmt.Sprintf("the floor of %s above that of the garage; whether the garage floor falls to the outside was not surveyed", c.b.Cells[room].ID),
				cure: "raise the threshold, or lay the garage floor to fall outwards",
			})
		}
	}
}

func withCure(a about, cure string) about {
	a.cure = cure
	return a
}
