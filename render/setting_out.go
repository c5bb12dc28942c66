package render

import (
	"math"

	"moiety/geom"
	"moiety/plan"
)

// Lines that set out new work, millimetres: how far from a face a line along
// it lies, and the shortest that is drawn.
var alongFace = []float64{2.6, 4.2, 6.0, 8.0, 10.5, 13.0}

// leastLine is the shortest dimension line, in millimetres, that can be read.
const leastLine = 0.6

// insideLines is how far outside the house lettering may reach, millimetres:
// not to that of the first dimension line.
const insideLines = 3.0

// freeEnd is how far, in metres, beyond the end of a new wall the face that it
// ends at may lie: a wall is drawn to the middle of the one that it joins.
const freeEnd = 0.30

// newWall is a new wall as a builder sees it: stretches that go on in one line.
type newWall struct {
	a, b Point // ends of its middle line, on the sheet
	half float64
}

// measured is a length already given on a view: its direction in tenths of a
// degree over half a turn, and where it begins and ends along it in steps of
// 5 mm of the house.
type measured struct{ direction, from, to int64 }

// settingOut gives the dimensions by which new walls and doors are set out
// from faces that stand.
type settingOut struct {
	*plot
	standing [][]Point // faces as surveyed
	fresh    [][]Point // faces of new walls
	walls    [][]Point // all that stands afterwards, openings taken out
	mass     [][]Point // the same with the openings filled
	around   Rect      // that lettering stays within
	given    map[measured]bool
}

// setOut dimensions every new wall, by its distance from a standing face and
// its length, and every new door that the lines around the house do not give,
// by its distance from a face and its width.
func (p *plot) setOut(chains [4][]chain) {
	if p.s == nil || p.unit != "" || p.plain {
		return
	}
	surveyed := p.b
	if p.s.Whole != nil {
		surveyed = p.s.Whole
	}
	o := &settingOut{plot: p, standing: p.rings(surveyed.Levels[p.level].Mass), walls: p.rings(p.cut), mass: p.rings(p.b.Levels[p.level].Mass), around: p.extent().grown(insideLines).common(p.window()), given: map[measured]bool{}}
	for _, part := range p.parts {
		if part.kind != wallRemoved && part.kind != wallUpgraded {
			o.fresh = append(o.fresh, p.view.points(part.region.Outer))
		}
	}
	for _, s := range sides {
		for _, c := range chains[s] {
			for i, given := range c.given {
				if given {
					a, b := s.point(c.stops[i], 0), s.point(c.stops[i+1], 0)
					o.given[measuredIn(a, b)] = true
				}
			}
		}
	}
	for _, w := range o.newWalls() {
		if p.belongs(w.a.add(w.b).times(0.5)) {
			o.wall(w)
		}
	}
	for i := range p.doors {
		if d := &p.doors[i]; d.state == plan.New && d.mine && !d.elsewhere && !o.onChain(d, chains) {
			o.door(d)
		}
	}
}

// measuredIn keys a length by its ends in metres, turned as on the sheet.
func measuredIn(a, b Point) measured {
	const perMetre = 200
	d := b.sub(a)
	direction := int64(math.Round(math.Atan2(d.Y, d.X) * 1800 / math.Pi))
	direction = ((direction % 1800) + 1800) % 1800
	u := Point{1, 0}.turned(float64(direction) / 10)
	from, to := int64(math.Round(a.dot(u)*perMetre)), int64(math.Round(b.dot(u)*perMetre))
	return measured{direction, min(from, to), max(from, to)}
}

// key is that of a length on the sheet.
func (o *settingOut) key(a, b Point) measured {
	x, y := o.view.pivot.Metres()
	pivot := Point{x, y}.turned(o.turn)
	k := 1 / o.view.Scale.MMPerMetre()
	house := func(q Point) Point { return q.sub(o.view.at).times(k).add(pivot) }
	return measuredIn(house(a), house(b))
}

