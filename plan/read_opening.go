package plan

import (
	"math"

	"moiety/geom"
)

var (
	leafWords      = []string{string(Single), string(Double), string(Sliding), string(Pocket), string(Bifold), string(Overhead)}
	operationWords = []string{"fixed", "casement", "sliding", "hung", "awning", "hopper", "tilt_turn"}
)

// readDoor reads a door or a cased opening.
func (s *survey) readDoor(f feature) {
	d := Door{ID: f.id, Level: f.level, Opening: f.kind == "opening"}
	d.Line = f.straight()
	d.Height, _ = f.number("height", openingLimits)
	if !d.Opening {
		d.Leaf = Leaf(f.word("leaf", leafWords))
		d.HingeAtEnd = f.word("hinge", []string{"start", "end"}) == "end"
		if d.OpensInto = f.text("opens_into"); d.OpensInto != "" {
			s.intos = append(s.intos, into{f.get("opens_into"), f.id})
		}
		minutes, _ := f.number("rating_minutes", ratingLimits)
		d.RatingMinutes = int(minutes)
	}
	s.house.Doors = append(s.house.Doors, d)
	s.nodes.doors = append(s.nodes.doors, f.n)
}

func (s *survey) readWindow(f feature) {
	w := Window{ID: f.id, Level: f.level}
	w.Line = f.straight()
	w.Sill, _ = f.number("sill", sillLimits)
	w.Height, _ = f.number("height", openingLimits)
	w.Operation = f.word("operation", operationWords)
	w.Clear, w.ClearSaid = f.pair("clear", "width", "height", openingLimits)
	well, said := f.pair("well", "projection", "width", widthLimits)
	w.WellProjection, w.Width, w.WellSaid = well[0], well[1], said
	if width := w.Line.Length(); w.ClearSaid && width > 0 && w.Clear[0] > width+farthestOffWall {
		s.warn(f.id, "%s: the clear opening is %s wide and the window only %s [%s]",
			quoteUnlessPlain(f.id), s.length(w.Clear[0]), s.length(width), f.get("clear").place())
	}
	if w.ClearSaid && w.Height > 0 && w.Clear[1] > w.Height+farthestOffWall {
		s.warn(f.id, "%s: the clear opening is %s high and the window only %s [%s]",
			quoteUnlessPlain(f.id), s.length(w.Clear[1]), s.length(w.Height), f.get("clear").place())
	}
	s.house.Windows = append(s.house.Windows, w)
	s.nodes.windows = append(s.nodes.windows, f.n)
}

// straight takes the line of a door or window from jamb to jamb; without
// length where it is missing or wrong.
func (f feature) straight() geom.Segment {
	if !f.shape.sound || len(f.shape.line) < 2 {
		return geom.Segment{}
	}
	line := f.shape.line
	seg := geom.Segment{A: line[0], B: line[len(line)-1]}
	for i := 1; i+1 < len(line); i++ {
		along := seg.Along(line[i])
		if math.Abs(seg.Off(line[i])) > geom.Coincide || along < seg.Along(line[i-1]) || along > seg.Length() {
			f.bad(f.shape.n, "%s is drawn as one straight line from jamb to jamb", f.what)
			return geom.Segment{}
		}
	}
	width := seg.Length()
	if least, most := 0.10, widthLimits.max; width < least || width > most {
		f.bad(f.shape.n, "%s is %s wide; it must be from %s to %s", f.what, f.length(width), f.length(least), f.length(most))
		return geom.Segment{}
	}
	return seg
}
