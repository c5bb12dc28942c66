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

// wallStretch is a length of wall clear of openings, of fixtures before it and of
// the ends of lines along which a space may be divided; from and to are metres
// along one of the link's runs.
type wallStretch struct {
	run      geom.Segment
	from, to float64
}

// doorwayThrough tells whether a new door, or a new entry from outdoors, can
// stand in a wall link, and the step in metres that is at it. The walls that
// divide spaces are dividing thick.
func (b *Building) doorwayThrough(l Link, dividing float64) (kind string, rise float64, ok bool) {
	if l.Kind != LinkWall && l.Kind != LinkExterior || l.Height < newDoorLeaf {
		return "", 0, false
	}
	u := &b.Cells[l.U]
	if u.Flight {
		return "", 0, false
	}
	kind, rise = "new_door", math.Abs(l.Rise)
	if l.Kind == LinkExterior {
		ground, known := b.groundAt(l.V)
		up := u.Floor - ground
		if !known || up > entryStepsUp || -up > entryStepsDown || !b.entryRoom(l.U) || l.V == Outside && b.outdoorsSurveyed() {
			return "", 0, false
		}
		kind, rise = "new_entry", math.Abs(up)
	} else if rise > doorwayStep || b.Cells[l.V].Flight {
		return "", 0, false
	}
	return kind, rise, len(b.stretches(l, dividing)) > 0 || b.doorwayUndivided(l)
}

// doorwayUndivided tells whether a new doorway fits in front of a piece if the
// candidate lines on which it ends are not used: then the wall goes on before the
// pieces that it stays together with. Where a line is used after all, the house
// with its walls as built says what fits.
func (b *Building) doorwayUndivided(l Link) bool {
	if len(b.House.Divisions) > 0 || !b.Cells[l.U].isPiece() && (l.V == Outside || !b.Cells[l.V].isPiece()) {
		return false
	}
	for _, r := range l.Runs {
		whole := b.runUndivided(l, r)
		start, end := whole.Along(r.A), whole.Along(r.B)
		for _, s := range b.stretchesOf(l, whole, nil) {
			if s.from+doorwayMargin < end-geom.Coincide && s.to-doorwayMargin > start+geom.Coincide {
				return true
			}
		}
	}
	return false
}

// runUndivided is a run of a link with those that go on in its line before other
// pieces of the same two spaces.
func (b *Building) runUndivided(l Link, run geom.Segment) geom.Segment {
	from, to := 0.0, run.Length()
	for again := true; again; {
		again = false
		for _, k := range b.Links {
			if k.Kind != l.Kind || k.Level != l.Level || !b.sameSpaces(k, l) {
				continue
			}
			for _, r := range k.Runs {
				if math.Abs(run.Off(r.A)) > geom.Coincide || math.Abs(run.Off(r.B)) > geom.Coincide {
					continue
				}
				start, end := run.Along(r.A), run.Along(r.B)
				if start > end {
					start, end = end, start
				}
				if start <= to+geom.Coincide && end > to+geom.Coincide || end >= from-geom.Coincide && start < from-geom.Coincide {
					from, to, again = math.Min(from, start), math.Max(to, end), true
				}
			}
		}
	}
	return geom.Segment{A: run.At(from), B: run.At(to)}
}

// sameSpaces tells whether two links lie between the same spaces, divided or not.
func (b *Building) sameSpaces(k, l Link) bool {
	of := func(c int) string {
		if c == Outside {
			return ""
		}
		return b.Cells[c].Of
	}
	return of(k.U) == of(l.U) && of(k.V) == of(l.V) || of(k.U) == of(l.V) && of(k.V) == of(l.U)
}

// stretches gives the stretches of a wall link in which a new doorway fits
// with its margins, run by run.
func (b *Building) stretches(l Link, dividing float64) []wallStretch {
	runs := l.Runs
	if len(runs) == 0 {
		runs = []geom.Segment{l.Line}
	}
	var out []wallStretch
	for _, r := range runs {
		out = append(out, b.stretchesOf(l, r, b.dividingAlong(l, r, dividing))...)
	}
	return out
}

