package plan_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairWithDoor is the tall pair with A's front door and bedroom door of some
// width, in metres from their western or southern jambs.
func pairWithDoor(id string, width, height float64) *plan.House {
	h := tallPairWith(nil)
	h.Doors = slices.Clone(h.Doors)
	for i := range h.Doors {
		if d := &h.Doors[i]; d.ID == id {
			x, y := d.Line.A.Metres()
			d.Height = height
			if d.Line.A.Y == d.Line.B.Y {
				d.Line.B = geom.FromMetres(x+width, y)
			} else {
				d.Line.B = geom.FromMetres(x, y+width)
			}
		}
	}
	return h
}

func TestDoorsAgainstTheirLimits(t *testing.T) {
	const inch = 0.0254
	for _, test := range []struct {
		set, rule, door string
		width, height   float64
		want            plan.Result
	}{
		// NBC Table 9.5.5.1.: leaves of 810 mm at the entrance, 760 mm for rooms,
		// 610 mm for bathrooms, all 1980 mm high.
		{"ca-nbc-2020", "door-entrance-width", "a-front", 0.810, 2.03, plan.OK},
		{"ca-nbc-2020", "door-entrance-width", "a-front", 0.809, 2.03, plan.NotOK},
		{"ca-nbc-2020", "door-entrance-height", "a-front", 0.9, 1.980, plan.OK},
		{"ca-nbc-2020", "door-entrance-height", "a-front", 0.9, 1.979, plan.NotOK},
		{"ca-nbc-2020", "door-room-width", "a-bed-door", 0.760, 2.03, plan.OK},
		{"ca-nbc-2020", "door-room-width", "a-bed-door", 0.759, 2.03, plan.NotOK},
		{"ca-nbc-2020", "door-bathroom-width", "a-bath-door", 0.610, 2.03, plan.OK},
		{"ca-nbc-2020", "door-bathroom-width", "a-bath-door", 0.609, 2.03, plan.NotOK},
		{"ca-nbc-2020", "door-height", "a-bed-door", 0.8, 1.979, plan.NotOK},
		{"ca-nbc-2020", "door-height", "a-bed-door", 0.8, 0, plan.NotSurveyed},
		// IRC R311.2: 32 in by 78 in, clear: a frame of 32 in has no clear width
		// of 32 in for certain, one of 32 in and 60 mm has.
		{"us-irc-2021", "door-entrance-width", "a-front", 32*inch + 0.060, 2.03, plan.OK},
		{"us-irc-2021", "door-entrance-width", "a-front", 32 * inch, 2.03, plan.NotSurveyed},
		{"us-irc-2021", "door-entrance-width", "a-front", 32*inch - 0.001, 2.03, plan.NotOK},
		{"us-irc-2021", "door-entrance-height", "a-front", 0.95, 78 * inch, plan.OK},
		{"us-irc-2021", "door-entrance-height", "a-front", 0.95, 78*inch - 0.001, plan.NotOK},
		// AD M1 1.14(a): 775 mm clear at the entrance; Table 1.1: 750 mm for rooms.
		{"uk-england", "door-entrance-width", "a-front", 0.835, 2.03, plan.OK},
		{"uk-england", "door-entrance-width", "a-front", 0.774, 2.03, plan.NotOK},
		{"uk-england", "door-room-width", "a-bed-door", 0.749, 2.03, plan.NotOK},
	} {
		t.Run(fmt.Sprintf("%s %s %.4f %.4f", test.set, test.rule, test.width, test.height), func(t *testing.T) {
			s := ownScheme(t, pairWithDoor(test.door, test.width, test.height))
			assert.Equal(t, test.want, only(t, plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), test.rule, test.door).Result)
		})
	}
}

// pairWithHall is the tall pair in which the hall beside the flight, on both
// levels, is of some width; as drawn it is 1.2 m.
func pairWithHall(width float64) *plan.House {
	return housetest.Placed(tallPairWith(nil), func(p geom.Pt) geom.Pt {
		x, y := p.Metres()
		switch {
		case x < 1.19:
			x += 1.2 - width
		case x > 9.01:
			x -= 1.2 - width
		}
		return geom.FromMetres(x, y)
	})
}

