package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// twoRooms is two rooms of 4 x 3 m with a wall of 0.10 m between them, from
// x 0 to x 4 along y 3.05.
func twoRooms() *housetest.Draft {
	return oneLevel().Room("a", plan.Living, "main", 0, 0, 4, 3).Room("b", plan.Dining, "main", 0, 3.1, 4, 6)
}

// A new doorway is 0.90 m wide, with 0.12 m to spare on either side, and stands
// in a corner where nothing is in its way, so that the leaf opens against a wall
// and the rest of the wall stays whole (common practice, no source).
func TestWhereANewDoorwayStands(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []float64 // from and to, along the wall; none where there is no room
	}{
		"in the corner of a clear wall": {twoRooms(), []float64{0.12, 1.02}},
		"in the corner beyond a door": {
			// The door takes up 1.00 to 1.80: 1.00 m is left on the left.
			twoRooms().Door("d", "main", 1, 3.05, 1.8, 3.05), []float64{2.98, 3.88},
		},
		"beside a door, where there is room between two alone": {
			twoRooms().Door("d", "main", 0.1, 3.05, 0.9, 3.05).Opening("e", "main", 3, 3.05, 3.9, 3.05), []float64{1.02, 1.92},
		},
		"nowhere between doors too close": {
			// 1.10 m on either side and 1.00 m between: 1.14 are needed.
			twoRooms().Door("d", "main", 1.1, 3.05, 1.5, 3.05).Door("e", "main", 2.5, 3.05, 2.9, 3.05), nil,
		},
		"in a stretch that is just long enough": {
			twoRooms().Door("d", "main", 1.14, 3.05, 3.9, 3.05), []float64{0.12, 1.02},
		},
		// The door is the hall's and the room c's, but 0.40 m of it reach past
		// the end of c: 2.60 m of wall are left between a and b.
		"clear of a door that goes on beyond the end of the wall": {
			oneLevel().Room("a", plan.Living, "main", 0, 0, 8, 3).Room("b", plan.Dining, "main", 0, 3.1, 3, 6).Room("c", plan.Dining, "main", 3, 3.1, 8, 6).
				Door("d", "main", 2.6, 3.05, 3.6, 3.05),
			[]float64{0.12, 1.02},
		},
		// A closet stands in the wall: 1.40 m are left of it on the left, with a
		// door in them, and 1.30 m on the right.
		"beyond a closet that interrupts the wall, where this side is taken": {
			oneLevel().
				Room("a", plan.Living, "main", 0, 0, 4, 0, 4, 3, 2.7, 3, 2.7, 2, 1.4, 2, 1.4, 3, 0, 3).
				Room("b", plan.Dining, "main", 0, 3.1, 1.4, 3.1, 1.4, 4, 2.7, 4, 2.7, 3.1, 4, 3.1, 4, 6, 0, 6).
				Room("c", plan.Closet, "main", 1.5, 2.1, 2.6, 3.9).
				Door("d", "main", 0.4, 3.05, 1.1, 3.05),
			[]float64{2.82, 3.72},
		},
		"a door on another level takes up nothing": {
			twoRooms().Level("upper", 2.8, 2.44).Room("c", plan.Living, "upper", 0, 0, 4, 3).Room("e", plan.Dining, "upper", 0, 3.1, 4, 6).
				Door("d", "upper", 0.4, 3.05, 1.2, 3.05),
			[]float64{0.12, 1.02},
		},
		"a door in another wall takes up nothing": {
			twoRooms().Door("d", "main", 3, -0.1, 3.8, -0.1), []float64{0.12, 1.02},
		},
		"clear of what stands before the wall": {
			// A tub along the wall of b takes up 0.00 to 1.70 of it.
			twoRooms().Fixture("tub", "bath", "main", 0.8, 3.5).Footprint(0, 3.1, 1.7, 3.9), []float64{2.98, 3.88},
		},
		"nowhere where a worktop's length of things stands before it": {
			twoRooms().Fixture("tub", "bath", "main", 1.7, 3.5).Footprint(0.6, 3.2, 2.9, 3.9), nil,
		},
		"away from a door that swings before the one corner": {
			// The door in the side wall of a opens over the left corner.
			twoRooms().Door("d", "main", -0.05, 2, -0.05, 2.8), []float64{2.98, 3.88},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			b := build(t, tt.house.House())
			wall := link(t, b, "wall:a|b")
			work, at, ok := plan.DoorwayOf(b, plan.DefaultPrices(), wall)
			require.Equal(t, tt.want != nil, ok)
			if !ok {
				return
			}
			from, _ := at.A.Metres()
			to, _ := at.B.Metres()
			assert.InDeltaSlice(t, tt.want, []float64{min(from, to), max(from, to)}, 0.001)
			assert.Equal(t, "new_door", work.Kind)
			assert.InDelta(t, 1300, work.Cost, 1e-9)
		})
	}
}

