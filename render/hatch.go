package render

import (
	"math"
	"slices"

	"github.com/tdewolff/canvas"
)

// Hatches of the sheets: angle in degrees and distance between lines in
// millimetres, never closer than the 0.7 mm that ISO 128 leaves between lines.
type hatching struct{ angle, distance float64 }

var (
	hatchSeparating = []hatching{{45, 1.0}}
	hatchUpgraded   = []hatching{{45, 1.4}, {-45, 1.4}}
	hatchInfill     = []hatching{{-45, 0.8}}
	hatchNew        = []hatching{{45, 2.0}}
)

// hatch covers the area within rings (even-odd) with parallel lines. They are
// laid on one grid over the whole sheet, so that neighbouring areas match.
func hatch(rings [][]Point, with ...hatching) *canvas.Path {
	p := &canvas.Path{}
	for _, h := range with {
		turned := make([][]Point, len(rings))
		low, high := math.Inf(1), math.Inf(-1)
		for i, r := range rings {
			turned[i] = make([]Point, len(r))
			for j, q := range r {
				q = q.turned(-h.angle)
				turned[i][j] = q
				low, high = min(low, q.Y), max(high, q.Y)
			}
		}
		for n := math.Ceil(low / h.distance); n*h.distance < high; n++ {
			y := n * h.distance
			xs := crossings(turned, y)
			for i := 0; i+1 < len(xs); i += 2 {
				a, b := Point{xs[i], y}.turned(h.angle), Point{xs[i+1], y}.turned(h.angle)
				p.MoveTo(a.X, a.Y)
				p.LineTo(b.X, b.Y)
			}
		}
	}
	return p
}

// crossings are where a level line meets the rings, from left to right.
func crossings(rings [][]Point, y float64) []float64 {
	var xs []float64
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(y-a.Y)*(b.X-a.X)/(b.Y-a.Y))
			}
		}
	}
	slices.Sort(xs)
	return xs
}

// Dots of the pattern on ground that both units share.
const (
	dotRadius   = 0.22
	dotDistance = 2.6
)

// dots covers the area within rings with staggered dots, leaving out those
// that would touch one of the boxes.
func dots(rings [][]Point, boxes [][4]Point) *canvas.Path {
	p := &canvas.Path{}
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range rings {
		for _, q := range r {
			low, high = min(low, q.Y), max(high, q.Y)
		}
	}
	const row = dotDistance / 2
	for n := math.Ceil((low + 2*dotRadius) / row); n*row < high-2*dotRadius; n++ {
		y := n * row
		shift := 0.0
		if int(n)&1 == 1 {
			shift = dotDistance / 2
		}
		xs := crossings(rings, y)
		for i := 0; i+1 < len(xs); i += 2 {
			for m := math.Ceil((xs[i] + 2*dotRadius - shift) / dotDistance); m*dotDistance+shift < xs[i+1]-2*dotRadius; m++ {
				c := Point{m*dotDistance + shift, y}
				if dotCovered(c, boxes) {
					continue
				}
				// Eight straight sides are round at this size, and cheap to write.
				for k := range 8 {
					s, cos := math.Sincos(float64(2*k+1) * math.Pi / 8)
					if x, y := c.X+dotRadius*cos, c.Y+dotRadius*s; k == 0 {
						p.MoveTo(x, y)
					} else {
						p.LineTo(x, y)
					}
				}
				p.Close()
			}
		}
	}
	return p
}

func dotCovered(c Point, boxes [][4]Point) bool {
	dot := Rect{c.X, c.Y, c.X, c.Y}.grown(3 * dotRadius).corners()
	for _, b := range boxes {
		if quadsOverlap(dot, b, 0) {
			return true
		}
	}
	return false
}