// Beside the flight: 860 mm (NBC 9.5.4.1.), 36 in (IRC R311.6), 900 mm (AD M1 1.15).
func TestHallsAgainstTheirLimits(t *testing.T) {
	for set, limit := range map[string]float64{"ca-nbc-2020": 0.860, "us-irc-2021": 0.9144, "uk-england": 0.900} {
		for _, over := range []float64{-0.001, 0, 0.001} {
			findings := plan.Check(ownScheme(t, pairWithHall(limit+over)), ruleSet(t, set), plan.Conditions{})
			f := only(t, findings, "hall-width", "a-hall")
			assert.InDelta(t, limit+over, f.Value, 0.00003, set)
			assert.Equal(t, over >= 0, f.Result == plan.OK, "%s: %s", set, f.Provided)
			assert.Equal(t, f.Result, only(t, findings, "hall-width", "b-hall").Result)
		}
	}
}

// Both set by the same clauses as exits: IRC R311.1 counts side-hinged doors.
func TestASlidingDoorIsNoWayOutUnderTheIRC(t *testing.T) {
	h := tallPairWith(nil)
	for i := range h.Doors {
		if h.Doors[i].ID == "a-front" {
			h.Doors[i].Leaf = plan.Sliding
		}
	}
	findings := plan.Check(ownScheme(t, h), ruleSet(t, "us-irc-2021"), plan.Conditions{})
	assert.Equal(t, plan.NotOK, only(t, findings, "exit-doors", "A").Result)
	assert.Equal(t, plan.OK, only(t, findings, "exit-doors", "B").Result)
}

// NBC 9.9.9.1.(1): one storey up or down to a level with a way out. The
// bedrooms are one storey up; a further storey is too many.
func TestStoreysToAWayOut(t *testing.T) {
	findings := plan.Check(ownScheme(t, tallPairWith(nil)), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	f := only(t, found(findings, "exit-storeys", "upper")[:1], "exit-storeys", "upper")
	assert.Equal(t, 1.0, f.Value)
	assert.Equal(t, plan.OK, f.Result)

	d := tallPair().Level("top", 5.2, 2.4)
	hall := []float64{0, 0, 2.1, 0, 2.1, 1.5, 1.2, 1.5, 1.2, 4.74, 2.1, 4.74, 2.1, 7, 0, 7}
	d.Room("a-top-hall", plan.Hall, "top", hall...).Room("a-study", plan.Office, "top", 2.2, 0, 5, 7)
	d.Flight("a-stair-2", "upper", "top", "n", 1.2, 1.5, 2.1, 4.74).Door("a-study-door", "top", 2.15, 5.2, 2.15, 6.02)
	f = only(t, plan.Check(ownScheme(t, d.House()), ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "exit-storeys", "top")
	assert.Equal(t, 2.0, f.Value)
	assert.Equal(t, plan.NotOK, f.Result)
}

// AD B1 3.18(b): 9 m from the entrance to any point of a habitable room, but
// only in a flat with a floor above 4.5 m. Raised 2 m above the ground, the
// upper floor lies at 4.6 m; the walk is the one of the travel.
func TestTravelDistanceOfAHighFlat(t *testing.T) {
	h := tallPairWith(nil)
	h.Grade, h.GradeSaid = 0, true
	assert.Empty(t, found(plan.Check(ownScheme(t, h), ruleSet(t, "uk-england"), plan.Conditions{}), "travel-distance", ""))
	h.Grade = -2
	s := ownScheme(t, h)
	f := only(t, plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{}), "travel-distance", "a-bed")
	assert.Equal(t, plan.NotOK, f.Result)
	assert.InDelta(t, travel(t, s, "a-bed", plan.ToEntry).LengthM, f.Value, 1e-9)
}

// NBC 9.9.4.6.(1): 3 m from an exit door to the other unit's opening in a wall
// that meets its own at less than 135 degrees. B stands forward of A by 4 m;
// its window in the side wall is in front of A's door.
//
//	        +-------+
//	        |       w   w: B's window, 3 m or so from A's door
//	+--door-+       |
//	|   A   |   B   |
func TestTheOtherUnitsWindowBesideAnExitDoor(t *testing.T) {
	for _, off := range []float64{-0.01, 0, 0.01} {
		d := housetest.New("corner").Level("main", 0, 2.4)
		d.Room("a-living", plan.Living, "main", 0, 0, 8, 5).Room("b-living", plan.Living, "main", 8.2, 0, 14, 12)
		// A's door in the wall at y = 5.1, its eastern jamb at x = 6.1; B's wall
		// faces west at x = 8.1: the window's nearer jamb lies 2 m east.
		north := math.Sqrt(9-4) + off
		d.Door("a-front", "main", 5.2, 5.1, 6.1, 5.1).Door("b-front", "main", 10, 12.1, 10.9, 12.1)
		d.Window("b-side", "main", 0.9, 1.2, 8.1, 5.1+north, 8.1, 5.1+north+1)
		d.Window("b-north", "main", 0.9, 1.2, 12, 12.1, 13, 12.1)
		s := ownScheme(t, d.House())
		for i := range s.Passages {
			s.Passages[i].Entry = map[string]string{"a-front": "A", "b-front": "B"}[s.Passages[i].Of]
		}
		for _, w := range d.House().Windows {
			s.Windows = append(s.Windows, plan.PlacedWindow{Window: w, State: plan.Kept})
		}
		findings := plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
		f := only(t, findings, "opening-exit-distance", "a-front")
		assert.InDelta(t, math.Hypot(2, north), f.Value, 0.0001)
		assert.Equal(t, off >= 0, f.Result == plan.OK, f.Provided)
		assert.Contains(t, f.Note, "b-side")
		// B's own door faces nothing of A's.
		assert.Equal(t, plan.OK, only(t, findings, "opening-exit-distance", "b-front").Result)
	}
}

// The separating wall of the tall pair has rooms above it on the main storey
// and roof above it on the upper one, ground or a crawl space below.
func TestWhereTheSeparationHasToGoOn(t *testing.T) {
	s := schemeOf(t, tallPairWith(nil), plan.DefaultBrief())
	var places []string
	for _, f := range found(plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{}), "separation-continuity", "") {
		assert.Equal(t, plan.NotSurveyed, f.Result)
		assert.NotEmpty(t, f.Cure, "says what to look at")
		places = append(places, f.Subject)
		switch f.Subject {
		case "roof space":
			assert.Contains(t, f.Provided, "a-bed and b-bed")
			assert.NotContains(t, f.Provided, "living")
		case "under the lowest floor":
			assert.NotContains(t, f.Provided, "bed")
		}
	}
	assert.ElementsMatch(t, []string{"roof space", "under the lowest floor"}, places)
}

