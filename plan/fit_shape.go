package plan

import (
	"cmp"
	"math"
	"slices"
)

// fitTolerance is by how much two things may lie over each other in a fit, in
// metres: a hundred times the rounding of a turned house, a tenth of what a
// tape shows.
const fitTolerance = 0.001

// spot is a position or direction in a room, in metres.
type spot struct{ x, y float64 }

func (p spot) add(q spot) spot      { return spot{p.x + q.x, p.y + q.y} }
func (p spot) sub(q spot) spot      { return spot{p.x - q.x, p.y - q.y} }
func (p spot) times(k float64) spot { return spot{p.x * k, p.y * k} }
func (p spot) dot(q spot) float64   { return p.x*q.x + p.y*q.y }
func (p spot) cross(q spot) float64 { return p.x*q.y - p.y*q.x }
func (p spot) length() float64      { return math.Hypot(p.x, p.y) }
func (p spot) to(q spot) float64    { return q.sub(p).length() }
func (p spot) towards(q spot) spot  { return q.sub(p).times(1 / q.sub(p).length()) }
func (p spot) left() spot           { return spot{-p.y, p.x} }
func (p spot) mid(q spot) spot      { return p.add(q).times(0.5) }
func (p spot) off(a, b spot) float64 { // distance from the stretch from a to b
	d := b.sub(a)
	if l := d.dot(d); l > 0 {
		t := min(max(p.sub(a).dot(d)/l, 0), 1)
		return p.to(a.add(d.times(t)))
	}
	return p.to(a)
}

// patch is a convex area with its corners counter-clockwise; two corners are a line.
type patch []spot

// overlaps tells whether the insides of two patches have more in common than
// fitTolerance in every direction: they are apart if some side of one has the
// other beyond it (the separating axis theorem).
func (a patch) overlaps(b patch) bool { return !a.hasBeyond(b) && !b.hasBeyond(a) }

func (a patch) hasBeyond(b patch) bool {
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if p == q {
			continue
		}
		out := p.towards(q).left().times(-1)
		least := math.Inf(1)
		for _, c := range b {
			least = min(least, c.sub(p).dot(out))
		}
		if least >= -fitTolerance {
			return true
		}
	}
	return false
}

// distance is how far p lies from the patch, 0 inside.
func (a patch) distance(p spot) float64 {
	inside := len(a) > 2
	least := math.Inf(1)
	for i, c := range a {
		d := a[(i+1)%len(a)]
		least = min(least, p.off(c, d))
		inside = inside && d.sub(c).cross(p.sub(c)) >= 0
	}
	if inside {
		return 0
	}
	return least
}

func (a patch) centre() spot {
	var sum spot
	for _, p := range a {
		sum = sum.add(p)
	}
	return sum.times(1 / float64(len(a)))
}

// bounds gives the extent of the patch in x and y.
func (a patch) bounds() (x, y span) {
	x, y = span{math.Inf(1), math.Inf(-1)}, span{math.Inf(1), math.Inf(-1)}
	for _, p := range a {
		x, y = span{min(x.from, p.x), max(x.to, p.x)}, span{min(y.from, p.y), max(y.to, p.y)}
	}
	return x, y
}

// hull gives the least patch that holds the points (Andrew's monotone chain).
func hull(points []spot) patch {
	points = slices.Clone(points)
	slices.SortFunc(points, func(p, q spot) int { return cmp.Or(cmp.Compare(p.x, q.x), cmp.Compare(p.y, q.y)) })
	points = slices.Compact(points)
	if len(points) < 3 {
		return points
	}
	half := func(points []spot) patch {
		var out patch
		for _, p := range points {
			for n := len(out); n > 1 && out[n-1].sub(out[n-2]).cross(p.sub(out[n-1])) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	lower := half(points)
	slices.Reverse(points)
	return append(lower, half(points)...)
}

// fan gives the quarter circle about a hinge from one direction of length 1 to
// another square to it, drawn just outside the arc.
func fan(hinge, from, to spot, radius float64) patch {
	const steps = 6
	out := []spot{hinge}
	r := radius / math.Cos(math.Pi/4/steps)
	out = append(out, hinge.add(from.times(radius)))
	for i := range steps {
		sin, cos := math.Sincos(math.Pi / 2 * (float64(i) + 0.5) / steps)
		out = append(out, hinge.add(from.times(r*cos)).add(to.times(r*sin)))
	}
	return hull(append(out, hinge.add(to.times(radius))))
}
