package plan

import (
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// checks lists every topic that a scheme is checked for, in the order in which
// results list the findings. A topic adds its findings unit by unit, cell by cell.
var checks = []func(*checking){
	checkEscape,
	checkCeilings,
	checkRooms,
	checkLight,
	checkParking,
	checkSeparation,
	checkGarage,
	checkPlant,
	checkAlarms,
	checkExits,
	checkDoors,
	checkHalls,
	checkFlights,
	checkContinuity,
	checkProximity,
}

// Check compares a scheme with a rule set under the conditions that the brief
// says. The findings come by topic, in the order of the units and cells: same
// scheme, same findings. A set that says nothing of a matter asks nothing of it.
func Check(s *Scheme, set *rules.Set, conditions Conditions) []Finding {
	if set == nil {
		return nil
	}
	c := &checking{s: s, b: s.Building, set: set, Conditions: conditions}
	for _, check := range checks {
		check(c)
	}
	return c.found
}

// checking is a check under way.
type checking struct {
	Conditions
	s     *Scheme
	b     *Building
	set   *rules.Set
	found []Finding

	linedFloors map[int]geom.Region // by cell, see lined
}

// about says what a finding is about and what is to be said with it.
type about struct {
	unit, subject string
	note          string // said in any case
	cure          string // said where the result is not ok
	enlarged      string // the window that the works enlarge there
}

// noted is the same with a further note.
func (a about) noted(note string) about {
	a.note = joinNotes(a.note, note)
	return a
}

// measured compares a value, in the unit of the figure's quantity, with a
// figure of the set, and tells whether it is met; without such a figure
// nothing is found, and all is well.
func (c *checking) measured(id rules.ID, value float64, a about) bool {
	f, ok := c.set.Get(id)
	if !ok {
		return true
	}
	holds := f.Meets(value)
	c.add(f, a, Finding{Provided: f.Provided(value), Value: value, Measured: true, Result: resultOf(holds)})
	return holds
}

// informed compares a value with a figure of the set or, where it has none,
// tells it all the same.
func (c *checking) informed(id rules.ID, value float64, a about) {
	if _, ok := c.set.Get(id); ok {
		c.measured(id, value, a)
		return
	}
	term, _ := rules.TermOf(id)
	a.cure = ""
	c.add(rules.Figure{Term: term}, a, Finding{Provided: c.set.Text(term.Quantity, value), Value: value, Measured: true, Result: Informed})
}

// judged compares what is provided, in words, with a figure that is asked.
func (c *checking) judged(id rules.ID, holds bool, provided string, a about) {
	if f, ok := c.set.Get(id); ok {
		c.add(f, a, Finding{Provided: provided, Result: resultOf(holds)})
	}
}

// unknown says that the survey does not tell whether a figure is met; provided
// is what is known all the same, "" for nothing.
func (c *checking) unknown(id rules.ID, provided string, a about) {
	if f, ok := c.set.Get(id); ok {
		c.add(f, a, Finding{Provided: provided, Result: NotSurveyed})
	}
}

func (c *checking) add(f rules.Figure, a about, found Finding) {
	found.Figure, found.Required = f, f.Required()
	found.Unit, found.Subject, found.Note = a.unit, a.subject, a.note
	if found.Result != OK {
		found.Cure = a.cure
	}
	if f.Advice && found.Result == NotOK {
		found.Note = joinNotes(found.Note, "advice, not a limit")
	}
	c.found = append(c.found, found)
}

func resultOf(holds bool) Result {
	if holds {
		return OK
	}
	return NotOK
}

// indoors gives the cells of a unit that are rooms: no flights, no ground.
func (c *checking) indoors(u Owner) []int {
	var cells []int
	for _, i := range c.s.Units[u].Cells {
		if cell := &c.b.Cells[i]; !cell.Flight && !cell.Outdoor {
			cells = append(cells, i)
		}
	}
	return cells
}

// used tells whether the scheme uses a cell for u, alone or among others.
func (c *checking) used(cell int, uses ...Use) bool {
	return slices.Contains(uses, c.s.Uses[cell]) || slices.ContainsFunc(c.s.Also[cell], func(also Use) bool { return slices.Contains(uses, also) })
}

// bothUnits are the units in their order.
var bothUnits = [...]Owner{UnitA, UnitB}

// habitable are the uses of rooms to live in: sleeping, living, eating, cooking.
var habitable = []Use{Bedroom, Living, Family, Dining, Kitchen, Office, Sunroom}
