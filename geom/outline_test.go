package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

// outlineOf is the outline of layer 0 with exterior walls 0.30 m thick.
func outlineOf(t testing.TB, prisms []geom.Prism) geom.Shape {
	t.Helper()
	s, err := geom.Outline(prisms, geom.Walls(prisms, 0.30), 0)
	require.NoError(t, err)
	requireSound(t, s, "outline")
	return s
}

func TestOutlineRunsAlongTheExteriorFace(t *testing.T) {
	for _, c := range []struct {
		name  string
		bases []geom.Region
		want  geom.Shape
	}{
		{"one room", []geom.Region{rect(0, 0, 4, 3)}, geom.Shape{rect(-0.3, -0.3, 4.3, 3.3)}},
		{"two rooms and the wall between them", []geom.Region{rect(0, 0, 4, 3), rect(4.1, 0, 8, 3)}, geom.Shape{rect(-0.3, -0.3, 8.3, 3.3)}},
		{"three rooms and the post between them",
			[]geom.Region{rect(0, 2.2, 6, 4), rect(0, 0, 2.9, 2), rect(3.1, 0, 6, 2)}, geom.Shape{rect(-0.3, -0.3, 6.3, 4.3)}},
		//   +------+
		//   |  A   |
		//   |   +--+
		//   |   |
		//   +---+
		{"a re-entrant corner", []geom.Region{{Outer: ring(0, 0, 2, 0, 2, 2, 5, 2, 5, 4, 0, 4)}},
			geom.Shape{{Outer: ring(-0.3, -0.3, 2.3, -0.3, 2.3, 1.7, 5.3, 1.7, 5.3, 4.3, -0.3, 4.3)}}},
		//   +------+--+
		//   |  A   |B |
		//   |      +--+
		//   +------+
		{"a wing set back from the corner", []geom.Region{rect(0, 0, 4, 5), rect(4.5, 2, 7, 5)},
			geom.Shape{{Outer: ring(-0.3, -0.3, 4.3, -0.3, 4.3, 1.7, 7.3, 1.7, 7.3, 5.3, -0.3, 5.3)}}},
		{"a stub wall and a pier are within", []geom.Region{withPier}, geom.Shape{rect(-0.3, -0.3, 6.3, 4.3)}},
		{"a court is not", []geom.Region{geom.Wound(geom.Region{Outer: ring(0, 0, 9, 0, 9, 9, 0, 9), Holes: []geom.Ring{ring(3, 3, 6, 3, 6, 6, 3, 6)}})},
			geom.Shape{geom.Wound(geom.Region{Outer: ring(-0.3, -0.3, 9.3, -0.3, 9.3, 9.3, -0.3, 9.3), Holes: []geom.Ring{ring(3.3, 3.3, 3.3, 5.7, 5.7, 5.7, 5.7, 3.3)}})}},
		{"a slot too narrow to be one is filled", []geom.Region{rect(0, 0, 4, 3), rect(4.65, 0, 8, 3)}, geom.Shape{rect(-0.3, -0.3, 8.3, 3.3)}},
		{"a wider one parts two houses", []geom.Region{rect(0, 0, 4, 3), rect(5, 0, 8, 3)},
			geom.Shape{rect(-0.3, -0.3, 4.3, 3.3), rect(4.7, -0.3, 8.3, 3.3)}},
	} {
		assert.Equal(t, c.want, outlineOf(t, storeys(c.bases...)), c.name)
	}
}

// A bay with sides at 45 degrees, open to its room. The exterior face of a
// regular angle is mitred: moved out by d, a corner that turns by a moves
// d tan(a/2) further along either side.
//
//	+--------+
//	|  room  |
//	+--    --+
//	   \__/
func TestOutlineOfABayWindow(t *testing.T) {
	const d = 0.30
	room, bay := rect(0, 0, 6, 4), geom.Region{Outer: ring(1, 0, 2, -1, 4, -1, 5, 0)}
	k := d * math.Tan(math.Pi/8)
	// Where the bay's side leaves the room's wall its face cuts the wall's face at y = -d.
	x := 2 - 1 + d - d*math.Sqrt2
	want := geom.Shape{{Outer: ring(-d, -d, x, -d, 2-k, -1-d, 4+k, -1-d, 6-x, -d, 6+d, -d, 6+d, 4+d, -d, 4+d)}}
	got := outlineOf(t, storeys(room, bay))
	require.Len(t, got, 1)
	require.Len(t, got[0].Outer, len(want[0].Outer))
	for i, p := range want[0].Outer {
		assert.Less(t, p.Distance(got[0].Outer[i]), 0.0002, "corner %d", i)
	}
	mass, err := geom.Mass(got, storeys(room, bay), 0)
	require.NoError(t, err)
	requireSound(t, mass, "mass")
	assert.InDelta(t, got.AreaM2()-24-3, mass.AreaM2(), 0.001, "nothing solid stands between room and bay")
}

