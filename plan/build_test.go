package plan_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

func build(t testing.TB, h *plan.House) *plan.Building {
	t.Helper()
	b, err := plan.Build(h)
	require.NoError(t, err)
	return b
}

// listed gives the links of some kinds, each as its id, its length where it
// has one, and what else is asked for.
func listed(b *plan.Building, kinds ...plan.LinkKind) []string {
	var out []string
	for _, l := range b.Links {
		if !slices.Contains(kinds, l.Kind) {
			continue
		}
		s := l.ID
		switch l.Kind {
		case plan.LinkDoor, plan.LinkOpening:
			s += " " + between(b, l)
		case plan.LinkFloor:
			s += fmt.Sprintf(" %.2f m2", l.AreaM2)
		default:
			s += fmt.Sprintf(" %.2f", l.Length)
		}
		out = append(out, s)
	}
	return out
}

func between(b *plan.Building, l plan.Link) string { return idOf(b, l.U) + "|" + idOf(b, l.V) }

func idOf(b *plan.Building, c int) string {
	if c == plan.Outside {
		return "outside"
	}
	return b.Cells[c].ID
}

func link(t testing.TB, b *plan.Building, id string) plan.Link {
	t.Helper()
	for _, l := range b.Links {
		if l.ID == id {
			return l
		}
	}
	var ids []string
	for _, l := range b.Links {
		ids = append(ids, l.ID)
	}
	require.Fail(t, "no link "+id, strings.Join(ids, "\n"))
	return plan.Link{}
}

func cell(t testing.TB, b *plan.Building, id string) plan.Cell {
	t.Helper()
	i := slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == id })
	require.GreaterOrEqual(t, i, 0, id)
	return b.Cells[i]
}

func warnings(b *plan.Building) string {
	var out []string
	for _, w := range b.Warnings {
		out = append(out, w.Message)
	}
	return strings.Join(out, "\n")
}

var (
	walls     = []plan.LinkKind{plan.LinkWall}
	opens     = []plan.LinkKind{plan.LinkOpen, plan.LinkSide}
	stairs    = []plan.LinkKind{plan.LinkStair, plan.LinkSide}
	passages  = []plan.LinkKind{plan.LinkDoor, plan.LinkOpening}
	floors    = []plan.LinkKind{plan.LinkFloor}
	exteriors = []plan.LinkKind{plan.LinkExterior}
)

func oneLevel() *housetest.Draft { return housetest.New("test").Level("main", 0, 2.44) }

// withSite has the ground 0.40 m below the main floor.
func withSite() *housetest.Draft {
	return housetest.New("test").Site("site", -0.40).Level("main", 0, 2.44)
}

