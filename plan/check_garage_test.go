package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairWithGarage is the pair with a garage west of A's rooms, step metres lower,
// with a door to A's living room; owner is the letter of who has it.
func pairWithGarage(owner string, step float64, change func(door *plan.Door)) *housetest.Draft {
	d := pairOn(housetest.New("pair and garage").Level("main", 0, 2.4).Level("upper", 2.7, 2.4))
	d.Room(owner+"-garage", plan.Garage, "main", -6.2, 0, -0.2, 7.1).At(-step, 2.4+step)
	d.Room("a-over", plan.Office, "upper", -6.2, 0, -0.2, 7.1)
	d.Door("a-garage-door", "main", -0.1, 1, -0.1, 1.9).Door("garage-front", "main", -5, -0.1, -2.6, -0.1).Leaf(plan.Overhead)
	h := d.House()
	for i := range h.Doors {
		if h.Doors[i].ID == "a-garage-door" && change != nil {
			change(&h.Doors[i])
		}
	}
	return d
}

func rated(minutes int) func(*plan.Door) {
	return func(d *plan.Door) { d.RatingMinutes = minutes }
}

// The door to the garage: 20 min (IRC R302.5.1), 30 min (AD B1 Diagram 5.1); the NBC
// asks for no rating but for a closer (9.10.13.15.).
func TestTheDoorToTheGarage(t *testing.T) {
	for _, test := range []struct {
		set     string
		minutes int
		want    plan.Result
	}{
		{"us-irc-2021", 20, plan.OK}, {"us-irc-2021", 19, plan.NotOK}, {"us-irc-2021", 21, plan.OK}, {"us-irc-2021", 0, plan.NotSurveyed},
		{"uk-england", 30, plan.OK}, {"uk-england", 29, plan.NotOK}, {"uk-england", 31, plan.OK}, {"uk-england", 0, plan.NotSurveyed},
	} {
		s := ownedScheme(t, pairWithGarage("a", 0.15, rated(test.minutes)).House())
		f := only(t, plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), "garage-door-rating", "a-garage-door")
		assert.Equal(t, test.want, f.Result, "%s: %d min", test.set, test.minutes)
	}
	findings := plan.Check(ownedScheme(t, pairWithGarage("a", 0.15, nil).House()), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	assert.Empty(t, found(findings, "garage-door-rating", ""))
	assert.Equal(t, plan.NotSurveyed, only(t, findings, "garage-door-closer", "a-garage-door").Result)
}

// IRC R302.5.1 and NBC 9.10.13.15.: no door from a garage into a sleeping room.
func TestNoDoorFromAGarageIntoABedroom(t *testing.T) {
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020"} {
		s := ownedScheme(t, pairWithGarage("a", 0.15, nil).House())
		const rule, door = "garage-no-bedroom-door", "a-garage-door"
		assert.Equal(t, plan.OK, only(t, plan.Check(s, ruleSet(t, set), plan.Conditions{}), rule, door).Result, set)
		s.Uses[cellIndex(t, s.Building, "a-living")], s.Also[cellIndex(t, s.Building, "a-living")] = plan.Bedroom, nil
		assert.Equal(t, plan.NotOK, only(t, plan.Check(s, ruleSet(t, set), plan.Conditions{}), rule, door).Result, set)
	}
}

// AD B1 5.7(b): the threshold 100 mm above the garage floor, unless that falls
// to the outside, which nobody surveyed.
func TestTheStepUpFromTheGarage(t *testing.T) {
	for step, want := range map[float64]plan.Result{0.100: plan.OK, 0.101: plan.OK, 0.099: plan.NotSurveyed, 0: plan.NotSurveyed} {
		s := ownedScheme(t, pairWithGarage("a", step, nil).House())
		f := only(t, plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{}), "garage-floor-step", "a-garage-door")
		assert.Equal(t, want, f.Result, "%g m: %s", step, f.Provided)
	}
}

