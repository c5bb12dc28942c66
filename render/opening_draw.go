package render

import (
	"github.com/tdewolff/canvas"

	"moiety/plan"
)

// leafThickness of a door, in metres, as it is drawn (40 to 45 mm: common practice).
const leafThickness = 0.04

// gate is the frame that a door is drawn in: from one jamb along the opening,
// and towards the side that it swings to. Lengths along it are millimetres.
type gate struct {
	origin   Point // hinge jamb, on the face of the swing side
	u, n     Point // along the opening; into the swing side
	width    float64
	wall     float64 // thickness of the wall
	straight bool    // u and n make a right-handed pair
}

func (g gate) at(along, out float64) Point { return g.origin.add(g.u.times(along)).add(g.n.times(out)) }

// from is the same frame seen from the other jamb.
func (g gate) fromOther() gate {
	return gate{origin: g.at(g.width, 0), u: g.u.times(-1), n: g.n, width: g.width, wall: g.wall, straight: !g.straight}
}

// sector is the quarter circle that a leaf sweeps.
func (g gate) sector(radius float64) (*canvas.Path, obstacle) {
	const steps = 6
	o := obstacle{g.origin}
	for i := 0; i <= steps; i++ {
		s, c := sincos(90 * float64(i) / steps)
		o = append(o, g.at(radius*c, radius*s))
	}
	p := &canvas.Path{}
	start, end := g.at(radius, 0), g.at(0, radius)
	p.MoveTo(start.X, start.Y)
	p.ArcTo(radius, radius, 0, false, g.straight, end.X, end.Y)
	return p, o
}

func (p *plot) gate(d *door) gate {
	a, b := p.view.Paper(d.at.line.A), p.view.Paper(d.at.line.B)
	if d.HingeAtEnd {
		a, b = b, a
	}
	u := b.sub(a).unit()
	n := u.left()
	left := d.left != d.HingeAtEnd // seen from the hinge
	if !left {
		n = n.times(-1)
	}
	wall := p.view.mm(d.at.thickness)
	return gate{origin: a.add(n.times(wall / 2)), u: u, n: n, width: a.distance(b), wall: wall, straight: left}
}

// drawDoor draws a door in its opening, or what closes the opening.
func (p *plot) drawDoor(d *door) {
	g := p.gate(d)
	if !d.mine {
		p.sheet.stroke(layerOpening, line(hair).in(caption), together(
			polyline(g.at(0, 0), g.at(g.width, 0)), polyline(g.at(0, -g.wall), g.at(g.width, -g.wall))))
		return
	}
	p.sheet.fill(layerWall, white, p.view.region(d.at.rectangle(0)))
	if d.state == plan.Sealed {
		p.drawSealed(d, g)
		return
	}
	leaf, swing := line(medium), line(hair)
	switch d.state {
	case plan.New:
		leaf, swing = line(thick), line(thin)
		p.legend.add(entryNewDoor)
	case plan.Removed:
		leaf, swing = leaf.dashedBy(dashed), swing.dashedBy(dashed)
		p.legend.add(entryRemoved)
	}
	if d.Opening {
		p.sheet.stroke(layerHidden, line(thin).dashedBy(dashed), together(
			polyline(g.at(0, 0), g.at(g.width, 0)), polyline(g.at(0, -g.wall), g.at(g.width, -g.wall))))
		p.legend.add(entryOpening)
		return
	}
	if d.at.exterior {
		p.sheet.stroke(layerOpening, line(thin), together(
			polyline(g.at(0, 0), g.at(g.width, 0)), polyline(g.at(0, -g.wall), g.at(g.width, -g.wall))))
	}
	switch d.Leaf {
	case plan.Double:
		p.swing(g, g.width/2, leaf, swing)
		p.swing(g.fromOther(), g.width/2, leaf, swing)
	case plan.Sliding:
		p.slide(g, leaf)
	case plan.Pocket:
		p.pocket(g, leaf)
	case plan.Bifold:
		p.fold(g, leaf)
	case plan.Overhead:
		p.overhead(d, g, leaf)
	default:
		p.swing(g, g.width, leaf, swing)
	}
	if d.state != plan.New && d.state != plan.Removed {
		p.legend.add(entryDoor)
	}
	if !d.swingSaid && d.Leaf != plan.Overhead {
		p.legend.note(noteSwings)
	}
}

// thickness is that of a leaf on paper, drawn no thinner than can be read.
func (p *plot) thickness() float64 { return max(p.view.mm(leafThickness), 0.5) }

// swing draws one leaf, open at a right angle, and the arc it sweeps.
func (p *plot) swing(g gate, width float64, leaf, swing pen) {
	t := p.thickness()
	path, sweep := g.sector(width)
	p.sheet.stroke(layerDoor, swing, path)
	p.sheet.both(layerDoor, white, leaf, polygon(g.at(0, 0), g.at(t, 0), g.at(t, width), g.at(0, width)))
	p.taken = append(p.taken, sweep)
}

// slide draws two panels that pass each other within the wall.
func (p *plot) slide(g gate, leaf pen) {
	t := p.thickness()
	mid := -g.wall / 2
	half := g.width / 2
	p.sheet.both(layerDoor, white, leaf, polygon(g.at(0, mid), g.at(half+t, mid), g.at(half+t, mid+t), g.at(0, mid+t)))
	p.sheet.both(layerDoor, white, leaf, polygon(g.at(half-t, mid-t), g.at(g.width, mid-t), g.at(g.width, mid), g.at(half-t, mid)))
}