// The expected lengths are read off the drawings.
func TestWhatLinksTheCellsOfAHouse(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		kinds []plan.LinkKind
		want  []string
	}{
		//	+---+ +---+
		//	| a | | b |
		//	+---+ +---+
		//	+---------+
		//	|    c    |
		//	+---------+
		"an edge that faces two rooms is two walls": {
			oneLevel().Room("a", plan.Bedroom, "main", 0, 2.12, 3, 5).
				Room("b", plan.Bedroom, "main", 3.12, 2.12, 6, 5).
				Room("c", plan.Hall, "main", 0, 0, 6, 2),
			walls, []string{"wall:a|b 2.88", "wall:a|c 3.00", "wall:b|c 2.88"},
		},
		//	+-----+
		//	|  a  |
		//	+-----+
		//	   +-----+
		//	   |  b  |
		//	   +-----+
		"rooms that overlap in part share that part": {
			oneLevel().Room("a", plan.Bedroom, "main", 0, 3.1, 4, 6).Room("b", plan.Bedroom, "main", 2.5, 0, 7, 3),
			walls, []string{"wall:a|b 1.50"},
		},
		//	+---+
		//	| a |
		//	+---+
		//	     +---+
		//	     | b |
		//	     +---+
		"rooms that meet at a corner are not linked": {
			oneLevel().Room("a", plan.Bedroom, "main", 0, 3.1, 3, 6).Room("b", plan.Bedroom, "main", 3.1, 0, 6, 3),
			append(walls, opens...), nil,
		},
		//	+-----------+
		//	|     a     |
		//	|  +--+--+  |
		//	+--| c|  |--+
		//	|  +--+--+  |   the wall between a and b is one, left and right of c
		//	|     b     |
		//	+-----------+
		"a wall interrupted by a closet is one wall": {
			oneLevel().
				Room("a", plan.Bedroom, "main", 0, 3.1, 2, 3.1, 2, 4, 4, 4, 4, 3.1, 7, 3.1, 7, 6, 0, 6).
				Room("b", plan.Bedroom, "main", 0, 0, 7, 0, 7, 3, 4, 3, 4, 2, 2, 2, 2, 3, 0, 3).
				Room("c", plan.Closet, "main", 2.1, 2.1, 3.9, 3.9),
			walls, []string{"wall:a|b 5.00", "wall:a|c#1 0.80", "wall:a|c#2 1.80", "wall:a|c#3 0.80", "wall:b|c#1 0.90", "wall:b|c#2 1.80", "wall:b|c#3 0.90"},
		},
		//	+------+-----+
		//	|      :  k  |
		//	|  a   :.....|
		//	|            |   k open to a on two sides
		//	+------------+
		"an open corner is one passage": {
			oneLevel().Room("k", plan.Kitchen, "main", 4, 3, 7, 5).
				Room("a", plan.Living, "main", 0, 0, 7, 0, 7, 3, 4, 3, 4, 5, 0, 5),
			opens, []string{"open:a|k 5.00"},
		},
		//	+----+----+
		//	| a  :  b |   open above and below a block that is neither's
		//	|    #    |
		//	|    :    |
		//	+----+----+
		"two openings left and right of a chimney are two passages": {
			oneLevel().Room("a", plan.Living, "main", 0, 0, 3, 0, 3, 2, 2.8, 2, 2.8, 3, 3, 3, 3, 5, 0, 5).
				Room("b", plan.Dining, "main", 3, 0, 6, 0, 6, 5, 3, 5, 3, 3, 3.2, 3, 3.2, 2, 3, 2),
			opens, []string{"open:a|b#1 2.00", "open:a|b#2 2.00"},
		},
		"an open slot too narrow to pass is no passage": {
			oneLevel().Room("a", plan.Living, "main", 0, 0, 3, 5).
				Room("b", plan.Dining, "main", 3.1, 0, 6, 0, 6, 5, 3.1, 5, 3.1, 2.3, 3, 2.3, 3, 2, 3.1, 2),
			opens, []string{"side:a|b 0.30"},
		},
		// A split level, seen from the side:
		//	          +------+
		//	+-------+ | bed  | 1.30
		//	| main  | +------+
		//	|       | +------+
		//	+-------+ |family| -1.30, ceiling at 1.10
		//	   0      +------+
		"half levels share the band of height that both have": {
			housetest.New("split").Level("lower", -1.3, 2.4).Level("main", 0, 2.44).Level("upper", 1.3, 2.4).
				Room("living", plan.Living, "main", 0, 0, 4, 5).
				Room("family", plan.Family, "lower", 4.15, 0, 8, 5).
				Room("bed", plan.Bedroom, "upper", 4.15, 0, 8, 5),
			append(walls, floors...),
			[]string{"wall:bed|living 5.00", "wall:family|living 5.00", "floor:family|bed 19.25 m2"},
		},
		"a basement lies under what is above it": {
			housetest.New("basement").Level("lower", -2.6, 2.2).Level("main", 0, 2.44).
				Room("family", plan.Family, "lower", 0, 0, 5, 4).Room("store", plan.Storage, "lower", 5.1, 0, 8, 4).
				Room("living", plan.Living, "main", 0, 0, 3, 4).Room("kitchen", plan.Kitchen, "main", 3.1, 0, 8, 4),
			floors,
			[]string{"floor:family|kitchen 7.60 m2", "floor:family|living 12.00 m2", "floor:store|kitchen 11.60 m2"},
		},
		"two storeys apart nothing is linked": {
			housetest.New("tall").Level("lower", -2.6, 2.2).Level("main", 0, 2.44).Level("upper", 2.8, 2.44).
				Room("family", plan.Family, "lower", 0, 0, 5, 4).Room("bed", plan.Bedroom, "upper", 0, 0, 5, 4),
			append(walls, floors...), nil,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, tt.want, listed(build(t, tt.house.House()), tt.kinds...))
		})
	}
}

