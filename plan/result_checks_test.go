package plan_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/rules"
)

// checkedCottage is the cottage with three findings, one of each result.
func checkedCottage(t *testing.T) *plan.Answer {
	t.Helper()
	set := ruleSet(t, "us-irc-2021")
	get := func(id rules.ID) rules.Figure {
		f, ok := set.Get(id)
		require.True(t, ok)
		return f
	}
	a := cottageAnswer()
	a.Rules = set
	area, required, ceiling := get("escape-area"), get("escape-required"), get("ceiling-under-beams")
	a.Schemes[0].Findings = []plan.Finding{
		{Figure: required, Unit: "A", Subject: "bed", Required: required.Required(), Provided: "w1", Result: plan.OK},
		{
			Figure: area, Unit: "A", Subject: "w1", Required: area.Required(), Provided: area.Provided(0.3), Value: 0.3, Measured: true,
			Result: plan.NotOK, Note: "as surveyed", Cure: "a larger window",
		},
		{Figure: ceiling, Unit: "B", Subject: "living", Required: ceiling.Required(), Result: plan.NotSurveyed, Cure: "measure it"},
	}
	return a
}

func TestFindingsStandInTheSummary(t *testing.T) {
	var top struct {
		Rules    string
		Warnings []string
		Schemes  []struct{ Checks []map[string]any }
	}
	require.NoError(t, json.Unmarshal(summaryOf(t, checkedCottage(t)), &top))
	assert.Equal(t, "us-irc-2021", top.Rules)
	assert.NotContains(t, top.Warnings, plan.NothingChecked)
	checks := top.Schemes[0].Checks
	require.Len(t, checks, 3)
	assert.Equal(t, map[string]any{
		"rule": "escape-area", "topic": "escape openings", "clause": "R310.2.1", "edition": "IRC 2021 (2018 alike)",
		"source": "Boulder County, CO, publication B10", "status": "read", "unit": "A", "subject": "w1",
		"required": "at least 5.7 ft2", "provided": "3.23 ft2", "quantity": "area_m2", "limit": 0.529547, "value": 0.3,
		"ok": false, "result": "not ok", "advice": false, "note": "as surveyed", "cure": "a larger window",
	}, checks[1])
	assert.Equal(t, true, checks[0]["ok"])
	assert.Nil(t, checks[0]["limit"], "what is asked has no number")
	assert.Equal(t, "memory", checks[2]["status"])
	assert.Equal(t, false, checks[2]["ok"], "what is not surveyed is not ok, and says why")
	assert.Equal(t, "not surveyed", checks[2]["result"])
}

func TestTheReadableSummaryTellsWhatIsNotOKAndWhatIsNotSurveyed(t *testing.T) {
	text := strings.Join(strings.Fields(textOf(t, checkedCottage(t))), " ")
	assert.Contains(t, text, "Checks against United States, International Residential Code 2021 1 ok, 1 not ok, 1 not surveyed")
	assert.Contains(t, text, "- NOT OK: clear area of an escape opening at least 5.7 ft2 (R310.2.1, IRC 2021 (2018 alike)) – w1 of A: 3.23 ft2. As surveyed. Cure: a larger window.")
	assert.Contains(t, text, "- NOT SURVEYED: under beams and ducts at least 76 in, from memory (R305.1.1, IRC 2018 and 2021) – living of B. Cure: measure it.")
	assert.NotContains(t, text, "escape opening of each sleeping room", "what is ok is counted")
	assert.Contains(t, text, "for screening only: local codes and amendments rule, and licensed designers, engineers and trades decide")
	set := ruleSet(t, "us-irc-2021")
	assert.Contains(t, text, fmt.Sprintf("%d of its %d figures are from memory and say so", set.FromMemory(), len(set.Figures)))
	assert.NotContains(t, text, plan.NothingChecked)
}

func TestFindingsThatSayTheSameAreToldTogether(t *testing.T) {
	a := checkedCottage(t)
	more := a.Schemes[0].Findings[2]
	more.Subject, more.Unit = "bed", "A"
	a.Schemes[0].Findings = append(a.Schemes[0].Findings, more)
	assert.Contains(t, strings.Join(strings.Fields(textOf(t, a)), " "), "– living of B, bed of A. Cure: measure it.")
}

func TestChecksAreAScheduleToo(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, plan.WriteChecks(&out, checkedCottage(t).Schemes[0]))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 5)
	column := func(name string) int {
		for i, head := range rows[0] {
			if head == name {
				return i
			}
		}
		require.Fail(t, "no column "+name)
		return 0
	}
	assert.Equal(t, []string{"ok", "not ok", "not surveyed"}, []string{rows[1][0], rows[2][0], rows[3][0]})
	assert.Equal(t, "caution", rows[4][0], "the last row says what the others are worth")
	assert.Equal(t, plan.ScreeningNote, rows[4][column("note")])
	assert.Equal(t, "0.3", rows[2][column("value")])
	assert.Equal(t, "", rows[3][column("value")], "nothing was measured")
	assert.Equal(t, "1.9304", rows[3][column("limit")], "76 in")
}
