package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// newWall is the thickness of the separating wall in these houses, in metres.
const newWall = 0.20

// cutsOf tells the candidate lines of a house, each from its end that lies
// more to the left, or lower.
func cutsOf(t *testing.T, h *plan.House) []string {
	t.Helper()
	var out []string
	for _, c := range build(t, h).Cuts(newWall) {
		line := slices.Clone(c.Line)
		if a, z := line[0], line[len(line)-1]; z.Less(a) {
			slices.Reverse(line)
		}
		var points []string
		for _, p := range line {
			x, y := p.Metres()
			points = append(points, fmt.Sprintf("%.2f,%.2f", x, y))
		}
		out = append(out, fmt.Sprintf("%s %s: %s", c.Space, strings.Join(points, " "), c.Why))
	}
	return out
}

// hall starts a house of one level with a divisible hall.
func hall(xy ...float64) *housetest.Draft {
	return housetest.New("test").Level("main", 0, 2.4).Room("hall", plan.Hall, "main", xy...).Divisible()
}

// openSite starts a house with ground around it: the lot is 20 m wide.
func openSite() *housetest.Draft {
	return housetest.New("test").Site("site", -0.3).Level("main", 0, 2.4)
}

func TestWhereABuilderWouldDivide(t *testing.T) {
	tests := map[string]struct {
		house *housetest.Draft
		want  []string
	}{
		//	+------+-------+
		//	| bed  | study |
		//	+--D---+----D--+
		//	D     hall     |     the wall between the rooms goes on across the hall
		//	+--------------+
		"in line with the wall between two rooms": {
			hall(0, 0, 6, 1.2).Room("bed", plan.Bedroom, "main", 0, 1.3, 2.9, 4).Room("study", plan.Office, "main", 3, 1.3, 6, 4).
				Door("front", "main", -0.1, 0.15, -0.1, 1.05).
				Door("door-bed", "main", 0.9, 1.25, 1.7, 1.25).Door("door-study", "main", 4.4, 1.25, 5.2, 1.25),
			[]string{"hall 2.95,0.00 2.95,1.20: in line with the wall between bed and study"},
		},
		//	+--------------+
		//	|     bed      |
		//	+--D--------D--+
		//	D     hall     |     nothing to go by but the doors
		//	+--------------+
		"midway between two doors": {
			hall(0, 0, 6, 1.2).Room("bed", plan.Bedroom, "main", 0, 1.3, 6, 4).
				Door("front", "main", -0.1, 0.15, -0.1, 1.05).
				Door("west", "main", 0.9, 1.25, 1.7, 1.25).Door("east", "main", 4.6, 1.25, 5.4, 1.25),
			[]string{"hall 3.15,0.00 3.15,1.20: midway between east and west"},
		},
		//	+---------D-----+
		//	D     hall      |
		//	|     +---------+    the walls at the corner go on, their faces in line
		//	|     |
		//	+--D--+
		"in line with the walls at a corner": {
			hall(0, 0, 1.5, 0, 1.5, 3, 5, 3, 5, 4.5, 0, 4.5).
				Room("bed", plan.Bedroom, "main", 0, -3, 5, -0.1).Room("study", plan.Office, "main", 0, 4.6, 5, 8).
				Door("front", "main", -0.1, 3.2, -0.1, 4.1).
				Door("door-bed", "main", 0.4, -0.05, 1.2, -0.05).Door("door-study", "main", 2.5, 4.55, 3.3, 4.55),
			[]string{
				"hall 0.00,2.90 1.50,2.90: in line with the wall to the outside",
				"hall 1.60,3.00 1.60,4.50: in line with the wall to the outside",
			},
		},
		//	+--------------+
		//	|     hall     D        past the foot of the flight, in line with it;
		//	+------+       |        the wall between bath and bed is over its side
		//	|flight|       D
		//	+------+foot   |
		//	F      |       D
		"in line with the end of a flight": {
			housetest.New("test").Level("main", 0, 2.4).Level("upper", 2.7, 2.4).
				Room("hall", plan.Hall, "main", 0, 0, 2.4, 0, 2.4, 6, 0, 6, 0, 4.9, 1, 4.9, 1, 1.4, 0, 1.4).Divisible().
				Room("landing", plan.Hall, "upper", 0, 0, 2.4, 0, 2.4, 6, 0, 6, 0, 4.9, 1, 4.9, 1, 1.4, 0, 1.4).
				Flight("flight", "main", "upper", "n", 0, 1.4, 1, 4.9).
				Room("living", plan.Living, "main", 2.5, 0, 6, 6).
				Door("front", "main", 0.1, -0.1, 1, -0.1).Door("door-living", "main", 2.45, 2.4, 2.45, 3.2),
			[]string{"hall 1.00,1.50 2.40,1.50: in line with the end of flight"},
		},
		//	+---WWWWWWWWWW---+
		//	W                D bed
		//	W living   +.....|      no straight wall gets past the windows
		//	W          :     D hall
		//	+---D------------+
		"round a corner, where no straight line parts the ways": {
			housetest.New("test").Level("main", 0, 2.4).Room("living", plan.Living, "main", 0, 0, 6, 5).Divisible().
				Room("bed", plan.Bedroom, "main", 6.1, 3.2, 9, 5).Room("hall", plan.Hall, "main", 6.1, 0, 9, 3.1).
				Room("bath", plan.Bathroom, "main", 0, -3, 9, -0.1).
				Door("door-bed", "main", 6.05, 3.6, 6.05, 4.4).Door("door-hall", "main", 6.05, 1.4, 6.05, 2.2).
				Door("door-bath", "main", 0.4, -0.05, 1.2, -0.05).Window("win-n", "main", 0.9, 1.2, 0.3, 5.1, 5.7, 5.1).
				Window("win-w", "main", 0.9, 1.2, -0.1, 0.3, -0.1, 4.7),
			[]string{"living 1.35,0.00 1.35,3.15 6.00,3.15: beside door-bath, and in line with the wall between bed and hall"},
		},
		//	+---OH----+----OH---+
		//	|      garage       |   two cars, two doors
		//	+-------------------+
		"between the two doors of a garage": {
			housetest.New("test").Level("main", 0, 2.4).Room("garage", plan.Garage, "main", 0, 0, 6.4, 6).Divisible().
				Room("hall", plan.Hall, "main", 0, 6.1, 6.4, 8).Door("front", "main", -0.1, 6.5, -0.1, 7.4).
				Door("car-1", "main", 0.4, -0.1, 2.8, -0.1).Leaf(plan.Overhead).Door("car-2", "main", 3.6, -0.1, 6, -0.1).Leaf(plan.Overhead).
				Door("side-1", "main", 1, 6.05, 1.8, 6.05).Door("side-2", "main", 4.4, 6.05, 5.2, 6.05),
			[]string{"garage 3.20,0.00 3.20,6.00: midway between car-1 and car-2"},
		},
		//	+---------------------+
		//	|        yard         |
		//	|    +---+---+        |
		//	|    | a | b |        |    the yard goes around the house: it takes two fences
		//	|    +-D-+-D-+        |
		//	|                     |
		//	+---------------------+
		//	        street
		"two fences through a yard around the house": {
			openSite().Room("a", plan.Living, "main", 0, 0, 4, 6).Room("b", plan.Living, "main", 4.1, 0, 8, 6).
				Door("door-a", "main", 1, -0.1, 1.9, -0.1).Door("door-b", "main", 6, -0.1, 6.9, -0.1).
				Space("yard", plan.Yard, "site", geom.Region{
					Outer: geom.Ring{geom.FromMetres(-6, -8), geom.FromMetres(14, -8), geom.FromMetres(14, 14), geom.FromMetres(-6, 14)},
					Holes: []geom.Ring{{geom.FromMetres(-0.2, -0.2), geom.FromMetres(-0.2, 6.2), geom.FromMetres(8.2, 6.2), geom.FromMetres(8.2, -0.2)}},
				}).Divisible().Room("street", plan.Street, "site", -6, -12, 14, -8),
			[]string{
				"yard 4.05,-8.00 4.05,-0.20: in line with the wall between a and b",
				"yard 4.05,6.20 4.05,14.00: in line with the wall between a and b",
			},
		},
		//	+----D----+D-+
		//	|  a      | b|
		//	+---------+--+
		//	|   drive    |       lengthwise, as the cars stand
		//	+------------+
		//	    street
		"lengthwise through a drive": {
			openSite().Room("a", plan.Living, "main", 0, 0, 6, 6).Door("door-a", "main", 1, -0.1, 1.9, -0.1).
				Room("drive", plan.Drive, "site", 0, -6.2, 5.6, -0.2).Divisible().Room("street", plan.Street, "site", -6, -12, 14, -6.2),
			[]string{"drive 2.80,-6.20 2.80,-0.20: square to the middle of a side of the house"},
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, tt.want, cutsOf(t, tt.house.House()))
		})
	}
}