// A candidate line that ends where alone a door could stand does not keep the
// door away: where the line is not used the wall is whole. Doors take up 0.00 to
// 1.40 and 2.60 to 4.00 of it; the line ends at 2.00.
func TestALineThatMayNotBeUsedKeepsNoDoorAway(t *testing.T) {
	for name, tt := range map[string]struct {
		upTo, from float64 // what the doors leave free
		want       bool
	}{
		"across the line":  {1.40, 2.60, true},
		"too little":       {1.45, 2.55, false},
		"before the piece": {0.60, 1.95, true},
		"just beyond it":   {1.90, 3.10, false},
		"only far off":     {2.80, 4.00, false},
	} {
		h := twoRooms().Opening("d", "main", 0, 3.05, tt.upTo, 3.05).Opening("e", "main", tt.from, 3.05, 4, 3.05).House()
		if tt.from == 4 {
			h = without(h, "e")
		}
		divided, err := plan.Divide(h, []plan.Cut{{Space: "a", Line: []geom.Pt{geom.FromMetres(2, 0), geom.FromMetres(2, 3)}}})
		require.NoError(t, err)
		b := build(t, divided)
		one := "a/1" // of two pieces as large either may be the left one
		if x, _ := b.Cells[cellIndex(t, b, one)].Region.Bounds().Centre().Metres(); x > 2 {
			one = "a/2"
		}
		_, _, ok := plan.DoorwayOf(b, plan.DefaultPrices(), link(t, b, "wall:"+one+"|b"))
		assert.Equal(t, tt.want, ok, name)
	}
}

func TestAnEntryKeepsClearOfWindows(t *testing.T) {
	// The front wall is 4.00 m long; the window takes up 0.60 to 1.80.
	h := withSite().Room("a", plan.Living, "main", 0, 0, 4, 3).Door("back", "main", 1, 3.1, 1.9, 3.1).
		Room("yard", plan.Yard, "site", -2, -8, 6, -0.2).
		Window("w", "main", 0.9, 1.2, 0.6, -0.1, 1.8, -0.1).House()
	b := build(t, h)
	_, at, ok := plan.DoorwayOf(b, plan.DefaultPrices(), link(t, b, "exterior:a|yard"))
	require.True(t, ok)
	x, _ := at.Mid().Metres()
	assert.InDelta(t, 4-0.12-0.45, x, 0.001) // in the corner beyond the window
}

