package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/rules"
)

// situation is a scheme under the conditions of a brief.
type situation struct {
	s   *plan.Scheme
	con plan.Conditions
}

// situations are houses that have between them all that a figure can be about.
func situations(t *testing.T) []situation {
	secondary, wet := plan.Conditions{Suite: plan.Secondary}, plan.Conditions{Sprinklers: plan.SprinklersThroughout, Alarms: plan.AloneAlarms}
	furnaces := func(h *plan.House) *plan.House {
		for i, x := range []float64{3, 7.2} {
			h.Fixtures = append(h.Fixtures, plan.Fixture{ID: fmt.Sprintf("furnace-%d", i), Use: "furnace", Level: 0, At: geom.FromMetres(x, 6.7)})
		}
		return h
	}
	raised := tallPairWith(nil)
	raised.Grade, raised.GradeSaid = -2, true
	common := pairWithHallBetween(nil)
	carport := pairOn(oneLevel()).Site("site", -0.15).Room("a-carport", plan.Carport, "site", -3.2, 0, -0.2, 4)
	deck := pairOn(oneLevel()).Site("site", -2).Room("a-deck", plan.Deck, "site", 0, -3.2, 5, -0.2).At(0, 0)
	apart := pairOn(oneLevel()).Room("a-garage", plan.Garage, "main", -8, 0, -3, 6)
	out := []situation{
		{ownedScheme(t, pairWithGarage("a", 0.05, nil).House()), plan.Conditions{}},
		{ownedScheme(t, pairWithGarage("c", 0.05, nil).House()), secondary},
		{ownedScheme(t, furnaces(tallPairWith(nil))), plan.Conditions{}},
		{ownedScheme(t, furnaces(tallPairWith(nil))), secondary},
		{ownedScheme(t, furnaces(tallPairWith(nil))), wet},
		{ownedScheme(t, raised), plan.Conditions{}},
		{ownedScheme(t, common), plan.Conditions{}},
		{ownedScheme(t, common), secondary},
		{ownedScheme(t, carport.House()), plan.Conditions{}},
		{ownedScheme(t, deck.House()), plan.Conditions{}},
		{ownedScheme(t, apart.House()), plan.Conditions{}},
		{ownedScheme(t, pairOnAWalk(0.2, 0.9)), plan.Conditions{}},
	}
	shared := ownedScheme(t, furnaces(tallPairWith(nil)))
	shared.Shared = []plan.Shared{{ID: "furnace-0", Use: "furnace"}}
	twoFronts := pairWithHallBetween(nil)
	twoFronts.Doors = append(slices.Clone(twoFronts.Doors), oneLevel().Door("front-2", "main", 8, -1.8, 8.9, -1.8).House().Doors...)
	for i := range twoFronts.Spaces {
		if twoFronts.Spaces[i].ID == "a-bed" {
			twoFronts.Spaces[i].Use = plan.Mechanical
		}
	}
	corner := housetest.New("corner").Level("main", 0, 2.4)
	corner.Room("a-living", plan.Living, "main", 0, 0, 8, 5).Room("b-living", plan.Living, "main", 8.2, 0, 14, 12)
	corner.Window("a-north", "main", 0.9, 1.2, 6, 5.1, 7.4, 5.1).Window("b-west", "main", 0.9, 1.2, 8.1, 6, 8.1, 7.5)
	out = append(out,
		situation{ownedScheme(t, lowRooms()), plan.Conditions{}}, situation{shared, plan.Conditions{}},
		situation{ownedScheme(t, twoFronts), plan.Conditions{}}, situation{ownedScheme(t, corner.House()), plan.Conditions{}},
		situation{ownedScheme(t, commonStair("c-landing")), plan.Conditions{}},
		situation{ownedScheme(t, basement()), wet}, situation{ownedScheme(t, deepWell()), plan.Conditions{}},
		situation{ownedScheme(t, plantBelow()), plan.Conditions{}},
	)
	plant := ownedScheme(t, pairWithPlant("c", "c-plant").House())
	plant.Units[0].GrossM2 = 401
	lowDeck := pairOn(oneLevel()).Site("site", -1).Room("a-deck", plan.Deck, "site", 0, -3.2, 5, -0.2).At(0, 0)
	bed := pairOn(oneLevel()).Room("a-store", plan.Unfinished, "main", 0, 8, 3, 11)
	bed.Fixture("heater", "water_heater", "main", 4.5, 6.5).Fixture("shower", "shower", "main", 1, 6)
	awning := bed.House()
	for i := range awning.Windows {
		awning.Windows[i].Operation = "awning"
	}
	storeys := housetest.New("storeys").Level("main", 0, 2.4).Level("upper", 2.7, 2.4).Fixture("stack", "drain_stack", "main", 7.5, 5.5)
	storeys.Room("c-hall", plan.Hall, "main", 0, -1.7, 8, -0.2).Door("a-front", "main", 1, -0.1, 1.9, -0.1)
	storeys.Room("a-living", plan.Living, "main", 0, 0, 8, 6).Room("a-bed", plan.Bedroom, "upper", 0, 0, 4, 6).Room("b-living", plan.Living, "upper", 4.1, 0, 8, 6)
	bench := tallPairWith(nil)
	bench.Fixtures = append(slices.Clone(bench.Fixtures), housetest.New("").Level("main", 0, 2.4).Level("upper", 2.6, 2.4).
		Fixture("bench", "water_heater", "upper", 1.5, 6.5).Footprint(1.3, 4.74+0.95, 2, 6.9).House().Fixtures...)
	high := tallPairWith(nil)
	high.Grade, high.GradeSaid = -3, true
	cellar := tallPairWith(nil)
	cellar.Grade, cellar.GradeSaid = 1, true
	out = append(out,
		situation{plant, plan.Conditions{}}, situation{plant, secondary}, situation{ownedScheme(t, lowDeck.House()), plan.Conditions{}},
		situation{ownedScheme(t, awning), plan.Conditions{}}, situation{ownedScheme(t, storeys.House()), plan.Conditions{}},
		situation{ownedScheme(t, bench), plan.Conditions{}}, situation{ownedScheme(t, cellar), plan.Conditions{}},
		situation{ownedScheme(t, pairWithHall(0.8)), plan.Conditions{}}, situation{ownedScheme(t, high), plan.Conditions{}},
	)
	for bedrooms := 1; bedrooms <= 3; bedrooms++ {
		for singles := range bedrooms + 1 {
			for storeys := 1; storeys <= 2; storeys++ {
				out = append(out, situation{ownedScheme(t, bedroomsOn(storeys, singles, bedrooms-singles)), plan.Conditions{}})
			}
		}
	}
	return out
}

