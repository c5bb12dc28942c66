package plan

import "math"

// Clear spaces of a room's openings, in metres.
const (
	// doorApproach is kept clear on both sides of a door or cased opening over
	// its clear width (common practice, no source).
	doorApproach = 0.80
	// flightLanding is kept clear at the foot and head of a flight: 36 in
	// (IRC R311.7.6, from memory).
	flightLanding = 0.914
	// beforePane is how far in front of a window nothing stands that is taller
	// than its sill (common practice, no source).
	beforePane = 0.30
	// wallToCome is kept clear along an open boundary besides its approach:
	// half of a separating wall that may be built there.
	wallToCome = 0.10
)

// obstacleKind says what an obstacle is.
type obstacleKind uint8

const (
	isApproach obstacleKind = iota // before a door, an opening, a flight: nothing stands there
	isSwing                        // of a door's leaf: nothing stands there
	isPane                         // before a window: nothing stands there that is taller than the sill
	isStanding                     // a fixture that stays: it is not free either
	isService                      // clear space of a fixture that stays
	isOpenSide                     // where a wall may come: nor does a clear space reach into it
)

// obstacle is something in the way of what is to be placed in a room.
type obstacle struct {
	kind    obstacleKind
	patch   patch
	sill    float64 // of a pane, above the room's floor
	door    *Door   // of an approach or a swing
	fixture int     // of what stands: index of the house's fixture
	use     string
}

// addOpenings adds the doors and cased openings of the room, and those of the
// rooms that are open to it.
func (r *fitRoom) addOpenings(cuts [][]span) {
	r.openings = r.openingsOf(r.cell, r.sides)
	for _, o := range r.openings {
		cuts[o.side] = append(cuts[o.side], o.at)
		r.addDoor(o, r.sides, r.cell)
	}
	for _, o := range r.obstacles {
		if o.kind == isApproach {
			r.ways = append(r.ways, wayIn{o.patch, o.door})
		}
	}
	for _, i := range r.b.linksOf(r.cell) {
		l := &r.b.Links[i]
		if l.Kind != LinkOpen || l.V == Outside {
			continue
		}
		next := l.other(r.cell)
		sides := sidesOf(r.b.Cells[next].Region, r.frame)
		for _, o := range r.openingsOf(next, sides) {
			r.addDoor(o, sides, next)
		}
	}
}

// openingsOf finds the doors and cased openings of a cell in its sides.
func (r *fitRoom) openingsOf(c int, sides []roomSide) []roomOpening {
	var out []roomOpening
	for _, i := range r.b.linksOf(c) {
		l := &r.b.Links[i]
		if l.Kind != LinkDoor && l.Kind != LinkOpening {
			continue
		}
		a, b := r.frame.in(l.Line.A), r.frame.in(l.Line.B)
		side, at, off, ok := locate(sides, a, b)
		if !ok {
			// It lies along no side: what is near it stays clear.
			if c == r.cell {
				reach := spot{doorApproach + l.Length/2, doorApproach + l.Length/2}
				lo, hi := a.mid(b).sub(reach), a.mid(b).add(reach)
				r.obstacles = append(r.obstacles, obstacle{kind: isApproach, patch: patch{lo, {hi.x, lo.y}, hi, {lo.x, hi.y}}, door: r.b.House.door(l.Of)})
			}
			continue
		}
		deep := l.Thickness
		if deep == 0 {
			deep = max(-2*off, 0)
		}
		out = append(out, roomOpening{door: r.b.House.door(l.Of), other: l.other(c), side: side, at: at, deep: deep})
	}
	return out
}

// addDoor keeps the approach and the swing of a door clear on the side of the
// cell. A leaf of which the survey does not say where it opens swings to both
// sides, but for that of a closet, which opens outwards.
func (r *fitRoom) addDoor(o roomOpening, sides []roomSide, c int) {
	s := &sides[o.side]
	d := o.door
	r.obstacles = append(r.obstacles, obstacle{kind: isApproach, patch: s.rect(o.at, span{0, doorApproach}), door: d})
	cell := &r.b.Cells[c]
	if d.Opening || d.OpensInto != "" && d.OpensInto != cell.Of || d.OpensInto == "" && reachedInto(cell.Use) {
		return
	}
	start, end := s.a.add(s.dir.times(o.at.from)), s.a.add(s.dir.times(o.at.to))
	add := func(hinge, along spot, leaf float64) {
		r.obstacles = append(r.obstacles, obstacle{kind: isSwing, patch: fan(hinge, along, s.in, leaf), door: d})
	}
	width := o.at.length()
	switch d.Leaf {
	case Double:
		add(start, s.dir, width/2)
		add(end, s.dir.times(-1), width/2)
	case Single, NoLeaf:
		hinge := d.Line.A
		if d.HingeAtEnd {
			hinge = d.Line.B
		}
		if at := r.frame.in(hinge); at.to(start) <= at.to(end) {
			add(start, s.dir, width)
		} else {
			add(end, s.dir.times(-1), width)
		}
	}
}

