package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// The prices are those of the shipped price file; each expected cost is worked
// out in the comment beside it.
func TestWhatPartingCosts(t *testing.T) {
	// moveOver lets the right flat begin at x 5: the party wall between the
	// living rooms is taken out from end to end.
	openPlan := func() *plan.House {
		h := pair().House()
		for i := range h.Spaces {
			if h.Spaces[i].ID == "b-living" {
				h.Spaces[i].Region = geom.Wound(geom.Region{Outer: geom.Ring{
					geom.FromMetres(5, 0), geom.FromMetres(10.2, 0), geom.FromMetres(10.2, 4), geom.FromMetres(5, 4),
				}})
			}
		}
		return h
	}
	const livings, bedrooms, numbers = 9.76 * 95, 7.32 * 95, 2 * 400
	tests := map[string]struct {
		house *plan.House
		works []string
		cost  float64
	}{
		"flats that only share a wall": {
			pair().House(),
			[]string{"upgrade_wall a-bed|b-bed", "upgrade_wall a-living|b-living"},
			livings + bedrooms + numbers,
		},
		"a door between them is taken out and its frame filled": {
			pair().Door("joined", "main", 5.1, 1, 5.1, 1.8).House(),
			[]string{"upgrade_wall a-bed|b-bed", "upgrade_wall a-living|b-living", "seal_door joined"},
			livings + bedrooms + numbers + 700,
		},
		"an opening between them is filled": {
			pair().Opening("joined", "main", 5.1, 1, 5.1, 3).House(),
			[]string{"upgrade_wall a-bed|b-bed", "upgrade_wall a-living|b-living", "seal_opening joined"},
			livings + bedrooms + numbers + 900,
		},
		// A new wall of 4.00 x 2.44 m = 9.76 m2 at 210, instead of 9.76 m2 at 95.
		"rooms that run into each other get a wall": {
			openPlan(),
			[]string{"separating_wall a-living|b-living", "upgrade_wall a-bed|b-bed"},
			9.76*210 + bedrooms + numbers,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			s := best(t, tt.house, kept())
			assert.Equal(t, tt.works, works(s))
			assert.InDelta(t, tt.cost, s.Cost.Total, 0.005)
			assert.InDelta(t, tt.cost, s.Cost.Works, 0.005)
			assert.Zero(t, s.Cost.Priorities)
			sum := 0.0
			for _, w := range s.Works {
				sum += w.Cost
			}
			assert.InDelta(t, sum, s.Cost.Works, 0.005, "the list adds up")
		})
	}
}

func TestWorksCarryTheirQuantities(t *testing.T) {
	s := best(t, pair().Door("joined", "main", 5.1, 1, 5.1, 1.8).House(), kept())
	wall := workOf(t, s, "upgrade_wall") // the bedrooms' comes first, by id
	assert.Equal(t, []string{"a-bed", "b-bed"}, wall.Spaces)
	assert.Equal(t, "main", wall.Level)
	assert.InDelta(t, 3.00, wall.LengthM, 1e-9)
	assert.InDelta(t, 7.32, wall.AreaM2, 1e-9)
	assert.InDelta(t, 695.40, wall.Cost, 1e-9)
	require.Len(t, wall.Line, 2)
	assert.InDelta(t, 3.00, wall.Line[0].Distance(wall.Line[1]), 1e-6)
	door := workOf(t, s, "seal_door")
	assert.Equal(t, 1, door.Count)
	for i, w := range s.Works {
		assert.Equal(t, "W"+string(rune('1'+i)), w.ID, "numbered in the order of the list")
	}
}

