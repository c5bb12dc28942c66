package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairOnAWalk is the pair at a street, with a walk along its front to A's door
// that passes a window of B, off metres in front of the wall, sill above the floor.
func pairOnAWalk(off, sill float64) *plan.House {
	d := pairOn(oneLevel()).Site("site", 0)
	d.Room("street", plan.Street, "site", 14, -8, 18, 8)
	d.Room("c-walk", plan.Walk, "site", 0, -off-1.2, 14, -off)
	if off > 0.2 {
		d.Room("a-porch", plan.Patio, "site", 0.9, -off, 2.1, -0.2).Room("b-porch", plan.Patio, "site", 8.2, -off, 9.4, -0.2)
	}
	d.Window("b-side", "main", sill, 1.2, 5.6, -0.1, 6.8, -0.1)
	return d.House()
}

// No set has a figure for how far the entrances are apart or how near one
// unit's way may come to the other's windows: measured, for information.
func TestEntrancesAndWaysPastWindowsAreToldForInformation(t *testing.T) {
	for _, set := range []string{"us-irc-2021", "ca-nbc-2020", "uk-england"} {
		findings := plan.Check(ownedScheme(t, pairOnAWalk(0.2, 0.9)), ruleSet(t, set), plan.Conditions{})
		f := only(t, findings, "entrances-apart", "")
		assert.Equal(t, plan.Informed, f.Result)
		assert.InDelta(t, 8.75-1.45, f.Value, 1e-9, "the doors' middles")
		assert.Equal(t, "no figure in the set", f.Required)
		past := only(t, findings, "way-past-window", "b-side")
		assert.Equal(t, plan.Informed, past.Result)
		assert.Equal(t, "A", past.Unit, "A's people pass it")
		assert.Contains(t, past.Note, "A")
		assert.Less(t, past.Value, 1.5)
		assert.Empty(t, past.Cure)
	}
	// Nobody looks in at a window whose sill is above eye height, 1.8 m.
	for sill, n := range map[float64]int{1.8: 1, 1.81: 0} {
		findings := plan.Check(ownedScheme(t, pairOnAWalk(0.2, sill)), ruleSet(t, "us-irc-2021"), plan.Conditions{})
		assert.Len(t, found(findings, "way-past-window", "b-side"), n, "%g m", sill)
	}
}

// A town that has figures gets findings like any other.
func TestATownsFiguresForEntrancesAndWindows(t *testing.T) {
	s := ownedScheme(t, pairOnAWalk(0.2, 0.9))
	for limit, want := range map[string]plan.Result{"7.3 m": plan.OK, "7.301 m": plan.NotOK, "7.299 m": plan.OK} {
		set := readRules(t, fmt.Sprintf("base: us-irc-2021\nfigures: {entrances-apart: %s, way-past-window: 2 m}\n", limit))
		findings := plan.Check(s, set, plan.Conditions{})
		assert.Equal(t, want, only(t, findings, "entrances-apart", "").Result, limit)
		f := only(t, findings, "way-past-window", "b-side")
		assert.Equal(t, plan.NotOK, f.Result)
		assert.NotEmpty(t, f.Cure)
	}
}

// NBC 9.10.12.3.(1)(b): 1.2 m between openings of the two units in walls that
// meet at 135 degrees or less. A's window in the wall facing north, its edge east
// of it by 1 m from the corner; B's in the wall facing west.
func TestOpeningsAboutACorner(t *testing.T) {
	for _, off := range []float64{-0.001, 0, 0.001} {
		d := housetest.New("corner").Level("main", 0, 2.4)
		d.Room("a-living", plan.Living, "main", 0, 0, 8, 5).Room("b-living", plan.Living, "main", 8.2, 0, 14, 12)
		// From (7.38, 5.1) to (8.1, 6.06 + off): 0.72 east, 0.96 north, 1.2 m.
		d.Window("a-north", "main", 0.9, 1.2, 6, 5.1, 7.38, 5.1).Window("b-west", "main", 0.9, 1.2, 8.1, 6.06+off, 8.1, 7.5)
		f := only(t, plan.Check(ownedScheme(t, d.House()), ruleSet(t, "ca-nbc-2020"), plan.Conditions{}), "opening-corner-distance", "a-north")
		assert.Equal(t, off >= 0, f.Result == plan.OK, f.Provided)
		assert.InDelta(t, 1.2, f.Value, 0.002)
		assert.Contains(t, f.Note, "b-west")
	}
}

// AD M1 1.6(c): a path of 900 mm to the entrance.
func TestThePathToTheEntrance(t *testing.T) {
	for wide, want := range map[float64]plan.Result{0.900: plan.OK, 0.899: plan.NotOK, 0.901: plan.OK} {
		d := pairOn(oneLevel()).Site("site", 0)
		d.Room("street", plan.Street, "site", 14, -8, 18, 8).Room("c-walk", plan.Walk, "site", 0, -0.2-wide, 14, -0.2)
		f := only(t, plan.Check(ownedScheme(t, d.House()), ruleSet(t, "uk-england"), plan.Conditions{}), "approach-width", "A")
		assert.Equal(t, want, f.Result, "%g m: %s", wide, f.Provided)
	}
}
