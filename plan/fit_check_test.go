package plan_test

import (
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// checker looks at a fit with none of the means by which it was found: it
// samples points of what was placed, and asks of each whether it may be there.
type checker struct {
	b      *plan.Building
	cell   int
	fit    plan.Fit
	faults []string
	faces  map[geom.Segment][2]float64
}

// checkFit lists what is wrong with a fit.
func checkFit(b *plan.Building, f plan.Fit) []string {
	c := &checker{b: b, cell: f.Cell, fit: f}
	for i, x := range f.Fixtures {
		c.body(x.Use, *x.Footprint)
		for _, y := range f.Fixtures[:i] {
			if !(f.Stacked && x.Use == "dryer" && y.Use == "washer") {
				c.apart(x.Use, *x.Footprint, y.Use, *y.Footprint)
			}
		}
		c.drains(x)
	}
	for _, w := range f.Worktops {
		c.body("worktop", w)
		for _, x := range f.Fixtures {
			if x.Use != "sink" {
				c.apart("worktop", w, x.Use, *x.Footprint)
			}
		}
	}
	for i, x := range f.Closets {
		c.body("closet", x.Region)
		inside := 0
		for _, y := range f.Fixtures {
			if within(x.Region, *y.Footprint) {
				inside++
				c.apart("partition", x.Ends[0], y.Use, *y.Footprint)
				c.apart("partition", x.Ends[1], y.Use, *y.Footprint)
				for _, f := range x.Front {
					c.apart("partition", f, y.Use, *y.Footprint)
				}
			} else {
				c.apart("closet", x.Region, y.Use, *y.Footprint)
			}
		}
		if inside == 0 {
			c.fault("an empty closet")
		}
		for _, y := range f.Closets[:i] {
			c.apart("closet", x.Region, "closet", y.Region)
		}
	}
	for _, r := range f.Clear {
		c.clear(r)
	}
	c.ways()
	return c.faults
}

// within tells whether all of a footprint lies in a region.
func within(r, footprint geom.Region) bool {
	return !slices.ContainsFunc(samples(footprint), func(p geom.Pt) bool { return r.Contains(p) == geom.Out })
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, c.b.Cells[c.cell].ID+": "+fmt.Sprintf(format, args...))
}

const (
	sampleStep = 0.04
	// A fit may lie two millimetres over what it touches.
	sampleInset = 0.004
)

// samples gives points of a rectangle, those near its sides just within it.
func samples(r geom.Region) []geom.Pt {
	if len(r.Outer) != 4 { // a worktop around a corner
		var out []geom.Pt
		box := r.Bounds()
		w, h := box.Size()
		for x := sampleStep / 2; x < w; x += sampleStep {
			for y := sampleStep / 2; y < h; y += sampleStep {
				if p := box.Min.Add(geom.FromMetres(x, y)); r.Contains(p) == geom.Inside && r.DistanceToBorder(p) > sampleInset {
					out = append(out, p)
				}
			}
		}
		return out
	}
	a, b, d := r.Outer[0], r.Outer[1], r.Outer[3]
	side, up := geom.Segment{A: a, B: b}, geom.Segment{A: a, B: d}
	steps := func(length float64) []float64 {
		if length <= 2*sampleInset { // a strip thinner than what a fit may lie over
			return []float64{length / 2}
		}
		n := int(math.Ceil(length/sampleStep)) + 1
		out := make([]float64, n)
		for i := range out {
			out[i] = sampleInset + (length-2*sampleInset)*float64(i)/float64(n-1)
		}
		return out
	}
	var out []geom.Pt
	for _, x := range steps(side.Length()) {
		for _, y := range steps(up.Length()) {
			out = append(out, side.Beside(x, y))
		}
	}
	return out
}

// kept lists the fixtures that stay in a cell and were drawn with a footprint.
func (c *checker) kept(cell int) []plan.Fixture {
	var out []plan.Fixture
	for i, x := range c.b.House.Fixtures {
		if c.b.FixtureCell[i] == cell && x.Footprint != nil && !slices.Contains(c.fit.Removed, i) {
			out = append(out, x)
		}
	}
	return out
}

