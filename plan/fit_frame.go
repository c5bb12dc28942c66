package plan

import (
	"math"

	"moiety/geom"
)

// frameTolerance is the difference in metres under which two views of a room
// are alike: well over the rounding of a turned house.
const frameTolerance = 0.001

// roomFrame is a room's own system of coordinates: the origin in a corner, x
// along a wall, y into the room. Of all corners and both directions around the
// room the frame is taken that lists the room's measures highest, so that a
// room turned or mirrored on its lot has the same coordinates in it. (A frame
// may be left-handed; in its coordinates every room looks right-handed.)
type roomFrame struct {
	origin geom.Pt
	x, y   spot // unit vectors in the house's coordinates
}

// in gives a point in the frame.
func (f roomFrame) in(p geom.Pt) spot {
	d := p.Sub(f.origin)
	v := spot{geom.Metres(d.X), geom.Metres(d.Y)}
	return spot{v.dot(f.x), v.dot(f.y)}
}

// out gives the point of the house's coordinates.
func (f roomFrame) out(p spot) geom.Pt {
	v := f.x.times(p.x).add(f.y.times(p.y))
	return f.origin.Add(geom.FromMetres(v.x, v.y))
}

// region gives a patch in the house's coordinates.
func (f roomFrame) region(a patch) geom.Region {
	ring := make(geom.Ring, len(a))
	for i, p := range a {
		ring[i] = f.out(p)
	}
	return geom.Wound(geom.Region{Outer: ring})
}

// frameOf finds the frame of a room by its corners and, where those look alike
// from several, by what stands in its walls and in it: marks holds groups of
// points whose order within a group means nothing.
func frameOf(outer geom.Ring, marks [][]geom.Pt) roomFrame {
	var best roomFrame
	var most []float64
	n := len(outer)
	for i := range outer {
		for _, step := range [...]int{1, n - 1} {
			f := roomFrame{origin: outer[i]}
			d := outer[(i+step)%n].Sub(outer[i])
			f.x = spot{geom.Metres(d.X), geom.Metres(d.Y)}
			f.x = f.x.times(1 / f.x.length())
			f.y = f.x.left()
			if step != 1 {
				f.y = f.y.times(-1)
			}
			var view []float64
			for k := 1; k < n; k++ {
				p := f.in(outer[(i+k*step)%n])
				view = append(view, p.x, p.y)
			}
			for _, group := range marks {
				var sum spot
				var xx, yy, xy float64
				for _, m := range group {
					p := f.in(m)
					sum = sum.add(p)
					xx, yy, xy = xx+p.x*p.x, yy+p.y*p.y, xy+p.x*p.y
				}
				view = append(view, sum.x, sum.y, xx, yy, xy)
			}
			if most == nil || higher(view, most) {
				best, most = f, view
			}
		}
	}
	return best
}

// higher compares two lists of measures, the first that differ deciding.
func higher(a, b []float64) bool {
	for i := range a {
		if d := a[i] - b[i]; math.Abs(d) > frameTolerance*max(1, math.Abs(a[i])) {
			return d > 0
		}
	}
	return false
}

// straightened gives the ring without corners at which the wall goes straight
// on, to within fitTolerance.
func straightened(r geom.Ring) geom.Ring {
	out := r.WithoutRepeats()
	for i := 0; i < len(out) && len(out) > 3; {
		n := len(out)
		s := geom.Segment{A: out[(i+n-1)%n], B: out[(i+1)%n]}
		if s.DistanceTo(out[i]) <= fitTolerance {
			out = append(out[:i:i], out[i+1:]...)
			i = max(i-1, 0)
			continue
		}
		i++
	}
	return out
}
