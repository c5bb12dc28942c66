package plan

import (
	"fmt"
	"slices"
)

// tagRuns writes the tags of the build-ups to the walls and floors built so.
func (s *Scheme) tagRuns() {
	for _, up := range s.BuildUps {
		for _, surface := range up.Surfaces {
			state := New
			switch surface.Work {
			case "upgrade_floor":
				for i := range s.Floors {
					if f := &s.Floors[i]; f.State == Separating && surface.Between == [2]string{f.Below, f.Above} {
						f.BuildUp = up.Tag
					}
				}
				continue
			case "upgrade_wall":
				state = Separating
			}
			for i := range s.Walls {
				if w := &s.Walls[i]; w.State == state && !w.Fence && w.Level == surface.Level && w.Between == surface.Between {
					w.BuildUp = up.Tag
				}
			}
		}
	}
}

// Lining is what the separation takes off a cell: the share of its floor that
// thicker walls stand on, how far its ceiling comes down and its floor up.
// A wall that is thinner than the one drawn gives room back: less than 0.
type Lining struct {
	Cell             int
	AreaM2           float64
	CeilingM, FloorM float64
	grows            bool    // a wall grows into it
	thickest         float64 // by so much at most, metres
}

// addLinings works out what the build-ups take off the rooms: the length of
// each surface times its growth on that side; of several ceilings of a room the
// lowest counts. Cells' polygons and the areas measured on them stay as
// surveyed and drawn; the areas after the works stand beside them, and areas,
// widths and heights are checked with the linings in place.
func (s *Scheme) addLinings() {
	by := make([]Lining, len(s.Building.Cells))
	drawn := map[[2]string]float64{}
	for _, l := range s.Building.Links {
		if l.Kind == LinkOpen && l.V != Outside {
			// Pieces of a divided space are already drawn with their new wall's thickness.
			drawn[[2]string{s.Building.Cells[l.U].ID, s.Building.Cells[l.V].ID}] = l.Thickness
		}
	}
	for _, up := range s.BuildUps {
		for _, surface := range up.Surfaces {
			first, second := s.Building.CellNamed(surface.Between[0]), s.Building.CellNamed(surface.Between[1])
			if surface.Work == "upgrade_floor" {
				by[first].CeilingM = max(by[first].CeilingM, up.Gain[1])
				by[second].FloorM = max(by[second].FloorM, up.Gain[0])
				continue
			}
			has := 0.0
			if surface.Work == "separating_wall" {
				has = drawn[surface.Between] / 2
			}
			for side, c := range [2]int{first, second} {
				by[c].AreaM2 += surface.LengthM * (up.Gain[side] - has)
				by[c].grows = by[c].grows || up.Gain[side] > has
				by[c].thickest = max(by[c].thickest, up.Gain[side]-has)
			}
		}
	}
	s.Linings = nil
	for c, l := range by {
		if l != (Lining{}) {
			l.Cell = c
			s.Linings = append(s.Linings, l)
		}
	}
	for u := range s.Units {
		sum := 0.0
		for _, l := range s.Linings {
			if slices.Contains(s.Units[u].Cells, l.Cell) && s.Building.Cells[l.Cell].Use != Garage {
				sum += l.AreaM2
			}
		}
		s.Units[u].LiningM2 = sum
	}
}

// lining is what the separation takes off a cell.
func (s *Scheme) lining(cell int) Lining {
	if i := slices.IndexFunc(s.Linings, func(l Lining) bool { return l.Cell == cell }); i >= 0 {
		return s.Linings[i]
	}
	return Lining{Cell: cell}
}

// heightNote says what the separation takes off a room's height; "" for nothing.
func (l Lining) heightNote() string {
	if l.CeilingM+l.FloorM <= 0 {
		return ""
	}
	return fmt.Sprintf("as surveyed less the %.0f mm that the separation takes", 1000*(l.CeilingM+l.FloorM))
}
