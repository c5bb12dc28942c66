package plan

import (
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// SchemeOfTwoRooms is two rooms of 4 m x 3 m side by side, a above b on the
// sheet, each a unit, with their separation chosen and nothing else done: no
// search, so that many can be tried.
func SchemeOfTwoRooms(t require.TestingT, brief *Brief, prices *Prices, thickness float64) *Scheme {
	room := func(id string, y0, y1 float64) Space {
		ring := geom.Ring{geom.FromMetres(0, y0), geom.FromMetres(4, y0), geom.FromMetres(4, y1), geom.FromMetres(0, y1)}
		return Space{ID: id, Name: id, Use: Living, Region: geom.Region{Outer: ring}, Height: 2.4, Heated: true, Finished: true}
	}
	b, err := Build(&House{Name: "two rooms", Unit: Metres, Levels: []Level{{ID: "main", Height: 2.4}}, Spaces: []Space{
		room("a", 0, 3), room("b", 3+thickness, 6+thickness),
	}})
	require.NoError(t, err)
	set, err := brief.ruleSet()
	require.NoError(t, err)
	s := &Scheme{ID: "1", Building: b, Whole: b, Brief: brief, Owners: []Owner{UnitA, UnitB}, Uses: []Use{Living, Living}, Also: make([][]Use, 2)}
	s.Units[0], s.Units[1] = Unit{ID: "A", Cells: []int{0}}, Unit{ID: "B", Cells: []int{1}}
	m := newModel(b, brief, prices)
	for _, l := range b.Links {
		if p := s.parted(l); p != partedNot {
			s.Works = append(s.Works, m.separation(l, false)...)
			m.addWall(s, l, p)
		}
	}
	numberWorks(s)
	s.addBuildUps(set, prices)
	return s
}
