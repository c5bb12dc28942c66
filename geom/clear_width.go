package geom

import (
	"cmp"
	"math"
	"slices"
)

// ClearWidth returns how wide a way from one opening of a region to another
// is at the narrowest place that cannot be gone around: the diameter, in
// metres, of the largest disc that passes, and where it would get stuck. How
// wide the openings themselves are is left out, so that a hall is not as
// narrow as its doors. The openings are stretches of the region's border, to
// Coincide; ok is false where one is not, or where no way of passing width
// leads from one to the other.
//
// A disc is stopped by walls that come nearer to each other than its diameter
// and together part the two openings. So the shortest lines between any two
// walls are taken by length; rings that they join are joined, each with
// whether the lines cross a way between the openings an odd number of times.
// The first line that closes an odd circle is the narrowest place.
func ClearWidth(r Region, from, to Segment) (width float64, at Segment, ok bool) {
	return NewClearWays(r).Width(from, to)
}

// ClearWays measures ways between many openings of one region.
type ClearWays struct {
	region  Region
	walkway *Walkway
}

// NewClearWays prepares a region, which must be sound and wound.
func NewClearWays(r Region) *ClearWays { return &ClearWays{r, NewWalkway(r, narrowestWay)} }

// Width is ClearWidth for two openings of the region.
func (c *ClearWays) Width(from, to Segment) (width float64, at Segment, ok bool) {
	r := c.region
	way, ok := c.between(from, to)
	if !ok {
		return 0, at, false
	}
	openings := []Segment{from, to}
	var walls []wallPiece
	for k, ring := range r.Rings() {
		for _, e := range ring.Edges() {
			for _, p := range outsideOf(e, openings) {
				walls = append(walls, wallPiece{p, k})
			}
		}
	}
	rings := newParity(1 + len(r.Holes))
	for _, n := range narrowings(walls, openings) {
		odd := timesCrossed(n.line, way)%2 == 1
		if rings.closesOdd(n.a, n.b, odd) {
			return n.line.Length(), n.line, true
		}
	}
	return 0, at, false
}

const (
	// narrowestWay is the half width of the way that shows how two openings are
	// joined: half a centimetre, as far from the walls as rounding cannot reach.
	narrowestWay = 0.005

	// mouth is how far beyond an opening that way begins.
	mouth = 0.02
)

// between finds a way between two openings that keeps clear of all walls.
func (c *ClearWays) between(from, to Segment) ([]Pt, bool) {
	outerA, innerA, okA := throughOpening(c.region, from)
	outerB, innerB, okB := throughOpening(c.region, to)
	if !okA || !okB {
		return nil, false
	}
	way, _, ok := c.walkway.Way(innerA, innerB)
	if !ok {
		return nil, false
	}
	return append(append([]Pt{outerA}, way...), outerB), true
}

// throughOpening gives a place just outside the middle of an opening and one
// just inside; ok is false where the region lies on neither side or on both.
func throughOpening(r Region, opening Segment) (outer, inner Pt, ok bool) {
	half := opening.Length() / 2
	left, right := opening.Beside(half, mouth), opening.Beside(half, -mouth)
	inLeft, inRight := r.Contains(left) == Inside, r.Contains(right) == Inside
	switch {
	case half == 0 || inLeft == inRight:
		return outer, inner, false
	case inLeft:
		return right, left, true
	}
	return left, right, true
}

// wallPiece is a stretch of wall with the ring that it belongs to.
type wallPiece struct {
	Segment
	ring int
}

