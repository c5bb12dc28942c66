package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/plan/rules"
)

// glazedShare is the part of a window's opening that is glass, frame and sash
// taken off (common practice, no source). Estimates only.
const glazedShare = 0.8

// checkLight compares glass and what opens of it with the floor area, room by
// room. Rooms that are open to each other count as one. The survey gives the
// opening in the wall, not the glass: a room is in order where an estimate of
// the glass is enough, and is not where the whole opening is too little.
func checkLight(c *checking) {
	for _, u := range bothUnits {
		for _, group := range c.openGroups(u) {
			c.light(u, group)
		}
	}
}

// openGroups gives the rooms of a unit, those that are open to each other
// together, in the order of their first cells.
func (c *checking) openGroups(u Owner) [][]int {
	var groups [][]int
	cells := c.indoors(u)
	seen := map[int]bool{}
	for _, first := range cells {
		if seen[first] || c.b.Cells[first].Use == Garage {
			continue
		}
		seen[first] = true
		group := []int{first}
		for k := 0; k < len(group); k++ {
			for _, p := range c.s.Passages {
				if p.State != Kept || p.Type != "open" {
					continue
				}
				for side := range p.Between {
					next := c.b.CellNamed(p.Between[1-side])
					if p.Between[side] == c.b.Cells[group[k]].ID && next >= 0 && !seen[next] && slices.Contains(cells, next) {
						seen[next] = true
						group = append(group, next)
					}
				}
			}
		}
		groups = append(groups, group)
	}
	return groups
}

// windowsOf gives the windows to the outdoors of some cells.
func (c *checking) windowsOf(group []int) []*Window {
	var out []*Window
	for i := range c.b.House.Windows {
		for _, cell := range group {
			if c.b.opensOutdoors(i, cell) {
				out = append(out, &c.b.House.Windows[i])
			}
		}
	}
	for i := range c.s.Windows {
		if w := &c.s.Windows[i]; w.State == New && slices.Contains(group, c.b.CellNamed(w.Cell)) {
			out = append(out, &w.Window)
		}
	}
	return out
}

// light compares one room, or rooms open to each other.
func (c *checking) light(u Owner, group []int) {
	floor, lived, slept, washed := 0.0, false, true, false
	var ids []string
	for _, cell := range group {
		floor += c.b.Cells[cell].AreaM2
		ids = append(ids, c.b.Cells[cell].ID)
		lived = lived || c.used(cell, habitable...)
		slept = slept && c.used(cell, Bedroom)
		washed = washed || c.used(cell, Bathroom, PowderRoom)
	}
	a := about{unit: u.String(), subject: ids[0]}
	if len(ids) > 1 {
		a.note = "together with " + strings.Join(ids[1:], ", ") + ", open to it"
	}
	windows := c.windowsOf(group)
	for _, cell := range group {
		if id := c.madeLegal(cell); id != "" && c.b.hasWindow(cell, id) {
			a.enlarged = id
		}
	}
	if lived {
		id := rules.ID("glass-share")
		if _, ok := c.set.Get("glass-share-bedroom"); ok && slept {
			id = "glass-share-bedroom"
		}
		c.glass(id, windows, floor, a)
		share := rules.ID("vent-share")
		if _, ok := c.set.Get("vent-share-narrow"); ok && opensLittle(windows) {
			share = "vent-share-narrow"
		}
		c.air(share, windows, floor, c.doorArea(group), a)
		c.air("vent-area", windows, 1, c.doorArea(group), a)
	} else if washed {
		c.air("vent-area-bathroom", windows, 1, 0, a)
	}
}

// opensLittle tells whether every window that opens is one that opens little.
func opensLittle(windows []*Window) bool {
	little := false
	for _, w := range windows {
		switch w.Operation {
		case "awning", "hopper":
			little = true
		case "fixed":
		default:
			return false
		}
	}
	return little
}

// glass compares the share of glass.
func (c *checking) glass(id rules.ID, windows []*Window, floor float64, a about) {
	f, ok := c.set.Get(id)
	if !ok {
		return
	}
	a.cure = "a larger or a further window, or artificial light where the code lets it do"
	whole, known := 0.0, true
	for _, w := range windows {
		whole += w.Line.Length() * w.Height
		known = known && w.Height > 0
	}
	guess := glazedShare * whole
	switch {
	case len(windows) == 0:
		c.measured(id, 0, withNote(a, "no window to the outdoors"))
	case f.Meets(guess / floor):
		c.measured(id, guess/floor, withNote(a, fmt.Sprintf("an estimate: %.0f %% of the windows' openings taken as glass", 100*glazedShare)))
	case a.enlarged != "":
		c.unknown(id, f.Provided(whole/floor)+" today", withNote(a, "the works enlarge "+a.enlarged))
	case known && !f.Meets(whole/floor):
		c.measured(id, whole/floor, withNote(a, "the whole openings, frames included"))
	case !known:
		c.unknown(id, "", withNote(a, "a window's height was not surveyed"))
	default:
		c.unknown(id, "about "+f.Provided(guess/floor), withNote(a, fmt.Sprintf("an estimate: %.0f %% of the windows' openings taken as glass; the glass was not measured", 100*glazedShare)))
	}
}

// air compares what opens, as a share of the floor or, with floor 1, in square
// metres. doors is the area of doors to the outside, which count.
func (c *checking) air(id rules.ID, windows []*Window, floor, doors float64, a about) {
	f, ok := c.set.Get(id)
	if !ok {
		return
	}
	a.cure = "a window that opens more, or mechanical ventilation where the code lets it do"
	known, most, guess := doors, doors, doors
	estimated := false
	for _, w := range windows {
		switch {
		case w.ClearSaid:
			clear := w.Clear[0] * w.Clear[1]
			known, most, guess = known+clear, most+clear, guess+clear
		case w.Operation == "fixed":
		default:
			estimated = true
			most += w.Line.Length() * w.Height
			if w.Height == 0 {
				most = math.Inf(1)
			}
			if width, height, ok := estimatedClear(w); ok {
				guess += width * height
			}
		}
	}
	switch {
	case f.Meets(known / floor):
		c.measured(id, known/floor, a)
	case a.enlarged != "":
		c.unknown(id, f.Provided(known/floor)+" today", withNote(a, "the works enlarge "+a.enlarged))
	case !f.Meets(most/floor) && f.Quantity == rules.Area: // of a room aired by windows alone
		c.unknown(id, f.Provided(most/floor), withNote(a, "enough only with mechanical ventilation, which was not surveyed"))
	case !f.Meets(most / floor):
		if estimated {
			a = withNote(a, "the whole of every window that opens")
		}
		c.measured(id, most/floor, a)
	default:
		c.unknown(id, "about "+f.Provided(guess/floor), withNote(a, "an estimate by how the windows open; what opens was not surveyed"))
	}
}

// doorArea is the area of the doors from some cells to the outdoors.
func (c *checking) doorArea(group []int) float64 {
	area := 0.0
	for _, l := range c.b.Links {
		if l.Kind != LinkDoor || !slices.Contains(group, l.U) || !(l.V == Outside || c.b.Cells[l.V].Outdoor) {
			continue
		}
		if d := c.b.House.door(l.Of); d != nil && d.Leaf != Overhead {
			width := d.Line.Length()
			if d.Leaf == Sliding {
				width /= 2
			}
			area += width * d.Height
		}
	}
	return area
}

func withNote(a about, note string) about {
	a.note = joinNotes(a.note, note)
	return a
}
