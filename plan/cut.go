package plan

import (
	"slices"

	"moiety/geom"
)

// Cut is a candidate line for dividing a space: where a builder would put a
// separating wall or, outdoors, a fence.
type Cut struct {
	Space   string    // id of the space
	Level   int       // index into House.Levels
	Line    []geom.Pt // from border to border: two points, or three with a corner
	LengthM float64
	Why     string // what the line goes by, with the ids of features
	Fence   bool   // outdoors
}

// How many candidate lines are kept.
const (
	cutsPerSpace  = 3
	cutsPerGround = 4
	// mostCells is the number of cells to which lines may divide a house;
	// one that has nearly as many undivided still gets leastPieces more.
	mostCells   = 64
	leastPieces = 12
)

// Cuts gives the candidate lines along which divisible spaces may be parted
// between the units, sorted by space. thickness is that of the separating
// wall in metres; a fence has none.
//
// Indoors a line prolongs a wall that ends at the space or turns a corner
// there, goes along the side of a flight, beside a door or in front of its
// clear approach, or midway between two neighbouring ways or windows; it is
// parallel or square to the space's own edges, or has one corner where no
// straight line parts the same ways. Outdoors it goes from a corner of the
// house, from the end of a wall between two rooms or from the middle of a wall
// square to the opposite border, midway between ways, or where it halves the area.
//
// Both sides of a line can be used, see cutSpace.usable. Of lines that
// leave the same ways, windows and neighbours on the same sides only the
// shortest is kept, and of these each space keeps the few that part most, see
// chooseCuts. The lines turn with the house and do not hang on the order of
// features.
func (b *Building) Cuts(thickness float64) []Cut {
	var chosen []spaceCuts
	for c, reached := range b.Reached() {
		if !reached {
			continue
		}
		if s, ok := b.newCutSpace(c, thickness); ok {
			s.findLines()
			chosen = append(chosen, s.chooseCuts())
		}
	}
	var cuts []Cut
	for _, s := range withinBudget(chosen, max(mostCells-len(b.Cells), leastPieces)) {
		cuts = append(cuts, s.cuts()...)
	}
	return cuts
}

// cuts gives the lines as results show them.
func (s spaceCuts) cuts() []Cut {
	var out []Cut
	for _, step := range s.steps {
		for _, l := range step.lines {
			out = append(out, s.space.cut(l))
		}
	}
	return out
}

// cut gives a line as results show it.
func (s *cutSpace) cut(l cutLine) Cut {
	return Cut{
		Space: s.cell.ID, Level: s.cell.Level, Line: slices.Clone(l.points),
		LengthM: l.length(), Why: l.why, Fence: s.cell.Outdoor,
	}
}

// spaceCuts are the lines chosen for one space, the most useful first.
type spaceCuts struct {
	space *cutSpace
	steps []cutStep
}

// cutStep is a line, or the two that part a ring together, with the pieces
// that it adds and what it gains.
type cutStep struct {
	lines  []cutLine
	pieces int
	gain   float64
}

// withinBudget takes the least useful lines away until the pieces that they
// add are no more than the budget.
func withinBudget(all []spaceCuts, budget int) []spaceCuts {
	total := 0
	for _, s := range all {
		for _, step := range s.steps {
			total += step.pieces
		}
	}
	for total > budget {
		least := -1
		for i, s := range all {
			if n := len(s.steps); n > 0 && (least < 0 || s.steps[n-1].gain < all[least].steps[len(all[least].steps)-1].gain) {
				least = i
			}
		}
		n := len(all[least].steps) - 1
		total -= all[least].steps[n].pieces
		all[least].steps = all[least].steps[:n]
	}
	return all
}
