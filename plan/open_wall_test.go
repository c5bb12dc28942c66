package plan_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/structure"
)

// opened opens walls of a house and gives the first.
func opened(t *testing.T, h *plan.House, brief string) plan.OpenedWall {
	t.Helper()
	b, err := plan.OpenWalls(build(t, h), readBrief(t, brief), plan.DefaultPrices(), nil)
	require.NoError(t, err)
	require.NotEmpty(t, b.House.Opened)
	return b.House.Opened[0]
}

// The wall between living room and bedroom is 2.9 m long, its middle at
// y = 4.05 m between outer faces at -0.3 and 7.5 m.
func TestAnOpenedWallCarriesHalfTheWayToTheOuterWalls(t *testing.T) {
	o := opened(t, twoFlats(t), "open: [[living-1, bed-1]]")
	assert.InDelta(t, (4.05+0.3+7.5-4.05)/2, o.TributaryM, 0.01)
	assert.InDelta(t, 2.9-2*0.1, o.Line.Length(), 0.001)
	assert.InDelta(t, 2.7*2.44, o.AreaM2, 0.01)
	assert.True(t, o.Bears)
	assert.Contains(t, o.Why, "taken to")
	require.NotNil(t, o.Beam)
	// By hand, IRC loads in psf: ceiling 10 + 20, roof 15 + 20.
	const psf = 0.04788026
	assert.InDelta(t, 3.9*(20+20)*psf, o.Beam.LiveKNPerM, 0.01)
	assert.InDelta(t, 3.9*(10+15)*psf+o.Beam.SelfWeightKNPerM(), o.Beam.DeadKNPerM, 0.01)
	assert.InDelta(t, o.Beam.LiveKNPerM+o.Beam.DeadKNPerM, o.Beam.Checks[0].Demand*8/o.Beam.SpanM/o.Beam.SpanM, 1e-9)
	assert.True(t, o.Below)
	prices := plan.DefaultPrices()
	assert.InDelta(t, o.AreaM2*prices.RemoveWall+2.7*prices.BeamPerM, o.Cost, 0.01)
}

func TestWhatIsKnownOfAWallDecidesWhetherItBears(t *testing.T) {
	marked := func(bearing bool) *plan.House {
		h := *twoFlats(t)
		at := h.Doors[0].Level
		h.Walls = []plan.WallMark{{ID: "spine", Level: at, Line: points(0, 4.05, 2.9, 4.05), Bearing: bearing}}
		return &h
	}
	const wall = "open: [{between: [living-1, bed-1], joists: %s, width: 2}]"
	along, across := strings.Replace(wall, "%s", "along", 1), strings.Replace(wall, "%s", "across", 1)
	assert.False(t, opened(t, twoFlats(t), along).Bears)
	assert.Nil(t, opened(t, twoFlats(t), along).Beam)
	assert.True(t, opened(t, twoFlats(t), across).Bears)
	assert.True(t, opened(t, marked(true), along).Bears, "the survey's mark outweighs the joists")
	assert.True(t, opened(t, marked(false), "open: [spine]").Bears, "a mark that says nothing of bearing is no leave to cut")
	assert.Less(t, opened(t, twoFlats(t), along).Cost, opened(t, twoFlats(t), across).Cost)
}

// A wall that bears halfway shortens what comes down; snow and a storey above add to it.
func TestLoadsFollowTheHouse(t *testing.T) {
	h := twoFlats(t)
	plain := opened(t, h, "open: [[living-1, bed-1]]")
	nearer := *h
	nearer.Walls = []plan.WallMark{{ID: "middle", Level: 1, Line: points(0, 2, 5, 2), Bearing: true}}
	assert.InDelta(t, (4.05-2+7.5-4.05)/2, opened(t, &nearer, "open: [[living-1, bed-1]]").TributaryM, 0.01)
	snowy := opened(t, h, "open: [{between: [living-1, bed-1], snow_kpa: 4}]")
	assert.InDelta(t, plain.Beam.LiveKNPerM+3.9*(4-20*0.04788026), snowy.Beam.LiveKNPerM, 0.01)
	assert.GreaterOrEqual(t, snowy.Beam.WidthMM*snowy.Beam.DepthMM, plain.Beam.WidthMM*plain.Beam.DepthMM)
	roofless := opened(t, h, "open: [{between: [living-1, bed-1], roof: false}]")
	assert.Len(t, roofless.Beam.Opening.Carries, 1)
	lumber := opened(t, h, "open: [{between: [living-1, bed-1], beam: lumber, width: 1.5}]")
	assert.Equal(t, structure.Sawn, lumber.Beam.Kind)
	assert.InDelta(t, 1.5, lumber.Line.Length(), 0.001)
}

