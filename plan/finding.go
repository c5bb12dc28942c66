package plan

import "moiety/plan/rules"

// Result is what comes of comparing a house with a figure of a rule set.
type Result string

// The results. What the survey cannot tell is not taken to be right or wrong.
const (
	OK          Result = "ok"
	NotOK       Result = "not ok"
	NotSurveyed Result = "not surveyed"
	// Informed is what was measured for information: the set has no figure for it.
	Informed Result = "for information"
)

// Finding is one figure of a rule set compared with one thing of a scheme.
type Finding struct {
	Figure   rules.Figure // which says rule, clause, edition, source and status
	Unit     string       // "A", "B" or "" for both
	Subject  string       // id of a cell, feature or work; of a unit where the whole is meant
	Required string       // in words, in the figure's own unit
	Provided string       // in words, in the figure's own unit; "" where nothing was measured
	// Value is what was measured: metres, square metres, parts of one, minutes,
	// degrees or a count, as the figure's quantity; Measured false: nothing was.
	Value    float64
	Measured bool
	Result   Result
	Note     string // a sentence: how it was measured, what was assumed
	Cure     string // what would put it right, where it is not ok
}

// Binding tells whether the figure is a limit, not advice.
func (f Finding) Binding() bool { return !f.Figure.Advice }

// Conditions are what a survey cannot tell and the brief says. The zero value
// is the cautious one.
type Conditions struct {
	Suite      Suite
	Sprinklers Sprinklers
	Alarms     ExistingAlarms
	Fuel       Fuel
	// SleepingRooms is how many rooms of the house people will sleep in; 0: not
	// said, and then every bedroom is one and nothing else is.
	SleepingRooms int
}

// Suite says what the two units are to each other.
type Suite string

// A house with a secondary suite is let off some of what two equal units must
// have, where a set says so; two equal units, a duplex, is the cautious answer.
const (
	Duplex    Suite = "duplex"
	Secondary Suite = "secondary"
)

// Sprinklers says where there are any.
type Sprinklers string

// Sprinklers count only where they are throughout the house.
const (
	NoSprinklers         Sprinklers = "none"
	SprinklersThroughout Sprinklers = "throughout"
)

// ExistingAlarms says what smoke and carbon monoxide alarms the house has.
type ExistingAlarms string

// Alarms not said are not surveyed.
const (
	AlarmsNotSaid ExistingAlarms = ""
	NoAlarms      ExistingAlarms = "none"
	AloneAlarms   ExistingAlarms = "alone"  // each sounds by itself
	LinkedAlarms  ExistingAlarms = "linked" // one sounds all of the house
)

// Fuel says whether anything in the house burns fuel.
type Fuel string

// A fuel not said is taken to be burnt where there is plant that may burn it.
const (
	FuelNotSaid Fuel = ""
	NoFuel      Fuel = "none" // all electric, or heat from outside
	Gas         Fuel = "gas"
	Oil         Fuel = "oil"
	Solid       Fuel = "solid" // wood, pellets, coal
)

// IsSecondary tells whether one unit is a secondary suite of the other's house.
func (c Conditions) IsSecondary() bool { return c.Suite == Secondary }

// IsSprinklered tells whether there are sprinklers throughout.
func (c Conditions) IsSprinklered() bool { return c.Sprinklers == SprinklersThroughout }

// MayBurnFuel tells whether plant of the house has to be taken to burn fuel.
func (c Conditions) MayBurnFuel() bool { return c.Fuel != NoFuel }
