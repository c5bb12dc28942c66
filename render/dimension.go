package render

import (
	"math"

	"github.com/tdewolff/canvas"
)

// Dimension lines, millimetres: distance of the first from the house and of
// the next from the one before (common practice; 10 and 7 to 8,
// here enough for a second row of figures clear of the next strokes), and the
// parts of a line after ISO 129-1.
const (
	firstLine   = 10.0
	nextLine    = 8.5
	lineGap     = 1.5  // between the house and an extension line
	overrun     = 1.5  // of an extension line past the dimension line (8 line widths)
	stroke45    = 1.2  // half of the oblique stroke, along either axis
	textLift    = 1.1  // of a dimension over its line
	textRoom    = 1.0  // that a dimension leaves free beside the extension lines
	longestLead = 12.0 // how far an extension line reaches back to a face
	beyondEnds  = 8.0  // how far lettering may reach past the ends of the house
	raised      = 3.4  // of the second row of lettering over the first
	lastText    = 4.6  // room outside the last line for lettering that found no other
)

// Dimension is one length given on a sheet.
type Dimension struct {
	Text string // "" where there was no room for it
	A, B Point  // the ends that it measures between, on its line
	View int
}

// depth is the room that the lines of a side take, millimetres.
func depth(chains []chain) float64 {
	if len(chains) == 0 {
		return firstLine * 0.6
	}
	return firstLine + nextLine*float64(len(chains)-1) + lastText
}

// drawDimensions draws the lines of all sides around a rectangle on the sheet.
func (p *plot) drawDimensions(chains [4][]chain, around Rect) {
	fronts := [4][]front{}
	for _, s := range sides {
		fronts[s] = p.fronts(s)
	}
	for _, s := range sides {
		edge := map[side]float64{below: -around.Y0, above: around.Y1, leftOf: -around.X0, rightOf: around.X1}[s]
		if p.cutOff(s) {
			edge += matchOverlap + matchRoom // beyond what is lettered along the match line
		}
		d := dimensioning{plot: p, side: s, edge: edge, fronts: fronts[s], first: around.X0, last: around.X1}
		seen := p.shown()
		d.low, d.high = seen.X0, seen.X1
		if !s.level() {
			d.first, d.last = around.Y0, around.Y1
			d.low, d.high = seen.Y0, seen.Y1
		}
		for i, c := range chains[s] {
			d.chain(c, edge+firstLine+nextLine*float64(i))
		}
		for _, n := range d.narrow {
			d.squeeze(n)
		}
		d.finish()
	}
}

// dimensioning draws the lines of one side. Places along it are millimetres
// on the sheet.
type dimensioning struct {
	*plot
	side   side
	edge   float64 // how far out the house reaches
	fronts []front
	ticks  *canvas.Path
	lines  *canvas.Path
	lead   *canvas.Path
	ends   []extension
	arrows []*canvas.Path // of lines that go on
	narrow []short
	first  float64 // where the house begins and ends along the side
	last   float64
	low    float64 // what is drawn of the house along the side
	high   float64
}

// short is a length whose lettering is longer than it.
type short struct {
	text    string
	a, b    float64 // along the side
	out     float64
	claimed int // its place among the sheet's dimensions
}

// extension is an extension line yet to be drawn, where lettering leaves room.
type extension struct{ along, from, to float64 }

// onSheet turns a place in metres along the side into one on the sheet.
func (d *dimensioning) along(metres float64) float64 {
	x, y := d.view.pivot.Metres()
	pivot, _ := d.side.across(Point{x, y}.turned(d.turn))
	at, _ := d.side.across(d.view.at)
	return at + d.view.mm(metres-pivot)
}

// outOf is how far out, on the sheet, the front at a place along the side lies.
func (d *dimensioning) outOf(metres float64) float64 {
	x, y := d.view.pivot.Metres()
	_, pivot := d.side.across(Point{x, y}.turned(d.turn))
	_, at := d.side.across(d.view.at)
	most := math.Inf(-1)
	for _, f := range d.fronts {
		if metres >= f.from-stopGap && metres <= f.to+stopGap {
			o := f.outFrom
			if f.to > f.from {
				o += (f.outTo - f.outFrom) * min(1, max(0, (metres-f.from)/(f.to-f.from)))
			}
			most = max(most, o)
		}
	}
	if math.IsInf(most, -1) {
		return d.edge
	}
	// A face far back, or one behind a porch, is not reached for: the line
	// starts where the house ends on this side.
	out := at + d.view.mm(most-pivot)
	if out > d.edge || out < d.edge-longestLead || d.behindStructure(metres) {
		return d.edge
	}
	return out
}

