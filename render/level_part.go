package render

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// part is one of the pieces in which a level too large for a sheet is drawn.
// Pieces meet at match lines, square to the sheet.
type part struct {
	column, row int
	number, of  int       // among the parts of the level that hold something of it
	window      Rect      // between its match lines, turned as on the sheet, in metres
	beside      [4]*part  // the part across the match line of a side, nil for none
	reach       Rect      // of what it holds, turned, in metres
	all         []*part   // of the level, in the order of their numbers
	whole       *planView // of which it is a part
	sheet       string    // its number, once it is known
}

// legible is the smallest scale at which a level is drawn whole: beyond 1:100
// or 1/8 in to the foot doors and fixtures can no longer be read, and a level
// is divided over several sheets (common practice, no source).
const legible = 100.0

// Match lines, millimetres.
const (
	matchOverlap = 5.0 // drawn beyond a match line, so that walls on it show their thickness
	matchRoom    = 6.0 // beyond that, for what is lettered along the line
)

// farOff is beyond any house, in metres.
const farOff = 1e4

// owns tells whether a place, turned and in metres, belongs to the part: what
// lies there is lettered on its sheet and no other.
func (t *part) owns(q Point) bool {
	return t == nil || q.X >= t.window.X0 && q.X < t.window.X1 && q.Y >= t.window.Y0 && q.Y < t.window.Y1
}

// shown is what the part draws at a scale: what it holds with the ground
// beside it, and of its neighbours the overlap.
func (t *part) shown(scale Scale) Rect {
	r, k := t.reach, scale.MMPerMetre()
	for s, other := range t.beside {
		over := (nearGround + 1) / k
		if other != nil {
			over = matchOverlap / k
		}
		r = r.beyond(side(s), over)
	}
	return r
}

// beyond is r with one side moved outwards.
func (r Rect) beyond(s side, by float64) Rect {
	switch s {
	case below:
		r.Y0 -= by
	case leftOf:
		r.X0 -= by
	case above:
		r.Y1 += by
	case rightOf:
		r.X1 += by
	}
	return r
}

// common is the rectangle that r and s share, empty where they share none.
func (r Rect) common(s Rect) Rect {
	return Rect{max(r.X0, s.X0), max(r.Y0, s.Y0), min(r.X1, s.X1), min(r.Y1, s.Y1)}
}

// region is the window in the house's own coordinates.
func (t *part) region(turn float64) geom.Region {
	var ring geom.Ring
	for _, c := range t.window.corners() {
		q := c.turned(-turn)
		ring = append(ring, geom.FromMetres(q.X, q.Y))
	}
	return geom.Region{Outer: ring}
}

// mostParts is the most parts that a level is divided into.
const mostParts = 64

// divided draws each view in the fewest parts that fit the sheet at a scale;
// nil where no number of parts does.
func (p *project) divided(views []*planView, scale Scale) []*planView {
	reach := noRect
	for _, v := range views {
		reach = reach.joined(v.reach)
	}
	k := scale.MMPerMetre()
	wide, high := 0.0, 0.0
	for _, c := range p.paper.compositions() {
		wide, high = max(wide, c.drawing.width()), max(high, c.drawing.height())
	}
	fewest, least := func(long, most float64) int { return max(1, int(math.Ceil(long*k/most))) }, [2]int{}
	if wide <= 0 || high <= 0 {
		return nil
	}
	least = [2]int{fewest(reach.width(), wide), fewest(reach.height(), high)}
	for count := least[0] * least[1]; count <= mostParts; count++ {
		for columns := least[0]; columns*least[1] <= count; columns++ {
			rows := count / columns
			if columns*rows != count {
				continue
			}
			xs := matchLines(views, leftOf, reach.X0, reach.X1, columns)
			ys := matchLines(views, below, reach.Y0, reach.Y1, rows)
			if parts := p.partsThatFit(views, xs, ys, scale); parts != nil {
				return parts
			}
		}
	}
	return nil
}

// partsThatFit are the parts of all views between match lines, nil where one
// is too large for the sheet.
func (p *project) partsThatFit(views []*planView, xs, ys []float64, scale Scale) []*planView {
	var out []*planView
	for _, v := range views {
		for _, w := range p.partsOf(v, xs, ys, scale) {
			if !p.packs([]*planView{w}, scale) {
				return nil
			}
			out = append(out, w)
		}
	}
	return out
}

