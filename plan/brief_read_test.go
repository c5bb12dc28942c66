package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func readBrief(t *testing.T, text string) *plan.Brief {
	t.Helper()
	b, err := plan.ReadBrief(strings.NewReader(text), "test.brief.yaml")
	require.NoError(t, err)
	return b
}

// asked is what a brief says, without where it says it.
func asked(b *plan.Brief) plan.Brief {
	return plan.Brief{Units: b.Units, Share: b.Share, Leave: b.Leave, Rules: b.Rules, Prices: b.Prices, Priorities: b.Priorities, Schemes: b.Schemes, Cuts: b.Cuts}
}

func TestWithoutABriefTwoUnitsOfOneBedroomAreAsked(t *testing.T) {
	one := plan.Range{Min: 1}
	want := plan.Brief{
		Units:      [2]plan.UnitBrief{{ID: "A", Name: "Unit A", Bedrooms: one}, {ID: "B", Name: "Unit B", Bedrooms: one}},
		Share:      []string{"walk", "drive"},
		Priorities: plan.Priorities{Noise: 1, Balance: 1, Walk: 1},
		Schemes:    5,
		Cuts:       true,
	}
	assert.Equal(t, want, asked(plan.DefaultBrief()))
	for name, text := range map[string]string{
		"an empty file":            "",
		"only a comment":           "# nothing yet\n",
		"keys without values":      "units:\nshare:\npriorities:\nschemes:\n",
		"units that ask nothing":   "units:\n  - id: A\n  - id: B\n",
		"a null document":          "---\n",
		"one unit, without its id": "units:\n  - {}\n",
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, want, asked(readBrief(t, text))) })
	}
}

// The brief of the format's description, word for word.
func TestAWholeBriefIsRead(t *testing.T) {
	b := readBrief(t, `
units:
  - id: A
    name: Garden unit
    bedrooms: {min: 2}
    area: {min: 60, share: 0.5}      # m2; wanted share of the heated area
    keep: [living, bed-1]            # spaces that must be this unit's
    avoid: [garage]
    entry_from: street               # an outdoor space that its entry must open to
    parking: {min: 1}
    outdoor: {min_area: 20}
  - id: B
    bedrooms: {min: 1}
share: [water_heater, walk]          # what may stay shared: ids, uses of spaces or of fixtures
leave: [wall-7, win-3]               # features and spaces that no work may touch
rules: us-irc-2021                   # a rule set, or a file of one's own
prices: prices.yaml
priorities: {noise: 1.0, balance: 0.5, walk: 0}
schemes: 3
cuts: false
`)
	assert.Equal(t, plan.Brief{
		Units: [2]plan.UnitBrief{
			{ID: "A", Name: "Garden unit", Bedrooms: plan.Range{Min: 2}, AreaMin: 60, AreaShare: 0.5, Keep: []string{"living", "bed-1"},
				Avoid: []string{"garage"}, EntryFrom: "street", Parking: plan.Range{Min: 1}, OutdoorMin: 20},
			{ID: "B", Name: "Unit B", Bedrooms: plan.Range{Min: 1}},
		},
		Share: []string{"water_heater", "walk"}, Leave: []string{"wall-7", "win-3"},
		Rules: "us-irc-2021", Prices: "prices.yaml",
		Priorities: plan.Priorities{Noise: 1, Balance: 0.5, Walk: 0}, Schemes: 3, Cuts: false,
	}, asked(b))
}