// reachedInto tells whether a room of the use is used from before its door.
func reachedInto(u Use) bool { return u == Closet || u == Storage || u == Pantry || u == Mechanical }

// addOpenSides keeps people's way over open boundaries clear. No wall stands
// along them, nor along the open side of a flight.
func (r *fitRoom) addOpenSides(cuts [][]span) {
	for _, i := range r.b.linksOf(r.cell) {
		l := &r.b.Links[i]
		if l.Kind != LinkOpen && l.Kind != LinkSide {
			continue
		}
		for _, run := range l.Runs {
			side, at, _, ok := locate(r.sides, r.frame.in(run.A), r.frame.in(run.B))
			if !ok {
				continue
			}
			cuts[side] = append(cuts[side], at)
			s := &r.sides[side]
			r.obstacles = append(r.obstacles, obstacle{kind: isOpenSide, patch: s.rect(at, span{0, wallToCome})})
			if l.Kind == LinkOpen {
				way := s.rect(at, span{0, doorApproach})
				r.obstacles = append(r.obstacles, obstacle{kind: isApproach, patch: way})
				r.ways = append(r.ways, wayIn{patch: way})
			}
		}
	}
}

// addFlights keeps the landing at the foot or head of a flight clear.
func (r *fitRoom) addFlights(cuts [][]span) {
	for _, i := range r.b.linksOf(r.cell) {
		l := &r.b.Links[i]
		if l.Kind != LinkStair || l.V != r.cell {
			continue
		}
		for _, run := range l.Runs {
			side, at, _, ok := locate(r.sides, r.frame.in(run.A), r.frame.in(run.B))
			if !ok {
				continue
			}
			cuts[side] = append(cuts[side], at)
			landing := r.sides[side].rect(at, span{0, flightLanding})
			r.obstacles = append(r.obstacles, obstacle{kind: isApproach, patch: landing})
			r.ways = append(r.ways, wayIn{patch: landing})
		}
	}
}

// addWindows adds the room's windows, with their sills above its own floor.
func (r *fitRoom) addWindows() {
	b := r.b
	for i := range b.House.Windows {
		w := &b.House.Windows[i]
		if b.WindowCells[i][0] != r.cell && b.WindowCells[i][1] != r.cell {
			continue
		}
		side, at, _, ok := locate(r.sides, r.frame.in(w.Line.A), r.frame.in(w.Line.B))
		if !ok {
			continue
		}
		sill := b.House.Levels[w.Level].Floor + w.Sill - b.Cells[r.cell].Floor
		r.obstacles = append(r.obstacles, obstacle{kind: isPane, patch: r.sides[side].rect(at, span{0, beforePane}), sill: sill})
	}
}

// patches gives the obstacles of a kind.
func (r *fitRoom) patches(kind obstacleKind) []patch {
	var out []patch
	for _, o := range r.obstacles {
		if o.kind == kind {
			out = append(out, o.patch)
		}
	}
	return out
}

// wetWall gives the stretches of a side with plumbing behind them: a stack, or
// a room that drains.
func (r *fitRoom) wetWall(side int, within span) []span {
	const (
		nearStack = 0.40 // metres from the wall's face: in the wall or boxed in before it
		stackBay  = 0.60 // to either side of it
	)
	s := &r.sides[side]
	var out []span
	add := func(at span) {
		at = span{at.from - within.from, at.to - within.from}.overlap(span{0, within.length()})
		if at.length() > 0 {
			out = append(out, at)
		}
	}
	for _, d := range r.stacks {
		if off := d.at.off(s.a, s.b); off <= nearStack {
			x := d.at.sub(s.a).dot(s.dir)
			add(span{x - stackBay, x + stackBay})
		}
	}
	for _, i := range r.b.linksOf(r.cell) {
		l := &r.b.Links[i]
		if l.Kind != LinkWall || !r.b.drainsToday(l.other(r.cell)) {
			continue
		}
		for _, run := range l.Runs {
			if at, where, _, ok := locate(r.sides, r.frame.in(run.A), r.frame.in(run.B)); ok && at == side {
				add(where)
			}
		}
	}
	return joined(out, 0)
}

// onWet tells whether at least half of a stretch of the run is wet.
func (r *wallRun) onWet(at span) bool {
	wet := 0.0
	for _, w := range r.wet {
		wet += math.Max(0, w.overlap(at).length())
	}
	return wet >= at.length()/2
}
