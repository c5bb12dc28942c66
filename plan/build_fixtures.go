package plan

import (
	"math"

	"moiety/geom"
)

// meters hang on the outside of the house unless they were drawn in a room.
var meters = map[string]bool{"gas_meter": true, "electric_meter": true}

// placeFixtures finds the cell of each fixture: the one that holds it on its
// level or, for what was drawn in a wall, the nearest.
func (b *builder) placeFixtures() error {
	b.FixtureCell = make([]int, len(b.House.Fixtures))
	for i := range b.House.Fixtures {
		f := &b.House.Fixtures[i]
		at := f.At
		if f.Footprint != nil {
			at, _ = geom.VisualCentre(*f.Footprint)
		}
		cell, off := b.nearestCell(at, f.Level)
		switch {
		case cell != Outside && off > 0 && meters[f.Use] && !b.Cells[cell].Outdoor:
			cell = Outside
		case cell == Outside && !meters[f.Use]:
			b.warn(f.ID, "the %s at %s lies in no space of level %q", f.Use, b.place(at), b.House.Levels[f.Level].ID)
		}
		b.FixtureCell[i] = cell
	}
	return nil
}

// nearestCell finds the cell of a level that holds p or, within fixtureReach,
// the nearest, indoors before outdoors; of two as near the first by id.
func (b *builder) nearestCell(p geom.Pt, level int) (cell int, off float64) {
	cell, off = Outside, math.Inf(1)
	for _, s := range b.index.Near((geom.Box{Min: p, Max: p}).Grow(geom.Units(fixtureReach))) {
		solid := &b.solids[s]
		if solid.level != level {
			continue
		}
		if solid.Base.Contains(p) == geom.Inside {
			return solid.cell, 0
		}
		d := solid.Base.DistanceToBorder(p)
		if d > fixtureReach {
			continue
		}
		closer := d < off-1e-3
		if cell != Outside && b.Cells[cell].Outdoor != b.outdoor(s) {
			closer = b.Cells[cell].Outdoor && d <= thickest
		}
		if closer {
			cell, off = solid.cell, max(d, 1e-9)
		}
	}
	return cell, off
}

// placeWindows finds the cells on the two sides of each window: first the
// one indoors, then what it looks on. The screen of a porch has no room behind it.
func (b *builder) placeWindows() error {
	b.WindowCells = make([][2]int, len(b.House.Windows))
	for i := range b.House.Windows {
		w := &b.House.Windows[i]
		sill := b.House.Levels[w.Level].Floor + w.Sill
		o := opening{line: w.Line, level: w.Level, sill: sill, head: sill + w.Height, window: true}
		left, right := b.sides(o)
		cells := [2]int{Outside, Outside}
		for k, s := range [...]side{left, right} {
			if s.found() {
				cells[k] = b.solids[s.solid].cell
			}
		}
		if b.outdoorEnd(cells[0]) && !b.outdoorEnd(cells[1]) ||
			b.outdoorEnd(cells[0]) == b.outdoorEnd(cells[1]) && (cells[0] == Outside || cells[1] != Outside && cells[1] < cells[0]) {
			cells[0], cells[1] = cells[1], cells[0]
		}
		switch where := b.House.Levels[w.Level].ID; {
		case cells[0] == Outside:
			b.problems.add(nil, w.ID, "the window at %s on level %q lies in the wall of no room", b.place(w.Line.Mid()), where)
		case b.Cells[cells[0]].Outdoor:
			b.warn(w.ID, "the window at %s on level %q has %s on one side and no room on the other", b.place(w.Line.Mid()), where, b.Cells[cells[0]].ID)
		}
		b.WindowCells[i] = cells
	}
	return nil
}
