package plan

import (
	"slices"

	"moiety/plan/partition"
)

// casedOpenings lists the links by which a room is open to other rooms without
// a door. Made a bedroom it gets doors in them; what lies open along a whole edge
// (an open plan) is no room of its own and makes no bedroom.
func (b *Building) casedOpenings(c int) (links []Link, openPlan bool) {
	for _, l := range b.Links {
		if l.V == Outside || l.U != c && l.V != c || b.Cells[l.U].Outdoor || b.Cells[l.V].Outdoor {
			continue
		}
		switch {
		case l.Kind == LinkOpening:
			links = append(links, l)
		case l.Kind == LinkOpen && b.Cells[l.U].Of != b.Cells[l.V].Of:
			openPlan = true
		}
	}
	return links, openPlan
}

// closing gives the doors that a room made a bedroom gets in its cased openings;
// ok is false where the brief keeps one of them away.
func (p *pricing) closing(c int) (works []Work, ok bool) {
	openings, _ := p.b.casedOpenings(c)
	for _, l := range openings {
		if p.left(l.Of) || p.left(l.Marks...) {
			return nil, false
		}
		w := p.work("new_door", l, 0, 0, 1)
		w.Spaces = []string{p.b.Cells[c].ID}
		w.Note = "a door in the cased opening: a bedroom closes"
		works = append(works, w)
	}
	return works, true
}

// closeBedrooms draws the doors that new bedrooms get in their cased openings,
// but for those that the separation seals.
func (m *model) closeBedrooms(out *Scheme, s *partition.Solution) {
	for u := range s.Hosts {
		for _, i := range s.Hosts[u][HasBedroom] {
			c := m.cells[i]
			if m.b.has(c, HasBedroom) {
				continue
			}
			openings, _ := m.b.casedOpenings(c)
			for k := range out.Passages {
				p := &out.Passages[k]
				if p.State != Kept || p.Door == nil || !slices.ContainsFunc(openings, func(l Link) bool { return l.Of == p.Of }) {
					continue
				}
				door := *p.Door
				door.Opening, door.Leaf, door.OpensInto = false, Single, m.b.Cells[c].Of
				if p.Line.Length() > newDoorWidth { // a leaf wider than that would sweep over the bed
					door.Leaf = Double
				}
				p.Door, p.Type, p.State = &door, "door", New
			}
		}
	}
}
