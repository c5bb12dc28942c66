package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func cellIndex(t testing.TB, b *plan.Building, id string) int {
	t.Helper()
	c := slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == id })
	require.GreaterOrEqual(t, c, 0, id)
	return c
}

// places tells in how many ways one thing fits a room.
func places(t testing.TB, d *housetest.Draft, room, thing string) []plan.Fit {
	t.Helper()
	b := build(t, d.House())
	return plan.PlacesOf(b, cellIndex(t, b, room), thing)
}

// has tells whether one of the fits has a fixture of the use.
func placesOne(fits []plan.Fit, use string) bool {
	return slices.ContainsFunc(fits, func(f plan.Fit) bool {
		return slices.ContainsFunc(f.Fixtures, func(x plan.Fixture) bool { return x.Use == use })
	})
}

func bare(width, depth float64) *housetest.Draft {
	return oneLevel().Room("room", plan.Office, "main", 0, 0, width, depth)
}

const in = 0.0254

// The least bare room for each thing, as wide and deep as its clear space says.
//
//	+---+
//	|   |  the thing, its back to a wall
//	+---+
//	|   |  its clear space
//	+---+
func TestAThingFitsARoomOfItsOwnSizeAndNoneSmaller(t *testing.T) {
	tests := []struct {
		thing, use  string
		wide, deep  float64
		source      string
		onlyUnderBy [2]bool // whether less width, less depth lets nothing else of the kind fit
	}{
		{"wc", "wc", 30 * in, 0.70 + 21*in, "IRC R307.1: 15 in to either side of the centre line, 21 in before it", [2]bool{true, true}},
		{"basin", "basin", 30 * in, 0.48 + 21*in, "NKBA: 15 in from the centre line to a wall; IRC R307.1: 21 in before it", [2]bool{true, true}},
		{"bath or shower", "bath", 60 * in, 30*in + 21*in, "a 60 by 30 in tub (This Old House); IRC R307.1: 21 in before it", [2]bool{}},
		{"bath or shower", "shower", 32 * in, 32*in + 24*in, "32 in square allowable (This Old House on NKBA and UBC); IRC P2705.1.5: 24 in before its entry", [2]bool{true, true}},
		{"washer and dryer", "washer", 30 * in, 34*in + 0.9, "28 by 34 in stacked, 1 in to either side; 0.9 m before them is common practice", [2]bool{true, true}},
		{"furnace", "furnace", 30 * in, 0.75 + 30*in, "IRC M1305.1, from memory: 30 by 30 in at the service side", [2]bool{true, true}},
		{"water_heater", "water_heater", 30 * in, 0.56 + 30*in, "IRC M1305.1, from memory: 30 by 30 in at the service side", [2]bool{true, true}},
		{"electrical panel", "electrical_panel", 30 * in, 0.10 + 36*in, "NEC 110.26, from memory: 30 in wide, 36 in deep", [2]bool{true, true}},
	}
	for _, test := range tests {
		t.Run(test.use, func(t *testing.T) {
			const under = 0.005
			for _, more := range []float64{0, 0.005} {
				assert.True(t, placesOne(places(t, bare(test.wide+more, test.deep+more), "room", test.thing), test.use), test.source)
			}
			assert.False(t, placesOne(places(t, bare(test.wide-under, test.deep), "room", test.thing), test.use), test.source)
			assert.False(t, placesOne(places(t, bare(test.wide, test.deep-under), "room", test.thing), test.use), test.source)
			if test.onlyUnderBy[0] {
				assert.Empty(t, places(t, bare(test.wide-under, test.deep), "room", test.thing), test.source)
			}
			if test.onlyUnderBy[1] {
				assert.Empty(t, places(t, bare(test.wide, test.deep-under), "room", test.thing), test.source)
			}
		})
	}
}

// The least kitchen along one wall: sink, range and refrigerator with 0.6 m of
// worktop between sink and range, and a work aisle of 42 in (NKBA guideline 6)
// before the refrigerator, which stands out 0.66 m. The openings at both ends
// leave no wall to turn a corner along.
//
//	+-----------------+
//	|ref sink ___ rng |
//	|      aisle      |
//	=                 =
//	+-----------------+
func TestTheLeastKitchen(t *testing.T) {
	wide, deep := 24*in+30*in+0.60+30*in, 0.66+42*in
	kitchen := func(wide, deep float64) []plan.Fit {
		d := bare(wide, deep).
			Opening("west", "main", -0.1, 0.02, -0.1, 0.78).Opening("east", "main", wide+0.1, 0.02, wide+0.1, 0.78)
		return places(t, d, "room", "kitchen")
	}
	require.NotEmpty(t, kitchen(wide, deep))
	assert.NotEmpty(t, kitchen(wide+0.005, deep+0.005))
	assert.Empty(t, kitchen(wide-0.005, deep))
	assert.Empty(t, kitchen(wide, deep-0.005))
	var sink, cooker geom.Region
	for _, x := range kitchen(wide, deep)[0].Fixtures {
		switch x.Use {
		case "sink":
			sink = *x.Footprint
		case "range":
			cooker = *x.Footprint
		}
	}
	s, c := sink.Bounds().Centre(), cooker.Bounds().Centre()
	assert.InDelta(t, 0.60, math.Abs(geom.Metres(s.X-c.X))-30*in, 0.002, "between sink and range")
}

