package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// markBearing notes on each wall the marks that run along it. A wall that a
// mark follows only in part bears all the same: nobody takes out half of what
// holds the house up.
func (b *builder) markBearing() error {
	for i := range b.Links {
		l := &b.Links[i]
		if len(l.Runs) == 0 || l.Kind == LinkStair || (b.outdoorEnd(l.U) && b.outdoorEnd(l.V)) {
			continue
		}
		for _, m := range b.House.Walls {
			if !b.marks(&m, l) {
				continue
			}
			l.Marks = append(l.Marks, m.ID)
			l.Bearing = l.Bearing || m.Bearing
		}
		slices.Sort(l.Marks)
	}
	return nil
}

// marks tells whether a wall mark runs along a link, on the level of either end.
func (b *builder) marks(m *WallMark, l *Link) bool {
	if m.Level != l.Level && !b.onLevel(l.U, m.Level) && (l.V == Outside || !b.onLevel(l.V, m.Level)) {
		return false
	}
	floor := b.House.Levels[m.Level].Floor
	if l.low+l.Height <= floor || l.low >= floor+max(b.House.Levels[m.Level].Height, doorShare) {
		return false
	}
	for i := range len(m.Line) - 1 {
		mark := geom.Segment{A: m.Line[i], B: m.Line[i+1]}
		for _, r := range l.Runs {
			if runsAlong(mark, r, l.Thickness) {
				return true
			}
		}
	}
	return false
}

// onLevel tells whether a cell was surveyed on a level; a flight is on two.
func (b *builder) onLevel(cell, level int) bool {
	return b.Cells[cell].Level == level || b.Cells[cell].To == level
}

// runsAlong tells whether a mark follows a wall's centre line for at least as
// far as a wall may lie off: less is another wall that meets it at a corner.
func runsAlong(mark, wall geom.Segment, thickness float64) bool {
	d, e := along(mark), along(wall)
	if math.Abs(d.dx*e.dy-d.dy*e.dx) > 0.05 {
		return false
	}
	s := span{wall.Along(mark.A), wall.Along(mark.B)}
	if s.from > s.to {
		s.from, s.to = s.to, s.from
	}
	s = s.overlap(span{0, wall.Length()})
	if s.length() <= max(offWall, 0) {
		return false
	}
	off := mark.DistanceTo(wall.At((s.from + s.to) / 2))
	return off <= thickness/2+offWall
}
