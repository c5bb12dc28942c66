package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan/rules"
)

// checkEscape compares the openings to escape by, room by room: the best
// opening of a room with all its measures.
func checkEscape(c *checking) {
	j := escapeJudge{b: c.b, set: c.set, Conditions: c.Conditions}
	for _, u := range bothUnits {
		var counted []string // windows that a room relies on
		for _, cell := range c.indoors(u) {
			counted = append(counted, c.escapeFrom(j, u, cell)...)
		}
		c.basements(j, u)
		if f, ok := c.set.Get("escape-operation"); ok && len(counted) > 0 {
			c.add(f, about{
				unit: u.String(), subject: u.String(), cure: "try it",
				note: "the survey does not tell how they are opened: " + strings.Join(counted, ", "),
			}, Finding{Result: NotSurveyed})
		}
	}
	if n := c.bedrooms(); c.SleepingRooms > n {
		c.unknown("escape-required", fmt.Sprintf("%d bedrooms", n), about{
			note: fmt.Sprintf("the brief has %d rooms slept in; survey the others as bedrooms, so that they are checked as such", c.SleepingRooms),
		})
	}
}

// bedrooms counts the rooms that the scheme uses as bedrooms.
func (c *checking) bedrooms() int {
	n := 0
	for _, u := range bothUnits {
		for _, cell := range c.indoors(u) {
			if c.used(cell, Bedroom) {
				n++
			}
		}
	}
	return n
}

// escapeFrom checks one room and gives the windows that it relies on.
func (c *checking) escapeFrom(j escapeJudge, u Owner, cell int) (windows []string) {
	needs := slices.ContainsFunc(append([]Use{c.s.Uses[cell]}, c.s.Also[cell]...), j.needs)
	if !needs {
		return nil
	}
	rule := rules.ID("escape-required")
	if !c.set.Asks(rule) {
		rule = "escape-habitable-rooms"
	}
	room := &c.b.Cells[cell]
	a := about{unit: u.String(), subject: room.ID}
	if j.waived() {
		a.note = "sprinklers throughout do instead, as the brief says"
		c.judged(rule, true, "sprinklers", a)
		return nil
	}
	openings := j.openings(cell)
	if rule == "escape-habitable-rooms" && (len(openings) == 0 || openings[0].result != OK) {
		if hall := c.hallToTheOutside(u, cell); hall != "" {
			a.note = "it opens onto " + hall + ", which leads to a way out on the same level"
			c.judged(rule, true, hall, a)
			return nil
		}
	}
	if (len(openings) == 0 || openings[0].result != OK) && c.basementDoes(j, u, cell) {
		a.note = "with sprinklers throughout, as the brief says, the basement's other ways out do"
		c.judged(rule, true, "sprinklers", a)
		return nil
	}
	if id := c.madeLegal(cell); id != "" && (len(openings) == 0 || openings[0].result != OK) {
		a.note = "as the works make it"
		c.judged(rule, true, "window "+id, a)
		if slices.ContainsFunc(c.s.Works, func(w Work) bool { return w.Of == id && (w.Kind == "new_window" || w.Kind == "enlarge_window") }) {
			return nil // its sash is chosen with the works
		}
		return []string{id}
	}
	if len(openings) == 0 {
		a.cure = "a window or door to the outside, or another use of the room"
		c.judged(rule, false, "no window or door to the outside", a)
		return nil
	}
	best := openings[0]
	if best.window < 0 {
		c.judged(rule, true, "door "+best.id, a)
		return nil
	}
	a.cure = c.escapeCure(j, best)
	if f, ok := c.set.Get(rule); ok {
		c.add(f, a, Finding{Provided: "window " + best.id, Result: best.result})
	}
	for _, m := range best.measures {
		c.add(m.figure, about{unit: u.String(), subject: best.id, note: joinNotes("in "+room.ID, m.note), cure: a.cure}, Finding{
			Provided: m.provided, Value: m.value, Measured: m.measured, Result: m.result,
		})
	}
	return []string{best.id}
}

// madeLegal gives the window of a room that the works make one to escape by;
// "" for none.
func (c *checking) madeLegal(cell int) string {
	for _, w := range c.s.Works {
		if (w.Kind == "new_window" || w.Kind == "enlarge_window" || w.Kind == "window_well") && slices.Contains(w.Spaces, c.b.Cells[cell].ID) {
			return w.Of
		}
	}
	return ""
}

// escapeCure says what makes an opening one to escape by.
func (c *checking) escapeCure(j escapeJudge, o escapeOpening) string {
	if o.result == NotSurveyed {
		if slices.ContainsFunc(o.measures, func(m escapeMeasure) bool {
			return m.result == NotSurveyed && strings.HasPrefix(string(m.figure.ID), "escape-well")
		}) {
			return "measure its clear opening and its well"
		}
		return "measure its clear opening"
	}
	work := j.cure(o)
	if work.how == "" {
		return "another room for a bedroom"
	}
	return work.how
}