// Turning or mirroring a house changes no finding of its ways out, halls,
// flights and alarms, and no measure by more than the centimetre to which the
// places for alarms and the ways are found.
func TestFindingsTurnWithTheHouse(t *testing.T) {
	topics := []string{"ways out", "stairs", "alarms", "openings near the other unit"}
	findings := func(h *plan.House, set string) []plan.Finding {
		s := ownScheme(t, h)
		s.Alarms = plan.PlaceAlarms(s, ruleSet(t, set), plan.Conditions{})
		var out []plan.Finding
		for _, f := range plan.Check(s, ruleSet(t, set), plan.Conditions{}) {
			if slices.Contains(topics, f.Figure.Topic) {
				out = append(out, f)
			}
		}
		require.NotEmpty(t, out)
		return out
	}
	for _, set := range []string{"ca-nbc-2020", "us-irc-2021", "uk-england"} {
		h := tallPairWith(nil)
		want := findings(h, set)
		for _, moved := range []*plan.House{housetest.Turned(h, 90), housetest.Turned(h, 37), housetest.Mirrored(h), housetest.Moved(housetest.Turned(h, 201), 40, -7)} {
			got := findings(moved, set)
			require.Len(t, got, len(want))
			for i, f := range got {
				about := fmt.Sprintf("%s: %s of %s", set, f.Figure.ID, f.Subject)
				assert.Equal(t, want[i].Figure.ID, f.Figure.ID)
				assert.Equal(t, want[i].Subject, f.Subject)
				assert.Equal(t, want[i].Result, f.Result, about)
				assert.InDelta(t, want[i].Value, f.Value, 0.03, about)
			}
		}
	}
}

// BenchmarkCheck compares the tall pair with a set, alarms included.
func BenchmarkCheck(b *testing.B) {
	s := ownScheme(b, tallPairWith(nil))
	set := ruleSet(b, "ca-nbc-2020")
	for b.Loop() {
		s.Alarms = plan.PlaceAlarms(s, set, plan.Conditions{})
		plan.Check(s, set, plan.Conditions{})
	}
}

// BenchmarkTravels finds the ways out of the tall pair's rooms.
func BenchmarkTravels(b *testing.B) {
	s := ownScheme(b, tallPairWith(nil))
	for b.Loop() {
		plan.Travels(s)
	}
}
