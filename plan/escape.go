package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/plan/rules"
)

// escapeJudge compares windows and outside doors with what a rule set asks of
// an opening to escape by.
type escapeJudge struct {
	b   *Building
	set *rules.Set
	Conditions
}

// escapeMeasure is one measure of an opening against one figure.
type escapeMeasure struct {
	figure   rules.Figure
	value    float64
	measured bool
	provided string // in words, where it is not the value's
	result   Result
	note     string
}

// escapeOpening is a way to escape from a room: a window, with its measures,
// or a door to the outside, which every set accepts.
type escapeOpening struct {
	id       string
	window   int // of the house; -1 for a door
	measures []escapeMeasure
	result   Result
	// belowGround is how far the sill lies under the ground beside it, in
	// metres; negative above. groundKnown is false where nobody knows.
	belowGround float64
	groundKnown bool
}

// sashFrame is what frame and sash take of each side of a window that opens
// fully (common practice, no source). Estimates only.
const sashFrame = 0.05

// estimatedClear guesses the clear opening of a window whose clear opening was
// not surveyed, by how it opens (common practice, no source); ok is false where
// no guess is worth anything: a sash hung at its top or bottom, an operation
// not said.
func estimatedClear(w *Window) (width, height float64, ok bool) {
	width, height = w.Line.Length()-2*sashFrame, w.Height-2*sashFrame
	switch w.Operation {
	case "casement", "tilt_turn":
	case "sliding":
		width /= 2
	case "hung":
		height /= 2
	default:
		return 0, 0, false
	}
	return max(0, width), max(0, height), w.Height > 0
}

// opensOutdoors tells whether a window looks from the cell to the outdoors.
func (b *Building) opensOutdoors(window, cell int) bool {
	sides := b.WindowCells[window]
	return sides[0] == cell && (sides[1] == Outside || b.Cells[sides[1]].Outdoor)
}

// openings lists the openings of a cell, the best first.
func (j escapeJudge) openings(cell int) []escapeOpening {
	var out []escapeOpening
	for _, l := range j.b.Links {
		if l.Kind == LinkDoor && l.U == cell && (l.V == Outside || j.b.Cells[l.V].Outdoor) && l.Passage() && !j.b.overhead(l.Of) {
			out = append(out, escapeOpening{id: l.Of, window: -1, result: OK})
		}
	}
	for i := range j.b.House.Windows {
		if j.b.opensOutdoors(i, cell) {
			out = append(out, j.window(i, cell))
		}
	}
	slices.SortStableFunc(out, func(a, b escapeOpening) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.failing(), b.failing()), cmp.Compare(a.id, b.id))
	})
	return out
}

func (o escapeOpening) rank() int { return slices.Index([]Result{OK, NotSurveyed, NotOK}, o.result) }

// failing counts what is wrong with the opening.
func (o escapeOpening) failing() int {
	n := 0
	for _, m := range o.measures {
		if m.result == NotOK && !m.figure.Advice {
			n++
		}
	}
	return n
}

// window judges one window of a cell.
func (j escapeJudge) window(i, cell int) escapeOpening {
	w, room := &j.b.House.Windows[i], &j.b.Cells[cell]
	o := escapeOpening{id: w.ID, window: i}
	sill := j.b.House.Levels[w.Level].Floor + w.Sill // elevation
	ground, known := j.b.groundAt(j.b.WindowCells[i][1])
	o.belowGround, o.groundKnown = ground-sill, known
	j.clear(&o, w)
	if w.Height > 0 {
		o.measure(j.set, "escape-sill", sill-room.Floor, "")
	} else {
		o.unknown(j.set, "escape-sill", "", "the height of the sill was not surveyed")
	}
	if known {
		o.measure(j.set, "escape-storey-height", max(0, room.Floor-ground), "floor of the room above the ground outside")
	}
	j.well(&o, w)
	o.result = OK
	for _, m := range o.measures {
		switch {
		case m.result == NotOK && !m.figure.Advice:
			o.result = NotOK
		case m.result == NotSurveyed && o.result == OK:
			o.result = NotSurveyed
		}
	}
	return o
}

