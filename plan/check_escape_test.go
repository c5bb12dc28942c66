package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

const inch = 0.0254 // of the international foot

// pairWith is the pair, of rooms 2.44 m high on a floor at some elevation, with
// the window of a's bedroom changed.
func pairWith(change func(w *plan.Window)) *plan.House {
	h := pair().House()
	for i := range h.Windows {
		if h.Windows[i].ID == "a-window" {
			change(&h.Windows[i])
		}
	}
	return h
}

// checkedPair gives the findings of the pair.
func checkedPair(t *testing.T, h *plan.House, set string, con plan.Conditions) []plan.Finding {
	t.Helper()
	brief := plan.DefaultBrief()
	brief.Rules, brief.Schemes, brief.Units[0].Bedrooms.Min, brief.Units[1].Bedrooms.Min = "none", 1, 0, 0
	s := schemeOf(t, h, brief)
	s.Linings = nil // as it stands: what lines the separation takes off the rooms is tested elsewhere
	for u := range s.Units {
		s.Units[u].LiningM2 = 0
	}
	return plan.Check(s, ruleSet(t, set), con)
}

// IRC R310.2.1 and R310.2.2, as Boulder County's publication B10 gives them:
// 5.7 ft2, 24 in high, 20 in wide, 44 in to the sill; NBC 9.9.10.1.(2): 0.35 m2
// and 380 mm; Approved Document B 2.10: 0.33 m2, 450 mm and 1100 mm.
func TestEscapeWindowsAtJustUnderAndJustOverTheLimits(t *testing.T) {
	for _, test := range []struct {
		set         string
		wide, high  float64 // of the clear opening
		sill        float64
		want        plan.Result
		fails       []string
		doesNotFail []string
	}{
		// Both least dimensions together are 3.33 ft2: too small by far.
		{"us-irc-2021", 20 * inch, 24 * inch, 0.9, plan.NotOK, []string{"escape-area"}, []string{"escape-width", "escape-height"}},
		{"us-irc-2021", 34.2 * inch, 24 * inch, 0.9, plan.OK, nil, nil},
		{"us-irc-2021", 20 * inch, 41.04 * inch, 0.9, plan.OK, nil, nil},
		// Often quoted as enough: 816 of 820.8 in2.
		{"us-irc-2021", 34 * inch, 24 * inch, 0.9, plan.NotOK, []string{"escape-area"}, nil},
		{"us-irc-2021", 40 * inch, 23.9 * inch, 0.9, plan.NotOK, []string{"escape-height"}, []string{"escape-area"}},
		{"us-irc-2021", 19.9 * inch, 44 * inch, 0.9, plan.NotOK, []string{"escape-width"}, []string{"escape-area"}},
		{"us-irc-2021", 36 * inch, 24 * inch, 44 * inch, plan.OK, nil, nil},
		{"us-irc-2021", 36 * inch, 24 * inch, 44.1 * inch, plan.NotOK, []string{"escape-sill"}, nil},
		{"ca-nbc-2020", 0.5, 0.7, 0.9, plan.OK, nil, nil},
		{"ca-nbc-2020", 0.5, 0.699, 0.9, plan.NotOK, []string{"escape-area"}, nil},
		{"ca-nbc-2020", 0.38, 0.95, 0.9, plan.OK, nil, nil},
		{"ca-nbc-2020", 0.379, 0.95, 0.9, plan.NotOK, []string{"escape-width"}, []string{"escape-area"}},
		{"uk-england", 0.45, 0.75, 1.1, plan.OK, nil, nil},
		{"uk-england", 0.45, 0.73, 1.1, plan.NotOK, []string{"escape-area"}, nil},
		{"uk-england", 0.449, 0.8, 1.1, plan.NotOK, []string{"escape-width"}, nil},
		{"uk-england", 0.45, 0.75, 1.101, plan.NotOK, []string{"escape-sill"}, nil},
	} {
		t.Run(fmt.Sprintf("%s %.3f x %.3f, sill %.3f m", test.set, test.wide, test.high, test.sill), func(t *testing.T) {
			h := pairWith(func(w *plan.Window) {
				w.Clear, w.ClearSaid, w.Operation = [2]float64{test.wide, test.high}, true, "casement"
				w.Sill, w.Height = test.sill, 1.2
			})
			h.Grade, h.GradeSaid = -0.3, true // the sill is 47 in above it or more: not at grade
			findings := checkedPair(t, h, test.set, plan.Conditions{})
			for _, rule := range test.fails {
				f := only(t, findings, rule, "a-window")
				assert.Equal(t, plan.NotOK, f.Result, rule)
				assert.NotEmpty(t, f.Cure)
			}
			for _, rule := range test.doesNotFail {
				assert.Equal(t, plan.OK, only(t, findings, rule, "a-window").Result, rule)
			}
			required := append(found(findings, "escape-required", "a-bed"), found(findings, "escape-habitable-rooms", "a-bed")...)
			require.Len(t, required, 1)
			assert.Equal(t, test.want, required[0].Result)
			assert.Equal(t, "window a-window", required[0].Provided)
		})
	}
}

