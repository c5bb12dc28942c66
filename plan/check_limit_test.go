package plan_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// atLimit is a figure against a house drawn by the value that it limits.
type atLimit struct {
	set, rule, subject string
	limit              float64 // as published: the clause beside it
	most               bool    // no more than the limit, not no less
	draw               func(value float64) *plan.House
	con                plan.Conditions
	beyond             plan.Result // what a value beyond the limit is; "" not ok
}

// At each limit, a millimetre or a hundredth under it and as much over it.
func TestFiguresAtJustUnderAndJustOverTheirLimits(t *testing.T) {
	window := func(change func(w *plan.Window, v float64)) func(v float64) *plan.House {
		return func(v float64) *plan.House { return pairWith(func(w *plan.Window) { change(w, v) }) }
	}
	deck := func(v float64) *plan.House {
		d := pairOn(oneLevel()).Site("site", -v).Room("a-deck", plan.Deck, "site", 0, -3.2, 5, -0.2).At(0, 0)
		return d.House()
	}
	store := func(v float64) *plan.House {
		return pairOn(oneLevel()).Room("a-store", plan.Unfinished, "main", 0, 8, 3, 11).At(0, v).House()
	}
	washing := func(v float64) *plan.House {
		d := pairOn(oneLevel()).Window("a-bath-window", "main", 1.2, 0.6, -0.1, 5, -0.1, 6)
		h := d.House()
		for i := range h.Windows {
			if h.Windows[i].ID == "a-bath-window" {
				h.Windows[i].Clear, h.Windows[i].ClearSaid = [2]float64{0.3, v / 0.3}, true
			}
		}
		return h
	}
	stair := func(v float64) *plan.House { return commonFlight(v) }
	hall := func(v float64) *plan.House {
		h := pairWithHallBetween(nil)
		for i := range h.Spaces {
			if h.Spaces[i].ID == "c-hall" {
				h.Spaces[i].Region.Outer = geom.Ring{geom.FromMetres(0, -0.2-v), geom.FromMetres(10.2, -0.2-v), geom.FromMetres(10.2, -0.2), geom.FromMetres(0, -0.2)}
			}
		}
		for i := range h.Doors {
			if h.Doors[i].ID == "front" {
				h.Doors[i].Line = geom.Segment{A: geom.FromMetres(5, -0.3-v), B: geom.FromMetres(5.9, -0.3-v)}
			}
		}
		return h
	}
	second := func(v float64) *plan.House { // two bedrooms for two, the second v wide
		return housetest.New("beds").Level("main", 0, 2.4).Room("a-bed-1", plan.Bedroom, "main", 0, 0, 4, 4).
			Room("a-bed-2", plan.Bedroom, "main", 4.1, 0, 4.1+v, 5).Room("b-living", plan.Living, "main", 0, 5.2, 5, 9).House()
	}
	suite := plan.Conditions{Suite: plan.Secondary}
	for _, test := range []atLimit{
		// NBC Table 9.5.3.1.: 2.0 m in an unfinished basement.
		{set: "ca-nbc-2020", rule: "ceiling-unfinished", subject: "a-store", limit: 2.0, draw: store},
		// NBC 9.5.5.1.(2): doors of 1890 mm in a suite.
		{set: "ca-nbc-2020", rule: "door-height-suite", subject: "a-bed-door", limit: 1.890, con: suite,
			draw: func(v float64) *plan.House { return pairWithDoor("a-bed-door", 0.8, v) }},
		// NBC 9.9.9.3.(2): an outside passage 1.5 m above the ground.
		{set: "ca-nbc-2020", rule: "exit-passage-height", subject: "a-front", limit: 1.5, most: true, draw: deck},
		// NBC Table 9.32.2.2.: 0.09 m2 of a bathroom's window.
		{set: "ca-nbc-2020", rule: "vent-area-bathroom", subject: "a-bath", limit: 0.09, draw: washing, beyond: plan.NotSurveyed},
		// NBC 9.8.2.1.(1): 900 mm of a common flight; 9.9.3.3.: 1100 mm of a common corridor.
		{set: "ca-nbc-2020", rule: "stair-width-common", subject: "c-stair", limit: 0.900, draw: stair},
		{set: "ca-nbc-2020", rule: "corridor-width", subject: "c-hall", limit: 1.100, draw: hall},
		// In a house with a secondary suite the private widths hold: 860 mm (9.8.2.1.(2), 9.5.4.1.).
		{set: "ca-nbc-2020", rule: "stair-width", subject: "c-stair", limit: 0.860, draw: stair, con: suite},
		{set: "ca-nbc-2020", rule: "hall-width", subject: "c-hall", limit: 0.860, draw: hall, con: suite},
		// AD F1 Table 1.4: 5 % of the floor of 8.1 m2 opens; 10 % where it opens 15 to 30 degrees.
		{set: "uk-england", rule: "vent-share", subject: "a-bed", limit: 0.05,
			draw: window(func(w *plan.Window, v float64) { w.Clear, w.ClearSaid = [2]float64{0.9, 8.1 * v / 0.9}, true })},
		{set: "uk-england", rule: "vent-share-narrow", subject: "a-bed", limit: 0.10,
			draw: window(func(w *plan.Window, v float64) {
				w.Operation, w.Clear, w.ClearSaid = "awning", [2]float64{0.9, 8.1 * v / 0.9}, true
			})},
		// AD B1 3.14: windows of a storey up to 4.5 m above the ground.
		{set: "uk-england", rule: "escape-storey-height", subject: "a-window", limit: 4.5, most: true,
			draw: func(v float64) *plan.House { h := pair().House(); h.Grade, h.GradeSaid = -v, true; return h }},
		// NDSS 10(e): 2.55 m of a further bedroom for two.
		{set: "uk-england", rule: "bedroom-double-other-width", subject: "a-bed-2", limit: 2.55, draw: second, beyond: "none"},
	} {
		for _, off := range []float64{-1, 0, 1} {
			step := 0.001
			if test.limit < 0.2 {
				step = 0.0001
			}
			value := test.limit + off*step
			holds := off == 0 || off > 0 != test.most
			t.Run(fmt.Sprintf("%s %s %g", test.set, test.rule, value), func(t *testing.T) {
				findings := plan.Check(ownedScheme(t, test.draw(value)), ruleSet(t, test.set), test.con)
				got := found(findings, test.rule, test.subject)
				if test.beyond == "none" && !holds {
					assert.Empty(t, got)
					return
				}
				require.Len(t, got, 1)
				want := plan.OK
				if !holds {
					if want = plan.NotOK; test.beyond != "" {
						want = test.beyond
					}
				}
				assert.Equal(t, want, got[0].Result, got[0].Provided)
				if got[0].Measured {
					assert.InDelta(t, value, got[0].Value, 0.00004)
				}
			})
		}
	}
}