// What a new door or entry costs, and where there can be none, by the wall.
func TestWhatANewDoorTakes(t *testing.T) {
	split := func(lower, upper float64) *housetest.Draft {
		return housetest.New("split").Level("a", lower, 2.44).Level("b", upper, 2.44).
			Room("a", plan.Living, "a", 0, 0, 4, 3).Room("b", plan.Dining, "b", 0, 3.1, 4, 6)
	}
	entry := func(floor, ground float64, use plan.Use) *housetest.Draft {
		return housetest.New("entry").Site("site", ground).Level("main", floor, 2.44).
			Room("a", use, "main", 0, 0, 4, 3).Room("yard", plan.Yard, "site", -2, -8, 6, -0.2)
	}
	tests := map[string]struct {
		house *housetest.Draft
		link  string
		leave []string
		cost  float64 // 0: there can be none
		note  string
	}{
		"an inner door": {twoRooms(), "wall:a|b", nil, 1300, ""},
		"through a bearing wall: a lintel at 1800": {
			twoRooms().Bearing("beam", "main", 0, 3.05, 4, 3.05), "wall:a|b", nil, 1300 + 1800,
			"in a bearing wall, with a lintel: an engineer decides",
		},
		"not through a wall that no work may touch": {
			twoRooms().Bearing("beam", "main", 0, 3.05, 4, 3.05), "wall:a|b", []string{"beam"}, 0, "",
		},
		"not from a room that no work may touch": {twoRooms(), "wall:a|b", []string{"b"}, 0, ""},
		"over a sill of 40 mm":                   {split(0, 0.04), "wall:a|b", nil, 1300, ""},
		"not over a step of 180 mm":              {split(0, 0.18), "wall:a|b", nil, 0, ""},
		"not under a ceiling of 2.00 m": {
			housetest.New("low").Level("a", 0, 2.00).Room("a", plan.Living, "a", 0, 0, 4, 3).Room("b", plan.Dining, "a", 0, 3.1, 4, 6),
			"wall:a|b", nil, 0, "",
		},
		"an entry through a bearing wall": {
			entry(0, -0.10, plan.Living).Bearing("front", "main", 0, -0.1, 4, -0.1), "exterior:a|yard", nil, 4500 + 0.10*1600 + 1800, "with steps and a landing",
		},
		// 0.30 m of steps at 1600 a metre.
		"an entry three steps up": {entry(0, -0.30, plan.Living), "exterior:a|yard", nil, 4500 + 0.30*1600, "with steps and a landing"},
		"an entry at grade":       {entry(0, -0.03, plan.Living), "exterior:a|yard", nil, 4500 + 0.03*1600, ""},
		"an entry down to a basement": {
			entry(-2.20, 0, plan.Family), "exterior:a|yard", nil, 4500 + 2.20*1600, "with steps and a landing",
		},
		"no entry 2.10 m above the ground": {entry(0, -2.10, plan.Living), "exterior:a|yard", nil, 0, ""},
		"no entry 3.10 m below the ground": {entry(-3.10, 0, plan.Living), "exterior:a|yard", nil, 0, ""},
		"no entry into a bedroom":          {entry(0, -0.30, plan.Bedroom), "exterior:a|yard", nil, 0, ""},
		"no entry into a garage":           {entry(0, -0.30, plan.Garage), "exterior:a|yard", nil, 0, ""},
		"no entry from a yard to be left":  {entry(0, -0.30, plan.Living), "exterior:a|yard", []string{"yard"}, 0, ""},
		"no entry where nothing was surveyed of the ground beyond": {
			// The yard lies in front; what lies behind the house is not known.
			entry(0, -0.30, plan.Living), "exterior:a|outside", nil, 0, "",
		},
		"an entry where no ground was surveyed at all": {
			// The one door that there is shows where the ground is.
			twoRooms().Door("front", "main", 1, -0.1, 1.9, -0.1), "exterior:b|outside", nil, 4500, "",
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			b := build(t, tt.house.House())
			i := slices.IndexFunc(b.Links, func(l plan.Link) bool { return l.ID == tt.link || l.ID == tt.link+"#1" })
			require.GreaterOrEqual(t, i, 0, ids(b))
			work, _, ok := plan.DoorwayOf(b, plan.DefaultPrices(), b.Links[i], tt.leave...)
			require.Equal(t, tt.cost != 0, ok)
			if ok {
				assert.InDelta(t, tt.cost, work.Cost, 0.005)
				assert.Equal(t, tt.note, work.Note)
			}
		})
	}
}
