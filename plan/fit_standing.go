package plan

import (
	"math"

	"moiety/geom"
)

// inWall is how far into the room the middle of a pipe may lie and still be in
// its wall or boxed in against it, in metres.
const inWall = 0.05

// usualWorktop is the depth of a worktop of which only the sink or the range
// was surveyed: 24 in (appliance-footprints, base cabinet; from memory).
const usualWorktop = 24 * inch

// worktopEnd is how far a worktop goes on beyond the last fixture on it at
// least: 12 in beside a range (nkba-counter; from memory).
const worktopEnd = 12 * inch

// addStanding adds the fixtures that stand in the room, with the clear space
// before them, and the worktops between those of a kitchen.
func (r *fitRoom) addStanding() {
	var counter []*standing
	for i := range r.b.House.Fixtures {
		if r.b.FixtureCell[i] != r.cell {
			continue
		}
		s, ok := r.stands(i)
		if !ok {
			continue
		}
		use := r.b.House.Fixtures[i].Use
		r.obstacles = append(r.obstacles, obstacle{kind: isStanding, patch: s.body, fixture: i, use: use})
		if wide, front, ok := serviceSpace(use, s.run.length); ok {
			mid := s.run.length / 2
			r.obstacles = append(r.obstacles, obstacle{
				kind: isService, fixture: i, use: use,
				patch: s.run.rect(span{mid - wide/2, mid + wide/2}, span{s.deep, s.deep + front}),
			})
		}
		if onWorktop(use) && r.cellIs(Kitchen) {
			counter = append(counter, &s)
		}
	}
	r.addWorktops(counter)
}

func (r *fitRoom) cellIs(u Use) bool { return r.b.Cells[r.cell].is(u) }

func onWorktop(use string) bool {
	return use == "sink" || use == "range" || use == "dishwasher" || use == "refrigerator"
}

// standing is a fixture as a rectangle with its back to a wall: run is its back.
type standing struct {
	body patch
	run  wallRun
	deep float64
	side int // of the room, nearest to its back
}

// stands gives the place of a fixture in the room; ok is false where it lies
// in the wall.
func (r *fitRoom) stands(i int) (standing, bool) {
	f := &r.b.House.Fixtures[i]
	width, depth := NominalSize(f.Use)
	if f.Footprint == nil {
		at := r.frame.in(f.At)
		side, off := r.nearestSide(at)
		inside := r.b.Cells[r.cell].Region.Contains(f.At) == geom.Inside
		if !inside && f.Use != "electrical_panel" || off < inWall && (f.Use == "drain_stack" || f.Use == "water_entry") {
			return standing{}, false
		}
		s := &r.sides[side]
		x := min(max(at.sub(s.a).dot(s.dir), width/2), max(width/2, s.length-width/2))
		gap := 0.0
		if free := off - depth/2; free > depth/2 {
			gap = free
		}
		run := wallRun{a: s.a.add(s.dir.times(x - width/2)).add(s.in.times(gap)), dir: s.dir, in: s.in, length: width}
		return standing{body: run.rect(span{0, width}, span{0, depth}), run: run, deep: depth, side: side}, true
	}
	var corners []spot
	for _, p := range f.Footprint.Outer {
		corners = append(corners, r.frame.in(p))
	}
	body := hull(corners)
	if len(body) < 3 {
		return standing{}, false
	}
	base := body
	if len(body) != 4 {
		base = boxAround(body)
	}
	const preference = 0.10 // metres that a long side may be farther from the wall: most stand with it
	shortBack := f.Use == "wc" || f.Use == "furnace"
	best := standing{body: body}
	least := math.Inf(1)
	for k, a := range base {
		b, c := base[(k+1)%4], base[(k+2)%4]
		side, off := r.nearestSide(a.mid(b))
		if (a.to(b) < b.to(c)-geom.Coincide) != shortBack {
			off += preference
		}
		if off < least-fitTolerance {
			least = off
			dir := a.towards(b)
			best.run = wallRun{a: a, dir: dir, in: dir.left(), length: a.to(b)}
			best.deep, best.side = b.to(c), side
		}
	}
	return best, true
}

// boxAround is the rectangle around a patch along its longest side.
func boxAround(p patch) patch {
	var base wallRun
	for i, a := range p {
		if b := p[(i+1)%len(p)]; a.to(b) > base.length+fitTolerance {
			dir := a.towards(b)
			base = wallRun{a: a, dir: dir, in: dir.left(), length: a.to(b)}
		}
	}
	at, off := span{math.Inf(1), math.Inf(-1)}, span{0, 0}
	for _, q := range p {
		x, y := q.sub(base.a).dot(base.dir), q.sub(base.a).dot(base.in)
		at, off = span{min(at.from, x), max(at.to, x)}, span{min(off.from, y), max(off.to, y)}
	}
	return base.rect(at, off)
}

func (r *fitRoom) nearestSide(p spot) (side int, off float64) {
	off = math.Inf(1)
	for i, s := range r.sides {
		if d := p.off(s.a, s.b); d < off-fitTolerance {
			side, off = i, d
		}
	}
	return side, off
}

// addWorktops fills the wall between the fixtures of a kitchen: surveys show
// what stands on or in a worktop, not the worktop.
func (r *fitRoom) addWorktops(counter []*standing) {
	along := make([]span, len(r.sides))
	for i := range along {
		along[i] = span{math.Inf(1), math.Inf(-1)}
	}
	for _, s := range counter {
		side := &r.sides[s.side]
		x, y := s.run.a.sub(side.a).dot(side.dir), s.run.a.add(s.run.dir.times(s.run.length)).sub(side.a).dot(side.dir)
		at := &along[s.side]
		at.from, at.to = min(at.from, x, y), max(at.to, x, y)
	}
	for i := range r.sides {
		s := &r.sides[i]
		at := along[i]
		if at.from > at.to {
			continue
		}
		at = span{at.from - worktopEnd, at.to + worktopEnd}.overlap(span{0, s.length})
		// A kitchen that turns a corner has its worktop through the corner.
		if n := along[s.next]; n.from <= n.to && r.sides[s.next].corner && n.from < s.length/2 {
			at.to = s.length
		}
		if p := along[s.prev]; p.from <= p.to && s.corner && p.to > r.sides[s.prev].length/2 {
			at.from = 0
		}
		for _, run := range r.runs {
			if run.side != i {
				continue
			}
			from := run.a.sub(s.a).dot(s.dir)
			if on := at.overlap(span{from, from + run.length}); on.length() > fitTolerance {
				r.obstacles = append(r.obstacles, obstacle{kind: isStanding, patch: s.rect(on, span{0, usualWorktop}), fixture: -1, use: "worktop"})
			}
		}
	}
}