// commonFlight is the common stair, its flight wide metres wide.
func commonFlight(wide float64) *plan.House {
	d := housetest.New("stair").Level("main", 0, 2.4).Level("upper", 2.6, 2.4)
	d.Room("c-hall", plan.Hall, "main", 0, 0, 2.1, 1.5).Flight("c-stair", "main", "upper", "n", 0.6, 1.5, 0.6+wide, 4.74)
	d.Room("a-living", plan.Living, "main", 2.2, 0, 6, 7).Room("c-landing", plan.Hall, "upper", 0, 4.74, 2.1, 7)
	d.Room("b-living", plan.Living, "upper", 2.2, 0, 6, 7).Door("front", "main", 0.3, -0.1, 1.2, -0.1)
	return d.House()
}

// The areas of units of the space standard (NDSS Table 1, March 2015; those
// from memory say so in the set): one storey or two, bedrooms for one and two.
func TestAreasOfUnitsAgainstTheSpaceStandard(t *testing.T) {
	for _, test := range []struct {
		storeys, singles, doubles int
		rule                      string
		limit                     float64
	}{
		{1, 1, 0, "dwelling-area-1b1p", 39}, {1, 0, 1, "dwelling-area-1b2p", 50}, {2, 0, 1, "dwelling-area-1b2p-two-storeys", 58},
		{1, 1, 1, "dwelling-area-2b3p", 61}, {2, 1, 1, "dwelling-area-2b3p-two-storeys", 70},
		{1, 0, 2, "dwelling-area-2b4p", 70}, {2, 0, 2, "dwelling-area-2b4p-two-storeys", 79},
		{1, 2, 1, "dwelling-area-3b4p", 74}, {2, 2, 1, "dwelling-area-3b4p-two-storeys", 84},
		{1, 1, 2, "dwelling-area-3b5p", 86}, {2, 1, 2, "dwelling-area-3b5p-two-storeys", 93},
		{1, 0, 3, "dwelling-area-3b6p", 95}, {2, 0, 3, "dwelling-area-3b6p-two-storeys", 102},
	} {
		s := ownedScheme(t, bedroomsOn(test.storeys, test.singles, test.doubles))
		for _, off := range []float64{-0.01, 0, 0.01} {
			s.Units[0].NetM2, s.Units[0].GrossM2 = test.limit+off, test.limit+off
			f := only(t, plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{}), test.rule, "A")
			assert.Equal(t, off >= 0, f.Result == plan.OK, "%s: %s", test.rule, f.Provided)
		}
	}
	// With a shower instead of a bath 37 m2.
	h := bedroomsOn(1, 1, 0)
	h.Fixtures = append(h.Fixtures, housetest.New("").Level("main", 0, 2.4).Fixture("shower", "shower", "main", 1, 5).House().Fixtures...)
	s := ownedScheme(t, h)
	for area, want := range map[float64]plan.Result{37: plan.OK, 36.99: plan.NotOK, 37.01: plan.OK} {
		s.Units[0].NetM2, s.Units[0].GrossM2 = area, area
		assert.Equal(t, want, only(t, plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{}), "dwelling-area-1b1p-shower", "A").Result, "%g m2", area)
	}
}