func TestAStoreyAboveComesDownOnTheWall(t *testing.T) {
	b := surveyed(t, "testdata", "houses", "duplex.house.json")
	for _, l := range b.Links {
		if l.Kind != plan.LinkWall || l.Length < 2 || b.Cells[l.U].Flight || b.Cells[l.V].Flight || l.Rise != 0 {
			continue
		}
		text := "open: [[" + b.Cells[l.U].ID + ", " + b.Cells[l.V].ID + "]]"
		out, err := plan.OpenWalls(b, readBrief(t, text), plan.DefaultPrices(), nil)
		if err != nil {
			continue
		}
		above := 0
		for i, level := range b.House.Levels {
			if !level.Outdoor && level.Floor > b.House.Levels[l.Level].Floor+1 && len(b.Levels[i].Outline) > 0 {
				above++
			}
		}
		carries := out.House.Opened[0].Beam
		if carries == nil || above == 0 {
			continue
		}
		assert.Equal(t, "ceiling and attic", carries.Opening.Carries[len(carries.Opening.Carries)-2].What)
		assert.Greater(t, len(carries.Opening.Carries), 2, "%s carries a floor", text)
		return
	}
	t.Skip("no wall below another storey")
}

// Opening a wall makes one way through of two rooms, so one unit has both.
func TestOpenedRoomsBelongTogether(t *testing.T) {
	a := split(t, build(t, twoFlats(t)), readBrief(t, "open: [[living-1, bed-1], {between: [living-2, bath-2], width: 0.8, joists: along}]\nschemes: 2\ncuts: false"))
	require.NotEmpty(t, a.Schemes, "%v", a.WhyNot)
	for _, s := range a.Schemes {
		whose := map[string]plan.Owner{}
		for c, cell := range s.Building.Cells {
			whose[cell.Of] = s.Owners[c]
		}
		assert.Equal(t, whose["living-1"], whose["bed-1"])
		assert.Equal(t, whose["living-2"], whose["bath-2"])
		sum, walls, ways := 0.0, 0, 0
		for _, w := range s.Works {
			sum += w.Cost
			if w.Kind == "remove_wall" {
				walls++
				assert.Contains(t, w.Note, "engineer")
				assert.Greater(t, w.AreaM2, 0.0)
			}
		}
		for _, p := range s.Passages {
			if p.Type == "opening" && p.State == plan.New {
				ways++
			}
			assert.NotEqual(t, "door-bed-1", p.Of, "its door went with the wall")
		}
		assert.Empty(t, s.Whole.House.Opened, "the house as surveyed is kept beside it")
		assert.Equal(t, 2, walls)
		assert.Equal(t, 2, ways)
		assert.InDelta(t, sum, s.Cost.Works, 0.005)
		assert.InDelta(t, s.Cost.Total, s.Bound, 1e-9, "proved")
	}
	// Each flat could be a unit, were it not for the wall between them.
	none := split(t, build(t, twoFlats(t)), readBrief(t, "open: [[living-1, living-2]]\ncuts: false\nunits: [{keep: living-1}, {keep: living-2}]"))
	assert.Empty(t, none.Schemes, "no scheme parts what is opened")
	assert.Contains(t, none.WhyNot, "the wall between living-1 and living-2 is opened, so one unit has both")
}

// Two plies and the studs at both ends, counted by hand on the opening of 2.70 m
// with 76 mm of bearing at each end.
func TestTheTakeOffHasTheBeam(t *testing.T) {
	a := split(t, build(t, twoFlats(t)), readBrief(t, "open: [[living-1, bed-1]]\nschemes: 1\ncuts: false"))
	require.NotEmpty(t, a.Schemes)
	taken := map[string]float64{}
	for _, q := range plan.TakeOff(a.Schemes[0]) {
		if strings.HasPrefix(q.Cause, "remove wall") {
			taken[q.Item+" "+q.Size] += q.Net
		}
	}
	assert.Equal(t, 2.0, taken["beam plies, preliminary 44 x 241 x 2852 mm LVL 1.9E (2650Fb)"], "%v", taken)
	assert.Equal(t, 4.0, taken["wood studs 38 x 89 x 2199 mm"], "%v", taken)
}

