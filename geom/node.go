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
func node(rings []Ring) []Ring {
	for range nodingPasses {
		next, changed := nodeOnce(rings)
		rings = next
		if !changed {
			break
		}
	}
	return rings
}

func nodeOnce(rings []Ring) (out []Ring, changed bool) {
	var edges []Segment
	var hot []Pt
	for _, r := range rings {
		edges = append(edges, r.Edges()...)
		hot = append(hot, r...)
	}
	hot = append(hot, crossings(edges)...)
	slices.SortFunc(hot, comparePts)
	hot = slices.Compact(hot)
	x := newIndex(len(hot), func(i int) Box { return Box{hot[i], hot[i]} })
	var near []int
	for _, r := range rings {
		var led Ring
		for _, e := range r.Edges() {
			near = x.near(e.Bounds(), near)
			led = append(led, e.A)
			led = append(led, through(e, hot, near)...)
		}
		led = led.WithoutRepeats()
		changed = changed || len(led) != len(r)
		out = append(out, led)
	}
	return out, changed
}

// crossings returns the points inside edges where they cross, on the grid.
func crossings(edges []Segment) []Pt {
	x := newIndex(len(edges), func(i int) Box { return edges[i].Bounds() })
	var out []Pt
	var near []int
	for i, e := range edges {
		near = x.near(e.Bounds(), near)
		for _, j := range near {
			if j > i && Meet(e, edges[j]) == Crossed {
				if p, ok := CrossingPoint(e, edges[j]); ok {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// through returns those of the hot points whose unit square e passes, without
// its ends, in order from e.A.
func through(e Segment, hot []Pt, near []int) []Pt {
	d := e.B.Sub(e.A)
	reach := (abs(d.X) + abs(d.Y)) / 2
	var out []Pt
	for _, i := range near {
		p := hot[i]
		if p != e.A && p != e.B && abs(d.Cross(p.Sub(e.A))) <= reach {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(p, q Pt) int {
		return cmp.Or(cmp.Compare(d.Dot(p.Sub(e.A)), d.Dot(q.Sub(e.A))), comparePts(p, q))
	})
	return out
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
		return Shape{{Outer: rings[0], Holes: rings[1:]}}
	}
	return assemble(trace(uncancelled(rings)))
}

// uncancelled returns the edges of the rings that no other edge runs back along.
func uncancelled(rings []Ring) []Segment {
	count := make(map[Segment]int)
	var edges []Segment
	for _, r := range rings {
		if len(r) < 2 {
			continue
		}
		for _, e := range r.Edges() {
			count[e]++
			edges = append(edges, e)
		}
	}
	var out []Segment
	for _, e := range edges {
		if count[e] > 0 && count[e.Reverse()] == 0 {
			count[e]--
			out = append(out, e)
		} else if count[e] > 0 {
			count[e]--
			count[e.Reverse()]--
		}
	}
	return out
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
