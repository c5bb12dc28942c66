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

// Marks of a section, millimetres.
const (
	sectionStroke = 5.0
	sectionArrow  = 2.4 // how far the arrow reaches from the stroke
	sectionGap    = 3.5 // beyond the figures of the dimension lines
	sectionRoom   = sectionGap + sectionStroke
	sectionOff    = 0.8 // at least, from what the house takes
)

// markPlace says where the marks of a section stand.
type markPlace int

const (
	marksOutside markPlace = iota // of the dimension lines, where sheets have room for them
	marksInside                   // between the house and its first dimension line
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

// drawSection marks the ends of the section's line: a thick stroke along the
// line, an arrow where one looks, and the number of the section with that of
// its sheet. False where a mark finds no place.
func (v *planView) drawSection(p *plot, around Rect) bool {
	ends := v.sectionEnds()
	if ends == nil || len(v.outline.Along(v.section.line)) == 0 {
		return true
	}
	a, b := p.view.Paper(v.section.line.A), p.view.Paper(v.section.line.B)
	all := true
	for _, end := range ends {
		if p.cutOff(end) || !p.crossesWindow(a, b) {
			continue // marked on another part
		}
		if !v.markEnd(p, a, b, end, around) {
			all = false
		}
	}
	p.legend.add(entrySection)
	return all
}

// markEnd marks the end of the section from a to b on one side.
func (v *planView) markEnd(p *plot, a, b Point, end side, around Rect) bool {
	dir := b.sub(a).unit()
	look := dir.left()
	_, outward := end.across(dir)
	out := dir.times(sign(outward))
	at := func(edge float64) Point { // where the line is so far out
		_, from := end.across(a)
		return a.add(dir.times((edge - from) / outward))
	}
	_, low := end.across(Point{around.X0, around.Y0})
	_, high := end.across(Point{around.X1, around.Y1})
	edge := max(low, high)
	from, to := edge+depth(v.chains[end])+sectionGap, edge+depth(v.chains[end])+sectionGap
	if v.marks == marksInside {
		from, to = p.lineLeaves(a, b, end)+sectionOff, edge+firstLine-textLift-smallText-sectionStroke
	}
	for d := from; d <= to+1e-9; d += 0.5 {
		if p.putMark(at(d), out, look, v.marks == marksInside) {
			return true
		}
	}
	return false
}

// lineLeaves is how far out the line from a to b leaves the house, with what
// stands beside it, on one side.
func (p *plot) lineLeaves(a, b Point, end side) float64 {
	most := math.Inf(-1)
	shapes := []geom.Shape{p.outline}
	for _, o := range p.outdoors {
		if p.structure(o.cell) && p.beside(o.cell) {
			shapes = append(shapes, geom.Shape{p.b.Cells[o.cell].Region})
		}
	}
	for _, s := range shapes {
		for _, ring := range p.rings(s) {
			for i, c := range ring {
				d := ring[(i+1)%len(ring)]
				e, f := c.sub(a).cross(b.sub(a)), d.sub(a).cross(b.sub(a))
				if (e < 0) == (f < 0) {
					continue
				}
				_, o := end.across(c.add(d.sub(c).times(e / (e - f))))
				most = max(most, o)
			}
		}
	}
	return most
}

// putMark draws a mark whose stroke begins at a place and runs outwards; where
// it must be free, only on a place that nothing else takes.
func (p *plot) putMark(from, out, look Point, free bool) bool {
	text := sectionName + "/" + p.section.sheet
	width := p.sheet.fonts.width(text, smallText, true)
	to, mid := from.add(out.times(sectionStroke)), from.add(out.times(sectionStroke/2))
	stroke := hindrance(from, to).wider(0.5)
	half := out.times(1.1)
	head := [4]Point{mid.sub(half), mid.add(half), mid.add(half).add(look.times(sectionArrow)), mid.sub(half).add(look.times(sectionArrow))}
	sign := boundsOf(append(stroke, head[:]...)...).corners()
	turn := readable(look) // the number runs along the side
	run := Point{1, 0}.turned(turn)
	for _, c := range []Point{
		mid.sub(look.times(1.2 + width/2)), mid.add(look.times(sectionArrow + 0.9 + width/2)),
	} {
		at := c.sub(run.times(width / 2)).sub(run.left().times(smallText / 2))
		quad := textQuad(text, at, width, smallText, turn)
		if free {
			vacant := func(q [4]Point) bool {
				q = growQuad(q, 0.3)
				return p.free(q) && p.unlettered(q) && !p.onWalls(q)
			}
			if !vacant(sign) || !vacant(quad) {
				continue
			}
		}
		p.sheet.stroke(layerSign, line(heavy), polyline(from, to))
		p.sheet.fill(layerSign, black, polygon(mid.add(half), mid.sub(half), mid.add(look.times(sectionArrow))))
		p.sheet.Boxes = append(p.sheet.Boxes, Box{Kind: SymbolBox, View: p.index, Corners: sign})
		p.sheet.write(at, words{text: text, height: smallText, bold: true, turn: turn}, p.box(TagBox, ""))
		p.taken = append(p.taken, obstacle(sign[:]), obstacle(quad[:]))
		return true
	}
	return false
}
