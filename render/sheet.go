package render

import (
	"image/color"

	"github.com/tdewolff/canvas"

	"moiety/geom"
	"moiety/plan"
)

// Options say how sheets are drawn. The zero value draws on A3, in the unit
// of the survey, without a date.
type Options struct {
	Paper    Paper  // A3 where none is given
	Imperial bool   // feet and inches, also where the survey is in metres
	Date     string // as printed; "" leaves the field blank, to be filled in by hand
	Revision string // as printed
	// Cuts are candidate lines for dividing spaces, drawn on the plans of the
	// house as surveyed and numbered in this order.
	Cuts []plan.Cut
}

func (o Options) paper() Paper {
	if o.Paper.WidthMM == 0 || o.Paper.HeightMM == 0 {
		return A3
	}
	return o.Paper
}

// Sheet is one drawn sheet. Boxes, Views and Lettering say what is on it, so
// that a reader of the sheet can check it against the house.
type Sheet struct {
	Number string // as A-101
	Title  string
	Paper  Paper
	Scale  Scale
	Boxes  []Box  // every text, tag and dimension line
	Views  []View // the plans on the sheet
	// Dimensions are the lengths given, each once.
	Dimensions []Dimension
	fonts      *typeface
	marks      [layers][]mark
	placed     []progress // after each drawing that may be moved
	parts      int
	pieces     []*part // of levels that are drawn in parts
	clip       *Rect   // what is drawn of a level is cut off here, nil for nowhere
	beside     bool    // what is drawn now belongs to the matter beside the drawing
	kind       string
	subjects   []subject // that other sheets refer to
}

// View is one plan on a sheet: a level, or the site, and how the house's
// coordinates come to lie on the paper.
type View struct {
	// Building is what the view shows: the house as surveyed, or with its
	// spaces as the scheme divides them.
	Building *plan.Building
	Level    int    // index into House.Levels
	Unit     string // "A" or "B" where the view shows one unit alone
	Scale    Scale
	Turn     float64 // degrees the house is turned, counter-clockwise
	pivot    geom.Pt // where the model is turned about
	at       Point   // of the pivot on the sheet
}

// Paper gives the place of a point of the house on the sheet.
func (v View) Paper(p geom.Pt) Point {
	d := p.Sub(v.pivot)
	k := v.Scale.MMPerMetre() / geom.UnitsPerMetre
	return Point{float64(d.X) * k, float64(d.Y) * k}.turned(v.Turn).add(v.at)
}

// House gives the point of the house at a place on the sheet.
func (v View) House(p Point) geom.Pt {
	d := p.sub(v.at).turned(-v.Turn)
	k := v.Scale.MMPerMetre()
	return v.pivot.Add(geom.FromMetres(d.X/k, d.Y/k))
}

// mm is a length of the house, in metres, on paper.
func (v View) mm(metres float64) float64 { return metres * v.Scale.MMPerMetre() }

func (v View) points(ring geom.Ring) []Point {
	q := make([]Point, len(ring))
	for i, p := range ring {
		q[i] = v.Paper(p)
	}
	return q
}

func (v View) region(r geom.Region) *canvas.Path {
	p := polygon(v.points(r.Outer)...)
	for _, h := range r.Holes {
		p = p.Append(polygon(v.points(h)...))
	}
	return p
}

func (v View) shape(s geom.Shape) *canvas.Path {
	p := &canvas.Path{}
	for _, r := range s {
		p = p.Append(v.region(r))
	}
	return p
}

// bounds is the upright rectangle around a shape on the sheet.
func (v View) bounds(s geom.Shape) Rect {
	r := noRect
	for _, g := range s {
		r = r.joined(boundsOf(v.points(g.Outer)...))
	}
	return r
}

func newSheet(fonts *typeface, paper Paper, number, title string) *Sheet {
	return &Sheet{Number: number, Title: title, Paper: paper, fonts: fonts}
}

// add puts a mark on its layer.
func (s *Sheet) add(l layer, m mark) {
	if s.beside {
		l = layerMatter
	}
	s.marks[l] = append(s.marks[l], m)
}

func (s *Sheet) stroke(l layer, p pen, path *canvas.Path) {
	if s.clip != nil {
		path, _ = clipped(path, *s.clip)
	}
	if path.Empty() {
		return
	}
	s.add(l, mark{path: neat(path), pen: p})
}

func (s *Sheet) fill(l layer, ink color.RGBA, path *canvas.Path) {
	if s.clip != nil {
		_, path = clipped(path, *s.clip)
	}
	if path.Empty() {
		return
	}
	s.add(l, mark{path: neat(path), fill: ink})
}

// both fills a path and strokes its outline.
func (s *Sheet) both(l layer, ink color.RGBA, p pen, path *canvas.Path) {
	if s.clip != nil {
		if outline, area := clipped(path, *s.clip); outline != area {
			s.fill(l, ink, path)
			s.stroke(l, p, path)
			return
		}
	}
	if path.Empty() {
		return
	}
	s.add(l, mark{path: neat(path), fill: ink, pen: p})
}

// align says which point of a line of text its place is.
type align float64

const (
	atLeft   align = 0
	atMiddle align = 0.5
	atRight  align = 1
)

// words is a line of text to be lettered.
type words struct {
	text   string
	height float64
	bold   bool
	ink    color.RGBA // black where nothing is said
	turn   float64
	align  align
	layer  layer // layerText where none is said
}

// write letters a line with its baseline at p, and keeps its box.
func (s *Sheet) write(p Point, w words, box Box) {
	if w.text == "" {
		return
	}
	if w.ink == nothing {
		w.ink = black
	}
	l := w.layer
	if l == layerGround {
		l = layerText
	}
	width := s.fonts.width(w.text, w.height, w.bold)
	at := p.sub(Point{width * float64(w.align), 0}.turned(w.turn))
	s.add(l, mark{text: &lettering{text: w.text, at: at, height: w.height, bold: w.bold, ink: w.ink, turn: w.turn}})
	if box.Kind == "" {
		box.Kind = TextBox
	}
	box.Text = w.text
	box.Corners = textQuad(w.text, at, width, w.height, w.turn)
	s.Boxes = append(s.Boxes, box)
}

// onSheet marks a box that belongs to the sheet and to no view.
func onSheet() Box { return Box{View: -1} }

// Texts lists every line lettered on the sheet with the height of its
// capitals in millimetres and its turn in degrees.
func (s *Sheet) Texts() []Text {
	var all []Text
	for _, layer := range s.marks {
		for _, m := range layer {
			if m.text != nil {
				all = append(all, Text{m.text.text, m.text.at, m.text.height, m.text.turn})
			}
		}
	}
	return all
}

// Text is a line lettered on a sheet.
type Text struct {
	Text     string
	At       Point // start of the baseline
	HeightMM float64
	Turn     float64
}
