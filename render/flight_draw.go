package render

import (
	"image/color"

	"github.com/tdewolff/canvas"

	"moiety/geom"
	"moiety/plan"
)

// drawFlight draws treads, the break where the plan cuts the flight, the
// line of walk with its arrow, and which way it goes from this level.
func (p *plot) drawFlight(f *flight) {
	if f.unseen {
		return
	}
	region := p.view.region(f.stair.Region)
	if !f.mine {
		p.sheet.stroke(layerFlight, line(hair).in(caption), region)
		return
	}
	treads := f.treads()
	length := f.length()
	cut := p.cutOf(f)
	seen, hidden := &canvas.Path{}, &canvas.Path{}
	for _, t := range treads {
		l := polyline(p.view.Paper(t.a), p.view.Paper(t.b))
		switch {
		case f.foot && t.along > cut+geom.Coincide:
			if !f.under {
				hidden = hidden.Append(l)
			}
		case !f.foot && f.under && t.along < cut-geom.Coincide:
		default:
			seen = seen.Append(l)
		}
	}
	p.sheet.stroke(layerFlight, line(hair), region)
	p.sheet.stroke(layerFlight, line(thin), seen)
	p.sheet.stroke(layerFlight, line(hair).dashedBy(dashed), hidden)
	if f.foot && cut < length-geom.Coincide {
		p.drawBreak(f, cut)
	}
	p.drawWalk(f, cut, length)
	p.taken = append(p.taken, obstacle(p.view.points(f.stair.Region.Outer)))
	if f.foot {
		p.legend.add(entryFlightUp)
	} else {
		p.legend.add(entryFlightDown)
	}
}

// tintPart colours the part of a flight that is seen where another goes on
// over or under it: as far as the break.
func (p *plot) tintPart(f *flight) {
	tint := p.tintOf(f.cell)
	if tint == white {
		return
	}
	at, dir := p.walkAt(f, p.cutOf(f))
	if f.foot {
		dir = dir.times(-1)
	}
	// The half on the side of the break that dir points to.
	ring := p.view.points(f.stair.Region.Outer)
	var part []Point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := a.sub(at).dot(dir), b.sub(at).dot(dir)
		if da >= 0 {
			part = append(part, a)
		}
		if (da < 0) != (db < 0) {
			part = append(part, a.add(b.sub(a).times(da/(da-db))))
		}
	}
	if len(part) >= 3 {
		p.sheet.fill(layerTint, tint, polygon(part...))
	}
	p.legend.add(entryUnitA + entry(p.owner(f.cell)))
}

// walkAt is the point of the walk at a distance from its foot, and the
// direction there, on paper.
func (p *plot) walkAt(f *flight, along float64) (Point, Point) {
	walk := f.stair.Walk
	for i := 0; i+1 < len(walk); i++ {
		s := geom.Segment{A: walk[i], B: walk[i+1]}
		if l := s.Length(); along <= l || i+2 == len(walk) {
			return p.view.Paper(s.At(along)), p.view.Paper(s.B).sub(p.view.Paper(s.A)).unit()
		} else {
			along -= l
		}
	}
	return p.view.Paper(walk[0]), Point{1, 0}
}

// drawBreak draws the line with a kink at which the plan cuts the flight,
// slanted, on a strip kept clear of treads.
func (p *plot) drawBreak(f *flight, cut float64) {
	at, dir := p.walkAt(f, cut)
	_, width := f.legs()
	half := p.view.mm(width) / 2
	n := dir.left()
	slant := 0.45 * half
	const clear = 0.8
	place := func(across, along float64) Point { return at.add(n.times(half * across)).add(dir.times(along)) }
	p.sheet.fill(layerFlight, p.tintOf(f.cell), polygon(
		place(-0.96, -slant-clear), place(0.96, slant-clear), place(0.96, slant+clear), place(-0.96, -slant+clear)))
	const kink = 1.3
	p.sheet.stroke(layerFlight, line(thin), polyline(
		place(-1.08, -slant*1.08), place(-0.14, -slant*0.14), place(-0.05, kink), place(0.05, -kink), place(0.14, slant*0.14), place(1.08, slant*1.08)))
}

// Arrow of a walk, millimetres.
const (
	arrowLength = 2.8
	arrowHalf   = 0.8
	originDot   = 0.6
)