func TestOpeningsSayWhoDecides(t *testing.T) {
	a := split(t, build(t, twoFlats(t)), readBrief(t, "open: [[living-1, bed-1]]\nschemes: 1\ncuts: false"))
	require.NotEmpty(t, a.Schemes)
	var table, text, summary bytes.Buffer
	require.NoError(t, plan.WriteOpenings(&table, a.Schemes[0]))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+1+2+5, "the opening, two loads, five checks")
	assert.Contains(t, fmt.Sprint(rows), "An engineer decides")
	require.NoError(t, plan.WriteText(&text, a))
	assert.Contains(t, strings.Join(strings.Fields(text.String()), " "), "An engineer decides")
	require.NoError(t, plan.WriteSummary(&summary, a))
	var read struct {
		Openings []struct {
			Bears bool
			Beam  struct{ Checks []struct{ OK bool } }
		}
	}
	require.NoError(t, json.Unmarshal(summary.Bytes(), &read))
	require.Len(t, read.Openings, 1)
	assert.Len(t, read.Openings[0].Beam.Checks, 5)
	for _, check := range read.Openings[0].Beam.Checks {
		assert.True(t, check.OK)
	}
}

func TestBeamsTurnWithTheHouse(t *testing.T) {
	h := twoFlats(t)
	plain := opened(t, h, "open: [[living-1, bed-1]]")
	for name, other := range map[string]*plan.House{
		"turned": housetest.Turned(h, 33), "mirrored": housetest.Mirrored(h), "moved": housetest.Moved(h, 40, -7), "shuffled": housetest.Shuffled(h, 3),
	} {
		o := opened(t, other, "open: [[living-1, bed-1]]")
		assert.InDelta(t, plain.TributaryM, o.TributaryM, 0.005, name)
		assert.Equal(t, plain.Beam.Name(), o.Beam.Name(), name)
		assert.InDelta(t, plain.Cost, o.Cost, 0.001*plain.Cost, name)
	}
}

func TestWallsThatCannotBeOpenedAreNamed(t *testing.T) {
	h := *twoFlats(t)
	h.Walls = []plan.WallMark{
		{ID: "front-wall", Level: 1, Line: points(0, -0.15, 5, -0.15)},
		{ID: "spine", Level: 1, Line: points(0, 4.05, 5, 4.05), Bearing: true},
	}
	for brief, want := range map[string]string{
		"open: [[living-1, living-9]]":                            "no space \"living-9\"",
		"open: [[bed-1, bed-2]]":                                  "no wall lies",
		"open: [front-wall]":                                      "wall to the outdoors",
		"open: [nowhere]":                                         "no wall nowhere",
		"open: [spine]":                                           "runs along 2 walls",
		"open: [{between: [living-1, bed-1], width: 5}]":          "leaves 2.70 m",
		"open: [[living-1, bed-1], [bed-1, living-1]]":            "opened twice",
		"open: [[bed-1, bed-2], {between: [living-1, living-9]}]": "no space",
	} {
		_, err := plan.Split(context.Background(), build(t, &h), readBrief(t, brief), plan.DefaultPrices(), plan.SplitOptions{})
		assert.ErrorContains(t, err, want, brief)
	}
	_, err := plan.ReadBrief(strings.NewReader("open: [7, [a], [a, a], {width: 2}, {wall: w, joists: up}, {wall: w, width: 90}]"), "b")
	for _, part := range []string{"open[1]", "open[2]", "open[3]", "joists", "width"} {
		assert.ErrorContains(t, err, part)
	}
	_, err = plan.ReadBrief(strings.NewReader("open: spine"), "b")
	assert.ErrorContains(t, err, "list of walls")
}

// points are x, y pairs in metres.
func points(xy ...float64) []geom.Pt {
	var out []geom.Pt
	for i := 0; i < len(xy); i += 2 {
		out = append(out, geom.FromMetres(xy[i], xy[i+1]))
	}
	return out
}
