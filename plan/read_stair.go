package plan

import "moiety/geom"

func (s *survey) readStair(f feature) {
	st := Stair{ID: f.id, Name: f.text("name"), Level: f.level}
	if st.Name == "" {
		st.Name = f.id
	}
	st.To = s.level(f.fields, "to")
	if f.level >= 0 && st.To >= 0 {
		foot, head := s.house.Levels[f.level], s.house.Levels[st.To]
		if head.Floor <= foot.Floor && !s.noFloor[f.level] && !s.noFloor[st.To] {
			f.bad(f.get("to"), "the flight leads from %s (floor at %s) to %s (floor at %s), which is not above it; level is the foot and to the head",
				quoteUnlessPlain(foot.ID), f.length(foot.Floor), quoteUnlessPlain(head.ID), f.length(head.Floor))
			st.To = -1
		}
	}
	st.Walk = f.walk()
	if risers, ok := f.number("risers", riserLimits); ok {
		st.Risers = int(risers)
	}
	st.Width, _ = f.number("width", widthLimits)
	s.readRoom(f, footprint{to: st.To, flight: true})
	if f.shape.region != nil {
		st.Region = *f.shape.region
	}
	s.house.Stairs = append(s.house.Stairs, st)
	s.nodes.stairs = append(s.nodes.stairs, f.n)
}

// walk reads the line from the foot of a flight to its head; nil where it is
// missing or wrong.
func (f feature) walk() []geom.Pt {
	n := f.get("walk")
	if n == nil {
		f.missing("walk", ", the line from its foot to its head, [[x, y], …]")
		return nil
	}
	if !f.coordinates(n, "LineString") {
		return nil
	}
	var line []geom.Pt
	for _, item := range n.items {
		x, _ := f.numberAt(item.items[0], "x", coordinateLimits)
		y, _ := f.numberAt(item.items[1], "y", coordinateLimits)
		line = append(line, geom.FromMetres(x, y))
	}
	if !f.checkLine(n, line) {
		return nil
	}
	return line
}
