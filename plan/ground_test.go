package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pairWithGround stands the pair in its ground, 0.10 m below the floor.
//
//	          back (where asked for)
//	    +-----------+
//	    |  a  ||  b |
//	----+--d--++-d--+----
//	  a-yard  |  b-yard
//	----------+----------  y -6.2
//	        street
func pairWithGround(more func(d *housetest.Draft)) *plan.House {
	d := pairOn(housetest.New("pair").Site("site", -0.10).Level("main", 0, 2.44))
	if more != nil {
		more(d)
	}
	return d.House()
}

func frontYards(d *housetest.Draft) {
	d.Room("a-yard", plan.Yard, "site", -3, -6.2, 5.1, -0.2).Room("b-yard", plan.Yard, "site", 5.1, -6.2, 13, -0.2)
}

func street(d *housetest.Draft) { d.Room("street", plan.Street, "site", -3, -12, 13, -6.2) }

func backYard(d *housetest.Draft) { d.Room("back", plan.Yard, "site", -3, 7.3, 13, 15) }

func eachOf(draw ...func(d *housetest.Draft)) func(d *housetest.Draft) {
	return func(d *housetest.Draft) {
		for _, add := range draw {
			add(d)
		}
	}
}

func oneFrontYard(d *housetest.Draft) { d.Room("yard", plan.Yard, "site", -3, -6.2, 13, -0.2) }

// fence is the price of the fence between the front yards: 6.00 m at 130.
const fence = 6 * 130

func TestWhoIsReachedFromThePublicWay(t *testing.T) {
	share := func(words ...string) func(*plan.Brief) { return func(b *plan.Brief) { b.Share = words } }
	tests := map[string]struct {
		house    *plan.House
		brief    func(*plan.Brief)
		owners   map[string]string
		shared   int // not accepted
		accepted int
		cost     float64
	}{
		"each across a front yard of its own, with a fence between": {
			house:  pairWithGround(eachOf(frontYards, street)),
			owners: map[string]string{"a-yard": "A", "b-yard": "B", "street": "none"},
			cost:   partyWalls + fence,
		},
		"across one yard that nobody accepted as shared": {
			house:  pairWithGround(eachOf(oneFrontYard, street)),
			owners: map[string]string{"yard": "common"},
			shared: 1, cost: partyWalls,
		},
		"across one yard that the brief accepts as shared, by its use": {
			house: pairWithGround(eachOf(oneFrontYard, street)), brief: share("yard"),
			owners:   map[string]string{"yard": "common"},
			accepted: 1, cost: partyWalls,
		},
		// A new entry to a bedroom is none; the living room of a has no other
		// outer wall but its side, 4.00 m long: 4500 and 0.10 m of steps at 1600.
		"across one yard or, where there is one, a strip at the side": {
			house: pairWithGround(eachOf(oneFrontYard, street, func(d *housetest.Draft) {
				d.Room("strip", plan.Walk, "site", -3, -0.2, -0.2, 7.2)
				d.Room("lane", plan.Lane, "site", -3, 7.2, -0.2, 9)
			})),
			brief:  share(), // the walk is not accepted either
			owners: map[string]string{"strip": "A", "yard": "B"},
			// The yard is fenced off from the strip, 2.80 m at 130; a's old
			// front door, on to b's yard, is sealed at 700.
			cost: partyWalls + 4500 + 0.10*1600 + 2.80*130 + 700,
		},
		"where no street was surveyed, any ground counts as reached": {
			house:  pairWithGround(frontYards),
			owners: map[string]string{"a-yard": "A", "b-yard": "B"},
			cost:   partyWalls + fence,
		},
		"where no ground was surveyed, every door to the outside counts": {
			house: pair().House(), owners: map[string]string{"a-living": "A", "b-living": "B"},
			cost: partyWalls,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			brief := kept()
			if tt.brief != nil {
				tt.brief(brief)
			}
			s := best(t, tt.house, brief)
			got := owners(s)
			for id, owner := range tt.owners {
				assert.Equal(t, owner, got[id], id)
			}
			assert.Equal(t, tt.shared, unaccepted(s))
			assert.Equal(t, tt.accepted, len(s.Shared)-unaccepted(s))
			assert.InDelta(t, tt.cost, s.Cost.Total, 0.005)
		})
	}
}

