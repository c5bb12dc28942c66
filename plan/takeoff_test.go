package plan_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/assembly"
)

// amounts gives the take-off's net quantities by item.
func amounts(rows []plan.Quantity) map[string]float64 {
	out := map[string]float64{}
	for _, q := range rows {
		out[q.Item] += q.Net
	}
	return out
}

// A stud wall of 4.00 x 2.40 m between the units becomes row W4a: two sheets of
// 15.9 mm on resilient channels at 600 mm on one side, whose old sheet comes
// off, wool between the studs, one sheet over the old one on the other side.
// Counted by hand:
//
//	board      3 sheets x 9.60 m2 / (1.22 x 2.44 m)      = 9.675 sheets; and 10 % = 10.64: 11
//	off        9.60 m2
//	wool       9.60 m2; and 5 % = 10.08 m2
//	channel    at 0, 0.6, 1.2, 1.8 and 2.4 m: 5 x 4.00 m  = 20.0 m; and 10 % = 22.0 m
//	sealant    3 layers x 2 beads x 4.00 m / 10.6 m       = 2.264 tubes: 3
//	compound   2 faces x 9.60 m2 x 0.053 lb/ft2 (0.2588 kg/m2) = 4.97 kg
//	tape       2 x 9.60 m2 x 16 ft per 32 ft2 / 500 ft    = 0.2067 rolls: 1
//	screws     9.675 sheets x 0.5 lb / 3                  = 0.731 kg
//
// The studs stay: none are bought.
func TestTheTakeOffOfAWallCountedByHand(t *testing.T) {
	s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.12)
	rows := plan.TakeOff(s)
	got := amounts(rows)
	want := map[string]float64{
		"Type X gypsum board": 9.675, "taken off: gypsum board": 9.60, "stone-wool batts": 9.60, "resilient channel": 20.0,
		"acoustical sealant": 2.264, "joint compound, dry": 4.969, "joint tape": 0.2067, "board screws": 0.731,
	}
	require.Len(t, got, len(want), "%v", got)
	for item, n := range want {
		assert.InDelta(t, n, got[item], 0.001*max(1, n), item)
	}
	bought := amounts(plan.Totals(rows))
	assert.Equal(t, []float64{11, 3, 1}, []float64{bought["Type X gypsum board"], bought["acoustical sealant"], bought["joint tape"]})
	assert.InDelta(t, 22.0, bought["resilient channel"], 0.01)
	assert.InDelta(t, 10.08, bought["stone-wool batts"], 0.01)
	for _, q := range rows {
		assert.Equal(t, "SW1 a | b", q.Cause)
		assert.Equal(t, "both", q.Unit)
		assert.NotEmpty(t, q.Source.Standard)
	}
}

// A thin wall of 4.00 x 2.40 m is built anew: studs at 400 mm stand at 0, 0.4
// to 4.0 m, 11 of them, as a wall of 16 ft at 16 in has 12 spaces and 13 studs
// (https://www.parkerslegacy.com/how-many-2x4-do-i-need-calculator/); it bears
// nothing more than one plate below and one above: 8 m.
func TestTheStudsOfANewWall(t *testing.T) {
	got := amounts(plan.TakeOff(buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.08)))
	assert.InDelta(t, 11, got["wood studs"], 1e-9)
	assert.InDelta(t, 8, got["plates"], 1e-9)
}

// A floor of 5.00 x 4.00 m becomes row F9d: the ceiling off, wool between the
// joists, resilient channels at 600 mm and two sheets of 15.9 mm. The joists'
// direction is not surveyed, so that members and edges are those of a square of
// 20 m2, 4.472 m each way. Counted by hand:
//
//	board      2 x 20.00 m2 / 2.9768 m2                   = 13.437 sheets; and 10 % = 14.78: 15
//	off, wool  20.00 m2
//	channel    at 0 to 4.2 m, 8 x 4.472 m                 = 35.78 m
//	sealant    2 layers x 4 x 4.472 m / 10.6 m            = 3.375 tubes: 4
//	compound   20.00 m2 x 0.2588                          = 5.176 kg
func TestTheTakeOffOfAFloorCountedByHand(t *testing.T) {
	s := plan.SchemeOfTwoStoreys(t, plan.DefaultBrief(), plan.DefaultPrices(), 5, 4)
	require.Len(t, s.BuildUps, 1)
	require.Equal(t, "F9d", s.BuildUps[0].Assembly.Row)
	rows := plan.TakeOff(s)
	got := amounts(rows)
	for item, n := range map[string]float64{
		"Type X gypsum board": 13.437, "taken off: gypsum board": 20, "stone-wool batts": 20, "resilient channel": 35.78,
		"acoustical sealant": 3.375, "joint compound, dry": 5.176,
	} {
		assert.InDelta(t, n, got[item], 0.001*n, item)
	}
	bought := amounts(plan.Totals(rows))
	assert.Equal(t, []float64{15, 4}, []float64{bought["Type X gypsum board"], bought["acoustical sealant"]})
}

