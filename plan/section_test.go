package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// The house of hallHouse has its flight at x 0 to 1, from y 1.6 up to y 5.2: the
// section runs up its middle, from the front wall to the back wall.
func TestASectionRunsUpTheFlight(t *testing.T) {
	brief := plan.DefaultBrief()
	brief.Schemes = 1
	brief.Units[0].Keep, brief.Units[1].Keep = []string{"living-ground"}, []string{"living-upper"}
	h := hallHouse().House()
	h.Stairs[0].Risers = 16
	s := split(t, build(t, h), brief).Schemes[0]
	cut, ok := s.Section()
	require.True(t, ok)

	require.Len(t, cut.Flights, 1)
	f := cut.Flights[0]
	assert.Equal(t, 16, f.Risers)
	assert.InDelta(t, 0, f.Low, 1e-9)
	assert.InDelta(t, 2.8, f.High, 1e-9)
	run := f.Head - f.Foot
	assert.InDelta(t, 3.6, max(run, -run), 0.001)
	x, _ := cut.Line.Mid().Metres()
	assert.InDelta(t, 0.5, x, 0.001)

	// Nothing lies over it: its room goes up to the ceiling of the upper level.
	var shaft []plan.SectionRoom
	for _, r := range cut.Rooms {
		if s.Building.Cells[r.Cell].Flight {
			shaft = append(shaft, r)
		}
	}
	require.Len(t, shaft, 1)
	assert.InDelta(t, 3.6, shaft[0].To-shaft[0].From, 0.001)
	assert.InDelta(t, 0, shaft[0].Floor, 1e-9)
	assert.InDelta(t, h.Levels[h.Stairs[0].To].Floor+h.Levels[h.Stairs[0].To].Height, shaft[0].Ceiling, 1e-9)

	for _, slab := range cut.Slabs {
		below, above := s.Building.Cells[slab.Below], s.Building.Cells[slab.Above]
		assert.InDelta(t, 0.3, slab.High-slab.Low, 1e-9, "2.50 m under a floor at 2.80")
		assert.Equal(t, s.Owners[slab.Below] != s.Owners[slab.Above], slab.Separating, "%s under %s", below.ID, above.ID)
	}
	assert.NotEmpty(t, cut.Slabs)
	assert.True(t, slices.ContainsFunc(cut.Rooms, func(r plan.SectionRoom) bool { return s.Building.Cells[r.Cell].Of == "hall" }))
}

// What a section shows does not hang on how the house is turned on its lot.
func TestASectionTurnsWithTheHouse(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		brief := *s.brief
		brief.Schemes, brief.Cuts = 1, false
		best := func(h *plan.House) plan.Section {
			a := split(t, build(t, h), &brief)
			require.NotEmpty(t, a.Schemes)
			cut, ok := a.Schemes[0].Section()
			require.True(t, ok)
			return cut
		}
		want, got := best(s.building.House), best(housetest.Turned(s.building.House, 37))
		assert.Equal(t, len(want.Flights), len(got.Flights))
		assert.Equal(t, len(want.Rooms), len(got.Rooms))
		assert.Equal(t, len(want.Slabs), len(got.Slabs))
		assert.InDelta(t, want.Line.Length(), got.Line.Length(), 0.01)
	})
}