// heights above the floor, to which nothing stands before a lower window; a
// bath's is that of its wall's lining (common practice, no source).
var heights = map[string]float64{
	"worktop": 0.95, "sink": 0.95, "range": 2.0, "refrigerator": 1.8, "wc": 0.8, "basin": 1.0, "bath": 1.2, "shower": 2.0,
	"washer": 1.0, "dryer": 1.0, "furnace": 1.6, "closet": 2.1, "water_heater": 1.6, "electrical_panel": 1.98,
}

func (c *checker) body(use string, r geom.Region) {
	room := c.b.Cells[c.cell].Region
	high := heights[use]
	if c.fit.Stacked && (use == "washer" || use == "dryer") {
		high = 2.0
	}
	points := samples(r)
	for _, p := range points {
		if room.Contains(p) == geom.Out {
			c.fault("%s leaves the room", use)
			return
		}
		for _, k := range c.kept(c.cell) {
			if k.Footprint.Contains(p) == geom.Inside {
				c.fault("%s over %s", use, k.ID)
				return
			}
		}
		for i, w := range c.b.House.Windows {
			if !slices.Contains(c.b.WindowCells[i][:], c.cell) {
				continue
			}
			sill := c.b.House.Levels[w.Level].Floor + w.Sill - c.b.Cells[c.cell].Floor
			if off, ok := c.before(w.Line, p); ok && off < 0.30-sampleInset && high > sill+0.002 {
				c.fault("%s before window %s", use, w.ID)
				return
			}
		}
	}
	for _, l := range c.b.Links {
		if l.U != c.cell && l.V != c.cell {
			continue
		}
		switch l.Kind {
		case plan.LinkDoor, plan.LinkOpening:
			c.atDoor(use, r, points, l)
		case plan.LinkStair:
			c.atEdge(use, points, l, 36*in)
		case plan.LinkOpen:
			c.atEdge(use, points, l, 0.8)
		}
	}
	// Its back is at a wall; hoses and ducts take 4 in behind machines.
	least := math.Inf(1)
	for _, e := range r.Edges() {
		for _, wall := range room.Edges() {
			least = min(least, max(wall.DistanceTo(e.A), wall.DistanceTo(e.B)))
		}
	}
	if least > 4*in+0.012 {
		c.fault("%s stands %.3f m from the nearest wall", use, least)
	}
}

// before tells how far into the room, from its wall's face, a point lies that
// is straight before an opening; ok is false where it is beside the opening.
func (c *checker) before(opening geom.Segment, p geom.Pt) (off float64, ok bool) {
	along := opening.Along(p)
	if along < sampleInset || along > opening.Length()-sampleInset {
		return 0, false
	}
	face, ok := c.faces[opening]
	if !ok {
		face = [2]float64{c.face(opening, 1), c.face(opening, -1)}
		if c.faces == nil {
			c.faces = map[geom.Segment][2]float64{}
		}
		c.faces[opening] = face
	}
	off = opening.Off(p)
	if off < 0 {
		return -off - face[1], true
	}
	return off - face[0], true
}

// face is how far the room's wall lies from the middle of an opening on one side of it.
func (c *checker) face(opening geom.Segment, side float64) float64 {
	const most, step = 0.8, 0.002
	off := 0.0
	for c.b.Cells[c.cell].Region.Contains(opening.Beside(opening.Length()/2, side*off)) == geom.Out && off < most {
		off += step
	}
	return off
}