// outsideOf gives the parts of a side that are in none of the openings.
func outsideOf(side Segment, openings []Segment) []Segment {
	cuts := []span{}
	for _, o := range openings {
		if math.Abs(side.Off(o.A)) > Coincide || math.Abs(side.Off(o.B)) > Coincide {
			continue
		}
		a, b := side.Along(o.A), side.Along(o.B)
		cuts = append(cuts, span{min(a, b), max(a, b)})
	}
	slices.SortFunc(cuts, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out []Segment
	at := 0.0
	for _, c := range append(cuts, span{side.Length(), side.Length()}) {
		if c.from > at+walkSlack {
			out = append(out, Segment{side.At(at), side.At(min(c.from, side.Length()))})
		}
		at = max(at, c.to)
	}
	return out
}

// narrowing is the shortest line between two walls, and their rings.
type narrowing struct {
	line Segment
	a, b int
}

// narrowings lists the shortest lines between all walls, the narrowest first, without
// those that lie in an opening or lead out through one.
func narrowings(walls []wallPiece, openings []Segment) []narrowing {
	var out []narrowing
	for i, s := range walls {
		for _, t := range walls[:i] {
			if Meet(s.Segment, t.Segment) != Apart {
				continue
			}
			for _, line := range shortLines(t.Segment, s.Segment) {
				if line.A == line.B || slices.ContainsFunc(openings, func(o Segment) bool { return Meet(line, o) == Crossed || inMouth(line, o) }) {
					continue
				}
				out = append(out, narrowing{line, t.ring, s.ring})
				break
			}
		}
	}
	slices.SortStableFunc(out, func(a, b narrowing) int { return cmp.Compare(a.line.Length(), b.line.Length()) })
	return out
}

// shortLines gives lines from s to t, which do not meet, the shortest first;
// of two that face each other squarely that between the middles of what faces.
func shortLines(s, t Segment) []Segment {
	lines := []Segment{{s.A, t.Nearest(s.A)}, {s.B, t.Nearest(s.B)}, {s.Nearest(t.A), t.A}, {s.Nearest(t.B), t.B}}
	slices.SortStableFunc(lines, func(a, b Segment) int { return cmp.Compare(a.Length(), b.Length()) })
	first := lines[0]
	for _, l := range lines[1:] {
		if l != first && l.Length() <= first.Length()+walkSlack {
			mid := Segment{Segment{first.A, l.A}.Mid(), Segment{first.B, l.B}.Mid()}
			if mid.Length() <= first.Length()+walkSlack {
				return append([]Segment{mid}, lines...)
			}
		}
	}
	return lines
}

// The line between the jambs of an opening, or from one jamb past the other to
// a wall beside it, as one has it who turns from one door straight into the
// next, spans mouthWidth of the opening's width at least, and leaves its plane
// by no more than mouthDepth of it.
const (
	mouthWidth = 0.9
	mouthDepth = 1.0
)

// inMouth tells whether a line measures how wide an opening is.
func inMouth(line, opening Segment) bool {
	width := opening.Length()
	a, b := opening.Along(line.A), opening.Along(line.B)
	from, to := max(0, min(a, b)), min(width, max(a, b))
	return to-from >= mouthWidth*width && math.Abs(opening.Off(line.A)) <= mouthDepth*width && math.Abs(opening.Off(line.B)) <= mouthDepth*width &&
		min(opening.DistanceTo(line.A), opening.DistanceTo(line.B)) <= Coincide
}

// timesCrossed counts how often a line crosses a way. A bend of the way that lies
// on the line counts as lying to its left, so that a way that passes through
// there crosses once.
func timesCrossed(line Segment, way []Pt) int {
	n := 0
	for i := 1; i < len(way); i++ {
		p, q := way[i-1], way[i]
		left, next := Orient(line.A, line.B, p) >= 0, Orient(line.A, line.B, q) >= 0
		if left == next {
			continue
		}
		d, e := line.B.Sub(line.A), q.Sub(p)
		along := float64(p.Sub(line.A).Cross(e)) / float64(d.Cross(e))
		if along > 0 && along < 1 {
			n++
		}
	}
	return n
}

// parity joins rings, each with whether it lies an odd number of crossings
// from the first ring of its group.
type parity struct {
	group []int
	odd   []bool
}

func newParity(n int) *parity {
	p := &parity{group: make([]int, n), odd: make([]bool, n)}
	for i := range p.group {
		p.group[i] = i
	}
	return p
}

// closesOdd joins two rings and tells whether that closes an odd circle.
func (p *parity) closesOdd(a, b int, odd bool) bool {
	if p.group[a] == p.group[b] {
		return (p.odd[a] != p.odd[b]) != odd
	}
	flip := (p.odd[a] != p.odd[b]) != odd
	old := p.group[b]
	for i, g := range p.group {
		if g == old {
			p.group[i] = p.group[a]
			p.odd[i] = p.odd[i] != flip
		}
	}
	return false
}