// A ceiling of 20.00 m2 under two rooms of 12 and 8 m2 is one ceiling: its
// channels, 8 x 4.472 m, and its sealed edge, 4 x 4.472 m, are counted once and
// shared by area, 60 and 40 %.
func TestACeilingUnderTwoRoomsIsCountedOnce(t *testing.T) {
	whole := amounts(plan.TakeOff(plan.SchemeOfTwoStoreys(t, plan.DefaultBrief(), plan.DefaultPrices(), 5, 4)))
	s := plan.SchemeOfTwoStoreys(t, plan.DefaultBrief(), plan.DefaultPrices(), 5, 4)
	one := s.Floors[0]
	room := func(x0, x1 float64) geom.Shape {
		return geom.Shape{{Outer: geom.Ring{geom.FromMetres(x0, 0), geom.FromMetres(x1, 0), geom.FromMetres(x1, 4), geom.FromMetres(x0, 4)}}}
	}
	two := one
	one.Region, two.Region, two.Above = room(0, 3), room(3, 5), "b-2"
	s.Floors = []plan.FloorRun{one, two}
	rows := plan.TakeOff(s)
	both := amounts(rows)
	for item, n := range whole {
		assert.InDelta(t, n, both[item], 1e-9, item)
	}
	for _, q := range rows {
		if q.Item == "resilient channel" {
			share := 0.4
			if strings.HasSuffix(q.Cause, "under b") {
				share = 0.6
			}
			assert.InDelta(t, share*whole[q.Item], q.Net, 1e-9, q.Cause)
		}
	}
}

// 135 ft of wall 8 ft high are 1080 ft2: 34 sheets of 4x8 without waste
// (http://howtobuildplans.com/?p=40): the area over a sheet's, rounded up.
func TestSheetsAsAnEstimatingGuideCountsThem(t *testing.T) {
	rows := []plan.Quantity{{Item: "board", Measure: "sheets", Net: 135 * 8 / 32.0}}
	assert.Equal(t, 34.0, plan.Totals(rows)[0].Net)
	// 1600 ft2 are 50 sheets, 55 with 10 % (https://www.thebalancesmb.com/how-to-estimate-drywall-step-by-step-tutorial-844379).
	rows = []plan.Quantity{{Item: "board", Measure: "sheets", Net: 1600 / 32.0, Waste: 0.10}}
	assert.Equal(t, 55.0, plan.Totals(rows)[0].Net)
}

// What goes by area is as much more as the floor is larger.
func TestQuantitiesScaleWithArea(t *testing.T) {
	of := func(width, depth float64) map[string]float64 {
		return amounts(plan.TakeOff(plan.SchemeOfTwoStoreys(t, plan.DefaultBrief(), plan.DefaultPrices(), width, depth)))
	}
	for _, size := range [][2]float64{{2.1, 2.3}, {3.7, 4.4}, {5.9, 2.0}} {
		one, two := of(size[0], size[1]), of(2*size[0], size[1])
		for _, item := range []string{"Type X gypsum board", "stone-wool batts", "joint compound, dry", "joint tape", "board screws", "taken off: gypsum board"} {
			require.Positive(t, one[item], item)
			assert.InDelta(t, 2*one[item], two[item], 1e-6, "%s of %v", item, size)
		}
	}
}

// Every row of a sample's take-off names the wall, floor or work that causes
// it, which is there, and where its figure is from.
func checkTakeOff(t *testing.T, s *plan.Scheme) {
	t.Helper()
	known := map[string]bool{"": true}
	for _, u := range s.BuildUps {
		known[u.Tag] = true
	}
	for _, w := range s.Works {
		known[w.ID] = true
	}
	rows := plan.TakeOff(s)
	require.NotEmpty(t, rows)
	for _, q := range rows {
		assert.True(t, known[q.Of], "%s comes of %q", q.Item, q.Of)
		assert.NotEmpty(t, q.Cause, q.Item)
		assert.Positive(t, q.Net, q.Item)
		assert.NotEmpty(t, q.Source.Standard, q.Item)
		assert.Contains(t, []string{"A", "B", "common", "both"}, q.Unit, q.Item)
	}
	checkBoards(t, s, rows)
	var b bytes.Buffer
	require.NoError(t, plan.WriteTakeOff(&b, s))
	table, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, 1+len(rows)+len(plan.Totals(rows)), len(table))
}

