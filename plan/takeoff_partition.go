package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/assembly"
)

// partitions takes off what is built around machines in a room, and the
// bathrooms built into one: partitions to the ceiling, framed and boarded on both
// sides, and their doors.
func (t *takeOff) partitions() {
	b := t.s.Building
	for i := range t.s.Fits {
		fit := &t.s.Fits[i]
		cell := &b.Cells[fit.Cell]
		for k := range fit.Closets {
			c := &fit.Closets[k]
			w := t.builtFor(fit, c)
			if w == nil {
				continue
			}
			t.from = len(t.rows)
			t.at = Quantity{
				Unit: t.s.Owners[fit.Cell].String(), Level: b.House.Levels[cell.Level].ID, Of: w.ID,
				Cause: "partitions in " + cell.ID + " for " + words(w.Kind),
			}
			for _, p := range append(c.Ends[:], c.Front...) {
				t.partition(p, c.Thickness, cell.Ceiling-cell.Floor)
			}
			wide := c.Doors.Length()
			if len(c.Front) == 0 {
				t.add("folding doors", fmt.Sprintf("%.0f x %.0f mm", 1000*wide, 1000*newDoorLeaf), "sets", 1, 0, byCount)
				continue
			}
			t.doorSet(innerDoor, wide, newDoorLeaf, WoodFrame, 1)
			t.add("latch or lock", "", "sets", 1, 0, byCount)
		}
	}
}

// builtFor is the work for whose fixtures a closet is built.
func (t *takeOff) builtFor(fit *Fit, c *BuiltCloset) *Work {
	cell := t.s.Building.Cells[fit.Cell].ID
	for _, x := range fit.Fixtures {
		f := servedBy(x.Use)
		if c.Region.Contains(x.Footprint.Bounds().Centre()) != geom.Inside || f == functionCount {
			continue
		}
		i := slices.IndexFunc(t.s.Works, func(w Work) bool { return w.Kind == functions[f].work && slices.Contains(w.Spaces, cell) })
		if i >= 0 {
			return &t.s.Works[i]
		}
	}
	return nil
}

// partition takes off one partition of a height in metres, given as it stands
// on the floor.
func (t *takeOff) partition(r geom.Region, thickness, height float64) {
	f := &takeOffFigures
	length := r.AreaM2() / thickness
	board := assembly.NewLayer(assembly.GypsumRegular, partitionBoard, 0)
	sheets, size := sheetsOf(board, 2*length*height, assembly.Wall, height)
	t.add(string(assembly.GypsumRegular), size, "sheets", sheets, f.SheetWaste.Value, f.SheetLengths.Source)
	t.add(string(assembly.Studs), studSize(assembly.StudDepth, height), "pieces", float64(StudsAlong(length, assembly.Close)), f.StudWaste.Value, f.StudWaste.Source)
	t.add("plates", fmt.Sprintf("38 x %g mm", millimetresOf(assembly.StudDepth)), "m", f.Plates.Value*length, f.StudWaste.Value, f.Plates.Source)
	t.jointing(2*length*height, sheets)
}

// partitionBoard is the board of a partition that separates nothing: 12.7 mm,
// moisture-resistant in a bathroom (common practice, no source).
const partitionBoard = 0.0127
