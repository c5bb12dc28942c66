package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// ground is a yard around a house of 8 x 6 m whose exterior walls are 0.20 m thick.
func ground(d *housetest.Draft) *housetest.Draft {
	ring := func(x0, y0, x1, y1 float64) geom.Ring {
		return geom.Ring{geom.FromMetres(x0, y0), geom.FromMetres(x1, y0), geom.FromMetres(x1, y1), geom.FromMetres(x0, y1)}
	}
	return d.Space("yard", plan.Yard, "site", geom.Region{
		Outer: ring(-5, -6, 13, 12), Holes: []geom.Ring{ring(-0.2, -0.2, 8.2, 6.2).Reverse()},
	})
}

func TestWhatADoorJoins(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []string
		rise  float64
	}{
		//	+---+ +---+
		//	| a D b   |    D: the door, in the middle of the wall
		//	+---+ +---+
		"two rooms": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.1, 0, 6, 4).
				Door("d", "main", 3.05, 1, 3.05, 1.8),
			[]string{"door:d a|b"}, 0,
		},
		"drawn on the far face of its wall": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.5, 0, 6, 4).
				Door("d", "main", 3.5, 1, 3.5, 1.8),
			[]string{"door:d a|b"}, 0,
		},
		"drawn a little off its wall": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.1, 0, 6, 4).
				Door("d", "main", 2.92, 1, 2.92, 1.8),
			[]string{"door:d a|b"}, 0,
		},
		//	+---+ +------+
		//	|   | |  b   |
		//	| a D +------+   the middle of the door is where b and c are parted
		//	|   | |  c   |
		//	+---+ +------+
		"on the end of a partition": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.1, 2.05, 6, 4).
				Room("c", plan.Bedroom, "main", 3.1, 0, 6, 1.95).Door("d", "main", 3.05, 1.6, 3.05, 2.4),
			[]string{"door:d a|c"}, 0,
		},
		"a closet shallower than a wall may be thick": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("c", plan.Closet, "main", 3.1, 0, 3.6, 4).
				Room("b", plan.Bedroom, "main", 3.7, 0, 6, 4).Door("d", "main", 3.05, 1, 3.05, 1.8),
			[]string{"door:d a|c"}, 0,
		},
		"a cased opening": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Dining, "main", 3.1, 0, 6, 4).
				Opening("o", "main", 3.05, 1, 3.05, 2.5),
			[]string{"opening:o a|b"}, 0,
		},
		"nothing surveyed outdoors": {
			oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Door("d", "main", -0.1, 1, -0.1, 1.9),
			[]string{"door:d a|outside"}, 0,
		},
		// The hall lies 0.40 m above the garage on the site.
		//	hall | garage
		"a step down to the garage": {
			withSite().Room("hall", plan.Hall, "main", 0, 0, 3, 4).Room("garage", plan.Garage, "site", 3.15, 0, 8, 6).
				Door("d", "main", 3.075, 1, 3.075, 1.9),
			[]string{"door:d garage|hall"}, 0.40,
		},
		"the yard, a few steps down": {
			ground(withSite()).Room("hall", plan.Hall, "main", 0, 0, 8, 6).Door("d", "main", 1, -0.1, 1.9, -0.1),
			[]string{"door:d hall|yard"}, -0.40,
		},
		"a porch on the main level over the yard": {
			ground(withSite()).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
				Room("porch", plan.Porch, "main", 0, -1.8, 3, -0.2).At(-0.05, 0).
				Door("d", "main", 1, -0.1, 1.9, -0.1),
			[]string{"door:d hall|porch"}, -0.05,
		},
		"a porch on the site level over a yard without a hole for the house": {
			housetest.New("test").Site("site", -0.40).Site("steps", -0.10).Level("main", 0, 2.44).
				Room("yard", plan.Yard, "site", -5, -6, 13, 12).Room("porch", plan.Porch, "steps", 0, -1.8, 3, -0.2).
				Room("hall", plan.Hall, "main", 0, 0, 8, 6).Door("d", "main", 1, -0.1, 1.9, -0.1),
			[]string{"door:d hall|porch"}, -0.10,
		},
		"the yard under a balcony, not the balcony": {
			ground(withSite().Level("upper", 2.7, 2.4)).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
				Room("balcony", plan.Balcony, "upper", 0, -1.8, 3, -0.2).Door("d", "main", 1, -0.1, 1.9, -0.1),
			[]string{"door:d hall|yard"}, -0.40,
		},
		"a walk-out basement": {
			housetest.New("slope").Site("site", -2.7).Level("lower", -2.6, 2.2).
				Room("yard", plan.Yard, "site", 0, -5, 8, -0.2).Room("family", plan.Family, "lower", 0, 0, 8, 6).
				Door("d", "lower", 1, -0.1, 1.9, -0.1),
			[]string{"door:d family|yard"}, -0.10,
		},
		//	     drive
		//	+------O------+     O: the overhead door
		//	|   garage    |
		"the door of a garage on the site": {
			withSite().Room("garage", plan.Garage, "site", 0, 0, 6, 6).Room("drive", plan.Drive, "site", 0, 6.2, 6, 12).
				Door("o", "site", 1, 6.1, 5, 6.1),
			[]string{"door:o garage|drive"}, 0,
		},
		"a gate in the fence between two yards": {
			withSite().Room("front", plan.Yard, "site", 0, 0, 6, 6).Room("rear", plan.Yard, "site", 0, 6, 6, 12).
				Door("g", "site", 1, 6, 2, 6),
			[]string{"door:g front|rear"}, 0,
		},
		"a gate to the outside": {
			withSite().Room("yard", plan.Yard, "site", 0, 0, 6, 6).Door("g", "site", 1, 0, 2, 0),
			[]string{"door:g yard|outside"}, 0,
		},
		"a gate between two levels of ground": {
			housetest.New("test").Site("site", -0.40).Site("terrace", 0.2).
				Room("yard", plan.Yard, "site", 0, 0, 6, 6).Room("patio", plan.Patio, "terrace", 6.05, 0, 9, 6).
				Door("g", "site", 6.02, 1, 6.02, 2),
			[]string{"door:g patio|yard"}, -0.60,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			b := build(t, tt.house.House())
			assert.Equal(t, tt.want, listed(b, passages...))
			for _, l := range b.Links {
				if l.Kind == plan.LinkDoor {
					assert.InDelta(t, tt.rise, l.Rise, 1e-9)
					assert.True(t, l.Passage())
				}
			}
		})
	}
}

