package plan

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// textWidth is where lists are broken in readable results.
const textWidth = 92

// squareFeetPerM2 follows from the international foot, 0.3048 m.
const squareFeetPerM2 = 1 / (0.3048 * 0.3048)

// writeListed writes items after a label, broken at words and indented below
// it; where there are none it writes none, or nothing if that is empty.
func writeListed(b *bytes.Buffer, label string, items []string, none string) {
	text := strings.Join(items, "; ")
	if text == "" {
		text = none
	}
	if text == "" {
		return
	}
	indent := strings.Repeat(" ", utf8.RuneCountInString(label))
	line := label
	for i, word := range strings.Fields(text) {
		switch {
		case i == 0:
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > textWidth:
			b.WriteString(line + "\n")
			line = indent + word
		default:
			line += " " + word
		}
	}
	b.WriteString(line + "\n")
}

// areaIn gives square metres, and square feet too where the survey is in feet.
func areaIn(unit LengthUnit, m2 float64) string {
	if unit == Feet {
		return fmt.Sprintf("%.1f m2 (%.0f ft2)", m2, m2*squareFeetPerM2)
	}
	return fmt.Sprintf("%.1f m2", m2)
}

// thousands gives an amount with its thousands parted.
func thousands(v float64) string {
	text := fixed(v, moneyDecimals)
	start := strings.IndexAny(text, "0123456789")
	for i := strings.IndexByte(text, '.') - 3; i > start; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// counted gives "1 bedroom", "2 bedrooms", "1.5 bathrooms".
func counted(n float64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%g %ss", n, noun)
}

// words turns a word of the formats into words to read.
func words(name string) string { return strings.ReplaceAll(name, "_", " ") }