// behindStructure tells whether a porch or the like stands before a place
// along the side.
func (d *dimensioning) behindStructure(metres float64) bool {
	for _, o := range d.outdoors {
		if !d.structure(o.cell) || !d.beside(o.cell) {
			continue
		}
		r := d.b.Cells[o.cell].Region
		a0, a1, most := math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range r.Outer {
			a, out := d.side.across(d.turnedPoint(p))
			a0, a1, most = min(a0, a), max(a1, a), max(most, out)
		}
		if metres < a0-stopGap || metres > a1+stopGap {
			continue
		}
		for _, f := range d.fronts {
			if metres >= f.from-stopGap && metres <= f.to+stopGap && most > max(f.outFrom, f.outTo) {
				return true
			}
		}
	}
	return false
}

func (d *dimensioning) at(along, out float64) Point { return d.side.point(along, out) }

// chain draws one dimension line at a distance out.
func (d *dimensioning) chain(c chain, out float64) {
	if d.lines == nil {
		d.lines, d.ticks, d.lead = &canvas.Path{}, &canvas.Path{}, &canvas.Path{}
	}
	marked := map[int]bool{}
	for i, given := range c.given {
		if !given {
			continue
		}
		a, b := d.along(c.stops[i]), d.along(c.stops[i+1])
		text := d.m.dimension(c.stops[i+1] - c.stops[i])
		d.sheet.Dimensions = append(d.sheet.Dimensions, Dimension{text, d.at(a, out), d.at(b, out), d.index})
		// A length that goes on beyond a match line ends in an arrow there.
		wholeA, wholeB := a, b
		a, b = max(a, d.low), min(b, d.high)
		pa, pb := d.at(a, out), d.at(b, out)
		d.lines = d.lines.Append(polyline(pa, pb))
		d.sheet.Boxes = append(d.sheet.Boxes, lineBox(pa, pb, d.index))
		if along := pb.sub(pa).unit(); a > wholeA {
			d.arrows = append(d.arrows, arrowHead(pa, along.times(-1)))
		}
		if along := pb.sub(pa).unit(); b < wholeB {
			d.arrows = append(d.arrows, arrowHead(pb, along))
		}
		for _, j := range []int{i, i + 1} {
			if m := d.along(c.stops[j]); m >= d.low && m <= d.high && !marked[j] {
				marked[j] = true
				q := d.at(m, out)
				d.ticks = d.ticks.Append(polyline(q.add(Point{-stroke45, -stroke45}), q.add(Point{stroke45, stroke45})))
				d.ends = append(d.ends, extension{m, d.outOf(c.stops[j]) + lineGap, out + overrun})
			}
		}
		width := d.sheet.fonts.width(text, smallText, false)
		if width+textRoom <= b-a {
			if at, ok := d.clearest(text, a, b, out); ok {
				d.put(text, at, out, 0)
				continue
			}
		}
		d.narrow = append(d.narrow, short{text, a, b, out, len(d.sheet.Dimensions) - 1})
	}
}

func lineBox(a, b Point, view int) Box {
	o := hindrance(a, b)
	return Box{Kind: LineBox, View: view, Corners: [4]Point{o[0], o[1], o[2], o[3]}}
}

// reading says how text runs on this side: level, or from the right.
func (d *dimensioning) reading() float64 {
	if d.side.level() {
		return 0
	}
	return 90
}

// base is where text starts whose middle stands at a place along the side and
// whose foot is lifted over the line at a distance out.
func (d *dimensioning) base(text string, along, out, lift float64) Point {
	p := d.at(along, out)
	up := Point{0, lift}
	run := Point{-d.sheet.fonts.width(text, smallText, false) / 2, 0}
	return p.add(up.turned(d.reading())).add(run.turned(d.reading()))
}

func (d *dimensioning) quad(text string, along, out, lift float64) [4]Point {
	return textQuad(text, d.base(text, along, out, lift), d.sheet.fonts.width(text, smallText, false), smallText, d.reading())
}

// put letters a dimension.
func (d *dimensioning) put(text string, along, out, lift float64) {
	lift += textLift
	d.sheet.write(d.base(text, along, out, lift), words{text: text, height: smallText, turn: d.reading(), layer: layerDimension}, d.box(TextBox, ""))
}

