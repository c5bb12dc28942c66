package render

import (
	"fmt"

	"github.com/tdewolff/canvas"

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

// floorLine is an outline to be drawn where no lettering is in its way.
type floorLine struct {
	points []Point
	dash   []float64
}

// layFloors outlines the floors that separate the units, room by room:
// dotted underfoot, dashed overhead, as everything above the cut.
func (p *plot) layFloors() {
	if p.s == nil {
		return
	}
	if p.piece == nil {
		defer p.sayFloors()
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
		if p.layFloor(c, under, underInset, dotted) {
			p.legend.add(entryFloorBelow)
		}
		if p.layFloor(c, over, overInset, shortDashed) {
			p.legend.add(entryFloorAbove)
		}
	}
}

// sayFloors notes how much floor of the level separates the units.
func (p *plot) sayFloors() {
	sums := map[string]float64{}
	for _, f := range p.s.Floors {
		if f.State != plan.Separating {
			continue
		}
		for _, r := range p.rooms {
			if c := &p.b.Cells[r.cell]; r.mine && c.ID == f.Above {
				sums["underfoot"] += f.Region.AreaM2()
			} else if r.mine && c.ID == f.Below {
				sums["overhead"] += f.Region.AreaM2()
			}
		}
	}
	for _, where := range []string{"underfoot", "overhead"} {
		if sums[where] > 0 {
			p.legend.say(fmt.Sprintf("%s: %s of separating floor %s.", p.sheet.fonts.legible(levelTitle(p.b.House.Levels[p.level])), p.m.area(sums[where]), where))
		}
	}
}

// layFloor outlines where a room has a separating floor on one side.
func (p *plot) layFloor(c *plan.Cell, pieces []geom.Shape, in float64, dash []float64) bool {
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
		p.floors = append(p.floors, floorLine{points, dash})
		for i, q := range points {
			p.faint = append(p.faint, hindrance(q, points[(i+1)%len(points)]))
		}
	}
	return true
}

// drawFloors draws the outlines laid, broken where they would cross lettering.
func (p *plot) drawFloors() {
	for _, f := range p.floors {
		path := &canvas.Path{}
		for i, a := range f.points {
			b := f.points[(i+1)%len(f.points)]
			for _, piece := range p.clearOfText(a, b) {
				path = path.Append(polyline(piece[0], piece[1]))
			}
		}
		p.sheet.stroke(layerHidden, line(medium).dashedBy(f.dash), path)
	}
}

// clearOfText are the pieces of a line that run clear of the lettering and
// the fixtures of the view.
func (p *plot) clearOfText(a, b Point) [][2]Point {
	const clear = 0.5
	pieces := [][2]float64{{0, 1}}
	var boxes []Rect
	for _, box := range p.sheet.Boxes {
		if box.View == p.index && box.Kind != LineBox {
			boxes = append(boxes, boundsOf(box.Corners[:]...))
		}
	}
	for i := range p.fixtures {
		if q := p.fixtures[i].quad(); p.fixtures[i].mine {
			boxes = append(boxes, boundsOf(p.view.points(q[:])...))
		}
	}
	for _, r := range boxes {
		r = r.grown(clear)
		in, out, ok := clip(a, b, r)
		if !ok {
			continue
		}
		long := a.distance(b)
		t0, t1 := a.distance(in)/long, a.distance(out)/long
		var next [][2]float64
		for _, q := range pieces {
			if t1 <= q[0] || t0 >= q[1] {
				next = append(next, q)
				continue
			}
			if t0 > q[0] {
				next = append(next, [2]float64{q[0], t0})
			}
			if t1 < q[1] {
				next = append(next, [2]float64{t1, q[1]})
			}
		}
		pieces = next
	}
	var out [][2]Point
	for _, q := range pieces {
		out = append(out, [2]Point{a.add(b.sub(a).times(q[0])), a.add(b.sub(a).times(q[1]))})
	}
	return out
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
