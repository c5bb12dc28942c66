package render

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// How the place of a room's label is found.
//
// What may be said of a room is listed by labels, the fullest first: name,
// clear size, area and ceiling; then less of it, smaller, broken into lines.
// Where it may stand is listed by places, the best first: around the visual
// centre, which is the point farthest from all borders (geom.VisualCentre),
// then on a grid, farther along the lines of text before farther across them.
// The fullest label that finds a place wins, at the best place that it finds;
// in a room that is narrow across the sheet it may also read from the right.
// It keeps clear of walls and of everything taken, which is what was drawn
// and lettered before it: swings, fixtures, flights, tags, dimensions. It is
// tried first clear of faint lines too (outlines of floors, lines to divide
// along, edges of the ground), then upon them. A room in which no label finds
// a place carries a number (number.go), in a circle, then bare, then led to
// from free floor outside; the key beside the plan says what it stands for.
// Nothing is drawn at random, so that the same plan is lettered the same.

// labelIn letters a room within a part of it; where it must be named, by a
// number if nothing else finds place.
func (p *plot) labelIn(r room, region geom.Region, must bool) {
	c := &p.b.Cells[r.cell]
	rings := p.rings(geom.Shape{region})
	at := p.found.centre(region)
	spots := places(rings, p.view.Paper(at))
	tall := tallerThanWide(rings)
	for _, strict := range []bool{true, false} {
		for _, l := range p.labels(r) {
			width, height := p.sheet.fonts.labelSize(l)
			if q, ok := p.findPlace(rings, spots, width, height, strict); ok {
				p.putLabel(l, q, 0, c.ID)
				return
			}
			if tall {
				if q, ok := p.findPlace(rings, spots, height, width, strict); ok {
					p.putLabel(l, q, 90, c.ID)
					return
				}
			}
		}
		if len(p.faint) == 0 {
			break
		}
	}
	if must {
		p.numberRoom(r, rings, spots)
	}
}

// tallerThanWide tells whether a room is narrow across the sheet, so that
// lettering that runs up it may fit where level lettering does not.
func tallerThanWide(rings [][]Point) bool {
	b := boundsOf(rings[0]...)
	return b.height() > 1.2*b.width()
}

// insideRegion tells whether a quadrangle lies wholly within rings (even-odd).
func insideRegion(q [4]Point, rings [][]Point) bool {
	b := boundsOf(q[:]...)
	in := false
	for _, r := range rings {
		if within(q[0], r) {
			in = !in
		}
		for i, a := range r {
			c := r[(i+1)%len(r)]
			if !boundsOf(a, c).grown(1e-6).meets(b.grown(1e-6)) {
				continue
			}
			for j := range q {
				if cross(a, c, q[j], q[(j+1)%4]) {
					return false
				}
			}
		}
	}
	return in
}

// roomy tells whether a quadrangle is free within a cell: inside it and clear
// of everything taken.
func (p *plot) roomy(q [4]Point, cell int) bool {
	if cell < 0 || !insideRegion(q, p.rings(geom.Shape{p.b.Cells[cell].Region})) {
		return false
	}
	return p.free(q)
}

func (p *plot) free(q [4]Point) bool {
	for _, o := range p.taken {
		if o.meets(q) {
			return false
		}
	}
	return true
}

// unlined tells whether a quadrangle is clear of the lines that labels keep
// clear of where they can.
func (p *plot) unlined(q [4]Point) bool {
	for _, o := range p.faint {
		if o.meets(q) {
			return false
		}
	}
	return true
}

// Distances that a label keeps, in millimetres.
const (
	wallClearance  = 1.2 // from the faces of walls, and so from outlines dotted along them
	otherClearance = 0.7 // from swings, fixtures, treads and other lettering
)

// places lists where the middle of a label may come to lie in a region on
// paper, best first: near the visual centre, on a grid fine enough for the
// region's size.
func places(rings [][]Point, centre Point) []Point {
	r := noRect
	for _, ring := range rings {
		r = r.joined(boundsOf(ring...))
	}
	const most = 1500
	step := max(0.8, math.Sqrt(r.width()*r.height()/most))
	all := []Point{centre}
	for x := centre.X - math.Floor((centre.X-r.X0)/step)*step; x < r.X1; x += step {
		for y := centre.Y - math.Floor((centre.Y-r.Y0)/step)*step; y < r.Y1; y += step {
			if q := (Point{x, y}); q != centre && oddly(q, rings) {
				all = append(all, q)
			}
		}
	}
	// A label moved along its line is easier to find than one moved off it.
	// Places as far as each other, but for rounding, keep their order.
	type spot struct {
		at    Point
		far   int64
		order int
	}
	const billionths = 1e9
	spots := make([]spot, len(all))
	for i, q := range all {
		spots[i] = spot{q, int64(math.Round(billionths * math.Hypot(q.X-centre.X, 1.3*(q.Y-centre.Y)))), i}
	}
	slices.SortFunc(spots, func(a, b spot) int { return cmp.Or(cmp.Compare(a.far, b.far), cmp.Compare(a.order, b.order)) })
	for i, s := range spots {
		all[i] = s.at
	}
	return all
}

func oddly(p Point, rings [][]Point) bool {
	in := false
	for _, r := range rings {
		if within(p, r) {
			in = !in
		}
	}
	return in
}

// findPlace finds the first place where a block of a size fits in a region,
// clear of its borders and of everything taken; where that is strictly asked,
// of faint lines too.
func (p *plot) findPlace(rings [][]Point, places []Point, width, height float64, strict bool) (Point, bool) {
	for _, c := range places {
		near := Rect{c.X - width/2, c.Y - height/2, c.X + width/2, c.Y + height/2}
		quad := near.grown(otherClearance).corners()
		if insideRegion(near.grown(wallClearance).corners(), rings) && p.free(quad) && (!strict || p.unlined(quad)) {
			return c, true
		}
	}
	return Point{}, false
}