// A yard behind the house that only one flat's door opens to, or none.
func TestAYardIsReachedByItsOwner(t *testing.T) {
	door := func(d *housetest.Draft) { d.Door("a-back", "main", 0.5, 7.2, 1.3, 7.2) }
	s := best(t, pairWithGround(eachOf(frontYards, street, backYard, door)), kept())
	assert.Equal(t, "A", owners(s)["back"], "b could reach it only through a")

	// A door from the bath is no way in to flat a, but a way out to its yard.
	assert.Equal(t, []string{"a-front"}, s.Units[0].Entries)

	// Asked to have it, b gets no door to it: its rooms there are a bedroom
	// and a bath, and the ground is shut off at both ends.
	brief := kept()
	brief.Units[1].Keep = append(brief.Units[1].Keep, "back")
	a := split(t, build(t, pairWithGround(eachOf(frontYards, street, backYard, door))), brief)
	assert.Empty(t, a.Schemes)
	assert.Contains(t, a.WhyNot, "unit B keeps back")

	// With a side yard from the street, b walks around.
	around := eachOf(frontYards, street, backYard, door, func(d *housetest.Draft) {
		d.Room("side", plan.Yard, "site", 10.4, -0.2, 13, 7.3)
	})
	s = best(t, pairWithGround(around), brief)
	assert.Equal(t, "B", owners(s)["back"])
	assert.Equal(t, "B", owners(s)["side"])
	assert.Contains(t, works(s), "seal_door a-back")
}

func TestWhatAnEntryOpensTo(t *testing.T) {
	//	lane      |  alley beyond a gate-less boundary
	//	back      |
	//	house
	//	yard | walk
	//	street
	h := pairWithGround(eachOf(street, backYard, func(d *housetest.Draft) {
		d.Room("yard", plan.Yard, "site", -3, -6.2, 5.1, -0.2).Room("path", plan.Walk, "site", 5.1, -6.2, 13, -0.2)
		d.Room("alley", plan.Lane, "site", -3, 15, 13, 18)
	}))
	b := build(t, h)
	at := func(id string) int { return slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == id }) }
	tests := []struct {
		from string
		open []string // the ground on to which an entry keeps the demand
	}{
		{"", []string{"yard", "path", "back"}},
		{"yard", []string{"yard"}}, // the id of one, though two are yards
		{"back", []string{"back"}},
		{"walk", []string{"path"}}, // a use: every space of it
		{"street", []string{"yard", "path"}},
		{"alley", []string{"back"}},
		{"lane", []string{"back"}},
	}
	for _, tt := range tests {
		for _, id := range []string{"yard", "path", "back"} {
			assert.Equal(t, slices.Contains(tt.open, id), b.OpensTo(at(id), tt.from), "%s from %q", id, tt.from)
		}
		assert.Equal(t, tt.from == "", b.OpensTo(plan.Outside, tt.from), "ground that nobody surveyed")
	}
}

// The way from the brief's entry_from to the scheme.
func TestEntryFromIsKept(t *testing.T) {
	ground := eachOf(frontYards, street, backYard, func(d *housetest.Draft) {
		d.Room("side", plan.Walk, "site", -3, -0.2, -0.2, 7.3)
	})
	brief := kept()
	brief.Units[0].EntryFrom = "side"
	s := best(t, pairWithGround(ground), brief)
	entry := workOf(t, s, "new_entry")
	assert.Equal(t, []string{"a-living", "side"}, entry.Spaces, "the front door opens to the front yard")
	require.NotEmpty(t, s.Units[0].Entries)
	assert.Equal(t, entry.Of, s.Units[0].Entries[0], "the entry that was asked for comes first")

	brief.Units[0].EntryFrom = "a-yard"
	s = best(t, pairWithGround(ground), brief)
	assert.Equal(t, []string{"a-front"}, s.Units[0].Entries)
	assert.InDelta(t, partyWalls+fence, s.Cost.Total, 0.005)
}
