package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// doorPlace is where a new door may stand in a wall, and how it opens.
type doorPlace struct {
	line       geom.Segment
	hingeAtEnd bool
	hindrances int // how much is in its way on either side, see doorHindrance
	corner     float64
	order      [3]float64 // in a room's own coordinates: what decides between equals
}

// mostDoorPlaces is how many places of a new door are thought of.
const mostDoorPlaces = 6

// doorHindrance weighs what a new door has in its way: what stands there
// without having been drawn with its outline, then what would be in each
// other's way in use.
var doorHindrance = map[obstacleKind]int{isStanding: 8, isSwing: 3, isService: 2, isApproach: 1}

// doorPlaces gives the places for a new door at a link, the more usable first:
// with the least in its way on either side, then in a corner, where the leaf
// opens against a wall and no furniture stands, hinged on that side. There is
// one at either end of each clear stretch and one in its middle.
func (m *model) doorPlaces(l Link) []doorPlace {
	var out []doorPlace
	into := m.opensInto(l)
	for _, s := range m.b.stretches(l, m.prices.SeparatingWall.Thickness) {
		low, high := s.from+doorwayMargin, s.to-doorwayMargin-newDoorWidth
		for _, at := range [...]float64{low, high, (low + high) / 2} {
			p := doorPlace{line: geom.Segment{A: s.run.At(at), B: s.run.At(at + newDoorWidth)}}
			p.hingeAtEnd = s.run.Length()-at-newDoorWidth < at-geom.Coincide
			p.corner = math.Min(at, s.run.Length()-at-newDoorWidth)
			m.b.judgeDoor(&p, l, into)
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b doorPlace) int {
		return cmp.Or(
			cmp.Compare(a.hindrances, b.hindrances),
			cmp.Compare(wholeMillimetres(a.corner), wholeMillimetres(b.corner)),
			compareSettled(a.order, b.order),
		)
	})
	return out[:min(len(out), mostDoorPlaces)]
}

// compareSettled compares coordinates by the centimetre: the rounding of a
// turned house decides nothing.
func compareSettled(a, b [3]float64) int {
	for i := range a {
		if c := cmp.Compare(math.Round(a[i]*100), math.Round(b[i]*100)); c != 0 {
			return c
		}
	}
	return 0
}

// judgeDoor counts what a door at a place has in its way in the rooms on both
// sides. The leaf swings into one of them, named by its space.
func (b *Building) judgeDoor(p *doorPlace, l Link, into string) {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	for k, c := range [...]int{l.U, l.V} {
		if c == Outside || b.Cells[c].Outdoor || b.Cells[c].Flight {
			continue
		}
		r := b.room(c)
		start, end := r.frame.in(p.line.A), r.frame.in(p.line.B)
		if k == 0 {
			p.order[0], p.order[1] = start.mid(end).x, start.mid(end).y
		}
		side, at, _, ok := locate(r.sides, start, end)
		if !ok {
			p.hindrances += doorHindrance[isStanding]
			continue
		}
		s := &r.sides[side]
		approach := s.rect(at, span{0, doorApproach})
		swing := approach
		if b.Cells[c].Of == into {
			hinge := start
			if p.hingeAtEnd {
				hinge = end
			}
			from, to := s.at(at.from), s.at(at.to)
			if hinge.to(from) <= hinge.to(to) {
				swing = fan(from, s.dir, s.in, at.length())
			} else {
				swing = fan(to, s.dir.times(-1), s.in, at.length())
			}
		}
		for _, o := range r.obstacles {
			if weight := doorHindrance[o.kind]; weight > 0 && (o.patch.overlaps(approach) || o.kind != isApproach && o.patch.overlaps(swing)) {
				p.hindrances += weight
			}
		}
	}
}
