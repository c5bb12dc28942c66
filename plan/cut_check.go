package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// hairWidth is the width of the slit along which a space is parted where no
// wall takes any of it: twice what counts as a remnant of rounding, and far
// less than what counts as a gap.
const hairWidth = 0.0004

// clearOf tells whether a line keeps clear of doors, windows, landings,
// fixtures and flights.
func (s *cutSpace) clearOf(l cutLine) bool {
	for _, leg := range l.legs() {
		box := leg.Bounds().Grow(geom.Units(s.thickness/2 + 2*probeDepth))
		for _, k := range s.keepOff {
			if k.ring.Bounds().Meets(box) && distanceTo(leg, k.ring) < k.clear-widthTolerance {
				return false
			}
		}
		for _, body := range s.bodies {
			if body.Bounds().Meets(box) && runsThrough(leg, body) {
				return false
			}
		}
	}
	return true
}

// distanceTo is the distance in metres between a segment and an area; 0 where
// they have more in common than a border.
func distanceTo(s geom.Segment, ring geom.Ring) float64 {
	if len(ring) == 1 {
		return s.DistanceTo(ring[0])
	}
	if runsThrough(s, geom.Region{Outer: ring}) {
		return -1
	}
	best := math.Inf(1)
	for _, e := range ring.Edges() {
		best = min(best, apart(s, e))
	}
	return best
}

// apart is the distance between two segments in metres.
func apart(s, t geom.Segment) float64 {
	if geom.Meet(s, t) != geom.Apart {
		return 0
	}
	return min(s.DistanceTo(t.A), s.DistanceTo(t.B), t.DistanceTo(s.A), t.DistanceTo(s.B))
}

// runsThrough tells whether a segment runs inside a region and not just along
// its border.
func runsThrough(s geom.Segment, region geom.Region) bool {
	for _, c := range along(s).cut(region) {
		c = c.overlap(span{0, s.Length()})
		if c.length() > geom.Coincide && region.DistanceToBorder(s.At(c.mid())) > geom.Coincide/2 {
			return true
		}
	}
	return false
}

// sideOf gives what lies on the left of a line from border to border of a
// region; false where the line does not part the region, because it ends at a
// hole.
func sideOf(region geom.Region, line []geom.Pt) (geom.Region, bool) {
	from, to := line[0], line[len(line)-1]
	outer := region.Outer
	i, a := onRing(outer, from)
	j, z := onRing(outer, to)
	if i < 0 || j < 0 {
		return geom.Region{}, false
	}
	// Counter-clockwise from the line's end back to its start.
	ring := geom.Ring(append([]geom.Pt{}, line...))
	n := len(outer)
	steps := (i - j + n) % n
	if i == j && a < z {
		steps = n
	}
	for k := range steps {
		ring = append(ring, outer[(j+1+k)%n])
	}
	side := geom.Region{Outer: ring.WithoutRepeats()}
	for _, h := range region.Holes {
		if side.Contains(h[0]) == geom.Inside {
			side.Holes = append(side.Holes, h)
		}
	}
	return side, len(side.Outer) >= 3
}

// onRing finds the edge of a ring that a point lies on, and how far along it.
func onRing(ring geom.Ring, p geom.Pt) (edge int, at float64) {
	edge = -1
	best := geom.Coincide
	for i, e := range ring.Edges() {
		if d := e.DistanceTo(p); d < best-1e-6 {
			edge, at, best = i, e.Along(p), d
		}
	}
	return edge, at
}

// lengthIn is how many metres of a mark lie in a region; a point counts as
// many as it needs.
func (m *cutMark) lengthIn(region geom.Region) float64 {
	sum := 0.0
	for _, r := range m.runs {
		if r.A == r.B {
			if region.Contains(r.A) == geom.Inside {
				sum += 1
			}
			continue
		}
		for _, c := range along(r).cut(region) {
			sum += max(0, c.overlap(span{0, r.Length()}).length())
		}
	}
	return sum
}

// length is how many metres the mark has in all.
func (m *cutMark) length() float64 {
	sum := 0.0
	for _, r := range m.runs {
		if r.A == r.B {
			sum++
		}
		sum += r.Length()
	}
	return sum
}

// pieces gives what is left of the space beside lines of a thickness.
func (s *cutSpace) pieces(thickness float64, lines ...cutLine) (geom.Shape, error) {
	var slits []geom.Shape
	for _, l := range lines {
		slits = append(slits, slitAlong(s.region, l.points, thickness))
	}
	return slitted(s.region, slits)
}

// parted gives the pieces that lines make of the space with the wall's
// thickness; false where the lines alone would make another number of them, as
// where a wall's corner closes a gap that its line leaves.
func (s *cutSpace) parted(lines []cutLine) (geom.Shape, bool) {
	pieces, err := s.pieces(s.thickness, lines...)
	if err != nil || s.thickness == 0 {
		return pieces, err == nil
	}
	alone, err := s.pieces(0, lines...)
	return pieces, err == nil && len(alone) == len(pieces)
}

