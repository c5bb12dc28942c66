package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// look is the independent reference for walls: from a point on an edge it
// looks straight out at one height and returns the first edge of an enclosed
// prism that it meets, by brute force over all edges, within the thickest
// wall, and whether that edge stands square to the view.
func look(prisms []geom.Prism, from geom.Segment, along, height float64) (prism int, distance float64, square bool) {
	ax, ay := from.A.Metres()
	bx, by := from.B.Metres()
	length := math.Hypot(bx-ax, by-ay)
	dx, dy := (bx-ax)/length, (by-ay)/length
	ox, oy := ax+dx*along, ay+dy*along // the eye
	nx, ny := dy, -dx                  // straight out
	prism, distance = geom.Exposed, math.Inf(1)
	for i, p := range prisms {
		if height < p.Low || height > p.High {
			continue
		}
		for _, e := range p.Base.Edges() {
			if e == from {
				continue
			}
			cx, cy := e.A.Metres()
			ex, ey := e.B.Metres()
			ex, ey = ex-cx, ey-cy
			den := nx*ey - ny*ex
			if math.Abs(den) < 1e-9 {
				continue
			}
			far := ((cx-ox)*ey - (cy-oy)*ex) / den
			at := ((cx-ox)*ny - (cy-oy)*nx) / den
			if at < 0 || at > 1 || far < -1e-4 || far >= distance {
				continue
			}
			prism, distance = i, far
			square = -(dx*ex+dy*ey)/math.Hypot(ex, ey) > math.Cos(geom.FacingAngle*math.Pi/180)
		}
	}
	if distance > geom.ThickestWall+1e-4 {
		return geom.Exposed, math.Inf(1), true
	}
	return prism, max(0, distance), square
}

// found returns the wall that stands at a place on an edge of a prism.
func found(walls []geom.Wall, prism int, at geom.Pt, direction geom.Segment, height float64) (geom.Wall, bool) {
	for _, w := range walls {
		sides := []struct {
			prism, other int
			face         geom.Segment
		}{{w.A, w.B, w.FaceA}, {w.B, w.A, w.FaceB.Reverse()}}
		for _, s := range sides {
			along := s.face.Along(at)
			if s.prism == prism && math.Abs(s.face.Off(at)) < 5e-4 && along > 0 && along < s.face.Length() &&
				height > w.Low && height < w.High && sameWay(s.face, direction) {
				w.A, w.B = s.prism, s.other
				return w, true
			}
		}
	}
	return geom.Wall{}, false
}

func sameWay(a, b geom.Segment) bool {
	d, e := a.B.Sub(a.A), b.B.Sub(b.A)
	return float64(d.X)*float64(e.X)+float64(d.Y)*float64(e.Y) > 0
}

// looksIntoWall tells whether the view out of a place runs along inside a wall
// that stands there.
func looksIntoWall(walls []geom.Wall, at geom.Pt, out geom.Pt) bool {
	for k := range 12 {
		share := float64(k+1) / 12
		p := at.Add(geom.Pt{X: int64(float64(out.X) * share), Y: int64(float64(out.Y) * share)})
		for _, w := range walls {
			if w.B == geom.Exposed || w.Thickness == 0 {
				continue
			}
			body := geom.Region{Outer: geom.Ring{w.FaceA.A, w.FaceB.A, w.FaceB.B, w.FaceA.B}}
			if geom.Wound(body).Contains(p) == geom.Inside && w.FaceA.DistanceTo(p) > 1e-3 && w.FaceB.DistanceTo(p) > 1e-3 {
				return true
			}
		}
	}
	return false
}

// Random places on the edges of random houses, upright and turned, of one
// level and of half levels, see what the reference sees there.
func TestWallsAgreeWithLookingStraightOut(t *testing.T) {
	for seed := range uint64(400) {
		rnd := rand.New(rand.NewPCG(seed, 7))
		prisms := storeys(randomHouse(rnd, 8+rnd.IntN(6), 6+rnd.IntN(6))...)
		if seed%2 == 1 { // half levels, side by side
			for i := range prisms {
				prisms[i].Layer = rnd.IntN(2)
				prisms[i].Low = 1.2 * float64(prisms[i].Layer)
				prisms[i].High = prisms[i].Low + 2.4
			}
		}
		if seed%3 > 0 {
			slant := 0.0
			if seed%5 == 0 {
				slant = rnd.Float64()*0.8 - 0.4
			}
			prisms = motion{shear: slant, mirror: seed%4 < 2, degrees: rnd.Float64() * 360}.prisms(prisms)
		}
		walls := geom.Walls(prisms, 0.25)
		for range 300 {
			i := rnd.IntN(len(prisms))
			edges := prisms[i].Base.Edges()
			e := edges[rnd.IntN(len(edges))]
			along := rnd.Float64() * e.Length()
			height := prisms[i].Low + rnd.Float64()*(prisms[i].High-prisms[i].Low)
			other, gap, square := look(prisms, e, along, height)
			if !square {
				continue // the flank of a prism that stands askew: no wall, but no outdoors either
			}
			at := e.At(along)
			if nearEnd(walls, at, 1e-3) {
				continue // two answers are right within the rounding
			}
			w, ok := found(walls, i, at, e, height)
			if !ok {
				// Only corner bits, and what lies above or below a wall of another level.
				reach := geom.ThickestWall
				if other != geom.Exposed {
					reach = gap
				}
				out := e.Beside(along, -reach).Sub(at)
				excused := looksIntoWall(walls, at, out) || nearEnd(walls, at, geom.ShortestWall) || bandLeft(prisms, i, e, along, height) < geom.LowestExposed
				require.True(t, excused, "seed %d: no wall of prism %d at %v, height %.2f; prism %d lies %.4f m off", seed, i, at, height, other, gap)
				continue
			}
			require.Equal(t, other, w.B, "seed %d: prism %d at %v, height %.2f, %+v", seed, i, at, height, w)
			if other != geom.Exposed {
				require.InDelta(t, gap, w.Thickness, 1e-4, "seed %d: thickness at %v", seed, at)
			}
		}
	}
}

// nearEnd tells whether the place is nearer than the distance to the end of
// any wall: a stretch as short as that is a corner bit.
func nearEnd(walls []geom.Wall, at geom.Pt, distance float64) bool {
	for _, w := range walls {
		for _, p := range []geom.Pt{w.FaceA.A, w.FaceA.B, w.FaceB.A, w.FaceB.B} {
			if p.Distance(at) < distance {
				return true
			}
		}
	}
	return false
}

// bandLeft returns the height of the band around the given height in which
// nothing is seen.
func bandLeft(prisms []geom.Prism, i int, e geom.Segment, along, height float64) float64 {
	const step = 0.01
	band := 0.0
	for _, sign := range []float64{1, -1} {
		for h := height; h > prisms[i].Low && h < prisms[i].High; h += sign * step {
			if other, _, _ := look(prisms, e, along, h); other != geom.Exposed {
				break
			}
			band += step
		}
	}
	return band
}
