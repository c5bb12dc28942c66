package render

import (
	"fmt"
	"strconv"
	"strings"

	"moiety/plan"
)

// keyPlan is a small plan of a level that shows which part of it a sheet has.
func (p *project) keyPlan(v *planView) block {
	t := v.piece
	const most, room = 22.0, 1.0 // millimetres: fits the shortest column
	reach := v.whole().reachOf()
	k := min(columnWidth/reach.width(), most/reach.height())
	high := reach.height() * k
	b := block{title: "Key plan, " + p.levelName(v.level)}
	b.rows = append(b.rows, blockRow{height: high + 2*room, draw: func(s *Sheet, at Point) {
		place := func(q Point) Point {
			return Point{at.X + (q.X-reach.X0)*k, at.Y - room - high + (q.Y-reach.Y0)*k}
		}
		for _, o := range t.all {
			w := o.window.common(reach)
			a, c := place(Point{w.X0, w.Y0}), place(Point{w.X1, w.Y1})
			r := Rect{a.X, a.Y, c.X, c.Y}
			if o == t {
				corners := r.corners()
				s.stroke(layerSign, line(hair), hatch([][]Point{corners[:]}, hatchNew...))
			}
			s.stroke(layerSign, line(thin).dashedBy(dashed), rectangle(r))
			number := strconv.Itoa(o.number)
			width := p.fonts.width(number, smallText, true)
			from := Point{r.centre().X - width/2, r.centre().Y - smallText/2}
			back := textQuad(number, from, width, smallText, 0)
			s.fill(layerSign, white, rectangle(boundsOf(back[:]...).grown(0.3)))
			s.write(from, words{text: number, height: smallText, bold: true}, Box{Kind: TagBox, View: -1})
		}
		for _, g := range v.outline {
			for _, ring := range g.Rings() {
				var points []Point
				for _, q := range ring {
					points = append(points, place(v.turnedPoint(q)))
				}
				s.stroke(layerSign, line(medium), polygon(points...))
			}
		}
	}})
	var names []string
	for _, o := range t.all {
		switch {
		case o == t:
			names = append(names, fmt.Sprintf("part %d: this sheet", o.number))
		case o.sheet == "":
			names = append(names, fmt.Sprintf("part %d: nothing to show", o.number))
		default:
			names = append(names, fmt.Sprintf("part %d: sheet %s", o.number, o.sheet))
		}
	}
	b.rows = append(b.rows, p.fonts.paragraph(useName(plan.Use(strings.Join(names, "; "))), 0))
	return b
}

// whole is the view that a part is taken from.
func (v *planView) whole() *planView {
	if v.piece == nil {
		return v
	}
	return v.piece.whole
}
