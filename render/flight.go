package render

import (
	"math"

	"moiety/geom"
	"moiety/plan"
)

// flight is one flight of stairs as a plan shows it.
type flight struct {
	stair  plan.Stair
	cell   int
	rise   float64 // metres from foot to head
	foot   bool    // the level of its foot; otherwise that of its head
	under  bool    // another flight goes on above it, or below: only part of each is seen
	upper  int     // of two such, on the flight that comes from below: the one that goes on, else -1
	mine   bool
	closed bool // at the end that is on this level

	elsewhere bool // lettered on the sheet of another part of the level
	unseen    bool // not in the part that is drawn at all
}

// going is how far apart treads are drawn where the survey gives no risers.
const going = 0.25

// cutHeight is how high above the floor a plan is cut (common practice: 1.0 to 1.5 m).
const cutHeight = 1.2

// leastGoing is the shortest going, in metres, that treads of straight legs
// may come to before the corners are taken to be wound rather than landings:
// well under the 10 in (254 mm) of US model codes and the 210 mm of others.
const leastGoing = 0.20

// borderline is how far, in metres, from the border of a flight a riser on it
// is looked for: less than shows on paper.
const borderline = 0.002

func (f *floor) gatherFlights() {
	h := f.b.House
	for i := range f.b.Cells {
		c := &f.b.Cells[i]
		if !c.Flight || c.Level != f.level && c.To != f.level {
			continue
		}
		for _, s := range h.Stairs {
			if s.ID != c.Of {
				continue
			}
			f.flights = append(f.flights, flight{
				stair: s, cell: i, upper: -1, rise: h.Levels[s.To].Floor - h.Levels[s.Level].Floor,
				foot: s.Level == f.level, mine: f.shows(i), closed: f.closedEnd(s),
			})
		}
	}
	for i := range f.flights {
		for j := range f.flights {
			a, b := &f.flights[i], &f.flights[j]
			if i != j && a.foot != b.foot && a.stair.Region.Contains(b.stair.Region.Bounds().Centre()) == geom.Inside {
				a.under = true
				if b.foot {
					a.upper = j
				}
			}
		}
	}
}

// closedEnd tells whether the scheme closes the end of a flight that is on this level.
func (f *floor) closedEnd(s plan.Stair) bool {
	if f.s == nil {
		return false
	}
	for _, p := range f.s.Passages {
		if p.Type == "stair" && p.State == plan.Sealed && p.Of == s.ID && p.Level == f.level {
			return true
		}
	}
	return false
}

// tread is a line across a flight at a distance along its walk.
type tread struct {
	a, b  geom.Pt
	along float64
}

// leg is a straight part of a walk.
type leg struct {
	line       geom.Segment
	start      float64 // along the walk
	from, to   float64 // part of it that has treads, along the leg
	turnAtHead bool
}

// treads gives the lines of the risers, from foot to head.
func (f flight) treads() []tread {
	legs, width := f.legs()
	if len(legs) == 0 {
		return nil
	}
	var straight float64
	for _, l := range legs {
		straight += max(0, l.to-l.from)
	}
	var out []tread
	risers := f.stair.Risers
	if risers > 0 && len(legs) > 1 && straight/float64(max(1, risers-len(legs))) < leastGoing {
		return f.wound(legs, width, risers)
	}
	left := risers
	for i, l := range legs {
		long := l.to - l.from
		if long <= 0 {
			continue
		}
		steps := max(1, int(math.Round(long/going)))
		if risers > 0 {
			steps = max(1, int(math.Round(long/straight*float64(risers-len(legs)))))
			if i == len(legs)-1 {
				steps = max(1, left-1)
			}
			left -= steps + 1
		}
		for k := 0; k <= steps; k++ {
			at := l.from + long*float64(k)/float64(steps)
			// The first and the last of a leg may lie on the border of the
			// flight: they are looked for just inside the leg.
			inside := min(max(at, l.from+borderline), l.to-borderline)
			if t, ok := f.across(l.line, inside, l.line.Beside(inside, 1)); ok {
				t.along = l.start + at
				out = append(out, t)
			}
		}
	}
	return out
}

// legs splits the walk into straight parts and keeps its corners free of
// treads by half the width of the flight.
func (f flight) legs() (legs []leg, width float64) {
	var line []geom.Pt
	for _, p := range f.stair.Walk {
		if n := len(line); n > 0 && line[n-1] == p {
			continue
		}
		if n := len(line); n > 1 && parallel(geom.Segment{A: line[n-2], B: line[n-1]}, geom.Segment{A: line[n-1], B: p}) {
			line[n-1] = p
			continue
		}
		line = append(line, p)
	}
	start := 0.0
	for i := 0; i+1 < len(line); i++ {
		s := geom.Segment{A: line[i], B: line[i+1]}
		legs = append(legs, leg{line: s, start: start, to: s.Length()})
		start += s.Length()
	}
	width = f.stair.Width
	if width == 0 && start > 0 {
		width = f.stair.Region.AreaM2() / start
	}
	for i := range legs {
		if i > 0 {
			legs[i].from = min(width/2, legs[i].to)
		}
		if i+1 < len(legs) {
			legs[i].to = max(legs[i].from, legs[i].to-width/2)
			legs[i].turnAtHead = true
		}
	}
	return legs, width
}

