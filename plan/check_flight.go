package plan

import (
	"math"

	"moiety/geom"
	"moiety/plan/rules"
)

// bendOfWalk is the turn of a walk, in degrees, from which a flight has winders
// or a landing: more than a survey's line wavers.
const bendOfWalk = 10

// flight is a flight as it is measured.
type flight struct {
	cell   int
	stair  *Stair
	rise   float64 // from floor to floor, metres
	length float64 // of the walk, on plan
	bends  bool
	feet   [2]geom.Segment // the edges at foot and head, the flight on the left
	edged  bool            // both were found
}

// measuredFlight measures a flight.
func (b *Building) measuredFlight(cell int) (flight, bool) {
	s := b.House.stair(b.Cells[cell].Of)
	if s == nil {
		return flight{}, false
	}
	f := flight{cell: cell, stair: s, rise: b.House.Levels[s.To].Floor - b.House.Levels[s.Level].Floor, length: wayLength(s.Walk)}
	for i := 2; i < len(s.Walk); i++ {
		turn := math.Abs(degreesBetween(geom.Segment{A: s.Walk[i-2], B: s.Walk[i-1]}, geom.Segment{A: s.Walk[i-1], B: s.Walk[i]}))
		f.bends = f.bends || turn > bendOfWalk
	}
	f.edged = true
	for k, head := range [...]bool{false, true} {
		edge, exit, ok := exitOf(b.Cells[cell].Region, s, head)
		wide := span{0, edge.Length()}
		if s.Width > 0 {
			wide = around(edge.Along(exit), s.Width, wide)
		}
		f.feet[k] = geom.Segment{A: edge.At(wide.from), B: edge.At(wide.to)}
		f.edged = f.edged && ok
	}
	return f, true
}

// degreesBetween is the turn from one segment to another, -180 to 180 degrees.
func degreesBetween(s, t geom.Segment) float64 {
	d, e := s.B.Sub(s.A), t.B.Sub(t.A)
	return math.Atan2(float64(d.Cross(e)), float64(d.Dot(e))) * 180 / math.Pi
}

// run is what one tread goes on, the treads being one fewer than the risers.
func (f flight) run() float64 { return f.length / float64(f.stair.Risers-1) }

// step is the rise of one riser.
func (f flight) step() float64 { return f.rise / float64(f.stair.Risers) }

// nosing is how high the line of the nosings lies above the floor at the foot,
// some way along the walk: one riser at its start, the upper floor at its end.
func (f flight) nosing(along float64) float64 {
	first := f.rise
	if f.stair.Risers > 0 {
		first = f.step()
	}
	return first + (f.rise-first)*min(max(along/f.length, 0), 1)
}

// checkFlights compares the flights of each unit and those of both.
func checkFlights(c *checking) {
	for cell := range c.b.Cells {
		owner := c.s.Owners[cell]
		if !c.b.Cells[cell].Flight || owner == Nobody || c.b.Cells[cell].Outdoor {
			continue
		}
		f, ok := c.b.measuredFlight(cell)
		if !ok || f.rise <= 0 {
			continue
		}
		a := about{subject: c.b.Cells[cell].ID}
		if owner != Common {
			a.unit = owner.String()
		}
		c.flightSteps(f, a)
		c.flightWidth(f, a, owner == Common)
		c.headroom(f, a)
		c.flightLandings(f, a)
		c.flightRails(f, a)
		b := a
		b.cure = "look whether a door leads to a space under the flight, and what lines it"
		c.unknown("under-stair-lining", "", b)
	}
	c.doorLandings()
	c.outdoorGuards()
}

