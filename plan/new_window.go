package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// What a new window is made like (common practice, no source).
const (
	newWindowHead  = 2.10 // above the floor, metres: in line with doors
	newWindowAbove = 0.20 // from its head to the ceiling: the lintel
	newWindowSill  = 0.90 // above the floor, where the rule set lets it be as high
	lowestSill     = 0.15 // lower is a door
	newWindowWidth = 0.90 // where no more is needed for daylight and air
	widestNew      = 1.80 // of two side-hung sashes
	tallestNew     = 1.50
	shallowWell    = 0.30 // a sill so far below the ground is let be; a deeper one is raised
	newWellDepth   = 0.90 // out from the wall, where the rule set asks for less
)

// windowPlace is where a new window to escape by may be cut into an outer wall.
type windowPlace struct {
	window Window
	found  bool // the cut goes into the foundation wall, below the ground
	well   bool
	room   float64 // length of the wall that is free there
}

// newWindow finds the place for a new window in the outer walls of a room, of
// the size that the rule set asks for, to escape by and, where the wall is long
// enough, for daylight and air; taken are openings that the works make besides.
// Above the ground goes before below it, then the longer stretch of wall.
func (j *bedroomJudge) newWindow(cell int, taken []geom.Segment) (windowPlace, bool) {
	var best windowPlace
	ok := false
	for _, l := range j.b.Links {
		if l.Kind != LinkExterior || l.U != cell || l.V == Outside && j.b.outdoorsSurveyed() || j.keptAway(l) {
			continue
		}
		ground, known := j.b.groundAt(l.V)
		if !known {
			continue
		}
		if limit, asked := j.set.Get("escape-storey-height"); asked && !limit.Meets(max(0, j.b.Cells[cell].Floor-ground)) {
			continue
		}
		for _, s := range j.b.freeStretches(l, j.prices.SeparatingWall.Thickness, taken) {
			p, fits := j.windowIn(cell, l, s, ground)
			if fits && (!ok || p.before(best)) {
				best, ok = p, true
			}
		}
	}
	return best, ok
}

// keptAway tells whether the brief keeps the work away from a wall.
func (j *bedroomJudge) keptAway(l Link) bool {
	names := append([]string{l.Of, j.b.Cells[l.U].Of}, l.Marks...)
	return slices.ContainsFunc(names, func(id string) bool { return id != "" && slices.Contains(j.leave, id) })
}

