package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/geom"
)

// cutLine is a line that may divide a space.
type cutLine struct {
	points []geom.Pt
	rank   cutRank
	why    string
}

// cutRank orders lines that part the same things at the same length.
type cutRank uint8

const (
	inLineWithWall cutRank = iota
	alongFlight
	midway
	besideWay
	cornered // a line with a corner
)

func (l cutLine) legs() []geom.Segment {
	var out []geom.Segment
	for i := range len(l.points) - 1 {
		out = append(out, geom.Segment{A: l.points[i], B: l.points[i+1]})
	}
	return out
}

func (l cutLine) length() float64 {
	sum := 0.0
	for _, leg := range l.legs() {
		sum += leg.Length()
	}
	return sum
}

// Limits of what makes a line.
const (
	// parallelSine and squareSine tell directions apart: an old house's walls
	// are out of square by a degree or two.
	parallelSine = 0.035
	// leastLeg is the length under which the leg of a cornered line is a jog.
	leastLeg = 0.30
	// cornerCost is the length that a corner counts for.
	cornerCost = 0.50
	// sameLine is the distance at which two lines are one.
	sameLine = 0.0207
)

// guides gives the straight lines of an indoor space.
func (s *cutSpace) guides() []cutLine {
	var g guides
	g.space = s
	s.wallEnds(&g)
	s.corners(&g)
	s.besideWays(&g)
	s.midways(&g)
	return g.lines
}

// guides gathers chords of a space.
type guides struct {
	space *cutSpace
	lines []cutLine
}

// from adds the chord that begins where the ray enters the space, at its
// start or no farther on than a wall is thick.
func (g *guides) from(r ray, rank cutRank, why string) {
	for _, c := range r.cut(g.space.region) {
		if c.to > leastRun && c.from <= thickest+geom.Coincide {
			g.add(r, span{max(c.from, 0), c.to}, rank, why)
			return
		}
	}
}

// through adds the chord that holds the start of the ray.
func (g *guides) through(r ray, rank cutRank, why string) {
	for _, c := range r.cut(g.space.region) {
		if c.from < 0 && c.to > 0 {
			g.add(r, c, rank, why)
		}
	}
}

// all adds every chord on the line of the ray.
func (g *guides) all(r ray, rank cutRank, why string) {
	for _, c := range r.cut(g.space.region) {
		g.add(r, c, rank, why)
	}
}

func (g *guides) add(r ray, c span, rank cutRank, why string) {
	if c.length() < leastLeg-widthTolerance {
		return
	}
	line := cutLine{[]geom.Pt{r.point(c.from, 0), r.point(c.to, 0)}, rank, why}
	for i, l := range g.lines {
		p, q := l.points[0], l.points[1]
		a, b := line.points[0], line.points[1]
		if (p.Distance(a) <= sameLine && q.Distance(b) <= sameLine) || (p.Distance(b) <= sameLine && q.Distance(a) <= sameLine) {
			if line.rank < l.rank || line.rank == l.rank && line.why < l.why {
				g.lines[i] = line
			}
			return
		}
	}
	g.lines = append(g.lines, line)
}

// wallEnds adds the prolongation of each wall between two other rooms that
// ends at the space.
//
//	 bath | bed
//	------+-----
//	 hall :
//	------------
func (s *cutSpace) wallEnds(g *guides) {
	for _, w := range s.b.Walls {
		if w.Open || w.B < 0 || w.A == s.c || w.B == s.c || w.A == w.B || w.Thickness == 0 || !s.beside(w) {
			continue
		}
		line := w.CentreLine()
		names := []string{s.b.Cells[w.A].ID, s.b.Cells[w.B].ID}
		slices.Sort(names)
		why := fmt.Sprintf("in line with the wall between %s and %s", names[0], names[1])
		for _, end := range [...]geom.Segment{line, line.Reverse()} {
			r := along(end)
			r.at = end.B
			if s.squareOn(r) {
				g.from(r, inLineWithWall, why)
			}
		}
	}
}

// beside tells whether a wall stands at the height of the space.
func (s *cutSpace) beside(w geom.Wall) bool {
	if s.cell.Outdoor {
		return w.High > s.cell.Floor+doorShare && w.Low < s.cell.Floor+usualHeight
	}
	return w.High > s.cell.Floor+doorShare && w.Low < s.cell.Ceiling-doorShare
}

