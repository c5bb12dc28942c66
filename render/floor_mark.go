package render

import (
	"moiety/geom"
	"moiety/plan"
)

// Insets of the outlines of separating floors, millimetres inside the faces
// of the walls: the floor overhead lies farther in, so that both show.
const (
	underInset = 0.9
	overInset  = 1.9
)

// wholeRoom is the part of a room under or over a separating floor from which
// the room's own outline is drawn: the rest is the walls of the other level.
const wholeRoom = 0.85

// drawFloors outlines the floors that separate the units, room by room:
// dotted underfoot, dashed overhead, as everything above the cut.
func (p *plot) drawFloors() {
	if p.s == nil {
		return
	}
	for _, r := range p.rooms {
		if !r.mine {
			continue
		}
		c := &p.b.Cells[r.cell]
		var under, over []geom.Shape
		for _, f := range p.s.Floors {
			if f.State != plan.Separating {
				continue
			}
			if f.Above == c.ID {
				under = append(under, f.Region)
			}
			if f.Below == c.ID {
				over = append(over, f.Region)
			}
		}
		if p.drawFloor(c, under, underInset, dotted) {
			p.legend.add(entryFloorBelow)
		}
		if p.drawFloor(c, over, overInset, shortDashed) {
			p.legend.add(entryFloorAbove)
		}
	}
}

// drawFloor outlines where a room has a separating floor on one side.
func (p *plot) drawFloor(c *plan.Cell, pieces []geom.Shape, in float64, dash []float64) bool {
	if len(pieces) == 0 {
		return false
	}
	area, err := geom.Union(pieces...)
	if err != nil || len(area) == 0 {
		return false
	}
	if area.AreaM2() >= wholeRoom*c.AreaM2 {
		area = geom.Shape{c.Region}
	}
	for _, ring := range p.rings(area) {
		points := inset(ring, in)
		if len(points) < 3 {
			continue
		}
		p.sheet.stroke(layerHidden, line(medium).dashedBy(dash), polygon(points...))
		for i, q := range points {
			p.faint = append(p.faint, hindrance(q, points[(i+1)%len(points)]))
		}
	}
	return true
}

// inset is a ring moved to its left by a distance, with mitred corners; nil
// where nothing would be left of it.
func inset(ring []Point, by float64) []Point {
	n := len(ring)
	out := make([]Point, 0, n)
	for i, q := range ring {
		in, on := q.sub(ring[(i+n-1)%n]).unit(), ring[(i+1)%n].sub(q).unit()
		m := in.left().add(on.left())
		l := m.dot(m)
		if l < 0.2 {
			continue // a spike: nothing to mitre
		}
		out = append(out, q.add(m.times(2*by/l)))
	}
	if len(out) < 3 || (area(ring) > 0) != (area(out) > 0) {
		return nil
	}
	return out
}

// area of a ring, positive counter-clockwise.
func area(ring []Point) float64 {
	sum := 0.0
	for i, a := range ring {
		sum += a.cross(ring[(i+1)%len(ring)])
	}
	return sum / 2
}