func (c *checker) atDoor(use string, r geom.Region, points []geom.Pt, l plan.Link) {
	i := slices.IndexFunc(c.b.House.Doors, func(d plan.Door) bool { return d.ID == l.Of })
	d := c.b.House.Doors[i]
	cell := c.b.Cells[c.cell]
	closet := slices.Contains([]plan.Use{plan.Closet, plan.Storage, plan.Pantry, plan.Mechanical}, cell.Use)
	// What is used through the door of a closet stands within its width.
	through := closet
	for _, p := range r.Outer {
		if a := l.Line.Along(p); a < -sampleInset || a > l.Line.Length()+sampleInset {
			through = false
		}
	}
	swings := d.OpensInto == cell.Of || d.OpensInto == "" && !closet
	for _, p := range points {
		off, ok := c.before(l.Line, p)
		if !ok {
			continue
		}
		if off < 0.8-sampleInset && !through {
			c.fault("%s in the approach of %s", use, d.ID)
			return
		}
		hinge := l.Line.Along(p)
		if d.HingeAtEnd {
			hinge = l.Line.Length() - hinge
		}
		if d.Leaf == plan.Single && swings && math.Hypot(hinge, max(off, 0)) < l.Line.Length()-sampleInset {
			c.fault("%s in the swing of %s", use, d.ID)
			return
		}
	}
}

func (c *checker) atEdge(use string, points []geom.Pt, l plan.Link, deep float64) {
	for _, run := range l.Runs {
		for _, p := range points {
			if off, ok := c.before(run, p); ok && off < deep-sampleInset {
				c.fault("%s before %s", use, l.ID)
				return
			}
		}
	}
}

func (c *checker) apart(useA string, a geom.Region, useB string, b geom.Region) {
	for _, p := range samples(a) {
		if b.Contains(p) == geom.Inside {
			c.fault("%s over %s", useA, useB)
			return
		}
	}
}

// clear checks floor that is to stay free: in one room, and free.
func (c *checker) clear(r geom.Region) {
	cells := map[int]bool{}
	for _, p := range samples(r) {
		at := -1
		for i, cell := range c.b.Cells {
			if cell.Level == c.b.Cells[c.cell].Level && cell.Region.Contains(p) != geom.Out {
				at = i
			}
		}
		if at < 0 {
			c.fault("clear space in a wall")
			return
		}
		cells[at] = true
		bodies := c.kept(at)
		if at == c.cell {
			bodies = append(bodies, c.fit.Fixtures...)
		}
		for _, x := range bodies {
			if x.Footprint.Contains(p) == geom.Inside {
				c.fault("clear space under %s", x.ID)
				return
			}
		}
	}
	if len(cells) > 1 {
		c.fault("clear space in several rooms")
	}
}

// drains checks that a branch falls 1:50 within a joist.
func (c *checker) drains(x plan.Fixture) {
	reach := 0.0
	switch x.Use {
	case "wc":
		reach = (0.235 - 0.10) * 50
	case "sink", "basin", "bath", "shower", "washer", "water_heater":
		reach = (0.235 - 0.05) * 50
	default:
		return
	}
	least := math.Inf(1)
	for _, s := range c.b.House.Fixtures {
		if s.Use == "drain_stack" {
			at := s.At
			if s.Footprint != nil {
				at = s.Footprint.Bounds().Centre()
			}
			least = min(least, at.Distance(x.Footprint.Bounds().Centre()))
		}
	}
	if !math.IsInf(least, 1) && least > reach+0.06 { // the bowl is drawn before the middle of the worktop
		c.fault("%s %.2f m from its stack", x.Use, least)
	}
}

// floorGrid is the floor of a room as places at which somebody can stand.
type floorGrid struct {
	at     map[[2]int]geom.Pt
	base   geom.Segment
	before [][][2]int // per door of the room: the places before it
}

const (
	gridStep = 0.05
	slimmer  = 0.16 // than the least way: the steps of both grids
)

// girth is the width in which somebody passes through the room.
func (c *checker) girth() float64 {
	switch c.b.Cells[c.cell].Use {
	case plan.Hall, plan.Entry:
		return 0.86 - slimmer
	}
	return 0.50 - slimmer
}

var grids = map[*plan.Building]map[int]*floorGrid{}

