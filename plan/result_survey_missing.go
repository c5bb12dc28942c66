package plan

import (
	"fmt"
	"slices"
	"strings"
)

// notSurveyed says what a survey may hold and this one does not, so that
// nobody takes silence for absence.
func notSurveyed(b *Building) []string {
	h := b.House
	missing := []string{}
	add := func(say bool, what string) {
		if say {
			missing = append(missing, what)
		}
	}
	outdoors := b.outdoorsSurveyed()
	add(!outdoors, "the outdoors: yard, walk, drive, street")
	add(outdoors && len(b.publicGround()) > 0, "the public way: no street or lane")
	add(outdoors && len(h.Lots) == 0, "the property line")
	add(!h.GradeSaid, "the elevation of the ground")
	for f := range functionCount {
		add(functions[f].service && !b.surveyed(f), f.String())
	}
	for _, use := range []string{"drain_stack", "water_entry"} {
		add(!slices.ContainsFunc(h.Fixtures, func(f Fixture) bool { return f.Use == use }), words(use))
	}
	add(!slices.ContainsFunc(h.Walls, func(w WallMark) bool { return w.Bearing }), "bearing walls: none is marked")
	for _, gap := range gaps(h) {
		add(len(gap.ids) > 0, gap.String())
	}
	return missing
}

// gap is a measure that some features lack.
type gap struct {
	what string
	ids  []string
	of   int // features that could have it
}

func (g gap) String() string {
	if len(g.ids) == g.of && g.of > 3 {
		return fmt.Sprintf("%s: of none of %d", g.what, g.of)
	}
	return fmt.Sprintf("%s: of %s", g.what, strings.Join(g.ids, ", "))
}

// gaps lists, measure by measure, the features that lack it.
func gaps(h *House) []gap {
	doorHeight, leaf := gap{what: "height of doors and openings"}, gap{what: "leaf of doors"}
	for _, d := range h.Doors {
		doorHeight.note(d.ID, d.Height > 0)
		if !d.Opening {
			leaf.note(d.ID, d.Leaf != NoLeaf)
		}
	}
	windowHeight, operation, clear := gap{what: "height of windows"}, gap{what: "how windows open"}, gap{what: "net clear opening of windows"}
	for _, w := range h.Windows {
		windowHeight.note(w.ID, w.Height > 0)
		operation.note(w.ID, w.Operation != "")
		if w.Operation != "fixed" {
			clear.note(w.ID, w.ClearSaid)
		}
	}
	risers, width := gap{what: "risers of flights"}, gap{what: "width of flights"}
	for _, s := range h.Stairs {
		risers.note(s.ID, s.Risers > 0)
		width.note(s.ID, s.Width > 0)
	}
	return []gap{doorHeight, leaf, windowHeight, operation, clear, risers, width}
}

func (g *gap) note(id string, has bool) {
	g.of++
	if !has {
		g.ids = append(g.ids, id)
	}
}
