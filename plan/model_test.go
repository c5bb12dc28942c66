package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// withFixture gives a house with a fixture more.
func withFixture(h *plan.House, id, use string, x, y float64) *plan.House {
	c := *h
	f := housetest.New("").Level("main", 0, 2.44).Fixture(id, use, "main", x, y).House().Fixtures[0]
	f.Level = slices.IndexFunc(c.Levels, func(l plan.Level) bool { return l.ID == "main" })
	c.Fixtures = append(slices.Clone(h.Fixtures), f)
	return &c
}

// What each flat of the pair is asked to have, one thing at a time: the house
// has it once, twice, or not at all.
func TestWhatEachUnitMustHave(t *testing.T) {
	// A store of 2 x 1.5 m beside each living room's outer wall, with a door.
	store := func(h *plan.House, unit string, use plan.Use) *plan.House {
		x := -2.2
		if unit == "b" {
			x = 10.4
		}
		h = withRoom(h, unit+"-store", use, x, 2, x+2, 3.5)
		if unit == "b" {
			x -= 2.1
		}
		return withDoor(h, unit+"-store-door", x+2.1, 2.3, x+2.1, 3.1)
	}
	both := func(h *plan.House, use plan.Use) *plan.House { return store(store(h, "a", use), "b", use) }
	share := func(words ...string) func(b *plan.Brief) { return func(b *plan.Brief) { b.Share = words } }
	tests := map[string]struct {
		house  *plan.House
		brief  func(b *plan.Brief)
		works  []string // besides those on the party wall
		more   float64  // than the party wall costs
		shared []string // not accepted
		listed []string // accepted
		warned string
	}{
		"no source of heat anywhere: not surveyed": {
			house: pair().House(), warned: "source of heat: not surveyed anywhere in the house, so neither unit is asked to have it",
		},
		"one furnace, and a place for another": {
			// 8500 for a furnace in b's mechanical room.
			house: withFixture(both(pair().House(), plan.Mechanical), "furnace", "furnace", -1.5, 2.5),
			works: []string{"new_furnace b-store"}, more: 8500,
		},
		"one furnace, and no place for another": {
			house:  withFixture(store(pair().House(), "a", plan.Mechanical), "furnace", "furnace", -1.5, 2.5),
			shared: []string{"source of heat of unit B"},
		},
		"one furnace that the brief accepts for both, by its use": {
			house: withFixture(store(pair().House(), "a", plan.Mechanical), "f1", "furnace", -1.5, 2.5),
			brief: share("furnace"), listed: []string{"f1"},
		},
		"one furnace that the brief accepts for both, by its id": {
			house: withFixture(store(pair().House(), "a", plan.Mechanical), "f1", "furnace", -1.5, 2.5),
			brief: share("f1"), listed: []string{"f1"},
		},
		"a boiler each": {
			house: withFixture(withFixture(both(pair().House(), plan.Mechanical), "f1", "boiler", -1.5, 2.5), "f2", "furnace", 11, 2.5),
		},
		"one water heater": {
			house: withFixture(both(pair().House(), plan.Mechanical), "tank", "water_heater", -1.5, 2.5),
			works: []string{"new_water_heater b-store"}, more: 2400,
		},
		"one electrical panel, in the hall of a; b takes one in its laundry": {
			house: withFixture(both(pair().House(), plan.Laundry), "panel", "electrical_panel", -1.5, 2.5),
			works: []string{"new_panel b-store"}, more: 3800,
		},
		"a panel goes in no clothes closet": {
			house:  withFixture(both(pair().House(), plan.Closet), "panel", "electrical_panel", -1.5, 2.5),
			shared: []string{"electrical panel of unit B"},
		},
		"storage in one flat only: the other goes without, at 2500": {
			house: store(pair().House(), "a", plan.Storage), more: 2500,
		},
		"storage nowhere: not surveyed": {
			house: pair().House(), warned: "storage: not surveyed anywhere in the house, so neither unit is asked to have it",
		},
		"a storage room each": {house: both(pair().House(), plan.Storage)},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			brief := kept()
			if tt.brief != nil {
				tt.brief(brief)
			}
			a := split(t, build(t, tt.house), brief)
			require.NotEmpty(t, a.Schemes)
			s := a.Schemes[0]
			var added, shared, listed []string
			for _, w := range works(s) {
				if !strings.HasPrefix(w, "upgrade_wall") {
					added = append(added, w)
				}
			}
			for _, e := range s.Shared {
				if e.Accepted {
					listed = append(listed, e.ID)
				} else {
					shared = append(shared, e.ID)
				}
			}
			assert.Equal(t, tt.works, added)
			assert.Equal(t, tt.shared, shared)
			assert.Equal(t, tt.listed, listed)
			if tt.warned != "" {
				assert.Contains(t, messages(a.Warnings), tt.warned)
			}
			assert.InDelta(t, partyWalls+tt.more, s.Cost.Total, 0.005)
		})
	}
}