// R310.2.1's exception: at grade 5.0 ft2 are enough. The ground beside the
// pair is where its doors are, at 0.
func TestAnOpeningAtGradeMayBeSmaller(t *testing.T) {
	for _, test := range []struct {
		high float64 // of an opening 30 in wide: 24 in are 5.0 ft2
		sill float64
		rule string
		want plan.Result
	}{
		{24 * inch, 44 * inch, "escape-area-at-grade", plan.OK},
		{23.99 * inch, 44 * inch, "escape-area-at-grade", plan.NotOK},
		{24.01 * inch, 43.99 * inch, "escape-area-at-grade", plan.OK},
	} {
		findings := checkedPair(t, pairWith(func(w *plan.Window) {
			w.Clear, w.ClearSaid, w.Sill = [2]float64{30 * inch, test.high}, true, test.sill
		}), "us-irc-2021", plan.Conditions{})
		assert.Equal(t, test.want, only(t, findings, test.rule, "a-window").Result)
		assert.Empty(t, found(findings, "escape-area", "a-window"))
	}
	// A millimetre farther from the ground, above or below, the full area is asked (R202: 44 in).
	for _, sill := range []float64{44*inch + 0.001, 44*inch - 0.001} {
		h := pairWith(func(w *plan.Window) {
			w.Clear, w.ClearSaid, w.Sill = [2]float64{30 * inch, 24 * inch}, true, sill
		})
		findings := checkedPair(t, h, "us-irc-2021", plan.Conditions{})
		assert.Equal(t, sill > 44*inch, len(found(findings, "escape-area", "a-window")) == 1, "%g m", sill)
	}
	// Higher above the ground the full area is asked.
	h := pairWith(func(w *plan.Window) { w.Clear, w.ClearSaid = [2]float64{30 * inch, 24 * inch}, true })
	h.Grade, h.GradeSaid = -0.3, true // the sill is 1.2 m above it, 47 in
	findings := checkedPair(t, h, "us-irc-2021", plan.Conditions{})
	assert.Equal(t, plan.NotOK, only(t, findings, "escape-area", "a-window").Result)
}

func TestAWindowWhoseClearOpeningWasNotSurveyed(t *testing.T) {
	for _, test := range []struct {
		operation  string
		wide, high float64 // of the opening in the wall
		want       plan.Result
		provided   string
	}{
		// A frame and sash of 0.05 m on each side, as an estimate: 0.9 x 1.1 m of a casement.
		{"casement", 1.0, 1.2, plan.NotSurveyed, "about 10.66 ft2"},
		{"sliding", 1.2, 1.2, plan.NotSurveyed, "about 6.51 ft2"}, // half the width: 0.55 x 1.1 m
		{"hung", 1.2, 1.2, plan.NotSurveyed, "about 6.51 ft2"},
		{"awning", 1.2, 1.2, plan.NotSurveyed, ""}, // no guess is worth anything
		{"", 1.2, 1.2, plan.NotSurveyed, ""},
		{"fixed", 1.2, 1.2, plan.NotOK, "0 ft2"},
		{"casement", 0.6, 0.8, plan.NotOK, "5.17 ft2"}, // even the whole opening is too small
	} {
		t.Run(fmt.Sprintf("%s %g x %g", test.operation, test.wide, test.high), func(t *testing.T) {
			h := pair().House()
			h = without(h, "a-window")
			h.Windows = append(h.Windows, housetest.New("w").Level("main", 0, 2.44).
				Window("a-window", "main", 0.9, test.high, 3, 7.2, 3+test.wide, 7.2).House().Windows[0])
			h.Windows[len(h.Windows)-1].Operation = test.operation
			h.Grade, h.GradeSaid = -0.3, true // the sill is 1.2 m above it, which is not at grade
			findings := checkedPair(t, h, "us-irc-2021", plan.Conditions{})
			f := only(t, findings, "escape-area", "a-window")
			assert.Equal(t, test.want, f.Result)
			assert.Equal(t, test.provided, f.Provided)
			assert.Equal(t, test.want, only(t, findings, "escape-required", "a-bed").Result)
			if test.want == plan.NotSurveyed {
				assert.False(t, f.Measured, "an estimate is no measure")
			}
		})
	}
}