// A figure that is printed and never used would be a promise that nobody keeps:
// taking any one of a set's figures out changes what is said of some house.
func TestEveryFigureOfEverySetIsUsed(t *testing.T) {
	cases := situations(t)
	for _, id := range rules.ShippedIDs() {
		set := ruleSet(t, id)
		said := make([][]plan.Finding, len(cases))
		alarms := make([][]plan.Alarm, len(cases))
		used := map[rules.ID]bool{}
		for i, c := range cases {
			c.s.Alarms = plan.PlaceAlarms(c.s, set, c.con)
			alarms[i], said[i] = c.s.Alarms, plan.Check(c.s, set, c.con)
			for _, f := range said[i] {
				used[f.Figure.ID] = true
			}
		}
		for _, f := range set.Figures {
			if used[f.ID] {
				continue
			}
			less := set.Clone()
			less.Drop(f.ID)
			changed := false
			for i, c := range cases {
				c.s.Alarms = alarms[i]
				if changed = !assert.ObjectsAreEqual(said[i], plan.Check(c.s, less, c.con)); changed {
					break
				}
			}
			assert.True(t, changed, "%s of %s is held against nothing", f.ID, id)
		}
	}
}

// The words that no shipped set says a user's file may say: each of them is
// held against something too, and met at its limit and not beyond.
func TestATownsOwnFiguresAreUsed(t *testing.T) {
	for _, test := range []struct {
		rule, limit, beyond string
		subject             string
		unit                string
	}{
		// The pair's rooms: living room of 5 x 4 m with its kitchen, bedroom of 2.7 x 3 m.
		{"living-area", "20 m2", "20.01 m2", "a-living", "A"},
		{"kitchen-area", "20 m2", "20.01 m2", "a-living", "A"},
		{"dining-area", "9 m2", "9.01 m2", "a-dining", "A"},
		{"bedroom-first-area", "8.1 m2", "8.11 m2", "a-bed", "A"},
		// 1.2 x 1.2 m, of which 80 % are taken as glass: 14.2 %; the whole opening is 17.8 %.
		{"glass-share-bedroom", "14.2 %", "17.8 %", "a-bed", "A"},
		{"stalls-per-unit", "1", "2", "A", "A"},
		{"entrances-apart", "7.3 m", "7.301 m", "", ""},
	} {
		for limit, want := range map[string]plan.Result{test.limit: plan.OK, test.beyond: plan.NotOK} {
			set := readRules(t, fmt.Sprintf("base: ca-nbc-2020\nfigures: {%s: %s, glass-share: 1 %%}\n", test.rule, limit))
			d := pairOn(oneLevel()).Room("a-dining", plan.Dining, "main", 0, 8, 3, 11).Site("site", 0)
			d.Room("a-stall", plan.Parking, "site", -4, -6.2, -1, 0)
			s := ownedScheme(t, d.House())
			f := only(t, plan.Check(s, set, plan.Conditions{}), test.rule, test.subject)
			assert.Equal(t, want, f.Result, "%s %s: %s", test.rule, limit, f.Provided)
			assert.Equal(t, test.unit, f.Unit)
		}
	}
	used := map[string]bool{"second-unit-area": true, "second-unit-share": true, "way-past-window": true} // tested elsewhere
	for _, id := range rules.ShippedIDs() {
		for _, f := range ruleSet(t, id).Figures {
			used[string(f.ID)] = true
		}
	}
	for _, term := range rules.Vocabulary() {
		used[string(term.ID)] = used[string(term.ID)] || slices.Contains([]string{
			"living-area", "kitchen-area", "dining-area", "bedroom-first-area", "glass-share-bedroom", "stalls-per-unit", "entrances-apart",
		}, string(term.ID))
		assert.True(t, used[string(term.ID)], "%s is in no set and in no test", term.ID)
	}
}

