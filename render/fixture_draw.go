package render

import (
	"github.com/tdewolff/canvas"

	"moiety/plan"
)

// fixtureLetters are the letters put on fixtures that an outline alone does
// not tell apart, and what they stand for in the legend.
var fixtureLetters = map[string][2]string{
	"refrigerator":     {"REF", "refrigerator"},
	"dishwasher":       {"DW", "dishwasher"},
	"washer":           {"W", "washer"},
	"dryer":            {"D", "dryer"},
	"furnace":          {"F", "furnace"},
	"boiler":           {"B", "boiler"},
	"water_heater":     {"WH", "water heater"},
	"electrical_panel": {"EP", "electrical panel"},
	"drain_stack":      {"DS", "drain stack"},
	"water_entry":      {"WE", "water entry"},
	"gas_meter":        {"GM", "gas meter"},
	"electric_meter":   {"EM", "electric meter"},
}

// stackedLetters are those of a washer with a dryer on it.
var stackedLetters = [2]string{"W/D", "washer, dryer on it"}

// drawWorktops draws the worktops of new kitchens, under what stands in them.
func (p *plot) drawWorktops() {
	if p.s == nil {
		return
	}
	for _, fit := range p.s.Fits {
		if len(fit.Worktops) == 0 || p.b.Cells[fit.Cell].Level != p.level || p.unit != "" && !p.shows(fit.Cell) {
			continue
		}
		for _, top := range fit.Worktops {
			p.sheet.stroke(layerFixture, line(medium), p.view.region(top))
			p.taken = append(p.taken, obstacle(p.view.points(top.Outer)))
		}
		p.legend.add(entryNewFixture)
	}
}

// drawFixture draws a fixture in its true size: a plain outline with what
// marks it in every set of plans, and its letters where they fit.
func (p *plot) drawFixture(d *fixture) {
	corners := make([]Point, 4)
	for i, q := range d.quad() {
		corners[i] = p.view.Paper(q)
	}
	if !d.mine {
		return
	}
	pen := line(thin)
	switch d.state {
	case plan.New:
		pen = line(medium)
		p.legend.add(entryNewFixture)
	case plan.Removed:
		pen = pen.dashedBy(dashed)
		p.legend.add(entryRemoved)
	}
	w, dep := p.view.mm(d.width), p.view.mm(d.depth)
	m := canvas.Identity.Translate(p.view.Paper(d.back).X, p.view.Paper(d.back).Y).Rotate(d.facing - 90 + p.view.Turn)
	p.sheet.both(layerFixture, white, pen, moved(fixtureOutline(d.Use, w, dep), m))
	p.sheet.stroke(layerFixture, pen.thinner(), moved(fixtureDetail(d.Use, w, dep), m))
	p.taken = append(p.taken, obstacle(corners))
}

// thinner is the next thinner pen for detail, in the same line type.
func (p pen) thinner() pen {
	p.width = hair
	return p
}

// letterFixture letters a fixture that needs it: on it where there is room,
// else in the room beside it.
func (p *plot) letterFixture(d *fixture) {
	letters, ok := fixtureLetters[d.Use]
	if d.carries {
		letters = stackedLetters
	}
	if !ok || d.state == plan.Removed {
		return
	}
	corners := make([]Point, 4)
	for i, q := range d.quad() {
		corners[i] = p.view.Paper(q)
	}
	w, dep := p.view.mm(d.width), p.view.mm(d.depth)
	width := p.sheet.fonts.width(letters[0], smallText, false)
	middle := corners[0].add(corners[2]).times(0.5)
	out := corners[3].sub(corners[0]).unit()
	if out == (Point{}) {
		out = Point{0, 1}
	}
	place := func(c Point) (Point, [4]Point) {
		at := Point{c.X - width/2, c.Y - smallText/2}
		q := textQuad(letters[0], at, width, smallText, 0)
		return at, boundsOf(q[:]...).grown(0.3).corners()
	}
	// On the fixture, clear of its outline.
	at, quad := place(middle)
	if insideRegion(quad, [][]Point{corners}) {
		p.sheet.write(at, words{text: letters[0], height: smallText}, p.box(TextBox, ""))
		p.legend.letter(letters)
		return
	}
	reach := dep/2 + 0.8 + abs1(out.X)*width/2 + abs1(out.Y)*smallText
	side := out.left()
	aside := w/2 + 0.8 + abs1(side.X)*width/2 + abs1(side.Y)*smallText
	for _, c := range []Point{
		middle.add(out.times(reach)), middle.add(side.times(aside)), middle.sub(side.times(aside)),
		middle.add(out.times(reach)).add(side.times(3)), middle.add(out.times(reach)).sub(side.times(3)),
	} {
		at, quad := place(c)
		if p.roomy(quad, d.cell) {
			p.sheet.write(at, words{text: letters[0], height: smallText}, p.box(TextBox, ""))
			p.taken = append(p.taken, obstacle(quad[:]))
			p.legend.letter(letters)
			return
		}
	}
	if !p.plain {
		return
	}
	// A plan of services leads to what it has no room beside.
	within := p.indoors
	if d.cell < 0 || p.b.Cells[d.cell].Outdoor {
		within = func(q [4]Point) bool { return !p.indoors(q) }
	}
	p.standNear(middle, width/2+0.4, smallText/2+0.4, within, func(at Point, _ Rect) {
		p.sheet.write(Point{at.X, at.Y - smallText/2}, words{text: letters[0], height: smallText, align: atMiddle}, p.box(TextBox, ""))
		place := Rect{at.X - width/2, at.Y - smallText/2, at.X + width/2, at.Y + smallText/2}.grown(0.3).corners()
		p.taken = append(p.taken, obstacle(place[:]))
		p.legend.letter(letters)
	})
}

