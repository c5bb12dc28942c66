package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// A built-in closet in a room that people live in, in metres.
const (
	// closetWall is a stud partition with a board on either side (common
	// practice, no source); doors hang in the one in front.
	closetWall = 0.12
	// closetHigh reaches the ceiling: no window is behind it.
	closetHigh = 2.10
	// closetWay is the way that a closet leaves past it in a hall: the least
	// clear way of a dwelling (partition's, where a rule set is silent).
	closetWay = 0.86
)

// buildsClosets tells whether machines stand in a closet of their own in
// rooms of this use: those that people live in and pass through.
func buildsClosets(u Use) bool {
	return slices.Contains([]Use{Living, Family, Dining, Office, Hall, Entry}, u)
}

// buildsClosets tells whether that holds for the room with a set of functions.
func (r *fitRoom) buildsClosets(set functionSet) bool {
	use := r.b.Cells[r.cell].Use
	return set.has(HasLiving) || set.has(HasBedroom) || buildsClosets(use) && !r.b.replacesUse(r.cell, set)
}

// inCloset builds a closet around bodies that stand side by side, wide
// together: a partition at each end and doors in front. The bodies are as deep
// as the deepest, since they share the front.
func inCloset(bodies []part, wide float64) (parts []part, outside float64) {
	deep := 0.0
	for _, b := range bodies {
		deep = max(deep, b.off.to)
	}
	for _, b := range bodies {
		if b.role != aBody {
			continue
		}
		if b.drawn == [2]span{} {
			b.drawn = [2]span{b.x, b.off}
		}
		first, last := b.x.from <= fitTolerance, b.x.to >= wide-fitTolerance
		b.drawn[0] = span{b.drawn[0].from + closetWall, b.drawn[0].to + closetWall}
		b.x = span{b.x.from + closetWall, b.x.to + closetWall}
		if first {
			b.x.from = 0
		}
		if last {
			b.x.to += closetWall
		}
		b.off, b.high, b.closet = span{0, deep + closetWall}, closetHigh, true
		parts = append(parts, b)
	}
	return parts, wide + 2*closetWall
}

// inClosets gives the options of bodies in a closet of their own.
func (r *fitRoom) inClosets(bodies []part, wide, front float64, variant int, done []placed) []placed {
	parts, outside := inCloset(bodies, wide)
	return r.before(parts, outside, front, variant, done)
}

// laundryClosetWant is laundryWant in a closet.
var laundryClosetWant = want{"washer and dryer in a closet", func(r *fitRoom, done []placed) []placed {
	out := r.inClosets(sideBySide(), machinesWide, laundryFront, 0, done)
	// The bay of the tower is the inside of its closet.
	one := tower()[0]
	one.drawn = [2]span{{(towerBay - towerWide) / 2, (towerBay + towerWide) / 2}, one.off}
	one.x = span{0, towerBay}
	stacked := r.inClosets([]part{one}, towerBay, laundryFront, 1, done)
	for i := range stacked {
		stacked[i].stacked = true
	}
	return r.nearestDrainFirst(append(out, stacked...))
}}

// closetWant places a piece of plant in a closet.
func closetWant(p piece) want {
	return want{p.use + " in a closet", func(r *fitRoom, done []placed) []placed {
		body := p.bodies()[0]
		return r.nearestDrainFirst(r.inClosets([]part{body}, p.wide, p.front, 0, done))
	}}
}

// leavesRoom tells whether the closets of an arrangement leave a room what it
// is used for with a set of functions: a living space livingMinM2 and
// livingMinWidth, another room that people stay in bedroomMinM2 and
// bedroomMinWidth. Of a way its width counts, see leastWayIn.
func (r *fitRoom) leavesRoom(a arrangement, set functionSet) bool {
	use := r.b.Cells[r.cell].Use
	switch {
	case set.has(HasLiving):
		return r.leaves(a.closetPatches(), livingMinM2, livingMinWidth)
	case set.has(HasBedroom) || use == Dining || use == Office:
		return r.leaves(a.closetPatches(), bedroomMinM2, bedroomMinWidth)
	}
	return true
}

// closetPatches gives what closets take of the floor.
func (a arrangement) closetPatches() []patch {
	var out []patch
	for i := range a.placed {
		for _, q := range a.placed[i].all() {
			if q.closet {
				out = append(out, q.patch)
			}
		}
	}
	return out
}

// BuiltCloset is a closet built around machines in a room that people live in
// or pass through, or a bathroom built into one.
type BuiltCloset struct {
	Region geom.Region    // to the outside of its partitions
	Ends   [2]geom.Region // the partitions at its ends, off the wall
	Front  []geom.Region  // of a bathroom: the partitions beside its door
	// Doors are folding doors between the ends, over the whole front; of a
	// bathroom the doorway, hinged at A, opening outwards.
	Doors     geom.Segment
	Thickness float64 // of the partitions, in metres
}

// closets gives the closets that an arrangement builds.
func (r *fitRoom) closets(a arrangement) []BuiltCloset {
	var out []BuiltCloset
	for i := range a.placed {
		p := &a.placed[i]
		x, deep, door := span{math.Inf(1), math.Inf(-1)}, 0.0, span{}
		for _, q := range p.parts {
			if q.closet && !p.reserved {
				door = q.door
				x, deep = span{min(x.from, q.x.from), max(x.to, q.x.to)}, q.off.to
			}
		}
		if deep == 0 {
			continue
		}
		run := &r.runs[p.run]
		wall := func(from, to, off float64) geom.Region {
			return r.frame.region(run.rect(span{p.at + from, p.at + to}, span{off, deep}))
		}
		inside := span{x.from + closetWall, x.to - closetWall}
		c := BuiltCloset{
			Region: wall(x.from, x.to, 0), Thickness: closetWall,
			Ends: [2]geom.Region{wall(x.from, inside.from, 0), wall(inside.to, x.to, 0)},
		}
		opening := inside
		if door.length() > 0 {
			opening = door
			for _, s := range [...]span{{inside.from, door.from}, {door.to, inside.to}} {
				if s.length() > fitTolerance {
					c.Front = append(c.Front, wall(s.from, s.to, deep-closetWall))
				}
			}
		}
		front := run.rect(span{p.at + opening.from, p.at + opening.to}, span{deep - closetWall/2, deep})
		c.Doors = geom.Segment{A: r.frame.out(front[0]), B: r.frame.out(front[1])}
		out = append(out, c)
	}
	return out
}
