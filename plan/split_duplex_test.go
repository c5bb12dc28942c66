package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

// The duplex is a building of two units by others (testdata/houses/README.md):
// the letter of a room's number says whose it is, and each flight stands in
// its unit's hall.

// twoBedroomsEach is the brief of the duplex.
func twoBedroomsEach() *plan.Brief {
	brief := plan.DefaultBrief()
	for i := range brief.Units {
		brief.Units[i].Bedrooms.Min = 2
	}
	return brief
}

func duplexUnit(id string) string {
	switch id {
	case "stair-1":
		return "A"
	case "stair-2":
		return "B"
	}
	return id[3:4]
}

// duplexUnits gives the cells of the duplex by the real unit that they belong
// to, under the letter of the scheme's unit that has that unit's foyer.
func requireRealUnits(t *testing.T, s *plan.Scheme) {
	t.Helper()
	called := map[string]plan.Owner{}
	for c, cell := range s.Building.Cells {
		if cell.ID == "L1-A101" || cell.ID == "L1-B101" {
			called[duplexUnit(cell.ID)] = s.Owners[c]
		}
	}
	require.NotEqual(t, called["A"], called["B"])
	for c, cell := range s.Building.Cells {
		require.Equal(t, called[duplexUnit(cell.ID)], s.Owners[c], cell.ID)
	}
	require.Len(t, s.Building.Cells, 20)
}

func TestTheDuplexIsPartedAsItWasBuilt(t *testing.T) {
	a := split(t, duplex(t), twoBedroomsEach())
	s := a.Schemes[0]
	requireRealUnits(t, s)
	assert.True(t, s.Proved)
	assert.Empty(t, s.Shared)
	for _, p := range s.Passages {
		assert.Equal(t, plan.Kept, p.State, "%v", p)
	}
	for _, w := range s.Works {
		// The two units are built apart, but the model does not say how their
		// walls and floors are made: they are upgraded, nothing else.
		assert.Contains(t, []string{"upgrade_wall", "upgrade_floor", "address_set"}, w.Kind)
	}
	for _, u := range s.Units {
		assert.Equal(t, 2, u.Bedrooms)
		assert.InDelta(t, 2, u.Bathrooms, 0)
		assert.Len(t, u.Entries, 2, "front door and garden door")
		assert.Len(t, u.Cells, 10)
	}
}

// Doors that the building does not have, cut through its separation: on the
// upper level between bedrooms, through 0.55 m of party wall.
func TestTheDuplexJoinedByADoorIsPartedAtThatDoor(t *testing.T) {
	for _, walls := range [][2]string{{"L2-A202", "L2-B203"}, {"L2-A203", "L2-B202"}} {
		t.Run(walls[0]+" to "+walls[1], func(t *testing.T) {
			apart := duplex(t)
			wall := link(t, apart, "wall:"+walls[0]+"|"+walls[1])
			middle := wall.Line.Length() / 2
			h := *apart.House
			h.Doors = append(slices.Clone(h.Doors), plan.Door{
				ID: "added", Level: wall.Level, Height: 2.03, Leaf: plan.Single,
				Line: geom.Segment{A: wall.Line.At(middle - 0.4), B: wall.Line.At(middle + 0.4)},
			})
			joined := build(t, &h)
			require.Equal(t, walls[0]+"|"+walls[1], between(joined, link(t, joined, "door:added")))

			before, after := split(t, apart, twoBedroomsEach()).Schemes[0], split(t, joined, twoBedroomsEach()).Schemes[0]
			requireRealUnits(t, after)
			assert.True(t, after.Proved)
			assert.Empty(t, after.Shared)
			var sealed []string
			for _, p := range after.Passages {
				if p.State != plan.Kept {
					sealed = append(sealed, p.Of+" "+string(p.State))
				}
			}
			assert.Equal(t, []string{"added sealed"}, sealed)
			// One door sealed, at 700 a door; nothing else is different.
			assert.InDelta(t, before.Cost.Total+700, after.Cost.Total, 0.01)
		})
	}
}

// The survey holds no areas of the building model itself (its README says how
// they compare with the rooms'); these are worked out here from the rooms.
func TestTheAreasOfTheDuplexAddUp(t *testing.T) {
	b := duplex(t)
	s := split(t, b, twoBedroomsEach()).Schemes[0]
	gross, outline := 0.0, 0.0
	for i, u := range s.Units {
		net := 0.0
		for c, cell := range b.Cells {
			if s.Owners[c] == plan.Owner(i) {
				net += cell.Region.AreaM2()
			}
		}
		assert.InDelta(t, net, u.NetM2, 1e-6)
		assert.InDelta(t, u.GrossM2, u.AboveM2+u.BelowM2, 1e-6)
		assert.Zero(t, u.BelowM2)
		assert.Greater(t, u.GrossM2, u.NetM2)
		gross += u.GrossM2
	}
	for _, l := range b.Levels {
		outline += l.Outline.AreaM2()
	}
	assert.InDelta(t, outline, gross, 0.01)
	// The building is one half turned about its middle: the units are alike.
	assert.InDelta(t, s.Units[0].NetM2, s.Units[1].NetM2, 0.1)
	assert.InDelta(t, s.Units[0].GrossM2, s.Units[1].GrossM2, 0.1)
}
