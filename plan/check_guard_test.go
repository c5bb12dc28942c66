package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// Guards of a deck: from more than 30 in (IRC R312.1.1) or 600 mm (NBC 9.8.8.1.,
// AD K 1.41) above the ground. Their height: 36 in (IRC R312.1.2); 900 mm up to a
// drop of 1800 mm, 1070 mm above a higher one (NBC 9.8.8.3.; the second figure from memory);
// 1100 mm outdoors (AD K Diagram 3.1).
func TestAHighDeckNeedsAGuard(t *testing.T) {
	for _, test := range []struct {
		set  string
		drop float64
		rule string // "" none
	}{
		{"us-irc-2021", 30 * 0.0254, ""}, {"us-irc-2021", 30*0.0254 - 0.001, ""}, {"us-irc-2021", 30*0.0254 + 0.001, "guard-height"},
		{"ca-nbc-2020", 0.600, ""}, {"ca-nbc-2020", 0.601, "guard-height"},
		{"ca-nbc-2020", 1.799, "guard-height"}, {"ca-nbc-2020", 1.800, "guard-height"}, {"ca-nbc-2020", 1.801, "guard-height-high"},
		{"uk-england", 0.600, ""}, {"uk-england", 0.601, "guard-height-high"},
	} {
		d := pairOn(oneLevel()).Site("site", -test.drop).Room("a-deck", plan.Deck, "site", 0, -3.2, 5, -0.2).At(0, 0)
		findings := plan.Check(ownedScheme(t, d.House()), ruleSet(t, test.set), plan.Conditions{})
		for _, rule := range []string{"guard-height", "guard-height-high"} {
			asked := found(findings, rule, "a-deck")
			if rule != test.rule {
				assert.Empty(t, asked, "%s: %s at %g m", test.set, rule, test.drop)
			} else if assert.Len(t, asked, 1, "%s: %s at %g m", test.set, rule, test.drop) {
				assert.Equal(t, plan.NotSurveyed, asked[0].Result)
				assert.NotEmpty(t, asked[0].Cure)
			}
		}
		assert.Equal(t, test.rule != "", len(found(findings, "guard-gap", "a-deck")) == 1, "the gaps too")
	}
}

// Handrails and guards of a flight were not surveyed; below 31.5 and 27 in the
// flight itself is too narrow beside one and between two handrails (IRC R311.7.1).
func TestHandrailsOfAFlight(t *testing.T) {
	const inch = 0.0254
	for _, test := range []struct {
		width    float64
		one, two plan.Result
	}{
		{36 * inch, plan.NotSurveyed, plan.NotSurveyed},
		{31.5 * inch, plan.NotSurveyed, plan.NotSurveyed},
		{31.5*inch - 0.001, plan.NotOK, plan.NotSurveyed},
		{27 * inch, plan.NotOK, plan.NotSurveyed},
		{27*inch - 0.001, plan.NotOK, plan.NotOK},
		{0, plan.NotSurveyed, plan.NotSurveyed},
	} {
		s := ownScheme(t, tallPairWith(func(f *plan.Stair) { f.Width = test.width }))
		findings := plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{})
		assert.Equal(t, test.one, only(t, findings, "stair-width-one-rail", "a-stair").Result, "%g m", test.width)
		assert.Equal(t, test.two, only(t, findings, "stair-width-two-rails", "a-stair").Result, "%g m", test.width)
		for _, rule := range []string{"handrail-least", "handrail-most", "guard-height", "guard-gap", "under-stair-lining"} {
			f := only(t, findings, rule, "a-stair")
			assert.Equal(t, plan.NotSurveyed, f.Result, rule)
			assert.NotEmpty(t, f.Cure, rule)
		}
	}
}

// Beams and ducts: 76 in in a basement (IRC R305.1.1, from memory); 1850 mm in a
// secondary suite (NBC 9.5.3.1.(3)), over its flights too (9.8.2.2.(4)). A survey
// has none of them.
func TestBeamsBelowCeilingsAreAskedFor(t *testing.T) {
	d := housetest.New("low").Level("basement", -2.4, 2.2).Level("main", 0, 2.4)
	d.Room("a-den", plan.Office, "basement", 0, 0, 5, 4).Room("a-living", plan.Living, "main", 0, 0, 5, 4).Room("b-living", plan.Living, "main", 5.2, 0, 10, 4)
	h := d.House()
	h.Grade, h.GradeSaid = -0.3, true
	s := ownedScheme(t, h)
	us := plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{})
	assert.Equal(t, plan.NotSurveyed, only(t, us, "ceiling-under-beams", "basement").Result)
	assert.Len(t, found(us, "ceiling-under-beams", ""), 1)
	suite := plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{Suite: plan.Secondary})
	assert.Len(t, found(suite, "ceiling-suite-under-beams", ""), 3, "on each level of each unit")
	assert.Empty(t, found(plan.Check(s, ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "ceiling-suite-under-beams", ""))

	tall := ownScheme(t, tallPairWith(nil))
	f := only(t, plan.Check(tall, ruleSet(t, "ca-nbc-2020"), plan.Conditions{Suite: plan.Secondary}), "stair-headroom-under-beams", "a-stair")
	assert.Equal(t, plan.NotSurveyed, f.Result)
}