// squareOn tells whether a ray meets the space's border at once and not at a
// slant: the end of a wall, whose face is the border.
func (s *cutSpace) squareOn(r ray) bool {
	for _, c := range r.cut(s.region) {
		if c.to <= leastRun || c.from > thickest+geom.Coincide {
			continue
		}
		if c.from < -geom.Coincide {
			return false
		}
		at := r.point(c.from, 0)
		for _, e := range s.edges {
			if e.DistanceTo(at) > geom.Coincide {
				continue
			}
			if d := along(e); math.Abs(d.dx*r.dx+d.dy*r.dy) < 0.5 {
				return true
			}
		}
		return false
	}
	return false
}

// corners adds the two walls that turn a corner into the space, prolonged
// with their faces in line.
//
//	-----+
//	     |
//	.....+      the new wall takes the place of the old one's end
//	     :
func (s *cutSpace) corners(g *guides) {
	for _, in := range s.edges {
		for _, out := range s.edges {
			if in.B != out.A {
				continue
			}
			p := in.B
			d, e := along(in), along(out)
			if d.dx*e.dy-d.dy*e.dx > -10*parallelSine {
				continue
			}
			s.prolong(g, d.startingAt(p), -1, in)
			s.prolong(g, e.back().startingAt(p), 1, out)
		}
	}
}

func (r ray) startingAt(p geom.Pt) ray { r.at = p; return r }

// prolong adds the prolongation of an edge beyond a corner: with the wall's
// body on the side of the edge's own, or over the line of a flight's side.
func (s *cutSpace) prolong(g *guides, r ray, side float64, edge geom.Segment) {
	what, kind := s.behind(edge)
	if kind == LinkSide {
		g.from(r, alongFlight, "in line with the side of "+what)
		return
	}
	if !s.cell.Outdoor {
		r = r.beside(side * s.thickness / 2)
	}
	switch {
	case kind == LinkStair:
		g.from(r, alongFlight, "in line with the end of "+what)
	case s.cell.Outdoor:
		g.from(r, inLineWithWall, "from the corner by "+what)
	default:
		g.from(r, inLineWithWall, "in line with the wall to "+what)
	}
}

// behind names what lies behind an edge of the space, and the kind of the link
// to it.
func (s *cutSpace) behind(edge geom.Segment) (name string, kind LinkKind) {
	best, found := -1.0, Outside
	for _, l := range s.b.Links {
		if l.U != s.c && l.V != s.c || l.Kind == LinkFloor {
			continue
		}
		far := l.other(s.c)
		for _, r := range append([]geom.Segment{l.Line}, l.Runs...) {
			if math.Abs(edge.Off(r.Mid())) > l.Thickness+geom.Coincide {
				continue
			}
			a, b := edge.Along(r.A), edge.Along(r.B)
			on := span{min(a, b), max(a, b)}.overlap(span{0, edge.Length()}).length()
			if far != Outside && s.b.Cells[far].Flight {
				on += edge.Length() // a flight is named before the wall under it
			}
			if on > best+1e-3 || on > best-1e-3 && found != Outside && far != Outside && s.b.Cells[far].ID < s.b.Cells[found].ID {
				best, found, kind = on, far, l.Kind
			}
		}
	}
	if found == Outside || best <= 0 {
		return "the outside", kind
	}
	return s.b.Cells[found].ID, kind
}

// besideWays adds, for every way and window, the lines square to its wall on
// either side and the line parallel to it at the edge of its clear approach.
//
//	----D------      ----D----
//	   :  :          .........
func (s *cutSpace) besideWays(g *guides) {
	half := s.thickness / 2
	for _, m := range s.marks {
		if m.kind != markWay || m.base == (geom.Segment{}) {
			continue
		}
		length := m.base.Length()
		from, to, depth := 0.0, length, approachDepth
		if m.zone != nil {
			from, to = m.base.Along(m.zone[0]), m.base.Along(m.zone[1])
			depth = m.base.Off(m.zone[2])
		}
		for _, at := range [...]float64{from - half, to + half} {
			if p := m.base.At(at); s.onEdge(m.base, p) {
				g.from(across(m.base, at), besideWay, "beside "+m.of)
			}
		}
		r := across(m.base, length/2)
		front := ray{r.point(depth+half, 0), r.dy, -r.dx}
		g.through(front, besideWay, "clear of the approach to "+m.of)
	}
}

