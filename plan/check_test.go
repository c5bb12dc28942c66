package plan_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/rules"
)

// ruleSet gives a shipped set.
func ruleSet(t testing.TB, id string) *rules.Set {
	t.Helper()
	set, ok := rules.Shipped(id)
	require.True(t, ok, "set %s", id)
	return set
}

// schemeOf gives the best scheme of a house.
func schemeOf(t testing.TB, h *plan.House, brief *plan.Brief) *plan.Scheme {
	t.Helper()
	answer, err := plan.Split(context.Background(), build(t, h), brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	require.NotEmpty(t, answer.Schemes, "%s", answer.WhyNot)
	return answer.Schemes[0]
}

// found gives the findings of a rule about a subject; "" for any.
func found(findings []plan.Finding, rule, subject string) []plan.Finding {
	var out []plan.Finding
	for _, f := range findings {
		if (rule == "" || string(f.Figure.ID) == rule) && (subject == "" || f.Subject == subject) {
			out = append(out, f)
		}
	}
	return out
}

// only gives the one finding of a rule about a subject.
func only(t testing.TB, findings []plan.Finding, rule, subject string) plan.Finding {
	t.Helper()
	out := found(findings, rule, subject)
	require.Len(t, out, 1, "%s of %s", rule, subject)
	return out[0]
}

// pairHigh is the pair with ceilings of some height.
func pairHigh(height float64) *plan.House {
	return pairOn(housetest.New("test").Level("main", 0, height)).House()
}

func TestCeilingsAgainstTheirLimits(t *testing.T) {
	for _, test := range []struct {
		set    string
		suite  plan.Suite
		height float64
		rule   string
		room   string
		want   plan.Result
	}{
		// IRC R305.1: 7 ft for rooms, 6 ft 8 in for bathrooms; under a roof half of the
		// area at full height will do, which one height does not tell.
		{"us-irc-2021", plan.Duplex, 2.1336, "ceiling-habitable", "a-bed", plan.OK},
		{"us-irc-2021", plan.Duplex, 2.1326, "ceiling-habitable", "a-bed", plan.NotSurveyed},
		{"us-irc-2021", plan.Secondary, 2.1326, "ceiling-habitable", "a-bed", plan.NotSurveyed},
		{"us-irc-2021", plan.Duplex, 1.523, "ceiling-habitable", "a-bed", plan.NotOK}, // under 5 ft nothing counts
		{"us-irc-2021", plan.Duplex, 2.1326, "ceiling-bathroom", "a-bath", plan.OK},
		{"us-irc-2021", plan.Duplex, 2.032, "ceiling-bathroom", "a-bath", plan.OK},
		{"us-irc-2021", plan.Duplex, 2.031, "ceiling-bathroom", "a-bath", plan.NotSurveyed},
		// NBC 9.5.3.1.: 2.1 m, in a house with a secondary suite 1.95 m.
		{"ca-nbc-2020", plan.Duplex, 2.1, "ceiling-habitable", "b-living", plan.OK},
		{"ca-nbc-2020", plan.Duplex, 2.099, "ceiling-habitable", "b-living", plan.NotOK},
		{"ca-nbc-2020", plan.Secondary, 2.099, "ceiling-suite", "b-living", plan.OK},
		{"ca-nbc-2020", plan.Secondary, 1.949, "ceiling-suite", "b-living", plan.NotOK},
		// The space standard, 10(i): 2.3 m over three quarters of the unit.
		{"uk-england", plan.Duplex, 2.3, "ceiling-dwelling-share", "A", plan.OK},
		{"uk-england", plan.Duplex, 2.299, "ceiling-dwelling-share", "A", plan.NotOK},
	} {
		t.Run(fmt.Sprintf("%s %s %g m", test.set, test.rule, test.height), func(t *testing.T) {
			findings := plan.Check(schemeOf(t, pairHigh(test.height), nothingAsked()), ruleSet(t, test.set), plan.Conditions{Suite: test.suite})
			f := only(t, findings, test.rule, test.room)
			assert.Equal(t, test.want, f.Result)
			assert.Equal(t, test.want != plan.OK, f.Cure != "", "a cure where it is not ok: %q", f.Cure)
		})
	}
}

// The share of full height is that of the area: living room and bedroom of A,
// 20 + 8.1 m2, are 2.4 m high, its bathroom of 6.6 m2 is not: 28.1 of 34.7 m2.
func TestCeilingShareGoesByArea(t *testing.T) {
	h := pairHigh(2.4)
	for i := range h.Spaces {
		if h.Spaces[i].ID == "a-bath" {
			h.Spaces[i].Height = 2.2
		}
	}
	f := only(t, plan.Check(schemeOf(t, h, nothingAsked()), ruleSet(t, "uk-england"), plan.Conditions{}), "ceiling-dwelling-share", "A")
	assert.Equal(t, plan.OK, f.Result)
	assert.InDelta(t, 28.1/34.7, f.Value, 1e-6)
	assert.Equal(t, "81 %", f.Provided)
}

// Under another storey a ceiling is flat, and one height tells all of it.
func TestAFlatCeilingThatIsTooLow(t *testing.T) {
	for height, want := range map[float64]plan.Result{2.1336: plan.OK, 2.1326: plan.NotOK} {
		s := schemeOf(t, storeyAbove(pairHigh(height)), nothingAsked())
		assert.Equal(t, want, only(t, plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{}), "ceiling-habitable", "a-bed").Result, "%g m", height)
	}
}

func TestWithoutARuleSetNothingIsFound(t *testing.T) {
	assert.Empty(t, plan.Check(schemeOf(t, pairHigh(2.0), nothingAsked()), nil, plan.Conditions{}))
}
