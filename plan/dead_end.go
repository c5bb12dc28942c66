package plan

import "slices"

// deadEndOrder ranks dead ends: an earlier one may lead on to a later one.
var deadEndOrder = []Use{Bedroom, Bathroom, PowderRoom, Laundry, Mechanical, Closet}

// leadsOn tells whether one end of a passage between two dead ends is reached
// through the other, and gives the end that leads on. Nobody passes through a
// dead end to reach anything but its own bathroom or closet. A laundry or
// mechanical room that today is reached through dead ends alone is taken as
// the closet of the room that it opens from: so it stands in houses that
// people live in.
//
// The order of the two ends, first by whether people reach them from a room
// that is no dead end, then by deadEndOrder, keeps chains of dead ends from
// closing in a circle.
func (b *Building) leadsOn(l Link) (from int, ok bool) {
	u, v := l.U, l.V
	if b.Cells[u].Outdoor || b.Cells[v].Outdoor {
		return Outside, false
	}
	switch deadU, deadV := b.Cells[u].deadEnd(), b.Cells[v].deadEnd(); {
	case !deadU && !deadV:
		return Outside, false
	case !deadV:
		return v, b.wouldLeadOn(v, u)
	case !deadU:
		return u, b.wouldLeadOn(u, v)
	}
	first := func(c int) int { return slices.Index(deadEndOrder, b.Cells[c].Use) }
	if first(u) < 0 || first(v) < 0 {
		return Outside, false
	}
	reachedU, reachedV := b.reachedFromRoom(u), b.reachedFromRoom(v)
	if reachedV && !reachedU || reachedU == reachedV && first(v) < first(u) {
		u, v, reachedV = v, u, reachedU
	}
	switch b.Cells[v].Use {
	case Bathroom, PowderRoom, Closet:
		return u, true
	case Laundry, Mechanical:
		return u, !reachedV
	}
	return Outside, false
}

// reachedFromRoom tells whether a passage leads to the cell from an indoor
// cell that is no dead end.
func (b *Building) reachedFromRoom(c int) bool {
	for _, l := range b.Links {
		if !l.Passage() || l.U != c && l.V != c {
			continue
		}
		far := l.other(c)
		if far != Outside && !b.Cells[far].Outdoor && !b.Cells[far].deadEnd() {
			return true
		}
	}
	return false
}

// wouldLeadOn tells whether a room that is no dead end would, made one, still
// lead on to a dead end that opens from it: a bedroom or bathroom to its own
// bathroom or closet, a laundry to its closet.
func (b *Building) wouldLeadOn(from, to int) bool {
	switch b.Cells[to].Use {
	case Closet:
		return true
	case Bathroom, PowderRoom:
		return !b.closedBy(from, HasLaundry)
	}
	return false
}
