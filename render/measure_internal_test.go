package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

func TestFeetAndInches(t *testing.T) {
	// An inch is 25.4 mm exactly; the texts were worked out by hand.
	for _, c := range []struct {
		metres float64
		text   string
	}{
		{0, `0"`},
		{0.0254, `1"`},
		{0.3048, `1'-0"`},
		{0.089, `3 1/2"`},     // a stud of 3 1/2 in, given in mm
		{0.0032, `1/8"`},      // 3.2 mm
		{1.0668, `3'-6"`},     // 42 in
		{1.0795, `3'-6 1/2"`}, // 42.5 in
		{3.6576, `12'-0"`},
		{3.6544, `11'-11 7/8"`}, // 143.87 in
		{3.6570, `12'-0"`},      // rounds up over the foot
		{-0.3175, `−1'-0 1/2"`},
	} {
		assert.Equal(t, c.text, feetAndInches(c.metres), "%g m", c.metres)
	}
}

func TestMetricTexts(t *testing.T) {
	m := measure{}
	assert.Equal(t, "3600", m.dimension(3.6))
	assert.Equal(t, "125", m.dimension(0.1249))
	assert.Equal(t, "3.60 × 3.00", m.size(3.6, 3))
	assert.Equal(t, "10.8 m²", m.area(10.8))
	assert.Equal(t, "±0.00", m.elevation(0.001))
	assert.Equal(t, "−2.60", m.elevation(-2.6))
	assert.Equal(t, "+2.70", m.elevation(2.7))
	// 10 m2 are 107.639 ft2: the international foot is 0.3048 m.
	assert.Equal(t, "108 ft²", measure{imperial: true}.area(10))
	assert.Equal(t, `±0'-0"`, measure{imperial: true}.elevation(0))
	assert.Equal(t, `+0'-6"`, measure{imperial: true}.elevation(0.1524))
}

func ring(coordinates ...float64) geom.Ring {
	var r geom.Ring
	for i := 0; i+1 < len(coordinates); i += 2 {
		r = append(r, geom.FromMetres(coordinates[i], coordinates[i+1]))
	}
	return r
}

func TestClearSizeOfARoom(t *testing.T) {
	for name, c := range map[string]struct {
		room          geom.Ring
		turn          float64
		along, across float64
	}{
		"a plain room": {ring(0, 0, 3.6, 0, 3.6, 3, 0, 3), 0, 3.6, 3},
		// +------+
		// |   +--+   the larger arm of an L: 2 by 4, not 2 by 1.5
		// |   |
		// +---+
		"an L":               {ring(0, 0, 2, 0, 2, 2.5, 3.5, 2.5, 3.5, 4, 0, 4), 0, 2, 4},
		"drawn turned":       {ring(0, 0, 3, 4, -1, 7, -4, 3), -53.13010235415598, 5, 5}, // a 3-4-5 triangle
		"with a bay":         {ring(0, 0, 1, -1, 2, -1, 3, 0, 3, 2, 0, 2), 0, 3, 2},
		"read from the side": {ring(0, 0, 4, 0, 4, 2, 0, 2), 90, 2, 4},
	} {
		t.Run(name, func(t *testing.T) {
			along, across := clearSize(geom.Region{Outer: c.room}, c.turn)
			assert.InDelta(t, c.along, along, 1e-4)
			assert.InDelta(t, c.across, across, 1e-4)
		})
	}
}

