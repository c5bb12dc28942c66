package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// throughOneHall gives the pair without front doors, entered from a hall
// before both living rooms.
//
//	 a-living || b-living
//	-----d------------d---
//	        hall
//	---------d------------
func throughOneHall() *plan.House {
	h := without(pair().House(), "a-front", "b-front")
	h = withRoom(h, "hall", plan.Hall, 0, -1.9, 10.2, -0.2)
	h = withDoor(h, "a-hall-door", 1, -0.1, 1.9, -0.1)
	h = withDoor(h, "b-hall-door", 8.3, -0.1, 9.2, -0.1)
	return withDoor(h, "front", 4.6, -2, 5.5, -2)
}

// A hall that both units need stays shared, which comes before any cost: as
// long as a new entry can be made, none is.
func TestAHallThatLeadsToBoth(t *testing.T) {
	// Flat a's living room has an outer wall at its side: a new entry there,
	// at 4500, and the hall is b's.
	brief := kept()
	s := best(t, throughOneHall(), brief)
	assert.Zero(t, unaccepted(s))
	assert.Equal(t, []string{"upgrade_wall a-bed|b-bed", "upgrade_wall a-living|b-living", "upgrade_wall a-living|hall", "seal_door a-hall-door"},
		slices.DeleteFunc(works(s), func(w string) bool { return w[:9] == "new_entry" }))

	// Where no work may touch the living rooms, the hall stays shared and each
	// flat's door to it becomes a fire door of its own, at 1300; the hall's
	// walls to both, 5.00 m each, are upgraded.
	brief.Leave = []string{"a-living", "b-living"}
	s = best(t, throughOneHall(), brief)
	require.Len(t, s.Shared, 1)
	assert.Equal(t, plan.Shared{
		ID: "hall", Use: "hall", Why: "both units pass through it: it leads to a-living (A) and b-living (B)",
		Cure: "divide it with a separating wall, or give one unit a new entry elsewhere",
	}, s.Shared[0])
	assert.InDelta(t, partyWalls+2*1300+2*12.20*95, s.Cost.Total, 0.005)
	for _, u := range s.Units {
		assert.Equal(t, []string{"front"}, u.Entries)
	}
	door := workOf(t, s, "new_door")
	assert.Equal(t, "a-hall-door", door.Of)
	assert.Equal(t, "the unit's own fire-rated, self-closing door", door.Note)

	// The same, accepted by the brief.
	brief.Share = []string{"hall"}
	s = best(t, throughOneHall(), brief)
	require.Len(t, s.Shared, 1)
	assert.True(t, s.Shared[0].Accepted)
	assert.Equal(t, "accepted by the brief; it leads to a-living (A) and b-living (B)", s.Shared[0].Why)
	assert.Empty(t, s.Shared[0].Cure)
}

func TestWhatIsSharedSaysWhyAndWhatWouldCureIt(t *testing.T) {
	tests := map[string]struct {
		house *plan.House
		share []string
		want  plan.Shared
	}{
		"a yard before both doors": {
			pairWithGround(eachOf(oneFrontYard, street)), nil,
			plan.Shared{
				ID: "yard", Use: "yard", Why: "both units pass through it: it leads to a-living (A) and b-living (B)",
				Cure: "a second way from the public way, or a fence that divides it",
			},
		},
		"a yard that the brief accepts by its id": {
			pairWithGround(eachOf(oneFrontYard, street)), []string{"yard"},
			plan.Shared{ID: "yard", Use: "yard", Accepted: true, Why: "accepted by the brief; it leads to a-living (A) and b-living (B)"},
		},
		"a washer that the brief accepts": {
			without(pair().House(), "b-washer"), []string{"washer"},
			plan.Shared{ID: "a-washer", Use: "washer", Accepted: true, Why: "the brief accepts one laundry for both units; its size for two is not checked"},
		},
		"a furnace that there is no room for twice": {
			withFixture(withDoor(withRoom(pair().House(), "plant", plan.Mechanical, -2.2, 0, -0.2, 1.5), "plant-door", -0.1, 0.3, -0.1, 1.1), "furnace", "furnace", -1, 1), nil,
			plan.Shared{
				ID: "source of heat of unit B", Use: "source_of_heat",
				Why:  "no space of unit B has it or could take it, so the other unit's has to serve both",
				Cure: "give unit B a closet, storage or mechanical room for it, or accept it with `share`",
			},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			brief := kept()
			brief.Share = tt.share
			s := best(t, tt.house, brief)
			assert.Equal(t, []plan.Shared{tt.want}, s.Shared)
		})
	}
}

// A flight that both flats are reached by.
func TestASharedFlight(t *testing.T) {
	//	upper: the pair, and a landing before both; lower: a hall with the door
	d := housetest.New("flats over a shop").Level("street", -2.8, 2.44).Level("main", 0, 2.44)
	h := without(pairOn(d).House(), "a-front", "b-front")
	d = housetest.New("").Level("street", -2.8, 2.44).Level("main", 0, 2.44)
	d.Room("landing", plan.Hall, "main", 0, -1.9, 10.2, -0.2)
	d.Room("lobby", plan.Entry, "street", 0, -8, 3, -5.9)
	d.Flight("flight", "street", "main", "n", 1, -5.9, 2, -1.9)
	d.Door("front", "street", 1, -8.1, 1.9, -8.1)
	d.Door("a-landing-door", "main", 1, -0.1, 1.9, -0.1).Door("b-landing-door", "main", 8.3, -0.1, 9.2, -0.1)
	more := d.House()
	h.Spaces, h.Stairs, h.Doors = append(h.Spaces, more.Spaces...), more.Stairs, append(h.Doors, more.Doors...)
	s := best(t, h, kept())
	got := map[string]string{}
	for _, e := range s.Shared {
		got[e.ID] = e.Use + ": " + e.Cure
	}
	assert.Equal(t, map[string]string{
		"flight":  "stair: a second flight or a second entry on the other level",
		"landing": "hall: divide it with a separating wall, or give one unit a new entry elsewhere",
		"lobby":   "entry: divide it with a separating wall, or give one unit a new entry elsewhere",
	}, got)
	assert.Equal(t, 3, unaccepted(s))
}
