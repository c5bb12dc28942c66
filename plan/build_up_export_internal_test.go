package plan

import (
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan/assembly"
)

// SchemeOfTwoRooms is two rooms of 4 m x 3 m side by side, b above a on the
// sheet, each a unit, with their separation chosen and nothing else done: no
// search, so that many can be tried.
func SchemeOfTwoRooms(t require.TestingT, brief *Brief, prices *Prices, thickness float64) *Scheme {
	return schemeOf(t, brief, prices, []Level{{ID: "main", Height: 2.4}},
		roomOf("a", 0, 0, 0, 4, 3), roomOf("b", 0, 0, 3+thickness, 4, 6+thickness))
}

// SchemeOfTwoStoreys is two rooms one over the other, a unit each, with a floor
// of 300 mm between them.
func SchemeOfTwoStoreys(t require.TestingT, brief *Brief, prices *Prices, width, depth float64) *Scheme {
	return schemeOf(t, brief, prices, []Level{{ID: "main", Height: 2.4}, {ID: "upper", Floor: 2.7, Height: 2.4}},
		roomOf("a", 0, 0, 0, width, depth), roomOf("b", 1, 0, 0, width, depth))
}

func roomOf(id string, level int, x0, y0, x1, y1 float64) Space {
	ring := geom.Ring{geom.FromMetres(x0, y0), geom.FromMetres(x1, y0), geom.FromMetres(x1, y1), geom.FromMetres(x0, y1)}
	return Space{
		ID: id, Name: id, Use: Living, Level: level, Region: geom.Region{Outer: ring},
		Floor: 2.7 * float64(level), Height: 2.4, Heated: true, Finished: true,
	}
}

func schemeOf(t require.TestingT, brief *Brief, prices *Prices, levels []Level, rooms ...Space) *Scheme {
	return schemeOfHouse(t, brief, prices, &House{Name: "two rooms", Unit: Metres, Levels: levels, Spaces: rooms}, UnitA, UnitB)
}

// schemeOfHouse is a house with its spaces parted as said and its separation
// chosen, without a search.
func schemeOfHouse(t require.TestingT, brief *Brief, prices *Prices, h *House, owners ...Owner) *Scheme {
	b, err := Build(h)
	require.NoError(t, err)
	set, err := brief.ruleSet()
	require.NoError(t, err)
	s := &Scheme{ID: "1", Building: b, Whole: b, Brief: brief, Owners: owners, Also: make([][]Use, len(b.Cells))}
	s.Units[0], s.Units[1] = Unit{ID: "A"}, Unit{ID: "B"}
	for c := range b.Cells {
		s.Uses = append(s.Uses, b.Cells[c].Use)
		unit := &s.Units[owners[c]]
		unit.Cells = append(unit.Cells, c)
		unit.NetM2 += b.Cells[c].AreaM2
	}
	m := newModel(b, brief, prices)
	for _, l := range b.Links {
		if p := s.parted(l); p != partedNot {
			s.Works = append(s.Works, m.separation(l, false)...)
			m.addWall(s, l, p)
			if l.Kind == LinkFloor {
				s.Floors = append(s.Floors, FloorRun{Below: b.Cells[l.U].ID, Above: b.Cells[l.V].ID, Region: l.Region, State: Separating})
			}
		}
	}
	numberWorks(s)
	s.addBuildUps(set, prices)
	return s
}

// PriceOf is what a way to a build-up costs per m2.
func PriceOf(p *Prices, c assembly.Change) float64 { return p.Layers.change(&c) }

// WithWork adds a work to a scheme and looks for weak points again.
func WithWork(s *Scheme, w Work) *Scheme {
	s.Works = append(s.Works, w)
	s.addWeakPoints()
	return s
}

// SchemeOfFloor is two rooms one over the other with a floor of that thickness.
func SchemeOfFloor(t require.TestingT, brief *Brief, prices *Prices, thickness float64) *Scheme {
	upper := roomOf("b", 1, 0, 0, 5, 4)
	upper.Floor = 2.4 + thickness
	return schemeOf(t, brief, prices, []Level{{ID: "main", Height: 2.4}, {ID: "upper", Floor: 2.4 + thickness, Height: 2.4}}, roomOf("a", 0, 0, 0, 5, 4), upper)
}
