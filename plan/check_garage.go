package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/plan/rules"
)

// checkGarage compares what lies between a garage and the rooms beside and
// above it.
func checkGarage(c *checking) {
	for g := range c.b.Cells {
		switch {
		case c.s.Owners[g] == Nobody:
		case c.b.Cells[g].Use == Garage:
			c.garage(g)
		case c.b.Cells[g].Use == Carport && c.carportIsGarage(g):
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
		case l.Kind == LinkWall || l.Kind == LinkExterior && c.b.Cells[g].Outdoor:
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
		c.garageApart(g)
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

// garageApart measures how far a garage stands from the rooms of the house,
// where it touches none: nearer than the figure it is lined towards them.
func (c *checking) garageApart(g int) {
	const id = rules.ID("garage-detached-distance")
	figure, ok := c.set.Get(id)
	if !ok {
		return
	}
	nearest, room := math.Inf(1), ""
	for i := range c.b.Cells {
		other := &c.b.Cells[i]
		if i == g || other.Outdoor || other.Flight || other.Use == Garage || other.Level != c.b.Cells[g].Level {
			continue
		}
		for _, e := range other.Region.Edges() {
			for _, f := range c.b.Cells[g].Region.Edges() {
				if d := segmentsApart(e, f); d < nearest {
					nearest, room = d, other.ID
				}
			}
		}
	}
	if room == "" {
		return
	}
	a := about{subject: c.b.Cells[g].ID, note: "inner face to inner face, to " + room + ": the walls between are nearer still"}
	if c.s.Owners[g] <= UnitB {
		a.unit = c.s.Owners[g].String()
	}
	if figure.Meets(nearest - 2*thickest) {
		c.judged(id, true, figure.Provided(nearest), a)
		return
	}
	a.cure = "measure between the walls; nearer than that, line the inside of the garage's wall that faces the house"
	c.unknown(id, figure.Provided(nearest), a)
}

// carportIsGarage tells whether so much of a carport's sides is the house's own
// wall that it counts as a garage. What else closes its sides was not surveyed.
func (c *checking) carportIsGarage(g int) bool {
	const id = rules.ID("carport-enclosed")
	figure, ok := c.set.Get(id)
	if !ok {
		return false
	}
	closed, around := 0.0, c.b.Cells[g].Region.Outer.Length()
	for _, l := range c.b.Links {
		if l.Kind != LinkExterior || l.V != g {
			continue
		}
		closed += l.Length
	}
	share := min(closed/around, 1)
	a := about{subject: c.b.Cells[g].ID, note: "the house's own walls along its sides"}
	if c.s.Owners[g] <= UnitB {
		a.unit = c.s.Owners[g].String()
	}
	if share > figure.Value()+rules.ShareTolerance {
		c.judged(id, true, figure.Provided(share)+": it counts as a garage", a)
		return true
	}
	a.cure = "measure which of its other sides are closed: with more than that of them it is a garage"
	c.unknown(id, "at least "+figure.Provided(share), a)
	return false
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
