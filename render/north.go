package render

import (
	"math"
	"strconv"
)

// bearingBlock is the north arrow beside the scale bar.
func (t *typeface) bearingBlock(north float64, scale Scale, imperial bool) block {
	const height = 20.0
	return block{rows: []blockRow{{height: height, draw: func(s *Sheet, at Point) {
		s.northArrow(Point{at.X + 9, at.Y - 10}, north)
		s.scaleBar(Point{at.X + 22, at.Y - 12}, scale, imperial)
	}}}}
}

// northArrow draws an arrow in a circle that points to true north, degrees
// counter-clockwise from up the sheet.
func (s *Sheet) northArrow(c Point, north float64) {
	const radius, half = 6.0, 2.4
	at := func(x, y float64) Point { return c.add(Point{x, y}.turned(north)) }
	s.stroke(layerSign, line(thin), circle(c, radius))
	s.fill(layerSign, black, polygon(at(0, radius), at(-half, -radius*0.6), at(0, -radius*0.25)))
	s.both(layerSign, white, line(thin), polygon(at(0, radius), at(half, -radius*0.6), at(0, -radius*0.25)))
	letter := at(0, radius+2.1)
	s.write(Point{letter.X, letter.Y - smallText/2}, words{text: "N", height: smallText, bold: true, align: atMiddle}, Box{Kind: SymbolBox, View: -1})
}

// scaleBar draws a bar of whole metres or feet with its ratio.
func (s *Sheet) scaleBar(at Point, scale Scale, imperial bool) {
	const longest = 38.0
	unit, name := 1.0, "m"
	if imperial {
		unit, name = 0.3048, "ft"
	}
	// The longest of 0.5, 1, 2, 5, 10 ... units that fits, in halves or fifths.
	length, parts := 0.5, 5
	for _, n := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if n*unit*scale.MMPerMetre() > longest {
			break
		}
		length = n
		parts = 2
		if lead := math.Log10(n) + 1e-9; lead-math.Floor(lead) > 0.6 {
			parts = 5
		}
	}
	step := length / float64(parts)
	mm := step * unit * scale.MMPerMetre()
	const bar = 1.6
	for i := range parts {
		r := Rect{at.X + mm*float64(i), at.Y, at.X + mm*float64(i+1), at.Y + bar}
		ink := white
		if i%2 == 0 {
			ink = black
		}
		s.both(layerSign, ink, line(thin), rectangle(r))
	}
	end := at.X + mm*float64(parts)
	number := func(x float64, text string) {
		s.write(Point{x, at.Y - 1.2 - smallText}, words{text: text, height: smallText, align: atMiddle}, Box{Kind: SymbolBox, View: -1})
	}
	number(at.X, "0")
	if mm >= 8 {
		number(at.X+mm, strconv.FormatFloat(step, 'g', -1, 64))
	}
	number(end, strconv.FormatFloat(length, 'g', -1, 64)+" "+name)
	s.write(Point{at.X, at.Y + bar + 1.4}, words{text: "Scale " + scale.Text, height: smallText}, Box{Kind: SymbolBox, View: -1})
}