func messages(w []plan.Warning) []string {
	var out []string
	for _, w := range w {
		out = append(out, w.Message)
	}
	return out
}

// Laundry is asked of each unit even where the survey shows no washer, and is
// shared rather than missing where no room of a unit could take it.
func TestAUnitWithoutAPlaceForAWasher(t *testing.T) {
	// A bath of 2.2 x 3 m takes a washer, at 3200, beside its wc, basin and tub.
	s := best(t, without(pair().House(), "b-washer"), kept())
	assert.Contains(t, works(s), "new_laundry b-bath")
	assert.InDelta(t, partyWalls+3200, s.Cost.Total, 0.005)

	// Rooms that no work may touch take none.
	brief := kept()
	brief.Leave = []string{"b-bath", "b-living", "b-bed"}
	s = best(t, without(pair().House(), "b-washer"), brief)
	assert.Equal(t, 1, unaccepted(s))
	require.Len(t, s.Shared, 1)
	assert.Equal(t, "laundry of unit B", s.Shared[0].ID)
	assert.Equal(t, "laundry", s.Shared[0].Use)
	assert.Contains(t, s.Units[1].Notes, "laundry: none of its own")
}

// assertReason checks that one of the reasons of an answer begins so.
func assertReason(t *testing.T, a *plan.Answer, begins string) {
	t.Helper()
	assert.True(t, slices.ContainsFunc(a.WhyNot, func(s string) bool { return strings.HasPrefix(s, begins) }), "%q: %v", begins, a.WhyNot)
}

// Rooms are exchanged so that each unit has what it must.
func TestAUnitGetsTheBedroomsItAsksFor(t *testing.T) {
	// An office beside flat b's bath, over against flat a's nothing.
	house := func(windows bool) *plan.House {
		h := withDoor(withRoom(pair().House(), "office", plan.Office, 10.4, 0, 13.4, 4), "office-door", 10.3, 1, 10.3, 1.8)
		if windows {
			w := housetest.New("").Level("main", 0, 2.44).Window("w", "main", 0.9, 1.2, 11, -0.1, 12.2, -0.1).House().Windows[0]
			h.Windows = append(slices.Clone(h.Windows), w)
		}
		return h
	}
	brief := kept()
	brief.Units[1].Bedrooms.Min = 2
	s := best(t, house(true), brief)
	assert.Equal(t, 2, s.Units[1].Bedrooms)
	office := slices.IndexFunc(s.Building.Cells, func(c plan.Cell) bool { return c.ID == "office" })
	assert.Equal(t, plan.Bedroom, s.Uses[office])
	assert.InDelta(t, partyWalls, s.Cost.Total, 0.005, "a change of use alone costs nothing")

	a := split(t, build(t, house(false)), brief)
	assert.Empty(t, a.Schemes, "a room without a window makes no bedroom")
	assertReason(t, a, "unit B asks for 2 bedrooms: the house has 2 (a-bed, b-bed), and no other room could be made one")
}

func TestABathroomIsCompletedOrMade(t *testing.T) {
	// Flat b's bath has a wc and a basin drawn, no tub: 8000 for the rest.
	h := withFixture(withFixture(pair().House(), "wc", "wc", 9, 6.7), "basin", "basin", 8.5, 6.8)
	s := best(t, h, kept())
	work := workOf(t, s, "new_bathroom")
	assert.Equal(t, []string{"b-bath"}, work.Spaces)
	assert.True(t, strings.HasPrefix(work.Note, "completes what is there"), work.Note)
	assert.InDelta(t, 8000, work.Cost, 1e-9)
	assert.InDelta(t, 1, s.Units[1].Bathrooms, 0, "complete when the work is done")

	// A powder room is completed at the same price.
	s = best(t, withUse(pair().House(), "b-bath", plan.PowderRoom), kept())
	assert.InDelta(t, 8000, workOf(t, s, "new_bathroom").Cost, 1e-9)

	// An office is made one at 14000.
	s = best(t, withUse(pair().House(), "b-bath", plan.Office), kept())
	assert.InDelta(t, 14000, workOf(t, s, "new_bathroom").Cost, 1e-9)
}