// stretchesOf gives the stretches of a run of a link in which a new doorway
// fits with its margins, clear of what is taken too.
func (b *Building) stretchesOf(l Link, r geom.Segment, taken [][2]float64) []wallStretch {
	var out []wallStretch
	length, from := r.Length(), 0.0
	taken = slices.Concat(b.openingsAlong(l, r), b.standingAlong(l, r), taken, [][2]float64{{length, length}})
	slices.SortFunc(taken, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	for _, t := range taken {
		// By the millimetre, so that a house turned on its lot takes the same doors.
		if wholeMillimetres(t[0]-from) >= wholeMillimetres(newDoorWidth+2*doorwayMargin) {
			out = append(out, wallStretch{r, from, t[0]})
		}
		from = math.Max(from, t[1])
	}
	return out
}

// standingAlong gives the stretches of a run before which, on either side, a
// fixture stands that was drawn: within the clear approach of a door.
func (b *Building) standingAlong(l Link, run geom.Segment) [][2]float64 {
	var taken [][2]float64
	face := l.Thickness / 2
	for i := range b.House.Fixtures {
		f := &b.House.Fixtures[i]
		if c := b.FixtureCell[i]; c == Outside || c != l.U && c != l.V || f.Footprint == nil || f.Use == "electrical_panel" {
			continue
		}
		for _, side := range [...]float64{1, -1} {
			from, to := math.Inf(1), math.Inf(-1)
			for _, e := range f.Footprint.Edges() {
				at, over := alongWithin(run, e, side, face-offWall, face+doorApproach)
				if over {
					from, to = math.Min(from, at[0]), math.Max(to, at[1])
				}
			}
			if to > 0 && from < run.Length() {
				taken = append(taken, [2]float64{math.Max(from, 0), to})
			}
		}
	}
	return taken
}

// alongWithin gives the stretch of a run beside which a segment lies between
// two distances from it on one side; over is false where it lies nowhere there.
func alongWithin(run, e geom.Segment, side, near, far float64) (at [2]float64, over bool) {
	x0, x1 := run.Along(e.A), run.Along(e.B)
	y0, y1 := side*run.Off(e.A), side*run.Off(e.B)
	if y0 > y1 {
		x0, x1, y0, y1 = x1, x0, y1, y0
	}
	if y1 <= near+geom.Coincide || y0 >= far-geom.Coincide {
		return at, false
	}
	cross := func(y float64) float64 {
		if y1-y0 < geom.Coincide {
			return x0
		}
		return x0 + (x1-x0)*(y-y0)/(y1-y0)
	}
	if y0 < near {
		x0 = cross(near)
	}
	if y1 > far {
		x1 = cross(far)
	}
	return [2]float64{math.Min(x0, x1), math.Max(x0, x1)}, true
}

// dividingAlong gives the stretches of a run that the end of a wall may take
// up, built along a line that divides the space on one side: dividing is its
// thickness.
func (b *Building) dividingAlong(l Link, run geom.Segment, dividing float64) [][2]float64 {
	var taken [][2]float64
	for _, c := range [...]int{l.U, l.V} {
		if c == Outside || !b.Cells[c].isPiece() {
			continue
		}
		for _, k := range b.Links {
			if k.Kind != LinkOpen || k.U != c && k.V != c || k.V == Outside || b.Cells[k.U].Of != b.Cells[k.V].Of || b.Cells[c].Outdoor {
				continue
			}
			for _, r := range k.Runs {
				for _, end := range [...]geom.Pt{r.A, r.B} {
					if math.Abs(run.Off(end)) > l.Thickness/2+offWall {
						continue
					}
					x := run.Along(end)
					if x > -dividing/2 && x < run.Length()+dividing/2 {
						taken = append(taken, [2]float64{math.Max(x-dividing/2, 0), x + dividing/2})
					}
				}
			}
		}
	}
	return taken
}

// openingsAlong gives the stretches of one of the link's runs, in metres from
// its start, that doors, openings and windows take up.
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