// matchLines places the lines across one direction, with the far ends before
// and after them: near where they divide it evenly, and each where it cuts the
// least of what is on the levels.
func matchLines(views []*planView, s side, from, to float64, parts int) []float64 {
	const step = 0.05  // metres
	const aside = 0.15 // of a part
	lines := []float64{-farOff}
	for i := 1; i < parts; i++ {
		even := from + (to-from)*float64(i)/float64(parts)
		reach := (to - from) / float64(parts) * aside
		best, least := even, math.Inf(1)
		for at := even - reach; at <= even+reach; at += step {
			harm := math.Abs(at-even) * 0.5
			for _, v := range views {
				harm += v.cutBy(s, at)
			}
			if harm < least-1e-9 {
				best, least = at, harm
			}
		}
		lines = append(lines, best)
	}
	return append(lines, farOff)
}

// cutBy weighs what a match line would cut on a floor: openings and flights
// above all, then fixtures, walls that run along it, and rooms.
func (f *floor) cutBy(s side, at float64) float64 {
	acrossLine := func(p geom.Pt) float64 {
		q := f.turnedPoint(p)
		if s == below {
			return q.Y
		}
		return q.X
	}
	const opening, stair, stands, wall, space, near = 40, 40, 10, 6, 2, 0.25
	harm := 0.0
	spans := func(points []geom.Pt, over, weight float64) {
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			v := acrossLine(p)
			low, high = min(low, v), max(high, v)
		}
		if at > low-over && at < high+over {
			harm += weight
		}
	}
	for _, d := range f.doors {
		spans([]geom.Pt{d.at.line.A, d.at.line.B}, near, opening)
	}
	for _, w := range f.windows {
		spans([]geom.Pt{w.at.line.A, w.at.line.B}, near, opening)
	}
	for _, l := range f.flights {
		spans(l.stair.Region.Outer, near, stair)
	}
	for i := range f.fixtures {
		q := f.fixtures[i].quad()
		spans(q[:], 0, stands)
	}
	for _, p := range f.parts {
		if a, b := acrossLine(p.run.Line.A), acrossLine(p.run.Line.B); math.Abs(a-b) < stopGap {
			spans([]geom.Pt{p.run.Line.A}, near+p.run.Thickness/2, wall)
		}
	}
	for _, r := range f.rooms {
		spans(f.b.Cells[r.cell].Region.Outer, 0, space)
	}
	return harm
}

// partsOf are the parts of a view between match lines that hold something of it.
func (p *project) partsOf(v *planView, xs, ys []float64, scale Scale) []*planView {
	columns, rows := len(xs)-1, len(ys)-1
	at := make([]*part, columns*rows)
	var all []*part
	for row := rows - 1; row >= 0; row-- { // as a page is read
		for column := range columns {
			t := &part{column: column, row: row, window: Rect{xs[column], ys[row], xs[column+1], ys[row+1]}, whole: v}
			if !v.holds(t) {
				continue
			}
			t.number = len(all) + 1
			at[row*columns+column] = t
			all = append(all, t)
		}
	}
	if len(all) == 1 && v.reachOf().common(all[0].window) == v.reachOf() { // this level is smaller than the others
		w := *v
		w.reach = v.reachOf()
		return []*planView{&w}
	}
	in := func(column, row int) *part {
		if column < 0 || row < 0 || column >= columns || row >= rows {
			return nil
		}
		return at[row*columns+column]
	}
	var out []*planView
	for _, t := range all {
		t.of, t.all = len(all), all
		for _, s := range sides {
			step := map[side][2]int{below: {0, -1}, leftOf: {-1, 0}, above: {0, 1}, rightOf: {1, 0}}[s]
			t.beside[s] = in(t.column+step[0], t.row+step[1])
		}
		t.sheet = p.partSheets[t.key()]
	}
	for _, t := range all {
		if w := v.part(t, scale); w.worthwhile() {
			out = append(out, w)
		}
	}
	return out
}

