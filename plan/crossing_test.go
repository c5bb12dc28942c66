package plan_test

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

// flats draws two flats one over the other: a kitchen and a furnace room
// below, a bathroom and a bedroom above, a stack that runs through both.
//
//	upper:  bath | bed        B
//	lower:  kit  | plant      A
const flats = `{"type":"FeatureCollection","house":{"name":"Flats","length_unit":"m","levels":[
{"id":"lower","floor":0,"height":2.4},{"id":"upper","floor":2.7,"height":2.4}]},"features":[
{"type":"Feature","id":"kit","geometry":{"type":"Polygon","coordinates":[[[0,0],[4,0],[4,4],[0,4],[0,0]]]},"properties":{"kind":"space","level":"lower","use":"kitchen"}},
{"type":"Feature","id":"plant","geometry":{"type":"Polygon","coordinates":[[[4.1,0],[8,0],[8,4],[4.1,4],[4.1,0]]]},"properties":{"kind":"space","level":"lower","use":"mechanical"}},
{"type":"Feature","id":"bath","geometry":{"type":"Polygon","coordinates":[[[0,0],[4,0],[4,4],[0,4],[0,0]]]},"properties":{"kind":"space","level":"upper","use":"bathroom"}},
{"type":"Feature","id":"bed","geometry":{"type":"Polygon","coordinates":[[[4.1,0],[8,0],[8,4],[4.1,4],[4.1,0]]]},"properties":{"kind":"space","level":"upper","use":"bedroom"}},
{"type":"Feature","id":"sink","geometry":{"type":"Point","coordinates":[1,3.7]},"properties":{"kind":"fixture","level":"lower","use":"sink"}},
{"type":"Feature","id":"stack-low","geometry":{"type":"Point","coordinates":[3.9,3.9]},"properties":{"kind":"fixture","level":"lower","use":"drain_stack"}},
{"type":"Feature","id":"furnace","geometry":{"type":"Point","coordinates":[6,3.6]},"properties":{"kind":"fixture","level":"lower","use":"furnace"}},
{"type":"Feature","id":"water","geometry":{"type":"Point","coordinates":[7.8,3.9]},"properties":{"kind":"fixture","level":"lower","use":"water_entry"}},
{"type":"Feature","id":"wc","geometry":{"type":"Point","coordinates":[1,3.7]},"properties":{"kind":"fixture","level":"upper","use":"wc"}},
{"type":"Feature","id":"basin","geometry":{"type":"Point","coordinates":[2,3.7]},"properties":{"kind":"fixture","level":"upper","use":"basin"}}
]}`

// What crosses between two flats follows from what stands over and under whose
// rooms: drains go down, stacks and flues go up, and the one water entry
// serves both.
func TestWhatCrossesBetweenTwoFlats(t *testing.T) {
	h, err := plan.Read(strings.NewReader(flats), "flats.house.json")
	require.NoError(t, err)
	b, err := plan.Build(h)
	require.NoError(t, err)
	s := &plan.Scheme{ID: "1", Building: b}
	for _, c := range b.Cells {
		o := plan.UnitA
		if c.Level == 1 {
			o = plan.UnitB
		}
		s.Owners, s.Uses = append(s.Owners, o), append(s.Uses, c.Use)
	}
	for _, f := range h.Fixtures {
		s.Fixtures = append(s.Fixtures, plan.PlacedFixture{Fixture: f, State: plan.Kept})
	}
	for _, l := range b.Links {
		if l.Kind == plan.LinkFloor {
			s.Floors = append(s.Floors, plan.FloorRun{Below: b.Cells[l.U].ID, Above: b.Cells[l.V].ID, Region: l.Region, State: plan.Separating})
		}
	}
	type found struct{ kind, unit, of string }
	var got []found
	for _, c := range s.Crossings() {
		got = append(got, found{string(c.Kind), c.Unit, strings.Join(c.Of, " ")})
	}
	assert.ElementsMatch(t, []found{
		{"stack", "A", "stack-low"},
		{"flue", "A", "furnace"},
		{"water", "", "water"},
		{"drain", "B", "wc basin"},
	}, got)

	// Where both floors are one unit's nothing crosses.
	for i := range s.Floors {
		s.Floors[i].State = plan.Existing
	}
	for _, c := range s.Crossings() {
		assert.Equal(t, plan.WaterCrossing, c.Kind)
	}
}

// Every crossing of every sample is on the level of what it is of, in or at a
// cell of a unit, and is of something that there is.
func TestCrossingsOfTheSamplesAreOfWhatIsThere(t *testing.T) {
	for _, name := range []string{"terrace", "storey-and-a-half"} {
		f, err := os.Open("../samples/" + name + "/" + name + ".house.json")
		require.NoError(t, err)
		defer f.Close()
		h, err := plan.Read(f, name)
		require.NoError(t, err)
		b, err := plan.Build(h)
		require.NoError(t, err)
		raw, err := os.Open("../samples/" + name + "/" + name + ".brief.yaml")
		require.NoError(t, err)
		defer raw.Close()
		brief, err := plan.ReadBrief(raw, name)
		require.NoError(t, err)
		a, err := plan.Split(context.Background(), b, brief, plan.DefaultPrices(), plan.SplitOptions{})
		require.NoError(t, err)
		s := a.Schemes[0]
		kinds := map[plan.CrossingKind]int{}
		for _, c := range s.Crossings() {
			kinds[c.Kind]++
			assert.NotEmpty(t, c.Note)
			for _, id := range c.Of {
				known := slices.ContainsFunc(s.Fixtures, func(f plan.PlacedFixture) bool { return f.ID == id && f.Level == c.Level }) ||
					slices.ContainsFunc(s.Passages, func(p plan.Passage) bool { return p.Of == id && p.Level == c.Level })
				assert.True(t, known, "%s: %s", name, id)
			}
			near := slices.ContainsFunc(s.Building.Cells, func(cell plan.Cell) bool {
				return (cell.Level == c.Level || cell.Flight && cell.To == c.Level) && (cell.Region.Contains(c.At) != geom.Out || cell.Region.DistanceToBorder(c.At) < 0.5)
			})
			assert.True(t, near, "%s: %v", name, c)
		}
		// Both have bathrooms of one unit over rooms of the other.
		assert.Positive(t, kinds[plan.DrainCrossing], name)
	}
}