// onEdge tells whether the end of a wall whose middle is at p lies on the edge
// that a base lies on.
func (s *cutSpace) onEdge(base geom.Segment, p geom.Pt) bool {
	least := s.thickness/2 - widthTolerance
	return slices.ContainsFunc(s.edges, func(e geom.Segment) bool {
		at := e.Along(p)
		return at >= least && at <= e.Length()-least && math.Abs(e.Off(p)) <= probeDepth+geom.Coincide &&
			math.Abs(e.Off(base.Mid())) <= probeDepth+geom.Coincide
	})
}

// midways adds the lines square to an edge midway between neighbouring ways
// and windows, on whichever side of the space they are.
//
//	--D---W--
//	   :
//	--D------
func (s *cutSpace) midways(g *guides) {
	used := make([]bool, len(s.marks))
	for i, lead := range s.marks {
		if used[i] || !lead.bound() {
			continue
		}
		axis := along(lead.base)
		var items []stretchOf
		for j, m := range s.marks {
			if !m.bound() {
				continue
			}
			d := along(m.base)
			if math.Abs(axis.dx*d.dy-axis.dy*d.dx) > parallelSine {
				continue
			}
			used[j] = true
			a, b := lead.base.Along(m.base.A), lead.base.Along(m.base.B)
			items = append(items, stretchOf{span{min(a, b), max(a, b)}, m.of})
		}
		for _, gap := range gapsBetween(items) {
			if gap.length() < s.thickness+2*casing-widthTolerance {
				continue
			}
			g.all(across(lead.base, gap.mid()), midway, "midway between "+gap.of)
		}
	}
}

// bound tells whether a mark bounds the gaps in which midways lie.
func (m cutMark) bound() bool {
	return (m.kind == markWay || m.kind == markWindow) && m.base != (geom.Segment{})
}

// stretchOf is a stretch along an axis, of something named.
type stretchOf struct {
	span
	of string
}

// gapsBetween gives the gaps between stretches, each named after the two that
// bound it.
func gapsBetween(items []stretchOf) []stretchOf {
	items = slices.Clone(items)
	slices.SortStableFunc(items, func(a, b stretchOf) int {
		switch {
		case a.from < b.from-1e-3:
			return -1
		case a.from > b.from+1e-3:
			return 1
		}
		return 0
	})
	var out []stretchOf
	for i, a := range items {
		if i == 0 {
			continue
		}
		// The one that reaches farthest before the gap.
		last := slices.MaxFunc(items[:i], func(a, b stretchOf) int {
			switch {
			case a.to < b.to-1e-3:
				return -1
			case a.to > b.to+1e-3:
				return 1
			}
			return 0
		})
		if a.from <= last.to+1e-3 {
			continue
		}
		names := []string{last.of, a.of}
		slices.Sort(names)
		out = append(out, stretchOf{span{last.to, a.from}, names[0] + " and " + names[1]})
	}
	return out
}

// cornered gives the lines with one corner that two straight ones make where
// they cross.
func (s *cutSpace) cornered(lines []cutLine) []cutLine {
	var out []cutLine
	for i, l := range lines {
		for _, m := range lines[:i] {
			a, b := l.legs()[0], m.legs()[0]
			d, e := along(a), along(b)
			if math.Abs(d.dx*e.dx+d.dy*e.dy) > 0.5 || geom.Meet(a, b) != geom.Crossed {
				continue
			}
			x, ok := geom.CrossingPoint(a, b)
			if !ok {
				continue
			}
			if min(x.Distance(a.A), x.Distance(a.B), x.Distance(b.A), x.Distance(b.B)) < inLine+widthTolerance {
				continue // one ends at the other
			}
			for _, p := range [...]geom.Pt{a.A, a.B} {
				for _, q := range [...]geom.Pt{b.A, b.B} {
					if p.Distance(x) < leastLeg-widthTolerance || q.Distance(x) < leastLeg-widthTolerance {
						continue
					}
					why := []string{l.why, m.why}
					slices.Sort(why)
					out = append(out, cutLine{[]geom.Pt{p, x, q}, cornered, why[0] + ", and " + why[1]})
				}
			}
		}
	}
	return out
}