// R310.2 (2012 numbering), as Litchfield Park lists it: 9 ft2, 36 in out and
// along the wall, a ladder where deeper than 44 in; NBC 9.9.10.1.(3): 760 mm.
func TestWellsOfWindowsBelowTheGround(t *testing.T) {
	basement := func(projection, width, below float64, said bool) *plan.House {
		h := pairWith(func(w *plan.Window) {
			w.Clear, w.ClearSaid, w.Sill = [2]float64{1, 1}, true, 0.1
			w.WellProjection, w.Width, w.WellSaid = projection, width, said
		})
		h.Grade, h.GradeSaid = 0.1+below, true // the sill is 0.1 m above the floor
		return h
	}
	for _, test := range []struct {
		set                      string
		projection, width, below float64
		said                     bool
		rule                     string
		want                     plan.Result
	}{
		{"us-irc-2021", 36 * inch, 36 * inch, 0.3, true, "escape-well-area", plan.OK},
		{"us-irc-2021", 36 * inch, 36 * inch, 0.3, true, "escape-well-projection", plan.OK},
		{"us-irc-2021", 35.9 * inch, 40 * inch, 0.3, true, "escape-well-projection", plan.NotOK},
		{"us-irc-2021", 40 * inch, 35.9 * inch, 0.3, true, "escape-well-width", plan.NotOK},
		{"us-irc-2021", 36 * inch, 35.9 * inch, 0.3, true, "escape-well-area", plan.NotOK},
		{"us-irc-2021", 1, 1, 0.3, false, "escape-well-area", plan.NotSurveyed},
		{"us-irc-2021", 1, 1, 44.1 * inch, true, "escape-well-ladder", plan.NotSurveyed},
		{"ca-nbc-2020", 0.76, 1, 0.3, true, "escape-well-projection", plan.OK},
		{"ca-nbc-2020", 0.759, 1, 0.3, true, "escape-well-projection", plan.NotOK},
	} {
		findings := checkedPair(t, basement(test.projection, test.width, test.below, test.said), test.set, plan.Conditions{})
		assert.Equal(t, test.want, only(t, findings, test.rule, "a-window").Result, "%s %s %v", test.set, test.rule, test.projection)
	}
	assert.Empty(t, found(checkedPair(t, basement(1, 1, 44*inch, true), "us-irc-2021", plan.Conditions{}), "escape-well-ladder", ""), "44 in deep needs none")
	assert.Empty(t, found(checkedPair(t, basement(0.1, 0.1, -0.1, false), "us-irc-2021", plan.Conditions{}), "escape-well-area", ""), "above the ground there is no well")
}

func TestABedroomWithoutAWindow(t *testing.T) {
	h := without(pair().House(), "a-window")
	f := only(t, checkedPair(t, h, "us-irc-2021", plan.Conditions{}), "escape-required", "a-bed")
	assert.Equal(t, plan.NotOK, f.Result)
	assert.Equal(t, "no window or door to the outside", f.Provided)
	// A door to the outside does as well (NBC 9.9.10.1.(1)).
	h = pair().Door("a-garden", "main", 3, 7.2, 3.9, 7.2).House()
	h = without(h, "a-window")
	f = only(t, checkedPair(t, h, "ca-nbc-2020", plan.Conditions{}), "escape-required", "a-bed")
	assert.Equal(t, plan.OK, f.Result)
	assert.Equal(t, "door a-garden", f.Provided)
}