// onChain tells whether the jambs of a door are given around the house.
func (o *settingOut) onChain(d *door, chains [4][]chain) bool {
	a, b := o.turnedPoint(d.at.line.A), o.turnedPoint(d.at.line.B)
	for _, s := range sides {
		a0, out0 := s.across(a)
		b0, out1 := s.across(b)
		if math.Abs(out1-out0) > 0.02*math.Abs(b0-a0) {
			continue
		}
		for _, c := range chains[s] {
			for i, given := range c.given {
				if given && math.Abs(c.stops[i]-min(a0, b0)) < stopGap && math.Abs(c.stops[i+1]-max(a0, b0)) < stopGap {
					return true
				}
			}
		}
	}
	return false
}

// newWalls joins the new stretches that go on in one line.
func (o *settingOut) newWalls() []newWall {
	var out []newWall
	done := make([]bool, len(o.parts))
	for i := range o.parts {
		p := &o.parts[i]
		if done[i] || !p.mine || p.kind != wallNew && p.kind != wallNewSeparating {
			continue
		}
		done[i] = true
		line := p.run.Line
		from, to := 0.0, line.Length()
		for grown := true; grown; {
			grown = false
			for j := range o.parts {
				q := &o.parts[j]
				if done[j] || !q.mine || q.kind != wallNew && q.kind != wallNewSeparating || !parallel(line, q.run.Line) ||
					math.Abs(q.run.Thickness-p.run.Thickness) > geom.Coincide || math.Abs(line.Off(q.run.Line.Mid())) > geom.Coincide {
					continue
				}
				a, b := line.Along(q.run.Line.A), line.Along(q.run.Line.B)
				if min(a, b) > to+freeEnd || max(a, b) < from-freeEnd {
					continue
				}
				from, to = min(from, a, b), max(to, a, b)
				done[j], grown = true, true
			}
		}
		out = append(out, newWall{o.view.Paper(line.At(from)), o.view.Paper(line.At(to)), o.view.mm(p.run.Thickness) / 2})
	}
	return out
}

// ray is how far it is from a point to the first of some faces, in millimetres.
func ray(q, dir Point, rings [][]Point) float64 {
	best := math.Inf(1)
	for _, r := range rings {
		for i, a := range r {
			e := r[(i+1)%len(r)].sub(a)
			across := dir.cross(e)
			if math.Abs(across) < 1e-9 {
				continue
			}
			t, along := a.sub(q).cross(e)/across, a.sub(q).cross(dir)/across
			if t > 1e-6 && along > -1e-9 && along < 1+1e-9 {
				best = min(best, t)
			}
		}
	}
	return best
}

// wall gives the distance of a new wall from a standing face, and its length.
func (o *settingOut) wall(w newWall) {
	u := w.b.sub(w.a).unit()
	n := u.left()
	long := w.a.distance(w.b)
	const skin = 0.01 // millimetres off the face, so that the face itself is not met
	o.first(func(add func(a, b Point)) {
		for _, part := range []float64{0.2, 0.8, 0.35, 0.65, 0.5, 0.1, 0.9, 0.05, 0.95} {
			for _, side := range []float64{1, -1} {
				foot := w.a.add(u.times(long * part)).add(n.times(side * w.half))
				if !o.belongs(foot) {
					continue
				}
				off := foot.add(n.times(side * skin))
				d := ray(off, n.times(side), o.standing)
				if math.IsInf(d, 1) || ray(off, n.times(side), o.fresh) < d {
					continue
				}
				add(foot, off.add(n.times(side*d)))
			}
		}
	})
	o.first(func(add func(a, b Point)) {
		for _, lift := range alongFace {
			for _, side := range []float64{1, -1} {
				end := func(q, dir Point) Point {
					off := q.add(n.times(side * (w.half + skin)))
					middle := w.a.add(w.b).times(0.5).add(n.times(side * (w.half + skin)))
					most := middle.distance(off)
					d := min(ray(middle, dir, o.standing), ray(middle, dir, o.fresh))
					if d > most+o.view.mm(freeEnd) {
						d = most
					}
					return middle.add(dir.times(d)).add(n.times(side * (lift - skin)))
				}
				add(end(w.a, u.times(-1)), end(w.b, u))
			}
		}
	})
}

