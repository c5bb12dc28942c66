package render

import (
	"math"
	"slices"

	"github.com/tdewolff/canvas"

	"moiety/geom"
	"moiety/plan"
)

// Signs, millimetres.
const (
	entryHeight = 3.2
	entryHalf   = 1.7
	tagHeight   = 4.2
	tagPadding  = 1.2
)

// entrySign is the filled triangle at a unit's way in, from the middle of its
// base towards where one goes.
func entrySign(base, dir Point) *canvas.Path {
	return polygon(base.add(dir.left().times(entryHalf)), base.sub(dir.left().times(entryHalf)), base.add(dir.times(entryHeight)))
}

// drawEntries marks the way in of each unit.
func (p *plot) drawEntries() {
	for i := range p.doors {
		d := &p.doors[i]
		if d.entry == "" || !d.mine || d.elsewhere || d.state == plan.Sealed {
			continue
		}
		for n, letter := range d.entry {
			p.drawEntry(d, string(letter), n, len(d.entry))
		}
	}
}

// drawEntry puts the triangle of one unit before its door and its word beside it.
func (p *plot) drawEntry(d *door, unit string, n, of int) {
	if p.unit != "" && unit != p.unit {
		return
	}
	a, b := p.view.Paper(d.at.line.A), p.view.Paper(d.at.line.B)
	u := b.sub(a).unit()
	out := u.left()
	if c := d.sides[0]; c >= 0 && !p.b.Cells[c].Outdoor {
		out = out.times(-1)
	}
	const gap = 0.8
	face := a.add(b).times(0.5).add(out.times(p.view.mm(d.at.thickness) / 2))
	base := face.add(out.times(gap + entryHeight)).add(u.times((float64(n) - float64(of-1)/2) * 2.4 * entryHalf))
	p.sheet.fill(layerSign, black, entrySign(base, out.times(-1)))
	p.taken = append(p.taken, obstacle{base.add(u.times(entryHalf)), base.sub(u.times(entryHalf)), base.sub(out.times(entryHeight))})
	p.legend.add(entryEntry)

	text := "ENTRY " + unit
	width := p.sheet.fonts.width(text, smallText, true)
	turn := readable(u)
	run := Point{1, 0}.turned(turn)
	up := run.left()
	// The middle of the word: beside the triangle, or farther out.
	middle, beside := base.sub(out.times(entryHeight/2)), entryHalf+1+width/2
	places := []Point{middle.add(u.times(beside)), middle.sub(u.times(beside))}
	for _, far := range []float64{0.8, 2, 4, 6, 8, 10, 12} {
		for _, shift := range []float64{0, 0.5, -0.5, 0.8, -0.8, 1, -1} {
			places = append(places, base.add(out.times(far+smallText/2)).add(u.times(shift*width)))
		}
	}
	// Clear of faint lines where it can be; of ways and walls unless nothing is.
	for _, need := range []func([4]Point) bool{
		func(q [4]Point) bool { return p.free(q) && p.unlined(q) },
		p.free,
		func([4]Point) bool { return true },
	} {
		for _, c := range places {
			at := c.sub(run.times(width / 2)).sub(up.times(smallText / 2))
			quad := textQuad(text, at, width, smallText, turn)
			if !p.unlettered(quad) || !need(quad) {
				continue
			}
			p.sheet.write(at, words{text: text, height: smallText, bold: true, turn: turn}, p.box(TagBox, ""))
			p.taken = append(p.taken, obstacle(quad[:]))
			return
		}
	}
}

// readable is the turn of text that runs along a direction and is read from
// the bottom or from the right.
func readable(u Point) float64 {
	a := math.Atan2(u.Y, u.X) * 180 / math.Pi
	for a > 90+1e-6 {
		a -= 180
	}
	for a <= -90+1e-6 {
		a += 180
	}
	return math.Round(a*1e6) / 1e6
}

// unlettered tells whether a place is clear of every box on the sheet.
func (p *plot) unlettered(q [4]Point) bool {
	for _, b := range p.sheet.Boxes {
		if quadsOverlap(q, b.Corners, 0) {
			return false
		}
	}
	return true
}

// tagWalls marks the stretches of the separation by how they are built up;
// stretches that go on in one line and are built the same share a tag. A way
// of building that finds no place straight before any of its walls has its tag
// aside of one.
func (p *plot) tagWalls() {
	left := map[string]int{} // stretches to come, by how they are built up
	var parts []*wallPart
	for i := range p.parts {
		part := p.seen(p.parts[i])
		if part.mine && (part.kind == wallNewSeparating || part.kind == wallUpgraded) {
			parts = append(parts, part)
			left[p.buildUps.number(part)]++
		}
	}
	var done []*wallPart
	tagged := map[string]bool{}
	for _, part := range parts {
		text := p.buildUps.number(part)
		left[text]--
		if slices.ContainsFunc(done, func(d *wallPart) bool { return p.goesOn(d, part) }) {
			done = append(done, part)
		} else if p.tagWall(part, text+p.rated(part), false) {
			done = append(done, part)
			tagged[text] = true
		}
		if left[text] > 0 || tagged[text] {
			continue
		}
		for _, rating := range slices.Compact([]string{p.rated(part), ""}) {
			for _, other := range parts {
				if !tagged[text] && p.buildUps.number(other) == text {
					tagged[text] = p.tagWall(other, text+rating, true) || p.leadTag(p.view.Paper(other.run.Line.Mid()), 0, text+rating, true)
				}
			}
		}
	}
}

