package geom_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// told puts walls into words: the sides by letter (prism 0 is A), the length
// of the centre line and the thickness; the height where it is not 0 to 2.4.
func told(walls []geom.Wall) []string {
	letter := func(i int) string {
		if i == geom.Exposed {
			return "out"
		}
		return string(rune('A' + i))
	}
	var out []string
	for _, w := range walls {
		s := fmt.Sprintf("%s|%s %.2f x %.2f", letter(w.A), letter(w.B), w.CentreLine().Length(), w.Thickness)
		if w.Open {
			s = fmt.Sprintf("%s|%s %.2f open", letter(w.A), letter(w.B), w.CentreLine().Length())
		}
		if w.Low != 0 || w.High != 2.4 {
			s += fmt.Sprintf(" from %.2f to %.2f", w.Low, w.High)
		}
		out = append(out, s)
	}
	slices.Sort(out)
	return out
}

// inner leaves the walls that have a prism on both sides.
func inner(walls []geom.Wall) []geom.Wall {
	return slices.DeleteFunc(slices.Clone(walls), func(w geom.Wall) bool { return w.B == geom.Exposed })
}

func TestWallsOfOneLevel(t *testing.T) {
	// Squares of 0.20 m in every sketch.
	for _, c := range []struct {
		name, plan string
		want       []string
	}{
		{"one room has four exterior walls", `
			AAAAAAAAAA
			AAAAAAAAAA
			AAAAAAAAAA`,
			[]string{"A|out 0.60 x 0.30", "A|out 0.60 x 0.30", "A|out 2.00 x 0.30", "A|out 2.00 x 0.30"}},
		{"two rooms share the length along which they face", `
			AAAAAAAAAA.......
			AAAAAAAAAA.BBBBBB
			AAAAAAAAAA.BBBBBB
			..........................
			`,
			[]string{
				"A|B 0.40 x 0.20",
				"A|out 0.20 x 0.30", "A|out 0.60 x 0.30", "A|out 2.00 x 0.30", "A|out 2.00 x 0.30",
				"B|out 0.40 x 0.30", "B|out 1.20 x 0.30", "B|out 1.20 x 0.30",
			}},
		{"rooms that touch are open to each other", `
			AAAAAABBBBBB
			AAAAAABBBBBB
			AAAAAABBBBBB
			AAAAAABBBBBB`,
			[]string{
				"A|B 0.80 open",
				"A|out 0.80 x 0.30", "A|out 1.20 x 0.30", "A|out 1.20 x 0.30",
				"B|out 0.80 x 0.30", "B|out 1.20 x 0.30", "B|out 1.20 x 0.30",
			}},
	} {
		t.Run(c.name, func(t *testing.T) {
			prisms := storeys(sketch(t, 0.20, c.plan)...)
			assert.Equal(t, c.want, told(geom.Walls(prisms, 0.30)))
		})
	}
}

func TestWallsBetweenRooms(t *testing.T) {
	for _, c := range []struct {
		name, plan string
		want       []string
	}{
		{"a wall that butts against another leaves no bit of exterior wall", `
			AAAAAAAAAAAAA
			AAAAAAAAAAAAA
			AAAAAAAAAAAAA
			.............
			BBBBBB.CCCCCC
			BBBBBB.CCCCCC
			BBBBBB.CCCCCC`,
			[]string{"A|B 1.20 x 0.20", "A|C 1.20 x 0.20", "B|C 0.60 x 0.20"}},
		{"four walls meet at a post", `
			AAAAAA.BBBBBB
			AAAAAA.BBBBBB
			AAAAAA.BBBBBB
			.............
			CCCCCC.DDDDDD
			CCCCCC.DDDDDD`,
			[]string{"A|B 0.60 x 0.20", "A|C 1.20 x 0.20", "B|D 1.20 x 0.20", "C|D 0.40 x 0.20"}},
		{"walls in the shape of a pinwheel round a post", `
			AAAAAAA.BBBB
			AAAAAAA.BBBB
			AAAAAAA.BBBB
			........BBBB
			CCCC.EE.BBBB
			CCCC.EE.BBBB
			CCCC........
			CCCC.DDDDDDD
			CCCC.DDDDDDD`,
			[]string{
				"A|B 0.60 x 0.20", "A|C 0.80 x 0.20", "A|E 0.40 x 0.20", "B|D 0.80 x 0.20",
				"B|E 0.40 x 0.20", "C|D 0.40 x 0.20", "C|E 0.40 x 0.20", "D|E 0.40 x 0.20",
			}},
		{"nobody looks past a shallow closet along the wall beside it", `
			AAAAAAAAAAAAAAAA
			AAAAAAAAAAAAAAAA
			BBBBBBBB.CCCCCCC
			BBBBBBBB.CCCCCCC
			DDDDDDDDDDDDDDDD
			DDDDDDDDDDDDDDDD`,
			[]string{"A|B 1.60 open", "A|C 1.40 open", "B|C 0.40 x 0.20", "B|D 1.60 open", "C|D 1.40 open"}},
		{"a wall of 0.60 m is one, and more is none", `
			AAAAAA...BBBBBB....CCCCCC
			AAAAAA...BBBBBB....CCCCCC
			AAAAAA...BBBBBB....CCCCCC`,
			[]string{"A|B 0.60 x 0.60"}},
		{"the nearest edge wins", `
			AAAAAA...CC
			AAAAAA.B.CC
			AAAAAA.B.CC
			AAAAAA.B.CC
			AAAAAA...CC
			AAAAAA...CC`,
			[]string{"A|B 0.60 x 0.20", "A|C 0.20 x 0.60", "A|C 0.40 x 0.60", "B|C 0.60 x 0.20"}},
		{"a stub wall has the same room on both sides", `
			AAAAAAAAAAAAA
			AAAAAAAAAAAAA
			AAAAAA.AAAAAA
			AAAAAA.AAAAAA
			AAAAAA.AAAAAA`,
			[]string{"A|A 0.60 x 0.20"}},
		{"a pier stands in a room", `
			AAAAAAAAAAAAA
			AAAAAA..AAAAA
			AAAAAA..AAAAA
			AAAAAA..AAAAA
			AAAAAAAAAAAAA`,
			[]string{"A|A 0.60 x 0.40"}},
		{"a room within a room", `
			AAAAAAAAAAAAA
			AAAA.....AAAA
			AAAA.BBB.AAAA
			AAAA.BBB.AAAA
			AAAA.....AAAA
			AAAAAAAAAAAAA`,
			[]string{"A|B 0.40 x 0.20", "A|B 0.40 x 0.20", "A|B 0.60 x 0.20", "A|B 0.60 x 0.20"}},
		{"an alcove is open to its room and walled off at the sides", `
			AAAAAAAAAAAA
			AAAAAAAAAAAA
			...BBBBB....
			...BBBBB....`,
			[]string{"A|B 1.00 open"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			prisms := storeys(sketch(t, 0.20, c.plan)...)
			assert.Equal(t, c.want, told(inner(geom.Walls(prisms, 0.30))))
		})
	}
}