func (p windowPlace) before(q windowPlace) bool {
	return cmp.Or(cmp.Compare(boolInt(p.found), boolInt(q.found)), cmp.Compare(boolInt(p.well), boolInt(q.well)),
		cmp.Compare(wholeMillimetres(q.room), wholeMillimetres(p.room))) < 0
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// freeStretches gives the stretches of an outer wall without openings, those
// taken among them, and without ends of walls that divide the room.
func (b *Building) freeStretches(l Link, dividing float64, taken []geom.Segment) []wallStretch {
	runs := l.Runs
	if len(runs) == 0 {
		runs = []geom.Segment{l.Line}
	}
	var out []wallStretch
	for _, r := range runs {
		spans := append(b.openingsAlong(l, r), b.dividingAlong(l, r, dividing)...)
		for _, t := range taken {
			if math.Abs(r.Off(t.A)) <= l.Thickness/2+offWall && math.Abs(r.Off(t.B)) <= l.Thickness/2+offWall {
				spans = append(spans, [2]float64{min(r.Along(t.A), r.Along(t.B)), max(r.Along(t.A), r.Along(t.B))})
			}
		}
		spans = append(spans, [2]float64{r.Length(), r.Length()})
		slices.SortFunc(spans, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		from := 0.0
		for _, t := range spans {
			if t[0] > from {
				out = append(out, wallStretch{r, from, t[0]})
			}
			from = max(from, t[1])
		}
	}
	return out
}

// windowIn makes the window that a stretch of wall has room for.
func (j *bedroomJudge) windowIn(cell int, l Link, s wallStretch, ground float64) (windowPlace, bool) {
	room := &j.b.Cells[cell]
	limit := func(id rules.ID, otherwise float64) float64 {
		if f, ok := j.set.Get(id); ok {
			return f.Value()
		}
		return otherwise
	}
	free := s.to - s.from
	widest := min(centimetres(free-2*doorwayMargin+tinyLength, math.Floor), widestNew)
	head := min(newWindowHead, room.Ceiling-room.Floor-newWindowAbove)
	sillMost := min(limit("escape-sill", newWindowSill), head)
	// The least height at the widest, then the sill, then the width for the height.
	leastWidth := limit("escape-width", 0.5) + 2*sashFrame
	if widest < leastWidth-tinyLength {
		return windowPlace{}, false
	}
	area := limit("escape-area", 0.35)
	leastHeight := centimetres(max(limit("escape-height", 0.5), area/(min(widest, max(newWindowWidth, leastWidth))-2*sashFrame))+2*sashFrame, math.Ceil)
	sill := min(newWindowSill, sillMost, head-leastHeight)
	if ground-room.Floor-sill > shallowWell {
		sill = min(sillMost, head-leastHeight)
	}
	sill = centimetres(sill+tinyLength, math.Floor)
	if sill < lowestSill {
		return windowPlace{}, false
	}
	height := min(centimetres(head-sill+tinyLength, math.Floor), tallestNew)
	if height < leastHeight-tinyLength {
		height = leastHeight
	}
	wanted := max(newWindowWidth, leastWidth, area/(height-2*sashFrame)+2*sashFrame,
		limit("glass-share", 0)*room.AreaM2/(glazedShare*height), limit("vent-share", 0)*room.AreaM2/(height-2*sashFrame)+2*sashFrame,
		limit("vent-area", 0)/(height-2*sashFrame)+2*sashFrame)
	width := min(centimetres(wanted-tinyLength, math.Ceil), widest)
	mid := (s.from + s.to) / 2
	p := windowPlace{room: free, window: Window{
		ID: j.newWindowID(cell), Level: room.Level, Line: geom.Segment{A: s.run.At(mid - width/2), B: s.run.At(mid + width/2)},
		Sill: sill + room.Floor - j.b.House.Levels[room.Level].Floor, Height: height, Operation: "casement",
		Clear: [2]float64{width - 2*sashFrame, height - 2*sashFrame}, ClearSaid: true,
	}}
	below := ground - room.Floor - sill
	p.found, p.well = below > 0, below > rules.LengthTolerance
	if p.well {
		w := &p.window
		w.WellSaid = true
		w.WellProjection = max(newWellDepth, limit("escape-well-projection", 0))
		w.Width = max(width, limit("escape-well-width", 0), limit("escape-well-area", 0)/w.WellProjection)
	}
	return p, true
}

// tinyLength is what adding lengths up can be off by, in metres.
const tinyLength = 1e-6

// centimetres rounds a length up or down to whole centimetres.
func centimetres(v float64, round func(float64) float64) float64 { return round(v*100) / 100 }

// newWindowID is the id of the new window of a room, which no surveyed window has.
func (j *bedroomJudge) newWindowID(cell int) string {
	id := "new-window-" + j.b.Cells[cell].ID
	for slices.ContainsFunc(j.b.House.Windows, func(w Window) bool { return w.ID == id }) {
		id += "-2"
	}
	return id
}

// newWindowWorks gives the works that cut a new window into a room; none where
// no outer wall has room for one or the brief keeps the work away.
func (j *bedroomJudge) newWindowWorks(cell int, taken []geom.Segment) ([]Work, *Window) {
	p, ok := j.newWindow(cell, taken)
	if !ok {
		return nil, nil
	}
	w := p.window
	one := Work{
		Kind: "new_window", Level: j.b.House.Levels[w.Level].ID, Spaces: []string{j.b.Cells[cell].ID}, Of: w.ID, Count: 1,
		Line: []geom.Pt{w.Line.A, w.Line.B}, Cost: cents(j.prices.NewWindow.Each),
		Note: fmt.Sprintf("to escape by: side-hung, %.2f x %.2f m, under a lintel that an engineer decides", w.Line.Length(), w.Height),
	}
	if p.found {
		one.Cost = cents(j.prices.NewWindow.Foundation)
		one.Note += ", cut into the foundation wall"
	}
	works := []Work{one}
	if p.well {
		well := Work{Kind: "window_well", Level: one.Level, Spaces: one.Spaces, Of: w.ID, Count: 1, Cost: cents(j.prices.cost("window_well", 0, 0, 1)), Note: "of the size asked for, drained"}
		if deep, ok := j.set.Get("escape-well-ladder"); ok {
			well.Note += "; deeper than " + deep.Limit.String() + " with a ladder"
		}
		works = append(works, well)
	}
	return works, &w
}

// addNewWindows puts the new windows of a scheme in, clear of its new doors.
func (m *model) addNewWindows(out *Scheme) {
	var taken []geom.Segment
	for _, p := range out.Passages {
		if p.State == New {
			taken = append(taken, p.Line)
		}
	}
	for i := range out.Works {
		work := &out.Works[i]
		if work.Kind != "new_window" || m.bedrooms == nil {
			continue
		}
		cell := m.b.CellNamed(work.Spaces[0])
		window := m.bedrooms.of(cell).window
		if works, clear := m.bedrooms.newWindowWorks(cell, taken); clear != nil && works[0].Cost == work.Cost && len(works) == len(m.bedrooms.of(cell).works) {
			window = clear
			work.Line, work.Note = works[0].Line, works[0].Note
		}
		out.Windows = append(out.Windows, PlacedWindow{Window: *window, Cell: m.b.Cells[cell].ID, Unit: out.Owners[cell].String(), State: New})
	}
}
