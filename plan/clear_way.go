package plan

import (
	"moiety/geom"
)

// joined tells whether the ways of a piece are joined by a way of the clear
// width beside the new walls. A disc of that width cannot pass where the
// border comes nearer to itself than its diameter; such a narrow place is the
// shortest line between a corner that juts into the piece and another stretch
// of its border. The piece is cut along every narrow place that a new wall
// makes, and the ways must lie in one part of what is left. Places that are
// narrow today are no fault of the new wall. Nor do two new walls stand closer.
func (s *cutSpace) joined(piece geom.Region, ways []geom.Pt, lines []cutLine) bool {
	narrows, ok := s.narrows(piece, lines)
	if !ok || len(narrows) == 0 || len(ways) < 2 {
		return ok
	}
	var slits []geom.Shape
	for _, n := range narrows {
		slits = append(slits, slitAlong(piece, []geom.Pt{n.A, n.B}, hairWidth))
	}
	parts, err := slitted(piece, slits)
	if err != nil {
		return false
	}
	in := -1
	for _, w := range ways {
		part := nearestOf(parts, w)
		if in >= 0 && part != in {
			return false
		}
		in = part
	}
	return in >= 0 && parts[in].HoldsDisc(s.clear/2-widthTolerance)
}

// narrows finds the narrow places of a piece that lie at a new wall; false
// where one lies between two.
func (s *cutSpace) narrows(piece geom.Region, lines []cutLine) (out []geom.Segment, ok bool) {
	edges := piece.Edges()
	fresh := make([]int, len(edges)) // the line that an edge is the face of, from 1
	for i, e := range edges {
		fresh[i] = s.alongLine(e, lines)
	}
	first := 0
	for _, ring := range piece.Rings() {
		n := len(ring)
		for i, p := range ring {
			before, after := first+(i+n-1)%n, first+i
			if geom.Orient(edges[before].A, p, edges[after].B) >= 0 {
				continue
			}
			for k, e := range edges {
				if k == before || k == after || max(fresh[before], fresh[after], fresh[k]) == 0 {
					continue
				}
				if e.DistanceTo(p) >= s.clear-widthTolerance {
					continue
				}
				n := geom.Segment{A: p, B: e.Nearest(p)}
				if n.A == n.B || !opens(n, piece, edges) {
					continue
				}
				if corner := max(fresh[before], fresh[after]); corner > 0 && fresh[k] > 0 && fresh[k] != corner {
					return nil, false
				}
				out = append(out, n)
			}
		}
		first += n
	}
	return out, true
}

// alongLine gives the line, from 1, whose new wall an edge of a piece is the
// face of; 0 none.
func (s *cutSpace) alongLine(e geom.Segment, lines []cutLine) int {
	reach := s.thickness/2 + 0.002
	for i, l := range lines {
		for _, leg := range l.legs() {
			if leg.DistanceTo(e.A) <= reach*1.5 && leg.DistanceTo(e.B) <= reach*1.5 && leg.DistanceTo(e.Mid()) <= reach {
				return i + 1
			}
		}
	}
	return 0
}

// opens tells whether a segment between two places of a region's border runs
// inside it.
func opens(n geom.Segment, region geom.Region, edges []geom.Segment) bool {
	if region.Contains(n.Mid()) != geom.Inside {
		return false
	}
	for _, e := range edges {
		if geom.Meet(n, e) == geom.Crossed && e.DistanceTo(n.A) > 1e-4 && e.DistanceTo(n.B) > 1e-4 {
			return false
		}
	}
	return true
}

// nearestOf finds the region that holds p, or the nearest.
func nearestOf(parts geom.Shape, p geom.Pt) int {
	best, at := -1, 0.0
	for i, r := range parts {
		d := r.DistanceToBorder(p)
		if r.Contains(p) == geom.Inside {
			return i
		}
		if best < 0 || d < at {
			best, at = i, d
		}
	}
	return best
}