// Noise: a living room against a bedroom across the separation, at 80 a square
// metre; the kitchens, living rooms and baths of both flats against each other
// cost nothing.
func TestANoisyRoomAgainstABedroomWeighs(t *testing.T) {
	//	+-----+------++------+-----+
	//	| bath|living||  bed | bath|
	//	+-----+------++------+-----+
	//	|     bed    ||  living    |
	d := pair()
	h := d.House()
	for i := range h.Spaces {
		switch s := &h.Spaces[i]; s.ID {
		case "a-bed":
			s.Use, s.Also = plan.Living, []plan.Use{plan.Kitchen}
		case "a-living":
			s.Use, s.Also = plan.Bedroom, nil
		}
	}
	// a-living is now a bedroom that leads on to nothing but its own bath; the
	// way in is through the new living room.
	h = without(h, "a-front", "a-bath-door")
	doors := housetest.New("").Level("main", 0, 2.44).
		Door("a-back", "main", 3, 7.2, 3.9, 7.2).Door("a-new-bath-door", "main", 2.25, 5, 2.25, 5.8).House().Doors
	h.Doors = append(h.Doors, doors...)
	h = without(h, "a-window")
	brief := kept()
	s := best(t, h, brief)
	// Bedroom a-living against b-living, 9.76 m2, and a-bed, now a living room,
	// against b-bed, 7.32 m2.
	assert.InDelta(t, (9.76+7.32)*80, s.Cost.Priorities, 0.005)
	brief.Priorities.Noise = 0.5
	assert.InDelta(t, (9.76+7.32)*40, best(t, h, brief).Cost.Priorities, 0.005)
	brief.Priorities.Noise = 0
	assert.Zero(t, best(t, h, brief).Cost.Priorities)
}

// Two flats one above the other: the lower one's flight to the upper is closed
// off at its head or its foot, and the floor between is upgraded.
func TestAFloorAndAFlightBetweenTheUnits(t *testing.T) {
	//	lower (and upper)          the flight climbs from the lower living
	//	+-----+-------+            room to the upper one's
	//	|bath | bed   |
	//	+-----+-+-----+
	//	|living |flight
	//	+-------+
	d := housetest.New("two flats").Level("lower", 0, 2.44).Level("upper", 2.8, 2.44)
	for _, level := range [...]string{"lower", "upper"} {
		// The living rooms go around the flight: 6 x 4 m less 1 x 3 m.
		d.Room(level+"-living", plan.Living, level, 0, 0, 6, 0, 6, 0.5, 5, 0.5, 5, 3.5, 6, 3.5, 6, 4, 0, 4).Also(plan.Kitchen)
		d.Room(level+"-bath", plan.Bathroom, level, 0, 4.1, 2.2, 7.1)
		d.Room(level+"-bed", plan.Bedroom, level, 2.3, 4.1, 6, 7.1)
		d.Door(level+"-bath-door", level, 0.5, 4.05, 1.3, 4.05).Door(level+"-bed-door", level, 3, 4.05, 3.8, 4.05)
		d.Fixture(level+"-washer", "washer", level, 0.5, 6.5)
	}
	d.Flight("flight", "lower", "upper", "n", 5, 0.5, 6, 3.5)
	d.Door("lower-front", "lower", 1, -0.1, 1.9, -0.1)
	d.Door("upper-front", "upper", 1, -0.1, 1.9, -0.1) // from the street above: a house on a slope
	h := d.House()
	h.Grade, h.GradeSaid = 1.4, true
	b := build(t, h)
	s := split(t, b, nothingAsked()).Schemes[0]

	assert.Zero(t, unaccepted(s))
	floors := 0.0
	for _, w := range s.Works {
		if w.Kind == "upgrade_floor" {
			floors += w.AreaM2
		}
	}
	// Living under living 24 - 3 = 21 m2, bath under bath 6.60, bed under bed
	// 3.7 x 3 = 11.10 m2; under or over the flight nothing.
	assert.InDelta(t, 21+6.60+11.10, floors, 1e-6)
	// The flight is one unit's. Towards the other's living room it is closed
	// off at its end, 1.00 m wide, and walled in along its open side of 3.00 m
	// and its other end of 1.00 m, all 2.44 m high.
	closed, wall := workOf(t, s, "close_stair"), workOf(t, s, "separating_wall")
	assert.Equal(t, "flight", closed.Of)
	assert.InDelta(t, 1500+160*2.44, closed.Cost, 0.005)
	assert.InDelta(t, 4.00, wall.LengthM, 1e-6)
	assert.InDelta(t, 9.76*210, wall.Cost, 0.005)
	// Floors at 140 a square metre, and the two numbers.
	assert.InDelta(t, 38.70*140+(1500+160*2.44)+9.76*210+800, s.Cost.Total, 0.005)
}
