package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/assembly"
	"moiety/plan/internal/housetest"
)

// pairWithHallBetween is the pair with a hall in front of both, common where
// the letter of its owner is c, from which both units are entered.
func pairWithHallBetween(change func(*plan.Door)) *plan.House {
	d := pairOn(oneLevel())
	d.Room("c-hall", plan.Hall, "main", 0, -1.7, 10.2, -0.2).Door("front", "main", 5, -1.8, 5.9, -1.8)
	h := d.House()
	for i := range h.Doors {
		if h.Doors[i].ID == "a-front" && change != nil {
			change(&h.Doors[i])
		}
	}
	return h
}

// A door that stays between a unit and a common hall: 20 min in a separation of
// 45 min, 45 min in one of 1 h (NBC Table 9.10.13.1.); 45 min (by analogy with IBC
// Table 716.1(2), from memory); E 30 Sa (AD B1 Table C1, from memory).
func TestADoorInTheSeparation(t *testing.T) {
	const door = "a-front"
	for _, test := range []struct {
		set     string
		minutes int
		want    plan.Result
	}{
		{"ca-nbc-2020", 20, plan.OK}, {"ca-nbc-2020", 19, plan.NotOK}, {"ca-nbc-2020", 21, plan.OK}, {"ca-nbc-2020", 0, plan.NotSurveyed},
		{"us-irc-2021", 45, plan.OK}, {"us-irc-2021", 44, plan.NotOK}, {"us-irc-2021", 46, plan.OK},
		{"uk-england", 30, plan.OK}, {"uk-england", 29, plan.NotOK}, {"uk-england", 31, plan.OK},
	} {
		s := ownedScheme(t, pairWithHallBetween(rated(test.minutes)))
		findings := plan.Check(s, ruleSet(t, test.set), plan.Conditions{})
		f := only(t, findings, "separation-door-rating", door)
		assert.Equal(t, test.want, f.Result, "%s: %d min", test.set, test.minutes)
		assert.Equal(t, "A", f.Unit)
		if test.set == "ca-nbc-2020" { // 9.10.13.9. and 9.10.13.10.
			assert.Equal(t, plan.NotSurveyed, only(t, findings, "separation-door-closer", door).Result)
		}
	}
	// Units of two storeys are parted by 1 h (NBC 9.10.9.16.(3)), and their doors are of 45 min.
	for minutes, want := range map[int]plan.Result{45: plan.OK, 44: plan.NotOK} {
		h := pairWithHallBetween(rated(minutes))
		more := oneLevel().Level("upper", 2.7, 2.4).Room("a-attic", plan.Office, "upper", 0, 0, 5, 4).House()
		h.Levels, h.Spaces = more.Levels, append(h.Spaces, more.Spaces...)
		findings := plan.Check(ownedScheme(t, h), ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
		assert.Equal(t, want, only(t, findings, "separation-door-rating-1h", door).Result, "%d min", minutes)
	}
	// In the lining of a house with a secondary suite: 45 mm of solid wood (NBC
	// 9.10.9.3.(2)), which nobody measured, whatever the door's label.
	s := ownedScheme(t, pairWithHallBetween(rated(20)))
	f := only(t, plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{Suite: plan.Secondary}), "separation-door-thickness", door)
	assert.Equal(t, plan.NotSurveyed, f.Result)
	assert.Equal(t, "at least 45 mm", f.Required)
}

// A hall that both units use is lined as a corridor and as an exit in a house
// with a secondary suite (NBC 9.10.9.17.(4), 9.9.4.2.(2)); two equal units are
// asked for a fire separation instead.
func TestTheLiningOfACommonHall(t *testing.T) {
	s := ownedScheme(t, pairWithHallBetween(nil))
	suite := plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{Suite: plan.Secondary})
	duplex := plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{})
	for _, rule := range []string{"corridor-lining", "exit-lining"} {
		f := only(t, suite, rule, "c-hall")
		assert.Equal(t, plan.NotSurveyed, f.Result)
		assert.Equal(t, "at least 12.7 mm", f.Required)
		assert.NotEmpty(t, f.Cure)
		assert.Empty(t, found(duplex, rule, ""))
	}
}

// AD B1 7.1: every wall and floor between flats is a compartment's; each set
// asks for what passes through to be stopped, and of floors what carries them.
func TestWhatIsAskedOfWallsAndFloorsBetweenUnits(t *testing.T) {
	d := housetest.New("up and down").Level("main", 0, 2.4).Level("upper", 2.7, 2.4)
	d.Room("a-living", plan.Living, "main", 0, 0, 8, 6).Room("b-living", plan.Living, "upper", 0, 0, 8, 6)
	d.Fixture("stack", "drain_stack", "main", 7.5, 5.5)
	s := ownedScheme(t, d.House())
	uk := plan.Check(s, ruleSet(t, "uk-england"), plan.Conditions{})
	assert.Equal(t, plan.NotSurveyed, only(t, uk, "separation-compartment", "floors").Result)
	assert.Empty(t, found(uk, "separation-compartment", "walls"))
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020"} {
		findings := plan.Check(s, ruleSet(t, set), plan.Conditions{})
		assert.Equal(t, plan.NotSurveyed, only(t, findings, "separation-support", "floors").Result)
		assert.Equal(t, plan.NotSurveyed, only(t, findings, "separation-penetrations", "floors").Result)
		stack := only(t, findings, "separation-penetrations", "stack")
		assert.Contains(t, stack.Note, "a-living (A) and b-living (B)")
		// NBC 9.10.9.7.(4) says where plastic may be.
		assert.Equal(t, set == "ca-nbc-2020", len(stack.Note) > len("it runs on between a-living (A) and b-living (B)"), stack.Note)
	}
}

