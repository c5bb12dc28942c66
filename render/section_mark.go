package render

import (
	"math"

	"moiety/geom"
)

// sectionName is the number of the section of a set.
const sectionName = "1"

// sectionMark is the line of a section as plans show it.
type sectionMark struct {
	line  geom.Segment
	sheet string
}

// Room for the marks of a section outside the dimension lines, millimetres.
const (
	sectionRoom   = 18.0
	sectionGap    = 4.0 // beyond the figures of the dimension lines
	sectionStroke = 5.0
)

// sectionEnds are the sides of a view at which the line of the section ends.
func (f *floor) sectionEnds() []side {
	if f.section == nil {
		return nil
	}
	a, b := f.turnedPoint(f.section.line.A), f.turnedPoint(f.section.line.B)
	if d := b.sub(a); math.Abs(d.X) < math.Abs(d.Y) {
		return []side{below, above}
	}
	return []side{leftOf, rightOf}
}

// drawSection marks the ends of the section's line outside the dimension
// lines: a thick stroke along the line, an arrow where one looks, and the
// number of the section with that of its sheet.
func (v *planView) drawSection(p *plot, around Rect) {
	ends := v.sectionEnds()
	if ends == nil || len(v.outline.Along(v.section.line)) == 0 {
		return
	}
	a, b := p.view.Paper(v.section.line.A), p.view.Paper(v.section.line.B)
	dir := b.sub(a).unit()
	look := dir.left()
	for _, end := range ends {
		var edge float64 // where the room for the mark begins
		at := func(t float64) Point { return a.add(dir.times(t)) }
		out := dir
		switch end {
		case leftOf:
			edge = around.X0 - depth(v.chains[end]) - sectionGap
			out = dir.times(math.Copysign(1, -dir.X))
			at = func(float64) Point { return a.add(dir.times((edge - a.X) / dir.X)) }
		case rightOf:
			edge = around.X1 + depth(v.chains[end]) + sectionGap
			out = dir.times(math.Copysign(1, dir.X))
			at = func(float64) Point { return a.add(dir.times((edge - a.X) / dir.X)) }
		case below:
			edge = around.Y0 - depth(v.chains[end]) - sectionGap
			out = dir.times(math.Copysign(1, -dir.Y))
			at = func(float64) Point { return a.add(dir.times((edge - a.Y) / dir.Y)) }
		case above:
			edge = around.Y1 + depth(v.chains[end]) + sectionGap
			out = dir.times(math.Copysign(1, dir.Y))
			at = func(float64) Point { return a.add(dir.times((edge - a.Y) / dir.Y)) }
		}
		from := at(0)
		to := from.add(out.times(sectionStroke))
		mid := from.add(out.times(sectionStroke / 2))
		p.sheet.stroke(layerSign, line(heavy), polyline(from, to))
		half := dir.times(1.1)
		p.sheet.fill(layerSign, black, polygon(mid.add(half), mid.sub(half), mid.add(look.times(2.4))))
		p.letterSection(mid, out, look)
	}
	p.legend.add(entrySection)
}

// letterSection letters the number of the section and its sheet beside a
// mark, away from where one looks.
func (p *plot) letterSection(at, out, look Point) {
	text := sectionName + "/" + p.section.sheet
	width := p.sheet.fonts.width(text, smallText, true)
	c := at.sub(look.times(1 + smallText))
	if math.Abs(look.X) > math.Abs(look.Y) { // beside an upright stroke
		c = at.sub(look.times(1.2 + width/2))
	} else {
		c = c.add(out.times(width/2 - sectionStroke/2))
	}
	p.sheet.write(Point{c.X - width/2, c.Y - smallText/2}, words{text: text, height: smallText, bold: true}, p.box(TagBox, ""))
}