// wound spaces the risers evenly along the whole walk; at a corner they turn
// about the inner one.
func (f flight) wound(legs []leg, width float64, risers int) []tread {
	last := legs[len(legs)-1]
	whole := last.start + last.line.Length()
	var out []tread
	for k := range risers {
		at := whole * float64(k) / float64(max(1, risers-1))
		i := len(legs) - 1
		for i > 0 && legs[i].start > at {
			i--
		}
		l := legs[i]
		along := min(max(at-l.start, borderline), l.line.Length()-borderline)
		p := l.line.At(along)
		toward := l.line.Beside(along, 1)
		switch {
		case along < l.from && i > 0:
			toward = innerCorner(legs[i-1].line, l.line, width)
		case along > l.to && i+1 < len(legs):
			toward = innerCorner(l.line, legs[i+1].line, width)
		}
		if t, ok := f.across(geom.Segment{A: p, B: l.line.B}, 0, toward); ok {
			t.along = at
			out = append(out, t)
		}
	}
	return out
}

// innerCorner is the newel that a flight turns about.
func innerCorner(in, out geom.Segment, width float64) geom.Pt {
	back := in.At(in.Length() - width/2)
	return out.At(width / 2).Add(back.Sub(in.B))
}

// across is the line through a point of the walk and another one, as far as
// the flight reaches to both sides.
func (f flight) across(line geom.Segment, at float64, toward geom.Pt) (tread, bool) {
	p := line.At(at)
	if line.Length() == 0 {
		p = line.A
	}
	cut := geom.Segment{A: p, B: toward}
	if cut.A == cut.B {
		return tread{}, false
	}
	const far = 50 // metres
	ahead, behind := math.Inf(1), math.Inf(-1)
	for _, e := range f.stair.Region.Edges() {
		oa, ob := cut.Off(e.A), cut.Off(e.B)
		if (oa > 0) == (ob > 0) {
			continue
		}
		aa, ab := cut.Along(e.A), cut.Along(e.B)
		d := aa + (ab-aa)*oa/(oa-ob)
		switch {
		case d > geom.Coincide/10:
			ahead = min(ahead, d)
		case d < -geom.Coincide/10:
			behind = max(behind, d)
		}
	}
	if ahead > far {
		ahead = 0
	}
	if behind < -far {
		behind = 0
	}
	if ahead-behind < geom.Coincide {
		return tread{}, false
	}
	return tread{a: cut.At(behind), b: cut.At(ahead)}, true
}

// length of the walk.
func (f flight) length() float64 {
	sum := 0.0
	for i := 0; i+1 < len(f.stair.Walk); i++ {
		sum += f.stair.Walk[i].Distance(f.stair.Walk[i+1])
	}
	return sum
}

// nearest is how far along the walk it comes nearest to a point.
func (f flight) nearest(p geom.Pt) float64 {
	best, least, start := 0.0, math.Inf(1), 0.0
	for i := 0; i+1 < len(f.stair.Walk); i++ {
		s := geom.Segment{A: f.stair.Walk[i], B: f.stair.Walk[i+1]}
		if d := s.DistanceTo(p); d < least {
			best, least = start+min(max(s.Along(p), 0), s.Length()), d
		}
		start += s.Length()
	}
	return best
}

// on is the point of the walk at a distance from its foot.
func (f flight) on(along float64) geom.Pt {
	walk := f.stair.Walk
	for i := 0; i+1 < len(walk); i++ {
		s := geom.Segment{A: walk[i], B: walk[i+1]}
		if l := s.Length(); along <= l || i+2 == len(walk) {
			return s.At(along)
		} else {
			along -= l
		}
	}
	return walk[0]
}

// cutOf is how far along its walk a flight is cut on this level. Of two, one
// over the other, both end at the break of the upper one.
func (f *floor) cutOf(l *flight) float64 {
	if l.upper >= 0 {
		u := &f.flights[l.upper]
		return l.nearest(u.on(u.breakAt(u.length())))
	}
	return l.breakAt(l.length())
}

// breakAt is how far along the walk a plan cuts the flight; at or beyond its
// length a low flight is seen whole.
func (f flight) breakAt(length float64) float64 {
	if f.rise <= cutHeight*1.15 {
		return length
	}
	return length * cutHeight / f.rise
}

// leastGoing is the least distance between risers along the walk, in metres;
// 0 where the survey gives no risers.
func (f flight) leastGoing() float64 {
	if f.stair.Risers < 2 {
		return 0
	}
	treads := f.treads()
	least := 0.0
	for i := 0; i+1 < len(treads); i++ {
		if g := treads[i+1].along - treads[i].along; g > geom.Coincide && (least == 0 || g < least) {
			least = g
		}
	}
	return least
}
