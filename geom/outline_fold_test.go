package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// Three rooms in a row behind one exterior wall, turned by 12 degrees and
// surveyed to a thousandth of a foot, so that no two faces are quite in line.
//
//	+------++----++------+
//	|  a   ||  b ||  c   |
//	+------++----++------+
func TestAnExteriorFaceHasNoFoldsWherePartitionsMeetIt(t *testing.T) {
	sin, cos := math.Sincos(12 * math.Pi / 180)
	thousandth := 0.3048 / 1000
	at := func(x, y float64) geom.Pt {
		u, v := x*cos-y*sin, x*sin+y*cos
		return geom.FromMetres(math.Round(u/thousandth)*thousandth, math.Round(v/thousandth)*thousandth)
	}
	room := func(x0, x1 float64) geom.Prism {
		return geom.Prism{Base: geom.Region{Outer: geom.Ring{at(x0, 0), at(x1, 0), at(x1, 3), at(x0, 3)}}, High: 2.4}
	}
	prisms := []geom.Prism{room(0, 3.137), room(3.257, 4.111), room(4.231, 8.003)}
	outline, err := geom.Outline(prisms, geom.Walls(prisms, 0.24), 0)
	require.NoError(t, err)
	require.Len(t, outline, 1)
	ring := outline[0].Outer
	for i, p := range ring {
		before, after := ring[(i+len(ring)-1)%len(ring)], ring[(i+1)%len(ring)]
		back, on := before.Sub(p), after.Sub(p)
		cosine := float64(back.Dot(on)) / (before.Distance(p) * after.Distance(p) * geom.UnitsPerMetre * geom.UnitsPerMetre)
		assert.Less(t, cosine, 0.5, "corner %d of the outline folds back on itself", i)
	}
	// By hand: (8.003 + 2 x 0.24) x (3 + 2 x 0.24).
	assert.InDelta(t, 8.483*3.48, outline.AreaM2(), 0.01)
}
