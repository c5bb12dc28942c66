package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/partition"
)

const (
	entryOfA     = "unit A needs an entry door of its own from the public way, and rooms that hang together without passing through bedrooms, bathrooms or closets"
	hangTogether = "the rooms of a unit hang together, and nobody passes through a bedroom, bathroom, closet, laundry, furnace room or garage to reach others"
)

// Briefs that cannot be met, each with the smallest set of demands that
// cannot hold together.
func TestWhyThereIsNoScheme(t *testing.T) {
	demands := func(change func(a, b *plan.UnitBrief)) *plan.Brief {
		brief := nothingAsked()
		change(&brief.Units[0], &brief.Units[1])
		return brief
	}
	tests := map[string]struct {
		house *plan.House
		brief *plan.Brief
		want  []string
	}{
		"more bedrooms than there could ever be": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { a.Bedrooms.Min = 5 }),
			// The living rooms have no window: they make no bedrooms.
			[]string{"unit A asks for 5 bedrooms: the house has 2 (a-bed, b-bed), and no other room could be made one; a-living has no window to escape by; b-living has no window to escape by"},
		},
		"both bedrooms wanted by one, which leaves the other no kitchen": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { a.Bedrooms.Min, b.Bedrooms.Min = 1, 2 }),
			[]string{
				"unit B asks for 2 bedrooms: the house has 2 (a-bed, b-bed), and no other room could be made one; a-living has no window to escape by; b-living has no window to escape by",
				"unit A needs a kitchen: the house has 2 (a-living, b-living), and 2 more (a-bed, b-bed) could take one",
				hangTogether,
			},
		},
		"more area than the house has": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { b.AreaMin = 70 }),
			[]string{"unit B asks for at least 70.0 m2: the house has 69.4 m2 indoors and heated"},
		},
		"parking where there is none": {
			pairWithGround(eachOf(frontYards, street)), demands(func(a, b *plan.UnitBrief) { a.Parking.Min = 1 }),
			[]string{"unit A asks for parking for 1: the house has none, and no other room could take a car"},
		},
		"a room kept by one unit and avoided by the same, under its use": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { a.Keep, a.Avoid = []string{"a-bed"}, []string{"bedroom"} }),
			[]string{"unit A keeps a-bed", "unit A avoids bedroom, which means a-bed too"},
		},
		"a room that neither unit wants": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { a.Avoid, b.Avoid = []string{"a-bath"}, []string{"a-bath"} }),
			[]string{"unit B avoids a-bath", "unit A avoids a-bath"},
		},
		"rooms that do not hang together": {
			// b's bath and a's: between them lie both bedrooms.
			pair().House(), demands(func(a, b *plan.UnitBrief) {
				a.Keep = []string{"a-bath", "b-bath"}
			}),
			[]string{"unit A keeps a-bath", "unit A keeps b-bath", "unit B needs a living space: the house has 2 (a-living, b-living), and no other room could be made one", hangTogether},
		},
		"an entry from a yard that no door of the unit opens to": {
			pairWithGround(eachOf(frontYards, street, backYard)), func() *plan.Brief {
				brief := kept()
				brief.Units[0].EntryFrom = "back"
				return brief
			}(),
			[]string{"unit A asks for an entry from back: no room that one may come in by has a door there, and none could have one", entryOfA},
		},
		"the same room twice, by another name": {
			pair().House(), demands(func(a, b *plan.UnitBrief) { a.Keep, b.Avoid, b.Keep = []string{"a-bed"}, []string{"living"}, nil }),
			// All living space becomes A's; an office or dining room that
			// could be b's there is not.
			[]string{"unit B avoids living", "unit B needs a living space: the house has 2 (a-living, b-living), and no other room could be made one"},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			a := split(t, build(t, tt.house), tt.brief)
			require.Empty(t, a.Schemes)
			assert.Equal(t, partition.Infeasible, a.Status)
			assert.Equal(t, tt.want, a.WhyNot)
			assert.Equal(t, plan.SmallestConflict, a.WhyNotProof)
		})
	}
}

// A house that is one room and a bath is never two units.
func TestAHouseThatIsTooSmall(t *testing.T) {
	h := without(pair().House(), "b-living", "b-bed", "b-bath", "b-bed-door", "b-bath-door", "b-front", "b-window", "b-washer")
	a := split(t, build(t, h), nothingAsked())
	require.Empty(t, a.Schemes)
	assert.Equal(t, []string{
		"each unit needs a living space: the house has 1 (a-living), and no other room could be made one",
	}, a.WhyNot)
}

// Where demands conflict only for where the rooms lie, that is said; where
// there are simply too few rooms it is not.
func TestWhyNotTellsTooFewRoomsFromRoomsApart(t *testing.T) {
	// A store behind a's bath, kept by a.
	h := withRoom(without(pair().House(), "a-window"), "x", plan.Storage, 0, 7.2, 5, 9.2)
	h = withDoor(h, "x-door", 0.5, 7.15, 1.3, 7.15)
	brief := kept()
	brief.Units[0].Keep = append(brief.Units[0].Keep, "x")
	brief.Leave = []string{"a-bath", "a-bed", "x"}
	a := split(t, build(t, h), brief)
	require.NotEmpty(t, a.WhyNot)
	assert.Equal(t, hangTogether, a.WhyNot[len(a.WhyNot)-1])

	a = split(t, build(t, pair().House()), func() *plan.Brief {
		brief := nothingAsked()
		brief.Units[0].Bedrooms.Min = 3
		return brief
	}())
	assert.NotContains(t, a.WhyNot, hangTogether)
}

// A brief that does not fit the house is refused before anything is sought.
func TestABriefThatKeepsARoomTwiceIsRefused(t *testing.T) {
	brief := nothingAsked()
	brief.Units[0].Keep, brief.Units[1].Keep = []string{"a-bed"}, []string{"a-bed"}
	_, err := plan.Split(t.Context(), build(t, pair().House()), brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.ErrorContains(t, err, "a-bed is kept by both units")
}
