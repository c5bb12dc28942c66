package plan_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// Works on the window of a's bedroom of the pair (IRC 2021: 5.7 ft2, 24 x 20
// in, 44 in to the sill), priced by where it stands: 1,900 for another window
// in the same opening, 3,500 for an opening cut wider or lower, 5,500 for one
// cut into a foundation wall, 2,800 for a well (the shipped prices).
func TestAWindowThatCanBeMadeLegalHasAPriceByItsPlace(t *testing.T) {
	for name, test := range map[string]struct {
		draw  func(w *plan.Window)
		grade float64
		cost  float64
		can   bool
	}{
		"as it is":                        {func(w *plan.Window) { w.Clear, w.ClearSaid = [2]float64{0.8, 1.1}, true }, -0.3, 0, true},
		"not surveyed":                    {func(w *plan.Window) {}, -0.3, 0, true},
		"fixed, large enough":             {func(w *plan.Window) { w.Operation = "fixed" }, -0.3, 1900, true},
		"a slider that opens too little":  {func(w *plan.Window) { w.Clear, w.ClearSaid = [2]float64{0.5, 0.6}, true }, -0.3, 1900, true},
		"too low an opening":              {func(w *plan.Window) { w.Height, w.Operation = 0.5, "casement" }, -0.3, 3500, true},
		"too high a sill":                 {func(w *plan.Window) { w.Sill, w.Clear, w.ClearSaid = 1.3, [2]float64{0.9, 0.9}, true }, -0.3, 3500, true},
		"a sill to cut below the ground":  {func(w *plan.Window) { w.Sill, w.Clear, w.ClearSaid = 1.4, [2]float64{0.9, 0.9}, true }, 1.3, 5500 + 2800, true},
		"fixed, below the ground, a well": {func(w *plan.Window) { w.Operation, w.WellProjection, w.Width, w.WellSaid = "fixed", 1, 1, true }, 1.2, 1900, true},
		"a well too small": {func(w *plan.Window) {
			w.Clear, w.ClearSaid, w.WellProjection, w.Width, w.WellSaid = [2]float64{0.9, 0.9}, true, 0.5, 1, true
		}, 1.2, 2800, true},
	} {
		t.Run(name, func(t *testing.T) {
			h := pairWith(test.draw)
			h.Grade, h.GradeSaid = test.grade, true
			b := build(t, h)
			cost, can := plan.BedroomOf(b, plan.DefaultBrief(), plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
			assert.Equal(t, test.can, can)
			assert.Equal(t, test.cost, cost)
		})
	}
}

func TestARoomThatCannotLegallyBeABedroom(t *testing.T) {
	low := pairHigh(2.44)
	for i := range low.Spaces {
		if low.Spaces[i].ID == "a-bed" {
			low.Spaces[i].Height = 2.10
		}
	}
	for name, h := range map[string]*plan.House{
		"no outer wall":      noOuterWall(),
		"too small":          pairBed(2.1, 2.9),
		"too narrow":         pairBed(2.1, 4),
		"under a floor":      storeyAbove(low),
		"left, as the brief": pairWith(func(w *plan.Window) { w.Operation = "fixed" }),
	} {
		t.Run(name, func(t *testing.T) {
			brief := plan.DefaultBrief()
			brief.Leave = []string{"a-window"}
			b := build(t, h)
			_, can := plan.BedroomOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
			assert.False(t, can)
			brief.Rules = "none"
			_, can = plan.BedroomOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
			assert.True(t, can, "without a rule set any bedroom is one")
		})
	}
}

// noOuterWall is the pair without A's window, with a closet along the outer wall
// of the bedroom.
func noOuterWall() *plan.House {
	h := without(pair().House(), "a-window")
	more := oneLevel().Room("a-closet", plan.Closet, "main", 2.3, 7.2, 5, 8).House()
	h.Spaces = append(h.Spaces, more.Spaces...)
	return h
}

// storeyAbove puts an attic over the rooms, so that their ceilings are flat.
func storeyAbove(h *plan.House) *plan.House {
	d := pairOn(oneLevel()).Level("attic", 2.8, 2.0).Room("attic", plan.Unfinished, "attic", 0, 0, 10.2, 7.1).House()
	c := *h
	c.Levels = d.Levels
	c.Spaces = append(append([]plan.Space{}, h.Spaces...), d.Spaces[len(d.Spaces)-1])
	return &c
}

// A survey without any window has not surveyed them.
func TestWindowsThatNobodySurveyedAreNotMissed(t *testing.T) {
	b := build(t, without(pair().House(), "a-window", "b-window"))
	_, can := plan.BedroomOf(b, plan.DefaultBrief(), plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
	assert.True(t, can)
}

func TestASchemeBuysTheWindowThatABedroomNeeds(t *testing.T) {
	h := pairWith(func(w *plan.Window) { w.Operation = "fixed" })
	s := schemeOf(t, h, oneLegalScheme())
	var works []plan.Work
	for _, w := range s.Works {
		if w.Kind == "enlarge_window" {
			works = append(works, w)
		}
	}
	require.Len(t, works, 1)
	assert.Equal(t, "a-window", works[0].Of)
	assert.Equal(t, "A", works[0].Unit)
	assert.Equal(t, 1900.0, works[0].Cost)
	assert.Contains(t, works[0].Note, "in the same opening")
	assert.InDelta(t, partyWalls+1900, s.Cost.Works, 0.005)
	assert.Equal(t, 1, s.Units[0].Bedrooms)
	for _, w := range s.Windows {
		assert.Equal(t, w.ID == "a-window", w.State == plan.Enlarged, w.ID)
	}
	f := only(t, s.Findings, "escape-required", "a-bed")
	assert.Equal(t, plan.OK, f.Result)
	assert.Equal(t, "as the works make it", f.Note)
}

func TestABedroomThatIsNoneIsNotCountedAndTheReasonIsShown(t *testing.T) {
	h := pairWith(func(w *plan.Window) { w.Operation = "fixed" })
	brief := oneLegalScheme()
	brief.Units[0].Bedrooms.Min = 0
	s := schemeOf(t, h, brief)
	assert.Equal(t, 0, s.Units[0].Bedrooms, "nobody asked for it")
	assert.Equal(t, 1, s.Units[1].Bedrooms)
	note := strings.Join(s.Units[0].Notes, "\n")
	assert.Contains(t, note, "a-bed is not counted as a bedroom: window a-window will not do to escape by")
	assert.Contains(t, note, "enlarge window of a-window would make it one for 1,900.00")
	assert.InDelta(t, partyWalls, s.Cost.Works, 0.005, "and nothing is bought")
}

func TestTheReasonSaysWhichBedroomsCannotCount(t *testing.T) {
	h := pairWith(func(w *plan.Window) { w.Operation = "fixed" })
	brief := oneLegalScheme()
	brief.Leave = []string{"a-window"}
	answer, err := plan.Split(context.Background(), build(t, h), brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	assert.Empty(t, answer.Schemes)
	why := strings.Join(answer.WhyNot, "\n")
	assert.Contains(t, why, "asks for a bedroom: the house has 1 (b-bed), and no other room could be made one")
	assert.Contains(t, why, "; a-bed cannot count as a bedroom: window a-window will not do")
	assert.Contains(t, why, "`leave` keeps the work away that would put it right")
}

// oneLegalScheme asks for one scheme under the default rule set.
func oneLegalScheme() *plan.Brief {
	b := nothingAsked()
	b.Rules = ""
	return b
}
