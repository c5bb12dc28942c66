package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func twoLevels() *housetest.Draft {
	return housetest.New("test").Level("main", 0, 2.44).Level("upper", 2.7, 2.4)
}

// The flights go up to the right, east. On each level:
//
//	main:   | hall | flight  > |        upper:  |  void   | landing |
func TestWhereAFlightArrives(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []string
	}{
		"along coinciding edges": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
				Room("landing", plan.Hall, "upper", 6, 0, 8, 1),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00"},
		},
		"across a gap": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 1.8, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
				Room("landing", plan.Hall, "upper", 6.3, 0, 8, 1),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00"},
		},
		// The hall and the landing go on beside the flight and its void.
		"with open sides": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 0, 2, 1, 6, 1, 6, 2, 0, 2).
				Flight("f", "main", "upper", "e", 2, 0, 6, 1).
				Room("landing", plan.Hall, "upper", 6, 0, 8, 0, 8, 2, 3, 2, 3, 1, 6, 1),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00", "side:f|hall 4.00", "side:f|landing 3.00"},
		},
		"two rooms at its foot": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 0.5).Room("living", plan.Living, "main", 0, 0.5, 2, 3).
				Flight("f", "main", "upper", "e", 2, 0, 6, 1).Room("landing", plan.Hall, "upper", 6, 0, 8, 1),
			[]string{"stair:f.foot|hall 0.50", "stair:f.foot|living 0.50", "stair:f.head|landing 1.00"},
		},
		// The walk is drawn short of the foot and past the head.
		"a walk drawn short and long": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).
				Stair("f", "main", "upper", []float64{2.4, 0.5, 6.3, 0.5}, 2, 0, 6, 1).Room("landing", plan.Hall, "upper", 6, 0, 8, 1),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00"},
		},
		//	+------+---+
		//	| foot     :  landing on the upper level, left of the upper part
		//	+------+   |
		//	       |   |  the flight winds up and back, an L
		"a winding flight": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).
				Stair("f", "main", "upper", []float64{2, 0.5, 4.5, 0.5, 4.5, 4}, 2, 0, 5, 0, 5, 4, 4, 4, 4, 1, 2, 1).
				Room("landing", plan.Hall, "upper", 4, 4, 5, 6),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00"},
		},
		//	+---------------+
		//	|  ,---<--- head : hall below, landing above: foot and head
		//	|  '--->--- foot : lie side by side in one edge
		//	+---------------+
		"a flight that turns back on itself": {
			twoLevels().Room("hall", plan.Hall, "main", 4, 0, 6, 2).
				Stair("f", "main", "upper", []float64{4, 0.5, 1, 0.5, 1, 1.5, 4, 1.5}, 0, 0, 4, 2).
				Room("landing", plan.Hall, "upper", 4, 0, 6, 2),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00", "side:f|hall 1.00", "side:f|landing 1.00"},
		},
		// The last step is left to the side, into a hall along the whole flight.
		"a flight left sideways": {
			twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).
				Stair("f", "main", "upper", []float64{2, 0.5, 5.5, 0.5, 5.5, 1}, 2, 0, 6, 1).
				Room("gallery", plan.Hall, "upper", 2, 1, 6, 2),
			[]string{"stair:f.foot|hall 1.00", "stair:f.head|gallery 1.20", "side:f|gallery 2.80"},
		},
		// A quarter landing that is a level of its own; the flights meet there.
		"two flights that meet": {
			housetest.New("test").Level("main", 0, 2.44).Level("half", 1.35, 2.4).Level("upper", 2.7, 2.4).
				Room("hall", plan.Hall, "main", 0, 0, 2, 1).
				Flight("f1", "main", "half", "e", 2, 0, 4, 1).Flight("f2", "half", "upper", "e", 4, 0, 6, 1).
				Room("landing", plan.Hall, "upper", 6, 0, 8, 1),
			[]string{"stair:f1.foot|hall 1.00", "stair:f1.head|f2 1.00", "stair:f2.head|landing 1.00"},
		},
		// From the cellar up into the yard, which is drawn over it.
		"a bulkhead stair": {
			housetest.New("test").Level("lower", -2.6, 2.2).Site("site", -0.4).
				Room("cellar", plan.Storage, "lower", 0, 0, 2, 1).Room("yard", plan.Yard, "site", 1, -3, 12, 5).
				Flight("f", "lower", "site", "e", 2, 0, 6, 1),
			[]string{"stair:f.foot|cellar 1.00", "stair:f.head|yard 1.00"},
		},
		"garden steps to a porch": {
			withSite().Room("walk", plan.Walk, "site", 0, 0, 2, 1).Flight("f", "site", "main", "e", 2, 0, 3, 1).
				Room("porch", plan.Porch, "main", 3, 0, 5, 2),
			[]string{"stair:f.foot|walk 1.00", "stair:f.head|porch 1.00"},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			b := build(t, tt.house.House())
			assert.Equal(t, tt.want, listed(b, stairs...))
			assert.Empty(t, listed(b, plan.LinkWall), "no wall stands across the arrival of a flight")
		})
	}
}