// fixtureOutline is the outline seen from above, its back on the line y = 0
// and its middle at x = 0; millimetres on paper.
func fixtureOutline(use string, w, d float64) *canvas.Path {
	switch use {
	case "wc": // cistern and bowl
		tank := d * 0.28
		return together(box(-w/2, 0, w/2, tank), ellipse(0, tank+(d-tank)/2, w*0.46, (d-tank)/2))
	case "basin":
		return rounded4(-w/2, 0, w/2, d, min(w, d)*0.15)
	case "water_heater", "drain_stack":
		return circle(Point{0, d / 2}, min(w, d)/2)
	case "water_entry", "electric_meter":
		return circle(Point{0, d / 2}, min(w, d)/2)
	}
	return box(-w/2, 0, w/2, d)
}

// fixtureDetail is what is drawn within the outline.
func fixtureDetail(use string, w, d float64) *canvas.Path {
	switch use {
	case "sink":
		return together(
			rounded4(-w*0.44, d*0.16, -w*0.03, d*0.88, d*0.10), rounded4(w*0.03, d*0.16, w*0.44, d*0.88, d*0.10),
			circle(Point{-w * 0.235, d * 0.5}, d*0.05), circle(Point{w * 0.235, d * 0.5}, d*0.05))
	case "range":
		r := min(w, d) * 0.15
		p := polyline(Point{-w / 2, d * 0.12}, Point{w / 2, d * 0.12})
		for _, x := range []float64{-w * 0.24, w * 0.24} {
			for _, y := range []float64{d * 0.34, d * 0.74} {
				p = p.Append(circle(Point{x, y}, r))
			}
		}
		return p
	case "refrigerator":
		return polyline(Point{-w / 2, d * 0.88}, Point{w / 2, d * 0.88})
	case "dishwasher", "washer", "dryer":
		return polyline(Point{-w / 2, d * 0.90}, Point{w / 2, d * 0.90})
	case "wc":
		return &canvas.Path{}
	case "basin":
		return together(ellipse(0, d*0.52, w*0.36, d*0.34), circle(Point{0, d * 0.42}, d*0.05))
	case "bath":
		return bathDetail(w, d)
	case "shower":
		return together(polyline(Point{-w / 2, 0}, Point{w / 2, d}), polyline(Point{-w / 2, d}, Point{w / 2, 0}), circle(Point{0, d / 2}, min(w, d)*0.06))
	case "water_entry", "electric_meter":
		r := min(w, d) / 2 * 0.7
		return together(polyline(Point{-r, d/2 - r}, Point{r, d/2 + r}), polyline(Point{-r, d/2 + r}, Point{r, d/2 - r}))
	case "gas_meter":
		return polyline(Point{-w / 2, 0}, Point{w / 2, d})
	case "electrical_panel":
		return together(polyline(Point{-w / 2, 0}, Point{w / 2, d}), polyline(Point{-w / 2, d}, Point{w / 2, 0}))
	case "fireplace":
		return polyline(Point{-w * 0.30, d}, Point{-w * 0.22, d * 0.35}, Point{w * 0.22, d * 0.35}, Point{w * 0.30, d})
	}
	return &canvas.Path{}
}

// bathDetail is the tub within the rim, its outlet at one end: the long side
// may lie along the wall or stand out from it.
func bathDetail(w, d float64) *canvas.Path {
	rim := min(w, d) * 0.10
	tub := rounded4(-w/2+rim, rim, w/2-rim, d-rim, min(w, d)*0.28)
	outlet := circle(Point{-w/2 + rim*3, d / 2}, min(w, d)*0.05)
	if d > w {
		outlet = circle(Point{0, rim * 3}, min(w, d)*0.05)
	}
	return together(tub, outlet)
}

func box(x0, y0, x1, y1 float64) *canvas.Path { return rectangle(Rect{x0, y0, x1, y1}) }

func ellipse(x, y, rx, ry float64) *canvas.Path { return canvas.Ellipse(rx, ry).Translate(x, y) }

func rounded4(x0, y0, x1, y1, r float64) *canvas.Path {
	return canvas.RoundedRectangle(x1-x0, y1-y0, r).Translate(x0, y0)
}
