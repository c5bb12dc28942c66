package plan

import (
	"moiety/plan/assembly"
	"moiety/plan/rules"
)

// Brief is what is asked of the two units.
type Brief struct {
	Units      [2]UnitBrief
	Share      []string   // ids, uses of spaces or of fixtures that may stay shared
	Leave      []string   // features that no work may touch
	Rules      string     // id of a rule set, a rule file's path as written, or none; "" for the default set
	RuleSet    *rules.Set // read from the file that Rules names; nil otherwise
	Conditions Conditions // what the survey cannot tell
	Services   ServicesBrief
	Open       []OpenBrief // walls to be opened, see OpenWalls
	Prices     string      // path of a price file, as written; "" for the shipped one
	Priorities Priorities
	Separation SeparationBrief
	BuildUps   string              // path of a file of build-ups, as written; "" for none
	OwnBuildUp []assembly.Assembly // read from the file that BuildUps names
	Return     ReturnBrief
	Schemes    int  // how many different schemes to find
	Cuts       bool // whether divisible spaces may be divided, see Building.Cuts

	source briefSource
	within *frontBounds // where a point of the front is looked for
}

// UnitBrief is what is asked of one unit. Zero values ask nothing.
type UnitBrief struct {
	ID, Name   string // ID is "A" or "B"
	Bedrooms   Range
	AreaMin    float64 // m2 of the unit's indoor cells
	AreaShare  float64 // wanted share of the heated area; 0 none
	Keep       []string
	Avoid      []string
	EntryFrom  string // outdoor space that its entry must open to
	Parking    Range
	OutdoorMin float64 // m2
	Rent       Worth   // per month that it is hoped to bring
	Sale       Worth   // price that it is hoped to bring
}

// Range bounds a count. Max 0 with MaxSaid false is no upper bound.
type Range struct {
	Min, Max int
	MaxSaid  bool
}

// Priorities weigh the terms of the objective that are not works; 1 is the
// price file's own weight, 0 leaves a term out.
type Priorities struct{ Noise, Balance, Walk float64 }

// SeparationBrief is what the separation is to reach beyond the rule set; 0 is
// not said. What neither says is taken cautiously, see defaultSTC and defaultIIC.
type SeparationBrief struct {
	FireMinutes, STC, IIC int
	// Wall and Floor are ids of build-ups that are wanted, of the published rows
	// ("nbc-W4a"), the generic ones ("sound-board") or the brief's own file; "": any.
	Wall, Floor string
}

// ReturnBrief is what cost and return are reckoned with, in the price file's
// currency; 0 is not said.
type ReturnBrief struct {
	AsItIsRent float64 // per month, of the house as it stands
	AsItIsSale float64 // what the house as it stands would sell for
	Running    float64 // share of the rent that taxes, insurance, upkeep and empty months take
}

// Worth is money that a unit is hoped to bring: a sum, so much per m2 of its net
// area and so much per bedroom, together. Zero is not said.
type Worth struct{ Fixed, PerM2, PerBedroom float64 }

// Of is what a unit brings, and whether anything was said.
func (w Worth) Of(u Unit) (money float64, said bool) {
	return w.Fixed + w.PerM2*u.NetM2 + w.PerBedroom*float64(u.Bedrooms), w != Worth{}
}