// door gives the distance of a new door from the nearer face along its wall,
// and its width.
func (o *settingOut) door(d *door) {
	a, b := o.view.Paper(d.at.line.A), o.view.Paper(d.at.line.B)
	u := b.sub(a).unit()
	n := u.left()
	half := o.view.mm(d.at.thickness) / 2
	lines := func(jambs bool) func(add func(a, b Point)) {
		return func(add func(a, b Point)) {
			for _, lift := range alongFace {
				for i, side := range []float64{1, -1} {
					if c := d.sides[i]; c < 0 || o.b.Cells[c].Outdoor {
						continue
					}
					at := n.times(side * (half + lift))
					near := n.times(side * (half + 0.01))
					if jambs {
						add(a.add(at), b.add(at))
						continue
					}
					back := min(ray(a.add(near), u.times(-1), o.standing), ray(a.add(near), u.times(-1), o.fresh))
					ahead := min(ray(b.add(near), u, o.standing), ray(b.add(near), u, o.fresh))
					if back <= ahead {
						add(a.add(at).sub(u.times(back)), a.add(at))
					} else {
						add(b.add(at), b.add(at).add(u.times(ahead)))
					}
				}
			}
		}
	}
	o.first(lines(false))
	o.first(lines(true))
}

// first draws the first of some lines that finds place, unless one of them is
// given already: clear of everything, then the line over swings and fixtures,
// then its figure aside, at last the figure over them too; never over
// lettering or walls.
func (o *settingOut) first(list func(add func(a, b Point))) {
	type candidate struct{ a, b Point }
	var all []candidate
	given := false
	list(func(a, b Point) {
		if math.IsInf(a.X+a.Y+b.X+b.Y, 0) || math.IsNaN(a.X+a.Y+b.X+b.Y) || a.distance(b) < leastLine {
			return
		}
		given = given || o.given[o.key(a, b)]
		all = append(all, candidate{a, b})
	})
	if given {
		return
	}
	for level := range 4 {
		for _, c := range all {
			if o.put(c.a, c.b, level) {
				o.given[o.key(c.a, c.b)] = true
				return
			}
		}
	}
}