// flightSteps compares rise, run and pitch, all steps being taken as alike.
func (c *checking) flightSteps(f flight, a about) {
	ids := []rules.ID{"stair-rise-least", "stair-rise-most", "stair-run-least", "stair-run-most", "stair-sum-least", "stair-sum-most", "stair-pitch"}
	if f.stair.Risers < 2 {
		a.cure = "count the risers"
		for _, id := range ids {
			c.unknown(id, "", a)
		}
		return
	}
	rise, run := f.step(), f.run()
	a.note = "steps taken as alike"
	a.cure = "a new flight, for which there may not be room: ask which stairs the authority lets stand"
	c.measured(ids[0], rise, a)
	c.measured(ids[1], rise, a)
	values := map[rules.ID]float64{
		"stair-run-least": run, "stair-run-most": run, "stair-sum-least": 2*rise + run, "stair-sum-most": 2*rise + run,
		"stair-pitch": math.Atan2(rise, run) * 180 / math.Pi,
	}
	for _, id := range ids[2:] {
		figure, ok := c.set.Get(id)
		// A landing on the way makes the treads look deeper than they are.
		if ok && f.bends && figure.Meets(values[id]) {
			b := a
			b.note = "the walk turns: landings and winders are not told apart"
			b.cure = "measure the treads where people walk, and the narrow end of winders"
			c.unknown(id, "", b)
			continue
		}
		c.measured(id, values[id], a)
	}
}

// flightWidth compares the clear width of a flight between its walls.
func (c *checking) flightWidth(f flight, a about, common bool) {
	id := rules.ID("stair-width")
	if _, ok := c.set.Get("stair-width-common"); ok && common && !c.IsSecondary() {
		id = "stair-width-common"
	}
	width, known := f.stair.Width, f.stair.Width > 0
	a.note = "as surveyed"
	if f.edged {
		if w, _, ok := geom.ClearWidth(c.lined(f.cell), f.feet[0], f.feet[1]); ok && (!known || w < width-geom.Coincide) {
			width, known = w, true
			a.note = joinNotes("between the sides of its footprint", c.s.lining(f.cell).widthNote())
		}
	}
	a.note = joinNotes(a.note, "handrails not surveyed")
	a.cure = c.orOtherSide(f.cell, "a wider flight: move a side of it, or ask whether an existing stair may stay as it is")
	rails := about{unit: a.unit, subject: a.subject, note: "handrails not surveyed", cure: "measure the width between and beside its handrails"}
	if !known {
		a.cure = "measure its width"
		c.unknown(id, "", a)
		c.unknown("stair-width-one-rail", "", rails)
		c.unknown("stair-width-two-rails", "", rails)
		return
	}
	c.measured(id, width, a)
	c.betweenRails("stair-width-one-rail", width, rails)
	c.betweenRails("stair-width-two-rails", width, rails)
}

// betweenRails compares the width beside handrails: no more than that of the
// flight, which alone can be too little.
func (c *checking) betweenRails(id rules.ID, width float64, a about) {
	switch f, ok := c.set.Get(id); {
	case !ok:
	case f.Meets(width):
		c.unknown(id, "no more than "+f.Provided(width), a)
	default:
		a.note, a.cure = "of the flight itself; less beside handrails", "a wider flight"
		c.measured(id, width, a)
	}
}

// flightLandings compares the free floor before the foot and beyond the head.
func (c *checking) flightLandings(f flight, a about) {
	figure, ok := c.set.Get("stair-landing")
	if !ok || !f.edged {
		return
	}
	for k, name := range [...]string{"foot", "head"} {
		level := [2]int{f.stair.Level, f.stair.To}[k]
		b := a
		b.note = "at its " + name + ", as wide as the flight"
		b.cure = "move what stands in the way at its " + name
		deep, found := c.freeDepth(f.feet[k].Reverse(), level, func(cell int) bool {
			room := &c.b.Cells[cell]
			return !room.Flight && (room.Level == level || room.Outdoor && math.Abs(room.Floor-c.b.House.Levels[level].Floor) <= outdoorStep)
		})
		wide := f.feet[k].Length()
		switch {
		case !found:
			b.cure = "measure the floor at its " + name
			c.unknown("stair-landing", "", b)
		case c.set.Asks("stair-landing-as-wide") && deep < figure.Value() && deep >= wide-rules.LengthTolerance:
			b.note = joinNotes(b.note, "as long as the flight is wide, which is enough")
			c.judged("stair-landing", true, figure.Provided(deep), b)
		default:
			c.measured("stair-landing", deep, b)
		}
	}
}

