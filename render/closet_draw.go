package render

import (
	"moiety/geom"
	"moiety/plan"
)

// drawClosets draws the closets built around machines: their partitions as new
// walls within a unit, and folding doors over their whole front. Bathrooms that
// are built into a room have a door that swings outwards.
func (p *plot) drawClosets() {
	if p.s == nil {
		return
	}
	for _, fit := range p.s.Fits {
		if p.b.Cells[fit.Cell].Level != p.level || p.unit != "" && !p.shows(fit.Cell) {
			continue
		}
		for i := range fit.Closets {
			p.drawCloset(&fit.Closets[i])
		}
	}
}

func (p *plot) drawCloset(c *plan.BuiltCloset) {
	for _, end := range append(c.Ends[:], c.Front...) {
		path := p.view.region(end)
		p.sheet.fill(layerHatch, white, path)
		p.sheet.stroke(layerHatch, line(hair), hatch(p.rings(geom.Shape{end}), hatchNew...))
		p.sheet.stroke(layerFace, line(thick), path)
		p.taken = append(p.taken, obstacle(p.view.points(end.Outer)))
	}
	p.legend.add(entryNewWall)
	a, b := p.view.Paper(c.Doors.A), p.view.Paper(c.Doors.B)
	along := b.sub(a).unit()
	out := along.left()
	if back := p.view.Paper(c.Region.Bounds().Centre()); back.sub(a).dot(out) > 0 {
		out = out.times(-1)
	}
	if len(c.Front) > 0 {
		wall := p.view.mm(c.Thickness)
		g := gate{origin: a.add(out.times(wall / 2)), u: along, n: out, width: a.distance(b), wall: wall, straight: along.left().dot(out) > 0}
		p.swing(g, g.width, line(thick), line(thin))
		p.legend.add(entryNewDoor)
		return
	}
	leaf := b.sub(a).length() / 4
	const across, along34 = 0.6, 0.8 // a 3-4-5 triangle
	for _, side := range []struct {
		from Point
		dir  Point
	}{{a, along}, {b, along.times(-1)}} {
		mid := side.from.add(side.dir.times(leaf * along34)).add(out.times(leaf * across))
		end := side.from.add(side.dir.times(2 * leaf * along34))
		p.sheet.stroke(layerDoor, line(medium), polyline(side.from, mid, end))
		p.taken = append(p.taken, obstacle{side.from, end, mid})
	}
}
