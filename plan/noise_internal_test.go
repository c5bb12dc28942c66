package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan/assembly"
)

// fourRooms is a scheme of four rooms: a kitchen over one bedroom and beside another, a living
// room under the second.
func fourRooms() *Scheme {
	room := func(id string, use Use, x, floor float64) Cell {
		ring := geom.Ring{geom.FromMetres(x, 0), geom.FromMetres(x+4, 0), geom.FromMetres(x+4, 3), geom.FromMetres(x, 3)}
		return Cell{ID: id, Of: id, Use: use, Region: geom.Region{Outer: ring}, AreaM2: 12, Floor: floor, Ceiling: floor + 2.4}
	}
	b := &Building{
		House: &House{}, Cells: []Cell{
			room("bed-below", Bedroom, 0, 0), room("bed-beside", Bedroom, 4.1, 2.7), room("kitchen", Kitchen, 0, 2.7), room("living", Living, 4.1, 0),
		},
		Links: []Link{
			{ID: "1", Kind: LinkFloor, U: 0, V: 2, AreaM2: 12}, {ID: "2", Kind: LinkWall, U: 1, V: 2, AreaM2: 7.2},
			{ID: "3", Kind: LinkFloor, U: 3, V: 1, AreaM2: 12},
		},
	}
	s := &Scheme{Building: b, Brief: DefaultBrief(), Owners: []Owner{UnitA, UnitA, UnitB, UnitB}, Also: make([][]Use, 4)}
	for _, c := range b.Cells {
		s.Uses = append(s.Uses, c.Use)
	}
	return s
}

func TestLoudestConflictsComeFirst(t *testing.T) {
	s := fourRooms()
	s.addNoise(DefaultPrices())
	require.Len(t, s.Noise, 3)
	assert.Equal(t, "living", s.Noise[0].Noisy, "the living room is louder than the kitchen")
	assert.Equal(t, "bed-below", s.Noise[1].Quiet, "12 m2 pass more than 7.2 m2")
	assert.True(t, s.Noise[1].Above)
	assert.Contains(t, s.Noise[1].Note, "steps")
	assert.False(t, s.Noise[0].Above)
	assert.Equal(t, "taken", s.Noise[0].RatedBy)
}

// A surface that is built better comes later in the list and passes as much less.
func TestABetterBuildUpIsHeardLess(t *testing.T) {
	s := fourRooms()
	s.addNoise(DefaultPrices())
	before := s.Noise[1].ReceivedDB
	s.BuildUps = []BuildUp{
		{Tag: "SF1", Assembly: assembly.Assembly{Rating: assembly.Rating{STC: 62, IIC: 55}}, Surfaces: []BuildUpSurface{
			{Between: [2]string{"bed-below", "kitchen"}, Work: "upgrade_floor"}}},
		{Tag: "SW1", Assembly: assembly.Assembly{Rating: assembly.Rating{STC: 40}}, Surfaces: []BuildUpSurface{
			{Between: [2]string{"kitchen", "bed-beside"}, Work: "upgrade_wall"}}},
	}
	s.addNoise(DefaultPrices())
	assert.Equal(t, "bed-beside", s.Noise[0].Quiet, "across the weak wall")
	assert.Equal(t, 40, s.Noise[0].STC)
	last := s.Noise[2]
	assert.Equal(t, "SF1", last.RatedBy)
	assert.Equal(t, 55, last.IIC)
	assert.InDelta(t, before-12, last.ReceivedDB, 1e-9)
}

// A bedroom that the scheme makes a kitchen of is loud, and nobody sleeps in it;
// what the price reckons with by the surveyed uses is said beside it.
func TestConflictsFollowTheUsesOfTheScheme(t *testing.T) {
	s := fourRooms()
	s.Uses[1] = Kitchen
	s.addNoise(DefaultPrices())
	require.Len(t, s.Noise, 3)
	priced := 0.0
	for _, n := range s.Noise {
		priced += n.Cost
		if n.Quiet == "bed-beside" {
			assert.Contains(t, n.Note, "priced by the surveyed uses")
			assert.Zero(t, n.ReceivedDB)
		}
	}
	want := DefaultPrices().Priorities.Noise * (12 + 7.2 + 12)
	assert.InDelta(t, want, priced, 0.01)
}

// A kitchen above the other unit's bedroom costs; a closet against a closet, or
// under one, costs nothing.
func TestAKitchenAboveABedroomCostsMoreThanClosetToCloset(t *testing.T) {
	price := func(below, above Use) float64 {
		b := &Building{House: &House{}, Cells: []Cell{{ID: "below", Use: below}, {ID: "above", Use: above}}}
		return noisePrice(b, Link{Kind: LinkFloor, U: 0, V: 1, AreaM2: 10}, DefaultPrices(), DefaultBrief())
	}
	assert.InDelta(t, 10*DefaultPrices().Priorities.Noise, price(Bedroom, Kitchen), 0.01)
	assert.Greater(t, price(Bedroom, Kitchen), price(Closet, Closet))
	assert.Zero(t, price(Closet, Closet))
}
