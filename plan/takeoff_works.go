package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/plan/assembly"
)

// work takes off one of the works that are no separating surface.
func (t *takeOff) work(w *Work) {
	f := &takeOffFigures
	t.from = len(t.rows)
	unit := w.Unit
	if unit == "" {
		unit = t.unitOf(w)
	}
	t.at = Quantity{Unit: unit, Level: w.Level, Of: w.ID, Cause: strings.TrimSpace(words(w.Kind) + " " + strings.Join(w.Spaces, " | "))}
	count := float64(max(w.Count, 1))
	switch w.Kind {
	case "seal_door", "seal_opening":
		t.infill(w, count)
	case "new_door", "new_entry":
		t.door(w, count)
	case "new_window", "enlarge_window":
		t.window(w, count)
	case "window_well":
		t.add("window well", "", "sets", count, 0, byCount)
	case "fence":
		posts := math.Ceil(w.LengthM/f.PostSpacing.Value-memberTolerance) + 1
		t.add("fence posts", "", "pieces", posts, 0, f.PostSpacing.Source)
		t.add("fence rails", "", "m", f.FenceRails.Value*w.LengthM, f.StudWaste.Value, f.FenceRails.Source)
		t.add("fence boards", "", "m", w.LengthM, 0, byMeasure)
		if gates := t.gates(w); gates > 0 {
			t.add("gate", "", "sets", gates, 0, byCount)
		}
	case "remove_wall":
		t.add("wall taken down", "", "m2", w.AreaM2, 0, byMeasure)
		t.beam(w.Of)
	case "new_furnace", "new_water_heater", "new_panel":
		t.add(strings.TrimPrefix(words(w.Kind), "new "), "", "sets", count, 0, byCount)
	case "new_meter":
		name := "meter"
		if i := slices.IndexFunc(t.s.Building.House.Fixtures, func(f Fixture) bool { return f.ID == w.Of }); i >= 0 {
			name = words(t.s.Building.House.Fixtures[i].Use)
		}
		t.add(name, "", "sets", count, 0, byCount)
	case "address_set":
		for _, name := range []string{"address number", "mailbox", "doorbell"} {
			t.add(name, "", "sets", count, 0, byCount)
		}
	}
}

// gates counts the new gates between the two pieces of ground that a fence parts.
func (t *takeOff) gates(w *Work) float64 {
	n := 0.0
	for _, p := range t.s.Passages {
		if p.Type == "gate" && p.State == New && len(w.Spaces) == 2 && samePair(p.Between, [2]string(w.Spaces)) {
			n++
		}
	}
	return n
}

// flooring takes off the floors of rooms that change: those that are finished,
// and those that get another use.
func (t *takeOff) flooring() {
	f := &takeOffFigures
	finished := map[string]bool{}
	add := func(c int, area float64, cause, of string) {
		t.from = len(t.rows)
		cell := &t.s.Building.Cells[c]
		t.at = Quantity{Unit: t.s.Owners[c].String(), Level: t.s.Building.House.Levels[cell.Level].ID, Of: of, Cause: cause}
		t.add("flooring", "", "m2", area, f.Flooring.Value, f.Flooring.Source)
	}
	for i := range t.s.Works {
		w := &t.s.Works[i]
		if w.Kind != "finish_space" || len(w.Spaces) == 0 || finished[w.Spaces[0]] {
			continue
		}
		if c := t.s.Building.CellNamed(w.Spaces[0]); c >= 0 {
			finished[w.Spaces[0]] = true
			add(c, w.AreaM2, words(w.Kind)+" "+w.Spaces[0], w.ID)
		}
	}
	for c := range t.s.Building.Cells {
		cell := &t.s.Building.Cells[c]
		if !cell.Flight && !cell.Outdoor && t.s.Owners[c] <= Common && t.s.Uses[c] != cell.usedAs() && !finished[cell.ID] {
			add(c, t.s.AfterM2(c), fmt.Sprintf("%s becomes %s", cell.ID, words(string(t.s.Uses[c]))), "")
		}
	}
}

// fixtures counts the fixtures that are new, by use.
func (t *takeOff) fixtures() {
	for _, x := range t.s.Fixtures {
		if x.State != New {
			continue
		}
		switch x.Use {
		case "furnace", "boiler", "water_heater", "electrical_panel":
			continue // the works count them
		}
		t.from = len(t.rows)
		unit := x.Unit
		if unit == "" {
			unit = bothText
		}
		t.at = Quantity{Unit: unit, Level: t.s.Building.House.Levels[x.Level].ID, Cause: "new fixture " + x.ID}
		t.add(words(x.Use), "", "pieces", 1, 0, byCount)
	}
}

// unitOf is the unit whose rooms alone a work is in, "both" where they are of
// both or of neither.
func (t *takeOff) unitOf(w *Work) string {
	unit := ""
	for _, id := range w.Spaces {
		c := t.s.Building.CellNamed(id)
		if c < 0 || t.s.Building.Cells[c].Outdoor && len(w.Spaces) > 1 {
			continue
		}
		if owner := t.s.Owners[c]; owner > UnitB || unit != "" && unit != owner.String() {
			return bothText
		}
		unit = t.s.Owners[c].String()
	}
	if unit == "" {
		return bothText
	}
	return unit
}

// infill takes off what fills the frame of a sealed door or opening. Its
// boards are those of the separating wall that it lies in, whose face is
// measured over it; in an outer wall they come with it.
func (t *takeOff) infill(w *Work, count float64) {
	f := &takeOffFigures
	width, height := 0.0, newDoorLeaf
	for _, p := range t.s.Passages {
		if p.Of == w.Of {
			width = p.Line.Length()
		}
	}
	if d := t.s.Building.House.door(w.Of); d != nil {
		if width = d.Line.Length(); d.Height > 0 {
			height = d.Height
		}
	}
	studs := max(f.InfillStuds.Value, float64(StudsAlong(width, assembly.Close)))
	t.add(string(assembly.Studs), studSize(assembly.StudDepth, height), "pieces", studs*count, f.StudWaste.Value, f.InfillStuds.Source)
	t.add("plates", fmt.Sprintf("38 x %g mm", millimetresOf(assembly.StudDepth)), "m", 2*width*count, f.StudWaste.Value, f.Plates.Source)
	if !t.outer(w) {
		return
	}
	area := width * height * count
	n, size := sheetsOf(assembly.NewLayer(assembly.GypsumRegular, assembly.ThinBoard, 0), area, assembly.Floor, height)
	t.add(string(assembly.GypsumRegular), size, "sheets", n, f.SheetWaste.Value, f.SheetLengths.Source)
	t.add(string(assembly.StoneWool), fmt.Sprintf("%g mm", millimetresOf(assembly.StudDepth)), "m2", area, f.BattWaste.Value, f.BattWaste.Source)
	t.add("outer wall made good: sheathing, membrane and cladding", "", "m2", area, f.PanelWaste.Value, byMeasure)
}

// outer tells whether a work lies in a wall to the outdoors.
func (t *takeOff) outer(w *Work) bool {
	for _, id := range w.Spaces {
		if c := t.s.Building.CellNamed(id); c >= 0 && t.s.Building.Cells[c].Outdoor {
			return true
		}
	}
	return len(w.Spaces) == 1
}
