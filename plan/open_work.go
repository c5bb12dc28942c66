package plan

import "fmt"

// opened tells whether a door of the house stands for a wall that the brief opens.
func (h *House) opened(id string) bool {
	for _, o := range h.Opened {
		if o.ID == id {
			return true
		}
	}
	return false
}

// openWork is the work of opening a wall.
func (m *model) openWork(out *Scheme, o OpenedWall) Work {
	unit := ""
	for c := range m.b.Cells {
		if m.b.Cells[c].ID == o.Between[0] && out.Owners[c] <= UnitB {
			unit = out.Owners[c].String()
		}
	}
	note := o.beamWords()
	for _, more := range o.Notes {
		note = joinNotes(note, more)
	}
	if o.Bears {
		note = joinNotes(note, "an engineer decides")
	} else {
		note = joinNotes(note, "an engineer or the local authority confirms that it does not bear")
	}
	return Work{
		Kind: "remove_wall", Unit: unit, Level: m.b.House.Levels[o.Level].ID, Spaces: o.Between[:], Of: o.ID,
		LengthM: o.Line.Length(), AreaM2: o.AreaM2, Count: 1, Cost: o.Cost, Line: points(o), Note: note,
	}
}

// openingTitle says which wall is opened.
func (o OpenedWall) openingTitle() string {
	return fmt.Sprintf("%s, between %s and %s", o.ID, o.Between[0], o.Between[1])
}
