package plan

import (
	"math"
	"slices"
)

// partRole says what a part of something to be placed needs.
type partRole uint8

const (
	aBody  partRole = iota // stands there: against a wall, free of everything
	aBay                   // its own, though nothing stands there: no other body or bay
	aClear                 // floor that stays free of bodies; clear spaces may overlap
)

// part is a rectangle of something to be placed along a wall run: x is
// measured along the run from its place, off from the wall.
type part struct {
	role   partRole
	x, off span
	high   float64 // of a body: the sill of a window behind it may not be lower
	use    string  // of a body: the fixture; "" for what is not a fixture of its own
	drawn  [2]span // x and off of the fixture's own outline, where it is less than the body
	pipe   float64 // of a body that drains: the pipe it takes
	closet bool    // of a body: it is, or is part of, a closet built around what stands in it
	door   span    // of such a body: the doorway in the front, a partition; none: doors over all of the front
}

// placed is something that has its place in the room.
type placed struct {
	run      int
	at       float64 // place along the run
	parts    []placedPart
	corner   []placedPart // of a kitchen that turns a corner: its parts on the other run
	through  *Door        // that it stands behind and is used through
	beyond   patch        // clear space in the room before that door
	stacked  bool         // washer and dryer one above the other
	worktop  float64      // metres of it
	reserved bool         // stands there already, but was not drawn
	variant  int          // of several layouts, the first is the better
}

// placedPart is a part with its patch in the room.
type placedPart struct {
	part
	run   int
	patch patch
}

// all gives the parts of the thing on both runs.
func (p *placed) all() []placedPart {
	if len(p.corner) == 0 {
		return p.parts
	}
	return append(slices.Clone(p.parts), p.corner...)
}

// barKey names what bars the places along a run for parts of a kind.
type barKey struct {
	role  partRole
	off   span
	high  float64
	sides bool
}

// walls gives the stretches of the run before which a side of the room comes
// nearer than what reaches so far into it: the floor between the wall and a
// part is the room's too.
func (r *fitRoom) walls(run *wallRun, reach float64) []span {
	key := barKey{off: span{0, reach}, sides: true}
	if known, ok := run.barred[key]; ok {
		return known
	}
	out := []span{}
	for _, s := range r.sides {
		if at, ok := run.shadow(patch{s.a, s.b}, span{fitTolerance, reach - fitTolerance}); ok {
			out = append(out, at)
		}
	}
	run.barred[key] = out
	return out
}

// bars gives the stretches of the run before which an obstacle is in the way
// of a part, whatever was placed; skip is a door whose approach does not count.
func (r *fitRoom) bars(run *wallRun, p part, skip *Door) []span {
	key := barKey{p.role, p.off, p.high, false}
	if skip == nil {
		if known, ok := run.barred[key]; ok {
			return known
		}
	}
	out := []span{}
	for i := range r.obstacles {
		o := &r.obstacles[i]
		if o.door != nil && o.door == skip && o.kind == isApproach || !o.stops(p) {
			continue
		}
		if at, ok := run.shadow(o.patch, span{p.off.from + fitTolerance, p.off.to - fitTolerance}); ok {
			out = append(out, at)
		}
	}
	if skip == nil {
		run.barred[key] = out
	}
	return out
}

// stops tells whether the obstacle is one to parts of this role.
func (o *obstacle) stops(p part) bool {
	switch p.role {
	case aBody:
		return o.kind != isPane || p.high > o.sill+fitTolerance
	case aBay:
		return o.kind == isStanding
	}
	return o.kind == isStanding || o.kind == isOpenSide
}

// meets tells whether a part may not lie over one that was placed.
func (p part) meets(q part) bool {
	switch {
	case p.role == aClear:
		return q.role == aBody
	case q.role == aClear:
		return p.role == aBody
	}
	return true // bodies and bays
}

// slots gives the places along a run at which all the parts fit beside what
// was placed: exactly, since all of them are rectangles on the wall.
func (r *fitRoom) slots(run *wallRun, parts []part, done []placed, skip *Door) []span {
	within := span{math.Inf(-1), math.Inf(1)}
	var barred []span
	bar := func(x, shadow span) {
		if s := (span{shadow.from - x.to + fitTolerance, shadow.to - x.from - fitTolerance}); s.from < s.to {
			barred = append(barred, s)
		}
	}
	for _, p := range parts {
		if p.role == aBody && p.off.from == 0 {
			within = within.overlap(span{-p.x.from - fitTolerance, run.length - p.x.to + fitTolerance})
		}
	}
	if within.length() < 0 {
		return nil
	}
	for _, p := range parts {
		// No wall comes between a body and the clear space beside it.
		x := p.x
		if !slices.ContainsFunc(parts, func(q part) bool { return q.role == aBody && q.x.overlap(x).length() > fitTolerance }) {
			x = span{min(x.from, parts[0].x.from), max(x.to, parts[0].x.to)}
		}
		for _, shadow := range r.walls(run, p.off.to) {
			bar(x, shadow)
		}
		for _, shadow := range r.bars(run, p, skip) {
			bar(p.x, shadow)
		}
		for i := range done {
			for _, q := range done[i].all() {
				if !p.meets(q.part) {
					continue
				}
				if at, ok := run.shadow(q.patch, span{p.off.from + fitTolerance, p.off.to - fitTolerance}); ok {
					bar(p.x, at)
				}
			}
		}
	}
	return without([]span{within}, barred)
}

// placeStep is the grid of places along a run, from its start, on which a
// fixture is moved towards its stack: finer is not built.
const placeStep = 0.05

// places gives the places worth trying in slots: flush with what bounds them
// on either side and, of those on the step between, the one that brings the
// middle of the parts nearest to a stack.
func (r *fitRoom) places(run *wallRun, slots []span, width float64) []float64 {
	var out []float64
	add := func(at float64) {
		for _, o := range out {
			if math.Abs(o-at) < placeStep/2 {
				return
			}
		}
		out = append(out, at)
	}
	for _, s := range slots {
		low, high := s.from+fitTolerance, s.to-fitTolerance
		if low > high {
			low = (s.from + s.to) / 2
			high = low
		}
		add(low)
		add(high)
		for _, d := range r.stacks {
			at := d.at.sub(run.a).dot(run.dir) - width/2
			at = math.Round((at+settled)/placeStep) * placeStep // settled: rounding of a turned house decides nothing
			if at > low && at < high {
				add(at)
			}
		}
	}
	return out
}

// put places parts at a place of the run.
func (r *fitRoom) put(run int, at float64, parts []part) []placedPart {
	w := &r.runs[run]
	out := make([]placedPart, len(parts))
	for i, p := range parts {
		out[i] = placedPart{part: p, run: run, patch: w.rect(span{at + p.x.from, at + p.x.to}, p.off)}
	}
	return out
}

// outline is the fixture of a body, as drawn.
func (r *fitRoom) outline(p placedPart) patch {
	if p.drawn == [2]span{} {
		return p.patch
	}
	w := &r.runs[p.run]
	from := p.patch[0].sub(w.a).dot(w.dir) - p.x.from
	return w.rect(span{from + p.drawn[0].from, from + p.drawn[0].to}, p.drawn[1])
}