// checkBoards compares the sheets, wool and boards taken off with the new layers
// of the build-ups times their areas.
func checkBoards(t *testing.T, s *plan.Scheme, rows []plan.Quantity) {
	t.Helper()
	const inSheet = 1e-6 // mm2 in m2, of a size written in mm
	for _, u := range s.BuildUps {
		want, got := map[assembly.Material]float64{}, map[assembly.Material]float64{}
		for _, l := range u.Layers {
			if l.State == plan.New && (l.Material.IsBoard() || l.Material.IsFill() || l.Material == assembly.SoundBoard || l.Material == assembly.Subfloor) {
				want[l.Material] += u.AreaM2
			}
		}
		for _, q := range rows {
			material := assembly.Material(q.Item)
			if _, counted := want[material]; !counted || q.Of != u.Tag {
				continue
			}
			area := q.Net
			if q.Measure == "sheets" {
				var thick, wide, long float64
				_, err := fmt.Sscanf(q.Size, "%g x %g x %g mm", &thick, &wide, &long)
				require.NoError(t, err, q.Size)
				area *= wide * long * inSheet
			}
			got[material] += area
		}
		for material, area := range want {
			// Areas of surfaces are rounded to the hundredth one by one; a wall is taken off by its runs.
			assert.InDelta(t, area, got[material], 0.02*area+0.01*float64(len(u.Surfaces)), "%s of %s", material, u.Tag)
		}
	}
}

// Works that are no surface, counted by hand. A fence of 3.50 m with posts 2.4 m
// apart: posts at 0, 2.4 and 3.5 m, two rails, 7.0 m. A door's frame is filled
// with three studs. A unit's own door towards what both use is rated and
// closes itself; a door inside a unit is an inner door.
func TestWorksCountedByHand(t *testing.T) {
	s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.12)
	s.Walls, s.Floors = nil, nil
	s.Works = []plan.Work{
		{ID: "W1", Kind: "fence", LengthM: 3.5, Spaces: []string{"east", "west"}},
		{ID: "W2", Kind: "fence", LengthM: 4.8, Spaces: []string{"north", "south"}},
		{ID: "W3", Kind: "seal_door", Count: 1, Spaces: []string{"a", "b"}},
		{ID: "W4", Kind: "new_door", Count: 1, Spaces: []string{"a", "b"}},
		{ID: "W5", Kind: "new_door", Count: 1, Spaces: []string{"a", "a"}, Unit: "A"},
		{ID: "W6", Kind: "enlarge_window", Count: 2, Unit: "B"},
		{ID: "W7", Kind: "window_well", Count: 2, Unit: "B"},
	}
	got := amounts(plan.TakeOff(s))
	assert.Equal(t, map[string]float64{
		"fence posts": 3 + 3, "fence rails": 7.0 + 9.6, "fence boards": 3.5 + 4.8, "wood studs": 3,
		"rated door, solid core, with frame and seals": 1, "door closer": 1, "inner door with frame": 1, "latch or lock": 2,
		"escape window": 2, "window well": 2,
	}, got)
	for _, q := range plan.Totals(plan.TakeOff(s)) {
		if q.Item == "window well" {
			assert.Equal(t, "B", q.Unit)
		}
	}
}

// A door of 900 x 2030 mm in the separation stands in a steel frame: its opening
// is 2 in wider and 1 1/4 in higher; four studs frame it, and since nobody said
// that the wall bears nothing two plies of a lintel span 951 mm and a stud at
// either end, 1.027 m each. A door of 1.60 m in an outer wall is filled with the
// studs of a wall at 400 mm, five, two plates, and what closes an outer wall over 1.6 x 2.03 m.
func TestDoorsMadeAndClosedCountedByHand(t *testing.T) {
	s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.12)
	s.Walls, s.Floors = nil, nil
	s.Building.House.Doors = []plan.Door{{ID: "garden", Line: geom.Segment{A: geom.FromMetres(1, -0.1), B: geom.FromMetres(2.6, -0.1)}}}
	s.Works = []plan.Work{
		{ID: "W1", Kind: "new_door", Count: 1, Spaces: []string{"a", "b"}, Line: []geom.Pt{geom.FromMetres(1, 3.06), geom.FromMetres(1.9, 3.06)}},
		{ID: "W2", Kind: "seal_door", Of: "garden", Count: 1, Spaces: []string{"a"}},
	}
	rows := plan.TakeOff(s)
	got := map[string]float64{}
	for _, q := range rows {
		got[q.Of+" "+q.Item] += q.Net
		if q.Of == "W2" {
			assert.Equal(t, "A", q.Unit, "in a room of A alone")
		}
		if q.Item == "rated door, solid core, with frame and seals" {
			assert.Equal(t, "900 x 2030 mm, rough opening 951 x 2062 mm", q.Size)
		}
	}
	for item, n := range map[string]float64{
		"W1 wood studs": 4, "W1 lintel plies, sized by an engineer": 2 * (0.9508 + 0.076), "W1 door closer": 1,
		"W2 wood studs": 5, "W2 plates": 3.2, "W2 gypsum board": 1.6 * 2.03 / 2.9768, "W2 stone-wool batts": 3.248,
		"W2 outer wall made good: sheathing, membrane and cladding": 3.248,
	} {
		assert.InDelta(t, n, got[item], 1e-3, item)
	}
}
