package plan

import "moiety/plan/assembly"

// Targets are what a separating wall or floor is to reach: the greater of what
// the rule set and the brief ask.
type Targets struct {
	FireMinutes int
	STC         int
	IIC         int    // of floors; 0 asks nothing
	From        string // a sentence: who asks for what
}

// BuildUp is one separating build-up that a scheme uses, with the surfaces
// that are built so.
type BuildUp struct {
	Tag      string // SW1, SW2 of walls, SF1, SF2 of floors: WallRun.BuildUp, FloorRun.BuildUp
	Assembly assembly.Assembly
	// Layers are the assembly's layers in their order, each existing or new. A
	// wall's run from its first face, of the cells that FirstFace names, to its
	// second; a floor's from the top down.
	Layers    []BuildUpLayer
	Removed   []assembly.Layer // what is taken off before, as the boards of an opened side
	Start     string           // what is there: "stud wall, 114 mm, ...", "nothing: a new wall"
	Targets   Targets
	Bearing   bool   // rated as one that bears, or may: a wall that nobody says bears nothing; every floor
	Meets     bool   // reaches its targets
	Shortfall string // a sentence: what it does not reach, "" where it does
	Surfaces  []BuildUpSurface
	AreaM2    float64 // of all its surfaces
	LengthM   float64 // of walls
	CostPerM2 float64 // by the price file's layers: what it was chosen by
	// Gain is how far it grows beyond what is there: into the room of its first
	// face (a floor: upwards) and into that of its second (downwards), metres.
	Gain                               [2]float64
	Head, Base, Junction, Penetrations string // notes for its detail
}

// BuildUpLayer is a layer of a build-up: Existing or New.
type BuildUpLayer struct {
	assembly.Layer
	State State
}

// BuildUpSurface is one wall or floor that is built so. Of a wall, the first
// face is that of Between[0]; of a floor, Between is the cell below and the
// cell above.
type BuildUpSurface struct {
	Between [2]string
	Level   int
	LengthM float64
	AreaM2  float64
	Work    string // the kind of work that makes it
}
