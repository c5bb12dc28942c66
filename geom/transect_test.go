package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

func TestWhereALineLiesInAShape(t *testing.T) {
	ring := func(xy ...float64) geom.Ring {
		var r geom.Ring
		for i := 0; i < len(xy); i += 2 {
			r = append(r, geom.FromMetres(xy[i], xy[i+1]))
		}
		return r
	}
	// A room of 4 x 3 m around a chimney of 1 x 1 m, and another beyond a wall.
	shape := geom.Shape{
		{Outer: ring(0, 0, 4, 0, 4, 3, 0, 3), Holes: []geom.Ring{ring(1, 1, 1, 2, 2, 2, 2, 1)}},
		{Outer: ring(4.1, 0, 6, 0, 6, 3, 4.1, 3)},
	}
	for name, tt := range map[string]struct {
		line geom.Segment
		want [][2]float64
	}{
		"through the chimney and the wall": {geom.Segment{A: geom.FromMetres(-1, 1.5), B: geom.FromMetres(7, 1.5)}, [][2]float64{{1, 2}, {3, 5}, {5.1, 7}}},
		"beside the chimney":               {geom.Segment{A: geom.FromMetres(-1, 0.5), B: geom.FromMetres(7, 0.5)}, [][2]float64{{1, 5}, {5.1, 7}}},
		"from inside":                      {geom.Segment{A: geom.FromMetres(3, 1.5), B: geom.FromMetres(3.5, 1.5)}, [][2]float64{{0, 0.5}}},
		"outside":                          {geom.Segment{A: geom.FromMetres(-1, 4), B: geom.FromMetres(7, 4)}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			got := shape.Along(tt.line)
			require.Len(t, got, len(tt.want))
			for i, w := range tt.want {
				assert.InDelta(t, w[0], got[i][0], 1e-6)
				assert.InDelta(t, w[1], got[i][1], 1e-6)
			}
		})
	}
}

// The stretches of parallel lines a step apart add up to the area.
func TestTransectsAddUpToTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corner := func(name string) float64 { return float64(rapid.IntRange(50, 500).Draw(t, name)) / 100 }
		w, h := corner("width"), corner("depth")
		x, y := w*rapid.Float64Range(0.2, 0.8).Draw(t, "x"), h*rapid.Float64Range(0.2, 0.8).Draw(t, "y")
		room := geom.Shape{{Outer: geom.Ring{
			geom.FromMetres(0, 0), geom.FromMetres(w, 0), geom.FromMetres(w, y), geom.FromMetres(x, y), geom.FromMetres(x, h), geom.FromMetres(0, h),
		}}}
		const step = 0.01
		sum := 0.0
		for at := step / 2; at < h; at += step {
			for _, s := range room.Along(geom.Segment{A: geom.FromMetres(-1, at), B: geom.FromMetres(w+1, at)}) {
				sum += (s[1] - s[0]) * step
			}
		}
		if got := room.AreaM2(); math.Abs(got-sum) > step*w+0.01 {
			t.Fatalf("%.3f m2 by lines, %.3f m2 by area", sum, got)
		}
	})
}