// A bylaw's lesser of 90 m2 and 40 % (Kamloops, BC), at, just under and just over.
func TestTheSecondarySuitesSizeAtItsLimits(t *testing.T) {
	set := readRules(t, "base: ca-nbc-2020\nfigures: {second-unit-area: 90 m2, second-unit-share: 40 %, stalls-per-unit: 1}\n")
	s := ownedScheme(t, pair().House())
	for _, test := range []struct {
		suite, house float64
		rule         string
		want         plan.Result
	}{
		{90, 200, "second-unit-area", plan.OK}, {90.01, 200, "second-unit-area", plan.NotOK}, {89.99, 200, "second-unit-area", plan.OK},
		{40, 60, "second-unit-share", plan.OK}, {40.01, 60, "second-unit-share", plan.NotOK}, {39.99, 60, "second-unit-share", plan.OK},
	} {
		s.Units[0].GrossM2, s.Units[1].GrossM2 = test.house, test.suite
		assert.Equal(t, test.want, only(t, plan.Check(s, set, plan.Conditions{Suite: plan.Secondary}), test.rule, "B").Result, "%g beside %g m2", test.suite, test.house)
	}
}

// IRC R310.1 exception 1: a basement for plant alone of at most 200 ft2 needs no
// opening to escape by.
func TestABasementForPlantAlone(t *testing.T) {
	for area, asked := range map[float64]bool{200: false, 199.9: false, 200.1: true} {
		d := pairOn(housetest.New("plant").Level("main", 0, 2.4).Level("basement", -2.5, 2.2))
		h := d.Room("a-plant", plan.Mechanical, "basement", 0, 0, 10*foot, area/10*foot).House()
		h.Grade, h.GradeSaid = -0.2, true
		findings := plan.Check(ownedScheme(t, h), ruleSet(t, "us-irc-2021"), plan.Conditions{})
		assert.Equal(t, asked, len(found(findings, "escape-basements", "basement")) == 1, "%g ft2", area)
	}
}

// Walks to alarms: 5 m from a bedroom's door to one for carbon monoxide (NBC
// 9.32.3.9.), 7.5 m from a room's door to one for smoke (BS 5839-6, from memory);
// a smoke alarm 3 ft from a bathroom's door (IRC R314.3(4)).
func TestAlarmsAtTheirDistances(t *testing.T) {
	for _, test := range []struct {
		set, rule, subject string
		limit              float64
		most               bool
		kind               plan.AlarmKind
		from               [2]float64 // the door's middle, in the hall's wall
	}{
		{"ca-nbc-2020", "co-distance", "a-bed-1", 5, true, plan.COAlarm, [2]float64{0.8, 1.25}},
		{"uk-england", "smoke-distance", "a-bed-1", 7.5, true, plan.SmokeAlarm, [2]float64{0.8, 1.25}},
		{"us-irc-2021", "smoke-bathroom-distance", "alarm", 3 * foot, false, plan.SmokeAlarm, [2]float64{4.4, 1.25}},
	} {
		for _, off := range []float64{-0.01, 0.01} {
			d := housetest.New("long").Level("main", 0, 2.4)
			d.Room("a-hall", plan.Hall, "main", 0, 0, 16, 1.2).Room("a-bed-1", plan.Bedroom, "main", 0, 1.3, 3, 4.3)
			d.Room("a-bath", plan.Bathroom, "main", 3.1, 1.3, 5.1, 4.3).Room("b-living", plan.Living, "main", 0, 4.5, 8, 8)
			d.Door("d1", "main", 0.4, 1.25, 1.2, 1.25).Door("d2", "main", 3.6, 1.25, 4.4, 1.25).Door("a-front", "main", 8, -0.1, 8.9, -0.1)
			h := d.Fixture("bath", "bath", "main", 4, 4).Fixture("furnace", "furnace", "main", 4.8, 4).House()
			s := ownedScheme(t, h)
			// Along the hall, 0.65 m from the doors' wall, where the walk comes to
			// just that: half a body's width off the jamb makes it a little longer
			// than the straight line.
			distance := test.limit + off
			x := test.from[0] + math.Sqrt(distance*distance-0.65*0.65)
			var f plan.Finding
			for range 5 {
				s.Alarms = []plan.Alarm{{ID: "alarm", Kind: test.kind, Cell: "a-hall", Level: 0, At: geom.FromMetres(x, 0.6), Unit: "A"}}
				f = only(t, plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), test.rule, test.subject)
				assert.InDelta(t, math.Hypot(x-test.from[0], 0.65), f.Value, 0.35, "%s: about the straight line", test.rule)
				x += distance - f.Value
			}
			require.InDelta(t, distance, f.Value, 0.001)
			assert.Equal(t, test.most == (off < 0), f.Result == plan.OK, "%s: %s", test.rule, f.Provided)
		}
	}
}

