package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// pair is two complete flats side by side, with nothing between them but a
// party wall of 0.20 m: what tests open, take away and add to.
//
//	 y
//	7.1 +-----+------++------+-----+
//	    |bath |  bed ||  bed | bath|   a's on the left, b's on the right
//	4.1 +--d--+---d--++---d--+--d--+
//	4.0 +------------++------------+
//	    |   living   ||   living   |   with its kitchen
//	  0 +----d-------++-------d----+
//	    0  2.2       5 5.2    8    10.2
func pair() *housetest.Draft { return pairOn(oneLevel()) }

// pairOn adds the pair to a draft with a level main.
func pairOn(d *housetest.Draft) *housetest.Draft {
	d.Room("a-living", plan.Living, "main", 0, 0, 5, 4).Also(plan.Kitchen)
	d.Room("a-bath", plan.Bathroom, "main", 0, 4.1, 2.2, 7.1)
	d.Room("a-bed", plan.Bedroom, "main", 2.3, 4.1, 5, 7.1)
	d.Room("b-living", plan.Living, "main", 5.2, 0, 10.2, 4).Also(plan.Kitchen)
	d.Room("b-bed", plan.Bedroom, "main", 5.2, 4.1, 7.9, 7.1)
	d.Room("b-bath", plan.Bathroom, "main", 8, 4.1, 10.2, 7.1)
	d.Door("a-bath-door", "main", 0.5, 4.05, 1.3, 4.05).Door("a-bed-door", "main", 3, 4.05, 3.8, 4.05)
	d.Door("b-bed-door", "main", 6.4, 4.05, 7.2, 4.05).Door("b-bath-door", "main", 8.9, 4.05, 9.7, 4.05)
	d.Door("a-front", "main", 1, -0.1, 1.9, -0.1).Door("b-front", "main", 8.3, -0.1, 9.2, -0.1)
	d.Window("a-window", "main", 0.9, 1.2, 3, 7.2, 4.2, 7.2).Window("b-window", "main", 0.9, 1.2, 6, 7.2, 7.2, 7.2)
	d.Fixture("a-washer", "washer", "main", 0.5, 6.5).Fixture("b-washer", "washer", "main", 9.7, 6.5)
	return d
}

// partyWalls is what the pair costs as it stands: the party wall of 4.00 m
// between the living rooms and of 3.00 m between the bedrooms, 2.44 m high, at
// 95 a square metre, and 400 for each number, mailbox and doorbell.
const partyWalls = (9.76+7.32)*95 + 2*400

// without leaves features out of a house.
func without(h *plan.House, ids ...string) *plan.House {
	c := *h
	gone := func(id string) bool { return slices.Contains(ids, id) }
	c.Spaces = slices.DeleteFunc(slices.Clone(h.Spaces), func(s plan.Space) bool { return gone(s.ID) })
	c.Doors = slices.DeleteFunc(slices.Clone(h.Doors), func(d plan.Door) bool { return gone(d.ID) })
	c.Windows = slices.DeleteFunc(slices.Clone(h.Windows), func(w plan.Window) bool { return gone(w.ID) })
	c.Fixtures = slices.DeleteFunc(slices.Clone(h.Fixtures), func(f plan.Fixture) bool { return gone(f.ID) })
	return &c
}

// nothingAsked is the default brief with one scheme wanted.
func nothingAsked() *plan.Brief {
	b := plan.DefaultBrief()
	b.Schemes, b.Rules = 1, "none" // which rooms can legally be bedrooms: bedroom_test.go
	return b
}

// kept is a brief under which the flats of the pair stay what they are.
func kept() *plan.Brief {
	b := nothingAsked()
	b.Units[0].Keep = []string{"a-living", "a-bath", "a-bed"}
	b.Units[1].Keep = []string{"b-living", "b-bath", "b-bed"}
	return b
}

// best gives the best scheme of a house.
func best(t testing.TB, h *plan.House, brief *plan.Brief) *plan.Scheme {
	t.Helper()
	a := split(t, build(t, h), brief)
	require.NotEmpty(t, a.Schemes, "%v", a.WhyNot)
	return a.Schemes[0]
}

// works lists the works of a scheme but the address sets, each as its kind and
// where it is.
func works(s *plan.Scheme) []string {
	var out []string
	for _, w := range s.Works {
		if w.Kind == "address_set" {
			continue
		}
		where := w.Of
		if where == "" {
			for i, id := range w.Spaces {
				if i > 0 {
					where += "|"
				}
				where += id
			}
		}
		out = append(out, w.Kind+" "+where)
	}
	return out
}

// workOf gives the one work of a kind.
func workOf(t testing.TB, s *plan.Scheme, kind string) plan.Work {
	t.Helper()
	i := slices.IndexFunc(s.Works, func(w plan.Work) bool { return w.Kind == kind })
	require.GreaterOrEqual(t, i, 0, "%v", works(s))
	return s.Works[i]
}
