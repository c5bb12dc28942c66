package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// alarmsOf gives "kind cell" of each alarm of a unit, sorted.
func alarmsOf(alarms []plan.Alarm, unit string) []string {
	var out []string
	for _, a := range alarms {
		if a.Unit == unit {
			out = append(out, fmt.Sprintf("%s %s", a.Kind, a.Cell))
		}
	}
	slices.Sort(out)
	return out
}

// withPlant is the tall pair with a furnace in each bathroom, so that fuel may
// be burnt in both units.
func withPlant(t *testing.T) *plan.Scheme {
	t.Helper()
	h := tallPairWith(nil)
	for i, x := range []float64{3, 7.2} {
		h.Fixtures = append(h.Fixtures, plan.Fixture{ID: fmt.Sprintf("furnace-%d", i), Use: "furnace", Level: 0, At: geom.FromMetres(x, 6.7)})
	}
	return schemeOf(t, h, plan.DefaultBrief())
}

// Counted by hand, for each unit of the tall pair.
//
// United States: one in the bedroom (R314.3 1), one outside the sleeping area,
// on the landing (R314.3 2), for carbon monoxide too, as fuel may be burnt
// (R315.3); the upper storey has these; one more on the main storey (R314.3 3),
// in the hall at the foot of the flight: 3.
//
// Canada: the same three (9.10.19.3.), the one on the landing for carbon
// monoxide too, for it is within 5 m of the bedroom's door (9.32.3.9.).
//
// England: one on each storey, in the circulation space (AD B1 1.10, LD3): the
// landing and the hall; every habitable room's door opens within 7.5 m of one.
// One for carbon monoxide where the furnace is (AD J 2.34), the bathroom: 3.
func TestAlarmsOfTwoUnitsCountedByHand(t *testing.T) {
	s := withPlant(t)
	for _, test := range []struct {
		set  string
		want []string // of A; of B with its own letter
	}{
		{"us-irc-2021", []string{"smoke %s-bed", "smoke %s-hall", "smoke+co %s-landing"}},
		{"ca-nbc-2020", []string{"smoke %s-bed", "smoke %s-hall", "smoke+co %s-landing"}},
		{"uk-england", []string{"co %s-bath", "smoke %s-hall", "smoke %s-landing"}},
	} {
		t.Run(test.set, func(t *testing.T) {
			alarms := plan.PlaceAlarms(s, ruleSet(t, test.set), plan.Conditions{})
			for _, u := range []string{"a", "b"} {
				var want []string
				for _, w := range test.want {
					want = append(want, fmt.Sprintf(w, u))
				}
				assert.Equal(t, want, alarmsOf(alarms, map[string]string{"a": "A", "b": "B"}[u]))
			}
			assert.Empty(t, alarmsOf(alarms, "common"))
		})
	}
}

// Counted by hand on the long bungalow as its brief parts it, all on one storey:
// each unit has one bedroom, one alarm in it, and one outside it, which the IRC
// wants to tell of carbon monoxide too, as there is a furnace and a garage: 4 in
// all. England asks for one a storey, 2 in all, in the circulation space; and one
// for carbon monoxide by every heater and furnace.
func TestAlarmsOfASampleCountedByHand(t *testing.T) {
	s := checkedHouses(t)["long-bungalow"]
	alarms := plan.PlaceAlarms(s, ruleSet(t, "us-irc-2021"), s.Brief.Conditions)
	assert.Len(t, alarms, 4)
	assert.Equal(t, []string{"smoke bed-1", "smoke+co family"}, alarmsOf(alarms, "A"))
	assert.Equal(t, []string{"smoke bed-3", "smoke+co hall"}, alarmsOf(alarms, "B"))
	smoke := 0
	for _, a := range plan.PlaceAlarms(s, ruleSet(t, "uk-england"), s.Brief.Conditions) {
		if a.Kind != plan.COAlarm {
			smoke++
		}
	}
	assert.Equal(t, 2, smoke)
}

// Without anything that burns fuel, and no garage, nothing tells of carbon monoxide.
func TestNoFuelNoCarbonMonoxideAlarm(t *testing.T) {
	s := withPlant(t)
	for _, id := range []string{"us-irc-2021", "ca-nbc-2020", "uk-england"} {
		for _, a := range plan.PlaceAlarms(s, ruleSet(t, id), plan.Conditions{Fuel: plan.NoFuel}) {
			assert.Equal(t, plan.SmokeAlarm, a.Kind, "%s: %s", id, a.Cell)
		}
	}
}

// NBC 9.10.19.5.(2) and 9.32.3.9.(7): in a house with two suites one sounds
// all; IRC R314.4 and AD B1 1.10: none across the units.
func TestWhichAlarmsSoundTogether(t *testing.T) {
	s := withPlant(t)
	for set, want := range map[string]map[string]string{
		"ca-nbc-2020": {"A": "both", "B": "both"}, "us-irc-2021": {"A": "A", "B": "B"},
	} {
		for _, a := range plan.PlaceAlarms(s, ruleSet(t, set), plan.Conditions{}) {
			assert.Equal(t, want[a.Unit], a.Sounds, "%s: %s", set, a.ID)
		}
	}
}

