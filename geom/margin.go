package geom

import (
	"cmp"
	"math"
	"slices"
)

// stretch is a part of the border of a prism with what lies outside it: near
// runs along the border with the prism on its left, far in the same sense.
type stretch struct {
	near, far Segment
	height    float64
	shared    bool    // far is the border of another prism, which has a margin too
	goesOn    [2]bool // that border goes on straight past the first, the second end
}

// strip is a stretch in the frame of the edge that it lies on.
type strip struct {
	along  span
	far    line
	shared bool
	goesOn [2]bool
}

// margin is the ground around a prism that its walls take up, given by the
// stretches of its border.
type margin struct {
	edges  []Segment
	frames []frame
	strips [][]strip // per edge, in order
	after  []int     // per edge: the next one round its ring
	before []int
}

func newMargin(base Region, stretches []stretch) *margin {
	m := new(margin)
	for _, r := range base.Rings() {
		first, n := len(m.edges), len(r)
		for i, e := range r.Edges() {
			m.edges = append(m.edges, e)
			m.frames = append(m.frames, frameOf(e))
			m.after = append(m.after, first+(i+1)%n)
			m.before = append(m.before, first+(i+n-1)%n)
		}
	}
	m.strips = make([][]strip, len(m.edges))
	for i, e := range m.edges {
		m.strips[i] = stripsAlong(m.frames[i], e, stretches)
	}
	m.fillGaps()
	return m
}

// stripsAlong returns the strips along one edge. Where stretches lie one above
// the other the highest counts.
func stripsAlong(f frame, e Segment, stretches []stretch) []strip {
	type candidate struct {
		strip
		height float64
	}
	length := e.Length()
	var found []candidate
	ends := []float64{0, length}
	for _, s := range stretches {
		l, ok := f.line(s.near)
		if !ok || s.near.direction().dot(f.along) < 0 || math.Abs(l.at(l.from)) > Coincide || math.Abs(l.at(l.to)) > Coincide {
			continue
		}
		along := l.and(span{0, length})
		far, ok := f.line(s.far)
		if !ok || along.length() <= settled {
			continue
		}
		// A merged stretch may lie a little off this edge: what counts is its depth.
		far.out -= l.out
		far.slope -= l.slope
		found = append(found, candidate{strip{along, far, s.shared, s.goesOn}, s.height})
		ends = append(ends, along.from, along.to)
	}
	slices.Sort(ends)
	var out []strip
	for i := 1; i < len(ends); i++ {
		part := span{ends[i-1], ends[i]}
		if part.length() <= settled {
			continue
		}
		best := -1
		for k, c := range found {
			if c.along.from < part.mid() && part.mid() < c.along.to && (best < 0 || c.height > found[best].height) {
				best = k
			}
		}
		if best < 0 {
			continue
		}
		if n := len(out); n > 0 && out[n-1].far == found[best].far && out[n-1].along.to >= part.from-settled {
			out[n-1].along.to = part.to
			continue
		}
		s := found[best].strip
		s.along = part
		out = append(out, s)
	}
	return out
}

// depth is how far the margin reaches out at a place along the edge.
func (s strip) depth(at float64) float64 { return s.far.at(at) }

// fillGaps gives the corner bits, along which no wall was reported, the depth
// of the deeper neighbour.
func (m *margin) fillGaps() {
	gaps := make([][]strip, len(m.edges))
	for i, e := range m.edges {
		from := 0.0
		length := e.Length()
		for k := 0; k <= len(m.strips[i]); k++ {
			to := length
			if k < len(m.strips[i]) {
				to = m.strips[i][k].along.from
			}
			if to-from > settled && to-from <= ThickestWall+settled {
				a, sharedA := m.depthBefore(i, k)
				b, sharedB := m.depthAfter(i, k)
				bit := strip{along: span{from, to}, far: line{out: a}, shared: sharedA}
				if b > a {
					bit.far.out, bit.shared = b, sharedB
				}
				gaps[i] = append(gaps[i], bit)
			}
			if k < len(m.strips[i]) {
				from = m.strips[i][k].along.to
			}
		}
	}
	for i := range m.strips {
		m.strips[i] = append(m.strips[i], gaps[i]...)
		slices.SortFunc(m.strips[i], func(a, b strip) int { return cmp.Compare(a.along.from, b.along.from) })
	}
}

