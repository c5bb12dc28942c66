package render

import (
	"math"
	"strings"
)

// Point is a place on a sheet.
type Point struct{ X, Y float64 }

func (p Point) add(q Point) Point        { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) sub(q Point) Point        { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) times(f float64) Point    { return Point{p.X * f, p.Y * f} }
func (p Point) dot(q Point) float64      { return p.X*q.X + p.Y*q.Y }
func (p Point) cross(q Point) float64    { return p.X*q.Y - p.Y*q.X }
func (p Point) length() float64          { return math.Hypot(p.X, p.Y) }
func (p Point) left() Point              { return Point{-p.Y, p.X} }
func (p Point) distance(q Point) float64 { return p.sub(q).length() }

// unit is p at length 1, or the zero point.
func (p Point) unit() Point {
	if l := p.length(); l > 0 {
		return p.times(1 / l)
	}
	return Point{}
}

// turned is p turned about the origin.
func (p Point) turned(degrees float64) Point {
	s, c := sincos(degrees)
	return Point{p.X*c - p.Y*s, p.X*s + p.Y*c}
}

// sincos is exact at the quarter turns.
func sincos(degrees float64) (s, c float64) {
	switch degrees {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case -90, 270:
		return -1, 0
	case 180, -180:
		return 0, -1
	}
	return math.Sincos(degrees * math.Pi / 180)
}

// Rect is an upright rectangle on a sheet.
type Rect struct{ X0, Y0, X1, Y1 float64 }

func (r Rect) width() float64  { return r.X1 - r.X0 }
func (r Rect) height() float64 { return r.Y1 - r.Y0 }
func (r Rect) centre() Point   { return Point{(r.X0 + r.X1) / 2, (r.Y0 + r.Y1) / 2} }

func (r Rect) grown(by float64) Rect { return Rect{r.X0 - by, r.Y0 - by, r.X1 + by, r.Y1 + by} }

func (r Rect) corners() [4]Point {
	return [4]Point{{r.X0, r.Y0}, {r.X1, r.Y0}, {r.X1, r.Y1}, {r.X0, r.Y1}}
}

func (r Rect) meets(s Rect) bool { return r.X0 < s.X1 && s.X0 < r.X1 && r.Y0 < s.Y1 && s.Y0 < r.Y1 }

// joined is the smallest rectangle around r and s; an empty one adds nothing.
func (r Rect) joined(s Rect) Rect {
	if r.X0 > r.X1 {
		return s
	}
	if s.X0 > s.X1 {
		return r
	}
	return Rect{min(r.X0, s.X0), min(r.Y0, s.Y0), max(r.X1, s.X1), max(r.Y1, s.Y1)}
}

// noRect is the empty rectangle: joining it changes nothing.
var noRect = Rect{1, 1, 0, 0}

func boundsOf(points ...Point) Rect {
	r := noRect
	for _, p := range points {
		r = r.joined(Rect{p.X, p.Y, p.X, p.Y})
	}
	return r
}

// BoxKind says what takes a place on a sheet.
type BoxKind string

// The kinds of box.
const (
	TextBox   BoxKind = "text"
	TagBox    BoxKind = "tag"    // a sign with its lettering: a badge, a number, an entry
	LineBox   BoxKind = "line"   // a dimension line
	SymbolBox BoxKind = "symbol" // north, scale bar
)

// Box is the place that a text, a tag or a dimension line takes on a sheet: a
// rectangle, turned as the text is.
type Box struct {
	Kind    BoxKind
	Text    string
	Corners [4]Point // counter-clockwise
	Cell    string   // id of the cell that it must stay in, "" for none
	View    int      // of Sheet.Views that it belongs to, -1 for none
	Part    string   // boxes of one label or tag share this; "" stands alone
}

// Overlaps tells whether a and b share more than slack of either's depth, in millimetres.
func (a Box) Overlaps(b Box, slack float64) bool {
	return quadsOverlap(a.Corners, b.Corners, slack)
}

// quadsOverlap separates two convex quadrangles along the sides of either.
func quadsOverlap(a, b [4]Point, slack float64) bool {
	for _, q := range [2][4]Point{a, b} {
		for i := range q {
			axis := q[(i+1)%4].sub(q[i]).left().unit()
			if axis == (Point{}) {
				continue
			}
			a0, a1 := span(a[:], axis)
			b0, b1 := span(b[:], axis)
			if a1-b0 <= slack || b1-a0 <= slack {
				return false
			}
		}
	}
	return true
}

func span(points []Point, axis Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		d := p.dot(axis)
		low, high = min(low, d), max(high, d)
	}
	return low, high
}

// textQuad is the place of a line of text that starts at p: from the foot of
// its descenders, where it has any, to the top of its capitals.
func textQuad(text string, p Point, width, height, turn float64) [4]Point {
	low := 0.0
	if strings.ContainsAny(text, descending) {
		low = -descent * height
	}
	q := Rect{0, low, width, height}.corners()
	for i := range q {
		q[i] = p.add(q[i].turned(turn))
	}
	return q
}