func TestAWallHasTheHeightThatBothSidesShare(t *testing.T) {
	b := build(t, housetest.New("split").Level("lower", -1.3, 2.4).Level("main", 0, 2.44).Level("upper", 1.3, 2.4).
		Room("living", plan.Living, "main", 0, 0, 4, 5).
		Room("family", plan.Family, "lower", 4.15, 0, 8, 5).
		Room("bed", plan.Bedroom, "upper", 4.15, 0, 8, 5).House())
	below, above := link(t, b, "wall:family|living"), link(t, b, "wall:bed|living")
	assert.InDelta(t, 1.10, below.Height, 1e-6) // from the main floor, 0, to the family's ceiling, 1.10
	assert.InDelta(t, 1.14, above.Height, 1e-6) // from the bedroom's floor, 1.30, to the living room's ceiling, 2.44
	assert.InDelta(t, 5*1.10, below.AreaM2, 1e-6)
	assert.InDelta(t, 0.15, below.Thickness, 1e-6)
	assert.InDelta(t, 1.30, below.Rise, 1e-6, "the living room lies above the family room")
	assert.InDelta(t, -1.30, above.Rise, 1e-6, "and below the bedroom")
}

func TestCellsAreSpacesAndFlightsSortedByID(t *testing.T) {
	b := build(t, withSite().Level("upper", 2.7, 2.4).
		Room("yard", plan.Yard, "site", 10, 0, 20, 9).Room("street", plan.Street, "site", 10, -6, 20, 0).
		Room("hall", plan.Hall, "main", 0, 0, 2, 6).Room("garage", plan.Garage, "site", 5, 0, 8, 6).
		Room("landing", plan.Hall, "upper", 0, 4.5, 2, 6).
		Flight("stair", "main", "upper", "n", 2, 1, 3, 5).
		Room("hall-2", plan.Hall, "main", 2, 0, 3, 1).Room("landing-2", plan.Hall, "upper", 2, 5, 3, 6).House())
	var ids []string
	for _, c := range b.Cells {
		ids = append(ids, c.ID)
	}
	assert.Equal(t, []string{"garage", "hall", "hall-2", "landing", "landing-2", "stair", "street", "yard"}, ids)

	stair := cell(t, b, "stair")
	assert.True(t, stair.Flight)
	assert.Equal(t, [2]int{1, 2}, [2]int{stair.Level, stair.To})
	assert.InDelta(t, 4, stair.AreaM2, 1e-9)
	assert.InDelta(t, 0, stair.Floor, 1e-9)
	assert.InDelta(t, 5.1, stair.Ceiling, 1e-9)
	assert.True(t, cell(t, b, "street").Public)
	assert.True(t, cell(t, b, "yard").Outdoor)
	assert.False(t, cell(t, b, "yard").Public)
	assert.False(t, cell(t, b, "garage").Outdoor, "a garage on the site has walls and a roof")
}

func TestBearingMarks(t *testing.T) {
	//	+----+ +----+
	//	| a  | | b  |
	//	+----+ +----+
	//	======----     the mark follows the wall of a, and half of that of b
	//	+-----------+
	//	|     c     |
	//	+-----------+
	b := build(t, oneLevel().Room("a", plan.Bedroom, "main", 0, 2.12, 3, 5).
		Room("b", plan.Bedroom, "main", 3.12, 2.12, 6, 5).
		Room("c", plan.Hall, "main", 0, 0, 6, 2).
		Bearing("beam", "main", 0, 2.06, 4.5, 2.06).House())
	assert.Equal(t, []string{"beam"}, link(t, b, "wall:a|c").Marks)
	assert.True(t, link(t, b, "wall:a|c").Bearing)
	assert.True(t, link(t, b, "wall:b|c").Bearing, "a wall that is marked in part bears as a whole")
	assert.False(t, link(t, b, "wall:a|b").Bearing, "the mark only meets it at its end")
	assert.Empty(t, link(t, b, "wall:a|b").Marks)
}