// key names a part among all those of a set.
func (t *part) key() string {
	return fmt.Sprintf("%s/%s/%d", t.whole.unit, t.whole.name, t.number)
}

// title names a part.
func (t *part) title() string { return fmt.Sprintf(", part %d of %d", t.number, t.of) }

// holds tells whether something of a floor lies in a part, and notes how far
// that reaches.
func (f *floor) holds(t *part) bool {
	const least = 0.05 // metres: less is the overlap of a neighbour
	t.reach = noRect
	add := func(g geom.Region) {
		shared, err := geom.Intersection(geom.Shape{g}, geom.Shape{t.region(f.turn)})
		if err != nil || shared.AreaM2() < least*least {
			return
		}
		for _, r := range shared {
			t.reach = t.reach.joined(f.boundsOf(r))
		}
	}
	for _, g := range f.outline {
		add(g)
	}
	for _, o := range f.outdoors {
		if f.structure(o.cell) && f.beside(o.cell) {
			add(f.b.Cells[o.cell].Region)
		}
	}
	for _, o := range f.rooms {
		if f.b.Cells[o.cell].Outdoor {
			add(f.b.Cells[o.cell].Region)
		}
	}
	return t.reach != noRect
}

// worthwhile tells whether a part shows what its sheet is for: rooms of the
// unit that is drawn, or something that is taken out.
func (v *planView) worthwhile() bool {
	switch {
	case v.unit != "":
		return slices.ContainsFunc(v.rooms, func(r room) bool {
			piece, _ := v.piece.pieceOf(v.b.Cells[r.cell].Region, v.turn)
			return r.mine && len(piece.Outer) > 0
		})
	case v.demolition != nil:
		d := v.demolition
		return len(d.walls)+len(d.breaks) > 0 ||
			slices.ContainsFunc(v.doors, func(d door) bool { return d.state == plan.Removed }) ||
			slices.ContainsFunc(v.windows, func(w window) bool { return w.goes }) ||
			slices.ContainsFunc(v.fixtures, func(f fixture) bool { return f.state == plan.Removed })
	}
	return true
}

// boundsOf is the upright rectangle around a region, turned, in metres.
func (f *floor) boundsOf(g geom.Region) Rect {
	r := noRect
	for _, q := range g.Outer {
		r = r.joined(boundsOf(f.turnedPoint(q)))
	}
	return r
}

// part is the view of one part of a level.
func (v *planView) part(t *part, scale Scale) *planView {
	w := *v
	w.piece = t
	w.name += t.title()
	w.reach = t.reach
	for _, s := range sides {
		w.chains[s] = t.chains(v.chains[s], s, v.fronts(s))
		w.depths[s] = depth(w.chains[s])
		if t.beside[s] == nil {
			continue
		}
		if w.depths[s] = matchOverlap + matchRoom; len(w.chains[s]) > 0 {
			w.depths[s] += depth(w.chains[s])
		}
		// The line lies at the end of the window, however far the part reaches.
		switch s {
		case below:
			w.reach.Y0 = t.window.Y0
		case leftOf:
			w.reach.X0 = t.window.X0
		case above:
			w.reach.Y1 = t.window.Y1
		case rightOf:
			w.reach.X1 = t.window.X1
		}
	}
	t.reach = w.reach
	w.floor = v.floor.within(t, t.shown(scale))
	for _, s := range v.sectionEnds() {
		if t.beside[s] == nil && v.marks == marksOutside {
			w.depths[s] += sectionRoom
		}
	}
	return &w
}

// chains are the dimension lines of a side that belong to a part: those
// lengths behind whose middle the house is seen from that side in the part.
func (t *part) chains(of []chain, s side, fronts []front) []chain {
	var out []chain
	for _, c := range of {
		own := chain{stops: c.stops, given: slices.Clone(c.given)}
		for i := range own.given {
			mid := (c.stops[i] + c.stops[i+1]) / 2
			own.given[i] = own.given[i] && t.owns(seenAt(s, fronts, mid))
		}
		if slices.Contains(own.given, true) {
			out = append(out, own)
		}
	}
	return out
}

