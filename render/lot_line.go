package render

import "moiety/geom"

// leastSide is the shortest side of a lot, in metres, that is given its length.
const leastSide = 1.0

// drawLotLengths letters the length of each side of the lot along it, inside
// where there is room, else outside.
func (s *site) drawLotLengths(p *plot) {
	for _, l := range s.b.House.Lots {
		ring := l.Region.Outer
		for i, a := range ring {
			e := geom.Segment{A: a, B: ring[(i+1)%len(ring)]}
			if e.Length() >= leastSide {
				s.lotLength(p, e)
			}
		}
	}
}

func (s *site) lotLength(p *plot, e geom.Segment) {
	a, b := p.view.Paper(e.A), p.view.Paper(e.B)
	u := b.sub(a).unit()
	text := s.m.dimension(e.Length())
	width := p.sheet.fonts.width(text, smallText, false)
	if width+2 > a.distance(b) {
		return
	}
	turn := readable(u)
	run := Point{1, 0}.turned(turn)
	up := run.left()
	for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.12, 0.88} {
		if min(part, 1-part)*a.distance(b) < width/2+1 {
			continue
		}
		foot := a.add(b.sub(a).times(part)).sub(run.times(width / 2))
		// The ring runs counter-clockwise: the lot lies to its left.
		for _, lift := range []float64{textLift, -textLift - smallText} {
			if inside := u.left().dot(up) > 0; !inside {
				lift = -smallText - lift
			}
			at := foot.add(up.times(lift))
			quad := textQuad(text, at, width, smallText, turn)
			near := growQuad(quad, 0.4)
			if !p.unlettered(near) || !p.free(near) || !p.unlined(near) {
				continue
			}
			p.sheet.write(at, words{text: text, height: smallText, turn: turn, layer: layerDimension}, p.box(TextBox, ""))
			p.sheet.Dimensions = append(p.sheet.Dimensions, Dimension{text, a, b, p.index})
			p.taken = append(p.taken, obstacle(quad[:]))
			return
		}
	}
}
