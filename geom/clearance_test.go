package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"moiety/geom"
)

func polygon(xy ...float64) geom.Region {
	var ring geom.Ring
	for i := 0; i+1 < len(xy); i += 2 {
		ring = append(ring, geom.FromMetres(xy[i], xy[i+1]))
	}
	return geom.Wound(geom.Region{Outer: ring})
}

// Radii by hand: of a rectangle half the short side, of a triangle area over
// half the perimeter (Euclid, Elements IV.4), of an L the disc in its corner:
// the diagonal from the outer corner to the inner one is r + r*sqrt(2) long.
func TestClearanceIsTheWidestDisc(t *testing.T) {
	for _, test := range []struct {
		name   string
		room   geom.Region
		radius float64
		within float64
	}{
		{"rectangle", polygon(0, 0, 3.7, 0, 3.7, 2.1336, 0, 2.1336), 1.0668, 1e-5},
		{"long rectangle", polygon(0, 0, 30, 0, 30, 0.9, 0, 0.9), 0.45, 1e-5},
		{"3-4-5 triangle", polygon(0, 0, 4, 0, 0, 3), 1, 0.005},
		{"L of equal arms", polygon(0, 0, 3, 0, 3, 1, 1, 1, 1, 3, 0, 3), math.Sqrt2 / (1 + math.Sqrt2), 0.005},
		{"nothing", geom.Region{}, 0, 0},
	} {
		got := test.room.Clearance()
		assert.InDelta(t, test.radius, got, test.within, test.name)
		assert.LessOrEqual(t, got, test.radius+1e-5, test.name)
	}
}

func TestClearanceOfATurnedRectangleIsHalfItsShortSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, l := rapid.Float64Range(0.6, 4).Draw(t, "width"), rapid.Float64Range(4, 12).Draw(t, "length")
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn"))
		at := func(x, y float64) (float64, float64) { return x*cos - y*sin, x*sin + y*cos }
		var xy []float64
		for _, p := range [][2]float64{{0, 0}, {l, 0}, {l, w}, {0, w}} {
			x, y := at(p[0], p[1])
			xy = append(xy, x, y)
		}
		assert.InDelta(t, w/2, polygon(xy...).Clearance(), 2e-5)
	})
}
