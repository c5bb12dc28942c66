package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func TestWhichOutdoorSpacesAreOpenToEachOther(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []string
	}{
		//	+------+----+
		//	| yard :dr. |
		//	+------+----+
		//	|  street   |
		//	+-----------+
		"coinciding edges": {
			withSite().Room("yard", plan.Yard, "site", 0, 4, 6, 10).Room("drive", plan.Drive, "site", 6, 4, 9, 10).
				Room("street", plan.Street, "site", 0, 0, 9, 4),
			[]string{"open:drive|street 3.00", "open:drive|yard 6.00", "open:street|yard 6.00"},
		},
		"a walk drawn 5 cm beside the drive": {
			withSite().Room("walk", plan.Walk, "site", 0, 0, 1, 8).Room("drive", plan.Drive, "site", 1.05, 0, 4, 6),
			[]string{"open:drive|walk 6.00"},
		},
		"half a metre apart": {
			withSite().Room("walk", plan.Walk, "site", 0, 0, 1, 8).Room("drive", plan.Drive, "site", 1.5, 0, 4, 6),
			nil,
		},
		"paced out of parallel": {
			withSite().Room("walk", plan.Walk, "site", 0, 0, 1, 0, 1.09, 6, 0, 6).Room("drive", plan.Drive, "site", 1.1, 0, 4, 6),
			[]string{"open:drive|walk 6.00"},
		},
		"touching in a point": {
			withSite().Room("a", plan.Yard, "site", 0, 0, 4, 4).Room("b", plan.Yard, "site", 4, 4, 8, 8),
			nil,
		},
		"a foot-wide strip is no way": {
			withSite().Room("a", plan.Yard, "site", 0, 0, 4, 4).Room("b", plan.Yard, "site", 3.7, 4, 8, 8),
			nil,
		},
		//	+---------------+
		//	|     yard      |
		//	|  +---------+  |
		//	|  |  house  |  |    the porch stands before the house, over the yard:
		//	|  +--+---+--+  |    open on three sides
		//	|     | p |     |
		//	|     +---+     |
		//	+---------------+
		"a porch on the main level over the yard": {
			ground(withSite()).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
				Room("porch", plan.Porch, "main", 2, -2.2, 5, -0.2),
			[]string{"open:porch|yard 7.00"},
		},
		"a porch beside the yard of the level below": {
			withSite().Room("hall", plan.Hall, "main", 0, 0, 8, 6).Room("porch", plan.Porch, "main", 2, -2.2, 5, -0.2).
				Room("yard", plan.Yard, "site", 0, -8, 8, -2.2),
			[]string{"open:porch|yard 3.00"},
		},
		"a yard that is drawn on under the house": {
			withSite().Room("hall", plan.Hall, "main", 0, 0, 8, 6).Room("porch", plan.Porch, "main", 2, -2.2, 5, -0.2).
				Room("yard", plan.Yard, "site", -5, -8, 12, 12).Window("w", "main", 0.9, 1.2, 6, -0.1, 7, -0.1),
			[]string{"open:porch|yard 7.00"},
		},
		"a balcony is too high": {
			ground(withSite().Level("upper", 2.7, 2.4)).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
				Room("balcony", plan.Balcony, "upper", 2, -2.2, 5, -0.2),
			nil,
		},
		//	  deck   | patio, sunk under the deck's end
		"a deck that ends over a patio": {
			housetest.New("test").Site("site", -0.4).Level("main", 0, 2.44).
				Room("deck", plan.Deck, "main", 0, 0, 5, 4).Room("patio", plan.Patio, "site", 4, -1, 9, 5),
			[]string{"open:deck|patio 6.00"}, // the deck's end, 4 m, and 1 m of either side
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, tt.want, listed(build(t, tt.house.House()), opens...))
		})
	}
}

func TestAHighTerraceOnTheSameLevelIsNotWalkedOnto(t *testing.T) {
	b := build(t, withSite().Room("yard", plan.Yard, "site", 0, 0, 4, 4).Room("deck", plan.Deck, "site", 4, 0, 8, 4).At(1.0, 0).House())
	assert.Empty(t, listed(b, opens...))
	assert.Contains(t, warnings(b), "deck lies 1.40 m above yard with no steps surveyed")
}

