package render

import (
	"slices"

	"github.com/tdewolff/canvas"

	"moiety/geom"
	"moiety/plan"
)

// Signs of alarms and escape openings, millimetres.
const (
	alarmRadius  = 2.4
	escapeLength = 5.0
	escapeHead   = 1.7
)

// alarmLetter is what an alarm's sign says.
func alarmLetter(k plan.AlarmKind) string {
	switch k {
	case plan.COAlarm:
		return "C"
	case plan.SmokeCOAlarm:
		return "SC"
	}
	return "S"
}

func alarmEntry(k plan.AlarmKind) entry {
	switch k {
	case plan.COAlarm:
		return entryCOAlarm
	case plan.SmokeCOAlarm:
		return entrySmokeCOAlarm
	}
	return entrySmokeAlarm
}

// alarmOutline tells the alarms apart without colour: a circle, a diamond, and
// a larger diamond for both in one.
func alarmOutline(k plan.AlarmKind, c Point) *canvas.Path {
	diamond := func(r float64) *canvas.Path {
		return polygon(c.add(Point{r, 0}), c.add(Point{0, r}), c.add(Point{-r, 0}), c.add(Point{0, -r}))
	}
	switch k {
	case plan.COAlarm:
		return diamond(alarmSize(k))
	case plan.SmokeCOAlarm:
		return diamond(alarmSize(k))
	}
	return circle(c, alarmRadius)
}

// alarmSize is how far the sign of an alarm reaches from its middle.
func alarmSize(k plan.AlarmKind) float64 {
	switch k {
	case plan.COAlarm:
		return alarmRadius * 1.25
	case plan.SmokeCOAlarm:
		return alarmRadius * 1.6
	}
	return alarmRadius
}

// drawAlarms puts each alarm at its place on the ceiling, or where something
// is in the way beside it with a line to the place.
func (p *plot) drawAlarms() {
	if p.s == nil {
		return
	}
	for _, a := range p.s.Alarms {
		if a.Level != p.level || p.unit != "" && a.Unit != p.unit && a.Unit != plan.Common.String() {
			continue
		}
		if p.piece != nil && !p.piece.owns(p.turnedPoint(a.At)) {
			continue
		}
		size := alarmSize(a.Kind)
		put := func(c Point, place Rect) { p.putAlarm(c, a.Kind, place) }
		if at := p.view.Paper(a.At); !p.standNear(at, size, size, p.indoors, put) {
			p.standNear(at, size, size, p.closeBy, put)
		}
	}
}

// standNear puts a sign, so wide and high to either side of its middle, at a
// place, or where something is in the way on free ground nearby with a line to
// the place; false where there is no room for it. It stands where within says.
func (p *plot) standNear(at Point, wide, high float64, within func([4]Point) bool, put func(c Point, place Rect)) bool {
	for _, reach := range []float64{0, 4, 6, 8, 11, 14, 18, 23, 29, 36} {
		for turn := 0.0; turn < 360; turn += 15 {
			c := at.add(Point{reach, 0}.turned(turn))
			place := Rect{c.X - wide, c.Y - high, c.X + wide, c.Y + high}
			corners := place.grown(0.2).corners()
			if !p.free(corners) || !p.unlettered(corners) || p.onWalls(corners) || !within(corners) {
				continue
			}
			if reach > 0 {
				toward := at.sub(c).unit()
				end := c.add(toward.times(min(wide/max(abs1(toward.X), 1e-9), high/max(abs1(toward.Y), 1e-9))))
				if wide == high {
					end = c.add(toward.times(wide))
				}
				from := p.outOfText(at, end)
				lead := hindrance(from, end)
				if p.overText([4]Point{lead[0], lead[1], lead[2], lead[3]}) {
					continue
				}
				p.sheet.stroke(layerSign, line(hair), polyline(from, end))
				p.sheet.fill(layerSign, black, circle(from, 0.45))
				p.taken = append(p.taken, lead)
			}
			put(c, place)
			return true
		}
	}
	return false
}