// depthBefore returns the depth at the end of the strip before place k of
// edge i, or of the edge before it where there is none.
func (m *margin) depthBefore(i, k int) (depth float64, shared bool) {
	if k > 0 {
		s := m.strips[i][k-1]
		return s.depth(s.along.to), s.shared
	}
	prev := m.before[i]
	if n := len(m.strips[prev]); n > 0 && m.lendsDepth(i, prev) {
		s := m.strips[prev][n-1]
		return s.depth(s.along.to), s.shared
	}
	return 0, false
}

// depthAfter is depthBefore for what follows.
func (m *margin) depthAfter(i, k int) (depth float64, shared bool) {
	if k < len(m.strips[i]) {
		s := m.strips[i][k]
		return s.depth(s.along.from), s.shared
	}
	next := m.after[i]
	if len(m.strips[next]) > 0 && m.lendsDepth(i, next) {
		s := m.strips[next][0]
		return s.depth(s.along.from), s.shared
	}
	return 0, false
}

// lendsDepth tells whether edge j may give its depth to edge i, its neighbour:
// if it goes on in the same line, or if i has nothing of its own.
func (m *margin) lendsDepth(i, j int) bool {
	return len(m.strips[i]) == 0 || m.frames[i].along.dot(m.frames[j].along) >= facingCosine
}

// around returns ground that, together with others of its kind, covers the
// prism and its margin: the prism with its border moved out where that gives
// a sound ring, and the prism and the pieces of its margin otherwise.
func (m *margin) around(base Region) Shape {
	if len(base.Holes) == 0 {
		if r := m.movedOut(); len(r) >= 3 && r.CounterClockwise() && len(Breaches([]Ring{r})) == 0 {
			return Shape{{Outer: r}}
		}
	}
	return append(m.pieces(), base)
}

// movedOut returns the border of a prism without holes, moved out by its
// margin. It crosses itself where an edge is short against its depth.
func (m *margin) movedOut() Ring {
	var out Ring
	var corner cornerPath
	if n := len(m.edges); n > 0 {
		corner = m.corner(n - 1)
	}
	for i := range m.edges {
		path := m.path(i)
		if corner.trims && len(path) > 0 {
			path[0] = corner.points[0]
		}
		corner = m.corner(i)
		if corner.trims && len(path) > 0 {
			path = path[:len(path)-1]
		}
		out = append(append(out, path...), corner.points...)
	}
	return tidy(out)
}

// path returns the border along one edge, moved out.
func (m *margin) path(i int) Ring {
	f, length := m.frames[i], m.edges[i].Length()
	var out Ring
	from := 0.0
	for _, s := range m.strips[i] {
		if s.along.from > from+settled {
			out = append(out, f.place(from, 0), f.place(s.along.from, 0))
		}
		out = append(out, f.place(s.along.from, max(0, s.depth(s.along.from))), f.place(s.along.to, max(0, s.depth(s.along.to))))
		from = s.along.to
	}
	if length > from+settled {
		out = append(out, f.place(from, 0), f.place(length, 0))
	}
	return out
}

// cornerPath is how the moved border goes round a corner: by one point that
// takes the place of the ends on both sides, or by points between them.
type cornerPath struct {
	points []Pt
	trims  bool
}

// corner returns the way round the corner at the end of edge i. Faces are
// prolonged until they meet.
func (m *margin) corner(i int) cornerPath {
	j := m.after[i]
	f, g := m.frames[i], m.frames[j]
	length := m.edges[i].Length()
	s, okS := m.last(i)
	t, okT := m.first(j)
	if !okS && !okT {
		return cornerPath{}
	}
	turn := Orient(m.edges[i].A, m.edges[i].B, m.edges[j].B)
	a, b := max(0, s.depth(length)), max(0, t.depth(0))
	atA, slopeA := s.cornerFace(a, turn, t.shared, 1)
	atB, slopeB := t.cornerFace(b, turn, s.shared, 0)
	// The faces, drawn a metre long, so that rounding does not turn short ones.
	near := Segment{f.place(length-1, atA-slopeA), f.place(length, atA)}
	far := Segment{g.place(0, atB), g.place(1, atB+slopeB)}
	p, ok := CrossingPoint(near, far)
	past, before := near.Along(p)-near.Length(), -far.Along(p) // how far the faces are prolonged
	switch cut := max(a, b); turn {
	case 1:
		// At a sharp corner between a thin wall and a thick one the thin one's
		// face cuts off the end of the thick one's; where the border hardly turns
		// the faces are stepped instead.
		ok = ok && past >= -min(cut, s.along.length())-sliver && before >= -min(cut, t.along.length())-sliver &&
			p.Distance(m.edges[i].B) <= SharpestMitre*cut
	case -1:
		ok = ok && past <= sliver && past >= -s.along.length()-sliver && before <= sliver && before >= -t.along.length()-sliver
	default:
		ok = false
	}
	switch {
	case ok && atA == a && atB == b:
		return cornerPath{points: []Pt{p}, trims: true}
	case ok:
		return cornerPath{points: []Pt{near.B, p, far.A}}
	}
	return cornerPath{points: []Pt{near.B, far.A}}
}

