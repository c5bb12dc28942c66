package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// blindBed is the pair whose bedroom of A has no window, the ground somewhere
// above the floor; its outer walls are 2.7 m (north) and, between A and B, none.
func blindBed(ground float64) *plan.House {
	h := without(pair().House(), "a-window")
	h.Grade, h.GradeSaid = ground, true
	return h
}

func newWindowOf(t testing.TB, s *plan.Scheme) plan.PlacedWindow {
	t.Helper()
	for _, w := range s.Windows {
		if w.State == plan.New {
			return w
		}
	}
	t.Fatalf("no new window in %v", works(s))
	return plan.PlacedWindow{}
}

// A bedroom without a window gets one in its outer wall, by the shipped prices
// 4,200 above the ground, 6,500 in a foundation wall and 2,800 for its well.
func TestABedroomWithoutAWindowGetsOne(t *testing.T) {
	for _, test := range []struct {
		name   string
		set    string
		ground float64
		cost   float64
	}{
		{"above the ground", "us-irc-2021", -0.3, 4200},
		{"just above the sill", "us-irc-2021", 0.90, 4200},
		{"just below the ground", "us-irc-2021", 0.91, 6500 + 2800},
		{"deep below the ground", "us-irc-2021", 1.8, 6500 + 2800},
		{"Canada", "ca-nbc-2020", -0.3, 4200},
		{"Canada, below", "ca-nbc-2020", 1.8, 6500 + 2800},
	} {
		t.Run(test.name, func(t *testing.T) {
			h := blindBed(test.ground)
			b := build(t, h)
			brief := plan.DefaultBrief()
			brief.Rules = test.set
			cost, can := plan.BedroomOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
			assert.True(t, can)
			assert.Equal(t, test.cost, cost)
		})
	}
}

// The window that the works cut in is one to escape by under each set, and
// lights and airs the room as the set asks, when it is surveyed like any other.
func TestANewWindowMeetsTheSetThatAsksForIt(t *testing.T) {
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020", "uk-england"} {
		for _, ground := range []float64{-0.3, 1.6} {
			h := blindBed(ground)
			if ground > 0 {
				// The doors of a house so deep in the ground lead to steps down.
				h.Grade = ground
			}
			b := build(t, h)
			brief := plan.DefaultBrief()
			brief.Rules = set
			window, ok := plan.NewWindowOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
			require.True(t, ok, "%s, ground at %g m", set, ground)
			h.Windows = append(h.Windows, *window)
			s := ownedScheme(t, h)
			findings := plan.Check(s, ruleSet(t, set), plan.Conditions{})
			n := 0
			for _, f := range findings {
				if f.Subject == window.ID || f.Subject == "a-bed" && (f.Figure.Topic == "escape openings" || f.Figure.Topic == "daylight and air") {
					if f.Figure.ID == "escape-well-ladder" {
						continue // a ladder is asked for, and nobody surveyed one
					}
					n++
					assert.Equal(t, plan.OK, f.Result, "%s, ground at %g m: %s of %s: %s", set, ground, f.Figure.ID, f.Subject, f.Provided)
				}
			}
			assert.Greater(t, n, 3, set)
		}
	}
}

// The works of a scheme hold the window, its price and its place: in the wall,
// clear of the corners, in the middle of what is free.
func TestASchemeCutsTheWindowIn(t *testing.T) {
	s := schemeOf(t, blindBed(-0.3), oneLegalScheme())
	work := workOf(t, s, "new_window")
	assert.Equal(t, 4200.0, work.Cost)
	assert.Equal(t, "A", work.Unit)
	assert.InDelta(t, partyWalls+4200, s.Cost.Works, 0.005)
	assert.Equal(t, 1, s.Units[0].Bedrooms)
	w := newWindowOf(t, s)
	assert.Equal(t, work.Of, w.ID)
	assert.Equal(t, "a-bed", w.Cell)
	assert.Equal(t, "A", w.Unit)
	x, y := w.Line.Mid().Metres()
	assert.InDelta(t, 3.65, x, 0.001, "the middle between 2.3 and 5")
	assert.InDelta(t, 7.1, y, 0.35, "in the north wall")
	f := only(t, s.Findings, "escape-required", "a-bed")
	assert.Equal(t, plan.OK, f.Result)
	assert.Equal(t, "window "+w.ID, f.Provided)
	assert.Equal(t, plan.OK, only(t, s.Findings, "glass-share", "a-bed").Result)
}