// Washer and dryer stand beside each other where 57 in are free (trade), else
// the dryer on the washer.
func TestMachinesStandBesideEachOtherWhereTheyCan(t *testing.T) {
	deep := 30*in + 4*in + 0.9
	wide := places(t, bare(57*in, deep), "room", "washer and dryer")
	require.NotEmpty(t, wide)
	assert.False(t, wide[0].Stacked)
	assert.Len(t, wide[0].Fixtures, 2)
	narrow := places(t, bare(57*in-0.005, deep), "room", "washer and dryer")
	require.NotEmpty(t, narrow)
	for _, f := range narrow {
		assert.True(t, f.Stacked)
	}
}

// A bed needs 0.6 m to get in along one side: 1.4 + 0.6 m for a double one with
// its head to the wall, 0.9 + 0.6 m for a single one (common practice, no source).
func TestABedHasRoomToGetInAlongOneSide(t *testing.T) {
	for _, test := range []struct {
		wide, deep float64
		beds       bool
	}{
		{1.5, 1.9, true}, {1.495, 1.9, false}, {1.5, 1.895, false}, {2.0, 1.9, true},
	} {
		assert.Equal(t, test.beds, len(places(t, bare(test.wide, test.deep), "room", "bed")) > 0, "%v", test)
	}
}

// The door's approach of 0.8 m (common practice, no source) and its swing stay
// clear; a clear space may lie over both.
//
//	+--wc--+
//	|      |
//	|clear |
//	+-door-+
func TestNothingStandsBeforeADoorOrInItsSwing(t *testing.T) {
	door := func(deep float64, opens string) *housetest.Draft {
		d := oneLevel().Room("room", plan.Office, "main", 0, 0, 0.762, deep).Door("door", "main", 0.05, -0.1, 0.712, -0.1)
		h := d.House()
		h.Doors[0].OpensInto = opens
		return d
	}
	assert.NotEmpty(t, places(t, door(1.50, "outside"), "room", "wc"))
	assert.Empty(t, places(t, door(1.495, "outside"), "room", "wc"))
	// A leaf of 0.9 m swings farther into the room than the approach: 0.9 + 0.48 m for a basin.
	swing := func(deep float64, opens string) *housetest.Draft {
		d := oneLevel().Room("room", plan.Office, "main", 0, 0, 0.95, deep).Door("door", "main", 0.025, -0.1, 0.925, -0.1)
		d.House().Doors[0].OpensInto = opens
		return d
	}
	assert.NotEmpty(t, places(t, swing(0.9+0.48, "room"), "room", "basin"))
	assert.Empty(t, places(t, swing(0.8+0.48+0.02, "room"), "room", "basin"))
	assert.NotEmpty(t, places(t, swing(0.8+0.48, "elsewhere"), "room", "basin"))
}

// A worktop of 0.95 m may stand under a window whose sill is not lower; the
// range and the refrigerator never stand before one (common practice, no source).
//
//	   ==window==
//	+--------------+
//	|ref sink  rng |
//	+--------------+
func TestAWorktopStandsUnderAWindowThatIsHighEnough(t *testing.T) {
	kitchen := func(sill, from, to float64) *housetest.Draft {
		return bare(2.74, 1.73).
			Window("win", "main", sill, 1.0, from, 1.83, to, 1.83).
			Window("other", "main", 0.5, 1.0, 0.2, -0.1, 2.5, -0.1)
	}
	assert.NotEmpty(t, places(t, kitchen(0.95, 0.7, 1.9), "room", "kitchen"))
	assert.Empty(t, places(t, kitchen(0.94, 0.7, 1.9), "room", "kitchen"))
	assert.Empty(t, places(t, kitchen(0.95, 0.1, 2.6), "room", "kitchen"), "before the range and the refrigerator")
}

// A bath stands under a window only where its sill clears the 1.2 m to which
// its wall is lined (common practice, no source).
func TestABathStandsUnderAHighWindowOnly(t *testing.T) {
	bath := func(sill float64) *housetest.Draft {
		return bare(60*in, 51*in).
			Window("north", "main", sill, 0.6, 0.3, 51*in+0.1, 1.2, 51*in+0.1).
			Window("south", "main", sill, 0.6, 0.3, -0.1, 1.2, -0.1)
	}
	assert.True(t, placesOne(places(t, bath(1.20), "room", "bath or shower"), "bath"))
	assert.False(t, placesOne(places(t, bath(1.19), "room", "bath or shower"), "bath"))
}

