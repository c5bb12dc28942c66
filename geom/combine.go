package geom

import "math/big"

// combine overlays two noded shapes exactly: of every edge it works out what
// lies on either side, and keeps those with the result on one side only. Time
// grows with the square of the number of edges.
func combine(a, b Shape, keep func(inA, inB bool) bool) Shape {
	return assemble(trace(border([][]Segment{a.Edges(), b.Edges()}, func(in []bool) bool { return keep(in[0], in[1]) })))
}

// covered returns what noded rings go round at least once, counter-clockwise
// ones adding and clockwise ones taking away. Rounding can make a ring run
// back along itself, or go twice round a grid cell.
func covered(rings []Ring) Shape {
	var edges []Segment
	for _, r := range rings {
		if len(r) >= 2 {
			edges = append(edges, r.Edges()...)
		}
	}
	return assemble(trace(border([][]Segment{edges}, func(in []bool) bool { return in[0] })))
}

// border returns the edges with the result on one side only, on their left.
func border(operands [][]Segment, keep func(in []bool) bool) []Segment {
	seen := make(map[Segment]bool)
	var out []Segment
	for _, edges := range operands {
		for _, e := range edges {
			if e.B.Less(e.A) {
				e = e.Reverse()
			}
			if seen[e] {
				continue
			}
			seen[e] = true
			left, right := make([]bool, len(operands)), make([]bool, len(operands))
			for i := range operands {
				l, r := windings(e, operands[i])
				left[i], right[i] = l > 0, r > 0
			}
			switch l, r := keep(left), keep(right); {
			case l && !r:
				out = append(out, e)
			case r && !l:
				out = append(out, e.Reverse())
			}
		}
	}
	return out
}

// windings returns how many times the edges go round what lies directly left
// and right of e: by those that a ray from the middle of e crosses, to the
// right where e goes up and upwards where it is level. No edge passes through
// the middle; those that coincide with e tell the two sides apart. Exact, at
// twice the scale. e.A is Less than e.B.
func windings(e Segment, edges []Segment) (left, right int) {
	level := e.A.Y == e.B.Y
	up := func(p Pt) Pt {
		if level {
			return Pt{p.Y, -p.X} // a quarter turn makes upwards to the right
		}
		return p
	}
	m := up(e.A).Add(up(e.B))
	beyond, own := 0, 0
	for _, s := range edges {
		switch {
		case s == e:
			own++
			continue
		case s == e.Reverse():
			own--
			continue
		}
		a, b := up(s.A), up(s.B)
		a, b = a.Add(a), b.Add(b)
		if (a.Y > m.Y) == (b.Y > m.Y) {
			continue
		}
		rises := b.Y > a.Y
		if (wideOrient(a, b, m) > 0) != rises {
			continue // left of the middle
		}
		if rises {
			beyond++
		} else {
			beyond--
		}
	}
	// The ray starts on the right of a rising e and on the left of a falling or
	// level one; own counts what lies left of e and not right of it.
	if up(e.B).Y > up(e.A).Y {
		return beyond + own, beyond
	}
	return beyond, beyond - own
}

// wideOrient is Orient for coordinates beyond its range.
func wideOrient(a, b, c Pt) int {
	d, e := b.Sub(a), c.Sub(a)
	p := new(big.Int).Mul(big.NewInt(d.X), big.NewInt(e.Y))
	q := new(big.Int).Mul(big.NewInt(d.Y), big.NewInt(e.X))
	return p.Cmp(q)
}