// A flight of n risers has n lines across it, n - 1 goings apart.
func TestTreadsOfAFlight(t *testing.T) {
	straight := flight{stair: plan.Stair{
		Region: geom.Region{Outer: ring(0, 0, 0.9, 0, 0.9, 3.25, 0, 3.25)},
		Walk:   []geom.Pt{geom.FromMetres(0.45, 0), geom.FromMetres(0.45, 3.25)}, Risers: 14,
	}}
	treads := straight.treads()
	require.Len(t, treads, 14)
	for i, tr := range treads {
		assert.InDelta(t, 0.25*float64(i), tr.along, 1e-4)
		assert.InDelta(t, 0.9, tr.a.Distance(tr.b), 1e-4)
	}

	straight.stair.Risers = 0 // not surveyed: about 0.25 m apart
	assert.Len(t, straight.treads(), 14)

	// Two legs about a landing of 0.9 m: 7 + 7 risers, 6 + 6 goings.
	corner := flight{stair: plan.Stair{
		Region: geom.Region{Outer: ring(0, 0, 0.9, 0, 0.9, 1.5, 2.4, 1.5, 2.4, 2.4, 0, 2.4)},
		Walk:   []geom.Pt{geom.FromMetres(0.45, 0), geom.FromMetres(0.45, 1.95), geom.FromMetres(2.4, 1.95)}, Risers: 14, Width: 0.9,
	}}
	treads = corner.treads()
	require.Len(t, treads, 14)
	for i, tr := range treads {
		assert.InDelta(t, 0.9, tr.a.Distance(tr.b), 1e-4, "riser %d", i+1)
	}
	assert.InDelta(t, 0.25, treads[1].along-treads[0].along, 1e-4)

	// As many risers on legs too short for them turn about the newel.
	corner.stair.Risers = 18
	assert.Len(t, corner.treads(), 18)
}

// Hatch lines lie within the area: their length is its area over their distance.
func TestHatchCoversItsArea(t *testing.T) {
	square := [][]Point{{{0, 0}, {40, 0}, {40, 40}, {0, 40}}, {{10, 10}, {10, 30}, {30, 30}, {30, 10}}}
	for _, angle := range []float64{0, 45, -45, 30} {
		length := hatch(square, hatching{angle, 0.8}).Length()
		assert.InEpsilon(t, (40*40-20*20)/0.8, length, 0.03, "%g degrees", angle)
	}
}

func TestFixturesStandWithTheirBackToTheWall(t *testing.T) {
	room := geom.Region{Outer: ring(0, 0, 3, 0, 3, 2, 0, 2)}.Edges()
	for name, c := range map[string]struct {
		use    string
		at     geom.Pt
		facing float64
		back   geom.Pt
	}{
		"by the lower wall": {"wc", geom.FromMetres(1, 0.4), 90, geom.FromMetres(1, 0)},
		"by the right wall": {"basin", geom.FromMetres(2.8, 1), 180, geom.FromMetres(3, 1)},
		"in a corner":       {"shower", geom.FromMetres(2.9, 1.95), 270, geom.FromMetres(2.55, 2)},
	} {
		t.Run(name, func(t *testing.T) {
			f := fixture{Fixture: plan.Fixture{Use: c.use, At: c.at}}
			f.stand(room)
			assert.InDelta(t, c.facing, f.facing, 1e-9)
			assert.Less(t, f.back.Distance(c.back), 0.001)
		})
	}
	// Surveyed with its footprint: true size, a long side to the wall.
	bath := fixture{Fixture: plan.Fixture{Use: "bath"}}
	bath.fit(geom.Region{Outer: ring(2.25, 0.1, 3, 0.1, 3, 1.7, 2.25, 1.7)}, room)
	assert.InDelta(t, 1.6, bath.width, 1e-9)
	assert.InDelta(t, 0.75, bath.depth, 1e-9)
	assert.InDelta(t, 180, bath.facing, 1e-9)
}

func TestNorthTurnsWithThePlan(t *testing.T) {
	// True north 20 degrees clockwise of +y points 20 degrees right of up on
	// an unturned sheet, and 10 left of it on one turned by 30 to the left.
	p := project{b: &plan.Building{House: &plan.House{North: 20}}}
	assert.InDelta(t, -20, p.north(0), 1e-12)
	assert.InDelta(t, 10, p.north(30), 1e-12)
}
