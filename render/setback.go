package render

import (
	"math"

	"moiety/geom"
)

// leastSetback is the distance to a property line, in metres, under which the
// house stands on it and nothing is measured.
const leastSetback = 0.02

// drawSetbacks measures from the footprint to each side of the lot, square to
// it, where the house comes nearest.
func (s *site) drawSetbacks(p *plot) {
	for _, l := range s.b.House.Lots {
		for _, e := range straightened(l.Region.Outer).Edges() {
			s.drawSetback(p, e)
		}
	}
}

// straightened is a ring without corners at which it goes straight on.
func straightened(r geom.Ring) geom.Ring {
	var out geom.Ring
	for i, q := range r {
		before, after := r[(i+len(r)-1)%len(r)], r[(i+1)%len(r)]
		if !parallel(geom.Segment{A: before, B: q}, geom.Segment{A: q, B: after}) {
			out = append(out, q)
		}
	}
	if len(out) < 3 {
		return r
	}
	return out
}

func (s *site) drawSetback(p *plot, e geom.Segment) {
	least := math.Inf(1)
	var nearest []geom.Pt
	consider := func(q geom.Pt) {
		along, off := e.Along(q), e.Off(q)
		if along < 0 || along > e.Length() {
			return
		}
		switch {
		case off < least-geom.Coincide/2:
			least, nearest = off, []geom.Pt{q}
		case off < least+geom.Coincide/2:
			nearest = append(nearest, q)
		}
	}
	for _, f := range s.footprint.Edges() {
		// Towards the ends of a wall the middle of the ground stays free for its name.
		for _, part := range []float64{0.15, 0.85, 0.3, 0.7, 0.5, 0} {
			consider(f.At(f.Length() * part))
		}
	}
	if math.IsInf(least, 1) || least < leastSetback {
		return
	}
	text := s.m.dimension(least)
	width := p.sheet.fonts.width(text, smallText, false)
	for _, strict := range []bool{true, false} {
		for _, q := range nearest {
			a, b := p.view.Paper(q), p.view.Paper(e.At(e.Along(q)))
			if s.putSetback(p, a, b, text, width, strict) {
				return
			}
		}
	}
}

// putSetback draws one distance with its text along the line, or beside it
// where the line is too short.
func (s *site) putSetback(p *plot, a, b Point, text string, width float64, strict bool) bool {
	u := b.sub(a).unit()
	turn := readable(u)
	run := Point{1, 0}.turned(turn)
	up := run.left()
	mid := a.add(b).times(0.5)
	long := a.distance(b)
	var starts []Point
	if width+2*textRoom <= long {
		for _, t := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			if min(t, 1-t)*long < width/2+textRoom {
				continue
			}
			for _, lift := range []float64{textLift, -textLift - smallText} {
				starts = append(starts, a.add(b.sub(a).times(t)).sub(run.times(width/2)).add(up.times(lift)))
			}
		}
	} else {
		turn, run, up = readable(u.left()), Point{1, 0}.turned(readable(u.left())), Point{1, 0}.turned(readable(u.left())).left()
		for _, side := range []float64{1, -1} {
			starts = append(starts, mid.add(run.times(side*(1.2+width/2))).sub(run.times(width/2)).sub(up.times(smallText/2)))
		}
	}
	o := hindrance(a, b)
	lineQuad := [4]Point{o[0], o[1], o[2], o[3]}
	for _, at := range starts {
		quad := textQuad(text, at, width, smallText, turn)
		if strict && (!p.unlettered(quad) || !p.unlettered(lineQuad)) {
			continue
		}
		if strict && (!p.free(quad) || !p.unlined(quad)) {
			continue
		}
		if !p.unlettered(quad) {
			continue
		}
		if !strict { // over the edges of the ground, which give way to it
			p.sheet.fill(layerSign, white, polygon(quad[:]...))
		}
		p.sheet.stroke(layerDimension, line(hair), polyline(a, b))
		for _, q := range []Point{a, b} {
			d := u.add(u.left()).unit().times(stroke45 * math.Sqrt2)
			p.sheet.stroke(layerDimension, line(medium), polyline(q.sub(d), q.add(d)))
		}
		p.sheet.Boxes = append(p.sheet.Boxes, lineBox(a, b, p.index))
		p.sheet.Dimensions = append(p.sheet.Dimensions, Dimension{text, a, b, p.index})
		p.sheet.write(at, words{text: text, height: smallText, turn: turn, layer: layerDimension}, p.box(TextBox, ""))
		p.taken = append(p.taken, o.wider(0.5), obstacle(quad[:]))
		p.legend.add(entrySetback)
		p.legend.note(noteSite)
		return true
	}
	return false
}
