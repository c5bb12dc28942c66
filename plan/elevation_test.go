package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// Two rooms side by side, 8 m to the south front, with one door; the brief
// gives each unit one of them, so that the other needs an entry of its own.
//
//	+-------+-------+
//	|   a   d   b   |   door d between them, front door of a to the south
//	+---D---+-------+
func TestTheSideWithANewEntryIsDrawn(t *testing.T) {
	d := housetest.New("pair").Site("site", -0.3).Level("main", 0, 2.4).
		Room("a", plan.Living, "main", 0, 0, 4, 5).Also(plan.Kitchen, plan.Laundry, plan.Bathroom, plan.Bedroom).
		Room("b", plan.Family, "main", 4.1, 0, 8.1, 5).Also(plan.Kitchen, plan.Laundry, plan.Bathroom, plan.Bedroom).
		Door("d", "main", 4.05, 2, 4.05, 2.9).Door("front", "main", 1, -0.1, 1.9, -0.1).
		Window("win", "main", 0.9, 1.2, 5, -0.1, 6.2, -0.1).
		Room("street", plan.Street, "site", -2, -6, 11, -2).Room("yard", plan.Yard, "site", -2, -2, 11, -0.2)
	brief := plan.DefaultBrief()
	brief.Schemes = 1
	brief.Units[0].Bedrooms, brief.Units[1].Bedrooms = plan.Range{}, plan.Range{}
	brief.Units[0].Keep, brief.Units[1].Keep = []string{"a"}, []string{"b"}
	brief.Share = append(brief.Share, "yard")
	a := split(t, build(t, d.House()), brief)
	require.NotEmpty(t, a.Schemes)
	s := a.Schemes[0]
	sides := s.Elevations()
	require.Len(t, sides, 1)
	e := sides[0]
	assert.InDelta(t, 180, e.Facing, 0.1, "the south front")
	// 8.10 m between inside faces and a wall on either side.
	assert.InDelta(t, 8.1+2*s.Building.ExteriorThickness, e.Width, 0.001)
	require.Len(t, e.Storeys, 1)
	assert.InDelta(t, 2.4, e.Storeys[0].Ceiling, 1e-9)
	left := -s.Building.ExteriorThickness
	states := map[plan.State]int{}
	for _, o := range e.Openings {
		states[o.State]++
		if o.Window >= 0 {
			assert.InDelta(t, 5-left, o.From, 0.001)
			assert.InDelta(t, 6.2-left, o.To, 0.001)
			assert.InDelta(t, 0.9, o.Sill, 1e-9)
			assert.InDelta(t, 2.1, o.Head, 1e-9)
		}
	}
	assert.Equal(t, map[plan.State]int{plan.Kept: 2, plan.New: 1}, states)
	assert.True(t, slices.ContainsFunc(e.Ground, func(g plan.SectionGround) bool { return g.Elevation == -0.3 }))
}