// doorLandings measures the ground before new doors to the outdoors, on which
// their landing and steps are to be built.
func (c *checking) doorLandings() {
	for _, p := range c.s.Passages {
		cell := c.b.CellNamed(p.Between[0])
		if p.State != New || p.Entry == "" || cell < 0 {
			continue
		}
		edge := p.Line
		if c.b.Cells[cell].Region.Contains(edge.Beside(edge.Length()/2, thickest/2)) == geom.Inside {
			edge = edge.Reverse()
		}
		a := about{unit: p.Entry, subject: p.Of, note: "ground before the new door, for its landing and steps", cure: "measure the ground before the door"}
		if len(p.Entry) > 1 {
			a.unit = ""
		}
		deep, found := c.freeDepth(edge, p.Level, func(cell int) bool { return c.b.Cells[cell].Outdoor })
		if !found {
			c.unknown("stair-landing", "", a)
			continue
		}
		a.cure = "another place for the door"
		c.measured("stair-landing", deep, a)
	}
}

// farthestFloor is as far as a landing is measured, in metres.
const farthestFloor = 3.0

// freeDepth is how far the floor of a level goes on to the left of an edge,
// over its whole width, past openings and open boundaries but not past walls
// and fixtures; found is false where none begins there.
func (c *checking) freeDepth(edge geom.Segment, level int, on func(cell int) bool) (deep float64, found bool) {
	const rays, margin = 9, 0.03 // metres in from the ends, so that a wall's plaster is no obstacle
	deep = farthestFloor
	for i := range rays {
		at := margin + (edge.Length()-2*margin)*float64(i)/(rays-1)
		r := across(edge, at)
		var free, bodies []span
		for cell := range c.b.Cells {
			if on(cell) {
				free = append(free, r.cut(c.b.Cells[cell].Region)...)
			}
		}
		for k := range c.s.Fixtures {
			if body := &c.s.Fixtures[k]; body.State != Removed && body.Footprint != nil && body.Level == level {
				bodies = append(bodies, r.cut(*body.Footprint)...)
			}
		}
		reach := 0.0
		for _, s := range without(joined(free, 2*geom.Coincide), bodies) {
			if s.from <= stairReach && s.to > geom.Coincide {
				reach = s.to - max(s.from, 0)
				found = true
				break
			}
		}
		deep = min(deep, reach)
	}
	return deep, found && deep > 0
}

// headroom compares the height over the line of the nosings: below the edge of
// whatever floor or flight lies over the flight, and below the ceiling at its head.
func (c *checking) headroom(f flight, a about) {
	if _, ok := c.set.Get("stair-headroom"); !ok {
		return
	}
	height, under, ok := c.b.headroom(f)
	if !ok {
		a.cure = "measure the height over the nosings"
		c.unknown("stair-headroom", "", a)
		return
	}
	if height < leastUsed {
		// People use the flight, so the survey's outlines are not to be trusted here.
		a.note = "as surveyed, " + under + " lies in the way of the flight"
		a.cure = "measure the height over the nosings, and where the floor over the flight ends"
		c.unknown("stair-headroom", "", a)
		return
	}
	height -= c.s.lining(f.cell).CeilingM
	a.note = joinNotes("under "+under, c.s.lining(f.cell).heightNote())
	if f.stair.Risers < 2 {
		a.note = joinNotes(a.note, "the risers not having been counted, from the upper floor's height")
	}
	a.cure = "cut back the floor over the flight, which an engineer decides, or lower the flight"
	c.measured("stair-headroom", height, a)
	if c.IsSecondary() {
		c.unknown("stair-headroom-under-beams", "", about{unit: a.unit, subject: a.subject, note: "beams and ducts over the flight were not surveyed", cure: "measure under each of them"})
	}
}

// leastUsed is the headroom, in metres, under which nobody would use a flight
// (common practice, no source).
const leastUsed = 1.2

// waist is how far the underside of a flight lies below the line of its
// nosings, upright (common practice for timber flights, no source).
const waist = 0.30