// One furnace whose ducts reach both units (NBC 9.33.1.1.(3), IRC M1602.2, AD B1
// 9.14), and heat that both use, which each controls (NBC 9.33.4.3.(1)).
func TestAirAndHeatOfTwoUnits(t *testing.T) {
	d := pairOn(oneLevel()).Fixture("furnace", "furnace", "main", 0.5, 5)
	s := ownedScheme(t, d.House())
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020", "uk-england"} {
		assert.Equal(t, plan.NotSurveyed, only(t, plan.Check(s, ruleSet(t, set), plan.Conditions{}), "ducts-own", "furnace").Result)
	}
	assert.Empty(t, found(plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "heating-control", ""))
	s.Shared = []plan.Shared{{ID: "furnace", Use: "furnace"}}
	assert.Equal(t, plan.NotSurveyed, only(t, plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "heating-control", "").Result)
}

// AD B1 Table B4, from memory: 1 h where the top floor lies more than 5 m above the ground.
func TestAHighTopFloorIsSeparatedBetter(t *testing.T) {
	for grade, rule := range map[float64]string{-2.3: "separation-rating", -2.301: "separation-rating-upper", -2.299: "separation-rating"} {
		d := housetest.New("high").Level("main", 0, 2.4).Level("upper", 2.7, 2.4)
		d.Room("a-living", plan.Living, "main", 0, 0, 8, 6).Room("b-living", plan.Living, "upper", 0, 0, 8, 6)
		h := d.House()
		h.Grade, h.GradeSaid = grade, true
		findings := plan.Check(ownedScheme(t, h), ruleSet(t, "uk-england"), plan.Conditions{})
		require.Len(t, found(findings, rule, "floors"), 1, "%g m above the ground", 2.7-grade)
	}
}

// A flight that both units use is closed off from each (AD B1 7.22).
func TestACommonFlightIsClosedOff(t *testing.T) {
	draw := func(landing string) *plan.House {
		d := housetest.New("stair").Level("main", 0, 2.4).Level("upper", 2.6, 2.4)
		d.Room("c-hall", plan.Hall, "main", 0, 0, 2.1, 1.5).Flight("c-stair", "main", "upper", "n", 1.2, 1.5, 2.1, 4.74)
		d.Room("a-living", plan.Living, "main", 2.2, 0, 6, 7).Room(landing, plan.Hall, "upper", 0, 4.74, 2.1, 7)
		d.Room("b-living", plan.Living, "upper", 2.2, 0, 6, 7).Door("front", "main", 0.3, -0.1, 1.2, -0.1)
		return d.House()
	}
	for landing, want := range map[string]plan.Result{"c-landing": plan.OK, "b-landing": plan.NotOK} {
		f := only(t, plan.Check(ownedScheme(t, draw(landing)), ruleSet(t, "uk-england"), plan.Conditions{}), "separation-stair-shaft", "c-stair")
		assert.Equal(t, want, f.Result, "%s: %s", landing, f.Provided)
	}
}

// What the build-ups reach against the rating that is asked: 45 min (NBC
// 9.10.9.16.(1)), 60 min (IRC R302.3), 30 min with sprinklers (its exception 1),
// 30 min (AD B1 6.6). The lowest of them counts.
func TestTheRatingOfTheSeparationAtItsLimits(t *testing.T) {
	for _, test := range []struct {
		set   string
		con   plan.Conditions
		rule  string
		limit int
	}{
		{"ca-nbc-2020", plan.Conditions{}, "separation-rating", 45},
		{"us-irc-2021", plan.Conditions{}, "separation-rating", 60},
		{"us-irc-2021", plan.Conditions{Sprinklers: plan.SprinklersThroughout}, "separation-rating-sprinklers", 30},
		{"uk-england", plan.Conditions{}, "separation-rating", 30},
	} {
		for _, off := range []int{-1, 0, 1} {
			s := ownedScheme(t, pair().House())
			s.BuildUps = []plan.BuildUp{
				{Tag: "SW1", Bearing: true, Assembly: assembly.Assembly{Kind: assembly.Wall, Rating: assembly.Rating{Fire: 120}}},
				{Tag: "SW2", Bearing: true, Assembly: assembly.Assembly{Kind: assembly.Wall, Rating: assembly.Rating{Fire: test.limit + off}}},
			}
			f := only(t, plan.Check(s, ruleSet(t, test.set), test.con), test.rule, "walls")
			assert.Equal(t, off >= 0, f.Result == plan.OK, "%s: %s", test.set, f.Provided)
		}
	}
}