func TestADoorAtTheEndOfAFlightIsItsArrival(t *testing.T) {
	//	main:  | hall D flight > |      upper:  | void | D landing |
	b := build(t, twoLevels().Room("hall", plan.Hall, "main", 0, 0, 1.9, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
		Room("landing", plan.Hall, "upper", 6.1, 0, 8, 1).
		Door("foot", "main", 1.95, 0.1, 1.95, 0.9).Door("head", "upper", 6.05, 0.1, 6.05, 0.9).House())
	assert.Empty(t, listed(b, plan.LinkStair), "the door is the way on, not doubled")
	assert.Equal(t, []string{"door:foot f|hall", "door:head f|landing"}, listed(b, plan.LinkDoor))
	assert.InDelta(t, 0, link(t, b, "door:head").Rise, 1e-9, "the door at the head is level with the landing")
	assert.Equal(t, []string{"wall:f|hall 1.00", "wall:f|landing 1.00"}, listed(b, plan.LinkWall))
	assert.Equal(t, []bool{true, true, true}, b.Reached())
}

func TestADoorBesideTheLastStepIsTheArrival(t *testing.T) {
	//	+-------------+
	//	| hall        |
	//	+----------D--+------+
	//	  cellar stair > |bed|   the flight ends at the bedroom's wall
	//	-----------------+---+
	b := build(t, housetest.New("test").Level("lower", -2.6, 2.2).Level("main", 0, 2.44).
		Room("cellar", plan.Storage, "lower", 0, 0, 2, 1).Flight("f", "lower", "main", "e", 2, 0, 6, 1).
		Room("hall", plan.Hall, "main", 2, 1.1, 6, 3).Room("bed", plan.Bedroom, "main", 6.1, 0, 9, 3).
		Door("d", "main", 5.1, 1.05, 5.9, 1.05).House())
	assert.Equal(t, []string{"stair:f.foot|cellar 1.00"}, listed(b, plan.LinkStair), "nobody walks through the wall to the bedroom")
	assert.Equal(t, []string{"door:d f|hall"}, listed(b, plan.LinkDoor))
	assert.Contains(t, listed(b, walls...), "wall:bed|f 1.00")
}

func TestAGalleryOverAHallIsOpenToIt(t *testing.T) {
	//	+-------+---------+
	//	|       : gallery |  2.70
	//	| hall  +---------+
	//	|       | kitchen |  0
	//	+-------+---------+
	b := build(t, twoLevels().Room("hall", plan.Living, "main", 0, 0, 4, 4).At(0, 5.1).
		Room("kitchen", plan.Kitchen, "main", 4.1, 0, 8, 4).Room("gallery", plan.Hall, "upper", 4, 0, 8, 4).House())
	assert.Equal(t, []string{"side:gallery|hall 4.00"}, listed(b, opens...), "nobody walks across")
	assert.InDelta(t, 2.4, link(t, b, "side:gallery|hall").Height, 1e-9)
	assert.Equal(t, []string{"wall:hall|kitchen 4.00"}, listed(b, walls...))
}

func TestARoomOverTheLowEndOfAFlight(t *testing.T) {
	// upper:  | bedroom  || void | landing |   the bedroom reaches 1 m over the
	// main:       | hall | flight     >    |   flight; its wall stands in the void
	house := func(use plan.Use) *plan.House {
		return twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
			Room("room", use, "upper", 0, 0, 3, 3).Room("landing", plan.Hall, "upper", 6, 0, 8, 3).
			Room("closet", plan.Closet, "upper", 3.15, 1.2, 5.9, 3).House()
	}
	b := build(t, house(plan.Bedroom))
	assert.Equal(t, []string{"floor:f|room 1.00 m2", "floor:hall|room 2.00 m2"}, listed(b, floors...))
	wall := link(t, b, "wall:f|room")
	assert.InDelta(t, 1, wall.Length, 1e-6)
	assert.InDelta(t, 0.15, wall.Thickness, 1e-6, "as thick as the bedroom's wall to the closet, in the same line")
	assert.Equal(t, geom.Inside, b.Levels[1].Mass.Contains(geom.FromMetres(3.07, 0.5)), "and drawn")

	open := build(t, twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
		Room("gallery", plan.Hall, "upper", 0, 0, 3, 1).Room("landing", plan.Hall, "upper", 6, 0, 8, 1).House())
	assert.Equal(t, []string{"side:f|gallery 1.00"}, listed(open, plan.LinkSide), "a gallery ends in a railing")
	assert.Empty(t, listed(open, walls...))
}

func TestAClosetUnderAFlight(t *testing.T) {
	// main:  | hall | flight  [closet] > |   the closet lies under the upper end
	b := build(t, twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
		Room("closet", plan.Closet, "main", 4, 0, 6, 1).Room("landing", plan.Hall, "upper", 6, 0, 8, 1).House())
	assert.Equal(t, []string{"floor:closet|f 2.00 m2"}, listed(b, floors...))
	assert.Equal(t, []string{"stair:f.foot|hall 1.00", "stair:f.head|landing 1.00", "side:f|closet 1.00"}, listed(b, stairs...))
}

func TestFlightsAboveEachOther(t *testing.T) {
	// The cellar stair climbs under the upper one: on the main level the
	// footprint is the upper flight's, the cellar stair has no void there.
	b := build(t, housetest.New("test").Level("lower", -2.6, 2.2).Level("main", 0, 2.44).Level("upper", 2.7, 2.4).
		Room("cellar", plan.Storage, "lower", 0, 0, 2, 1).Room("hall", plan.Hall, "main", 0, 0, 2, 1).
		Room("back", plan.Hall, "main", 6, 0, 8, 1).Room("landing", plan.Hall, "upper", 6, 0, 8, 1).
		Flight("down", "lower", "main", "e", 2, 0, 6, 1).Flight("up", "main", "upper", "e", 2, 0, 6, 1).House())
	assert.Equal(t, []string{"floor:back|landing 2.00 m2", "floor:cellar|hall 2.00 m2", "floor:down|up 4.00 m2"}, listed(b, floors...))
	assert.Equal(t, []string{
		"stair:down.foot|cellar 1.00", "stair:down.head|back 1.00", "stair:up.foot|hall 1.00", "stair:up.head|landing 1.00",
	}, listed(b, stairs...))
}

func TestAFlightThatArrivesNowhereIsAnError(t *testing.T) {
	_, err := plan.Build(twoLevels().Room("hall", plan.Hall, "main", 0, 0, 2, 1).Flight("f", "main", "upper", "e", 2, 0, 6, 1).
		Room("landing", plan.Hall, "upper", 9, 0, 12, 1).House())
	assert.ErrorContains(t, err, `f: the head of the flight at (6.00, 0.50) reaches no space on level "upper"`)
}