// rated is what stands behind the tag of a wall: its fire rating, on a plan of
// life safety.
func (p *plot) rated(part *wallPart) string {
	if !p.safety {
		return ""
	}
	return p.buildUps.fire(part.run.BuildUp)
}

// seen is a stretch of wall as far as it lies in the part that is drawn.
func (p *plot) seen(part wallPart) *wallPart {
	if p.piece == nil {
		return &part
	}
	a, b, ok := clip(p.view.Paper(part.run.Line.A), p.view.Paper(part.run.Line.B), p.window())
	if !ok {
		part.mine = false
		return &part
	}
	part.run.Line = geom.Segment{A: p.view.House(a), B: p.view.House(b)}
	return &part
}

// goesOn tells whether two stretches are one wall to the eye.
func (p *plot) goesOn(a, b *wallPart) bool {
	if p.buildUps.number(a) != p.buildUps.number(b) || !parallel(a.run.Line, b.run.Line) {
		return false
	}
	off := a.run.Line.Off(b.run.Line.Mid())
	gap := min(a.run.Line.DistanceTo(b.run.Line.A), a.run.Line.DistanceTo(b.run.Line.B))
	return math.Abs(off) <= a.run.Thickness/2 && gap <= geom.ThickestWall
}

// tagSize is the place of a tag.
func (p *plot) tagSize(text string) float64 {
	return max(tagHeight, p.sheet.fonts.width(text, smallText, true)+2*tagPadding)
}

// tagShape tells what a tag is for: the build-up of a wall, a door, a window.
type tagShape int

const (
	cutCorners  tagShape = iota // a build-up
	roundEnds                   // a door
	pointedEnds                 // a window
)

// shapeOf is the shape of a tag by its letter.
func shapeOf(text string) tagShape {
	switch text[0] {
	case 'D':
		return roundEnds
	case 'W':
		return pointedEnds
	}
	return cutCorners
}

// outline of a tag around a place.
func (t tagShape) outline(r Rect) *canvas.Path {
	const cut = 1.0
	mid := (r.Y0 + r.Y1) / 2
	half := r.height() / 2
	switch t {
	case roundEnds:
		path := &canvas.Path{}
		path.MoveTo(r.X0+half, r.Y0)
		path.LineTo(r.X1-half, r.Y0)
		path.ArcTo(half, half, 0, false, true, r.X1-half, r.Y1)
		path.LineTo(r.X0+half, r.Y1)
		path.ArcTo(half, half, 0, false, true, r.X0+half, r.Y0)
		path.Close()
		return path
	case pointedEnds:
		return polygon(Point{r.X0, mid}, Point{r.X0 + cut, r.Y0}, Point{r.X1 - cut, r.Y0}, Point{r.X1, mid}, Point{r.X1 - cut, r.Y1}, Point{r.X0 + cut, r.Y1})
	}
	return polygon(Point{r.X0, r.Y0 + cut}, Point{r.X0 + cut, r.Y0}, Point{r.X1 - cut, r.Y0}, Point{r.X1, r.Y0 + cut},
		Point{r.X1, r.Y1 - cut}, Point{r.X1 - cut, r.Y1}, Point{r.X0 + cut, r.Y1}, Point{r.X0, r.Y1 - cut})
}

// tagPlace is the place of a tag around its middle, level or upright.
func (p *plot) tagPlace(c Point, text string, upright bool) Rect {
	w, h := p.tagSize(text)/2, tagHeight/2
	if upright {
		w, h = h, w
	}
	return Rect{c.X - w, c.Y - h, c.X + w, c.Y + h}
}

// putTag draws a tag with its middle at c; what is new or changed stands bold.
func (p *plot) putTag(c Point, text string, bold bool) { p.putTagTurned(c, text, bold, false) }

// putTagTurned draws a tag that reads from the bottom, or upright from the right.
func (p *plot) putTagTurned(c Point, text string, bold, upright bool) {
	level := p.tagPlace(Point{}, text, false)
	turn := 0.0
	if upright {
		turn = 90
	}
	p.sheet.both(layerSign, white, line(thin), moved(shapeOf(text).outline(level), canvas.Identity.Translate(c.X, c.Y).Rotate(turn)))
	foot := c.add(Point{0, -smallText / 2}.turned(turn))
	p.sheet.write(foot, words{text: text, height: smallText, bold: bold, align: atMiddle, turn: turn}, p.box(TagBox, ""))
	corners := p.tagPlace(c, text, upright).corners()
	p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
	p.taken = append(p.taken, obstacle(corners[:]))
}