// seenAt is what is seen of a house from a side at a place along it, or where
// nothing is, nearest to it: just behind the face.
func seenAt(s side, fronts []front, along float64) Point {
	const behind = 0.05 // metres: within the wall
	at, least := Point{}, math.Inf(1)
	for _, f := range fronts {
		off := max(0, f.from-along, along-f.to)
		if off >= least {
			continue
		}
		out, held := f.outFrom, min(max(along, f.from), f.to)
		if f.to > f.from {
			out += (f.outTo - f.outFrom) * (held - f.from) / (f.to - f.from)
		}
		at, least = s.point(held, out-behind), off
	}
	return at
}

// within is the floor with what a part shows of it. What is shown of a
// neighbour in the overlap is lettered there.
func (f *floor) within(t *part, shown Rect) *floor {
	g := *f
	meets := func(r Rect) bool { return r.meets(shown) }
	line := func(s geom.Segment) Rect {
		return boundsOf(f.turnedPoint(s.A), f.turnedPoint(s.B)).grown(geom.ThickestWall / 2)
	}
	cells := func(of []room) []room {
		return slices.DeleteFunc(slices.Clone(of), func(r room) bool { return !meets(f.boundsOf(f.b.Cells[r.cell].Region)) })
	}
	g.rooms, g.outdoors = cells(f.rooms), cells(f.outdoors)
	g.doors = slices.DeleteFunc(slices.Clone(f.doors), func(d door) bool { return !meets(line(d.at.line)) })
	for i := range g.doors {
		g.doors[i].elsewhere = !t.owns(f.turnedPoint(g.doors[i].at.line.Mid()))
	}
	g.windows = slices.DeleteFunc(slices.Clone(f.windows), func(w window) bool { return !meets(line(w.at.line)) })
	for i := range g.windows {
		g.windows[i].elsewhere = !t.owns(f.turnedPoint(g.windows[i].at.line.Mid()))
	}
	g.fixtures = slices.DeleteFunc(slices.Clone(f.fixtures), func(d fixture) bool {
		q := d.quad()
		return !meets(f.boundsOf(geom.Region{Outer: q[:]}))
	})
	for i := range g.fixtures {
		q := g.fixtures[i].quad()
		g.fixtures[i].elsewhere = !t.owns(f.boundsOf(geom.Region{Outer: q[:]}).centre())
	}
	g.flights = slices.Clone(f.flights) // all: one may be drawn by where another is cut
	for i := range g.flights {
		g.flights[i].elsewhere = !t.owns(f.boundsOf(g.flights[i].stair.Region).centre())
		g.flights[i].unseen = !meets(f.boundsOf(g.flights[i].stair.Region))
	}
	g.parts = slices.DeleteFunc(slices.Clone(f.parts), func(w wallPart) bool { return !meets(line(w.run.Line)) })
	for kind := range g.changed {
		if !slices.ContainsFunc(g.parts, func(w wallPart) bool { return w.kind == wallKind(kind) }) {
			g.changed[kind] = nil
		}
	}
	if f.demolition != nil {
		d := *f.demolition
		d.walls = slices.DeleteFunc(slices.Clone(d.walls), func(r geom.Region) bool { return !meets(f.boundsOf(r)) })
		d.breaks = slices.DeleteFunc(slices.Clone(d.breaks), func(at placed) bool { return !meets(line(at.line)) })
		g.demolition = &d
	}
	return &g
}

// pieceOf is what lies in the part of a room, and whether no other part holds
// more of it.
func (t *part) pieceOf(g geom.Region, turn float64) (piece geom.Region, most bool) {
	size := func(o *part) (geom.Region, float64) {
		shared, err := geom.Intersection(geom.Shape{g}, geom.Shape{o.region(turn)})
		if err != nil || len(shared) == 0 {
			return geom.Region{}, 0
		}
		largest := slices.MaxFunc(shared, func(a, b geom.Region) int { return cmp.Compare(a.AreaM2(), b.AreaM2()) })
		return largest, largest.AreaM2()
	}
	own, area := size(t)
	most = area > 0
	for _, o := range t.all {
		if o == t {
			continue
		}
		const tie = 1e-6 // m2
		if _, other := size(o); other > area+tie || other > area-tie && o.number < t.number {
			most = false
		}
	}
	return own, most
}
