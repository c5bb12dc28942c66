package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// The wall between the rooms becomes row W4a, 32.1 mm thicker on the first
// face and 15.9 mm on the second (TestAnExistingStudWallBecomesRowW4a): of
// 4.00 x 3.00 m 4.00 x 2.968 and 4.00 x 2.984 m are left.
func TestRoomsAreSmallerByTheLiningOfTheirSeparatingWall(t *testing.T) {
	s := SchemeOfTwoRooms(t, DefaultBrief(), DefaultPrices(), 0.12)
	c := &checking{s: s, b: s.Building}
	for cell, gain := range []float64{0.0321, 0.0159} {
		assert.InDelta(t, 12-4*gain, s.AfterM2(cell), 1e-6)
		assert.InDelta(t, 12-4*gain, s.linedRegion(cell).AreaM2(), 1e-3)
		assert.InDelta(t, 3-gain, c.clearWidth(cell), 1e-3)
		assert.InDelta(t, 12, s.Building.Cells[cell].AreaM2, 1e-9, "the surveyed area stays")
		assert.InDelta(t, s.AfterM2(cell), s.Units[cell].AfterM2(), 1e-6)
	}
}

// IRC R304.2 asks 7 ft, 2.134 m, of a habitable room: one of 2.15 m has it as
// surveyed, and not with 32.1 mm of lining.
func TestARoomCanBeTooNarrowOnceItIsLined(t *testing.T) {
	s := schemeOf(t, DefaultBrief(), DefaultPrices(), []Level{{ID: "main", Height: 2.4}},
		roomOf("a", 0, 0, 0, 4, 2.15), roomOf("b", 0, 0, 2.15+0.12, 4, 5.27))
	set, err := s.Brief.ruleSet()
	require.NoError(t, err)
	widths := func() (out []Finding) {
		for _, f := range Check(s, set, s.Brief.Conditions) {
			if f.Figure.ID == "room-width" && f.Subject == "a" {
				out = append(out, f)
			}
		}
		return out
	}
	lined := widths()
	require.Len(t, lined, 1)
	assert.Equal(t, NotOK, lined[0].Result)
	assert.InDelta(t, 2.15-0.0321, lined[0].Value, 1e-3)
	assert.Contains(t, lined[0].Note, "inside the separation's linings")
	s.Linings = nil
	assert.Equal(t, OK, widths()[0].Result, "as surveyed")
}

// A hall of 0.93 m along the separation, between the doors of two rooms: 3 ft,
// 0.914 m, are asked (IRC R311.6), and the lining takes more than the hall has over.
func TestAHallCanBeTooNarrowOnceItIsLined(t *testing.T) {
	hall := roomOf("hall", 0, 0, 0, 6, 0.93)
	hall.Use = Hall
	door := func(id string, x float64) Door {
		return Door{ID: id, Line: geom.Segment{A: geom.FromMetres(x, 0.98), B: geom.FromMetres(x+0.8, 0.98)}, Leaf: Single}
	}
	h := &House{
		Name: "hall", Unit: Metres, Levels: []Level{{ID: "main", Height: 2.4}},
		Spaces: []Space{hall, roomOf("one", 0, 0, 1.03, 2.9, 4), roomOf("two", 0, 3, 1.03, 6, 4), roomOf("other", 0, 0, -3.12, 6, -0.12)},
		Doors:  []Door{door("west", 0.5), door("east", 4.5)},
	}
	s := schemeOfHouse(t, DefaultBrief(), DefaultPrices(), h, UnitA, UnitA, UnitB, UnitA) // by id: hall, one, other, two
	gain := s.lining(s.Building.CellNamed("hall")).thickest
	require.Positive(t, gain)
	set, err := s.Brief.ruleSet()
	require.NoError(t, err)
	hallOf := func() (found Finding) {
		for _, f := range Check(s, set, s.Brief.Conditions) {
			if f.Figure.ID == "hall-width" && f.Subject == "hall" {
				found = f
			}
		}
		return found
	}
	lined := hallOf()
	assert.Equal(t, NotOK, lined.Result)
	assert.InDelta(t, 0.93-gain, lined.Value, 2e-3)
	s.Linings = nil
	assert.Equal(t, OK, hallOf().Result, "as surveyed")
}