// clearest finds where, between the ends of what it measures, lettering stands
// clear of everything: in the middle if it can.
func (d *dimensioning) clearest(text string, a, b, out float64) (float64, bool) {
	middle := (a + b) / 2
	slack := (b-a-textRoom-d.sheet.fonts.width(text, smallText, false))/2 - 1e-9
	for _, part := range []float64{0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1, -1} {
		if at := middle + part*slack; d.vacant(d.quad(text, at, out, textLift)) {
			return at, true
		}
	}
	return middle, false
}

// squeeze letters a dimension that is longer than what it measures: over the
// line in a second row, under the line, or beside, with a line that leads to it.
func (d *dimensioning) squeeze(n short) {
	const under = -smallText - 2*textLift - 0.4 // below the oblique strokes
	text, out := n.text, n.out
	width := d.sheet.fonts.width(text, smallText, false)
	middle := (n.a + n.b) / 2
	for _, shift := range []float64{0, 0.5, -0.5, 1, -1, 1.5, -1.5, 2.2, -2.2, 3, -3} {
		for _, lift := range []float64{raised, under} {
			along := middle + shift*width
			if along-width/2 < max(d.low, d.first-beyondEnds) || along+width/2 > min(d.high, d.last+beyondEnds) || !d.vacant(d.quad(text, along, out, lift+textLift)) {
				continue
			}
			foot := d.at(along, out).add(Point{0, lift + textLift - 0.3}.turned(d.reading()))
			if lift < 0 {
				foot = d.at(along, out).add(Point{0, -textLift}.turned(d.reading()))
			}
			led := shift != 0 || lift > 0
			if led && d.overLettering(d.at(middle, out), foot) {
				continue
			}
			d.put(text, along, out, lift)
			if led {
				d.lead = d.lead.Append(polyline(d.at(middle, out), foot))
			}
			return
		}
	}
	if width+textRoom <= n.b-n.a { // over what is drawn beside the house
		d.put(text, middle, out, 0)
		return
	}
	// Nothing is free: the length is not lettered, and must not be claimed.
	d.sheet.Dimensions[n.claimed].Text = ""
}

// overLettering tells whether a line would run over lettering.
func (d *dimensioning) overLettering(a, b Point) bool {
	o := hindrance(a, b)
	for _, box := range d.sheet.Boxes {
		if box.Kind != LineBox && o.meets(box.Corners) {
			return true
		}
	}
	return false
}

// vacant tells whether lettering of a dimension would stand clear of all
// other lettering and lines.
func (d *dimensioning) vacant(q [4]Point) bool {
	q = boundsOf(q[:]...).grown(0.35).corners()
	for _, b := range d.sheet.Boxes {
		if quadsOverlap(q, b.Corners, 0) {
			return false
		}
	}
	return d.free(q)
}

// finish draws what was collected: lines, strokes, and extension lines broken
// where they would cross lettering.
func (d *dimensioning) finish() {
	if d.lines == nil {
		return
	}
	ext := &canvas.Path{}
	for _, e := range d.ends {
		for _, piece := range d.unbroken(e) {
			ext = ext.Append(polyline(d.at(e.along, piece[0]), d.at(e.along, piece[1])))
		}
	}
	d.sheet.stroke(layerDimension, line(hair), ext)
	d.sheet.stroke(layerDimension, line(hair), d.lines)
	d.sheet.stroke(layerDimension, line(hair), d.lead)
	d.sheet.stroke(layerDimension, line(medium), d.ticks)
	for _, a := range d.arrows {
		d.sheet.fill(layerDimension, black, a)
	}
}

// unbroken are the pieces of an extension line between the lettering on it.
func (d *dimensioning) unbroken(e extension) [][2]float64 {
	const clear = 0.5
	pieces := [][2]float64{{e.from, e.to}}
	cut := func(q [4]Point) {
		a0, a1, o0, o1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, c := range q {
			a, o := d.side.across(c)
			a0, a1, o0, o1 = min(a0, a), max(a1, a), min(o0, o), max(o1, o)
		}
		if e.along < a0-clear || e.along > a1+clear {
			return
		}
		var next [][2]float64
		for _, p := range pieces {
			if p[1] <= o0-clear || p[0] >= o1+clear {
				next = append(next, p)
				continue
			}
			if p[0] < o0-clear {
				next = append(next, [2]float64{p[0], o0 - clear})
			}
			if p[1] > o1+clear {
				next = append(next, [2]float64{o1 + clear, p[1]})
			}
		}
		pieces = next
	}
	for _, b := range d.sheet.Boxes {
		if b.Kind != LineBox && b.View == d.index {
			cut(b.Corners)
		}
	}
	return pieces
}
