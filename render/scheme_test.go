package render_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

// divided makes a scheme by hand, so that what is drawn of it depends on no
// solver and no price: each cell has the owner given, common where none is.
// What joins two units is sealed, what parts them separates.
func divided(t testing.TB, b *plan.Building, owners map[string]plan.Owner) *plan.Scheme {
	t.Helper()
	s := &plan.Scheme{ID: "1", Building: b, Proved: true}
	for i, c := range b.Cells {
		o, said := owners[c.ID]
		switch {
		case c.Public:
			o = plan.Nobody
		case !said:
			o = plan.Common
		}
		s.Owners, s.Uses = append(s.Owners, o), append(s.Uses, c.Use)
		if o == plan.UnitA || o == plan.UnitB {
			u := &s.Units[o]
			u.Cells = append(u.Cells, i)
			if c.Outdoor {
				u.OutdoorM2 += c.AreaM2
			} else {
				u.NetM2 += c.AreaM2
			}
		}
		if o == plan.Common {
			s.Shared = append(s.Shared, plan.Shared{ID: c.ID, Use: string(c.Use), Accepted: c.Outdoor})
		}
	}
	for i := range s.Units {
		s.Units[i].ID = plan.Owner(i).String()
		s.Units[i].Name = "Unit " + s.Units[i].ID
	}
	for _, l := range b.Links {
		addLink(s, l)
	}
	for i, f := range b.House.Fixtures {
		s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, Unit: s.Owners[max(0, b.FixtureCell[i])].String(), State: plan.Kept})
	}
	for _, w := range b.House.Windows {
		s.Windows = append(s.Windows, plan.PlacedWindow{Window: w, State: plan.Kept})
	}
	return s
}

func addLink(s *plan.Scheme, l plan.Link) {
	b := s.Building
	between := [2]string{b.Cells[l.U].ID, "outside"}
	parted := false
	if l.V != plan.Outside {
		between[1] = b.Cells[l.V].ID
		parted = s.Owners[l.U] != s.Owners[l.V] && s.Owners[l.U] != plan.Nobody && s.Owners[l.V] != plan.Nobody
	}
	outdoor := b.Cells[l.U].Outdoor
	const newWall = 0.15
	switch l.Kind {
	case plan.LinkDoor, plan.LinkOpening:
		i := slices.IndexFunc(b.House.Doors, func(d plan.Door) bool { return d.ID == l.Of })
		p := plan.Passage{Of: l.Of, Between: between, Type: string(l.Kind), State: plan.Kept, Level: l.Level, Line: l.Line, Door: &b.House.Doors[i]}
		if parted && !outdoor && !b.Cells[l.V].Outdoor {
			p.State = plan.Sealed
		}
		s.Passages = append(s.Passages, p)
	case plan.LinkStair:
		p := plan.Passage{Of: l.Of, Between: between, Type: "stair", State: plan.Kept, Level: l.Level, Line: l.Line}
		if parted {
			p.State = plan.Sealed
			s.Walls = append(s.Walls, plan.WallRun{Between: between, Level: l.Level, Line: l.Line, Thickness: newWall, State: plan.New})
		}
		s.Passages = append(s.Passages, p)
	case plan.LinkOpen, plan.LinkSide:
		if parted && outdoor == b.Cells[l.V].Outdoor {
			w := plan.WallRun{Between: between, Level: l.Level, Line: l.Line, Thickness: newWall, State: plan.New, Fence: outdoor}
			s.Walls = append(s.Walls, w)
		}
	case plan.LinkWall:
		w := plan.WallRun{Between: between, Level: l.Level, Line: l.Line, Thickness: l.Thickness, State: plan.Existing}
		if parted {
			w.State = plan.Separating
		}
		s.Walls = append(s.Walls, w)
	case plan.LinkFloor:
		f := plan.FloorRun{Below: between[0], Above: between[1], Region: l.Region, State: plan.Existing}
		if parted {
			f.State = plan.Separating
		}
		s.Floors = append(s.Floors, f)
	}
}

// cottageDivided gives the ground floor of the cottage to A and the upper
// floor with the flight to B, who enters by a new door into the coats closet.
func cottageDivided(t testing.TB) *plan.Scheme {
	b := cottage(t)
	s := divided(t, b, map[string]plan.Owner{
		"living": plan.UnitA, "kitchen": plan.UnitA, "hall": plan.UnitA, "utility": plan.UnitA, "bath": plan.UnitA, "bed-1": plan.UnitA,
		"coats": plan.UnitB, "stair": plan.UnitB, "landing": plan.UnitB, "bed-2": plan.UnitB, "bed-3": plan.UnitB, "bath-2": plan.UnitB,
		"porch": plan.UnitA, "garden-west": plan.UnitA, "garden-back": plan.UnitA, "garden-east": plan.UnitB, "stall": plan.UnitB,
	})
	enter(t, s, "front", "A")
	door := plan.Door{ID: "new-door-1", Level: 1, Line: geom.Segment{A: geom.FromMetres(5.58, -0.125), B: geom.FromMetres(6.38, -0.125)}, Leaf: plan.Single, OpensInto: "coats"}
	s.Passages = append(s.Passages, plan.Passage{Of: door.ID, Between: [2]string{"coats", "garden-east"}, Type: "door", State: plan.New, Level: 1, Line: door.Line, Door: &door, Entry: "B"})
	s.Units[1].Entries = []string{door.ID}
	s.Uses[slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == "bed-3" })] = plan.Kitchen
	return s
}

// enter makes a door the entry of a unit.
func enter(t testing.TB, s *plan.Scheme, door, unit string) {
	t.Helper()
	for i := range s.Passages {
		if s.Passages[i].Of == door {
			s.Passages[i].Entry = unit
			u := &s.Units[unit[0]-'A']
			u.Entries = append(u.Entries, door)
			return
		}
	}
	require.Fail(t, "no door "+door)
}
