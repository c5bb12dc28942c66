package services

import (
	"fmt"
	"slices"
)

// Code is the family of codes whose fixture units are counted.
type Code int

// The families.
const (
	IRC Code = iota // US
	NPC             // Canada
)

const drainageCaution = "Fixture units size drains, they do not say that a drain is there: a licensed plumber traces it, its fall and its vents."

// Fixtures are numbers of fixtures by use: "wc", "basin", "bath", "shower",
// "sink", "washer", "dishwasher".
type Fixtures map[string]int

// Drainage are the fixture units that fixtures put on a drain. A fixture that
// the code's table here does not list is counted as none and said so.
func Drainage(fixtures Fixtures, code Code) Result {
	table := figures.IRC
	if code == NPC {
		table = figures.NPC
	}
	sum := Result{Method: "drainage fixture units, " + table.Standard, Unit: "fixture units", Caution: drainageCaution}
	var uses []string
	for use, n := range fixtures {
		if n > 0 {
			uses = append(uses, use)
		}
	}
	slices.Sort(uses)
	for _, use := range uses {
		units, listed := table.Value[use]
		from := fmt.Sprintf("%d x %g", fixtures[use], units)
		switch {
		case use == "dishwasher" && code == IRC && fixtures["sink"] > 0:
			from = fmt.Sprintf("%d, in the kitchen group with its sink, from memory", fixtures[use])
		case !listed:
			from = fmt.Sprintf("%d, not in the table here", fixtures[use])
		}
		sum.Value += sum.add(use, from, float64(fixtures[use])*units, "fixture units")
	}
	sum.rest(table.Source)
	return sum
}

// Branch is the least nominal diameter in inches of a horizontal branch that
// takes the fixture units, and never less than 3 in where a water closet is on
// it; beyond the table ok is false.
func Branch(units float64, waterCloset bool) (inches float64, ok bool) {
	for _, pipe := range figures.Branches.Value {
		if units <= pipe.To && (!waterCloset || pipe.Inches >= leastForWC) {
			return pipe.Inches, true
		}
	}
	return 0, false
}

// leastForWC is the least diameter in inches of a drain with a water closet on
// it: common practice, no source.
const leastForWC = 3

// BuildingDrain is the least nominal diameter in inches of the drain that takes
// the fixture units out of the house at a slope of 1 in 48; beyond the table ok is false.
func BuildingDrain(units float64) (inches float64, ok bool) {
	for _, pipe := range figures.BuildingDrain.Value {
		if units <= pipe.To {
			return pipe.Inches, true
		}
	}
	return 0, false
}