func TestAGateSaysThatItsRunIsFenced(t *testing.T) {
	//	+------+
	//	| rear |
	//	+--G---+...      the fence with the gate, and open beside it
	//	| front    :
	//	+----------+
	b := build(t, withSite().Room("front", plan.Yard, "site", 0, 0, 6, 6).Room("rear", plan.Yard, "site", 0, 6, 6, 12).
		Door("g", "site", 1, 6, 2, 6).House())
	assert.Empty(t, listed(b, plan.LinkOpen))
}

func TestADoorHighOverTheGroundIsNoWayOut(t *testing.T) {
	h := ground(withSite().Level("upper", 2.7, 2.4)).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
		Room("bed", plan.Bedroom, "upper", 0, 0, 8, 6).
		Door("front", "main", 1, -0.1, 1.9, -0.1).Door("high", "upper", 1, -0.1, 1.9, -0.1).House()
	b := build(t, h)
	l := link(t, b, "door:high")
	assert.Equal(t, "bed|yard", between(b, l))
	assert.InDelta(t, -3.10, l.Rise, 1e-9)
	assert.False(t, l.Passage())
	assert.Contains(t, warnings(b), "3.10 m above or below yard")
	assert.Equal(t, []bool{false, true, true}, b.Reached()) // bed, hall, yard
}

func TestADoorThatJoinsNothingIsAnError(t *testing.T) {
	h := oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).
		Door("lost", "main", 8, 1, 8, 1.8).Door("gone", "main", 9, 1, 9, 1.8).House()
	_, err := plan.Build(h)
	var problems *plan.Problems
	require.ErrorAs(t, err, &problems)
	require.Len(t, problems.List, 2, "all errors at once")
	assert.ErrorContains(t, err, `lost: the door at (8.00, 1.40) on level "main" joins nothing`)
}

