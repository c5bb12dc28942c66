package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/assembly"
)

// DoorFrame is what a door's frame is made of.
type DoorFrame bool

// The frames of doors.
const (
	WoodFrame  DoorFrame = false
	SteelFrame DoorFrame = true
)

// RoughOpening is the opening in the framing that a door of that leaf takes, in
// metres.
func RoughOpening(width, height float64, frame DoorFrame) (wide, high float64) {
	more := takeOffFigures.RoughWood.Value
	if frame == SteelFrame {
		more = takeOffFigures.RoughSteel.Value
	}
	return width + more[0], height + more[1]
}

// door takes off a new door with what frames its opening: rated, with a closer
// and in a steel frame where it stands in the separation.
func (t *takeOff) door(w *Work, count float64) {
	f := &takeOffFigures
	width, height := t.doorLeaf(w)
	name, frame, closer := innerDoor, WoodFrame, false
	switch {
	case w.Kind == "new_entry":
		name = "entry door with frame and threshold"
	case len(w.Spaces) == 2 && t.s.separates(w.Spaces):
		name, frame, closer = "rated door, solid core, with frame and seals", SteelFrame, true
	}
	wide := t.doorSet(name, width, height, frame, count)
	if closer {
		t.add("door closer", "", "sets", count, 0, byCount)
	}
	t.add("latch or lock", "", "sets", count, 0, byCount)
	link, ok := t.doorLink(w)
	if !ok || w.Kind == "new_entry" && t.s.Building.House.door(w.Of) != nil {
		return // into the frame of an opening that is there
	}
	t.add(string(assembly.Studs), studSize(assembly.StudDepth, link.Height), "pieces", count*f.OpeningStuds.Value, 0, f.OpeningStuds.Source)
	if link.Kind == LinkExterior || link.mayBear() {
		t.add("lintel plies, sized by an engineer", "", "m", count*f.LintelPlies.Value*(wide+lintelEnds), 0, f.LintelPlies.Source)
	}
}

// innerDoor is a door between two rooms of a unit.
const innerDoor = "inner door with frame"

// doorSet takes off doors with their frames, and gives the width in metres of
// the opening that each takes.
func (t *takeOff) doorSet(name string, width, height float64, frame DoorFrame, count float64) (rough float64) {
	source := takeOffFigures.RoughWood.Source
	if frame == SteelFrame {
		source = takeOffFigures.RoughSteel.Source
	}
	wide, high := RoughOpening(width, height, frame)
	t.add(name, fmt.Sprintf("%.0f x %.0f mm, rough opening %.0f x %.0f mm", 1000*width, 1000*height, 1000*wide, 1000*high), "sets", count, 0, source)
	return wide
}

// doorLeaf is the leaf of the door that a work makes, in metres.
func (t *takeOff) doorLeaf(w *Work) (width, height float64) {
	for _, p := range t.s.Passages {
		if p.Of == w.Of && p.Door != nil && w.Of != "" {
			return p.Line.Length(), max(p.Door.Height, newDoorLeaf)
		}
	}
	return ownDoorWidth, newDoorLeaf
}

// doorLink is the wall that a work's new door stands in.
func (t *takeOff) doorLink(w *Work) (Link, bool) {
	if len(w.Line) != 2 || len(w.Spaces) == 0 {
		return Link{}, false
	}
	mid := geom.Segment{A: w.Line[0], B: w.Line[1]}.Mid()
	b := t.s.Building
	for _, l := range b.Links {
		between := []string{b.Cells[l.U].ID}
		if l.V != Outside {
			between = append(between, b.Cells[l.V].ID)
		}
		if l.Kind != LinkWall && l.Kind != LinkExterior || !sameNames(between, w.Spaces) {
			continue
		}
		for _, run := range append([]geom.Segment{l.Line}, l.Runs...) {
			if run.DistanceTo(mid) <= thickest {
				return l, true
			}
		}
	}
	return Link{}, false
}

// sameNames tells whether two short lists hold the same names.
func sameNames(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for _, x := range a {
		found := false
		for _, y := range b {
			found = found || x == y
		}
		if !found {
			return false
		}
	}
	return true
}

// window takes off a window to escape by; one that is new with what frames its
// opening, and one that is cut larger with the opening that it begins from.
func (t *takeOff) window(w *Work, count float64) {
	f := &takeOffFigures
	if i := slices.IndexFunc(t.s.Windows, func(x PlacedWindow) bool { return x.ID == w.Of && x.State == New }); i >= 0 {
		x := &t.s.Windows[i]
		width := x.Line.Length()
		t.add("escape window", fmt.Sprintf("%.0f x %.0f mm", 1000*width, 1000*x.Height), "sets", count, 0, byCount)
		level := &t.s.Building.House.Levels[x.Level]
		t.add(string(assembly.Studs), studSize(assembly.StudDepth, level.Height), "pieces", count*f.OpeningStuds.Value, 0, f.OpeningStuds.Source)
		t.add("lintel plies, sized by an engineer", "", "m", count*f.LintelPlies.Value*(width+lintelEnds), 0, f.LintelPlies.Source)
		return
	}
	size := ""
	for _, x := range t.s.Building.House.Windows {
		if x.ID == w.Of && x.Height > 0 {
			size = fmt.Sprintf("opening now %.0f x %.0f mm", 1000*x.Line.Length(), 1000*x.Height)
		}
	}
	t.add("escape window", size, "sets", count, 0, byCount)
}

// lintelEnds is a stud's thickness of bearing at either end, metres.
const lintelEnds = 2 * 0.038