func TestDuplexByBuildingSMART(t *testing.T) {
	b := duplex(t)
	// Faces of the exterior walls lie at 0.417, door lines at 0.208 (testdata/houses/README.md).
	assert.InDelta(t, 0.417, b.ExteriorThickness, 1e-9)
	unit := func(c int) string {
		if c == plan.Outside {
			return ""
		}
		switch id := b.Cells[c].ID; id {
		case "stair-1":
			return "A" // lies in the hall A201
		case "stair-2":
			return "B"
		default:
			return id[3:4]
		}
	}
	for _, l := range b.Links {
		if l.Passage() || l.Kind == plan.LinkSide {
			assert.True(t, unit(l.U) == unit(l.V) || l.V == plan.Outside, "%s joins %s", l.ID, between(b, l))
		}
	}
	doors := 0
	for _, l := range b.Links {
		if l.Kind == plan.LinkDoor {
			doors++
		}
	}
	assert.Equal(t, 14, doors)
	assert.Equal(t, []string{
		"stair:stair-1.foot|L1-A101 1.01", "stair:stair-1.head|L2-A201 1.01",
		"stair:stair-2.foot|L1-B101 1.01", "stair:stair-2.head|L2-B201 1.01",
	}, listed(b, plan.LinkStair))
	assert.Equal(t, 4, strings.Count(strings.Join(listed(b, plan.LinkDoor), "\n"), "outside"))
	// The party wall of the upper level is 0.55 m thick (testdata/houses/README.md).
	assert.InDelta(t, 0.55, link(t, b, "wall:L2-A202|L2-B203").Thickness, 1e-6)
	// The low ends of the stairs lie 0.15 m2 under a bedroom (testdata/houses/README.md).
	assert.InDelta(t, 0.15, link(t, b, "floor:stair-1|L2-A203").AreaM2, 0.005)
	assert.InDelta(t, 0.15, link(t, b, "floor:stair-2|L2-B203").AreaM2, 0.005)
	assert.Equal(t, slices.Repeat([]bool{true}, len(b.Cells)), b.Reached())
	assert.Empty(t, b.Warnings)
	for i, w := range b.WindowCells {
		assert.GreaterOrEqual(t, w[0], 0, b.House.Windows[i].ID)
		assert.Equal(t, plan.Outside, w[1], b.House.Windows[i].ID)
	}
}

func duplex(t testing.TB) *plan.Building {
	t.Helper()
	f, err := os.Open("../testdata/houses/duplex.house.json")
	require.NoError(t, err)
	defer f.Close()
	h, err := plan.Read(f, "duplex.house.json")
	require.NoError(t, err)
	return build(t, h)
}

func TestLevelShapes(t *testing.T) {
	//	two rooms of 3 x 4 m and 2.9 x 4 m, a wall of 0.10 m between, 0.20 m around
	b := build(t, oneLevel().Room("a", plan.Bedroom, "main", 0, 0, 3, 4).Room("b", plan.Bedroom, "main", 3.1, 0, 6, 4).
		Window("w", "main", 0.9, 1.2, 1, -0.1, 2, -0.1).House())
	outline, mass := b.Levels[0].Outline, b.Levels[0].Mass
	require.Len(t, outline, 1)
	assert.InDelta(t, 6.4*4.4, outline.AreaM2(), 1e-6)
	assert.InDelta(t, 6.4*4.4-3*4-2.9*4, mass.AreaM2(), 1e-6)
	assert.Equal(t, geom.Inside, mass.Contains(geom.FromMetres(3.05, 2)))
}

// What surrounds a room: its borders never add up to more than its sides, and
// what is missing is no more than the corners of walls, a storey's height and
// the walls' thickness each, and the borders of shafts.
func TestEverySideOfARoomIsAccountedForOnce(t *testing.T) {
	for name, h := range corpus(t) {
		b := build(t, h)
		sides := make([]float64, len(b.Cells))
		above, below := make([]float64, len(b.Cells)), make([]float64, len(b.Cells))
		for _, l := range b.Links {
			switch l.Kind {
			case plan.LinkFloor:
				above[l.U] += l.AreaM2
				below[l.V] += l.AreaM2
			case plan.LinkWall, plan.LinkOpen, plan.LinkSide, plan.LinkStair, plan.LinkExterior:
				sides[l.U] += l.AreaM2
				if l.V != plan.Outside {
					sides[l.V] += l.AreaM2
				}
			}
		}
		total, found := 0.0, 0.0
		for i, c := range b.Cells {
			if c.Outdoor {
				continue
			}
			around := 0.0
			for _, r := range c.Region.Rings() {
				around += r.Length()
			}
			around *= c.Ceiling - c.Floor
			assert.LessOrEqual(t, sides[i], around+1e-3, "%s: %s", name, c.ID)
			assert.LessOrEqual(t, above[i], c.AreaM2+1e-3, "%s: over %s", name, c.ID)
			assert.LessOrEqual(t, below[i], c.AreaM2+1e-3, "%s: under %s", name, c.ID)
			total, found = total+around, found+sides[i]
		}
		assert.Greater(t, found, 0.85*total, name)
		t.Logf("%s: %.1f of %.1f m2", name, found, total)
	}
}
