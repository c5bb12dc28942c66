package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// pairThatSlides is the pair in which a front door of A's slides, width metres wide.
func pairThatSlides(width float64) *plan.House {
	h := without(pair().House(), "a-front")
	h.Doors = append(h.Doors, oneLevel().Door("a-front", "main", 1, -0.1, 1+width, -0.1).Leaf(plan.Sliding).House().Doors...)
	return h
}

// IRC R311.2: one egress door of each dwelling is side-hinged. A sliding door
// is no such door, and a hinged one in its place is part of the works: 2,900.
func TestADoorThatSlidesGivesWayToOneThatTurns(t *testing.T) {
	for width, leaf := range map[float64]plan.Leaf{0.9: plan.Single, 1.2: plan.Single, 1.8: plan.Double} {
		brief := underTheIRC()
		s := schemeOf(t, pairThatSlides(width), brief)
		assert.InDelta(t, partyWalls+2900, s.Cost.Works, 1e-9)
		w := workOf(t, s, "new_entry")
		assert.Equal(t, "a-front", w.Of)
		var door *plan.Passage
		for i := range s.Passages {
			if s.Passages[i].Of == "a-front" {
				door = &s.Passages[i]
			}
		}
		require.NotNil(t, door)
		assert.Equal(t, plan.New, door.State)
		assert.Equal(t, leaf, door.Door.Leaf, "%g m wide", width)
		assert.Equal(t, []string{"a-front"}, s.Units[plan.UnitA].Entries)
		findings := plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{})
		assert.Equal(t, plan.OK, only(t, findings, "exit-doors", "A").Result)
	}
}

// Where the set does not count hinges, or a hinged door is there beside it, the
// sliding door stays.
func TestADoorThatSlidesStaysWhereItMay(t *testing.T) {
	brief := underTheIRC()
	brief.Rules = "ca-nbc-2020"
	assert.InDelta(t, partyWalls, schemeOf(t, pairThatSlides(1.8), brief).Cost.Works, 1e-9)

	h := pairThatSlides(1.8)
	h.Doors = append(h.Doors, oneLevel().Door("a-side", "main", -0.1, 1, -0.1, 1.9).House().Doors...)
	s := schemeOf(t, h, underTheIRC())
	assert.InDelta(t, partyWalls, s.Cost.Works, 1e-9)
	assert.Equal(t, []string{"a-side", "a-front"}, s.Units[plan.UnitA].Entries, "the way in first")
}

// With the door kept as it is by leave, a new entry elsewhere is bought.
func TestADoorThatMayNotBeTouchedIsNoWayOut(t *testing.T) {
	brief := underTheIRC()
	brief.Leave = []string{"a-front"}
	s := schemeOf(t, pairThatSlides(1.8), brief)
	w := workOf(t, s, "new_entry")
	assert.NotEqual(t, "a-front", w.Of)
	assert.Equal(t, plan.OK, only(t, plan.Check(s, ruleSet(t, "us-irc-2021"), plan.Conditions{}), "exit-doors", "A").Result)
}

// underTheIRC asks no more than the rule set does.
func underTheIRC() *plan.Brief {
	b := nothingAsked()
	b.Rules = "us-irc-2021"
	return b
}