// headroom gives the least height over the line of the nosings, and what it is
// under. What lies over a flight are floors of other levels, with the ceilings
// below them as their undersides; other flights; and, where it is open above,
// the ceilings of the rooms of the upper level that it is open to, beside it
// and at its head.
func (b *Building) headroom(f flight) (height float64, under string, ok bool) {
	foot, head := b.House.Levels[f.stair.Level], b.House.Levels[f.stair.To]
	height = math.Inf(1)
	lower := func(h float64, what string) {
		if h < height {
			height, under = h, what
		}
	}
	for _, c := range b.openTo(f) {
		room := &b.Cells[c.cell]
		if room.Floor < foot.Floor+f.rise/2 {
			continue // at its foot
		}
		lower(room.Ceiling-foot.Floor-f.nosing(c.along), "the ceiling of "+room.ID)
	}
	if math.IsInf(height, 1) {
		if head.Height <= 0 {
			return 0, "", false
		}
		height, under = head.Height, "the ceiling at its head"
	}
	region := geom.Shape{b.Cells[f.cell].Region}
	for i := range b.Cells {
		over := &b.Cells[i]
		if i == f.cell || over.Outdoor || b.House.Levels[over.Level].Floor <= foot.Floor+f.step0() || over.Floor <= foot.Floor+f.step0() {
			continue
		}
		both, err := geom.Intersection(region, geom.Shape{over.Region})
		if err != nil || both.AreaM2() < geom.NarrowestContact*f.length {
			continue
		}
		for _, part := range both {
			for _, p := range part.Outer {
				along := alongWalk(f.stair.Walk, p)
				low := b.underside(f, over)
				if over.Flight {
					g, ok := b.measuredFlight(i)
					if !ok {
						continue
					}
					low = over.Floor + g.nosing(alongWalk(g.stair.Walk, p)) - waist
				} else if along > f.length-geom.Coincide && b.House.Levels[over.Level].Floor <= head.Floor+geom.Coincide {
					continue // the floor that it arrives at
				}
				lower(low-foot.Floor-f.nosing(along), over.ID)
			}
		}
	}
	return height, under, height > -f.rise
}

// openRoom is a room that a flight is open to, and how far along the walk the
// last of their common edge lies.
type openRoom struct {
	cell  int
	along float64
}

// openTo lists the rooms that a flight is open to at its ends and sides.
func (b *Building) openTo(f flight) []openRoom {
	var out []openRoom
	for _, l := range b.Links {
		if l.Kind != LinkStair && l.Kind != LinkSide || l.V == Outside || l.U != f.cell && l.V != f.cell {
			continue
		}
		o := openRoom{cell: l.other(f.cell)}
		for _, r := range append([]geom.Segment{l.Line}, l.Runs...) {
			o.along = max(o.along, alongWalk(f.stair.Walk, r.A), alongWalk(f.stair.Walk, r.B))
		}
		if !b.Cells[o.cell].Outdoor {
			out = append(out, o)
		}
	}
	return out
}

// step0 is half a step: a floor no higher than that above the foot is the foot's own.
func (f flight) step0() float64 {
	if f.stair.Risers > 0 {
		return f.step() / 2
	}
	return geom.Coincide
}

// underside is the elevation of the underside of a floor over a flight: the
// lowest ceiling of the rooms under it that the flight is open to, else the
// ceiling of the nearest level below that has one.
func (b *Building) underside(f flight, over *Cell) float64 {
	lowest := math.Inf(1)
	for _, c := range b.openTo(f) {
		if top := b.Cells[c.cell].Ceiling; top <= over.Floor+geom.Coincide && top > over.Floor-deepestFloor {
			lowest = min(lowest, top)
		}
	}
	if !math.IsInf(lowest, 1) {
		return lowest
	}
	best, floor := math.Inf(-1), b.House.Levels[over.Level].Floor
	for i := range b.House.Levels {
		l := &b.House.Levels[i]
		if top := l.Floor + l.Height; i != over.Level && !l.Outdoor && top <= floor+geom.Coincide {
			best = max(best, top)
		}
	}
	if math.IsInf(best, -1) {
		return floor
	}
	return best
}

// alongWalk is how far along a walk the place nearest to p lies, in metres.
func alongWalk(walk []geom.Pt, p geom.Pt) float64 {
	best, at, from := math.Inf(1), 0.0, 0.0
	for i := 1; i < len(walk); i++ {
		s := geom.Segment{A: walk[i-1], B: walk[i]}
		if d := s.DistanceTo(p); d < best-1e-9 {
			best, at = d, from+min(max(s.Along(p), 0), s.Length())
		}
		from += s.Length()
	}
	return at
}
