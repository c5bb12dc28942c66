package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// metresPerInch is exact by definition (international inch).
const metresPerInch = 0.0254

// squareFeetPerM2 follows from the international foot.
const squareFeetPerM2 = 1 / (0.3048 * 0.3048)

// inchParts is the finest part of an inch that is written: eighths, as a tape
// is read on site.
const inchParts = 8

// measure writes lengths and areas as the trade does: whole millimetres on
// dimension lines and metres in rooms, or feet and inches with eighths.
type measure struct{ imperial bool }

// dimension writes a length for a dimension line.
func (m measure) dimension(metres float64) string {
	if m.imperial {
		return feetAndInches(metres)
	}
	return strconv.Itoa(int(math.Round(metres * 1000)))
}

// length writes a length to stand in a sentence or a room.
func (m measure) length(metres float64) string {
	if m.imperial {
		return feetAndInches(metres)
	}
	return strconv.FormatFloat(metres, 'f', 2, 64)
}

// size writes the clear size of a room, along and across the sheet.
func (m measure) size(along, across float64) string {
	return m.length(along) + " × " + m.length(across)
}

// area writes an area with its unit.
func (m measure) area(m2 float64) string {
	if m.imperial {
		return strconv.Itoa(int(math.Round(m2*squareFeetPerM2))) + " ft²"
	}
	return strconv.FormatFloat(m2, 'f', 1, 64) + " m²"
}

// elevation writes a height above the datum, with its sign.
func (m measure) elevation(metres float64) string {
	text := m.length(math.Abs(metres))
	if m.imperial && !strings.Contains(text, "'") {
		text = "0'-" + text
	}
	zero := text == m.length(0) || text == `0'-0"`
	switch {
	case zero:
		return "±" + text
	case metres < 0:
		return "−" + text
	}
	return "+" + text
}

// feetAndInches writes 3'-6 1/2": whole feet, whole inches and the nearest
// eighth as a fraction in lowest terms. Under a foot inches stand alone.
func feetAndInches(metres float64) string {
	sign := ""
	if metres < 0 {
		sign, metres = "−", -metres
	}
	parts := int(math.Round(metres / metresPerInch * inchParts))
	feet, rest := parts/(12*inchParts), parts%(12*inchParts)
	inches, fraction := rest/inchParts, rest%inchParts
	var words []string
	if inches > 0 || fraction == 0 || feet > 0 {
		words = append(words, strconv.Itoa(inches))
	}
	if fraction > 0 {
		over := inchParts
		for fraction%2 == 0 {
			fraction, over = fraction/2, over/2
		}
		words = append(words, fmt.Sprintf("%d/%d", fraction, over))
	}
	text := strings.Join(words, " ") + `"`
	if feet > 0 {
		text = fmt.Sprintf("%d'-%s", feet, text)
	}
	return sign + text
}
