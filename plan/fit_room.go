package plan

import (
	"math"

	"moiety/geom"
)

// fitRoom is a cell as something to furnish, in coordinates of its own: its
// sides, the runs of wall that fixtures can stand against, and what is in
// their way.
type fitRoom struct {
	b         *Building
	cell      int
	frame     roomFrame
	sides     []roomSide
	runs      []wallRun
	openings  []roomOpening // doors and cased openings
	obstacles []obstacle
	ways      []wayIn // where people come in
	stacks    []drain
	x, y      span // extent

	ground *walkable // lazily: where a person can stand in the room as it is
}

// wayIn is where people come into a room: the clear approach of a door, an
// opening or a flight.
type wayIn struct {
	patch patch
	door  *Door // nil where there is none
}

// roomSide is one side of a room, the room on its left.
type roomSide struct {
	a, b, dir, in spot
	length        float64
	prev, next    int
	corner        bool // the room has a corner of less than 180 degrees at a
}

// wallRun is a stretch of a side with a solid wall behind it.
type wallRun struct {
	side    int
	a       spot // its start
	dir, in spot
	length  float64
	// before and after are the lengths of the runs that meet it in a corner at
	// its start and at its end, 0 where none does; prev and next are those runs.
	before, after float64
	prev, next    int
	wet           []span // with plumbing behind: a stack, a room that drains
	barred        map[barKey][]span
}

// roomOpening is a door or cased opening as its room sees it.
type roomOpening struct {
	door  *Door
	other int
	side  int
	at    span    // along the side
	deep  float64 // from the side to the room beyond
}

// newFitRoom lays out a cell for fitting.
func newFitRoom(b *Building, c int) *fitRoom {
	r := &fitRoom{b: b, cell: c}
	region := b.Cells[c].Region
	r.frame = frameOf(straightened(region.Outer), r.marks())
	r.sides = sidesOf(region, r.frame)
	r.x, r.y = span{math.Inf(1), math.Inf(-1)}, span{math.Inf(1), math.Inf(-1)}
	for _, s := range r.sides {
		r.x = span{min(r.x.from, s.a.x), max(r.x.to, s.a.x)}
		r.y = span{min(r.y.from, s.a.y), max(r.y.to, s.a.y)}
	}
	for _, d := range b.stacksServing(c) {
		r.stacks = append(r.stacks, drain{r.frame.in(d.at), d.id})
	}
	cuts := make([][]span, len(r.sides))
	r.addOpenings(cuts)
	r.addOpenSides(cuts)
	r.addFlights(cuts)
	r.addRuns(cuts)
	r.addWindows()
	r.addStanding()
	return r
}

// marks gives what tells one corner of a symmetrical room from another.
func (r *fitRoom) marks() [][]geom.Pt {
	b := r.b
	marks := make([][]geom.Pt, 5)
	for _, i := range b.linksOf(r.cell) {
		l := &b.Links[i]
		switch l.Kind {
		case LinkDoor, LinkOpening:
			marks[0] = append(marks[0], l.Line.Mid())
		case LinkOpen, LinkStair, LinkSide:
			marks[1] = append(marks[1], l.Line.Mid())
		}
	}
	for i, w := range b.House.Windows {
		if b.WindowCells[i][0] == r.cell {
			marks[2] = append(marks[2], w.Line.Mid())
		}
	}
	for i := range b.House.Fixtures {
		if b.FixtureCell[i] == r.cell {
			marks[3] = append(marks[3], b.House.Fixtures[i].centre())
		}
	}
	for _, d := range b.stacksServing(r.cell) {
		marks[4] = append(marks[4], d.at)
	}
	return marks
}

// sidesOf gives the sides of a region in a frame.
func sidesOf(region geom.Region, f roomFrame) []roomSide {
	var out []roomSide
	mirrored := f.x.cross(f.y) < 0
	for _, ring := range region.Rings() {
		ring = straightened(ring)
		if mirrored {
			ring = ring.Reverse()
		}
		first, n := len(out), len(ring)
		for i := range ring {
			s := roomSide{a: f.in(ring[i]), b: f.in(ring[(i+1)%n])}
			s.length = s.a.to(s.b)
			s.dir = s.a.towards(s.b)
			s.in = s.dir.left()
			s.prev, s.next = first+(i+n-1)%n, first+(i+1)%n
			out = append(out, s)
		}
	}
	for i := range out {
		out[i].corner = out[out[i].prev].dir.cross(out[i].dir) > 0
	}
	return out
}

