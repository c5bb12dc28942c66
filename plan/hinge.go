package plan

import (
	"math"

	"moiety/plan/partition"
)

// pairOfLeaves is the width of an opening, in metres, from which a hinged door
// put into it has two leaves (common practice, no source).
const pairOfLeaves = 1.2

// mustHinge tells whether a door to the outdoors cannot be the one way out that
// each unit needs: the rule set counts side-hinged doors, and it is none.
func (p *pricing) mustHinge(l Link) bool {
	if p.set == nil || l.Kind != LinkDoor || p.b.Cells[l.U].Outdoor || l.V != Outside && !p.b.Cells[l.V].Outdoor {
		return false
	}
	f, ok := p.set.Get("exit-doors")
	d := p.b.House.door(l.Of)
	return ok && !f.Advice && f.Value() > 0 && d != nil && !sideHinged(d) && d.Leaf != Overhead
}

// hinged gives the work that puts a side-hinged door in the place of a door
// that is none; ok is false where the brief keeps it away.
func (p *pricing) hinged(l Link) (work Work, ok bool) {
	if !p.mustHinge(l) || p.left(l.Of) || p.left(l.Marks...) || p.leftCells(l) {
		return Work{}, false
	}
	work = p.work("new_entry", l, 0, 0, 1)
	work.Cost = cents(p.prices.NewEntry.InPlace)
	work.Note = "side-hinged, in the place of the door that is there"
	return work, true
}

// hingedLink is the way in that a side-hinged door in the place of another
// makes, beside the link that the door is today; ok is false where there is none.
func (m *model) hingedLink(l Link, today partition.Link) (out partition.Link, ok bool) {
	work, ok := m.hinged(l)
	if !ok || !m.entryLink(l) {
		return partition.Link{}, false
	}
	out = partition.Link{Name: l.ID + " hinged", U: today.U, V: today.V, Door: money(work.Cost)}
	for i, unit := range m.brief.Units {
		out.Entry[i] = m.b.opensTo(l.V, unit.EntryFrom)
	}
	return out, out.Entry[UnitA] || out.Entry[UnitB]
}

// addHinged puts the side-hinged doors that a solution buys in the place of
// those that are there.
func (m *model) addHinged(out *Scheme, s *partition.Solution, link int) {
	l := m.b.Links[link]
	if l.Kind != LinkDoor || !m.bought(s, link) {
		return
	}
	work, ok := m.hinged(l)
	if !ok {
		return
	}
	out.Works = append(out.Works, work)
	for i := range out.Passages {
		p := &out.Passages[i]
		if p.Of != l.Of || p.Door == nil {
			continue
		}
		door := *p.Door
		door.Leaf, door.OpensInto = Single, m.b.Cells[l.U].Of
		if p.Line.Length() > pairOfLeaves {
			door.Leaf = Double
		}
		door.Height = math.Max(door.Height, newDoorLeaf)
		p.Door, p.State = &door, New
	}
}