func TestShortFormsMeanTheLongOnes(t *testing.T) {
	for short, long := range map[string]string{
		"units: [{bedrooms: 2}]":                "units: [{bedrooms: {min: 2}}]",
		"units: [{parking: 1}]":                 "units: [{parking: {min: 1}}]",
		"units: [{area: 60}]":                   "units: [{area: {min: 60}}]",
		"units: [{area: {share: 55%}}]":         "units: [{area: {share: 0.55}}]",
		"units: [{outdoor: 20}]":                "units: [{outdoor: {min_area: 20}}]",
		"units: [{keep: kitchen}]":              "units: [{keep: [kitchen]}]",
		"units: [{keep: [101, kitchen]}]":       `units: [{keep: ["101", kitchen]}]`,
		"units: [{keep: [kitchen, kitchen]}]":   "units: [{keep: [kitchen]}]",
		"units: {B: {bedrooms: 2}}":             "units: [{id: B, bedrooms: {min: 2}}]",
		"units: [{id: B, name: Loft}, {id: A}]": "units: [{id: A}, {id: B, name: Loft}]",
		"units: [{id: B, bedrooms: 3}]":         "units: [{}, {bedrooms: 3}]",
		"share: walk":                           "share: [walk]",
		"units: [{bedrooms: {max: 0}}]":         "units: [{bedrooms: {min: 0, max: 0}}]",
		"units: [{bedrooms: {max: 4}}]":         "units: [{bedrooms: {min: 1, max: 4}}]",
		"units: [{name: 12}]":                   `units: [{name: "12"}]`,
		"priorities: {noise: 2}":                "priorities: {noise: 2, balance: 1, walk: 1}",
	} {
		t.Run(short, func(t *testing.T) { assert.Equal(t, asked(readBrief(t, long)), asked(readBrief(t, short))) })
	}
}

func TestNothingIsSharedWhenTheBriefSaysSo(t *testing.T) {
	assert.Empty(t, readBrief(t, "share: []").Share)
}

func TestABriefFitsAHouseThatHasWhatItNames(t *testing.T) {
	h := readHouse(t, "two-rooms")
	for name, text := range map[string]string{
		"ids":                         "units: [{keep: [kitchen, stair], avoid: bedroom}]\nleave: [window, sink, door, living]",
		"uses":                        "units: [{keep: living}]\nshare: [kitchen, sink]",
		"a use that it has not":       "share: [water_heater, drive]",
		"the brief that nobody wrote": "",
	} {
		t.Run(name, func(t *testing.T) { assert.NoError(t, readBrief(t, text).Check(h)) })
	}
}

// A word that is an id means that space alone; otherwise it means all spaces of
// that use.
func TestAWordOfABriefIsAnIDBeforeItIsAUse(t *testing.T) {
	two := func(first, second string) *plan.House {
		return mustRead(t, oneRoom("", `, "use": "bedroom"`, `, {"type": "Feature", "id": "`+first+`",
		"geometry": {"type": "Polygon", "coordinates": [[[6,0], [9,0], [9,4], [6,4], [6,0]]]},
		"properties": {"kind": "space", "use": "`+second+`", "level": "main"}}`))
	}
	brief := readBrief(t, "units: [{keep: room}, {keep: bedroom}]")
	assert.NoError(t, brief.Check(two("bedroom", "bedroom")), "the second is called bedroom")
	assert.ErrorContains(t, brief.Check(two("second", "bedroom")), "room is kept by both units")
}

func TestThePublicWayIsNobodysToKeep(t *testing.T) {
	h := mustRead(t, oneRoom("", `, "use": "bedroom"`, `, {"type": "Feature", "id": "front",
		"geometry": {"type": "Polygon", "coordinates": [[[0,-9], [9,-9], [9,-5], [0,-5], [0,-9]]]},
		"properties": {"kind": "space", "use": "street", "level": "site"}}`))
	assert.ErrorContains(t, readBrief(t, "units: [{keep: street}]").Check(h), "front is the public way")
	assert.NoError(t, readBrief(t, "units: [{entry_from: street}, {entry_from: front}]").Check(h))
	assert.ErrorContains(t, readBrief(t, "units: [{entry_from: room}]").Check(h), "room is indoors; outdoors the house has front")
	assert.ErrorContains(t, readBrief(t, "units: [{entry_from: porch}]").Check(h), "the house has no porch; outdoors it has front")
}