// AD B1 Table 3.1: 7.5 m from a flat's entrance through common space where it
// leads one way, 30 m where it leads two ways. The hall is walked from A's door
// to the front door, or the nearer of two.
func TestWalksInCommonSpace(t *testing.T) {
	draw := func(length float64, both bool) *plan.House {
		d := housetest.New("corridor").Level("main", 0, 2.4)
		d.Room("c-hall", plan.Hall, "main", 0, 0, length, 1.2)
		d.Room("a-living", plan.Living, "main", 0, 1.4, 5, 6).Room("b-living", plan.Living, "main", 5.2, 1.4, 10, 6)
		d.Door("a-front", "main", 0.1, 1.3, 1, 1.3).Door("b-front", "main", 5.4, 1.3, 6.3, 1.3)
		d.Door("front", "main", length+0.1, 0.15, length+0.1, 1.05)
		if both {
			d.Door("back", "main", length-1, -0.1, length-0.1, -0.1)
		}
		return d.House()
	}
	for _, test := range []struct {
		rule  string
		limit float64
		both  bool
	}{{"travel-common-one-way", 7.5, false}, {"travel-common-two-ways", 30, true}} {
		walk := func(length float64) plan.Finding {
			s := ownedScheme(t, draw(length, test.both))
			return only(t, plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{}), test.rule, "a-front")
		}
		for _, off := range []float64{-0.01, 0.01} {
			length := test.limit
			var f plan.Finding
			for range 6 {
				f = walk(length)
				length = math.Round((length+test.limit+off-f.Value)*1e5) / 1e5
			}
			require.InDelta(t, test.limit+off, f.Value, 0.001)
			assert.InDelta(t, length, f.Value, 1.5, "the hall's length, less what lies beside the doors")
			assert.Equal(t, off < 0, f.Result == plan.OK, "%s: %s", test.rule, f.Provided)
		}
	}
}

// AD B1 3.18(b): 9 m from the entrance to any point of a habitable room of a flat
// with a floor above 4.5 m.
func TestTheWalkInsideAHighFlatAtItsLimit(t *testing.T) {
	walk := func(long float64) plan.Finding {
		d := housetest.New("high").Level("low", 0, 2.4).Level("main", 4.6, 2.4)
		d.Room("a-living", plan.Living, "main", 0, 0, long, 3).Room("c-landing", plan.Hall, "main", -2, 0, -0.2, 3)
		d.Room("b-living", plan.Living, "low", 0, 0, 5, 3).Door("a-front", "main", -0.1, 1, -0.1, 1.9)
		h := d.House()
		h.Grade, h.GradeSaid = 0, true
		return only(t, plan.Check(ownedScheme(t, h), ruleSet(t, "uk-england"), plan.Conditions{}), "travel-distance", "a-living")
	}
	for _, off := range []float64{-0.01, 0.01} {
		long := 9.0
		var f plan.Finding
		for range 6 {
			f = walk(long)
			long = math.Round((long+9+off-f.Value)*1e5) / 1e5
		}
		require.InDelta(t, 9+off, f.Value, 0.001)
		assert.Equal(t, off < 0, f.Result == plan.OK, f.Provided)
	}
}

// NBC Table 9.5.3.1.: of a room that is too low the note says over how much of
// it full height is asked: 10 m2 of a living room with 3.2 of its kitchen, 4.9 m2
// of the first bedroom, 3.5 of others, 2.2 of a bathroom; never more than all of it.
func TestPartsOfRoomsAtFullHeight(t *testing.T) {
	h := lowRooms()
	findings := plan.Check(ownedScheme(t, h), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	for _, test := range []struct{ rule, room, part string }{
		{"ceiling-habitable", "a-living", "13.2 m2"}, {"ceiling-habitable", "a-dining", "5.2 m2"}, {"ceiling-habitable", "a-kitchen", "3.2 m2"},
		{"ceiling-habitable", "a-bed", "4.9 m2"}, {"ceiling-habitable", "a-bed-2", "3.5 m2"}, {"ceiling-bathroom", "a-bath", "2.2 m2"},
	} {
		f := only(t, findings, test.rule, test.room)
		assert.Equal(t, plan.NotOK, f.Result)
		assert.Contains(t, f.Note, "full height is asked over "+test.part+" of it", test.room)
	}
}