// outOfText is where a line leaves the lettering that its start lies under.
func (p *plot) outOfText(from, to Point) Point {
	const clear = 0.6
	for _, b := range p.sheet.Boxes {
		r := boundsOf(b.Corners[:]...).grown(clear)
		if b.View != p.index || b.Kind == LineBox || from.X <= r.X0 || from.X >= r.X1 || from.Y <= r.Y0 || from.Y >= r.Y1 {
			continue
		}
		if _, out, ok := clip(from, to, r); ok {
			from = out
		}
	}
	return from
}

func (p *plot) putAlarm(c Point, kind plan.AlarmKind, place Rect) {
	p.sheet.both(layerSign, white, line(medium), alarmOutline(kind, c))
	letter := alarmLetter(kind)
	box := p.box(TagBox, "")
	p.sheet.write(Point{c.X, c.Y - smallText/2}, words{text: letter, height: smallText, bold: true, align: atMiddle}, box)
	corners := place.corners()
	p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
	p.taken = append(p.taken, obstacle(corners[:]))
	p.legend.add(alarmEntry(kind))
	p.sheet.refer(alarmPlan)
}

// refer notes that the sheet shows what others refer to.
func (s *Sheet) refer(what subject) {
	if !slices.Contains(s.subjects, what) {
		s.subjects = append(s.subjects, what)
	}
}

// onWalls tells whether a quadrangle lies on a wall, wholly or in part.
func (p *plot) onWalls(q [4]Point) bool {
	walls := p.rings(p.b.Levels[p.level].Mass)
	for _, r := range walls {
		if obstacle(r).crosses(q) {
			return true
		}
	}
	return oddly(q[0], walls)
}

// indoors tells whether a quadrangle lies in one room or flight.
func (p *plot) indoors(q [4]Point) bool {
	in := func(cell int) bool { return insideRegion(q, p.rings(geom.Shape{p.b.Cells[cell].Region})) }
	return slices.ContainsFunc(p.rooms, func(r room) bool { return in(r.cell) }) ||
		slices.ContainsFunc(p.flights, func(f flight) bool { return in(f.cell) })
}

// drawEscapes marks the windows that rooms rely on for escape with an arrow
// out of them: those that the rule set's findings accept.
func (p *plot) drawEscapes() {
	if p.s == nil {
		return
	}
	for i := range p.windows {
		w := &p.windows[i]
		if !w.mine || w.elsewhere || !escapeBy(p.s, w.ID) {
			continue
		}
		a, b := p.view.Paper(w.at.line.A), p.view.Paper(w.at.line.B)
		out := b.sub(a).unit().left()
		if !w.left {
			out = out.times(-1)
		}
		mid := a.add(b).times(0.5)
		half := p.view.mm(w.at.thickness) / 2
		tail := mid.sub(out.times(half + escapeLength))
		head := mid.sub(out.times(half + 0.4))
		p.sheet.stroke(layerSign, line(thick), polyline(tail, head))
		p.sheet.fill(layerSign, black, arrowHead(head, out))
		shaft := hindrance(tail, head)
		p.taken = append(p.taken, shaft.wider(0.9))
		p.legend.add(entryEscape)
		p.sheet.refer(escapePlan)
	}
}

// arrowHead is a filled head with its tip at a place.
func arrowHead(tip, dir Point) *canvas.Path {
	n := dir.left().times(escapeHead / 2)
	foot := tip.sub(dir.times(escapeHead))
	return polygon(tip, foot.add(n), foot.sub(n))
}

// escapeBy tells whether a finding accepts a window as a room's opening to
// escape by.
func escapeBy(s *plan.Scheme, window string) bool {
	return slices.ContainsFunc(s.Findings, func(f plan.Finding) bool {
		return (f.Figure.ID == "escape-required" || f.Figure.ID == "escape-habitable-rooms") && f.Provided == "window "+window && f.Result == plan.OK
	})
}
