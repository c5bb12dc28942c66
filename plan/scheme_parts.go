package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/partition"
)

// parting says how a link lies to the two units.
type parting uint8

const (
	partedNot    parting = iota
	partedUnits          // between A and B
	partedCommon         // between one unit and what is common
)

// parted tells how the link's ends come to different owners.
func (s *Scheme) parted(l Link) parting {
	if l.V == Outside {
		return partedNot
	}
	a, b := s.Owners[l.U], s.Owners[l.V]
	switch {
	case a == b || a == Nobody || b == Nobody:
		return partedNot
	case a == Common || b == Common:
		return partedCommon
	}
	return partedUnits
}

// addLinkParts adds, link by link, the works of the separation and the new
// doors, and what becomes of passages, walls and floors.
func (m *model) addLinkParts(out *Scheme, s *partition.Solution, places map[int]doorPlace) {
	doors := 0
	for i, l := range m.b.Links {
		parted := out.parted(l)
		if parted != partedNot {
			out.Works = append(out.Works, m.separation(l, parted == partedCommon)...)
		}
		m.addPassage(out, l, parted)
		m.addWall(out, l, parted)
		if l.Kind == LinkFloor {
			state := Existing
			if parted != partedNot {
				state = Separating
			}
			out.Floors = append(out.Floors, FloorRun{
				Below: m.b.Cells[l.U].ID, Above: m.b.Cells[l.V].ID, Region: l.Region, State: state,
			})
		}
		if m.buys(s, i) {
			doors++
			m.addDoorway(out, l, doors, places[i])
		}
		m.addHinged(out, s, i)
	}
	m.markEntries(out, s)
}

// addPassage adds the passage that a link is today, kept or sealed.
func (m *model) addPassage(out *Scheme, l Link, parted parting) {
	if !l.Passage() {
		return
	}
	p := Passage{Of: l.Of, Between: m.between(l), State: Kept, Level: l.Level, Line: l.Line}
	if parted == partedUnits {
		p.State = Sealed
	}
	if m.b.House.opened(l.Of) {
		p.State = New
	}
	switch l.Kind {
	case LinkDoor, LinkOpening:
		p.Type = "door"
		p.Door = m.b.House.door(l.Of)
		if l.Kind == LinkOpening {
			p.Type = "opening"
		} else if l.V != Outside && m.b.Cells[l.U].Outdoor && m.b.Cells[l.V].Outdoor {
			p.Type = "gate"
		}
	case LinkOpen:
		p.Type = "open"
	case LinkStair:
		p.Type = "stair"
	}
	out.Passages = append(out.Passages, p)
}

// addWall adds the wall or fence that stands, or is built, at a link, run by run.
func (m *model) addWall(out *Scheme, l Link, parted parting) {
	w := WallRun{Between: m.between(l), Level: l.Level, Line: l.Line, Thickness: l.Thickness, Height: l.Height, State: Existing}
	outdoor := m.b.Cells[l.U].Outdoor
	switch l.Kind {
	case LinkWall:
		if parted != partedNot {
			w.State = Separating
		}
	case LinkExterior:
	case LinkOpen, LinkSide, LinkStair:
		w.Fence = outdoor
		if parted == partedNot || w.Fence && parted == partedCommon || l.V != Outside && outdoor != m.b.Cells[l.V].Outdoor {
			return
		}
		w.State = New
		if !w.Fence {
			w.Thickness = m.prices.SeparatingWall.Thickness
		}
	default:
		return
	}
	if len(l.Runs) == 0 {
		out.Walls = append(out.Walls, w)
	}
	for _, r := range l.Runs {
		w.Line = r
		out.Walls = append(out.Walls, w)
	}
}

// addDoorway adds a new door or entry.
func (m *model) addDoorway(out *Scheme, l Link, number int, at doorPlace) {
	door, work, ok := m.newDoor(l, number, at)
	if !ok {
		return
	}
	work.Of = door.ID
	out.Works = append(out.Works, work)
	out.Passages = append(out.Passages, Passage{
		Of: door.ID, Between: m.between(l), Type: "door", State: New, Level: l.Level, Line: door.Line, Door: door,
	})
}