// A hall with two doors, from which each of these houses takes the one line
// that a builder would otherwise divide it along.
//
//	+-------+-------+
//	|  bed  | study |
//	+---D---+---D---+
//	D     hall      |
//	+---------------+
func TestWhatKeepsALineAway(t *testing.T) {
	rooms := func(d *housetest.Draft) *housetest.Draft {
		return d.Room("bed", plan.Bedroom, "main", 0, 1.3, 2.9, 4).Room("study", plan.Office, "main", 3, 1.3, 6, 4).
			Door("front", "main", -0.1, 0.15, -0.1, 1.05).Door("door-bed", "main", 0.9, 1.25, 1.7, 1.25).Door("door-study", "main", 4.4, 1.25, 5.2, 1.25)
	}
	line := []string{"hall 2.95,0.00 2.95,1.20: in line with the wall between bed and study"}
	assert.Equal(t, line, cutsOf(t, rooms(hall(0, 0, 6, 1.2)).House()), "the house as it is")
	tests := map[string]*housetest.Draft{
		"a window along the whole front": rooms(hall(0, 0, 6, 1.2)).Window("win", "main", 0.9, 1.2, 0.3, -0.1, 5.7, -0.1),
		"a fixture across the hall": rooms(hall(0, 0, 6, 1.2)).Fixture("tank", "water_heater", "main", 3, 0.4).Footprint(1.9, 0, 4.2, 0.8).
			Window("win", "main", 0.9, 1.2, 0.3, -0.1, 1.9, -0.1).Window("win-2", "main", 0.9, 1.2, 4.2, -0.1, 5.7, -0.1),
		"a cased opening where it would end": rooms(hall(0, 0, 6, 1.2)).Room("porch", plan.Sunroom, "main", 0, -3, 6, -0.1).
			Opening("opening", "main", 0.3, -0.05, 5.7, -0.05),
		"the survey says that it stays whole": rooms(housetest.New("test").Level("main", 0, 2.4).Room("hall", plan.Hall, "main", 0, 0, 6, 1.2)),
		"a bedroom is no bedroom in two":      rooms(housetest.New("test").Level("main", 0, 2.4).Room("hall", plan.Bedroom, "main", 0, 0, 6, 1.2).Divisible()),
	}
	for name, d := range tests {
		t.Run(name, func(t *testing.T) { assert.Empty(t, cutsOf(t, d.House())) })
	}
}
