package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

// fixturesOf lists what a kind of work puts in: one of each group.
var fixturesOf = map[string][][]string{
	"new_kitchen": {{"sink"}, {"range"}, {"refrigerator"}}, "new_bathroom": {{"bath", "shower"}},
	"new_laundry": {{"washer"}, {"dryer"}}, "new_furnace": {{"furnace"}}, "new_water_heater": {{"water_heater"}},
	"new_panel": {{"electrical_panel"}},
}

// Whatever a scheme has put in stands in the room of the unit that asked for
// it, clear of the doors that the scheme adds.
func TestASchemePlacesWhatItPutsIn(t *testing.T) {
	eachSample(t, func(t *testing.T, s sample) {
		for _, scheme := range split(t, s.building, s.brief).Schemes {
			b := scheme.Building
			ids := map[string]bool{}
			for _, x := range scheme.Fixtures {
				assert.False(t, ids[x.ID], x.ID)
				ids[x.ID] = true
			}
			for _, w := range scheme.Works {
				groups, ok := fixturesOf[w.Kind]
				if !ok {
					continue
				}
				c := cellIndex(t, b, w.Spaces[0])
				for _, group := range groups {
					assert.True(t, slices.ContainsFunc(scheme.Fixtures, func(x plan.PlacedFixture) bool {
						return x.State == plan.New && slices.Contains(group, x.Use) && x.Footprint != nil &&
							b.Cells[c].Region.Contains(x.At) == geom.Inside && x.Level == b.Cells[c].Level &&
							x.Unit == scheme.Owners[c].String()
					}), "scheme %s, %s in %s: no %v", scheme.ID, w.Kind, b.Cells[c].ID, group)
				}
				if w.Kind != "new_furnace" && w.Kind != "new_panel" {
					assert.Contains(t, w.Note, "drain of", "%s in %s", w.Kind, b.Cells[c].ID)
				}
			}
			for _, f := range scheme.Fits {
				assert.Empty(t, checkFit(b, f), "scheme %s", scheme.ID)
				for _, i := range f.Removed {
					assert.True(t, slices.ContainsFunc(scheme.Fixtures, func(x plan.PlacedFixture) bool {
						return x.ID == b.House.Fixtures[i].ID && x.State == plan.Removed
					}))
				}
			}
			assertClearOfNewDoors(t, scheme)
		}
	})
}

// assertClearOfNewDoors checks that no new fixture stands within 0.8 m before a
// new door, but where a note says that it does.
func assertClearOfNewDoors(t *testing.T, s *plan.Scheme) {
	t.Helper()
	noted := func(door string) bool {
		return slices.ContainsFunc(s.Works, func(w plan.Work) bool { return strings.Contains(w.Note, "in the way of "+door) })
	}
	for _, p := range s.Passages {
		if p.State != plan.New || p.Door == nil || noted(p.Of) {
			continue
		}
		for _, x := range s.Fixtures {
			if x.State != plan.New || x.Level != p.Level {
				continue
			}
			for _, q := range samples(*x.Footprint) {
				a, off := p.Line.Along(q), p.Line.Off(q)
				assert.False(t, a > sampleInset && a < p.Line.Length()-sampleInset && off > -0.8 && off < 0.8, "scheme %s: %s before %s", s.ID, x.ID, p.Of)
			}
		}
	}
}

// A laundry that becomes the only bathroom of a unit gives up its machines, and
// the works say so.
func TestTheWorksSayWhatGoes(t *testing.T) {
	s := sampleHouses(t)["split-level"]
	b := s.building
	c := cellIndex(t, b, "laundry")
	fits := plan.FitsOf(b, c, plan.HasBathroom)
	require.NotEmpty(t, fits)
	var gone []string
	for _, i := range fits[0].Removed {
		gone = append(gone, b.House.Fixtures[i].ID)
	}
	assert.Equal(t, []string{"dryer", "laundry-sink", "washer"}, gone)
}

func BenchmarkFits(b *testing.B) {
	for name, s := range sampleHouses(b) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				b.StopTimer()
				house := build(b, s.building.House)
				b.StartTimer()
				for c := range house.Cells {
					plan.OfferOf(house, c)
				}
			}
		})
	}
}
