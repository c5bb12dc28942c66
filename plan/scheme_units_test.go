package plan_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/geom"
	"moiety/plan"
)

// rasterGross measures the units' gross areas independently: on each level the
// outline is walked on a grid, and each place counted for the unit of the
// nearest room. Exterior walls then go with their rooms, and walls between
// units by halves (IPMS 3: to the exterior face and the middle of the
// separation); a garage, and what is common, count for neither.
func rasterGross(s *plan.Scheme, step float64) (gross [2]float64) {
	b := s.Building
	for level, shape := range b.Levels {
		bounds := shape.Outline.Bounds()
		if bounds.Empty() {
			continue
		}
		var rooms []int
		for c, cell := range b.Cells {
			if !cell.Outdoor && (cell.Level == level || cell.To == level) {
				rooms = append(rooms, c)
			}
		}
		x0, y0 := bounds.Min.Metres()
		x1, y1 := bounds.Max.Metres()
		for x := x0 + step/2; x < x1; x += step {
			for y := y0 + step/2; y < y1; y += step {
				p := geom.FromMetres(x, y)
				if shape.Outline.Contains(p) == geom.Out {
					continue
				}
				best, nearest := -1, math.Inf(1)
				for _, c := range rooms {
					d := b.Cells[c].Region.DistanceToBorder(p)
					if b.Cells[c].Region.Contains(p) != geom.Out {
						d = 0
						// Over the low end of a flight a room may have been
						// surveyed, or the next flight may climb.
						if b.Cells[c].Flight && b.Cells[c].Level == level {
							d = 0.001
						} else if b.Cells[c].Flight {
							d = 0.002
						}
					}
					if d < nearest {
						best, nearest = c, d
					}
				}
				if best >= 0 && b.Cells[best].Use != plan.Garage && s.Owners[best] <= plan.UnitB {
					gross[s.Owners[best]] += step * step
				}
			}
		}
	}
	return gross
}

func TestGrossAreasAgreeWithCountingOnAGrid(t *testing.T) {
	samples := sampleHouses(t)
	samples["duplex"] = sample{duplex(t), twoBedroomsEach()}
	for _, name := range slices.Sorted(maps.Keys(samples)) {
		s := samples[name]
		t.Run(name, func(t *testing.T) {
			s.brief.Schemes = 1
			scheme := split(t, s.building, s.brief).Schemes[0]
			want := rasterGross(scheme, 0.10)
			for u := range scheme.Units {
				assert.InDelta(t, want[u], scheme.Units[u].GrossM2, 0.01*want[u]+0.3, "unit %s", scheme.Units[u].ID)
				assert.InDelta(t, scheme.Units[u].GrossM2, scheme.Units[u].AboveM2+scheme.Units[u].BelowM2, 1e-6)
			}
		})
	}
}

// The pair with exterior walls of 0.20 m: 10.6 m from face to face and 7.5 m
// deep, parted in the middle.
func TestAreasOfAUnit(t *testing.T) {
	s := best(t, pair().House(), kept())
	for _, u := range s.Units {
		assert.InDelta(t, 5*4+2.2*3+2.7*3, u.NetM2, 1e-6)
		assert.InDelta(t, 5.3*7.5, u.GrossM2, 0.01)
	}

	// A garage counts in no area, but its wall to the house goes by halves:
	// the exterior wall beside it, 0.20 x 6 m, becomes one of 0.20 m between,
	// of which the flat keeps 0.10 m.
	h := withRoom(pair().House(), "garage", plan.Garage, -6.2, 0, -0.2, 6)
	h = withDoor(h, "garage-door", -0.1, 1, -0.1, 1.8)
	s = best(t, h, kept())
	assert.InDelta(t, 5*4+2.2*3+2.7*3, s.Units[0].NetM2, 1e-6)
	assert.InDelta(t, 5.3*7.5-0.10*6, s.Units[0].GrossM2, 0.05)
}

// A level that lies wholly or partly below grade counts below, whole (ANSI
// Z765-2021 3.5, from memory); a sill's height is no cellar.
func TestAboveAndBelowGrade(t *testing.T) {
	for grade, below := range map[float64]bool{-0.40: false, 0: false, 0.15: false, 0.20: true, 1.40: true} {
		h := pair().House()
		h.Grade, h.GradeSaid = grade, true
		for _, u := range best(t, h, kept()).Units {
			assert.Equal(t, below, u.BelowM2 > 0, "ground at %.2f m", grade)
			assert.Equal(t, below, u.AboveM2 == 0, "ground at %.2f m", grade)
			assert.InDelta(t, u.GrossM2, u.AboveM2+u.BelowM2, 1e-9)
		}
	}
}

// With the ground 1.00 m up its lower level, all of the duplex's lower level
// lies below grade and all of its upper one above: what the units have of each
// is the level's outline.
func TestTheDuplexOnASlope(t *testing.T) {
	h := *duplex(t).House
	h.Grade, h.GradeSaid = 1.0, true
	b := build(t, &h)
	s := split(t, b, twoBedroomsEach()).Schemes[0]
	assert.InDelta(t, b.Levels[0].Outline.AreaM2(), s.Units[0].BelowM2+s.Units[1].BelowM2, 0.01)
	assert.InDelta(t, b.Levels[1].Outline.AreaM2(), s.Units[0].AboveM2+s.Units[1].AboveM2, 0.01)
}

func TestWhatAUnitHas(t *testing.T) {
	// Flat a gets a powder room at its side, flat b a closet; a second bath
	// of which nothing but a basin is drawn counts one half.
	h := withDoor(withRoom(pair().House(), "powder", plan.PowderRoom, -2.2, 0, -0.2, 1.5), "powder-door", -0.1, 0.3, -0.1, 1.1)
	h = withDoor(withRoom(h, "half-bath", plan.Bathroom, 10.4, 0, 12.4, 1.5), "half-bath-door", 10.3, 0.3, 10.3, 1.1)
	h = withFixture(h, "basin", "basin", 11, 1)
	brief := kept()
	brief.Units[0].Name = "Garden flat"
	s := best(t, h, brief)
	assert.Equal(t, "Garden flat", s.Units[0].Name)
	assert.Equal(t, "Unit B", s.Units[1].Name)
	assert.InDelta(t, 1.5, s.Units[0].Bathrooms, 0)
	assert.InDelta(t, 1.5, s.Units[1].Bathrooms, 0)
	assert.Equal(t, 1, s.Units[0].Bedrooms)

	// At most no bedroom wanted: the one there is, is to be used otherwise.
	brief.Units[0].Bedrooms = plan.Range{Max: 0, MaxSaid: true}
	s = best(t, h, brief)
	assert.Zero(t, s.Units[0].Bedrooms)
	assert.Contains(t, s.Units[0].Notes, "1 of its bedrooms to be used otherwise: the brief asks for at most 0")
}

// The cells of a unit are all that are its own, flights and ground too, by id.
func TestTheCellsOfAUnit(t *testing.T) {
	s := best(t, pairWithGround(eachOf(frontYards, street)), kept())
	var ids []string
	for _, c := range s.Units[0].Cells {
		ids = append(ids, s.Building.Cells[c].ID)
	}
	assert.Equal(t, []string{"a-bath", "a-bed", "a-living", "a-yard"}, ids)
	assert.InDelta(t, 8.1*6, s.Units[0].OutdoorM2, 1e-6)
	assert.InDelta(t, 34.7, s.Units[0].NetM2, 1e-6, "the yard is no floor")
}