// Where the line of an opening may lie from the side that it opens, in metres
// to the inside of the room: in the thickest wall, or drawn just inside.
const (
	deepestOpening = -(thickest + offWall)
	nearestOpening = offWall
)

// locate finds the side that a line in a wall lies along, and the stretch of
// the side before it.
func locate(sides []roomSide, a, b spot) (side int, at span, off float64, ok bool) {
	side = -1
	least := math.Inf(1)
	dir, mid := a.towards(b), a.mid(b)
	for i, s := range sides {
		x, y := a.sub(s.a).dot(s.dir), b.sub(s.a).dot(s.dir)
		here := span{min(x, y), max(x, y)}
		over := here.overlap(span{0, s.length}).length()
		o := mid.sub(s.a).dot(s.in)
		if math.Abs(dir.dot(s.dir)) < 0.94 || over < 0.6*here.length() || o > nearestOpening || o < deepestOpening {
			continue // more than 20 degrees off, beside, or too far away
		}
		if d := math.Abs(o); d < least-fitTolerance {
			side, at, off, least = i, here, o, d
		}
	}
	return side, at, off, side >= 0
}

// addRuns finds the runs of wall that the cuts leave.
func (r *fitRoom) addRuns(cuts [][]span) {
	first := make([]int, len(r.sides)) // run at the start of a side, -1 none
	last := make([]int, len(r.sides))
	for i, s := range r.sides {
		first[i], last[i] = -1, -1
		for _, at := range without([]span{{0, s.length}}, cuts[i]) {
			if at.length() < leastRun {
				continue
			}
			if at.from <= fitTolerance {
				first[i] = len(r.runs)
			}
			if at.to >= s.length-fitTolerance {
				last[i] = len(r.runs)
			}
			r.runs = append(r.runs, wallRun{
				side: i, a: s.a.add(s.dir.times(at.from)), dir: s.dir, in: s.in, length: at.length(),
				prev: -1, next: -1, wet: r.wetWall(i, at), barred: map[barKey][]span{},
			})
		}
	}
	for i, s := range r.sides {
		if p := last[s.prev]; s.corner && p >= 0 && first[i] >= 0 {
			r.runs[first[i]].prev, r.runs[first[i]].before = p, r.runs[p].length
			r.runs[p].next, r.runs[p].after = first[i], r.runs[first[i]].length
		}
	}
}

// rect is the patch over a stretch of the run, from one distance off the wall to another.
func (r *wallRun) rect(at, off span) patch {
	from, to := r.a.add(r.dir.times(at.from)), r.a.add(r.dir.times(at.to))
	return patch{from.add(r.in.times(off.from)), to.add(r.in.times(off.from)), to.add(r.in.times(off.to)), from.add(r.in.times(off.to))}
}

// rect is the same on a whole side.
func (s *roomSide) rect(at, off span) patch {
	run := wallRun{a: s.a, dir: s.dir, in: s.in}
	return run.rect(at, off)
}

// shadow gives the stretch of the run before which the patch lies at some
// distance of the strip.
func (r *wallRun) shadow(p patch, strip span) (at span, ok bool) {
	at = span{math.Inf(1), math.Inf(-1)}
	add := func(x float64) { at = span{min(at.from, x), max(at.to, x)} }
	for i := range p {
		a, b := p[i].sub(r.a), p[(i+1)%len(p)].sub(r.a)
		ax, ay, bx, by := a.dot(r.dir), a.dot(r.in), b.dot(r.dir), b.dot(r.in)
		if ay >= strip.from && ay <= strip.to {
			add(ax)
		}
		for _, y := range [...]float64{strip.from, strip.to} {
			if (ay < y) != (by < y) {
				add(ax + (bx-ax)*(y-ay)/(by-ay))
			}
		}
	}
	return at, at.from <= at.to
}
