package plan

// Use is what a space is for.
type Use string

// The uses of a space.
const (
	Entry      Use = "entry"
	Hall       Use = "hall"
	Living     Use = "living"
	Family     Use = "family"
	Dining     Use = "dining"
	Kitchen    Use = "kitchen"
	Bedroom    Use = "bedroom"
	Bathroom   Use = "bathroom"
	PowderRoom Use = "powder_room"
	Laundry    Use = "laundry"
	Closet     Use = "closet"
	Storage    Use = "storage"
	Pantry     Use = "pantry"
	Office     Use = "office"
	Mechanical Use = "mechanical"
	Unfinished Use = "unfinished"
	Garage     Use = "garage"
	Carport    Use = "carport"
	Sunroom    Use = "sunroom"
	Porch      Use = "porch"
	Deck       Use = "deck"
	Balcony    Use = "balcony"
	Patio      Use = "patio"
	Yard       Use = "yard"
	Drive      Use = "drive"
	Walk       Use = "walk"
	Parking    Use = "parking"
	Street     Use = "street"
	Lane       Use = "lane"
)

// trait is what follows from a use alone.
type trait struct {
	outdoor   bool // open ground or an open structure, on any level
	public    bool // the public way
	deadEnd   bool // nobody passes through it
	divisible bool // may be cut by a new wall or fence unless the survey says otherwise
	unheated  bool
	rough     bool // not finished unless the survey says so
}

var traits = map[Use]trait{
	Entry:      {divisible: true},
	Hall:       {divisible: true},
	Living:     {divisible: true},
	Family:     {divisible: true},
	Dining:     {},
	Kitchen:    {},
	Bedroom:    {deadEnd: true},
	Bathroom:   {deadEnd: true},
	PowderRoom: {deadEnd: true},
	Laundry:    {deadEnd: true},
	Closet:     {deadEnd: true},
	Storage:    {divisible: true},
	Pantry:     {},
	Office:     {},
	Mechanical: {deadEnd: true, divisible: true},
	Unfinished: {divisible: true, rough: true},
	Garage:     {deadEnd: true, divisible: true, unheated: true, rough: true},
	Carport:    {outdoor: true},
	Sunroom:    {unheated: true},
	Porch:      {outdoor: true},
	Deck:       {outdoor: true, divisible: true},
	Balcony:    {outdoor: true},
	Patio:      {outdoor: true, divisible: true},
	Yard:       {outdoor: true, divisible: true},
	Drive:      {outdoor: true, divisible: true},
	Walk:       {outdoor: true},
	Parking:    {outdoor: true, divisible: true},
	Street:     {outdoor: true, public: true},
	Lane:       {outdoor: true, public: true},
}

// Known tells whether u is a use of the survey format.
func (u Use) Known() bool { _, ok := traits[u]; return ok }

// Outdoor tells whether u lies outdoors on any level.
func (u Use) Outdoor() bool { return traits[u].outdoor }

// Public tells whether u is the public way.
func (u Use) Public() bool { return traits[u].public }

// DeadEnd tells whether nobody passes through a space of this use to reach
// anything but its own bathroom or closet.
func (u Use) DeadEnd() bool { return traits[u].deadEnd }
