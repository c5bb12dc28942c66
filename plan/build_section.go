package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// span is a stretch of a line, in metres from its start; from < to.
type span struct{ from, to float64 }

func (s span) length() float64 { return s.to - s.from }

// overlap gives the stretch that s and t share; its length is negative where
// they lie apart.
func (s span) overlap(t span) span { return span{max(s.from, t.from), min(s.to, t.to)} }

// joined merges stretches that overlap, or lie no farther apart than gap, in order.
func joined(spans []span, gap float64) []span {
	spans = slices.Clone(spans)
	slices.SortFunc(spans, func(a, b span) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	})
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.from <= out[n-1].to+gap {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// without gives what is left of spans where cuts are taken away, in order.
func without(spans, cuts []span) []span {
	cuts = joined(cuts, 0)
	var out []span
	for _, s := range joined(spans, 0) {
		for _, c := range cuts {
			if c.to <= s.from || c.from >= s.to {
				continue
			}
			if c.from > s.from {
				out = append(out, span{s.from, c.from})
			}
			s.from = min(c.to, s.to)
		}
		if s.to > s.from {
			out = append(out, s)
		}
	}
	return out
}

// ray is a line through a point in a direction of length 1.
type ray struct {
	at     geom.Pt
	dx, dy float64
}

// along is the line of s from its start.
func along(s geom.Segment) ray {
	dx, dy := float64(s.B.X-s.A.X), float64(s.B.Y-s.A.Y)
	length := math.Hypot(dx, dy)
	if length == 0 {
		return ray{at: s.A}
	}
	return ray{s.A, dx / length, dy / length}
}

// across is the line square to s, to its left, from the point metres along it.
func across(s geom.Segment, metres float64) ray {
	r := along(s)
	return ray{s.At(metres), -r.dy, r.dx}
}

// back is the line in the opposite direction.
func (r ray) back() ray { return ray{r.at, -r.dx, -r.dy} }

// beside is the line moved off metres to its left.
func (r ray) beside(off float64) ray {
	return ray{r.point(0, off), r.dx, r.dy}
}

// point is the point metres along the line and off metres to its left.
func (r ray) point(metres, off float64) geom.Pt {
	return r.at.Add(geom.FromMetres(metres*r.dx-off*r.dy, metres*r.dy+off*r.dx))
}

// cut gives the stretches of the line that lie in the region, in order,
// negative behind its start. A side of the region that the line runs along
// counts as lying to its left, so that a point is never half inside.
func (r ray) cut(region geom.Region) []span {
	var at []float64
	for _, e := range region.Edges() {
		a, b := e.A.Sub(r.at), e.B.Sub(r.at)
		ax, ay, bx, by := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
		sa, sb := r.dx*ay-r.dy*ax, r.dx*by-r.dy*bx
		if (sa < 0) == (sb < 0) {
			continue
		}
		ta, tb := r.dx*ax+r.dy*ay, r.dx*bx+r.dy*by
		at = append(at, (ta+(tb-ta)*sa/(sa-sb))/geom.UnitsPerMetre)
	}
	slices.Sort(at)
	var out []span
	for i := 0; i+1 < len(at); i += 2 {
		if at[i+1]-at[i] > 1e-3 {
			out = append(out, span{at[i], at[i+1]})
		}
	}
	return out
}