// measure compares a value with a figure, where the set has it.
func (o *escapeOpening) measure(set *rules.Set, id rules.ID, value float64, note string) {
	if f, ok := set.Get(id); ok {
		o.measures = append(o.measures, escapeMeasure{figure: f, value: value, measured: true, provided: f.Provided(value), result: resultOf(f.Meets(value)), note: note})
	}
}

func (o *escapeOpening) unknown(set *rules.Set, id rules.ID, provided, note string) {
	if f, ok := set.Get(id); ok {
		o.measures = append(o.measures, escapeMeasure{figure: f, provided: provided, result: NotSurveyed, note: note})
	}
}

// areaRule is the figure for the clear area: an opening at grade may be
// smaller where the set says so.
func (j escapeJudge) areaRule(o *escapeOpening) rules.ID {
	reach, ok := j.set.Get("escape-at-grade-sill")
	if _, has := j.set.Get("escape-area-at-grade"); has && ok && o.groundKnown && math.Abs(o.belowGround) <= reach.Value()+rules.LengthTolerance {
		return "escape-area-at-grade"
	}
	return "escape-area"
}

// clear compares the clear opening. Where it was not surveyed the whole
// opening is more than it can be: what even that fails is not ok, the rest is
// not surveyed, with an estimate beside it.
func (j escapeJudge) clear(o *escapeOpening, w *Window) {
	area := j.areaRule(o)
	switch {
	case w.ClearSaid:
		o.measure(j.set, area, w.Clear[0]*w.Clear[1], "")
		o.measure(j.set, "escape-width", w.Clear[0], "")
		o.measure(j.set, "escape-height", w.Clear[1], "")
		return
	case w.Operation == "fixed":
		o.measure(j.set, area, 0, "a fixed window does not open")
		return
	}
	width, height, estimated := estimatedClear(w)
	whole := [3]float64{w.Line.Length() * w.Height, w.Line.Length(), w.Height}
	guess := [3]float64{width * height, width, height}
	for k, id := range [...]rules.ID{area, "escape-width", "escape-height"} {
		f, ok := j.set.Get(id)
		switch {
		case !ok:
		case whole[k] > 0 && !f.Meets(whole[k]):
			o.measure(j.set, id, whole[k], "the whole opening, frame included: its clear opening is smaller still")
		case estimated:
			o.unknown(j.set, id, "about "+f.Provided(guess[k]), fmt.Sprintf("an estimate for a %s window of its size; the clear opening was not surveyed", words(w.Operation)))
		default:
			o.unknown(j.set, id, "", "the clear opening was not surveyed")
		}
	}
}

// well compares the well of a window whose sill lies below the ground.
func (j escapeJudge) well(o *escapeOpening, w *Window) {
	below := o.groundKnown && o.belowGround > rules.LengthTolerance
	if !below && (o.groundKnown || !w.WellSaid) {
		return
	}
	if !w.WellSaid {
		note := fmt.Sprintf("the sill is %s below the ground and no well was surveyed", j.set.Text(rules.Length, o.belowGround))
		for _, id := range [...]rules.ID{"escape-well-area", "escape-well-projection", "escape-well-width"} {
			o.unknown(j.set, id, "", note)
		}
		return
	}
	o.measure(j.set, "escape-well-area", w.WellProjection*w.Width, "")
	o.measure(j.set, "escape-well-projection", w.WellProjection, "")
	o.measure(j.set, "escape-well-width", w.Width, "")
	if deep, ok := j.set.Get("escape-well-ladder"); ok && o.belowGround > deep.Value()+rules.LengthTolerance {
		o.unknown(j.set, "escape-well-ladder", deep.Provided(o.belowGround)+" from the ground to the sill",
			"a well as deep as that needs a fixed ladder or steps, which were not surveyed")
	}
}

// needs tells whether a room of such a use must have an opening to escape by.
func (j escapeJudge) needs(use Use) bool {
	switch use {
	case Bedroom:
		return j.set.Asks("escape-required") || j.set.Asks("escape-habitable-rooms")
	case Living, Family, Dining, Office, Sunroom:
		return j.set.Asks("escape-habitable-rooms")
	}
	return false
}

// waived tells whether sprinklers do instead of openings.
func (j escapeJudge) waived() bool {
	return j.IsSprinklered() && j.set.Asks("escape-waived-by-sprinklers")
}
