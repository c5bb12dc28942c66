package render

import (
	"strconv"

	"moiety/geom"
	"moiety/plan"
)

// plot is a floor being drawn on a sheet.
type plot struct {
	*floor
	sheet  *Sheet
	view   View
	index  int // of the view among the sheet's
	legend *legend
	key    *roomKey
	taken  []obstacle // what lettering and tags keep clear of
	faint  []obstacle // lines that labels keep clear of where they can
	floors []floorLine

	around Rect  // what extent works out, once
	piece  *part // of the level that is drawn, nil for the whole

	outside []func() // puts numbers that found no place in their own room

	buildUps *buildUps
}

// drawPlan draws a floor as a view of the sheet, without its dimensions.
func (p *plot) drawPlan() {
	p.drawTints()
	p.drawGround()
	p.drawWalls()
	p.drawParts()
	p.drawDemolition()
	p.layFloors()
	for i := range p.windows {
		p.drawWindow(&p.windows[i])
	}
	for i := range p.doors {
		p.drawDoor(&p.doors[i])
	}
	p.drawWorktops()
	p.drawClosets()
	for i := range p.fixtures {
		p.drawFixture(&p.fixtures[i])
	}
	for i := range p.fixtures {
		if d := &p.fixtures[i]; d.mine && !d.elsewhere {
			p.letterFixture(d)
		}
	}
	for i := range p.flights {
		p.drawFlight(&p.flights[i])
	}
}

// box starts the box of something that belongs to this view.
func (p *plot) box(kind BoxKind, cell string) Box { return Box{Kind: kind, View: p.index, Cell: cell} }

// rings are the rings of a shape on the sheet, for a hatch.
func (p *plot) rings(s geom.Shape) [][]Point {
	var rings [][]Point
	for _, r := range s {
		for _, ring := range r.Rings() {
			rings = append(rings, p.view.points(ring))
		}
	}
	return rings
}

// drawTints colours the rooms and flights of the units. The pattern on what
// is shared is laid last, around the labels: see drawPatterns.
func (p *plot) drawTints() {
	if p.s == nil {
		return
	}
	tint := func(cell int) {
		c := &p.b.Cells[cell]
		switch p.owner(cell) {
		case plan.UnitA:
			p.sheet.fill(layerTint, tintA, p.view.region(c.Region))
			p.legend.add(entryUnitA)
		case plan.UnitB:
			p.sheet.fill(layerTint, tintB, p.view.region(c.Region))
			p.legend.add(entryUnitB)
		}
	}
	for _, r := range p.rooms {
		if r.mine {
			tint(r.cell)
		}
	}
	for i := range p.flights {
		if f := &p.flights[i]; f.mine && f.under {
			p.tintPart(f)
		} else if f.mine {
			tint(f.cell)
		}
	}
	for _, r := range p.outdoors {
		if r.mine && p.structure(r.cell) && p.beside(r.cell) {
			tint(r.cell)
		}
	}
}

// drawPatterns dots what both units share, clear of everything lettered.
func (p *plot) drawPatterns() {
	if p.s == nil {
		return
	}
	var boxes [][4]Point
	for _, b := range p.sheet.Boxes {
		if b.View == p.index {
			boxes = append(boxes, b.Corners)
		}
	}
	common := func(cell int) {
		if p.owner(cell) == plan.Common {
			p.sheet.fill(layerPattern, faint, dots(p.rings(geom.Shape{p.b.Cells[cell].Region}), boxes))
			p.legend.add(entryCommon)
		}
	}
	for _, r := range p.rooms {
		common(r.cell)
	}
	for _, f := range p.flights {
		common(f.cell)
	}
	for _, r := range p.outdoors {
		if p.structure(r.cell) && p.beside(r.cell) {
			common(r.cell)
		}
	}
}

// nearGround is how far around the house, in millimetres of paper, the edges
// of the ground are drawn: they end before the first dimension line.
const nearGround = 7.0

// extent is what the plan takes on paper: the outline of the level and the
// structures beside it.
func (p *plot) extent() Rect {
	if p.around == (Rect{}) {
		p.around = p.newExtent()
	}
	return p.around
}

func (p *plot) newExtent() Rect {
	r := p.view.bounds(p.outline)
	for _, o := range p.outdoors {
		if p.structure(o.cell) && p.beside(o.cell) {
			r = r.joined(p.view.bounds(geom.Shape{p.b.Cells[o.cell].Region}))
		}
	}
	for _, o := range p.rooms {
		if p.b.Cells[o.cell].Outdoor {
			r = r.joined(p.view.bounds(geom.Shape{p.b.Cells[o.cell].Region}))
		}
	}
	if p.piece != nil {
		return p.onSheet(p.piece.reach)
	}
	return r
}

// beside tells whether an outdoor cell lies against the outline.
func (f *floor) beside(cell int) bool {
	for _, e := range f.b.Cells[cell].Region.Edges() {
		for _, o := range f.outline.Edges() {
			for _, q := range []geom.Pt{e.A, e.Mid(), e.B} {
				if o.DistanceTo(q) <= besideHouse {
					return true
				}
			}
			if e.DistanceTo(o.A) <= besideHouse || e.DistanceTo(o.Mid()) <= besideHouse {
				return true
			}
		}
	}
	return false
}

// drawGround draws what lies outdoors beside the level: structures in full,
// the edges of the ground only near the house.
func (p *plot) drawGround() {
	near := p.extent().grown(nearGround)
	for _, r := range p.outdoors {
		if p.structure(r.cell) && p.beside(r.cell) {
			p.outlineOf(r.cell)
			continue
		}
		for _, e := range p.b.Cells[r.cell].Region.Edges() {
			if a, b, ok := clip(p.view.Paper(e.A), p.view.Paper(e.B), near); ok {
				p.sheet.stroke(layerGround, line(hair).in(faint), polyline(a, b))
				p.legend.add(entryGround)
			}
		}
	}
	for _, r := range p.rooms {
		if p.b.Cells[r.cell].Outdoor {
			p.outlineOf(r.cell)
		}
	}
}

// outlineOf draws a porch or the like.
func (p *plot) outlineOf(cell int) {
	region := p.b.Cells[cell].Region
	p.sheet.stroke(layerFixture, line(thin), p.view.region(region))
	for _, e := range region.Edges() {
		p.faint = append(p.faint, hindrance(p.view.Paper(e.A), p.view.Paper(e.B)))
	}
	p.legend.add(entryStructure)
}

// clip is the part of a line that lies in a rectangle (Liang and Barsky,
// "A New Concept and Method for Line Clipping", 1984).
func clip(a, b Point, r Rect) (Point, Point, bool) {
	d := b.sub(a)
	t0, t1 := 0.0, 1.0
	for _, side := range [4][2]float64{{-d.X, a.X - r.X0}, {d.X, r.X1 - a.X}, {-d.Y, a.Y - r.Y0}, {d.Y, r.Y1 - a.Y}} {
		step, room := side[0], side[1]
		switch {
		case step == 0 && room < 0:
			return a, b, false
		case step < 0:
			t0 = max(t0, room/step)
		case step > 0:
			t1 = min(t1, room/step)
		}
	}
	if t0 >= t1 {
		return a, b, false
	}
	return a.add(d.times(t0)), a.add(d.times(t1)), true
}

func numbered(prefix string, n int) string { return prefix + strconv.Itoa(n) }
