package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// Where a new doorway may stand.
const (
	// A 0.81 m leaf (NBC 9.5.5.1, dwelling entrance) in its frame.
	newDoorWidth = 0.90
	newDoorLeaf  = 2.03 // leaf height, metres (6 ft 8 in)
	// Clear of a corner or another opening, for the trimmer stud and casing
	// (common practice, no source).
	doorwayMargin = 0.12
	// A step at an inner doorway: more needs a flight that nobody surveyed.
	doorwayStep = 0.05
	// Steps up to, or down to, a new entry before it stops being an entry
	// (common practice, no source).
	entryStepsUp   = 2.0
	entryStepsDown = 3.0
)

// newDoorway finds where a new doorway can stand in a wall link: the middle
// of the longest stretch that is clear of corners, windows and other doors.
func (b *Building) newDoorway(l Link) (geom.Segment, bool) {
	runs := l.Runs
	if len(runs) == 0 {
		runs = []geom.Segment{l.Line}
	}
	var run geom.Segment
	bestFrom, bestTo := 0.0, 0.0
	for _, r := range runs {
		length, from := r.Length(), 0.0
		for _, t := range append(b.openingsAlong(l, r), [2]float64{length, length}) {
			if t[0]-from > bestTo-bestFrom+1e-6 {
				run, bestFrom, bestTo = r, from, t[0]
			}
			from = math.Max(from, t[1])
		}
	}
	// By the millimetre, so that a house turned on its lot takes the same doors.
	if wholeMillimetres(bestTo-bestFrom) < wholeMillimetres(newDoorWidth+2*doorwayMargin) {
		return geom.Segment{}, false
	}
	middle := (bestFrom + bestTo) / 2
	return geom.Segment{A: run.At(middle - newDoorWidth/2), B: run.At(middle + newDoorWidth/2)}, true
}

// openingsAlong gives the stretches of one of the link's runs, in metres from
// its start and in order, that doors, openings and windows take up.
func (b *Building) openingsAlong(l Link, run geom.Segment) [][2]float64 {
	var taken [][2]float64
	add := func(level int, line geom.Segment) {
		if !b.sameHeight(level, l) {
			return
		}
		// The opening lies in the line of this wall when both its jambs are
		// within the wall's band; it may go on beyond the wall's end.
		band := l.Thickness/2 + offWall
		if math.Abs(run.Off(line.A)) > band || math.Abs(run.Off(line.B)) > band {
			return
		}
		s, e := run.Along(line.A), run.Along(line.B)
		if s > e {
			s, e = e, s
		}
		if e > 0 && s < run.Length() {
			taken = append(taken, [2]float64{math.Max(s, 0), e})
		}
	}
	for _, d := range b.House.Doors {
		add(d.Level, d.Line)
	}
	for _, w := range b.House.Windows {
		add(w.Level, w.Line)
	}
	slices.SortFunc(taken, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return taken
}

// sameHeight tells whether a feature of a level stands at the height of the
// link's indoor end.
func (b *Building) sameHeight(level int, l Link) bool {
	if level == l.Level || level == b.Cells[l.U].Level {
		return true
	}
	return l.V != Outside && level == b.Cells[l.V].Level
}
