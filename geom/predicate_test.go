package geom_test

import (
	"math/big"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

const tenKilometres = 10_000 * geom.UnitsPerMetre

func drawPt(t *rapid.T, name string, spread int64) geom.Pt {
	c := rapid.Int64Range(-spread, spread)
	return geom.Pt{X: c.Draw(t, name+".x"), Y: c.Draw(t, name+".y")}
}

func TestOrientIsExactAsFarAsASurveyReaches(t *testing.T) {
	corner := geom.Pt{X: tenKilometres, Y: tenKilometres}
	opposite := geom.Pt{X: -tenKilometres, Y: -tenKilometres}
	assert.Equal(t, 0, geom.Orient(opposite, geom.Pt{}, corner))
	assert.Equal(t, 1, geom.Orient(opposite, corner, geom.Pt{X: -1}), "a hundredth of a millimetre to the left")
	assert.Equal(t, -1, geom.Orient(opposite, corner, geom.Pt{X: 1}), "and to the right")
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawPt(t, "a", tenKilometres), drawPt(t, "b", tenKilometres), drawPt(t, "c", tenKilometres)
		product := func(p, q int64) *big.Int { return new(big.Int).Mul(big.NewInt(p), big.NewInt(q)) }
		want := product(b.X-a.X, c.Y-a.Y).Cmp(product(b.Y-a.Y, c.X-a.X))
		require.Equal(t, want, geom.Orient(a, b, c))
	})
}

func TestHowSegmentsMeet(t *testing.T) {
	s := func(x0, y0, x1, y1 int64) geom.Segment {
		return geom.Segment{A: geom.Pt{X: x0, Y: y0}, B: geom.Pt{X: x1, Y: y1}}
	}
	level := s(0, 0, 10, 0)
	for _, c := range []struct {
		name  string
		other geom.Segment
		want  geom.Crossing
	}{
		{"a cross", s(5, -5, 5, 5), geom.Crossed},
		{"a slanted cross", s(1, 1, 9, -1), geom.Crossed},
		{"a tee", s(5, 0, 5, 5), geom.Touching},
		{"a corner", s(10, 0, 10, 5), geom.Touching},
		{"end to end", s(10, 0, 20, 0), geom.Touching},
		{"the same", s(0, 0, 10, 0), geom.Overlaid},
		{"the same, back", s(10, 0, 0, 0), geom.Overlaid},
		{"a part", s(3, 0, 20, 0), geom.Overlaid},
		{"in line, apart", s(11, 0, 20, 0), geom.Apart},
		{"parallel", s(0, 1, 10, 1), geom.Apart},
		{"past the end", s(11, -5, 11, 5), geom.Apart},
		{"short of it", s(5, 1, 5, 5), geom.Apart},
		{"a point on it", s(4, 0, 4, 0), geom.Touching},
		{"a point beside it", s(4, 1, 4, 1), geom.Apart},
	} {
		assert.Equal(t, c.want, geom.Meet(level, c.other), c.name)
		assert.Equal(t, c.want, geom.Meet(c.other, level), "%s, the other way round", c.name)
	}
}

func TestCrossingPointLiesOnBothToWithinAUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := geom.Segment{A: drawPt(t, "a", 5_000_000), B: drawPt(t, "b", 5_000_000)}
		u := geom.Segment{A: drawPt(t, "c", 5_000_000), B: drawPt(t, "d", 5_000_000)}
		if geom.Meet(s, u) != geom.Crossed {
			return
		}
		p, ok := geom.CrossingPoint(s, u)
		require.True(t, ok)
		const unit = 1.0 / geom.UnitsPerMetre
		require.LessOrEqual(t, s.DistanceTo(p), unit)
		require.LessOrEqual(t, u.DistanceTo(p), unit)
	})
	_, ok := geom.CrossingPoint(geom.Segment{B: geom.Pt{X: 4, Y: 2}}, geom.Segment{A: geom.Pt{Y: 9}, B: geom.Pt{X: 2, Y: 10}})
	assert.False(t, ok, "parallels do not cross")
}

// The reference for distances is orb/planar.
func TestDistanceToSegment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := geom.Segment{A: drawPt(t, "a", 2_000_000), B: drawPt(t, "b", 2_000_000)}
		p := drawPt(t, "p", 2_000_000)
		at := func(p geom.Pt) orb.Point { x, y := p.Metres(); return orb.Point{x, y} }
		want := planar.DistanceFromSegment(at(s.A), at(s.B), at(p))
		require.InDelta(t, want, s.DistanceTo(p), 1e-6)
		require.InDelta(t, want, s.Nearest(p).Distance(p), 2e-5)
	})
}

func TestPlacesBesideASegment(t *testing.T) {
	s := geom.Segment{A: geom.FromMetres(1, 1), B: geom.FromMetres(1, 5)} // upwards
	assert.Equal(t, geom.FromMetres(1, 3), s.At(2))
	assert.Equal(t, geom.FromMetres(0.5, 3), s.Beside(2, 0.5), "to the left")
	assert.Equal(t, geom.FromMetres(1, 0), s.At(-1), "before the beginning")
	assert.InDelta(t, 3, s.Along(geom.FromMetres(7, 4)), 1e-12)
	assert.InDelta(t, -6, s.Off(geom.FromMetres(7, 4)), 1e-12)
	assert.Equal(t, s.A, s.Nearest(geom.FromMetres(0, -4)))
	point := geom.Segment{A: s.A, B: s.A}
	assert.InDelta(t, 5, point.DistanceTo(geom.FromMetres(4, 5)), 1e-12)
	assert.Equal(t, s.A, point.At(3))
}