// An unfinished room is finished for what it becomes: 12 m2 for a bedroom,
// or all it has, at 480 a square metre.
func TestAnUnfinishedRoomIsFinished(t *testing.T) {
	h := withUse(pair().House(), "b-bed", plan.Unfinished)
	s := best(t, h, kept())
	work := workOf(t, s, "finish_space")
	assert.InDelta(t, 2.7*3, work.AreaM2, 0.005)
	assert.InDelta(t, 8.10*480, work.Cost, 0.005)
}

func TestWhatMustNotBeTouchedStays(t *testing.T) {
	joined := func() *housetest.Draft { return pair().Door("joined", "main", 5.1, 1, 5.1, 1.8) }
	brief := kept()
	brief.Leave = []string{"joined"}
	a := split(t, build(t, joined().House()), brief)
	assert.Empty(t, a.Schemes, "a door that stays joins the units")
	assertReason(t, a, "no work may touch joined")

	brief = kept()
	brief.Leave = []string{"party"}
	a = split(t, build(t, pair().Bearing("party", "main", 5.1, 0, 5.1, 4).House()), brief)
	assert.Empty(t, a.Schemes, "a wall that stays as it is separates nothing")
	assertReason(t, a, "no work may touch party")

	brief = kept()
	brief.Leave = []string{"a-front", "a-window"}
	s := best(t, pair().House(), brief)
	assert.InDelta(t, partyWalls, s.Cost.Total, 0.005, "what needs no work may stay")
}

func TestLeastAreaAndWantedShare(t *testing.T) {
	// Each flat has 20 + 6.6 + 8.1 = 34.7 m2.
	brief := kept()
	brief.Units[0].AreaMin = 34.7
	assert.InDelta(t, partyWalls, best(t, pair().House(), brief).Cost.Total, 0.005)
	brief.Units[0].AreaMin = 34.8
	a := split(t, build(t, pair().House()), brief)
	assert.Empty(t, a.Schemes)
	assertReason(t, a, "unit A asks for at least 34.8 m2")

	// Of 69.4 m2 a should have 60 %, 41.64 m2: it is 6.94 m2 short, at 150.
	brief = kept()
	brief.Units[0].AreaShare = 0.6
	s := best(t, pair().House(), brief)
	assert.InDelta(t, 6.94*150, s.Cost.Priorities, 0.02)
	// The same said of the other unit.
	brief = kept()
	brief.Units[1].AreaShare = 0.4
	assert.InDelta(t, 6.94*150, best(t, pair().House(), brief).Cost.Priorities, 0.02)
	brief.Priorities.Balance = 2
	assert.InDelta(t, 2*6.94*150, best(t, pair().House(), brief).Cost.Priorities, 0.02)
}

// Ground: a's yard has 48.6 m2 (8.1 x 6), b's 47.4 m2 (7.9 x 6); the drive on
// the right parks one car.
func TestOutdoorAreaAndParking(t *testing.T) {
	drive := func(d *housetest.Draft) { d.Room("drive", plan.Drive, "site", 13, -6.2, 16, -0.2) }
	ground := func(more ...func(d *housetest.Draft)) *plan.House {
		return pairWithGround(eachOf(append(more, frontYards, street)...))
	}
	brief := kept()
	brief.Units[0].OutdoorMin = 45
	s := best(t, ground(), brief)
	assert.InDelta(t, 48.6, s.Units[0].OutdoorM2, 0.005)

	// More than its own yard has: a takes the piece at its side as well.
	side := func(d *housetest.Draft) { d.Room("side", plan.Patio, "site", -3, -0.2, -0.2, 7.3) }
	brief.Units[0].OutdoorMin = 60
	brief.Units[1].OutdoorMin = 40
	s = best(t, ground(side), brief)
	assert.InDelta(t, 48.6+2.8*7.5, s.Units[0].OutdoorM2, 0.005)
	a := split(t, build(t, ground()), brief)
	assert.Empty(t, a.Schemes)
	assert.True(t, slices.ContainsFunc(a.WhyNot, func(w string) bool {
		return strings.HasPrefix(w, "unit A asks for at least 60.0 m2 of yard, patio, deck, balcony or porch")
	}), "%v", a.WhyNot)

	// The drive is accepted as shared: asked for by one unit it serves that one.
	brief = kept()
	brief.Units[0].Parking.Min = 1
	s = best(t, ground(drive), brief)
	assert.Contains(t, []string{"A", "common"}, owners(s)["drive"])
	brief.Units[1].Parking.Min = 1
	s = best(t, ground(drive), brief)
	assert.Equal(t, "common", owners(s)["drive"])
	brief.Units[1].Parking.Min = 2
	assert.Empty(t, split(t, build(t, ground(drive)), brief).Schemes)

	// Nothing outdoors was surveyed: nothing is asked of it, and that is said.
	a = split(t, build(t, pair().House()), brief)
	require.NotEmpty(t, a.Schemes)
	assert.Contains(t, messages(a.Warnings), "unit B asks for yard or parking: not surveyed")
}