// drawWalk draws the arrow, always upwards (ISO 7519), with its word at the
// end where one stands on this level: UP at the foot, DN at the head.
func (p *plot) drawWalk(f *flight, cut, length float64) {
	from, to := 0.0, length
	const breakRoom = 2.2 // millimetres that an arrow keeps from the break
	room := breakRoom / p.view.Scale.MMPerMetre()
	if f.foot && f.under {
		to = max(cut/2, cut-room)
	}
	if !f.foot && f.under {
		from = min((cut+length)/2, cut+room)
	}
	start, _ := p.walkAt(f, from)
	tip, dir := p.walkAt(f, to)
	points := []Point{start}
	along := 0.0
	for i := 0; i+2 < len(f.stair.Walk); i++ {
		along += f.stair.Walk[i].Distance(f.stair.Walk[i+1])
		if along > from && along < to {
			points = append(points, p.view.Paper(f.stair.Walk[i+1]))
		}
	}
	points = append(points, tip.sub(dir.times(arrowLength)))
	p.sheet.stroke(layerFlight, line(thin), polyline(points...))
	p.sheet.fill(layerFlight, black, polygon(tip,
		tip.sub(dir.times(arrowLength)).add(dir.left().times(arrowHalf)),
		tip.sub(dir.times(arrowLength)).sub(dir.left().times(arrowHalf))))
	if from == 0 {
		p.sheet.both(layerFlight, white, line(thin), circle(start, originDot))
	}
	p.flightWord(f, from, to)
}

// flightWord letters UP or DN: on the floor before the flight where there is
// room, else upon the flight itself, with the treads kept clear.
func (p *plot) flightWord(f *flight, from, to float64) {
	if f.elsewhere {
		return
	}
	text := "UP"
	if !f.foot {
		text = "DN"
	}
	if f.closed {
		text = "closed off"
		p.legend.add(entryClosedFlight)
	}
	w := words{text: text, height: smallText, align: atMiddle}
	width := p.sheet.fonts.width(text, smallText, false)
	end, dir := p.walkAt(f, from)
	if !f.foot {
		end, dir = p.walkAt(f, to)
		dir = dir.times(-1)
	}
	try := func(middle Point, inside bool) bool {
		at := Point{middle.X, middle.Y - smallText/2}
		quad := textQuad(text, at.sub(Point{width / 2, 0}), width, smallText, 0)
		grown := boundsOf(quad[:]...).grown(0.7).corners()
		if !p.clear(grown, inside, f) {
			return false
		}
		if inside {
			p.sheet.fill(layerSign, p.tintOf(f.cell), polygon(grown[:]...))
		}
		p.sheet.write(at, w, p.box(TextBox, ""))
		p.taken = append(p.taken, obstacle(grown[:]))
		return true
	}
	reach := 1.6 + max(abs1(dir.X)*width/2, abs1(dir.Y)*smallText/2)
	for _, side := range []float64{0, 1, -1} {
		if !f.closed && try(end.sub(dir.times(reach)).add(dir.left().times(side*(width/2+1.5))), false) {
			return
		}
	}
	length := to - from
	for k := 1; k < 12; k++ {
		along := from + length*float64(k)/12
		if !f.foot {
			along = to - length*float64(k)/12
		}
		at, _ := p.walkAt(f, along)
		if try(at, true) {
			return
		}
	}
}

func abs1(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// clear tells whether a box is free for a word of a flight: on open floor of
// a room, or within the flight.
func (p *plot) clear(q [4]Point, inside bool, f *flight) bool {
	if !p.inWindow(q) {
		return false
	}
	if inside {
		return insideRegion(q, p.rings(geom.Shape{f.stair.Region}))
	}
	for _, o := range p.taken {
		if o.meets(q) {
			return false
		}
	}
	for i := range p.doors {
		if _, sweep := p.gate(&p.doors[i]).sector(p.view.mm(p.doors[i].at.line.Length())); p.doors[i].mine && sweep.meets(q) {
			return false
		}
	}
	for _, r := range p.rooms {
		if insideRegion(q, p.rings(geom.Shape{p.b.Cells[r.cell].Region})) {
			return true
		}
	}
	return false
}

// tintOf is the colour that a cell is drawn on.
func (p *plot) tintOf(cell int) color.RGBA {
	switch p.owner(cell) {
	case plan.UnitA:
		return tintA
	case plan.UnitB:
		return tintB
	}
	return white
}
