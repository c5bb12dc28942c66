package geom

import (
	"cmp"
	"math"
	"slices"
)

// nodingPasses bounds the repetition of node; two are enough unless a segment
// passes exactly between pixels.
const nodingPasses = 8

// node returns the rings with corners added wherever they meet, so that edges
// have only ends in common, or coincide. All corners are on the grid: this is
// snap rounding, in which every corner and crossing is rounded to its grid
// point and an edge that passes within half a unit of such a point is led
// through it (Hobby 1999, "Practical segment intersection with finite
// precision output", Computational Geometry 13). Edges move by less than a
// unit and never pass over a corner, but parts of a ring thinner than a unit
// may fall together.
//
// Floating-point overlay of turned houses needs this: their edges coincide to
// within a unit without being equal.
//
// Before that, corners within a seam of each other become one, and edges are
// led through corners within a seam of them, so that no slit is left between
// regions that touched before they were rounded.
func node(rings []Ring) []Ring {
	rings = joinNear(rings)
	for pass := range nodingPasses {
		within := int64(0)
		if pass == 0 {
			within = seam
		}
		next, changed := nodeOnce(rings, within)
		rings = next
		if !changed {
			break
		}
	}
	return rings
}

// joinNear lets corners within a seam of each other coincide.
func joinNear(rings []Ring) []Ring {
	points := slices.Concat(rings...)
	slices.SortFunc(points, comparePts)
	points = slices.Compact(points)
	x := newIndex(len(points), func(i int) Box { return Box{points[i], points[i]} })
	moved := make(map[Pt]Pt)
	var found []int
	for i, p := range points {
		if _, ok := moved[p]; ok {
			continue
		}
		found = x.near(Box{p, p}.Grow(seam), found)
		for _, j := range found {
			if _, ok := moved[points[j]]; j > i && !ok {
				moved[points[j]] = p
			}
		}
	}
	if len(moved) == 0 {
		return rings
	}
	out := make([]Ring, len(rings))
	for i, r := range rings {
		for _, p := range r {
			if q, ok := moved[p]; ok {
				p = q
			}
			out[i] = append(out[i], p)
		}
		out[i] = out[i].WithoutRepeats()
	}
	return out
}

// nodeOnce leads every edge through its crossings, the corners and crossings
// whose unit square it passes, and the corners within so many units of it.
func nodeOnce(rings []Ring, within int64) (out []Ring, changed bool) {
	var edges []Segment
	for _, r := range rings {
		edges = append(edges, r.Edges()...)
	}
	crossed := crossings(edges)
	hot := append(slices.Concat(rings...), slices.Concat(crossed...)...)
	slices.SortFunc(hot, comparePts)
	hot = slices.Compact(hot)
	x := newIndex(len(hot), func(i int) Box { return Box{hot[i], hot[i]} })
	var near []int
	k := 0
	for _, r := range rings {
		var led Ring
		for _, e := range r.Edges() {
			near = x.near(e.Bounds().Grow(within), near)
			on := crossed[k]
			for _, i := range near {
				if p := hot[i]; e.passes(p) || e.brushes(p, within) {
					on = append(on, p)
				}
			}
			led = append(append(led, e.A), inOrder(e, on)...)
			k++
		}
		led = led.WithoutRepeats()
		changed = changed || !slices.Equal(led, r)
		out = append(out, led)
	}
	return out, changed
}

// crossings returns, per edge, where others cross it, on the grid.
func crossings(edges []Segment) [][]Pt {
	x := newIndex(len(edges), func(i int) Box { return edges[i].Bounds() })
	out := make([][]Pt, len(edges))
	var near []int
	for i, e := range edges {
		near = x.near(e.Bounds(), near)
		for _, j := range near {
			if j > i && Meet(e, edges[j]) == Crossed {
				if p, ok := CrossingPoint(e, edges[j]); ok {
					out[i] = append(out[i], p)
					out[j] = append(out[j], p)
				}
			}
		}
	}
	return out
}

// passes tells whether the segment passes through the unit square around p, to
// which its left and lower sides belong. Exact: a line meets the inside of the
// square where twice the cross product is less than |dx| + |dy|, and in case
// of equality touches a corner, of which only the lower left one belongs to it.
func (s Segment) passes(p Pt) bool {
	if !s.holds(p) {
		return false
	}
	d := s.B.Sub(s.A)
	cross, sum := d.Cross(p.Sub(s.A)), abs(d.X)+abs(d.Y)
	switch half := sum / 2; {
	case abs(cross) < half || (abs(cross) == half && sum%2 == 1):
		return true
	case abs(cross) > half:
		return false
	}
	b := s.Bounds()
	return (d.X > 0) != (d.Y > 0) && 2*cross == d.X-d.Y && p.X > b.Min.X && p.Y > b.Min.Y
}

