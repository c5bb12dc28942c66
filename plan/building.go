package plan

import (
	"math"

	"moiety/geom"
)

// Building is what is worked out from a survey: cells, what joins and parts
// them, and the walls and outlines that are drawn.
type Building struct {
	House  *House
	Cells  []Cell
	Links  []Link
	Walls  []geom.Wall // A and B index Cells
	Levels []LevelShape
	// FixtureCell and WindowCells give, per fixture and window of the house,
	// the cell it belongs to (Outside where none; a window's first is indoors).
	FixtureCell []int
	WindowCells [][2]int
	// ExteriorThickness is the thickness taken for walls that face nothing.
	ExteriorThickness float64
	Warnings          []Warning

	solids []solid // the bodies of the cells, by cell

	fitting fitting // what was found out about conversions
}

// LevelShape is what is drawn of one level.
type LevelShape struct {
	Outline geom.Shape // to the exterior face, and the middle of walls to other levels; empty outdoors
	Mass    geom.Shape // the walls of the level, those to other levels whole, less spaces and flights
}

// Outside stands for the outdoors where no space was surveyed.
const Outside = -1

// Cell is the smallest thing that has one owner: a space, a flight, or a
// piece of a divisible space.
type Cell struct {
	ID      string // the survey's id, or id/1, id/2 for pieces
	Of      string // the survey's id
	Name    string
	Flight  bool
	Use     Use // "" for a flight
	Also    []Use
	Level   int // a flight: the level of its foot
	To      int // a flight: the level of its head; otherwise Level
	Region  geom.Region
	AreaM2  float64
	Floor   float64
	Ceiling float64 // equal to Floor outdoors
	Outdoor bool
	Public  bool // street or lane: nobody's, and everybody's
	Heated  bool
	Through bool // a dead end by its use that people must walk through, see findThroughRooms
}

// LinkKind says what joins or parts two cells.
type LinkKind string

// The kinds of link.
const (
	LinkDoor     LinkKind = "door"     // a door between two cells, or a cell and the outdoors
	LinkOpening  LinkKind = "opening"  // a cased opening
	LinkOpen     LinkKind = "open"     // coinciding edges: open to each other; outdoors a boundary without a fence
	LinkStair    LinkKind = "stair"    // a flight's foot or head
	LinkSide     LinkKind = "side"     // the open long side of a flight or its void: no passage
	LinkWall     LinkKind = "wall"     // a wall between two indoor cells
	LinkFloor    LinkKind = "floor"    // a floor between two indoor cells
	LinkExterior LinkKind = "exterior" // a wall between an indoor cell and an outdoor one, or the outside
)

// Link joins two cells; V may be Outside. Geometry that a kind does not have
// is zero.
type Link struct {
	ID        string // unique, stable under the order of features
	Kind      LinkKind
	U, V      int    // cells, one indoors before one outdoors, else by id; stair, side: U is the flight; floor: U below, V above
	Of        string // the door, opening or stair it was worked out from
	Head      bool   // stair: the head, not the foot
	Level     int
	Line      geom.Segment   // centre line, U on its left; the longest where there are several runs
	Runs      []geom.Segment // of a boundary: all its straight runs, the longest first
	Thickness float64
	Height    float64 // vertical extent shared
	Length    float64 // of all runs together
	AreaM2    float64 // Length x Height less nothing, summed over the runs; floor: the overlap
	Region    geom.Shape
	Rise      float64 // floor of V above floor of U
	Bearing   bool
	Marks     []string // wall features that run along it

	low float64 // elevation from which it rises
}

// Passage tells whether people walk through the link today. A door that opens
// more than a few steps above the ground, with no flight surveyed, is none.
func (l Link) Passage() bool {
	switch l.Kind {
	case LinkDoor, LinkOpening:
		return math.Abs(l.Rise) <= tallestSteps
	case LinkOpen, LinkStair:
		return true
	}
	return false
}
