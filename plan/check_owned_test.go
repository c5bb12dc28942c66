package plan_test

import (
	"testing"

	"moiety/plan"
)

// ownedScheme owns a house by the letters of its cells, a, b and, for what both
// use, c, without a search, and leaves all that stands in it as it is: doors
// between two units are walled up, and what lies between them separates.
func ownedScheme(t testing.TB, h *plan.House) *plan.Scheme {
	t.Helper()
	s := ownScheme(t, h)
	b := s.Building
	for i, c := range b.Cells {
		if c.ID[0] == 'c' {
			s.Owners[i] = plan.Common
		}
	}
	for u := range s.Units {
		s.Units[u].Cells = nil
		for i := range b.Cells {
			if s.Owners[i] == plan.Owner(u) {
				s.Units[u].Cells = append(s.Units[u].Cells, i)
				s.Units[u].GrossM2 += b.Cells[i].AreaM2
			}
		}
	}
	parted := func(l plan.Link) bool { return l.V != plan.Outside && s.Owners[l.U] != s.Owners[l.V] }
	for i := range s.Passages {
		p := &s.Passages[i]
		for _, l := range b.Links {
			if l.Of == p.Of && parted(l) && s.Owners[l.U] != plan.Common && s.Owners[l.V] != plan.Common {
				p.State = plan.Sealed
			}
		}
		for u, unit := range s.Units {
			if len(unit.Entries) > 0 && unit.Entries[0] == p.Of {
				p.Entry = plan.Owner(u).String()
			}
		}
	}
	for _, l := range b.Links {
		state := plan.Existing
		if parted(l) && !b.Cells[l.U].Outdoor && !b.Cells[l.V].Outdoor {
			state = plan.Separating
		}
		between := [2]string{b.Cells[l.U].ID, "outside"}
		if l.V != plan.Outside {
			between[1] = b.Cells[l.V].ID
		}
		switch l.Kind {
		case plan.LinkWall:
			s.Walls = append(s.Walls, plan.WallRun{Between: between, Level: l.Level, Line: l.Line, Thickness: l.Thickness, Height: l.Height, State: state})
		case plan.LinkFloor:
			s.Floors = append(s.Floors, plan.FloorRun{Below: between[0], Above: between[1], Region: l.Region, State: state})
		}
	}
	for _, w := range h.Windows {
		s.Windows = append(s.Windows, plan.PlacedWindow{Window: w, State: plan.Kept})
	}
	for i, f := range h.Fixtures {
		unit := ""
		if c := b.FixtureCell[i]; c != plan.Outside {
			unit = s.Owners[c].String()
		}
		s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, Unit: unit, State: plan.Kept})
	}
	return s
}
