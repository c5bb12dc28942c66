package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// withUse gives a house in which a space has another use.
func withUse(h *plan.House, id string, use plan.Use, also ...plan.Use) *plan.House {
	c := *h
	c.Spaces = append([]plan.Space(nil), h.Spaces...)
	for i := range c.Spaces {
		if c.Spaces[i].ID == id {
			c.Spaces[i].Use, c.Spaces[i].Also = use, also
		}
	}
	return &c
}

// withDoor gives a house with a door more.
func withDoor(h *plan.House, id string, x0, y0, x1, y1 float64) *plan.House {
	c := *h
	c.Doors = append(append([]plan.Door(nil), h.Doors...), housetest.New("").Level("main", 0, 2.44).Door(id, "main", x0, y0, x1, y1).House().Doors...)
	for i := range c.Levels {
		if c.Levels[i].ID == "main" {
			c.Doors[len(c.Doors)-1].Level = i
		}
	}
	return &c
}

// withRoom gives a house with a room more.
func withRoom(h *plan.House, id string, use plan.Use, x0, y0, x1, y1 float64) *plan.House {
	c := *h
	s := housetest.New("").Level("main", 0, 2.44).Room(id, use, "main", x0, y0, x1, y1).House().Spaces[0]
	for i := range c.Levels {
		if c.Levels[i].ID == "main" {
			s.Level = i
		}
	}
	c.Spaces = append(append([]plan.Space(nil), h.Spaces...), s)
	return &c
}

// Flat a of the pair has a room at its back, x: beyond its bath, its bedroom,
// or both. What has to be built tells whether x is reached as the house stands.
//
//	9.2 +------------+
//	    |     x      |
//	7.2 +-----+------+
//	    |bath |  bed |
//	4.1 +--d--+---d--+
func TestNobodyPassesThroughADeadEnd(t *testing.T) {
	behind := func(use plan.Use) *plan.House {
		return withRoom(without(pair().House(), "a-window"), "x", use, 0, 7.2, 5, 9.2)
	}
	const fromBath, fromBed = "from bath", "from bed"
	door := func(h *plan.House, from string) *plan.House {
		if from == fromBath {
			return withDoor(h, "x-door-bath", 0.5, 7.15, 1.3, 7.15)
		}
		return withDoor(h, "x-door-bed", 3, 7.15, 3.8, 7.15)
	}
	tests := map[string]struct {
		use     plan.Use
		from    string
		reached bool
	}{
		"a bedroom's own bathroom":                 {plan.Bathroom, fromBed, true},
		"a bedroom's own closet":                   {plan.Closet, fromBed, true},
		"a bedroom's own powder room":              {plan.PowderRoom, fromBed, true},
		"a closet off a bathroom":                  {plan.Closet, fromBath, true},
		"a laundry that only a bedroom opens to":   {plan.Laundry, fromBed, true},
		"a furnace room off a bedroom":             {plan.Mechanical, fromBed, true},
		"not a bedroom behind a bathroom":          {plan.Bedroom, fromBath, false},
		"not a dining room behind a bathroom":      {plan.Dining, fromBath, false},
		"a bathroom behind a bathroom is a shower": {plan.Bathroom, fromBath, true},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			// x may only be a's: it borders on nothing of b's.
			brief := kept()
			brief.Units[0].Keep = append(brief.Units[0].Keep, "x")
			h := door(behind(tt.use), tt.from)
			// No wall of bath and bed may be opened but the ones that are.
			brief.Leave = []string{"a-bath", "a-bed", "x"}
			a := split(t, build(t, h), brief)
			require.Equal(t, tt.reached, len(a.Schemes) > 0)
			if !tt.reached {
				assert.Contains(t, a.WhyNot, "x is reached through a-bath alone")
				assert.Contains(t, a.WhyNot[len(a.WhyNot)-1], "passes through a bedroom, bathroom, closet")
			}
		})
	}
}

