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
}

// strip is a stretch in the frame of the edge that it lies on.
type strip struct {
	along span
	far   line
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
		found = append(found, candidate{strip{along, far}, s.height})
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
		out = append(out, strip{part, found[best].far})
	}
	return out
}

// end is the depth of a margin at one end of a strip.
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
				depth := max(m.depthBefore(i, k), m.depthAfter(i, k))
				gaps[i] = append(gaps[i], strip{span{from, to}, line{out: depth}})
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
func (m *margin) depthBefore(i, k int) float64 {
	if k > 0 {
		s := m.strips[i][k-1]
		return s.depth(s.along.to)
	}
	prev := m.before[i]
	if n := len(m.strips[prev]); n > 0 && m.lendsDepth(i, prev) {
		s := m.strips[prev][n-1]
		return s.depth(s.along.to)
	}
	return 0
}

// depthAfter is depthBefore for what follows.
func (m *margin) depthAfter(i, k int) float64 {
	if k < len(m.strips[i]) {
		s := m.strips[i][k]
		return s.depth(s.along.from)
	}
	next := m.after[i]
	if len(m.strips[next]) > 0 && m.lendsDepth(i, next) {
		s := m.strips[next][0]
		return s.depth(s.along.from)
	}
	return 0
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
	paths := make([]Ring, len(m.edges))
	for i, e := range m.edges {
		f := m.frames[i]
		from := 0.0
		add := func(along, depth float64) { paths[i] = append(paths[i], f.place(along, max(0, depth))) }
		for _, s := range m.strips[i] {
			if s.along.from > from+settled {
				add(from, 0)
				add(s.along.from, 0)
			}
			add(s.along.from, s.depth(s.along.from))
			add(s.along.to, s.depth(s.along.to))
			from = s.along.to
		}
		if length := e.Length(); length > from+settled {
			add(from, 0)
			add(length, 0)
		}
	}
	for i := range paths {
		m.turnCorner(paths, i)
	}
	return tidy(slices.Concat(paths...))
}

// turnCorner lets the path along edge i end where that along the next begins.
func (m *margin) turnCorner(paths []Ring, i int) {
	p, q := paths[i], paths[m.after[i]]
	if len(p) < 2 || len(q) < 2 {
		return
	}
	s, t := Segment{p[len(p)-2], p[len(p)-1]}, Segment{q[0], q[1]}
	corner := m.edges[i].B
	var at Pt
	var ok bool
	switch Orient(m.edges[i].A, corner, m.edges[m.after[i]].B) {
	case 1:
		at, ok = mitre(s, t)
		ok = ok && at.Distance(corner) <= SharpestMitre*max(s.B.Distance(corner), t.A.Distance(corner))
	case -1:
		at, ok = CrossingPoint(s, t)
		ok = ok && s.DistanceTo(at) <= sliver && t.DistanceTo(at) <= sliver
	}
	if ok {
		p[len(p)-1], q[0] = at, at
	}
}

// pieces returns the margin as pieces that lap over each other and over the
// prism: a strip along each stretch and a mitre at each corner that turns left.
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

// appendCorner adds the mitre at the end of edge i.
func (m *margin) appendCorner(out Shape, i int) Shape {
	j := m.after[i]
	if len(m.strips[i]) == 0 || len(m.strips[j]) == 0 {
		return out
	}
	f, g := m.frames[i], m.frames[j]
	sin := f.along.x*g.along.y - f.along.y*g.along.x
	if sin <= 0 {
		return out // straight on, or the strips lie over each other
	}
	length := m.edges[i].Length()
	s, t := m.strips[i][len(m.strips[i])-1], m.strips[j][0]
	if s.along.to < length-settled || t.along.from > settled {
		return out
	}
	a, b := s.depth(length), t.depth(0)
	if a <= 0 || b <= 0 {
		return out
	}
	inner := f.place(length-lap, -lap)
	last, first := f.place(length-lap, a), g.place(lap, b)
	if p, ok := mitre(
		Segment{f.place(s.along.from, s.depth(s.along.from)), f.place(length, a)},
		Segment{g.place(0, b), g.place(t.along.to, t.depth(t.along.to))},
	); ok && p.Distance(m.edges[i].B) <= SharpestMitre*max(a, b) {
		return appendPiece(out, inner, last, p, first)
	}
	return appendPiece(out, inner, last, first)
}

// mitre returns the point in which s, going on, meets t, coming on.
func mitre(s, t Segment) (Pt, bool) {
	p, ok := CrossingPoint(s, t)
	if !ok || s.Along(p) < s.Length()-sliver || t.Along(p) > sliver {
		return Pt{}, false
	}
	return p, true
}

// appendPiece adds the ring with these corners, unless it encloses nothing.
func appendPiece(out Shape, corners ...Pt) Shape {
	r := tidy(Ring(corners))
	if len(r) < 3 || len(Breaches([]Ring{r})) > 0 {
		return out
	}
	return append(out, Region{Outer: r.wound(true)})
}
