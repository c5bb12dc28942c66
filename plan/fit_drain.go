package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// Drain branches, lengths in metres.
const (
	// drainFall is the fall of a branch: a quarter inch to the foot, 1:50
	// (IRC P3005.3, from memory).
	drainFall = 1.0 / 50
	// joistDepth is that of the floor in which a branch runs: a 2x10
	// (common practice, no source).
	joistDepth = 0.235
	// Pipes by what drains into them (common practice, no source).
	soilPipe  = 0.10 // a wc
	wastePipe = 0.05 // the rest
)

// stackPoint is where drains can go down.
type stackPoint struct {
	id string // of the stack or, where none was surveyed, of a room that drains
	at geom.Pt
	// level that it was surveyed on: a stack shows on several, and is named by
	// the one of the room that asks where it can be.
	level int
}

// drain is a stackPoint in a room's coordinates.
type drain struct {
	at spot
	id string
}

// drainReach is how far a branch runs on plan before its fall takes it, with
// its own thickness, out of the depth of the joists.
func drainReach(pipe float64) float64 { return (joistDepth - pipe) / drainFall }

// stacksServing lists where the drains of a cell can go.
//
// A stack goes down from where it was seen to the drain of the house and up
// through the roof to vent, so it serves the level that it was surveyed on and
// every level above. It passes the levels below as well, but whether a room
// there can drain into it hangs on how deep the house's drain lies: it counts
// where something that drains stands as low as the room, and otherwise not
// (a pump would be needed, which is not offered). Where no stack was surveyed,
// the rooms that drain stand for it; a survey that shows neither says nothing
// against a drain, and the result has one place for it, of no id.
func (b *Building) stacksServing(c int) []stackPoint {
	if b.fitting.stacks == nil {
		b.fitting.stacks = b.findStacks()
	}
	cell := &b.Cells[c]
	if b.fitting.stacks.low > cell.Floor+sameDrain {
		return nil
	}
	out := slices.Clone(b.fitting.stacks.points)
	slices.SortStableFunc(out, func(p, q stackPoint) int {
		switch here := cell.Level; {
		case p.level == here && q.level != here:
			return -1
		case p.level != here && q.level == here:
			return 1
		}
		return 0
	})
	return out
}

// sameDrain is how much lower than anything that drains a floor may lie and
// still drain alike, in metres: a step or two.
const sameDrain = 0.30

// stackPoints is where drains can go down in the whole house.
type stackPoints struct {
	points []stackPoint // by id
	low    float64      // floor of the lowest level with anything that drains
}

func (b *Building) findStacks() *stackPoints {
	s := &stackPoints{low: math.Inf(1)}
	for i := range b.House.Fixtures {
		f := &b.House.Fixtures[i]
		if !drainsByItself(f.Use) {
			continue
		}
		s.low = min(s.low, b.House.Levels[f.Level].Floor)
		if f.Use == "drain_stack" {
			s.points = append(s.points, stackPoint{f.ID, f.centre(), f.Level})
		}
	}
	rooms := len(s.points) == 0
	for c := range b.Cells {
		if !b.drainsToday(c) {
			continue
		}
		s.low = min(s.low, b.Cells[c].Floor)
		if rooms {
			centre, _ := geom.VisualCentre(b.Cells[c].Region)
			s.points = append(s.points, stackPoint{b.Cells[c].ID, centre, b.Cells[c].Level})
		}
	}
	if len(s.points) == 0 {
		s.low = math.Inf(-1)
	}
	slices.SortFunc(s.points, func(p, q stackPoint) int { return cmp.Compare(p.id, q.id) })
	return s
}

// drainsByItself tells whether a fixture shows that a drain is there.
func drainsByItself(use string) bool {
	switch use {
	case "drain_stack", "wc", "basin", "bath", "shower", "sink", "washer":
		return true
	}
	return false
}

// drainsToday tells whether a cell is a room that drains.
func (b *Building) drainsToday(c int) bool {
	if c == Outside || b.Cells[c].Outdoor {
		return false
	}
	cell := &b.Cells[c]
	return cell.is(Kitchen) || cell.is(Bathroom) || cell.is(PowderRoom) || cell.is(Laundry)
}

// drainsSurveyed tells whether the survey shows anything that drains.
func (b *Building) drainsSurveyed() bool {
	for i := range b.House.Fixtures {
		if drainsByItself(b.House.Fixtures[i].Use) {
			return true
		}
	}
	for c := range b.Cells {
		if b.drainsToday(c) {
			return true
		}
	}
	return false
}

// drainFrom gives the nearest stack to a fixture and the length of the branch
// on plan; ok is false where none is within reach.
func (r *fitRoom) drainFrom(p spot, pipe float64) (run float64, id string, ok bool) {
	if len(r.stacks) == 0 {
		return 0, "", !r.b.drainsSurveyed()
	}
	run = math.Inf(1)
	for _, d := range r.stacks {
		if l := p.to(d.at); l < run-fitTolerance {
			run, id = l, d.id
		}
	}
	return run, id, run <= drainReach(pipe)+fitTolerance
}