// hallToTheOutside gives the hall or entry that a room on the level of the
// unit's entry opens onto and from which halls alone lead to that entry.
func (c *checking) hallToTheOutside(u Owner, cell int) string {
	entry := c.entryCells(u)
	seen := map[int]bool{cell: true}
	first := map[int]string{}
	queue := []int{cell}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		if at != cell && slices.Contains(entry, at) {
			return first[at]
		}
		for _, next := range c.beyond(at) {
			if seen[next] || c.s.Owners[next] != u && c.s.Owners[next] != Common || c.b.Cells[next].Outdoor || !c.used(next, Hall, Entry) || c.b.Cells[next].Flight {
				continue
			}
			seen[next] = true
			if first[next] = first[at]; at == cell {
				first[next] = c.b.Cells[next].ID
			}
			queue = append(queue, next)
		}
	}
	return ""
}

// beyond gives the cells that a cell opens to in the scheme, in the order of
// its passages.
func (c *checking) beyond(cell int) []int {
	var out []int
	id := c.b.Cells[cell].ID
	for _, p := range c.s.Passages {
		if p.State == Sealed {
			continue
		}
		for side := range p.Between {
			if p.Between[side] == id {
				if next := c.b.CellNamed(p.Between[1-side]); next >= 0 {
					out = append(out, next)
				}
			}
		}
	}
	return out
}

// entryCells gives the indoor cells that the unit's entry doors lead into.
func (c *checking) entryCells(u Owner) []int {
	var cells []int
	for _, p := range c.s.Passages {
		if !slices.Contains(c.s.Units[u].Entries, p.Of) {
			continue
		}
		for _, id := range p.Between {
			if cell := c.b.CellNamed(id); cell >= 0 && !c.b.Cells[cell].Outdoor {
				cells = append(cells, cell)
			}
		}
	}
	return cells
}

// isBasement tells whether a cell's floor lies below the ground.
func (b *Building) isBasement(cell int) bool {
	grade, known := b.grade()
	return known && b.Cells[cell].Floor < grade-belowGrade
}

// outsideDoors counts the doors to the outside on the level of a cell within
// its unit.
func (c *checking) outsideDoors(u Owner, level int) int {
	n := 0
	for _, l := range c.b.Links {
		if l.Kind == LinkDoor && l.Passage() && c.s.Owners[l.U] == u && c.b.Cells[l.U].Level == level && (l.V == Outside || c.b.Cells[l.V].Outdoor) && !c.b.overhead(l.Of) {
			n++
		}
	}
	return n
}

// basementDoes tells whether sprinklers and the other ways out of a basement
// do instead of a sleeping room's own opening: a door to the outside and one
// opening, or two doors.
func (c *checking) basementDoes(j escapeJudge, u Owner, cell int) bool {
	if !c.IsSprinklered() || !c.set.Asks("escape-basement-sprinklers") || !c.b.isBasement(cell) {
		return false
	}
	level := c.b.Cells[cell].Level
	doors, openings := c.outsideDoors(u, level), 0
	for _, other := range c.indoors(u) {
		if other != cell && c.b.Cells[other].Level == level {
			for _, o := range j.openings(other) {
				if o.window >= 0 && o.result == OK {
					openings++
				}
			}
		}
	}
	return doors >= 2 || doors >= 1 && openings >= 1
}

// basements checks that a basement in which nobody sleeps has an opening too,
// where the set asks for one.
func (c *checking) basements(j escapeJudge, u Owner) {
	if !c.set.Asks("escape-basements") {
		return
	}
	for level := range c.b.House.Levels {
		var cells []int
		sleeping, plantOnly, m2 := false, true, 0.0
		for _, cell := range c.indoors(u) {
			if c.b.Cells[cell].Level == level && c.b.isBasement(cell) && c.b.Cells[cell].Use != Garage {
				cells = append(cells, cell)
				sleeping = sleeping || c.used(cell, Bedroom)
				plantOnly = plantOnly && c.used(cell, Mechanical)
				m2 += c.b.Cells[cell].AreaM2
			}
		}
		plant, small := c.set.Get("escape-basement-plant")
		if len(cells) == 0 || sleeping || plantOnly && small && m2 <= plant.Value() {
			continue
		}
		best := escapeOpening{result: NotOK}
		for _, cell := range cells {
			for _, o := range j.openings(cell)[:min(1, len(j.openings(cell)))] {
				if best.id == "" || o.rank() < best.rank() {
					best = o
				}
			}
		}
		provided := best.id
		if provided == "" {
			provided = "no window or door to the outside"
		}
		if f, ok := c.set.Get("escape-basements"); ok {
			c.add(f, about{
				unit: u.String(), subject: c.b.House.Levels[level].ID,
				cure: "an opening of the size and sill asked for in one of its rooms",
			}, Finding{Provided: provided, Result: best.result})
		}
	}
}
