package rules

import (
	"math"
	"strconv"
)

// Lengths says in which units a set speaks.
type Lengths string

// How sets speak.
const (
	Metric     Lengths = "metric" // millimetres, metres and square metres
	FeetInches Lengths = "feet"   // inches, feet and square feet
)

// Text writes a value of a quantity in the set's units. Where it does not meet
// a limit, as many decimals are shown as keep it from looking as if it did.
func (s *Set) Text(q Quantity, value float64) string {
	unit, decimals := s.unit(q, value)
	return written(value, unit, decimals)
}

// Provided writes a value beside the limit of a figure, in the figure's unit.
// The text never hides on which side of the limit the value lies.
func (f Figure) Provided(value float64) string {
	if f.Quantity == Truth {
		if value != 0 {
			return "yes"
		}
		return "no"
	}
	limit := f.Value()
	holds := f.Meets(value)
	for decimals := leastDecimals(f.Limit.Unit); ; decimals++ {
		text := written(value, f.Limit.Unit, decimals)
		shown, err := ParseMeasure(text, f.Quantity)
		same := math.Abs(shown.Value()-limit) < tinyTolerance
		if err != nil || decimals >= mostDecimals || (holds && (same || f.Meets(shown.Value()))) || (!holds && !same && !f.Meets(shown.Value())) {
			return text
		}
	}
}

// mostDecimals is more than any unit needs to show a tolerance of 0.02 mm.
const mostDecimals = 7

// leastDecimals is how many decimals of a unit a reader wants.
func leastDecimals(unit string) int {
	switch unit {
	case "m", "m2", "ft2", "ft":
		return 2
	case "in", "cm", "%", "deg":
		return 1
	}
	return 0
}

// unit gives the unit in which the set writes a value.
func (s *Set) unit(q Quantity, value float64) (unit string, decimals int) {
	feet := s.Lengths == FeetInches
	switch {
	case q == Length && feet && value < 3:
		unit = "in"
	case q == Length && feet:
		unit = "ft"
	case q == Length && value < 3:
		unit = "mm"
	case q == Length:
		unit = "m"
	case q == Area && feet:
		unit = "ft2"
	case q == Area:
		unit = "m2"
	case q == Share:
		unit = "%"
	case q == Time:
		unit = "min"
	case q == Angle:
		unit = "deg"
	}
	return unit, leastDecimals(unit)
}

// written writes a value in a unit, without zeros at its end.
func written(value float64, unit string, decimals int) string {
	factor := Measure{Number: 1, Unit: unit}.Value()
	scale := math.Pow10(decimals)
	n := math.Round(value/factor*scale) / scale
	text := strconv.FormatFloat(n, 'f', -1, 64)
	if n == 0 {
		text = "0"
	}
	if unit == "" {
		return text
	}
	return text + " " + unit
}