func TestADoorWithinOneRoomIsLeftOut(t *testing.T) {
	//	+-----------+
	//	|  a   D    |   in a stub of wall that a goes around
	//	|     ||    |
	//	+-----++----+
	b := build(t, oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 0, 3, 2, 3.1, 2, 3.1, 0, 6, 0, 6, 4, 0, 4).
		Door("d", "main", 3.05, 0.5, 3.05, 1.3).House())
	assert.Empty(t, listed(b, passages...))
	assert.Contains(t, warnings(b), "has a on both sides")
}

func TestWhatAWindowLooksOn(t *testing.T) {
	h := ground(withSite().Level("lower", -2.6, 2.2).Level("upper", 2.7, 2.4)).
		Room("living", plan.Living, "main", 0, 0, 8, 6).Room("family", plan.Family, "lower", 0, 0, 8, 6).
		Room("bed", plan.Bedroom, "upper", 0, 0, 8, 2.9).Room("bath", plan.Bathroom, "upper", 0, 3, 8, 6).
		Room("deck", plan.Deck, "main", 4, -3, 8, -0.2).
		Window("to-yard", "main", 0.9, 1.2, 1, -0.1, 2, -0.1).
		Window("to-deck", "main", 0.9, 1.2, 5, -0.1, 6, -0.1).
		Window("under-deck", "lower", 1.4, 0.6, 5, -0.1, 6, -0.1).
		Window("over-deck", "upper", 0.9, 1.2, 5, -0.1, 6, -0.1).
		Window("within", "upper", 1.8, 0.4, 5, 2.95, 6, 2.95).House()
	b := build(t, h)
	got := map[string]string{}
	for i, w := range b.WindowCells {
		got[h.Windows[i].ID] = idOf(b, w[0]) + "|" + idOf(b, w[1])
	}
	assert.Equal(t, map[string]string{
		"to-yard": "living|yard", "to-deck": "living|deck", "over-deck": "bed|deck", "within": "bath|bed",
		"under-deck": "family|yard", // the deck is above the window
	}, got)
}

func TestWhereFixturesBelong(t *testing.T) {
	h := ground(withSite().Level("upper", 2.7, 2.4)).
		Room("hall", plan.Hall, "main", 0, 0, 3.9, 6).Room("bath", plan.Bathroom, "main", 4, 0, 8, 3).
		Room("garage", plan.Garage, "site", -4, 8, -1, 11).
		Fixture("wc", "wc", "main", 5, 1).
		Fixture("panel", "electrical_panel", "main", 3.93, 1). // let into the wall, nearer the hall
		Fixture("basin", "basin", "main", 4, 2).               // on the face of the bath's wall
		Fixture("gas", "gas_meter", "main", 2, -0.25).         // on the outside of the wall
		Fixture("meter", "electric_meter", "site", -2, -1).    // on a post in the yard
		Fixture("heater", "water_heater", "site", -2, 9).
		Fixture("lost", "sink", "upper", 2, 2).House()
	footprint := geom.Region{Outer: geom.Ring{geom.FromMetres(7, 0), geom.FromMetres(8, 0), geom.FromMetres(8, 2), geom.FromMetres(7, 2)}}
	h.Fixtures = append(h.Fixtures, plan.Fixture{ID: "tub", Use: "bath", Level: 1, Footprint: &footprint})
	b := build(t, h)
	got := map[string]string{}
	for i, c := range b.FixtureCell {
		got[h.Fixtures[i].ID] = idOf(b, c)
	}
	assert.Equal(t, map[string]string{
		"wc": "bath", "panel": "hall", "basin": "bath", "gas": "outside", "meter": "yard", "heater": "garage", "lost": "outside", "tub": "bath",
	}, got)
	assert.Contains(t, warnings(b), `the sink at (2.00, 2.00) lies in no space of level "upper"`)
}
