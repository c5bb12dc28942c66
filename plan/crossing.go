package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"moiety/geom"
)

// CrossingKind says what passes through the separation.
type CrossingKind string

// The kinds of crossing.
const (
	DrainCrossing  CrossingKind = "drain"  // wastes that leave through a separating floor
	StackCrossing  CrossingKind = "stack"  // a stack that goes on up through the other unit
	FlueCrossing   CrossingKind = "flue"   // of what burns fuel under the other unit
	DuctCrossing   CrossingKind = "ducts"  // of a furnace that heated the whole house
	WaterCrossing  CrossingKind = "water"  // from the one water entry to the other unit
	FlightCrossing CrossingKind = "flight" // a flight that is closed off
	DoorCrossing   CrossingKind = "door"   // a door in the separation
)

// Crossing is a place where something passes, or may pass, through what
// separates the units: to be traced, stopped and sealed. Pipes and ducts were
// not surveyed: a crossing follows from where fixtures and plant stand and
// whose the rooms above and below are.
type Crossing struct {
	Kind  CrossingKind
	Unit  string // whose it is: "A" or "B", "" of both
	Level int
	At    geom.Pt
	Of    []string // ids of the fixtures, the flight or the door
	Note  string   // a phrase: what it is and where it leads
}

// drained are the fixtures that have a waste.
var drained = []string{"sink", "dishwasher", "washer", "basin", "bath", "shower", "wc"}

// Crossings lists where services and ways pass through the separation, by
// level from the lowest, then by kind.
func (s *Scheme) Crossings() []Crossing {
	var out []Crossing
	cells := s.fixtureCells()
	for c := range s.Building.Cells {
		if cell := &s.Building.Cells[c]; !cell.Flight && !cell.Outdoor && (s.Owners[c] == UnitA || s.Owners[c] == UnitB) {
			out = append(out, s.cellCrossings(c, cells)...)
		}
	}
	out = append(out, s.sharedCrossings(cells)...)
	out = append(out, s.passageCrossings()...)
	levels := s.Building.House.Levels
	slices.SortStableFunc(out, func(a, b Crossing) int {
		return cmp.Or(cmp.Compare(levels[a.Level].Floor, levels[b.Level].Floor), cmp.Compare(a.Level, b.Level))
	})
	return out
}

// fixtureCells gives, per fixture, the cell it stands in, or Outside.
func (s *Scheme) fixtureCells() []int {
	b := s.Building
	out := make([]int, len(s.Fixtures))
	for i, f := range s.Fixtures {
		out[i] = Outside
		for k, old := range b.House.Fixtures {
			if old.ID == f.ID {
				out[i] = b.FixtureCell[k]
			}
		}
		for _, fit := range s.Fits {
			if slices.ContainsFunc(fit.Fixtures, func(n Fixture) bool { return n.ID == f.ID }) {
				out[i] = fit.Cell
			}
		}
	}
	return out
}

// place is the middle of a fixture.
func (f Fixture) place() geom.Pt {
	if f.Footprint != nil {
		return f.Footprint.Bounds().Centre()
	}
	return f.At
}

// across finds the cell on the other side of the separating floor under, or
// over, a place of a cell.
func (s *Scheme) across(cell int, at geom.Pt, over bool) (int, bool) {
	id := s.Building.Cells[cell].ID
	for _, f := range s.Floors {
		this, that := f.Above, f.Below
		if over {
			this, that = that, this
		}
		if f.State != Separating || this != id || f.Region.Contains(at) == geom.Out {
			continue
		}
		if other := s.Building.CellNamed(that); other >= 0 {
			return other, true
		}
	}
	return Outside, false
}