// brushes tells whether p lies beside the segment within so many units.
func (s Segment) brushes(p Pt, within int64) bool {
	d := s.B.Sub(s.A)
	along := d.Dot(p.Sub(s.A))
	return along > 0 && along < d.Dot(d) &&
		float64(abs(d.Cross(p.Sub(s.A)))) <= float64(within)*math.Hypot(float64(d.X), float64(d.Y))
}

// inOrder sorts points along e and leaves out its ends.
func inOrder(e Segment, points []Pt) []Pt {
	points = slices.DeleteFunc(points, func(p Pt) bool { return p == e.A || p == e.B })
	d := e.B.Sub(e.A)
	slices.SortFunc(points, func(p, q Pt) int {
		return cmp.Or(cmp.Compare(d.Dot(p.Sub(e.A)), d.Dot(q.Sub(e.A))), comparePts(p, q))
	})
	return slices.Compact(points)
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}

// nodeShapes nodes the shapes together. Regions that fall apart or together in
// places are put together anew from the edges that are left.
func nodeShapes(shapes ...Shape) []Shape {
	var rings []Ring
	for _, s := range shapes {
		for _, r := range Shape(s) {
			rings = append(rings, r.Rings()...)
		}
	}
	rings = node(rings)
	out := make([]Shape, len(shapes))
	for i, s := range shapes {
		for _, r := range s {
			n := 1 + len(r.Holes)
			out[i] = append(out[i], rebuilt(rings[:n])...)
			rings = rings[n:]
		}
	}
	return out
}

// rebuilt returns the region that noded rings bound, interior on the left.
func rebuilt(rings []Ring) Shape {
	seen := make(map[Pt]bool)
	simple := true
	for _, r := range rings {
		if len(r) < 3 {
			simple = false
		}
		for _, p := range r {
			simple = simple && !seen[p]
			seen[p] = true
		}
	}
	if simple {
		return Shape{regionOf(rings)}
	}
	return covered(rings)
}

// trace joins edges with the interior on their left to rings that pass through
// no corner twice.
func trace(edges []Segment) []Ring {
	from := make(map[Pt][]int)
	for i, e := range edges {
		from[e.A] = append(from[e.A], i)
	}
	used := make([]bool, len(edges))
	var out []Ring
	for i := range edges {
		var path Ring
		for at := i; !used[at]; {
			used[at] = true
			path = append(path, edges[at].A)
			end := edges[at].B
			if k := slices.Index(path, end); k >= 0 {
				out = append(out, slices.Clone(path[k:]))
				path = path[:k]
			}
			at = leftmost(edges, from[end], used, edges[at])
			if at < 0 {
				break
			}
		}
	}
	return out
}

// leftmost returns the unused edge that turns most to the left after in, which
// keeps to the border of the interior in hand; -1 where none is left.
func leftmost(edges []Segment, from []int, used []bool, in Segment) int {
	best, most := -1, math.Inf(-1)
	d := in.B.Sub(in.A)
	for _, i := range from {
		if used[i] {
			continue
		}
		e := edges[i].B.Sub(edges[i].A)
		turn := math.Atan2(float64(d.Cross(e)), float64(d.Dot(e)))
		if turn > most {
			best, most = i, turn
		}
	}
	return best
}

// assemble puts each clockwise ring as a hole into the smallest
// counter-clockwise one around it.
func assemble(rings []Ring) Shape {
	var out Shape
	for _, r := range rings {
		if r.Area2() > 0 {
			out = append(out, Region{Outer: r})
		}
	}
	for _, h := range rings {
		if h.Area2() >= 0 {
			continue
		}
		best := -1
		for i, r := range out {
			if r.Outer.surrounds(h) && (best < 0 || r.Outer.Area2() < out[best].Outer.Area2()) {
				best = i
			}
		}
		if best >= 0 {
			out[best].Holes = append(out[best].Holes, h)
		}
	}
	return out
}

// surrounds tells whether h, whose sides do not cross those of r, lies in r.
func (r Ring) surrounds(h Ring) bool {
	for _, p := range h {
		if at := r.position(p); at != Border {
			return at == Inside
		}
	}
	for _, e := range h.Edges() {
		if at := r.position(e.Mid()); at != Border {
			return at == Inside
		}
	}
	return false
}