// NBC 9.9.10.1.(1): not where the suite has sprinklers. The IRC lets a
// basement off only with ways out besides.
func TestSprinklersWaiveWhatTheSetSaysTheyWaive(t *testing.T) {
	h := without(pair().House(), "a-window")
	for set, want := range map[string]plan.Result{"ca-nbc-2020": plan.OK, "us-irc-2021": plan.NotOK} {
		findings := checkedPair(t, h, set, plan.Conditions{Sprinklers: plan.SprinklersThroughout})
		assert.Equal(t, want, only(t, findings, "escape-required", "a-bed").Result, set)
	}
	// R310.1, exception 2: a basement with two doors to the outside.
	h = pair().Door("a-second", "main", -0.1, 1, -0.1, 1.9).House()
	h = without(h, "a-window")
	h.Grade, h.GradeSaid = 0.5, true
	for sprinklers, want := range map[plan.Sprinklers]plan.Result{plan.SprinklersThroughout: plan.OK, plan.NoSprinklers: plan.NotOK} {
		assert.Equal(t, want, only(t, checkedPair(t, h, "us-irc-2021", plan.Conditions{Sprinklers: sprinklers}), "escape-required", "a-bed").Result, sprinklers)
	}
}

// Approved Document B 3.15: a room of the entrance storey that opens onto a
// hall to the way out needs no window; 3.7 and 3.16: others do.
func TestHabitableRoomsOffAHallToTheWayOut(t *testing.T) {
	h := without(pair().House(), "a-window")
	findings := checkedPair(t, h, "uk-england", plan.Conditions{})
	assert.Equal(t, plan.NotOK, only(t, findings, "escape-habitable-rooms", "a-bed").Result, "reached through the living room")
	for i := range h.Spaces {
		if h.Spaces[i].ID == "a-living" { // as if it were the hall
			h.Spaces[i].Use = plan.Hall
		}
	}
	brief := plan.DefaultBrief()
	brief.Rules, brief.Schemes = "none", 1
	brief.Share = append(brief.Share, "a-living")
	h = pairOffHalls()
	f := only(t, plan.Check(schemeOf(t, h, brief), ruleSet(t, "uk-england"), plan.Conditions{}), "escape-habitable-rooms", "a-bed")
	assert.Equal(t, plan.OK, f.Result)
	assert.Equal(t, "a-hall", f.Provided)
}

// pairOffHalls is the pair with a hall before a's rooms; its bedroom has no window.
//
//	    +-----+------+
//	    |bath |  bed |
//	4.1 +--d--+---d--+
//	    |    hall    d   outside on the left
//	2.6 +-----d------+
//	    |   living   |
func pairOffHalls() *plan.House {
	h := without(pair().House(), "a-living", "a-front", "a-window")
	d := housetest.New("hall").Level("main", 0, 2.44)
	d.Room("a-hall", plan.Hall, "main", 0, 2.6, 5, 4).Room("a-living", plan.Living, "main", 0, 0, 5, 2.5).Also(plan.Kitchen)
	d.Door("a-living-door", "main", 3, 2.55, 3.9, 2.55).Door("a-front", "main", -0.1, 2.8, -0.1, 3.7)
	d.Window("a-living-window", "main", 0.9, 1.2, 2, -0.1, 3.2, -0.1)
	more := d.House()
	h.Spaces = append(h.Spaces, more.Spaces...)
	h.Doors = append(h.Doors, more.Doors...)
	h.Windows = append(h.Windows, more.Windows...)
	return h
}

func TestRoomsSleptInThatAreNoBedroomsAreAskedFor(t *testing.T) {
	of := func(rooms int) []plan.Finding {
		var out []plan.Finding
		for _, f := range checkedPair(t, pair().House(), "us-irc-2021", plan.Conditions{SleepingRooms: rooms}) {
			if f.Figure.ID == "escape-required" && f.Subject == "" {
				out = append(out, f)
			}
		}
		return out
	}
	assert.Empty(t, of(0), "not said: every bedroom")
	assert.Empty(t, of(2), "the two bedrooms")
	require.Len(t, of(3), 1)
	assert.Equal(t, plan.NotSurveyed, of(3)[0].Result)
}