// lowRooms is the pair, 2.0 m high, with rooms of A for every figure that asks
// for full height over part of a room.
func lowRooms() *plan.House {
	d := pairOn(housetest.New("low").Level("main", 0, 2.0))
	d.Room("a-dining", plan.Dining, "main", 0, 8, 3, 11).Room("a-kitchen", plan.Kitchen, "main", 3.1, 8, 6, 11).Room("a-bed-2", plan.Bedroom, "main", 6.1, 8, 8, 11)
	return d.House()
}

// bedroomsOn is a unit A of so many bedrooms for one and for two on one storey
// or two, for the sizes of units.
func bedroomsOn(storeys, singles, doubles int) *plan.House {
	d := housetest.New("rooms").Level("main", 0, 2.4).Level("upper", 2.7, 2.4)
	level := []string{"main", "upper"}[storeys-1]
	x := 0.0
	for i := range singles + doubles {
		wide := 3.0 // 3 x 4 m, for two
		if i < singles {
			wide = 2.2
		}
		d.Room(fmt.Sprintf("a-bed-%d", i), plan.Bedroom, level, x, 0, x+wide, 4)
		x += wide + 0.1
	}
	d.Room("a-living", plan.Living, "main", 0, 4.1, 5, 9).Room("b-living", plan.Living, "main", 0, 9.2, 5, 14)
	return d.House()
}

// commonStair is a house with a flight that both units use.
func commonStair(landing string) *plan.House {
	d := housetest.New("stair").Level("main", 0, 2.4).Level("upper", 2.6, 2.4)
	d.Room("c-hall", plan.Hall, "main", 0, 0, 2.1, 1.5).Flight("c-stair", "main", "upper", "n", 1.2, 1.5, 2.1, 4.74)
	d.Room("a-living", plan.Living, "main", 2.2, 0, 6, 7).Room(landing, plan.Hall, "upper", 0, 4.74, 2.1, 7)
	d.Room("b-living", plan.Living, "upper", 2.2, 0, 6, 7).Door("front", "main", 0.3, -0.1, 1.2, -0.1)
	return d.House()
}

// basement is the pair, its floor half a metre below the ground, without A's
// window; A has a second door to the outside.
func basement() *plan.House {
	h := without(pair().Door("a-second", "main", -0.1, 1, -0.1, 1.9).House(), "a-window")
	h.Grade, h.GradeSaid = 0.5, true
	return h
}

// deepWell is the pair with A's window in a well more than 44 in deep.
func deepWell() *plan.House {
	h := pairWith(func(w *plan.Window) {
		w.Clear, w.ClearSaid, w.Sill = [2]float64{1, 1}, true, 0.1
		w.WellProjection, w.Width, w.WellSaid = 1, 1, true
	})
	h.Grade, h.GradeSaid = 1.3, true
	return h
}

// plantBelow is the pair over a basement of A's for plant alone, 4.8 m2.
func plantBelow() *plan.House {
	d := pairOn(housetest.New("plant").Level("main", 0, 2.4).Level("basement", -2.5, 2.2))
	h := d.Room("a-plant", plan.Mechanical, "basement", 0, 0, 2, 2.4).House()
	h.Grade, h.GradeSaid = -0.2, true
	return h
}
