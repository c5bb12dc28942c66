package plan

import (
	"cmp"
	"slices"
	"strings"
)

// SchemeTitle tells a scheme from others in one line: the levels on which
// each unit has rooms, and where both have the same, the largest rooms.
func SchemeTitle(s *Scheme) string {
	var levels [2][]string
	for i, u := range s.Units {
		levels[i] = unitLevels(s, u)
	}
	parts := make([]string, 0, 2)
	for i, u := range s.Units {
		part := unitTitle(u)
		switch {
		case len(levels[i]) == 0:
			part += " without rooms"
		case slices.Equal(levels[0], levels[1]):
			part += " with " + strings.Join(largestRooms(s, u), ", ")
		default:
			part += " on " + strings.Join(levels[i], ", ")
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "; ")
}

// unitTitle is the unit's name, or "Unit A" where the brief gave none.
func unitTitle(u Unit) string {
	if u.Name == "" || u.Name == u.ID {
		return "Unit " + u.ID
	}
	return u.Name
}

// unitLevels names the levels on which the unit has spaces indoors, from below.
func unitLevels(s *Scheme, u Unit) []string {
	b := s.Building
	on := make([]bool, len(b.House.Levels))
	for _, c := range u.Cells {
		if cell := b.Cells[c]; roomOfUnit(cell) {
			on[cell.Level] = true
		}
	}
	var names []string
	for _, l := range levelsFromBelow(b.House) {
		if on[l] {
			names = append(names, b.House.Levels[l].Name)
		}
	}
	return names
}

// roomOfUnit tells whether people live in the cell: not outdoors, not on a
// flight, not in a garage.
func roomOfUnit(c Cell) bool { return !c.Outdoor && !c.Flight && c.Use != Garage }

// levelsFromBelow gives the levels' indices by elevation, then as in the file.
func levelsFromBelow(h *House) []int {
	order := make([]int, len(h.Levels))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(h.Levels[i].Floor, h.Levels[j].Floor) })
	return order
}

// largestRooms names up to three of the unit's largest indoor spaces.
func largestRooms(s *Scheme, u Unit) []string {
	var rooms []int
	for _, c := range u.Cells {
		if cell := s.Building.Cells[c]; roomOfUnit(cell) {
			rooms = append(rooms, c)
		}
	}
	slices.SortStableFunc(rooms, func(i, j int) int {
		return cmp.Compare(s.Building.Cells[j].AreaM2, s.Building.Cells[i].AreaM2)
	})
	var names []string
	for _, c := range rooms[:min(len(rooms), 3)] {
		names = append(names, s.Building.Cells[c].Name)
	}
	return names
}