// An exterior face has as many corners as the room, however it is turned:
// triangles to octagons, all angles.
func TestOutlineOfRegularRooms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 8).Draw(t, "sides")
		turn := rapid.Float64Range(0, 7).Draw(t, "turn")
		d := rapid.Float64Range(0.05, 0.5).Draw(t, "thickness")
		const r = 4.0
		var room geom.Ring
		for i := range n {
			sin, cos := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
			room = append(room, geom.FromMetres(r*cos, r*sin))
		}
		prisms := storeys(geom.Region{Outer: room})
		s, err := geom.Outline(prisms, geom.Walls(prisms, d), 0)
		require.NoError(t, err)
		require.Len(t, s, 1)
		require.Len(t, s[0].Outer, n)
		apothem := r*math.Cos(math.Pi/float64(n)) + d
		require.InDelta(t, float64(n)*apothem*apothem*math.Tan(math.Pi/float64(n)), s.AreaM2(), 0.001)
	})
}

// Between layers the outline ends in the middle of the wall, or for a drawing
// of one layer at its far face; outdoors at the measured gap.
func TestOutlineTowardsOtherLayersAndOutdoors(t *testing.T) {
	prisms := []geom.Prism{
		{Base: rect(0, 0, 4, 3), Low: 0, High: 2.4, Layer: 0},
		{Base: rect(4.2, 0, 8, 3), Low: 1.2, High: 3.6, Layer: 1},
		{Base: rect(-5, 3.4, 12, 9), Low: -0.4, High: -0.4, Layer: 2, Unenclosed: true},
	}
	walls := geom.Walls(prisms, 0.30)
	s, err := geom.Outline(prisms, walls, 0)
	require.NoError(t, err)
	assert.Equal(t, geom.Shape{rect(-0.3, -0.3, 4.1, 3.4)}, s)
	s, err = geom.OutlineToFarFace(prisms, walls, 0)
	require.NoError(t, err)
	assert.Equal(t, geom.Shape{rect(-0.3, -0.3, 4.2, 3.4)}, s)
	s, err = geom.Outline(prisms, walls, 2)
	require.NoError(t, err)
	assert.Empty(t, s, "outdoors has no outline")
}

func TestMassIsTheWalls(t *testing.T) {
	rooms := storeys(rect(0, 0, 4, 3), rect(4.1, 0, 8, 3), rect(4.1, 3, 8, 5))
	mass, err := geom.Mass(outlineOf(t, rooms), rooms, 0)
	require.NoError(t, err)
	for _, c := range []struct {
		x, y float64
		want geom.Position
		what string
	}{
		{4.05, 1, geom.Inside, "the wall between two rooms"},
		{-0.2, 1, geom.Inside, "an exterior wall"},
		{2, 1, geom.Out, "a room"},
		{6, 3, geom.Out, "the boundary between two rooms that are open to each other"},
		{4.05, -0.2, geom.Inside, "where two walls meet"},
		{9, 1, geom.Out, "outdoors"},
	} {
		assert.Equal(t, c.want, mass.Contains(geom.FromMetres(c.x, c.y)), c.what)
	}
	// Open within a centimetre, measured with a slit: the slit is not solid.
	slit := storeys(rect(0, 0, 4, 3), rect(4.008, 0, 8, 3))
	mass, err = geom.Mass(outlineOf(t, slit), slit, 0)
	require.NoError(t, err)
	assert.Equal(t, geom.Out, mass.Contains(geom.FromMetres(4.004, 1.5)))
}
