package render

import (
	"fmt"

	"github.com/tdewolff/canvas"

	"moiety/plan"
)

// crossing is something that passes through the separation, with its number.
type crossing struct {
	plan.Crossing
	tag string // P1, P2: numbered throughout the set
}

// crossings are those of the scheme, numbered.
func (p *project) crossings() []crossing {
	var out []crossing
	for i, c := range p.s.Crossings() {
		out = append(out, crossing{c, fmt.Sprintf("P%d", i+1)})
	}
	return out
}

// crossingOutline is a box with both ends pointed.
func crossingOutline(r Rect) *canvas.Path {
	const point = 1.2
	mid := r.centre().Y
	return polygon(Point{r.X0, mid}, Point{r.X0 + point, r.Y0}, Point{r.X1 - point, r.Y0}, Point{r.X1, mid}, Point{r.X1 - point, r.Y1}, Point{r.X0 + point, r.Y1})
}

// crossingSize is half the height of a crossing's sign: a pointed box stands
// for a thing that goes through, millimetres.
const crossingSize = 2.2

// drawCrossings marks what passes through the separation, with its number.
func (p *plot) drawCrossings() {
	for _, c := range p.crossings {
		if c.Level != p.level || p.piece != nil && !p.piece.owns(p.turnedPoint(c.At)) {
			continue
		}
		half := p.sheet.fonts.width(c.tag, smallText, true)/2 + 1.9
		put := func(at Point, place Rect) { p.putCrossing(c.tag, at, place) }
		drawn := false
		for _, within := range []func([4]Point) bool{p.indoors, p.closeBy} {
			// From the middle of what it is of, else from beside its letters.
			for _, aside := range []Point{{}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}} {
				at := p.view.Paper(c.At).add(aside.times(p.view.mm(besideLetters)))
				drawn = drawn || p.standNear(at, half, crossingSize, within, put)
			}
		}
		text := c.Note
		if !drawn {
			text += ", no room on the plan"
		}
		p.legend.crossings = append(p.legend.crossings, [2]string{c.tag, text})
	}
}

func (p *plot) putCrossing(tag string, at Point, place Rect) {
	p.sheet.both(layerSign, black, line(thin), crossingOutline(place))
	p.sheet.write(Point{at.X, at.Y - smallText/2}, words{text: tag, height: smallText, bold: true, ink: white, align: atMiddle}, p.box(TagBox, ""))
	corners := place.corners()
	p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
	p.taken = append(p.taken, obstacle(corners[:]))
	p.legend.add(entryCrossing)
}

// beyondHouse is how far outside the house, in millimetres of paper, a sign
// may stand that finds no room in it: the first dimension line lies beyond.
const beyondHouse = nearGround - 1

// closeBy tells whether a quadrangle lies in the house or close around it.
func (p *plot) closeBy(q [4]Point) bool {
	around := p.extent().grown(beyondHouse)
	return boundsOf(q[:]...).joined(around) == around
}

// besideLetters is how far from the middle of a fixture, in metres, a line may
// begin that would run through its letters there.
const besideLetters = 0.22

// taggedBlock is a key to signs drawn on a sheet: the tag of each, and what it
// stands for.
func (t *typeface) taggedBlock(title string, keyed [][2]string) block {
	b := block{title: title}
	const indent = 9.0
	for _, pair := range keyed {
		lines := t.wrapped(t.legible(pair[1]), columnWidth-indent, smallText, false)
		b.rows = append(b.rows, blockRow{height: textStep*float64(len(lines)) + 1, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: pair[0], height: smallText, bold: true}, onSheet())
			for i, l := range lines {
				s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText}, onSheet())
			}
		}})
	}
	return b
}
