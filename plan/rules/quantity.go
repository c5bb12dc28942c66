package rules

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Quantity is what a figure measures.
type Quantity uint8

// The quantities.
const (
	Truth  Quantity = iota // something is asked, or is not
	Length                 // metres
	Area                   // square metres
	Share                  // part of one
	Time                   // minutes
	Angle                  // degrees
	Count
)

// String names the quantity as messages do.
func (q Quantity) String() string {
	return [...]string{"true or false", "a length", "an area", "a share", "a time", "an angle", "a number"}[q]
}

// measureUnit is a unit that figures are written in.
type measureUnit struct {
	name     string
	quantity Quantity
	factor   float64 // exact: international foot and inch
}

var measureUnits = []measureUnit{
	{"m", Length, 1}, {"cm", Length, 0.01}, {"mm", Length, 0.001}, {"ft", Length, 0.3048}, {"in", Length, 0.0254},
	{"m2", Area, 1}, {"ft2", Area, 0.09290304}, {"in2", Area, 0.00064516},
	{"%", Share, 0.01}, {"min", Time, 1}, {"h", Time, 60}, {"deg", Angle, 1}, {"", Count, 1},
}

// Units lists the names of the units of a quantity.
func Units(q Quantity) []string {
	var names []string
	for _, u := range measureUnits {
		if u.quantity == q && u.name != "" {
			names = append(names, u.name)
		}
	}
	return names
}

// Measure is a number with the unit it was written in.
type Measure struct {
	Number float64 // in Unit; of a truth 1 for true, 0 for false
	Unit   string  // "" for a truth and for a count
}

// Value is the measure in the package's unit of its quantity.
func (m Measure) Value() float64 {
	for _, u := range measureUnits {
		if u.name == m.Unit {
			// Dividing by a whole number loses less than multiplying by its inverse.
			if inverse := math.Round(1 / u.factor); u.factor < 1 && inverse*u.factor == 1 {
				return m.Number / inverse
			}
			return m.Number * u.factor
		}
	}
	return m.Number
}

// String gives the measure as it was written: 5.7 ft2, 45 min.
func (m Measure) String() string {
	return strings.TrimSpace(strconv.FormatFloat(m.Number, 'f', -1, 64) + " " + m.Unit)
}

// ParseMeasure reads a number with a unit of the quantity, such as "5.7 ft2",
// "380mm" or "8 %"; a truth is "true" or "false", a count a bare number. The
// error is a sentence for whoever wrote it.
func ParseMeasure(text string, q Quantity) (Measure, error) {
	text = strings.TrimSpace(text)
	if q == Truth {
		switch text {
		case "true":
			return Measure{Number: 1}, nil
		case "false":
			return Measure{}, nil
		}
		return Measure{}, fmt.Errorf("true or false is asked for, not %q", shorten(text))
	}
	digits := strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ%2²")
	// A 2 that ends the number is the number's, not the unit's: 12 in, 0.32 m2.
	for len(digits) < len(text) && text[len(digits)] >= '0' && text[len(digits)] <= '9' {
		digits += text[len(digits) : len(digits)+1]
	}
	unit := strings.TrimSpace(text[len(digits):])
	number, err := strconv.ParseFloat(strings.TrimSpace(digits), 64)
	if err != nil || math.IsInf(number, 0) || math.IsNaN(number) {
		return Measure{}, fmt.Errorf("%s is written as a number and a unit%s, not %q", q, unitList(q), shorten(text))
	}
	if number < 0 || number > largestNumber {
		return Measure{}, fmt.Errorf("%s is out of all proportion", shorten(text))
	}
	for _, u := range measureUnits {
		if u.quantity == q && u.name == unit {
			return Measure{Number: number, Unit: unit}, nil
		}
	}
	if unit == "" {
		return Measure{}, fmt.Errorf("%s needs a unit%s", shorten(text), unitList(q))
	}
	return Measure{}, fmt.Errorf("%q is no unit of %s%s", shorten(unit), q, unitList(q))
}

// largestNumber is beyond any figure in any unit, to find slips.
const largestNumber = 1e6

// unitList names the units of a quantity for a message.
func unitList(q Quantity) string {
	names := Units(q)
	if len(names) == 0 {
		return ""
	}
	return " (" + strings.Join(names, ", ") + ")"
}

func shorten(s string) string {
	const longest = 40
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return s
}

// LengthTolerance is how far a length may miss a limit and still meet it, in
// metres: 0.02 mm, more than what holding both ends in whole hundredths of a
// millimetre can change (0.014 mm), or writing feet with four decimals
// (0.015 mm), and less than anybody measures.
const LengthTolerance = 0.00002

// ShareTolerance is how far a share may miss a limit and still meet it: what
// LengthTolerance on the sides makes of the ratio of two areas of a few square
// metres.
const ShareTolerance = 0.000005

const (
	// angleTolerance is what it makes of the slope of one step, in degrees.
	angleTolerance = 0.005
	// tinyTolerance is that of what is counted: the rounding of floating-point
	// numbers and no more.
	tinyTolerance = 1e-9
)

// tolerance is how far a value of a quantity may miss the limit and still meet
// it. An area's is what LengthTolerance on both sides of a square of that size
// makes, 0.25 cm2 for an opening of 0.35 m2.
func tolerance(q Quantity, limit float64) float64 {
	switch q {
	case Length:
		return LengthTolerance
	case Area:
		return 2 * LengthTolerance * math.Sqrt(math.Abs(limit))
	case Share:
		return ShareTolerance
	case Angle:
		return angleTolerance
	}
	return tinyTolerance
}
