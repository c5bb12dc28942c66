package plan

import (
	"fmt"
	"math"

	"moiety/plan/rules"
)

// windowCure is what makes a window one to escape by.
type windowCure struct {
	how     string // in words; "" where nothing does
	enlarge bool   // the opening is cut larger, wider or down to a lower sill
	replace bool   // another window in the same opening
	well    bool   // a well is dug, or a larger one
	found   bool   // the cut goes into a foundation wall, below the ground
}

// cure finds what makes a window of a room legal. A window of the same size
// that opens fully is tried first, then a wider or lower opening.
func (j escapeJudge) cure(o escapeOpening) windowCure {
	if o.window < 0 || o.result == OK {
		return windowCure{}
	}
	w := &j.b.House.Windows[o.window]
	var c windowCure
	for _, m := range o.measures {
		if m.figure.Advice || m.result == OK {
			continue
		}
		switch m.figure.ID {
		case "escape-storey-height":
			return windowCure{} // no window helps
		case "escape-sill":
			c.enlarge = true
		case "escape-well-area", "escape-well-projection", "escape-well-width", "escape-well-ladder":
			c.well = c.well || m.result == NotOK
		default:
			if m.result == NotOK {
				c.replace = true
			}
		}
	}
	if c.replace && !j.fitsWhenReplaced(o, w) {
		c.enlarge = true
	}
	if c.enlarge {
		c.replace = false
		low := j.lowestSill(o)
		if o.groundKnown && o.belowGround+low > rules.LengthTolerance {
			c.well = true
		}
		c.found = o.groundKnown && o.belowGround+low > 0
	}
	c.how = c.inWords()
	return c
}

// lowestSill is how far the sill comes down to meet the limit, in metres.
func (j escapeJudge) lowestSill(o escapeOpening) float64 {
	for _, m := range o.measures {
		if m.figure.ID == "escape-sill" && m.result == NotOK && !m.figure.Advice {
			return m.value - m.figure.Value()
		}
	}
	return 0
}

// fitsWhenReplaced tells whether a side-hung window in the same opening would
// do: it opens fully, less frame and sash.
func (j escapeJudge) fitsWhenReplaced(o escapeOpening, w *Window) bool {
	width, height := w.Line.Length()-2*sashFrame, w.Height-2*sashFrame
	meets := func(id rules.ID, value float64) bool {
		f, ok := j.set.Get(id)
		return !ok || f.Meets(value)
	}
	return math.Min(width, height) > 0 && meets(j.areaRule(&o), width*height) && meets("escape-width", width) && meets("escape-height", height)
}

func (c windowCure) inWords() string {
	text := ""
	switch {
	case c.enlarge && c.found:
		text = "cut the opening larger into the foundation wall, which an engineer decides, and set a side-hung window"
	case c.enlarge:
		text = "cut the opening wider or lower, with a new lintel where it is wider, and set a side-hung window"
	case c.replace:
		text = "replace the window by a side-hung one in the same opening"
	}
	if c.well {
		well := "a window well of the size asked for, drained"
		if text == "" {
			return "dig " + well
		}
		text = fmt.Sprintf("%s; dig %s", text, well)
	}
	return text
}