// An alarm hangs in its cell, 0.30 m off its walls, and where its room has
// another place, 3 ft from the door of a bathroom (IRC R314.3(4)).
func TestAlarmsHangClearOfWallsAndBathrooms(t *testing.T) {
	set := ruleSet(t, "us-irc-2021")
	eachSample(t, func(t *testing.T, sample sample) {
		s := splitBuilding(t, sample).Schemes[0]
		s.Alarms = plan.PlaceAlarms(s, set, plan.Conditions{})
		require.NotEmpty(t, s.Alarms)
		ids := map[string]bool{}
		for _, a := range s.Alarms {
			assert.False(t, ids[a.ID], a.ID)
			ids[a.ID] = true
			i := slices.IndexFunc(s.Building.Cells, func(c plan.Cell) bool { return c.ID == a.Cell })
			region := s.Building.Cells[i].Region
			assert.Equal(t, geom.Inside, region.Contains(a.At), a.ID)
			_, room := geom.VisualCentre(region)
			assert.GreaterOrEqual(t, region.DistanceToBorder(a.At), min(0.30, 0.9*room)-1e-4, "%s in %s", a.ID, a.Cell)
			assert.NotEmpty(t, a.Why)
			assert.NotEmpty(t, a.Clause)
		}
		for _, f := range found(plan.Check(s, set, plan.Conditions{}), "", "") {
			if f.Figure.Topic == "alarms" && f.Figure.ID != "smoke-bathroom-distance" {
				assert.NotEqual(t, plan.NotOK, f.Result, "%s of %s: %s", f.Figure.ID, f.Subject, f.Provided)
			}
		}
	})
}

// An alarm taken away is missed, by whatever asks for it.
func TestAMissingAlarmIsNotOK(t *testing.T) {
	s := withPlant(t)
	set := ruleSet(t, "us-irc-2021")
	all := plan.PlaceAlarms(s, set, plan.Conditions{})
	for cell, rules := range map[string][]string{
		"a-bed": {"smoke-sleeping-rooms"}, "a-landing": {"smoke-sleeping-areas", "co-sleeping-areas"}, "a-hall": {"smoke-storeys"},
	} {
		s.Alarms = slices.DeleteFunc(slices.Clone(all), func(a plan.Alarm) bool { return a.Cell == cell })
		require.Len(t, s.Alarms, len(all)-1)
		var missed []string
		for _, f := range plan.Check(s, set, plan.Conditions{}) {
			if f.Figure.Topic == "alarms" && f.Result == plan.NotOK {
				missed = append(missed, string(f.Figure.ID))
			}
		}
		assert.ElementsMatch(t, rules, missed, cell)
	}
}

// A bedroom at the end of a long hall: the alarm by the other bedrooms' doors
// is farther than 5 m from its door, and one more is placed (NBC 9.32.3.9.).
func TestCarbonMonoxideAlarmsWithinReachOfEachBedroom(t *testing.T) {
	d := housetest.New("long").Level("main", 0, 2.4)
	d.Room("a-hall", plan.Hall, "main", 0, 0, 16, 1.2)
	d.Room("a-bed-1", plan.Bedroom, "main", 0, 1.3, 3, 4.3).Room("a-bath", plan.Bathroom, "main", 3.1, 1.3, 5.1, 4.3)
	d.Room("a-living", plan.Living, "main", 5.2, 1.3, 12.9, 4.3).Also(plan.Kitchen)
	d.Room("a-bed-2", plan.Bedroom, "main", 13, 1.3, 16, 4.3)
	d.Room("b-living", plan.Living, "main", 0, 4.5, 8, 8).Also(plan.Kitchen)
	d.Room("b-bed", plan.Bedroom, "main", 8.1, 4.5, 12, 8).Room("b-bath", plan.Bathroom, "main", 12.1, 4.5, 16, 8)
	d.Door("d1", "main", 0.4, 1.25, 1.2, 1.25).Door("d2", "main", 3.6, 1.25, 4.4, 1.25).Door("d3", "main", 8, 1.25, 8.8, 1.25)
	d.Door("d4", "main", 15, 1.25, 15.8, 1.25).Door("front", "main", 8, -0.1, 8.9, -0.1)
	d.Door("b1", "main", 8.05, 6, 8.05, 6.8).Door("b2", "main", 12.05, 6, 12.05, 6.8).Door("b-front", "main", 2, 8.1, 2.9, 8.1)
	d.Window("w1", "main", 0.9, 1.2, -0.1, 2, -0.1, 3.2).Window("w2", "main", 0.9, 1.2, 16.1, 2, 16.1, 3.2).Window("w3", "main", 0.9, 1.2, 9, 8.1, 10.2, 8.1)
	d.Fixture("furnace", "furnace", "main", 4.8, 4).Fixture("washer-1", "washer", "main", 4.8, 1.6).Fixture("washer-2", "washer", "main", 15.6, 5)
	h := d.House()
	s := ownScheme(t, h)
	for _, f := range h.Fixtures {
		s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, State: plan.Kept})
	}
	s.Units[0].Entries = []string{"front"}
	alarms := plan.PlaceAlarms(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	var at []float64
	for _, a := range alarms {
		if a.Cell == "a-hall" && a.Kind != plan.SmokeAlarm {
			x, _ := a.At.Metres()
			at = append(at, x)
		}
	}
	// The doors' middles lie at x = 0.8 and 15.4: no one place is within 5 m of both.
	require.GreaterOrEqual(t, len(at), 2)
	for _, door := range []float64{0.8, 15.4} {
		assert.True(t, slices.ContainsFunc(at, func(x float64) bool { return x > door-5 && x < door+5 }), "near %g: %v", door, at)
	}
}
