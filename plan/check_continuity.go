package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/geom"
)

// checkContinuity lists where the separation has to go on beyond what a survey
// of rooms shows: into the roof space, under the lowest floor, at the edges of
// separating floors, and where a flight is closed off. None of it can be told
// from a survey, so each is a place to look at.
func checkContinuity(c *checking) {
	add := func(subject, place, look string) {
		c.unknown("separation-continuity", place, about{subject: subject, cure: look})
	}
	roof, below := c.wallsAtEnds()
	if len(roof) > 0 {
		add("roof space", someOf(roof),
			"open the roof space over these walls: does the separation go up to the underside of the roof, and at the eaves to its edge")
		c.unknown("separation-attic-ceiling", "", about{subject: "roof space", cure: "only where the wall stops at the ceiling: look at the ceiling's lining and at draught stops"})
	}
	if len(below) > 0 {
		add("under the lowest floor", someOf(below),
			"look under the floor at these walls: does the separation go down to the foundation, through a crawl space or between the joists")
	}
	floors := 0
	for _, f := range c.s.Floors {
		if f.State == Separating {
			floors++
		}
	}
	if floors > 0 {
		add("edges of separating floors", fmt.Sprintf("%d floors", floors),
			"open the floor at an outside wall: are the joists' ends and the wall's cavities stopped")
	}
	for _, w := range c.s.Works {
		if w.Kind == "close_stair" {
			add(w.Of, "closed off at "+w.Level, "look at the well beside and under the flight: the separation goes around all of it")
		}
	}
	c.stairShafts()
}

// someOf names the first few of a list, and counts the rest.
func someOf(names []string) string {
	const few = 3
	if len(names) <= few+1 {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
}

// wallsAtEnds lists the separating walls, by the rooms that they stand between,
// with no room of the house above them, and with none below.
func (c *checking) wallsAtEnds() (top, bottom []string) {
	for _, run := range c.s.Walls {
		if run.Fence || run.State != New && run.State != Separating {
			continue
		}
		if u := c.b.CellNamed(run.Between[0]); u < 0 || c.b.Cells[u].Outdoor {
			continue
		}
		name := run.Between[0] + " and " + run.Between[1]
		over, under := c.roomsOver(run)
		if !over && !slices.Contains(top, name) {
			top = append(top, name)
		}
		if !under && !slices.Contains(bottom, name) {
			bottom = append(bottom, name)
		}
	}
	return top, bottom
}

// roomsOver tells whether rooms lie above and below a wall, on both its sides.
func (c *checking) roomsOver(run WallRun) (over, under bool) {
	floor := c.b.House.Levels[run.Level].Floor
	mid, off := run.Line.Length()/2, run.Thickness/2+0.10 // metres: clear of the face
	over, under = true, true
	for _, side := range [...]float64{-off, off} {
		p := run.Line.Beside(mid, side)
		above, below := false, false
		for i := range c.b.Cells {
			cell := &c.b.Cells[i]
			if cell.Outdoor || cell.Region.Contains(p) == geom.Out {
				continue
			}
			above = above || cell.Floor > floor+halfStorey
			below = below || cell.Floor < floor-halfStorey
		}
		over, under = over && above, under && below
	}
	return over, under
}

// stairShafts judges the flights that both units use: they are to be closed
// off from each.
func (c *checking) stairShafts() {
	for i := range c.b.Cells {
		cell := &c.b.Cells[i]
		if !cell.Flight || cell.Outdoor || c.s.Owners[i] != Common {
			continue
		}
		open := ""
		for _, l := range c.b.Links {
			if l.U != i && l.V != i || l.V == Outside || c.s.parted(l) != partedCommon || l.Kind != LinkOpen && l.Kind != LinkSide && l.Kind != LinkStair {
				continue
			}
			if !slices.ContainsFunc(c.s.Walls, func(w WallRun) bool { return w.Between == between(c.b, l) && w.State != Existing }) {
				open = c.b.Cells[l.other(i)].ID
			}
		}
		provided := "closed off from both units"
		if open != "" {
			provided = "open to " + open
		}
		c.judged("separation-stair-shaft", open == "", provided, about{subject: cell.ID, cure: "walls and a fire door between the flight and the unit"})
	}
}