// newDoorID is the number-th id of the form new-door-1 that no surveyed door has.
func (h *House) newDoorID(number int) string {
	for k := 1; ; k++ {
		id := fmt.Sprintf("new-door-%d", k)
		if h.door(id) != nil {
			continue
		}
		if number--; number == 0 {
			return id
		}
	}
}

// newDoor is the door in a link, the number-th new one, at a place, and its work.
func (m *model) newDoor(l Link, number int, at doorPlace) (*Door, Work, bool) {
	work, ok := m.doorway(l)
	if !ok {
		return nil, Work{}, false
	}
	work.Line = []geom.Pt{at.line.A, at.line.B}
	return &Door{
		ID: m.b.House.newDoorID(number), Level: l.Level, Line: at.line, Height: newDoorLeaf, Leaf: Single,
		HingeAtEnd: at.hingeAtEnd, OpensInto: m.opensInto(l),
	}, work, true
}

// opensInto picks the side that a new door swings to: into the house, into
// the room that people do not pass through, else into the larger one.
func (m *model) opensInto(l Link) string {
	u := &m.b.Cells[l.U]
	if l.V == Outside || m.b.Cells[l.V].Outdoor {
		return u.Of
	}
	v := &m.b.Cells[l.V]
	if u.deadEnd() != v.deadEnd() {
		if u.deadEnd() {
			return u.Of
		}
		return v.Of
	}
	if u.AreaM2 > v.AreaM2 {
		return u.Of
	}
	return v.Of
}

// between names the two sides of a link.
func (m *model) between(l Link) [2]string {
	if l.V == Outside {
		return [2]string{m.b.Cells[l.U].ID, "outside"}
	}
	return [2]string{m.b.Cells[l.U].ID, m.b.Cells[l.V].ID}
}

// door finds a door by id; nil where there is none.
func (h *House) door(id string) *Door {
	for i := range h.Doors {
		if h.Doors[i].ID == id {
			return &h.Doors[i]
		}
	}
	return nil
}

// markEntries marks the passages that are a unit's way in and lists them: the
// one that the proof rests on first.
func (m *model) markEntries(out *Scheme, s *partition.Solution) {
	for u := range out.Units {
		var main string
		if e := s.Entry[u]; e >= 0 && m.links[e] >= 0 {
			l := m.b.Links[m.links[e]]
			main = l.Of
			for i := range out.Passages {
				p := &out.Passages[i]
				if p.State == New && p.Between == m.between(l) {
					main = p.Of
				}
			}
		}
		for i := range out.Passages {
			p := &out.Passages[i]
			if p.Of != main || main == "" {
				continue
			}
			p.Entry += Owner(u).String()
			out.Units[u].Entries = append([]string{p.Of}, out.Units[u].Entries...)
		}
		for i, l := range m.links {
			if l < 0 || m.b.Links[l].Of == main || !m.problem.Links[i].Open || !m.leadsIn(m.b.Links[l], u) {
				continue
			}
			if link := m.b.Links[l]; out.Owners[link.U] == Owner(u) && (link.V == Outside || out.Owners[link.V] != Owner(1-u)) {
				out.Units[u].Entries = append(out.Units[u].Entries, link.Of)
			}
		}
	}
}

// leadsIn tells whether people may come into a unit through a link, be it its
// way in or a further door.
func (m *model) leadsIn(l Link, u int) bool {
	return m.entryLink(l) && m.b.opensTo(l.V, m.brief.Units[u].EntryFrom)
}

func (m *model) addWindows(out *Scheme) {
	for i, w := range m.b.House.Windows {
		unit, cell := Nobody.String(), ""
		if c := m.b.WindowCells[i][0]; c != Outside {
			unit, cell = out.Owners[c].String(), m.b.Cells[c].ID
		}
		state := Kept
		if slices.ContainsFunc(out.Works, func(work Work) bool { return work.Kind == "enlarge_window" && work.Of == w.ID }) {
			state = Enlarged
		}
		out.Windows = append(out.Windows, PlacedWindow{Window: w, Cell: cell, Unit: unit, State: state})
	}
	m.addNewWindows(out)
}