// A double garage parks two cars: it serves a unit that asks for two.
func TestTwoCarsInADoubleGarage(t *testing.T) {
	h := withRoom(pairWithGround(eachOf(frontYards, street)), "garage", plan.Garage, -6.2, 0, -0.2, 6)
	h = withDoor(h, "garage-door", -0.1, 1, -0.1, 1.8)
	brief := kept()
	brief.Units[0].Parking.Min = 2
	s := best(t, h, brief)
	assert.Equal(t, "A", owners(s)["garage"])
	assert.Equal(t, 2, s.Units[0].Parking)
	brief.Units[0].Parking.Min = 3
	assert.Empty(t, split(t, build(t, h), brief).Schemes)
}

func TestWhatARoomServesAsSurveyed(t *testing.T) {
	tests := map[string]struct {
		use      plan.Use
		also     []plan.Use
		fixtures []string
		size     float64 // of a square room
		want     string
		stalls   int
	}{
		"a living room":                        {use: plan.Living, want: "living space"},
		"a family room with a kitchen":         {use: plan.Family, also: []plan.Use{plan.Kitchen}, want: "kitchen, living space"},
		"a bathroom of which nothing is drawn": {use: plan.Bathroom, want: "bathroom"},
		"a bathroom with all three":            {use: plan.Bathroom, fixtures: []string{"wc", "basin", "shower"}, want: "bathroom"},
		"a bathroom without a tub":             {use: plan.Bathroom, fixtures: []string{"wc", "basin"}},
		"a bathroom with a washer":             {use: plan.Bathroom, fixtures: []string{"washer"}, want: "bathroom, laundry"},
		"a powder room":                        {use: plan.PowderRoom},
		"a closet":                             {use: plan.Closet, want: "storage"},
		"a closet with a washer":               {use: plan.Closet, fixtures: []string{"washer"}, want: "laundry, storage"},
		"a dryer makes no laundry":             {use: plan.Closet, fixtures: []string{"dryer"}, want: "storage"},
		"a mechanical room with all of it":     {use: plan.Mechanical, fixtures: []string{"boiler", "water_heater", "electrical_panel"}, want: "source of heat, hot water, electrical panel"},
		"an empty mechanical room":             {use: plan.Mechanical},
		"an unfinished basement":               {use: plan.Unfinished, want: "storage"},
		"a hall":                               {use: plan.Hall},
		// A stall takes 2.6 x 5.2 = 13.52 m2.
		"a single garage of 5.3 m square, 28 m2": {use: plan.Garage, size: 5.3, want: "storage, parking", stalls: 2},
		"a garage of 3.6 m square, 13 m2":        {use: plan.Garage, size: 3.6, want: "storage"},
		"a parking space of 3.7 m square":        {use: plan.Parking, size: 3.7, want: "parking", stalls: 1},
		"a porch":                                {use: plan.Porch, want: "outdoor area"},
		"a walk":                                 {use: plan.Walk},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			size := tt.size
			if size == 0 {
				size = 3
			}
			d := oneLevel().Room("x", tt.use, "main", 0, 0, size, size).Also(tt.also...)
			for i, use := range tt.fixtures {
				d.Fixture(use, use, "main", 0.5+0.6*float64(i), 0.5)
			}
			b := build(t, d.Room("hall", plan.Hall, "main", 0, -2.1, 3, -0.1).House())
			c := slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == "x" })
			var got []string
			for _, f := range plan.EveryFunction() {
				if b.Has(c, f) {
					got = append(got, f.String())
				}
			}
			assert.Equal(t, tt.want, strings.Join(got, ", "))
			assert.Equal(t, tt.stalls, b.Stalls(c))
		})
	}
}
