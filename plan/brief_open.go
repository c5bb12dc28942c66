package plan

import (
	"strings"

	"moiety/plan/structure"
)

// OpenBrief asks for a wall to be opened: the two spaces then belong to one unit.
type OpenBrief struct {
	Wall    string    // id of a wall of the survey; "" where Between alone says which
	Between [2]string // ids of the two spaces; empty where the wall's id alone says it
	WidthM  float64   // clear width; 0: all of the wall between its ends
	Joists  string    // "across": the joists above end on the wall; "along": they run beside it; "" not said
	NoRoof  bool      // the roof is known not to come down on it
	SnowKPa float64   // on the roof, of the place; 0: the rule set's least
	Kind    structure.Kind

	at *node
}

// Ways of joists over a wall.
const (
	joistsAcross = "across"
	joistsAlong  = "along"
)

var (
	openWidthLimits = limits{min: 0.5, max: 12}
	snowLimits      = limits{min: 0, max: 30}
)

// readOpen reads open: a list of walls, each the id of a wall, two ids of
// spaces, or an object with more to say.
func (b *Brief) readOpen(f fields) {
	n := f.get("open")
	switch {
	case n == nil:
		return
	case n.kind != listNode:
		f.bad(n, "open is a list of walls, each an id or two spaces, not %s", n.shown())
		return
	}
	for _, item := range n.items {
		o := OpenBrief{Kind: structure.LVL, at: item}
		switch {
		case f.isText(item) && strings.TrimSpace(item.text) != "":
			o.Wall = item.text
		case item.kind == listNode:
			o.Between = f.twoSpaces(item)
		case item.kind == objectNode:
			w, ok := f.object(item, "open", "wall", "between", "width", "joists", "roof", "snow_kpa", "beam")
			if !ok {
				continue
			}
			o.Wall = w.text("wall")
			if between := w.get("between"); between != nil {
				o.Between = f.twoSpaces(between)
			}
			o.WidthM, _ = w.number("width", openWidthLimits)
			o.Joists = w.word("joists", []string{joistsAcross, joistsAlong})
			o.NoRoof = !w.truth("roof", true)
			o.SnowKPa, _ = w.number("snow_kpa", snowLimits)
			if w.word("beam", []string{"lvl", "lumber"}) == "lumber" {
				o.Kind = structure.Sawn
			}
			if o.Wall == "" && w.get("between") == nil {
				f.bad(item, "open names a wall or, with between, two spaces")
				continue
			}
		default:
			f.bad(item, "open lists walls, each an id or two spaces, not %s", item.shown())
			continue
		}
		b.Open = append(b.Open, o)
	}
}

// twoSpaces reads two different ids.
func (s scope) twoSpaces(n *node) (pair [2]string) {
	if n.kind != listNode || len(n.items) != 2 || !s.isText(n.items[0]) || !s.isText(n.items[1]) || n.items[0].text == n.items[1].text {
		s.bad(n, "a wall lies between two spaces, as [kitchen, living]; here stands %s", n.shown())
		return pair
	}
	return [2]string{n.items[0].text, n.items[1].text}
}
