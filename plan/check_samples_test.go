package plan_test

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/plan/rules"
)

// findingLines writes findings, one a line.
func findingLines(findings []plan.Finding) []byte {
	var b bytes.Buffer
	for _, f := range findings {
		fmt.Fprintf(&b, "%-12s %-2s %s: %s %s", f.Result, f.Unit, f.Subject, f.Figure.ID, f.Required)
		if f.Provided != "" {
			fmt.Fprintf(&b, " | %s", f.Provided)
		}
		if f.Note != "" {
			fmt.Fprintf(&b, " | %s", f.Note)
		}
		if f.Cure != "" {
			fmt.Fprintf(&b, " | cure: %s", f.Cure)
		}
		b.WriteByte('\n')
	}
	return b.Bytes()
}

// checkedHouses are the samples under their briefs and the real duplex, each
// with its best scheme that divides no space.
func checkedHouses(t *testing.T) map[string]*plan.Scheme {
	t.Helper()
	out := map[string]*plan.Scheme{}
	for name, s := range sampleHouses(t) {
		brief := *s.brief
		brief.Schemes, brief.Cuts = 1, false
		out[name] = schemeOf(t, s.building.House, &brief)
	}
	brief := plan.DefaultBrief()
	brief.Schemes, brief.Cuts = 1, false
	out["duplex"] = schemeOf(t, duplex(t).House, brief)
	return out
}

// What each set says of each sample, read by eye: see the golden files.
func TestWhatTheRuleSetsSayOfTheSamples(t *testing.T) {
	houses := checkedHouses(t)
	for _, name := range slices.Sorted(maps.Keys(houses)) {
		for _, id := range rules.ShippedIDs() {
			t.Run(name+"/"+id, func(t *testing.T) {
				s := houses[name]
				con := s.Brief.Conditions
				s.Alarms = plan.PlaceAlarms(s, ruleSet(t, id), con)
				findings := plan.Check(s, ruleSet(t, id), con)
				golden(t, "checks/"+name+"."+id+".txt", findingLines(findings))
				assert.Equal(t, findings, plan.Check(s, ruleSet(t, id), con), "the same again")
				assertSound(t, findings)
			})
		}
	}
}

// assertSound checks what holds of any finding.
func assertSound(t *testing.T, findings []plan.Finding) {
	t.Helper()
	for _, f := range findings {
		about := fmt.Sprintf("%s of %s", f.Figure.ID, f.Subject)
		assert.Equal(t, f.Figure.Required(), f.Required, about)
		assert.Contains(t, []string{"", "A", "B"}, f.Unit, about)
		switch f.Result {
		case plan.OK:
			assert.Empty(t, f.Cure, about)
		case plan.NotOK:
			assert.True(t, f.Cure != "" || !f.Binding(), "%s has a cure", about)
		case plan.NotSurveyed:
			assert.NotEmpty(t, f.Cure+f.Note, "%s says what is missing", about)
		case plan.Informed:
			assert.False(t, f.Figure.Limits(), "%s: the set has no figure", about)
			assert.True(t, f.Measured, about)
		default:
			t.Errorf("%s: result %q", about, f.Result)
		}
		if f.Measured && f.Result != plan.Informed {
			assert.Equal(t, f.Result == plan.OK, f.Figure.Meets(f.Value), about)
			assert.NotEmpty(t, f.Provided, about)
		}
	}
}