// Heights, from the side:
//
//	      +-----+ 3.6
//	2.4   |     |
//	+-----|  B  |
//	|  A  |     | 1.2
//	|     |-----+
//	+-----|  C  | 0.9
//	0.0   +-----+ -1.5
func TestHalfLevelsShareAWallOverTheirCommonHeight(t *testing.T) {
	prisms := []geom.Prism{
		{Base: rect(0, 0, 4, 3), Low: 0, High: 2.4, Layer: 1},
		{Base: rect(4.2, 0, 8, 3), Low: 1.2, High: 3.6, Layer: 2},
		{Base: rect(4.2, 0, 8, 3), Low: -1.5, High: 0.9, Layer: 0},
	}
	assert.Equal(t, []string{
		"A|B 3.00 x 0.20 from 1.20 to 2.40",
		"A|C 3.00 x 0.20 from 0.00 to 0.90",
		// 0.30 m of floor assembly between B and C is no exterior wall of A
		"A|out 3.00 x 0.25", "A|out 4.00 x 0.25", "A|out 4.00 x 0.25",
		"B|out 3.00 x 0.25 from 1.20 to 3.60",
		"B|out 3.00 x 0.25 from 2.40 to 3.60", // above A's roof
		"B|out 3.80 x 0.25 from 1.20 to 3.60",
		"B|out 3.80 x 0.25 from 1.20 to 3.60",
		"C|out 3.00 x 0.25 from -1.50 to 0.00", // below A's floor
		"C|out 3.00 x 0.25 from -1.50 to 0.90",
		"C|out 3.80 x 0.25 from -1.50 to 0.90",
		"C|out 3.80 x 0.25 from -1.50 to 0.90",
	}, told(geom.Walls(prisms, 0.25)))
}

func TestCoincidingEdgesOfTwoLayersAreAWallWithoutThickness(t *testing.T) {
	prisms := []geom.Prism{
		{Base: rect(0, 0, 4, 3), High: 2.4, Layer: 0},
		{Base: rect(4, 0, 8, 3), High: 2.4, Layer: 1},
	}
	between := inner(geom.Walls(prisms, 0.25))
	require.Len(t, between, 1)
	assert.False(t, between[0].Open)
	assert.Zero(t, between[0].Thickness)
}

func TestCentimetreOfGapOrOverlapIsStillOpen(t *testing.T) {
	for _, c := range []struct {
		x         float64
		open      bool
		thickness float64
	}{
		{4.000, true, 0}, {4.010, true, 0}, {3.990, true, 0}, {3.970, true, 0}, {4.020, false, 0.02},
	} {
		between := inner(geom.Walls(storeys(rect(0, 0, 4, 3), rect(c.x, 0, 8, 3)), 0.25))
		require.Len(t, between, 1, "B begins at %.3f", c.x)
		assert.Equal(t, c.open, between[0].Open, "B begins at %.3f", c.x)
		assert.InDelta(t, c.thickness, between[0].Thickness, 1e-9, "B begins at %.3f", c.x)
	}
}

