package render

import (
	"fmt"

	"github.com/tdewolff/canvas"
)

// Line type of a match line (long-dash double-dot, ISO 128-2, from memory).
var matchDashed = []float64{10, 1.5, 1, 1.5, 1, 1.5}

// cutOff tells whether the level goes on beyond a match line on a side.
func (p *plot) cutOff(s side) bool { return p.piece != nil && p.piece.beside[s] != nil }

// onSheet is a rectangle in turned metres on the sheet.
func (p *plot) onSheet(r Rect) Rect {
	x, y := p.view.pivot.Metres()
	pivot := Point{x, y}.turned(p.turn)
	k := p.view.Scale.MMPerMetre()
	at := func(q Point) Point { return p.view.at.add(q.sub(pivot).times(k)) }
	a, b := at(Point{r.X0, r.Y0}), at(Point{r.X1, r.Y1})
	return Rect{a.X, a.Y, b.X, b.Y}
}

// window is what belongs to the part that is drawn, on the sheet; without
// bounds where the level is drawn whole.
func (p *plot) window() Rect {
	if p.piece == nil {
		return Rect{-farOff, -farOff, farOff, farOff}
	}
	return p.onSheet(p.piece.window)
}

// shown is what is drawn of the level, on the sheet.
func (p *plot) shown() Rect {
	if p.piece == nil {
		return p.window()
	}
	return p.onSheet(p.piece.shown(p.view.Scale))
}

// inWindow tells whether a quadrangle lies wholly in the part that is drawn.
func (p *plot) inWindow(q [4]Point) bool {
	w := p.window()
	return w.joined(boundsOf(q[:]...)) == w
}

// belongs tells whether a place on the sheet belongs to the part that is drawn.
func (p *plot) belongs(q Point) bool {
	w := p.window()
	return q.X >= w.X0 && q.X < w.X1 && q.Y >= w.Y0 && q.Y < w.Y1
}

// crossesWindow tells whether a line, drawn out to both sides, crosses the part.
func (p *plot) crossesWindow(a, b Point) bool {
	u := b.sub(a).unit().times(farOff)
	_, _, ok := clip(a.sub(u), b.add(u), p.window())
	return ok
}

// holdWithin keeps lettering and tags on their side of the match lines.
func (p *plot) holdWithin() {
	if p.piece == nil {
		return
	}
	w := p.window()
	const far = 2000.0 // millimetres: larger than any sheet
	wide := Rect{-far, -far, far, far}
	for s, other := range p.piece.beside {
		if other == nil {
			continue
		}
		r := wide
		switch side(s) {
		case below:
			r.Y1 = w.Y0
		case leftOf:
			r.X1 = w.X0
		case above:
			r.Y0 = w.Y1
		case rightOf:
			r.X0 = w.X1
		}
		corners := r.corners()
		p.taken = append(p.taken, obstacle(corners[:]))
	}
}

// drawMatchLines draws the lines at which the level goes on on other sheets,
// and names those.
func (p *plot) drawMatchLines(around Rect) {
	if p.piece == nil {
		return
	}
	w := p.window()
	const past = 4.0 // beyond the house, before the first dimension line
	for _, s := range sides {
		other := p.piece.beside[s]
		if other == nil {
			continue
		}
		_, out := s.across(Point{w.X1, w.Y1})
		if s == below || s == leftOf {
			_, out = s.across(Point{w.X0, w.Y0})
		}
		from, to := around.X0, around.X1
		if !s.level() {
			from, to = around.Y0, around.Y1
		}
		// Not across another match line.
		if !p.cutOff(map[bool]side{true: leftOf, false: below}[s.level()]) {
			from -= past
		}
		if !p.cutOff(map[bool]side{true: rightOf, false: above}[s.level()]) {
			to += past
		}
		p.sheet.stroke(layerSign, line(heavy).dashedBy(matchDashed), polyline(s.point(from, out), s.point(to, out)))
		text := "MATCH LINE"
		if other.sheet != "" {
			text += fmt.Sprintf(", part %d on sheet %s", other.number, other.sheet)
		}
		turn := 90.0
		lift := matchOverlap + 1.5
		if s.level() {
			turn = 0
		}
		// Text runs along the line, beyond what is drawn of the neighbour; its
		// foot is towards the line on the sides above and left.
		if s == below || s == rightOf {
			lift += smallText
		}
		run := Point{1, 0}.turned(turn)
		width := p.sheet.fonts.width(text, smallText, true)
		at := s.point((from+to)/2, out+lift).sub(run.times(width / 2))
		p.sheet.write(at, words{text: text, height: smallText, bold: true, turn: turn, layer: layerSign}, p.box(TagBox, ""))
	}
	p.legend.add(entryMatchLine)
}

// clipped is the part of a path that lies in a rectangle: of its outline, and
// of the area within. A path wholly inside comes back as it is.
func clipped(path *canvas.Path, in Rect) (outline, area *canvas.Path) {
	b := path.FastBounds()
	r := Rect{b.X0, b.Y0, b.X1, b.Y1}
	if in.joined(r) == in {
		return path, path
	}
	outline, area = &canvas.Path{}, &canvas.Path{}
	if !r.grown(1e-9).meets(in) {
		return outline, area
	}
	const flatness = 0.01 // millimetres
	for _, piece := range path.Flatten(flatness).Split() {
		var points []Point
		for _, c := range piece.Coords() {
			points = append(points, Point{c.X, c.Y})
		}
		if piece.Closed() && len(points) > 0 && points[0] != points[len(points)-1] {
			points = append(points, points[0])
		}
		var run []Point
		for i := 0; i+1 < len(points); i++ {
			a, b, ok := clip(points[i], points[i+1], in)
			if !ok {
				continue
			}
			if len(run) > 0 && run[len(run)-1] != a {
				outline = outline.Append(polyline(run...))
				run = nil
			}
			if len(run) == 0 {
				run = append(run, a)
			}
			run = append(run, b)
		}
		if len(run) > 1 {
			outline = outline.Append(polyline(run...))
		}
		if q := cropped(points, in); len(q) > 2 {
			area = area.Append(polygon(q...))
		}
	}
	return outline, area
}

// cropped is the part of a ring in a rectangle (Sutherland and Hodgman,
// "Reentrant Polygon Clipping", 1974).
func cropped(ring []Point, in Rect) []Point {
	for _, s := range sides {
		_, most := s.across(Point{in.X1, in.Y1})
		if s == below || s == leftOf {
			_, most = s.across(Point{in.X0, in.Y0})
		}
		depth := func(q Point) float64 { _, o := s.across(q); return most - o }
		var out []Point
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			da, db := depth(a), depth(b)
			if da >= 0 {
				out = append(out, a)
			}
			if (da < 0) != (db < 0) {
				out = append(out, a.add(b.sub(a).times(da/(da-db))))
			}
		}
		ring = out
	}
	return ring
}