// cornerFace returns how deep the margin is taken round a corner, at one end
// (0 the first) of a strip of this depth, and its slope along the edge. At a
// corner that turns left, half of a wall to another prism, whose margin meets
// this one, is enough: what lies beyond the middle of a post is the other's, or
// outdoors. The two overlap a little, because they are prolonged along faces
// that may be out of parallel. But where the other prism goes on past the
// corner, the exterior face runs on up to it.
func (s strip) cornerFace(depth float64, turn int, otherShared bool, end int) (at, slope float64) {
	if turn <= 0 || !s.shared || (s.goesOn[end] && !otherShared) {
		return depth, s.far.slope
	}
	return depth/2 + cornerLap, s.far.slope / 2
}

// last returns the strip that reaches the end of edge i, or an empty one along
// its whole length.
func (m *margin) last(i int) (strip, bool) {
	length := m.edges[i].Length()
	if n := len(m.strips[i]); n > 0 && m.strips[i][n-1].along.to >= length-settled {
		return m.strips[i][n-1], true
	}
	return strip{along: span{0, length}}, false
}

// first returns the strip that begins with edge i, or an empty one along its
// whole length.
func (m *margin) first(i int) (strip, bool) {
	if len(m.strips[i]) > 0 && m.strips[i][0].along.from <= settled {
		return m.strips[i][0], true
	}
	return strip{along: span{0, m.edges[i].Length()}}, false
}

// pieces returns the margin as pieces that lap over each other and over the
// prism: a strip along each stretch and a fill at each corner that turns left.
func (m *margin) pieces() Shape {
	var out Shape
	for i := range m.edges {
		f := m.frames[i]
		for _, s := range m.strips[i] {
			from, to := s.along.from-lap, s.along.to+lap
			a, b := s.depth(s.along.from), s.depth(s.along.to)
			if max(a, b) <= 0 {
				continue
			}
			out = appendPiece(out, f.place(from, -lap), f.place(from, a), f.place(to, b), f.place(to, -lap))
		}
		out = m.appendCorner(out, i)
	}
	return out
}

// appendCorner adds the fill of the corner at the end of edge i.
func (m *margin) appendCorner(out Shape, i int) Shape {
	j := m.after[i]
	s, okS := m.last(i)
	t, okT := m.first(j)
	if !okS || !okT || Orient(m.edges[i].A, m.edges[i].B, m.edges[j].B) <= 0 {
		return out // nothing there, straight on, or the strips lie over each other
	}
	f, g, length := m.frames[i], m.frames[j], m.edges[i].Length()
	a, b := s.depth(length), t.depth(0)
	if a <= 0 || b <= 0 {
		return out
	}
	a, _ = s.cornerFace(a, 1, t.shared, 1)
	b, _ = t.cornerFace(b, 1, s.shared, 0)
	ring := Ring{f.place(length-lap, -lap), f.place(length-lap, a)}
	switch c := m.corner(i); len(c.points) {
	case 1:
		ring = append(ring, c.points[0])
	case 3:
		ring = append(ring, c.points[1])
	}
	return appendPiece(out, append(ring, g.place(lap, b))...)
}

// appendPiece adds the ring with these corners, unless it encloses nothing.
func appendPiece(out Shape, corners ...Pt) Shape {
	r := tidy(Ring(corners))
	if len(r) < 3 || len(Breaches([]Ring{r})) > 0 {
		return out
	}
	return append(out, Region{Outer: r.wound(true)})
}