// A room behind a bedroom that no other doorway could reach makes the bedroom
// a room to walk through, which is none. So do rooms behind a furnace room, a
// laundry or a closet.
func TestTheOnlyWayToARoomIsNoDeadEnd(t *testing.T) {
	behind := func(gate, use plan.Use) *plan.House {
		h := withRoom(without(pair().House(), "a-window"), "x", use, 0, 7.2, 5, 9.2)
		return withDoor(withUse(h, "a-bed", gate), "x-door", 3, 7.15, 3.8, 7.15)
	}
	for name, tt := range map[string]struct {
		gate, behind, becomes plan.Use
	}{
		"a bedroom behind a bedroom":        {plan.Bedroom, plan.Bedroom, plan.Office},
		"an office behind a bedroom":        {plan.Bedroom, plan.Office, plan.Office},
		"a store behind a furnace room":     {plan.Mechanical, plan.Storage, plan.Unfinished},
		"a bedroom behind a laundry":        {plan.Laundry, plan.Bedroom, plan.Hall},
		"a bedroom behind a closet":         {plan.Closet, plan.Bedroom, plan.Storage},
		"a bathroom behind a bedroom":       {plan.Bedroom, plan.Bathroom, plan.Bedroom},
		"a bedroom behind a bathroom":       {plan.Bathroom, plan.Bedroom, plan.Bathroom},
		"a dining room behind a powderroom": {plan.PowderRoom, plan.Dining, plan.PowderRoom},
	} {
		t.Run(name, func(t *testing.T) {
			b := build(t, behind(tt.gate, tt.behind))
			gate := b.Cells[slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == "a-bed" })]
			assert.Equal(t, tt.becomes != tt.gate, gate.Through)
			brief := kept()
			brief.Rules = "none"
			brief.Units[0].Bedrooms.Min = 0
			brief.Units[0].Keep = append(brief.Units[0].Keep, "x")
			brief.Leave = []string{"a-bath", "x"}
			a := split(t, b, brief)
			if tt.gate == plan.Bathroom || tt.gate == plan.PowderRoom {
				assert.Empty(t, a.Schemes, "nobody passes through a bathroom")
				return
			}
			require.NotEmpty(t, a.Schemes)
			s := a.Schemes[0]
			at := slices.IndexFunc(s.Building.Cells, func(c plan.Cell) bool { return c.ID == "a-bed" })
			assert.Equal(t, tt.becomes, s.Uses[at])
			if gate.Through {
				assert.Contains(t, b.Warnings, plan.Warning{Feature: "a-bed", Message: fmt.Sprintf(
					"the only way to x leads through a-bed, and no other doorway could be made: it counts as %s, which people may walk through, and no longer as %s", tt.becomes, tt.gate)})
			}
		})
	}
}

// A bathroom between a bedroom and the living room is nobody's way: the
// bedroom behind it needs a door of its own, cut where it meets a room that
// people pass through.
func TestABedroomReachedThroughABathroomGetsADoor(t *testing.T) {
	h := withDoor(without(pair().House(), "a-bed-door"), "through-bath", 2.25, 5, 2.25, 5.8)
	s := best(t, h, kept())
	door := workOf(t, s, "new_door")
	assert.Equal(t, []string{"a-bed", "a-living"}, door.Spaces)
	// One door at 1300 more than the flats as they were.
	assert.InDelta(t, partyWalls+1300, s.Cost.Total, 0.005)
}

// A garage is nobody's way in, and nobody's way through.
func TestNobodyPassesThroughAGarage(t *testing.T) {
	//	garage left of flat a, with its door to the living room
	garage := func() *plan.House {
		h := withRoom(pair().House(), "garage", plan.Garage, -6.2, 0, -0.2, 6)
		h = withDoor(h, "garage-door", -0.1, 1, -0.1, 1.8)
		return withDoor(h, "garage-out", -5, -0.1, -2.4, -0.1)
	}
	s := best(t, garage(), kept())
	assert.Equal(t, "A", owners(s)["garage"])
	assert.Equal(t, []string{"a-front"}, s.Units[0].Entries, "the way through the garage is none")

	// Without its front door flat a gets a new one rather than be entered
	// through the garage.
	s = best(t, without(garage(), "a-front"), kept())
	entry := workOf(t, s, "new_entry")
	assert.Equal(t, []string{"a-living"}, entry.Spaces)
}

// The doorway that leads on is named from the room that people come from, so
// that chains of dead ends close no circle.
func TestABedroomWithTwoWaysToItsBathIsParted(t *testing.T) {
	// The bath has a door to the living room and one to the bedroom: it may be
	// entered from both, and is passed through by neither.
	h := withDoor(pair().House(), "ensuite", 2.25, 5, 2.25, 5.8)
	s := best(t, h, kept())
	assert.InDelta(t, partyWalls, s.Cost.Total, 0.005)
}

// Whatever a room is made, a dead end is no way in: neither by a door that is
// there nor by a new one.
func TestNobodyComesInThroughARoomMadeADeadEnd(t *testing.T) {
	made := 0
	for seed := range seeds(t, 20, 60) {
		h := housetest.Small(seed)
		brief := housetest.Demands(h, seed, true)
		brief.Cuts = false
		a := split(t, build(t, h), brief)
		for _, s := range a.Schemes {
			use := map[string]plan.Use{}
			for c, cell := range s.Building.Cells {
				use[cell.ID] = s.Uses[c]
				if s.Uses[c] != cell.Use && s.Uses[c].DeadEnd() {
					made++
				}
			}
			for u := range s.Units {
				for _, entry := range s.Units[u].Entries {
					for _, l := range s.Building.Links {
						if l.Of == entry {
							assert.False(t, use[s.Building.Cells[l.U].ID].DeadEnd(), "seed %d: %s leads into %s", seed, entry, s.Building.Cells[l.U].ID)
						}
					}
				}
			}
			for _, w := range s.Works {
				if w.Kind == "new_entry" {
					assert.False(t, use[w.Spaces[0]].DeadEnd(), "seed %d: a new entry to %s", seed, w.Spaces[0])
				}
			}
		}
	}
	assert.Positive(t, made)
}
