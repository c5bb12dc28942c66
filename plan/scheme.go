package plan

import "moiety/geom"

// Owner says whose a cell is.
type Owner uint8

// The owners of a cell. A cell that no passage reaches, and the public way, are Nobodys.
const (
	UnitA Owner = iota
	UnitB
	Common
	Nobody
)

// String gives the owner as the result files write it.
func (o Owner) String() string { return [...]string{"A", "B", "common", "none"}[o] }

// State says what happens to a wall, passage, floor, window or fixture.
type State string

// The states of the parts of a divided house.
const (
	Existing   State = "existing"
	Kept       State = "kept"
	Sealed     State = "sealed"
	New        State = "new"
	Separating State = "separating"
	Removed    State = "removed"
	Enlarged   State = "enlarged"
)

// Scheme is one way to divide the house, with its price and its proof.
// Indices into Building.Cells and Building.Links stand for cells and links.
// Building has the spaces as the scheme divides them, Whole as surveyed; they
// are the same where it divides none.
type Scheme struct {
	ID       string
	Building *Building
	Whole    *Building
	Brief    *Brief
	Owners   []Owner // per cell
	Uses     []Use   // per cell: the use it has in this scheme
	Also     [][]Use // per cell: its further uses in this scheme
	Proved   bool
	Bound    float64 // proven lower bound of the cost among schemes with no more shared elements
	Gap      float64 // (cost - bound) / cost
	Cost     Cost
	Units    [2]Unit
	Shared   []Shared
	Works    []Work
	Passages []Passage
	Walls    []WallRun
	Floors   []FloorRun
	Fits     []Fit // of the cells that take something on, by cell
	Fixtures []PlacedFixture
	Windows  []PlacedWindow
	Alarms   []Alarm         // that the rule set asks for
	Findings []Finding       // of the rule set that the brief asks for
	Services []Service       // heat, hot water, power, air and drains of both units
	Noise    []NoiseConflict // across the separation, the loudest first

	// What the separation is built of, what that takes off the rooms, and where
	// it is weaker: BuildUps by tag, Linings by cell.
	BuildUps   []BuildUp
	Linings    []Lining
	WeakPoints []WeakPoint
}

// Cost in the price file's currency.
type Cost struct{ Total, Works, Priorities float64 }

// Unit is one of the two suites.
type Unit struct {
	ID, Name                         string
	Cells                            []int // all its cells, by id
	NetM2, GrossM2, AboveM2, BelowM2 float64
	Bedrooms                         int
	Bathrooms                        float64 // a powder room counts one half
	Entries                          []string
	OutdoorM2                        float64
	Parking                          int
	LiningM2                         float64  // what thicker separating walls take off NetM2
	Notes                            []string // what was not surveyed, what it lacks
}

// Shared is an element that both units use.
type Shared struct {
	ID, Use  string
	Accepted bool
	Why      string
	Cure     string
}

// Work is one thing to build, with its quantity and price.
type Work struct {
	ID      string
	Kind    string
	Unit    string // "A", "B" or "" for both
	Level   string
	Spaces  []string
	Of      string // the survey's door, opening, flight or window it concerns
	LengthM float64
	AreaM2  float64
	Count   int
	Cost    float64
	// Low and High are what it may cost less and more by the price file's spread;
	// both 0 until they are worked out.
	Low, High float64
	Line      []geom.Pt
	Note      string
}

// Passage is a way between two cells as the scheme leaves it.
type Passage struct {
	Of      string
	Between [2]string // cell ids, or one and "outside"
	Type    string    // door, opening, open, stair, gate
	State   State
	Level   int
	Line    geom.Segment
	Door    *Door  // how to draw it: surveyed or new; nil for open boundaries
	Entry   string // unit whose entry door it is, "" otherwise
}

// WallRun is a stretch of wall as the scheme leaves it.
type WallRun struct {
	Between   [2]string
	Level     int
	Line      geom.Segment // centre line
	Thickness float64
	Height    float64
	State     State
	Fence     bool // outdoors: a fence, not a wall
	BuildUp   string
}

// FloorRun is a floor between two cells as the scheme leaves it.
type FloorRun struct {
	Below, Above string
	Region       geom.Shape
	State        State
	BuildUp      string
}

// PlacedFixture is a fixture, surveyed or new.
type PlacedFixture struct {
	Fixture
	Unit  string
	State State
}

// PlacedWindow is a window, surveyed or new.
type PlacedWindow struct {
	Window
	Cell  string // id of the indoor cell that it lights, "" none
	Unit  string
	State State
}