// put draws one dimension, if it finds place.
func (o *settingOut) put(a, b Point, level int) bool {
	// A length that goes on beyond a match line is drawn as far as that, and
	// ends in an arrow there.
	wholeA, wholeB := a, b
	var ok bool
	if a, b, ok = clip(wholeA, wholeB, o.window()); !ok || a.distance(b) < leastLine {
		return false
	}
	line1 := hindrance(a, b)
	lineQuad := [4]Point{line1[0], line1[1], line1[2], line1[3]}
	if o.overText(lineQuad) || level == 0 && !o.free(shortened(a, b)) {
		return false
	}
	for _, r := range o.walls {
		if obstacle(r).crosses(shortened(a, b)) {
			return false
		}
	}
	text := o.m.dimension(wholeA.distance(wholeB) / o.view.Scale.MMPerMetre())
	width := o.sheet.fonts.width(text, smallText, false)
	u := b.sub(a).unit()
	long := a.distance(b)
	type place struct {
		at   Point
		turn float64
		led  bool // by a line from the dimension to it
	}
	var places []place
	add := func(middle Point, turn float64, lift float64) {
		run := Point{1, 0}.turned(turn)
		places = append(places, place{middle.sub(run.times(width / 2)).add(run.left().times(lift)), turn, false})
	}
	turn := readable(u)
	if width+2*textRoom <= long {
		for _, part := range []float64{0.5, 0.35, 0.65} {
			if min(part, 1-part)*long >= width/2+textRoom {
				add(a.add(b.sub(a).times(part)), turn, textLift)
				add(a.add(b.sub(a).times(part)), turn, -textLift-smallText)
			}
		}
	} else {
		// Beyond an end, in line; or square to the line, beside it.
		square := readable(u.left())
		mid := a.add(b).times(0.5)
		for _, side := range []float64{1, -1} {
			add(mid.add(u.left().times(side*(1.4+width/2))), square, -smallText/2)
		}
		for _, gap := range []float64{1.6, 3} {
			add(b.add(u.times(gap+width/2)), turn, -smallText/2)
			add(a.sub(u.times(gap+width/2)), turn, -smallText/2)
		}
	}
	if level >= 2 {
		mid := a.add(b).times(0.5)
		for far := 5.0; far < 22; far += 2 {
			for turn := 0.0; turn < 360; turn += 30 {
				c := mid.add(Point{far, 0}.turned(turn))
				places = append(places, place{c.sub(Point{width / 2, smallText / 2}), 0, true})
			}
		}
	}
	for _, q := range places {
		quad := textQuad(text, q.at, width, smallText, q.turn)
		near := growQuad(quad, 0.35)
		if !o.unlettered(near) || level < 3 && !o.free(near) || level == 0 && !o.unlined(near) || quadsOverlap(near, lineQuad, 0) || o.onWall(near) || o.around.joined(boundsOf(near[:]...)) != o.around {
			continue
		}
		if q.led {
			from := a.add(b).times(0.5)
			box := boundsOf(near[:]...)
			to := Point{min(max(from.X, box.X0), box.X1), min(max(from.Y, box.Y0), box.Y1)}
			lead := hindrance(from, to)
			if o.overText([4]Point{lead[0], lead[1], lead[2], lead[3]}) {
				continue
			}
			o.sheet.stroke(layerDimension, line(hair), polyline(from, to))
			o.taken = append(o.taken, lead)
		}
		o.sheet.stroke(layerDimension, line(hair), polyline(a, b))
		for i, end := range []Point{a, b} {
			if end != []Point{wholeA, wholeB}[i] {
				o.sheet.fill(layerDimension, black, arrowHead(end, u.times(float64(2*i-1))))
				continue
			}
			d := u.add(u.left()).unit().times(stroke45 * math.Sqrt2)
			o.sheet.stroke(layerDimension, line(medium), polyline(end.sub(d), end.add(d)))
		}
		o.sheet.Boxes = append(o.sheet.Boxes, lineBox(a, b, o.index))
		o.sheet.Dimensions = append(o.sheet.Dimensions, Dimension{text, wholeA, wholeB, o.index})
		o.sheet.write(q.at, words{text: text, height: smallText, turn: q.turn, layer: layerDimension}, o.box(TextBox, ""))
		o.taken = append(o.taken, line1.wider(0.4), obstacle(quad[:]))
		return true
	}
	return false
}

// overText tells whether a quadrangle lies over lettering or a tag.
func (p *plot) overText(q [4]Point) bool {
	for _, b := range p.sheet.Boxes {
		if b.Kind != LineBox && quadsOverlap(q, b.Corners, 0) {
			return true
		}
	}
	return false
}

// onWall tells whether a quadrangle lies on a wall, wholly or in part.
func (o *settingOut) onWall(q [4]Point) bool {
	for _, rings := range [][][]Point{o.mass, o.fresh} {
		for _, r := range rings {
			if obstacle(r).crosses(q) {
				return true
			}
		}
		if oddly(q[0], rings) {
			return true
		}
	}
	return false
}

// shortened is a line without its ends, which lie on faces.
func shortened(a, b Point) [4]Point {
	const off = 0.3
	u := b.sub(a).unit().times(min(off, a.distance(b)/4))
	o := hindrance(a.add(u), b.sub(u))
	return [4]Point{o[0], o[1], o[2], o[3]}
}

// growQuad is a quadrangle with room around it.
func growQuad(q [4]Point, by float64) [4]Point {
	u, v := q[1].sub(q[0]).unit().times(by), q[3].sub(q[0]).unit().times(by)
	return [4]Point{q[0].sub(u).sub(v), q[1].add(u).sub(v), q[2].add(u).add(v), q[3].sub(u).add(v)}
}
