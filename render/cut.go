package render

import (
	"fmt"

	"github.com/tdewolff/canvas"

	"moiety/plan"
)

// dividing is a line along which a space may be divided, with its number.
type dividing struct {
	number string
	cut    plan.Cut
}

// dividings are the lines to draw that are asked for, numbered through the set.
func (o Options) dividings(shown func(plan.Cut) bool) []dividing {
	var out []dividing
	for i, c := range o.Cuts {
		if shown(c) {
			out = append(out, dividing{plan.CutNumber(i), c})
		}
	}
	return out
}

// legs are the straight parts of a line on the sheet.
func (p *plot) legs(d dividing) [][2]Point {
	var out [][2]Point
	for i := range len(d.cut.Line) - 1 {
		out = append(out, [2]Point{p.view.Paper(d.cut.Line[i]), p.view.Paper(d.cut.Line[i+1])})
	}
	return out
}

// layDividings has labels keep clear of the lines.
func (p *plot) layDividings() {
	for _, d := range p.dividings {
		for _, leg := range p.legs(d) {
			p.faint = append(p.faint, hindrance(leg[0], leg[1]))
		}
	}
}

// drawDividings draws the lines along which spaces may be divided, thin and
// dashed, with their numbers on them or beside; the key says what each goes by.
func (p *plot) drawDividings() {
	for _, d := range p.dividings {
		p.numberDividing(d)
	}
	for _, d := range p.dividings {
		path := &canvas.Path{}
		for _, leg := range p.legs(d) {
			for _, piece := range p.clearOfText(leg[0], leg[1]) {
				path = path.Append(polyline(piece[0], piece[1]))
			}
		}
		p.sheet.stroke(layerSign, line(thin).dashedBy(dashed), path)
		p.legend.add(entryDividing)
		p.legend.dividings = append(p.legend.dividings, d)
	}
}

// numberDividing letters the number of a line where there is room: on it, then
// beside it.
func (p *plot) numberDividing(d dividing) {
	width := p.sheet.fonts.width(d.number, smallText, true)
	var places []Point
	for _, aside := range []float64{0, 1, -1, 2, -2, 4, -4} {
		for _, at := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			for _, leg := range p.legs(d) {
				n := leg[1].sub(leg[0]).unit().left()
				places = append(places, leg[0].add(leg[1].sub(leg[0]).times(at)).add(n.times(aside*smallText)))
			}
		}
	}
	for _, need := range []func([4]Point) bool{p.free, func([4]Point) bool { return true }} {
		for _, c := range places {
			at := Point{c.X - width/2, c.Y - smallText/2}
			quad := textQuad(d.number, at, width, smallText, 0)
			if !p.unlettered(quad) || !need(quad) {
				continue
			}
			p.sheet.fill(layerSign, white, rectangle(boundsOf(quad[:]...)))
			p.sheet.write(at, words{text: d.number, height: smallText, bold: true}, p.box(TagBox, ""))
			p.taken = append(p.taken, obstacle(quad[:]))
			return
		}
	}
}

// dividingBlock is the key to the lines drawn on a sheet.
func (p *project) dividingBlock(lines []dividing) block {
	b := block{title: "Lines to divide along"}
	const indent = 7.0
	for _, d := range lines {
		text := fmt.Sprintf("%s, %s: %s", p.nameOfSpace(d.cut.Space), p.m.length(d.cut.LengthM), d.cut.Why)
		row := p.fonts.paragraph(p.fonts.legible(text), indent)
		b.rows = append(b.rows, blockRow{height: row.height, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: d.number, height: smallText, bold: true}, onSheet())
			row.draw(s, at)
		}})
	}
	return b
}

// nameOfSpace is the name of a space by its id, or what it is used for.
func (p *project) nameOfSpace(id string) string {
	for _, s := range p.b.House.Spaces {
		if s.ID == id {
			if s.Name != "" {
				return s.Name
			}
			return useName(s.Use)
		}
	}
	return id
}

// onPlan tells whether a line is drawn on the plan of a level.
func onPlan(level int) func(plan.Cut) bool {
	return func(c plan.Cut) bool { return c.Level == level }
}

// onSite tells whether a line is drawn on the site plan: those outdoors.
func onSite(c plan.Cut) bool { return c.Fence }
