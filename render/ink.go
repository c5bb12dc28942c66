package render

import (
	"image/color"
	"math"

	"github.com/tdewolff/canvas"
)

// mark is one thing drawn on a sheet: a path that is filled, stroked or both,
// or a line of text.
type mark struct {
	path *canvas.Path
	fill color.RGBA // nothing: not filled
	pen  pen        // width 0: not stroked
	text *lettering
}

// lettering is one line of text.
type lettering struct {
	text   string
	at     Point // where the baseline starts
	height float64
	bold   bool
	ink    color.RGBA
	turn   float64 // -90 < turn <= 90: read from the bottom or from the right
}

// layer orders what is drawn: later layers cover earlier ones. Each becomes a
// group of the SVG by its name.
type layer int

const (
	layerGround layer = iota
	layerTint
	layerPattern
	layerFlight
	layerFixture
	layerWall
	layerHatch
	layerFace
	layerOpening
	layerDoor
	layerHidden
	layerSign
	layerDimension
	layerText
	layerMatter // what stands beside the drawing: legend, key, tables
	layerFrame
	layers
)

var layerNames = [layers]string{
	"ground", "units", "patterns", "flights", "fixtures", "walls", "hatches", "faces", "openings",
	"doors", "hidden", "signs", "dimensions", "texts", "legend", "frame",
}

// grain is what coordinates on paper are rounded to: a micrometre is far
// below what a plotter places and keeps files small.
const grain = 1000.0

func rounded(v float64) float64 {
	r := math.Round(v*grain) / grain
	if r == 0 {
		return 0 // never -0
	}
	return r
}

// neat is a path with its coordinates rounded to the grain. The path given is
// left as it is.
func neat(p *canvas.Path) *canvas.Path {
	q := &canvas.Path{}
	for s := p.Scanner(); s.Scan(); {
		end := s.End()
		x, y := rounded(end.X), rounded(end.Y)
		switch s.Cmd() {
		case canvas.MoveToCmd:
			q.MoveTo(x, y)
		case canvas.LineToCmd:
			q.LineTo(x, y)
		case canvas.ArcToCmd:
			rx, ry, rot, large, sweep := s.Arc()
			q.ArcTo(rounded(rx), rounded(ry), rounded(rot), large, sweep, x, y)
		case canvas.CubeToCmd:
			c1, c2 := s.CP1(), s.CP2()
			q.CubeTo(rounded(c1.X), rounded(c1.Y), rounded(c2.X), rounded(c2.Y), x, y)
		case canvas.CloseCmd:
			q.Close()
		}
	}
	return q
}

// withoutArcs is p with its arcs as cubic curves, piece by piece: PDF has no
// arcs, and canvas replaces them in a time that grows with the square of the
// path's length, which a ground of dots makes felt. A path without arcs is
// returned as it is.
func withoutArcs(p *canvas.Path) *canvas.Path {
	if !hasArcs(p) {
		return p
	}
	q := &canvas.Path{}
	for _, piece := range p.Split() {
		for s := piece.ReplaceArcs().Scanner(); s.Scan(); {
			end := s.End()
			switch s.Cmd() {
			case canvas.MoveToCmd:
				q.MoveTo(end.X, end.Y)
			case canvas.LineToCmd:
				q.LineTo(end.X, end.Y)
			case canvas.CubeToCmd:
				c1, c2 := s.CP1(), s.CP2()
				q.CubeTo(c1.X, c1.Y, c2.X, c2.Y, end.X, end.Y)
			case canvas.CloseCmd:
				q.Close()
			}
		}
	}
	return q
}

func hasArcs(p *canvas.Path) bool {
	for s := p.Scanner(); s.Scan(); {
		if s.Cmd() == canvas.ArcToCmd {
			return true
		}
	}
	return false
}

// moved is a copy of p under m: canvas itself transforms in place.
func moved(p *canvas.Path, m canvas.Matrix) *canvas.Path { return p.Copy().Transform(m) }

func polyline(points ...Point) *canvas.Path {
	p := &canvas.Path{}
	for i, q := range points {
		if i == 0 {
			p.MoveTo(q.X, q.Y)
		} else {
			p.LineTo(q.X, q.Y)
		}
	}
	return p
}

func polygon(points ...Point) *canvas.Path {
	p := polyline(points...)
	p.Close()
	return p
}

func rectangle(r Rect) *canvas.Path {
	q := r.corners()
	return polygon(q[:]...)
}

func circle(centre Point, radius float64) *canvas.Path {
	return canvas.Circle(radius).Translate(centre.X, centre.Y)
}

// arc runs counter-clockwise from one angle to the other, in degrees.
func arc(centre Point, radius, from, to float64) *canvas.Path {
	p := &canvas.Path{}
	start := centre.add(Point{radius, 0}.turned(from))
	p.MoveTo(start.X, start.Y)
	p.Arc(radius, radius, 0, from, to)
	return p
}

// together joins paths into one, to be drawn at a stroke.
func together(paths ...*canvas.Path) *canvas.Path {
	p := &canvas.Path{}
	for _, q := range paths {
		p = p.Append(q)
	}
	return p
}
