package plan

import "moiety/geom"

// House is a checked survey: ids are unique, levels exist, rings are valid
// and wound, spaces of one level do not overlap. Slices keep the order of the
// file. Indices into Levels stand for levels.
type House struct {
	Name      string
	Unit      LengthUnit // of the file; everything here is in metres
	North     float64    // true north, degrees clockwise from +y
	Grade     float64    // elevation of the ground at the house
	GradeSaid bool       // false: no outdoor level and no grade in the file
	Levels    []Level
	Spaces    []Space
	Stairs    []Stair
	Doors     []Door // doors and cased openings
	Windows   []Window
	Walls     []WallMark
	Fixtures  []Fixture
	Lots      []Lot
	Divisions []Division   // where spaces have been parted; none in a survey
	Opened    []OpenedWall // walls that the brief has opened; none in a survey
	Warnings  []Warning    // what was mended or assumed while reading
	SHA256    string       // of the bytes read, lower-case hex
}

// LengthUnit is the unit of a survey file.
type LengthUnit string

// The units a survey may be given in.
const (
	Metres LengthUnit = "m"
	Feet   LengthUnit = "ft" // international foot, 0.3048 m
)

// PerMetre is how many of the unit make a metre.
func (u LengthUnit) PerMetre() float64 {
	if u == Feet {
		return 1 / 0.3048
	}
	return 1
}

// Warning says what was mended or assumed, and where.
type Warning struct {
	Feature string // id, or "" for the whole file
	Message string // a sentence that names the place
}

// Level is one floor level.
type Level struct {
	ID, Name string
	Floor    float64 // elevation of the finished floor
	Height   float64 // floor to ceiling; 0 outdoors
	Outdoor  bool
}

// Space is a room, or a piece of ground outdoors, at the inside faces of its walls.
type Space struct {
	ID, Name  string
	Of        string // of a piece: the id of the space; "" of a space as surveyed
	Use       Use
	Also      []Use
	Level     int
	Region    geom.Region
	Floor     float64 // elevation: the level's, unless the space says otherwise
	Height    float64 // floor to ceiling; 0 outdoors
	Outdoor   bool    // ground, or a use that is outdoors on any level (a porch, a deck)
	Heated    bool
	Finished  bool
	Divisible bool
	Through   bool // a dead end by its use that is the only way to another room; Build finds it
}

// Stair is one flight.
type Stair struct {
	ID, Name string
	Level    int // of its foot
	To       int // of its head
	Region   geom.Region
	Walk     []geom.Pt // from foot to head, at least two points
	Risers   int       // 0: not surveyed
	Width    float64   // 0: not surveyed
}

// Leaf says how a door opens.
type Leaf string

// The leaves of a door. A cased opening has none.
const (
	NoLeaf   Leaf = ""
	Single   Leaf = "single"
	Double   Leaf = "double"
	Sliding  Leaf = "sliding"
	Pocket   Leaf = "pocket"
	Bifold   Leaf = "bifold"
	Overhead Leaf = "overhead"
)

// Door is a door or a cased opening, drawn jamb to jamb along its wall.
type Door struct {
	ID            string
	Level         int
	Line          geom.Segment
	Opening       bool    // cased opening: no leaf
	Height        float64 // 0: not surveyed
	Leaf          Leaf
	HingeAtEnd    bool   // hinge at the end of the line, not at its start
	OpensInto     string // space id; "" not surveyed
	RatingMinutes int
}

// Window is drawn along its wall.
type Window struct {
	ID                    string
	Level                 int
	Line                  geom.Segment
	Sill, Height          float64
	Operation             string // "" not surveyed
	Clear                 [2]float64
	ClearSaid             bool
	WellProjection, Width float64 // of a well; 0 none
	WellSaid              bool
}

// WallMark marks the wall that its line runs along.
type WallMark struct {
	ID      string
	Level   int
	Line    []geom.Pt
	Bearing bool
}

// Fixture is a plumbing, cooking, heating or service fixture.
type Fixture struct {
	ID        string
	Use       string
	Level     int
	At        geom.Pt
	Footprint *geom.Region // nil where surveyed as a point
	CapacityL float64      // of a tank; 0 not surveyed
}

// Lot is the property line.
type Lot struct {
	ID     string
	Level  int
	Region geom.Region
}
