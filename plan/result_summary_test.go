package plan_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/partition"
)

// cottageAnswer is an answer with the cottage as its only scheme.
func cottageAnswer() *plan.Answer {
	s := cottage()
	return &plan.Answer{
		Building: s.Building, Brief: &plan.Brief{Rules: "us-irc-2021"}, Prices: &plan.Prices{Note: "illustrative", Currency: "USD"},
		Status: partition.Proved, Complete: true, Schemes: []*plan.Scheme{s},
		Warnings: []plan.Warning{
			{Message: "no drain stack was surveyed"},
			{Feature: "yard", Message: "ring wound the wrong way: turned"},
			{Feature: "d1", Message: "door d1 lay 0.02 m off its wall: moved"},
		},
	}
}

// noAnswer is what comes of a question without an answer.
func noAnswer() *plan.Answer {
	a := cottageAnswer()
	a.Status, a.Schemes, a.Complete = partition.Infeasible, nil, false
	a.WhyNot = []string{"unit A asks for 4 bedrooms: the house has 1 space for it, and 1 more could take it on", "unit A avoids attic"}
	return a
}

func summaryOf(t *testing.T, a *plan.Answer) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, plan.WriteSummary(&b, a))
	return b.Bytes()
}

func TestSummaryIsWrittenAsContracted(t *testing.T) {
	golden(t, "cottage/summary.json", summaryOf(t, cottageAnswer()))
}

func TestSummaryOfAQuestionWithoutAnAnswer(t *testing.T) {
	golden(t, "cottage/summary-impossible.json", summaryOf(t, noAnswer()))
}

// The keys of the contract, object by object.
func TestSummaryHasEveryKeyOfTheContract(t *testing.T) {
	var top map[string]any
	require.NoError(t, json.Unmarshal(summaryOf(t, cottageAnswer()), &top))
	has := func(object any, keys ...string) map[string]any {
		m, ok := object.(map[string]any)
		require.True(t, ok, "%v is no object", object)
		for _, key := range keys {
			assert.Contains(t, m, key)
		}
		return m
	}
	first := func(list any) any {
		l, ok := list.([]any)
		require.True(t, ok && len(l) > 0, "%v is no list, or empty", list)
		return l[0]
	}
	has(top, "house", "survey_sha256", "rules", "schemes", "warnings")
	scheme := has(first(top["schemes"]), "id", "proved", "bound", "gap", "cost", "units", "shared", "works", "checks")
	has(scheme["cost"], "total", "works", "priorities")
	unit := has(first(scheme["units"]), "id", "name", "spaces", "area", "bedrooms", "bathrooms", "entries", "outdoor_m2", "parking")
	has(unit["area"], "net_m2", "gross_m2", "above_grade_m2", "below_grade_m2")
	has(first(scheme["shared"]), "id", "use", "accepted", "why", "cure")
	has(first(scheme["works"]), "id", "kind", "level", "spaces", "length_m", "area_m2", "cost", "line")

	assert.Equal(t, []any{}, scheme["checks"], "nothing is checked while no rule set is applied")
	assert.Contains(t, top["warnings"], plan.NothingChecked)
	assert.Equal(t, []any{"attic", "living", "stair"}, unit["spaces"])
}

func TestListsOfTheSummaryAreNeverNull(t *testing.T) {
	s := cottage()
	s.Shared, s.Works, s.Units[0].Cells, s.Units[0].Entries, s.Units[0].Notes = nil, nil, nil, nil, nil
	a := cottageAnswer()
	a.Schemes = []*plan.Scheme{s}
	for _, answer := range []*plan.Answer{a, noAnswer()} {
		assert.NotContains(t, string(summaryOf(t, answer)), "null")
	}
}