// NBC 9.10.9.18.: none of a garage that its unit has alone, (3) and (4); 1 h of one
// that both have or that lies by the other's rooms, (2). AD B1 5.6: 30 min. IRC
// Table R302.6: board of 1/2 in towards rooms, 5/8 in under rooms above.
func TestWhatLiesBetweenGarageAndRooms(t *testing.T) {
	for _, test := range []struct {
		set, owner, rule, required string
		want                       plan.Result
	}{
		{"ca-nbc-2020", "a", "garage-rating", "at least 0 min", plan.OK},
		{"ca-nbc-2020", "c", "garage-rating-shared", "at least 60 min", plan.NotSurveyed},
		{"ca-nbc-2020", "b", "garage-rating-shared", "at least 60 min", plan.NotSurveyed},
		{"uk-england", "a", "garage-rating", "at least 30 min", plan.NotSurveyed},
		{"us-irc-2021", "a", "garage-lining", "at least 0.5 in", plan.NotSurveyed},
		{"us-irc-2021", "a", "garage-ceiling-lining", "at least 0.625 in", plan.NotSurveyed},
		{"us-irc-2021", "a", "garage-ducts", "required", plan.NotSurveyed},
	} {
		s := ownedScheme(t, pairWithGarage(test.owner, 0.15, nil).House())
		f := only(t, plan.Check(s, ruleSet(t, test.set), plan.Conditions{}), test.rule, test.owner+"-garage")
		assert.Equal(t, test.want, f.Result, "%s: %s", test.set, test.rule)
		assert.Equal(t, test.required, f.Required)
	}
	// Without rooms above it no board is asked of its ceiling.
	h := without(pairWithGarage("a", 0.15, nil).House(), "a-over")
	assert.Empty(t, found(plan.Check(ownedScheme(t, h), ruleSet(t, "us-irc-2021"), plan.Conditions{}), "garage-ceiling-lining", ""))
}

// IRC Table R302.6: a garage less than 3 ft from the dwelling is lined towards
// it. The survey has its inside: two walls of up to 0.60 m each stand between,
// so 3 ft and 1.20 m from inside to inside are enough for certain.
func TestAGarageApart(t *testing.T) {
	for _, test := range []struct {
		apart float64
		want  plan.Result
	}{{3*foot + 1.2, plan.OK}, {3*foot + 1.199, plan.NotSurveyed}, {3*foot + 1.201, plan.OK}, {3 * foot, plan.NotSurveyed}} {
		d := pairOn(oneLevel())
		d.Room("a-garage", plan.Garage, "main", -6-test.apart, 0, -test.apart, 6).Door("garage-front", "main", -5-test.apart, -0.1, -2.6-test.apart, -0.1).Leaf(plan.Overhead)
		findings := plan.Check(ownedScheme(t, d.House()), ruleSet(t, "us-irc-2021"), plan.Conditions{})
		assert.Equal(t, test.want, only(t, findings, "garage-detached-distance", "a-garage").Result, "%g m", test.apart)
		assert.Empty(t, found(findings, "garage-lining", ""), "nothing of the house touches it")
	}
}

// NBC 9.35.2.1.: a carport with more than 60 % of its perimeter enclosed is a
// garage. Between the arms of a U of rooms, 5 m deep and open to the front over
// its width of w, 10 + w of 10 + 2w metres are the house's.
func TestACarportBetweenWallsIsAGarage(t *testing.T) {
	for _, w := range []float64{3, 19.9, 20, 20.1} { // 81, just over 60, 60 and just under 60 %
		share := (10 + w) / (10 + 2*w)
		t.Run(fmt.Sprintf("%.2f %%", 100*share), func(t *testing.T) {
			d := housetest.New("court").Level("main", 0, 2.4).Site("site", -0.15)
			d.Room("a-living", plan.Living, "main", -5, 0, -0.2, 5).Room("a-kitchen", plan.Kitchen, "main", w+0.2, 0, w+5, 5)
			d.Room("b-living", plan.Living, "main", -5, 5.2, w+5, 9)
			d.Room("a-carport", plan.Carport, "site", 0, 0, w, 5)
			d.Door("a-side", "main", -0.1, 2, -0.1, 2.9).Door("b-front", "main", 0, 9.1, 0.9, 9.1)
			findings := plan.Check(ownedScheme(t, d.House()), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
			f := only(t, findings, "carport-enclosed", "a-carport")
			assert.Equal(t, share > 0.6, f.Result == plan.OK, f.Provided)
			assert.Equal(t, share > 0.6, len(found(findings, "garage-rating-shared", "a-carport")) == 1, "B's room lies at its end")
		})
	}
	// A carport at one wall of the house: a quarter, and the rest not surveyed.
	d := pairOn(oneLevel()).Site("site", -0.15).Room("a-carport", plan.Carport, "site", -3.2, 0, -0.2, 4)
	findings := plan.Check(ownedScheme(t, d.House()), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	require.Equal(t, plan.NotSurveyed, only(t, findings, "carport-enclosed", "a-carport").Result)
	assert.Empty(t, found(findings, "garage-rating", "a-carport"))
}
