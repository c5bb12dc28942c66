package plan_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/rules"
)

func readRules(t *testing.T, text string) *rules.Set {
	t.Helper()
	set, err := plan.ReadRules(strings.NewReader(text), "dir/my-town.rules.yaml")
	require.NoError(t, err)
	return set
}

// Two readers, one for the shipped files and one for a user's, agree on them.
func TestAShippedSetReadsAsAUsersFileToo(t *testing.T) {
	for _, id := range rules.ShippedIDs() {
		set, err := plan.ReadRules(bytes.NewReader(rules.ShippedText(id)), id+".yaml")
		require.NoError(t, err)
		assert.Equal(t, ruleSet(t, id), set, id)
	}
}

func TestAFileAmendsItsBaseFigureByFigure(t *testing.T) {
	set := readRules(t, `
base: us-irc-2021
edition: Ordinance 12
figures:
  escape-area: 6 ft2
  stall-width: none
  exit-doors: 2
  smoke-link-units: true
  ceiling-habitable: {limit: 2.2 m, clause: "4.2", when: all rooms, edition: Ordinance 7, source: town}
  second-unit-area: {limit: 80 m2, status: memory}
sources:
  town: {title: Town book, url: "https://example.org/book"}
`)
	base := ruleSet(t, "us-irc-2021")
	assert.Equal(t, "my-town", set.ID)
	assert.Equal(t, "us-irc-2021", set.Base)
	assert.Contains(t, set.Name, "as amended by my-town")
	assert.Equal(t, base.Lengths, set.Lengths)
	assert.Len(t, set.Figures, len(base.Figures), "one taken out, one put in")

	get := func(id rules.ID) rules.Figure {
		f, ok := set.Get(id)
		require.True(t, ok, id)
		return f
	}
	area := get("escape-area")
	assert.Equal(t, "at least 6 ft2", area.Required())
	assert.Equal(t, "amends R310.2.1", area.Clause)
	assert.Equal(t, "Ordinance 12", area.Edition)
	assert.Equal(t, rules.Own, area.Status)
	assert.Equal(t, "my-town.rules.yaml", area.Source.Title)
	assert.Equal(t, "net clear opening, reached by opening it the usual way", area.When, "the condition stays the base's")
	_, there := set.Get("stall-width")
	assert.False(t, there)
	assert.Equal(t, 2.0, get("exit-doors").Value())
	assert.True(t, get("smoke-link-units").Yes())
	ceiling := get("ceiling-habitable")
	assert.Equal(t, []string{"at least 2.2 m", "4.2", "all rooms", "Ordinance 7", "Town book", "https://example.org/book"},
		[]string{ceiling.Required(), ceiling.Clause, ceiling.When, ceiling.Edition, ceiling.Source.Title, ceiling.Source.URL})
	assert.Equal(t, rules.Memory, get("second-unit-area").Status)
	unchanged, _ := base.Get("escape-sill")
	assert.Equal(t, unchanged, get("escape-sill"))
}

func TestAFileWithoutABaseSaysOnlyWhatItSays(t *testing.T) {
	set := readRules(t, "set: lake\nname: Lake village\nlengths: feet\nfigures: {escape-sill: 44 in}\n")
	assert.Equal(t, "lake", set.ID)
	assert.Equal(t, "Lake village", set.Name)
	assert.Equal(t, rules.FeetInches, set.Lengths)
	require.Len(t, set.Figures, 1)
	assert.Equal(t, "lake", set.Figures[0].Clause)
}

func TestABriefNamesItsRuleSet(t *testing.T) {
	for text, want := range map[string]string{
		"":                    "us-irc-2021",
		"rules: uk-england":   "uk-england",
		"rules: ca-nbc-2020":  "ca-nbc-2020",
		"rules: none":         "",
		"rules: my-town.yaml": "file",
	} {
		t.Run(text, func(t *testing.T) {
			b := readBrief(t, text)
			assert.Equal(t, want == "file", b.RuleFile() != "")
			if want == "file" {
				b.RuleSet = readRules(t, "set: file\nfigures: {ceiling-habitable: 2.3 m}")
			}
			b.Schemes = 1
			answer, err := plan.Split(context.Background(), build(t, pairHigh(2.44)), b, plan.DefaultPrices(), plan.SplitOptions{})
			require.NoError(t, err)
			if want == "" {
				assert.Nil(t, answer.Rules)
				assert.Empty(t, answer.Schemes[0].Findings)
				return
			}
			assert.Equal(t, want, answer.Rules.ID)
			assert.NotEmpty(t, answer.Schemes[0].Findings)
		})
	}
}

func TestABriefSaysWhatASurveyCannotTell(t *testing.T) {
	assert.Equal(t, plan.Conditions{Suite: plan.Duplex, Sprinklers: plan.NoSprinklers}, readBrief(t, "").Conditions, "the cautious defaults")
	b := readBrief(t, "suite: secondary\nsprinklers: throughout\nalarms: linked\nfuel: gas\nsleeping_rooms: 4\n")
	assert.Equal(t, plan.Conditions{
		Suite: plan.Secondary, Sprinklers: plan.SprinklersThroughout, Alarms: plan.LinkedAlarms, Fuel: plan.Gas, SleepingRooms: 4,
	}, b.Conditions)
	assert.True(t, plan.Conditions{}.MayBurnFuel(), "not said is taken to burn fuel")
	assert.False(t, plan.Conditions{Fuel: plan.NoFuel}.MayBurnFuel())
}

func FuzzReadRules(f *testing.F) {
	seed(f, ".rules.yaml")
	for _, id := range rules.ShippedIDs() {
		f.Add(rules.ShippedText(id))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		set, err := plan.ReadRules(bytes.NewReader(data), "fuzz.rules.yaml")
		if err != nil {
			assert.Nil(t, set)
			refused(t, err)
			return
		}
		assert.NotEmpty(t, set.ID)
		for _, figure := range set.Figures {
			assert.NotEmpty(t, figure.Clause)
			assert.NotEmpty(t, figure.Edition)
			assert.NotEmpty(t, figure.Source.Title)
			assert.GreaterOrEqual(t, figure.Value(), 0.0)
			assert.NotEmpty(t, figure.Required())
			assert.NotEmpty(t, figure.Provided(figure.Value()))
		}
		var out bytes.Buffer
		require.NoError(t, rules.WriteText(&out, set))
		require.NoError(t, rules.WriteJSON(&out, set))
	})
}