// A branch of 0.10 m for a wc falls 1:50 within a joist of 0.235 m over 6.75 m,
// one of 0.05 m for a basin over 9.25 m (common practice, no source).
func TestADrainReachesItsStackWithinTheDepthOfTheFloor(t *testing.T) {
	stack := func(deep, away float64) *housetest.Draft {
		return bare(0.762, deep).Fixture("stack", "drain_stack", "main", 0.381, -away)
	}
	near := places(t, stack(0.70+21*in, 6.75-0.35), "room", "wc")
	require.NotEmpty(t, near)
	assert.InDelta(t, 6.75, near[0].DrainM, 0.01)
	assert.Equal(t, "stack", near[0].Stack)
	assert.Empty(t, places(t, stack(0.70+21*in, 6.75-0.35+0.005), "room", "wc"))
	assert.NotEmpty(t, places(t, stack(0.48+21*in, 9.25-0.24), "room", "basin"))
	assert.Empty(t, places(t, stack(0.48+21*in, 9.25-0.24+0.005), "room", "basin"))
}

// Where nothing drains as low as the room, the drain of the house is not known
// to pass below it.
func TestARoomBelowEverythingThatDrainsHasNoDrain(t *testing.T) {
	house := func(stackOn string) *housetest.Draft {
		return housetest.New("test").Level("cellar", -2.4, 2.1).Level("main", 0, 2.44).Level("upper", 2.7, 2.44).
			Room("below", plan.Unfinished, "cellar", 0, 0, 2, 2).
			Room("room", plan.Office, "main", 0, 0, 2, 2).
			Room("above", plan.Office, "upper", 0, 0, 2, 2).
			Fixture("stack", "drain_stack", stackOn, 1, 1)
	}
	for _, test := range []struct {
		stackOn             string
		below, room, upside bool
	}{
		{"cellar", true, true, true}, {"main", false, true, true}, {"upper", false, false, true},
	} {
		got := [3]bool{}
		for i, c := range []string{"below", "room", "above"} {
			got[i] = len(places(t, house(test.stackOn), c, "basin")) > 0
		}
		assert.Equal(t, [3]bool{test.below, test.room, test.upside}, got, test.stackOn)
	}
}

// Washer and dryer in a closet are used from before its door, which is as wide
// as they are; the floor before it is in the hall.
//
//	+---+
//	|W/D|  closet
//	+-d-+---------+
//	|    hall     |
//	+-------------+
func TestMachinesInAClosetAreUsedFromBeforeItsDoor(t *testing.T) {
	closet := func(deep, door, hall float64) *housetest.Draft {
		from := (0.95 - door) / 2
		return oneLevel().
			Room("closet", plan.Closet, "main", 0, 0, 0.95, deep).
			Room("hall", plan.Hall, "main", 0, -0.12-hall, 4, -0.12).
			Door("door", "main", from, -0.06, from+door, -0.06)
	}
	fit := places(t, closet(0.90, 0.80, 1.1), "closet", "washer and dryer")
	require.NotEmpty(t, fit)
	assert.True(t, fit[0].Stacked)
	assert.NotEmpty(t, places(t, closet(34*in, 28*in, 0.78), "closet", "washer and dryer"), "0.9 m from the machine: 0.12 m of wall, 0.78 m of hall")
	assert.Empty(t, places(t, closet(34*in, 28*in, 0.775), "closet", "washer and dryer"), "the hall is too narrow")
	assert.Empty(t, places(t, closet(34*in, 28*in-0.005, 1.1), "closet", "washer and dryer"), "the door is too narrow")
	assert.Empty(t, places(t, closet(34*in-0.005, 28*in, 1.1), "closet", "washer and dryer"), "the closet is too shallow")
}

// Panels need 6 ft 6 in of height before them (NEC 110.26, from memory).
func TestAPanelNeedsTheHeightOfItsWorkingSpace(t *testing.T) {
	for height, fits := range map[float64]bool{78 * in: true, 78*in - 0.005: false} {
		d := housetest.New("test").Level("main", 0, height).Room("room", plan.Storage, "main", 0, 0, 2, 2)
		assert.Equal(t, fits, len(places(t, d, "room", "electrical panel")) > 0, "%v", height)
	}
}

// Nothing stands at the foot of a flight (36 in, IRC R311.7.6, from memory) or
// against its open side.
//
//	+----------------+
//	|      room      |
//	|    landing <===|== flight
//	+----------------+
func TestNothingStandsBeforeAFlight(t *testing.T) {
	d := housetest.New("test").Level("main", 0, 2.44).Level("upper", 2.7, 2.44).
		Room("room", plan.Hall, "main", 0, 0, 2.0, 1.0).
		Flight("flight", "main", "upper", "e", 2.0, 0, 5.0, 1.0).
		Room("landing", plan.Hall, "upper", 5.0, 0, 7.0, 1.0)
	b := build(t, d.House())
	landing := geom.Wound(geom.Region{Outer: geom.Ring{
		geom.FromMetres(2.0-36*in, 0), geom.FromMetres(2.0, 0), geom.FromMetres(2.0, 1.0), geom.FromMetres(2.0-36*in, 1.0),
	}})
	fits := plan.PlacesOf(b, cellIndex(t, b, "room"), "basin")
	require.NotEmpty(t, fits)
	for _, f := range fits {
		for _, x := range f.Fixtures {
			over, err := geom.Intersection(geom.Shape{*x.Footprint}, geom.Shape{landing})
			require.NoError(t, err)
			assert.Less(t, over.AreaM2(), 0.001)
		}
	}
}