// A house with its yard all round, the yard's inner border at the exterior face:
//
//	CCCCCCCCCCCCC
//	C+---------+C
//	C| A +-----+C
//	C|   |CCCCCCC
//	C+---+CCCCCCC
//	CCCCCCCCCCCCC
func TestWallsToTheYardHaveTheMeasuredThickness(t *testing.T) {
	house := geom.Region{Outer: ring(0, 0, 3, 0, 3, 3, 8, 3, 8, 6, 0, 6)}
	yard := geom.Region{
		Outer: ring(-5, -5, 15, -5, 15, 12, -5, 12),
		Holes: []geom.Ring{ring(-0.35, -0.35, 3.35, -0.35, 3.35, 2.65, 8.35, 2.65, 8.35, 6.35, -0.35, 6.35)},
	}
	prisms := []geom.Prism{storey(house), {Base: geom.Wound(yard), Low: -0.4, High: -0.4, Layer: 1, Unenclosed: true}}
	assert.Equal(t, []string{
		"A|B 2.65 x 0.35", // beside the re-entrant corner, where the two walls meet
		"A|B 3.00 x 0.35", "A|B 3.00 x 0.35", "A|B 4.65 x 0.35", "A|B 6.00 x 0.35", "A|B 8.00 x 0.35",
	}, told(geom.Walls(prisms, 0.25)))
}

// A bedroom upstairs looks at its balcony where there is one and at the yard
// elsewhere; the room below looks at the yard, over its own height.
func TestBalconyCountsForTheRoomOnItsFloor(t *testing.T) {
	prisms := []geom.Prism{
		{Base: rect(0, 0, 6, 4), Low: 0, High: 2.4, Layer: 1},
		{Base: rect(0, 0, 6, 4), Low: 2.7, High: 5.1, Layer: 2},
		{Base: rect(1, -1.5, 4, -0.3), Low: 2.7, High: 2.7, Layer: 2, Unenclosed: true},
		{Base: rect(-5, -9, 11, -0.3), Low: -0.4, High: -0.4, Layer: 0, Unenclosed: true},
	}
	var south []geom.Wall
	for _, w := range inner(geom.Walls(prisms, 0.25)) {
		if w.A < 2 {
			south = append(south, w)
		}
	}
	assert.Equal(t, []string{
		"A|D 6.00 x 0.30",
		"B|C 3.00 x 0.30 from 2.70 to 5.10",
		"B|D 1.00 x 0.30 from 2.70 to 5.10",
		"B|D 2.00 x 0.30 from 2.70 to 5.10",
	}, told(south))
}

func TestOutdoorPrismsMeetWhateverTheirHeight(t *testing.T) {
	prisms := []geom.Prism{
		{Base: rect(0, 0, 5, 5), Low: 0, High: 0, Unenclosed: true},
		{Base: rect(5, 0, 9, 5), Low: -1.5, High: -1.5, Unenclosed: true},
		{Base: rect(9.2, 0, 12, 5), Low: 0, High: 0, Unenclosed: true},
	}
	walls := geom.Walls(prisms, 0.25)
	require.Len(t, walls, 2, "a boundary and a hedge, and nothing exposed")
	assert.True(t, walls[0].Open)
	assert.InDelta(t, 0.2, walls[1].Thickness, 1e-9)
}

func TestOneEdgeMadeOfManyIsOneWall(t *testing.T) {
	a := geom.Region{Outer: ring(0, 0, 4, 0, 4, 1, 4, 1.02, 4, 2, 4, 3, 0, 3)}
	b := geom.Region{Outer: ring(4.1, 0, 8, 0, 8, 3, 4.1, 3, 4.1, 1.5)}
	assert.Equal(t, []string{"A|B 3.00 x 0.10"}, told(inner(geom.Walls(storeys(a, b), 0.25))))
}

func TestWallsOutOfParallelHaveTheirMeanThickness(t *testing.T) {
	a := rect(0, 0, 4, 3)
	b := geom.Region{Outer: ring(4.1, 0, 8, 0, 8, 3, 4.2, 3)} // leans by 1.9 degrees
	between := inner(geom.Walls(storeys(a, b), 0.25))
	require.Len(t, between, 1)
	assert.InDelta(t, 0.15, between[0].Thickness, 0.001)
	c := geom.Region{Outer: ring(4.1, 0, 8, 0, 8, 3, 5.5, 3)} // leans by 25 degrees: a corner
	assert.Empty(t, inner(geom.Walls(storeys(a, c), 0.25)))
}

// FaceA has A on its left; FaceB runs the same way along B, Thickness to the right.
func TestFacesOfAWall(t *testing.T) {
	walls := inner(geom.Walls(storeys(rect(4.1, 0, 8, 3), rect(0, 1, 4, 5)), 0.25))
	require.Len(t, walls, 1)
	w := walls[0]
	assert.Equal(t, geom.Segment{A: geom.FromMetres(4.1, 3), B: geom.FromMetres(4.1, 1)}, w.FaceA)
	assert.Equal(t, geom.Segment{A: geom.FromMetres(4, 3), B: geom.FromMetres(4, 1)}, w.FaceB)
	assert.InDelta(t, -0.1, w.FaceA.Off(w.FaceB.A), 1e-9)
}
