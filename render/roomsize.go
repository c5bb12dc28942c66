package render

import (
	"math"
	"slices"

	"moiety/geom"
)

// clearSize is the size of the largest rectangle, square to the sheet, that
// lies in a room between its corners: along and across, in metres. A plain
// room is its own rectangle; of an L the larger arm is given; 0, 0 where none
// lies in it.
func clearSize(r geom.Region, turn float64) (along, across float64) {
	rings := make([][]Point, 0, 1+len(r.Holes))
	var xs, ys []float64
	origin := r.Bounds().Min
	for _, ring := range r.Rings() {
		var q []Point
		for _, p := range ring {
			x, y := p.Sub(origin).Metres()
			t := Point{x, y}.turned(turn)
			q = append(q, t)
			xs, ys = append(xs, t.X), append(ys, t.Y)
		}
		rings = append(rings, q)
	}
	xs, ys = distinct(xs), distinct(ys)
	const most = 40 // corners of one room: beyond that no rectangle tells its size
	if len(xs) > most || len(ys) > most {
		return 0, 0
	}
	best := 0.0
	for i := range xs {
		for j := i + 1; j < len(xs); j++ {
			for k := range ys {
				for l := len(ys) - 1; l > k; l-- {
					w, h := xs[j]-xs[i], ys[l]-ys[k]
					if w*h <= best+1e-9 {
						break
					}
					// Just inside, so that rounding of a turned house does no harm.
					inner := Rect{xs[i], ys[k], xs[j], ys[l]}.grown(-geom.Coincide / 5)
					if insideRegion(inner.corners(), rings) {
						best, along, across = w*h, w, h
						break
					}
				}
			}
		}
	}
	return along, across
}

// distinct sorts values and keeps one of those that a tape would not tell apart.
func distinct(v []float64) []float64 {
	slices.Sort(v)
	var out []float64
	for _, x := range v {
		if len(out) == 0 || math.Abs(x-out[len(out)-1]) > geom.Coincide/10 {
			out = append(out, x)
		}
	}
	return out
}