func slitted(region geom.Region, slits []geom.Shape) (geom.Shape, error) {
	slit, err := geom.Union(slits...)
	if err != nil {
		return nil, err
	}
	return geom.Difference(geom.Shape{region}, slit)
}

// slitAlong is the ground that a wall along a line takes, lengthened beyond
// the borders so that the wall's end leaves nothing beside it.
func slitAlong(region geom.Region, line []geom.Pt, thickness float64) geom.Shape {
	half := max(thickness, hairWidth) / 2
	var out geom.Shape
	for i := range len(line) - 1 {
		leg := geom.Segment{A: line[i], B: line[i+1]}
		before, after := half, half
		if i == 0 {
			before = beyond(region, leg.Reverse(), half)
		}
		if i == len(line)-2 {
			after = beyond(region, leg, half)
		}
		length := leg.Length()
		out = append(out, geom.Region{Outer: geom.Ring{
			leg.Beside(-before, -half), leg.Beside(length+after, -half), leg.Beside(length+after, half), leg.Beside(-before, half),
		}})
	}
	return out
}

// endSlack is how far a strip goes on past a border: more than the end of its
// line may lie short of it.
const endSlack = 0.001

// beyond is how far a strip of a half width has to go on past the end of a
// leg to cross the border there with its whole width; half where it ends away
// from the border.
func beyond(region geom.Region, leg geom.Segment, half float64) float64 {
	d := along(leg)
	most, ends := half, false
	for _, e := range region.Edges() {
		if e.DistanceTo(leg.B) > geom.Coincide {
			continue
		}
		if !ends {
			most, ends = endSlack, true
		}
		f := along(e)
		sine, cosine := math.Abs(d.dx*f.dy-d.dy*f.dx), math.Abs(d.dx*f.dx+d.dy*f.dy)
		if sine > 0.3 {
			most = max(most, endSlack+half*cosine/sine)
		}
	}
	return most
}

// usable tells whether every piece that lines make of the space can be used:
// it is large and wide enough, has two ways, those in its walls that a new
// doorway can make counted (outdoors one), its ways are joined by a way of the
// clear width, no open boundary is left too narrow to pass, where cars stand
// each piece takes one and is reached by one, in a garage by a door of its own,
// and of a living room one piece still is one.
func (s *cutSpace) usable(pieces geom.Shape, lines []cutLine) bool {
	least := leastPieceM2
	switch {
	case s.forCars():
		least = stallWidth * stallDepth
	case s.cell.Outdoor:
		least = leastGroundM2
	}
	living := !s.cell.is(Living) && !s.cell.is(Family) || !livable(s.region)
	for _, piece := range pieces {
		if piece.AreaM2() < least-widthTolerance {
			return false
		}
		if !piece.HoldsDisc(s.clear/2 - widthTolerance) {
			return false
		}
		var ways []geom.Pt
		doorways := 0
		for i := range s.marks {
			m := &s.marks[i]
			in := m.lengthIn(piece)
			switch {
			case m.kind == markNeighbour:
				if in >= m.least-widthTolerance {
					doorways++
				}
			case m.kind != markWay || in < geom.Coincide:
			case m.zone == nil && in < min(m.least, m.length())-widthTolerance:
				return false
			case m.zone == nil:
				ways = append(ways, m.runs[0].Mid())
			default:
				ways = append(ways, m.base.Beside(m.base.Length()/2, approachDepth/2))
			}
		}
		if s.cell.Outdoor && len(ways) == 0 || !s.cell.Outdoor && len(ways)+doorways < 2 {
			return false
		}
		if !s.joined(piece, ways, lines) {
			return false
		}
		living = living || livable(piece)
		if s.cell.Use == Garage && !s.takesCar(piece) || s.forCars() && !s.reachedByCar(piece) {
			return false
		}
	}
	return living
}

// takesCar tells whether a piece of a garage has a door for a car of its own
// and the depth of a stall behind it.
func (s *cutSpace) takesCar(piece geom.Region) bool {
	for i := range s.marks {
		m := &s.marks[i]
		if m.kind != markWay || m.zone == nil || m.lengthIn(piece) < m.least || !s.b.overhead(m.of) {
			continue
		}
		for _, c := range across(m.base, m.base.Length()/2).cut(piece) {
			if c.from < thickest && c.to-max(c.from, 0) >= stallDepth-widthTolerance {
				return true
			}
		}
	}
	return false
}

// forCars tells whether cars stand in the space.
func (s *cutSpace) forCars() bool {
	return slices.Contains([]Use{Garage, Carport, Drive, Parking}, s.cell.Use)
}

// reachedByCar tells whether a car gets from a piece to where it gets from the
// whole space: to the public way, or else to a drive.
func (s *cutSpace) reachedByCar(piece geom.Region) bool {
	best := noCars
	for i := range s.marks {
		best = max(best, s.marks[i].cars)
	}
	for i := range s.marks {
		if m := &s.marks[i]; m.cars == best && m.lengthIn(piece) >= carWay-widthTolerance {
			return true
		}
	}
	return best == noCars
}