// pocket draws a leaf half drawn out of the wall, and dashed where it goes.
func (p *plot) pocket(g gate, leaf pen) {
	t := p.thickness()
	low, high := -g.wall/2-t/2, -g.wall/2+t/2
	out := g.width * 0.55
	p.sheet.both(layerDoor, white, leaf, polygon(g.at(0, low), g.at(out, low), g.at(out, high), g.at(0, high)))
	p.sheet.stroke(layerHidden, line(thin).dashedBy(dashed), together(
		polyline(g.at(0, low), g.at(-g.width, low), g.at(-g.width, high), g.at(0, high))))
	p.taken = append(p.taken, obstacle{g.at(-g.width, low), g.at(out, low), g.at(out, high), g.at(-g.width, high)})
}

// fold draws folding panels at both jambs, half open.
func (p *plot) fold(g gate, leaf pen) {
	panel := g.width / 4
	const s, c = 0.8, 0.6 // a 3-4-5 triangle
	for _, side := range []gate{g, g.fromOther()} {
		p.sheet.stroke(layerDoor, leaf, polyline(side.at(0, 0), side.at(panel*c, panel*s), side.at(2*panel*c, 0)))
		p.taken = append(p.taken, obstacle{side.at(0, 0), side.at(2*panel*c, 0), side.at(panel*c, panel*s)})
	}
}

// overhead draws the door closed in its opening and, dashed, where it hangs
// when open: as far in as it is high.
func (p *plot) overhead(d *door, g gate, leaf pen) {
	const usualHeight = 2.1
	h := d.Height
	if h == 0 {
		h = usualHeight
	}
	depth := p.view.mm(h)
	t := p.thickness()
	p.sheet.both(layerDoor, white, leaf, polygon(g.at(0, -t), g.at(g.width, -t), g.at(g.width, 0), g.at(0, 0)))
	corners := []Point{g.at(0, 0), g.at(0, depth), g.at(g.width, depth), g.at(g.width, 0)}
	p.sheet.stroke(layerHidden, line(hair).dashedBy(dashed), polyline(corners...))
	for i := 0; i+1 < len(corners); i++ {
		p.taken = append(p.taken, hindrance(corners[i], corners[i+1]))
	}
	p.legend.add(entryOverhead)
}

// drawSealed fills an opening that is closed for good, and crosses it.
func (p *plot) drawSealed(d *door, g gate) {
	r := d.at.rectangle(0)
	path := p.view.region(r)
	p.sheet.fill(layerHatch, white, path)
	p.sheet.stroke(layerHatch, line(hair), hatch([][]Point{p.view.points(r.Outer)}, hatchInfill...))
	p.sheet.stroke(layerDoor, line(medium), together(
		polyline(g.at(0, 0), g.at(g.width, -g.wall)), polyline(g.at(0, -g.wall), g.at(g.width, 0))))
	// The cross reaches beyond the wall, so that it is seen at any scale.
	const reach = 1.6
	m := g.at(g.width/2, -g.wall/2)
	arm := g.wall/2 + reach
	p.sheet.stroke(layerSign, line(thick), together(
		polyline(m.add(g.u.times(-arm)).add(g.n.times(-arm)), m.add(g.u.times(arm)).add(g.n.times(arm))),
		polyline(m.add(g.u.times(-arm)).add(g.n.times(arm)), m.add(g.u.times(arm)).add(g.n.times(-arm)))))
	p.taken = append(p.taken, obstacle{
		m.add(g.u.times(-arm)).add(g.n.times(-arm)), m.add(g.u.times(arm)).add(g.n.times(-arm)),
		m.add(g.u.times(arm)).add(g.n.times(arm)), m.add(g.u.times(-arm)).add(g.n.times(arm))})
	p.legend.add(entrySealed)
}

// drawWindow draws the faces of the wall at sill height and the glass.
func (p *plot) drawWindow(w *window) {
	a, b := p.view.Paper(w.at.line.A), p.view.Paper(w.at.line.B)
	u := b.sub(a).unit()
	n := u.left()
	half := p.view.mm(w.at.thickness) / 2
	ink := black
	if !w.mine {
		ink = caption
	} else {
		p.sheet.fill(layerWall, white, p.view.region(w.at.rectangle(0)))
	}
	faces := together(
		polyline(a.add(n.times(half)), b.add(n.times(half))),
		polyline(a.add(n.times(-half)), b.add(n.times(-half))))
	const leastGap = 0.7 // between parallel lines, ISO 128
	glass := polyline(a, b)
	if frame := max(p.view.mm(0.05)/2, leastGap/2); half-frame >= leastGap {
		glass = together(
			polyline(a.add(n.times(frame)), b.add(n.times(frame))),
			polyline(a.add(n.times(-frame)), b.add(n.times(-frame))))
	}
	p.sheet.stroke(layerOpening, line(thin).in(ink), together(faces, glass))
	if !w.mine {
		return
	}
	p.legend.add(entryWindow)
	if w.WellSaid && w.WellProjection > 0 {
		p.drawWell(w, a, b, n, half)
	}
}

// drawWell draws the well before a window below grade.
func (p *plot) drawWell(w *window, a, b, n Point, half float64) {
	if !w.left {
		n = n.times(-1)
	}
	out := p.view.mm(w.WellProjection)
	wide := p.view.mm(w.Window.Width)
	m := a.add(b).times(0.5)
	u := b.sub(a).unit().times(wide / 2)
	corners := []Point{m.sub(u).add(n.times(half)), m.sub(u).add(n.times(half + out)), m.add(u).add(n.times(half + out)), m.add(u).add(n.times(half))}
	p.sheet.stroke(layerFixture, line(medium), polyline(corners...))
	for i := 0; i+1 < len(corners); i++ {
		p.taken = append(p.taken, hindrance(corners[i], corners[i+1]))
	}
	p.legend.add(entryWell)
}
