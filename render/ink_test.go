package render_test

import (
	"math"
	"testing"

	"moiety/plan"
	"moiety/render"
)

// struck is a line that runs through lettering of a sheet.
type struck struct {
	group string
	box   render.Box
	at    spot
}

// strikes are the lines of a plan that run through its lettering and are not
// covered there by what is laid over them. Lines are read back from the SVG.
func strikes(t testing.TB, s *render.Sheet) []struck {
	t.Helper()
	const inner = 0.12 // millimetres of a box that a line may touch: half its own width
	p := readSheetSVG(t, s)
	var out []struck
	for _, box := range s.Boxes {
		if box.View < 0 || box.Text == "" {
			continue
		}
		quad, ok := letters(box, inner)
		if !ok {
			continue
		}
		for i := range p.paths {
			path := &p.paths[i]
			if path.stroke == "" || path.curved || path.group == "ground" || path.group == "legend" || path.group == "frame" {
				continue
			}
			if box.Kind == render.TagBox && path.within(box) {
				continue // the tag's own outline
			}
			for _, l := range path.lines {
				n := len(l.points)
				for k := range n {
					if k+1 == n && !l.closed {
						break
					}
					q, hit := through(l.points[k], l.points[(k+1)%n], quad)
					if hit && !p.coveredAfter(i, q) {
						out = append(out, struck{path.group, box, q})
					}
				}
			}
		}
	}
	return out
}

// within tells whether a path lies on the place of a box.
func (q *inkedPath) within(b render.Box) bool {
	const near = 0.5
	low, high := spot{math.Inf(1), math.Inf(1)}, spot{math.Inf(-1), math.Inf(-1)}
	for _, c := range b.Corners {
		low, high = spot{min(low.x, c.X), min(low.y, c.Y)}, spot{max(high.x, c.X), max(high.y, c.Y)}
	}
	for _, l := range q.lines {
		for _, p := range l.points {
			if p.x < low.x-near || p.y < low.y-near || p.x > high.x+near || p.y > high.y+near {
				return false
			}
		}
	}
	return true
}

// letters is the place of the letters of a box: of a tag without its border.
func letters(b render.Box, in float64) ([4]spot, bool) {
	var q [4]spot
	for i, c := range b.Corners {
		q[i] = onPaper(c)
	}
	u, v := q[1].minus(q[0]), q[3].minus(q[0])
	ends := in
	if b.Kind == render.TagBox {
		in, ends = max(in, 0.7), 2.1 // a round end
	}
	if u.to(spot{}) <= 2*ends || v.to(spot{}) <= 2*in {
		return q, false
	}
	u, v = u.unit().times(ends), v.unit().times(in)
	return [4]spot{q[0].plus(u).plus(v), q[1].minus(u).plus(v), q[2].minus(u).minus(v), q[3].plus(u).minus(v)}, true
}

// through gives the middle of what a line has in common with a quadrangle,
// found by cutting the line at each of its sides.
func through(a, b spot, quad [4]spot) (spot, bool) {
	t0, t1 := 0.0, 1.0
	for i, c := range quad {
		n := quad[(i+1)%4].minus(c).unit().left() // into the quadrangle
		da, db := a.minus(c).dot(n), b.minus(c).dot(n)
		switch {
		case da < 0 && db < 0:
			return spot{}, false
		case da < 0:
			t0 = max(t0, da/(da-db))
		case db < 0:
			t1 = min(t1, da/(da-db))
		}
	}
	if t1-t0 < 1e-9 || (t1-t0)*a.to(b) < 0.05 || math.IsNaN(t0+t1) {
		return spot{}, false
	}
	return a.plus(b.minus(a).times((t0 + t1) / 2)), true
}

// coveredAfter tells whether something is filled over a place after a path.
func (p page) coveredAfter(i int, at spot) bool {
	for j := i + 1; j < len(p.paths); j++ {
		if q := &p.paths[j]; q.fill != "" && q.covers(at) {
			return true
		}
	}
	return false
}

// No line of a plan runs through what is lettered on it.
func TestNoLineRunsThroughLettering(t *testing.T) {
	see := func(t *testing.T, name string, sheets []*render.Sheet) {
		for _, s := range sheets {
			for _, x := range strikes(t, s) {
				t.Errorf("%s sheet %s %q: a line of the %s runs through %q at %.0f, %.0f", name, s.Number, s.Title, x.group, x.box.Text, x.at.x, x.at.y)
			}
		}
	}
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) { see(t, "", sheets) })
	for name, sheets := range drawnGenerated(t, 4, render.Options{}) {
		see(t, name, sheets)
	}
}