func TestWhatLiesBeyondAnExteriorWall(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []string
	}{
		"nothing surveyed": {
			oneLevel().Room("a", plan.Living, "main", 0, 0, 5, 4).Room("b", plan.Kitchen, "main", 5.1, 0, 8, 4),
			[]string{
				"exterior:a|outside#1 5.00", "exterior:a|outside#2 4.00", "exterior:a|outside#3 5.00",
				"exterior:b|outside#1 2.90", "exterior:b|outside#2 4.00", "exterior:b|outside#3 2.90",
			},
		},
		//	+----------------+
		//	|      hall      |
		//	+----------------+
		//	| yard  |  drive |
		"a wall that looks on two outdoor spaces": {
			withSite().Room("hall", plan.Hall, "main", 0, 0, 8, 6).Room("yard", plan.Yard, "site", -3, -6, 3, -0.2).
				Room("drive", plan.Drive, "site", 3, -6, 8.2, -0.2),
			[]string{"exterior:hall|drive 5.00", "exterior:hall|outside#1 6.00", "exterior:hall|outside#2 8.00", "exterior:hall|outside#3 6.00", "exterior:hall|yard 3.00"},
		},
		"a yard that begins within arm's reach of the house": {
			withSite().Room("hall", plan.Hall, "main", 0, 0, 8, 6).Room("yard", plan.Yard, "site", 0, -6, 8, -0.7),
			[]string{"exterior:hall|outside#1 6.00", "exterior:hall|outside#2 8.00", "exterior:hall|outside#3 6.00", "exterior:hall|yard 8.00"},
		},
		//	+-----+   +-----+
		//	|  a  |[ ]|  b  |    a chimney of 0.70 x 0.80 m between the rooms
		//	+-----+---+-----+
		//	|       c       |
		"a shaft is not outdoors": {
			oneLevel().Room("a", plan.Living, "main", 0, 3.1, 4, 6).Room("b", plan.Dining, "main", 4.9, 3.1, 9, 6).
				Room("c", plan.Hall, "main", 0, 0, 9, 3).Room("d", plan.Closet, "main", 4.1, 4.1, 4.8, 6),
			[]string{
				"exterior:a|outside#1 4.00", "exterior:a|outside#2 2.90",
				"exterior:b|outside#1 2.90", "exterior:b|outside#2 4.10",
				"exterior:c|outside#1 3.00", "exterior:c|outside#2 9.00", "exterior:c|outside#3 3.00",
				"exterior:d|outside 0.70",
			},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.ElementsMatch(t, tt.want, listed(build(t, tt.house.House()), exteriors...))
		})
	}
}

func TestAnEntryStepsDownToTheGround(t *testing.T) {
	b := build(t, ground(withSite().Level("upper", 2.7, 2.4)).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
		Room("bed", plan.Bedroom, "upper", 0, 0, 8, 6).House())
	assert.InDelta(t, -0.40, link(t, b, "exterior:hall|yard#1").Rise, 1e-9)
	assert.InDelta(t, -3.10, link(t, b, "exterior:bed|yard#1").Rise, 1e-9)
	assert.InDelta(t, 2.44, link(t, b, "exterior:hall|yard#1").Height, 1e-9)
}

func TestThicknessOfExteriorWalls(t *testing.T) {
	room := func() *housetest.Draft { return withSite().Room("a", plan.Living, "main", 0, 0, 8, 6) }
	tests := map[string]struct {
		house *housetest.Draft
		want  float64
	}{
		"a window in the middle of the wall":       {room().Window("w", "main", 0.9, 1.2, 1, -0.15, 2, -0.15), 0.30},
		"the median of several":                    {room().Window("w", "main", 0.9, 1.2, 1, -0.15, 2, -0.15).Window("x", "main", 0.9, 1.2, 3, -0.15, 4, -0.15).Door("d", "main", 5, -0.2, 6, -0.2), 0.30},
		"a window drawn on the inner face is none": {room().Window("w", "main", 0.9, 1.2, 1, 0, 2, 0).Door("d", "main", 5, -0.12, 6, -0.12), 0.24},
		"the gap to the yard":                      {room().Room("yard", plan.Yard, "site", 0, -6, 8, -0.35), 0.35},
		"a window drawn on the outer face":         {room().Room("yard", plan.Yard, "site", 0, -6, 8, -0.28).Window("w", "main", 0.9, 1.2, 1, -0.27, 2, -0.27), 0.28},
		"a bearing mark":                           {room().Bearing("m", "main", 0, -0.13, 8, -0.13), 0.26},
		"nothing":                                  {room(), 0.20},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			b := build(t, tt.house.House())
			assert.InDelta(t, tt.want, b.ExteriorThickness, 1e-9)
			if name == "nothing" {
				assert.Contains(t, warnings(b), "how thick the exterior walls are")
			}
		})
	}
}

func TestAClosedAtticIsReported(t *testing.T) {
	b := build(t, oneLevel().Level("attic", 2.7, 1.5).Room("hall", plan.Hall, "main", 0, 0, 8, 6).
		Room("attic", plan.Unfinished, "attic", 0, 0, 8, 6).Door("front", "main", 1, -0.1, 1.9, -0.1).House())
	assert.Equal(t, []bool{false, true}, b.Reached())
	assert.Contains(t, warnings(b), "no passage reaches attic")
	assert.Equal(t, []string{"floor:hall|attic 48.00 m2"}, listed(b, floors...), "and is still parted from what lies below")
}

func TestAHouseWithoutAnyEntryIsReachedFromItsLargestPart(t *testing.T) {
	b := build(t, oneLevel().Room("a", plan.Hall, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.1, 0, 6, 4).
		Room("c", plan.Storage, "main", 6.1, 0, 9, 4).Door("d", "main", 3.05, 1, 3.05, 1.8).House())
	assert.Equal(t, []bool{true, true, false}, b.Reached())
}

func TestACourtIsOutdoors(t *testing.T) {
	//	+-----------+
	//	|  +-----+  |
	//	|  |court|  |   4 x 3 m within the house
	//	|  +-----+  |
	//	+-----------+
	ring := func(x0, y0, x1, y1 float64) geom.Ring {
		return geom.Ring{geom.FromMetres(x0, y0), geom.FromMetres(x1, y0), geom.FromMetres(x1, y1), geom.FromMetres(x0, y1)}
	}
	b := build(t, oneLevel().Space("a", plan.Living, "main", geom.Region{
		Outer: ring(0, 0, 12, 10), Holes: []geom.Ring{ring(4, 4, 8, 7).Reverse()},
	}).House())
	assert.Len(t, listed(b, exteriors...), 8)
}