func (c *checker) grid() *floorGrid {
	b, cell := c.b, c.cell
	if g := grids[b][cell]; g != nil {
		return g
	}
	room := b.Cells[cell].Region
	g := &floorGrid{at: map[[2]int]geom.Pt{}}
	for _, e := range room.Edges() {
		if e.Length() > g.base.Length()+0.001 {
			g.base = e
		}
	}
	var x0, x1, y1 float64
	for _, p := range room.Outer {
		x0, x1, y1 = min(x0, g.base.Along(p)), max(x1, g.base.Along(p)), max(y1, g.base.Off(p))
	}
	for i := int(x0/gridStep) - 1; float64(i)*gridStep < x1; i++ {
		for j := 0; float64(j)*gridStep < y1; j++ {
			p := g.base.Beside(float64(i)*gridStep, float64(j)*gridStep)
			if room.Contains(p) == geom.Inside && room.DistanceToBorder(p) >= c.girth()/2 {
				g.at[[2]int{i, j}] = p
			}
		}
	}
	for _, l := range b.Links {
		if l.U != cell && l.V != cell || l.Kind != plan.LinkDoor && l.Kind != plan.LinkOpening {
			continue
		}
		var before [][2]int
		for k, p := range g.at {
			if off, ok := c.before(l.Line, p); ok && off < 0.8 {
				before = append(before, k)
			}
		}
		g.before = append(g.before, before)
	}
	if grids[b] == nil {
		clear(grids) // of earlier houses
		grids[b] = map[int]*floorGrid{}
	}
	grids[b][cell] = g
	return g
}

// parts numbers the places that hang together beside some bodies.
func (g *floorGrid) parts(bodies []plan.Fixture, girth float64) map[[2]int]int {
	type node = [2]int
	free := map[node]bool{}
	for k, p := range g.at {
		free[k] = !slices.ContainsFunc(bodies, func(x plan.Fixture) bool {
			return x.Footprint.Bounds().Grow(geom.Units(girth/2)).Holds(p) &&
				(x.Footprint.Contains(p) != geom.Out || x.Footprint.DistanceToBorder(p) < girth/2)
		})
	}
	mark := map[node]int{}
	n := 0
	for k := range free {
		if !free[k] || mark[k] != 0 {
			continue
		}
		n++
		mark[k] = n
		for queue := []node{k}; len(queue) > 0; queue = queue[1:] {
			for _, d := range []node{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				if r := (node{queue[0][0] + d[0], queue[0][1] + d[1]}); free[r] && mark[r] == 0 {
					mark[r] = n
					queue = append(queue, r)
				}
			}
		}
	}
	return mark
}

// ways checks that people get from each door of the room to each other and to
// every clear space, where they do today.
func (c *checker) ways() {
	room := c.b.Cells[c.cell].Region
	if slices.ContainsFunc(c.fit.Clear, func(r geom.Region) bool { return room.Contains(r.Bounds().Centre()) == geom.Out }) {
		return // used through the door of a closet
	}
	g := c.grid()
	on := func(marks map[[2]int]int, places [][2]int) map[int]bool {
		out := map[int]bool{}
		for _, k := range places {
			if m := marks[k]; m > 0 {
				out[m] = true
			}
		}
		return out
	}
	meet := func(a, b map[int]bool) bool {
		for m := range a {
			if b[m] {
				return true
			}
		}
		return false
	}
	bodies := append(c.kept(c.cell), c.fit.Fixtures...)
	for _, x := range c.fit.Closets {
		bodies = append(bodies, plan.Fixture{Footprint: &x.Region})
	}
	today, then := g.parts(c.kept(c.cell), c.girth()), g.parts(bodies, c.girth())
	reached := map[int]bool{}
	for i, before := range g.before {
		if len(on(today, before)) == 0 {
			continue
		}
		mine := on(then, before)
		if len(mine) == 0 {
			c.fault("a door is blocked")
		}
		for m := range mine {
			reached[m] = true
		}
		for _, other := range g.before[:i] {
			if meet(on(today, before), on(today, other)) && !meet(mine, on(then, other)) {
				c.fault("no way from door to door")
			}
		}
	}
	if len(reached) == 0 {
		return
	}
	for _, r := range c.fit.Clear {
		var places [][2]int
		box := r.Bounds()
		for k, p := range g.at {
			if box.Holds(p) && r.Contains(p) != geom.Out {
				places = append(places, k)
			}
		}
		if !meet(reached, on(then, places)) {
			c.fault("a clear space is not reached")
		}
	}
}