// A wall of 0.90 m of window and 0.12 m at either side is the shortest, by the
// clear width of 20 in (IRC R310.2.2) even less: 0.508 + 0.10 of frame.
func TestAWallTooShortForAWindow(t *testing.T) {
	for _, test := range []struct {
		wall float64
		can  bool
	}{{0.849, false}, {0.87, true}, {1.2, true}} {
		// The bedroom's outer wall is taken up by a window that is too small, but
		// for a stretch at its eastern end.
		d := pairOn(housetest.New("test").Level("main", 0, 2.44)).Window("a-slit", "main", 1.6, 0.3, 2.31, 7.2, 5-test.wall, 7.2)
		h := without(d.House(), "a-window")
		h.Grade, h.GradeSaid = -0.3, true
		b := build(t, h)
		brief := plan.DefaultBrief()
		brief.Leave = []string{"a-slit"}
		_, ok := plan.NewWindowOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
		assert.Equal(t, test.can, ok, "%g m", test.wall)
	}
}

// Where the brief keeps its hands off the room or the wall, no window is cut.
func TestAWallThatIsLeftGetsNoWindow(t *testing.T) {
	d := pairOn(housetest.New("test").Level("main", 0, 2.44)).Bearing("north-wall", "main", 2.3, 7.2, 5, 7.2)
	h := without(d.House(), "a-window")
	b := build(t, h)
	for _, leave := range []string{"a-bed", "north-wall"} {
		brief := plan.DefaultBrief()
		brief.Leave = []string{leave}
		_, can := plan.BedroomOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
		assert.False(t, can, leave)
	}
}

// Turned or mirrored, the house gets the same window at the same price.
func TestANewWindowTurnsWithTheHouse(t *testing.T) {
	brief := plan.DefaultBrief()
	h := blindBed(1.2)
	b := build(t, h)
	want, ok := plan.NewWindowOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
	require.True(t, ok)
	for _, moved := range []*plan.House{housetest.Turned(h, 90), housetest.Turned(h, 33), housetest.Mirrored(h)} {
		b := build(t, moved)
		got, ok := plan.NewWindowOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
		require.True(t, ok)
		assert.InDelta(t, want.Line.Length(), got.Line.Length(), 3e-5)
		assert.InDelta(t, want.Sill, got.Sill, 1e-9)
		assert.InDelta(t, want.Height, got.Height, 1e-9)
		assert.Less(t, b.Cells[cellIndex(t, b, "a-bed")].Region.DistanceToBorder(got.Line.Mid()), 0.35)
	}
}

// Whatever the ceiling, the wall and the ground: a window that is offered is one
// to escape by when it is surveyed, lies in the wall and below the ceiling.
func TestEveryNewWindowThatIsOfferedWillDo(t *testing.T) {
	offered := 0
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020", "uk-england"} {
		for _, ceiling := range []float64{1.95, 2.14, 2.44, 3.0} {
			for _, ground := range []float64{-2, -0.3, 0.8, 1.1, 1.5, 2.0} {
				h := pairHigh(ceiling)
				h = without(h, "a-window")
				h.Grade, h.GradeSaid = ground, true
				b := build(t, h)
				brief := plan.DefaultBrief()
				brief.Rules = set
				window, ok := plan.NewWindowOf(b, brief, plan.DefaultPrices(), cellIndex(t, b, "a-bed"))
				if !ok {
					continue
				}
				offered++
				about := fmt.Sprintf("%s, ceiling %g, ground %g: %.2f x %.2f m, sill %.2f", set, ceiling, ground, window.Line.Length(), window.Height, window.Sill)
				assert.LessOrEqual(t, window.Sill+window.Height, ceiling-0.1999, about)
				assert.GreaterOrEqual(t, window.Sill, 0.15-1e-9, about)
				h.Windows = append(h.Windows, *window)
				for _, f := range found(plan.Check(ownedScheme(t, h), ruleSet(t, set), plan.Conditions{Suite: plan.Secondary}), "", window.ID) {
					if f.Figure.Topic == "escape openings" && f.Figure.ID != "escape-well-ladder" {
						assert.Equal(t, plan.OK, f.Result, "%s: %s %s", about, f.Figure.ID, f.Provided)
					}
				}
			}
		}
	}
	assert.Greater(t, offered, 50)
}