// tagFree tells whether a tag may stand at c: on open floor or outdoors, not
// on walls.
func (p *plot) tagFree(c Point, text string, strict bool) bool {
	return p.tagFits(p.tagPlace(c, text, false), strict)
}

func (p *plot) tagFits(place Rect, strict bool) bool {
	c := place.centre()
	quad := place.grown(otherClearance / 2).corners()
	if !p.free(quad) || !p.unlettered(quad) || strict && !p.unlined(quad) {
		return false
	}
	// Outdoors only where the first dimension line is not reached.
	if !slices.ContainsFunc(p.rooms, func(r room) bool { return insideRegion(quad, p.rings(geom.Shape{p.b.Cells[r.cell].Region})) }) &&
		(boundsOf(quad[:]...).joined(p.extent().grown(nearGround-1)) != p.extent().grown(nearGround-1)) {
		return false
	}
	walls := p.rings(p.cut)
	for _, r := range walls {
		if obstacle(r).crosses(quad) {
			return false
		}
	}
	if oddly(c, walls) {
		return false // within the thickness of a wall
	}
	inOpening := func(at placed) bool { return obstacle(p.view.points(at.rectangle(0).Outer)).meets(quad) }
	return !slices.ContainsFunc(p.windows, func(w window) bool { return inOpening(w.at) }) &&
		!slices.ContainsFunc(p.doors, func(d door) bool { return inOpening(d.at) })
}

// throughWall tells whether a line crosses the face of a wall.
func (p *plot) throughWall(a, b Point) bool {
	for _, r := range p.rings(p.cut) {
		for i, c := range r {
			if cross(a, b, c, r[(i+1)%len(r)]) {
				return true
			}
		}
	}
	return false
}

// crosses tells whether the border of the obstacle runs through a quadrangle.
func (o obstacle) crosses(q [4]Point) bool {
	for i, a := range o {
		b := o[(i+1)%len(o)]
		for j := range q {
			if cross(a, b, q[j], q[(j+1)%4]) {
				return true
			}
		}
	}
	return within(o[0], q[:])
}

func sign(v float64) float64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// tagWall marks a stretch of the separation with the number of its build-up,
// on open floor beside it, with a line that leads to it: straight or slanted;
// over faint lines and through walls only where it must.
func (p *plot) tagWall(part *wallPart, text string, slanted bool) bool {
	l := part.run.Line
	a, b := p.view.Paper(l.A), p.view.Paper(l.B)
	u := b.sub(a).unit()
	n := u.left()
	long := a.distance(b)
	const least = 3.0 // millimetres: a shorter stretch carries no tag of its own
	if long < least {
		return false
	}
	wall := p.view.mm(part.run.Thickness) / 2
	w := p.tagSize(text) / 2
	reach := abs1(n.X)*w + abs1(n.Y)*tagHeight/2
	asides := []float64{0}
	tries := []struct{ strict, through bool }{{true, false}, {false, true}}
	if slanted {
		asides = []float64{5, -5, 10, -10, 16, -16, 24, -24}
		tries = []struct{ strict, through bool }{{true, false}, {false, false}, {false, true}}
	}
	for _, try := range tries {
		for _, aside := range asides {
			for _, off := range []float64{2.2, 4.5, 8, 12} {
				for _, t := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9} {
					for _, side := range []float64{1, -1} {
						foot := a.add(u.times(long * t)).add(n.times(side * wall))
						c := foot.add(n.times(side * (off + reach))).add(u.times(aside))
						if !p.tagFree(c, text, try.strict) {
							continue
						}
						way := c.sub(foot).unit()
						end := foot.add(way.times(c.distance(foot) * off / (off + reach)))
						lead := hindrance(foot.add(way.times(0.3)), end)
						leadQuad := [4]Point{lead[0], lead[1], lead[2], lead[3]}
						if !p.unlettered(leadQuad) || !try.through && p.throughWall(foot.add(way.times(0.6)), c) {
							continue
						}
						p.sheet.stroke(layerSign, line(hair), polyline(foot, end))
						p.sheet.fill(layerSign, black, circle(foot, 0.45))
						p.putTag(c, text, true)
						p.taken = append(p.taken, lead)
						return true
					}
				}
			}
		}
	}
	return false
}

// fenceLine is a fence: a line with ticks across it.
func fenceLine(a, b Point) *canvas.Path {
	const pitch, half = 3.0, 0.9
	p := polyline(a, b)
	d := b.sub(a)
	u := d.unit()
	n := u.left().times(half)
	count := max(1, int(d.length()/pitch))
	for i := 0; i <= count; i++ {
		c := a.add(d.times(float64(i) / float64(count)))
		p = p.Append(polyline(c.sub(n), c.add(n)))
	}
	return p
}