// cellCrossings are the wastes, stacks and flues of a cell.
func (s *Scheme) cellCrossings(cell int, cells []int) []Crossing {
	var out []Crossing
	c := &s.Building.Cells[cell]
	unit := s.Owners[cell].String()
	var wastes []Fixture
	var stack *Fixture
	under := Outside
	for i := range s.Fixtures {
		f := &s.Fixtures[i]
		if cells[i] != cell || f.State == Removed {
			continue
		}
		switch below, ok := s.across(cell, f.place(), false); {
		case !ok:
		case slices.Contains(drained, f.Use):
			wastes, under = append(wastes, f.Fixture), below
		case f.Use == "drain_stack":
			stack, under = &f.Fixture, below
		}
		above, ok := s.across(cell, f.place(), true)
		if !ok {
			continue
		}
		switch {
		case f.Use == "drain_stack":
			out = append(out, Crossing{Kind: StackCrossing, Unit: unit, Level: c.Level, At: f.place(), Of: []string{f.ID},
				Note: fmt.Sprintf("stack, goes on up into %s", s.roomOf(above))})
		case slices.Contains(burners, f.Use) && (s.Brief == nil || s.Brief.Conditions.MayBurnFuel()):
			out = append(out, Crossing{Kind: FlueCrossing, Unit: unit, Level: c.Level, At: f.place(), Of: []string{f.ID},
				Note: fmt.Sprintf("flue of %s, where it rises through %s: in a shaft of its own, or out through the wall", worded(f.Use), s.roomOf(above))})
		}
	}
	if len(wastes) == 0 && stack == nil {
		return out
	}
	drain := Crossing{Kind: DrainCrossing, Unit: unit, Level: c.Level}
	var names []string
	for _, w := range wastes {
		drain.Of = append(drain.Of, w.ID)
		if name := worded(w.Use); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	switch {
	case stack != nil:
		drain.Of = append(drain.Of, stack.ID)
		drain.At = stack.place()
		names = append(names, "stack")
	default:
		first := slices.IndexFunc(wastes, func(f Fixture) bool { return f.Use == "wc" })
		drain.At = wastes[max(first, 0)].place()
	}
	drain.Note = fmt.Sprintf("drains of %s, down through the floor over %s", strings.Join(names, ", "), s.roomOf(under))
	return append([]Crossing{drain}, out...)
}

// sharedCrossings are what served the whole house from one unit: the ducts of
// its furnace and the water from its entry.
func (s *Scheme) sharedCrossings(cells []int) []Crossing {
	var out []Crossing
	ducts := slices.ContainsFunc(s.WeakPoints, func(w WeakPoint) bool { return w.Kind == "ducts" })
	for i, f := range s.Fixtures {
		if cells[i] < 0 || f.State == New || f.State == Removed || s.Owners[cells[i]] > UnitB {
			continue
		}
		unit, other := s.Owners[cells[i]], UnitA+UnitB-s.Owners[cells[i]]
		switch {
		case f.Use == "furnace" && ducts:
			out = append(out, Crossing{Kind: DuctCrossing, Level: f.Level, At: f.place(), Of: []string{f.ID},
				Note: fmt.Sprintf("ducts from the furnace in unit %s into unit %s: each to be cut off and capped at the separation", unit, other)})
		case f.Use == "water_entry":
			out = append(out, Crossing{Kind: WaterCrossing, Level: f.Level, At: f.place(), Of: []string{f.ID},
				Note: fmt.Sprintf("water from its entry in unit %s to unit %s: with a valve that unit %s reaches", unit, other, other)})
		}
	}
	return out
}

// passageCrossings are flights that are closed off and doors in the separation.
func (s *Scheme) passageCrossings() []Crossing {
	var out []Crossing
	for _, p := range s.Passages {
		if !s.separates(p.Between[:]) {
			continue
		}
		switch {
		case p.Type == "stair" && p.State == Sealed:
			out = append(out, Crossing{Kind: FlightCrossing, Level: p.Level, At: p.Line.Mid(), Of: []string{p.Of},
				Note: fmt.Sprintf("flight closed off between %s and %s: its strings parted from the new wall", s.roomOf(s.Building.CellNamed(p.Between[0])), s.roomOf(s.Building.CellNamed(p.Between[1])))})
		case p.Type == "door" && p.State != Sealed && p.State != Removed && p.Door != nil && s.indoors(p.Between):
			out = append(out, Crossing{Kind: DoorCrossing, Level: p.Level, At: p.Line.Mid(), Of: []string{p.Of},
				Note: fmt.Sprintf("door between %s and %s: rated, self-closing and sealed as the separation asks", s.roomOf(s.Building.CellNamed(p.Between[0])), s.roomOf(s.Building.CellNamed(p.Between[1])))})
		}
	}
	return out
}

func (s *Scheme) indoors(between [2]string) bool {
	for _, id := range between {
		if c := s.Building.CellNamed(id); c < 0 || s.Building.Cells[c].Outdoor {
			return false
		}
	}
	return true
}

// roomOf is a cell by its name, with its unit.
func (s *Scheme) roomOf(cell int) string {
	if cell < 0 {
		return "outdoors"
	}
	c := &s.Building.Cells[cell]
	name := c.Name
	switch {
	case name == "" && c.Flight:
		name = "flight " + c.Of
	case name == "":
		name = worded(string(s.Uses[cell]))
	case s.Uses[cell] != c.Use:
		name = worded(string(s.Uses[cell])) + ", was " + name
	}
	switch o := s.Owners[cell]; o {
	case UnitA, UnitB:
		return name + " (" + o.String() + ")"
	case Common:
		return name + " (shared)"
	}
	return name
}

// worded is a word of the survey format as it is written in a sentence.
func worded(word string) string {
	if word == "wc" {
		return "WC"
	}
	return strings.ReplaceAll(word, "_", " ")
}
