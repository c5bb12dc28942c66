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
// narrow today are no fault of the new wall.
func (s *cutSpace) joined(piece geom.Region, ways []geom.Pt, lines []cutLine) bool {
	if len(ways) < 2 {
		return true
	}
	narrows := s.narrows(piece, lines)
	if len(narrows) == 0 {
		return true
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

// narrows finds the narrow places of a piece that lie at a new wall.
func (s *cutSpace) narrows(piece geom.Region, lines []cutLine) []geom.Segment {
	edges := piece.Edges()
	fresh := make([]bool, len(edges))
	for i, e := range edges {
		fresh[i] = s.alongLine(e, lines)
	}
	var out []geom.Segment
	first := 0
	for _, ring := range piece.Rings() {
		n := len(ring)
		for i, p := range ring {
			before, after := first+(i+n-1)%n, first+i
			if geom.Orient(edges[before].A, p, edges[after].B) >= 0 {
				continue
			}
			for k, e := range edges {
				if k == before || k == after || !fresh[before] && !fresh[after] && !fresh[k] {
					continue
				}
				if e.DistanceTo(p) >= s.clear-widthTolerance {
					continue
				}
				if n := (geom.Segment{A: p, B: e.Nearest(p)}); n.A != n.B && opens(n, piece, edges) {
					out = append(out, n)
				}
			}
		}
		first += n
	}
	return out
}

// alongLine tells whether an edge of a piece is the face of a new wall.
func (s *cutSpace) alongLine(e geom.Segment, lines []cutLine) bool {
	reach := s.thickness/2 + 0.002
	for _, l := range lines {
		for _, leg := range l.legs() {
			if leg.DistanceTo(e.A) <= reach*1.5 && leg.DistanceTo(e.B) <= reach*1.5 && leg.DistanceTo(e.Mid()) <= reach {
				return true
			}
		}
	}
	return false
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
