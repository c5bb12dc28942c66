package plan

import (
	"math"

	"moiety/geom"
)

// addOutdoors links outdoor spaces along the boundary that people walk across:
// coinciding edges on one level, with the gaps that pacing leaves; and between
// levels a few steps apart, a porch or deck and the ground that it stands on
// or beside. A gate says that the straight run it stands in is fenced.
func (b *builder) addOutdoors() error {
	var cells []int
	for i := range b.Cells {
		if c := &b.Cells[i]; c.Outdoor && !c.Flight {
			cells = append(cells, i)
		}
	}
	for n, u := range cells {
		for _, v := range cells[n+1:] {
			if b.Cells[u].Region.Bounds().Grow(geom.Units(outdoorGap)).Meets(b.Cells[v].Region.Bounds()) {
				b.addGround(u, v)
			}
		}
	}
	return nil
}

func (b *builder) addGround(u, v int) {
	from, to := &b.Cells[u], &b.Cells[v]
	// The boundary is the edge of the upper one, where people step down.
	swapped := to.Floor > from.Floor+geom.Coincide
	if swapped {
		from, to = to, from
	}
	runs := b.groundRuns(from, to)
	if len(runs) == 0 && from.Level != to.Level {
		swapped = !swapped
		runs = b.groundRuns(to, from)
	}
	if swapped {
		for i := range runs {
			runs[i].line = runs[i].line.Reverse()
		}
	}
	for _, chain := range chains(b.withoutGates(pair{u: u, v: v}, runs)) {
		if !passable(runsLength(chain)) {
			continue
		}
		if step := math.Abs(from.Floor - to.Floor); step > outdoorStep {
			if from.Level == to.Level {
				b.warn(from.ID, "%s lies %.2f m above %s with no steps surveyed: they are not taken to be joined", from.ID, step, to.ID)
			}
			return
		}
		b.link(b.boundary(Link{
			Kind: LinkOpen, U: u, V: v, Level: b.Cells[u].Level, Rise: b.Cells[v].Floor - b.Cells[u].Floor,
		}, chain))
	}
}

// groundRuns gives the stretches of one outdoor space's edge beyond which the other lies.
func (b *builder) groundRuns(from, to *Cell) []run {
	var exact, loose []run
	for _, e := range from.Region.Edges() {
		length := e.Length()
		facing := facingAlong(e, to.Region)
		if from.Level != to.Level {
			facing = append(facing, insideAlong(e, to.Region, geom.Coincide+0.002)...)
		}
		house := b.houseAlong(e, from)
		exact = appendRuns(exact, e, without(facing, house), from.Floor)
		loose = appendRuns(loose, e, without(clip(insideAlong(e, to.Region, outdoorGap), length), house), from.Floor)
	}
	if len(exact) > 0 {
		return exact
	}
	return loose // edges that were paced out of parallel
}

func appendRuns(runs []run, e geom.Segment, spans []span, floor float64) []run {
	for _, s := range clip(spans, e.Length()) {
		if wholeMillimetres(s.length()) >= wholeMillimetres(leastRun) {
			runs = append(runs, run{line: geom.Segment{A: e.At(s.from), B: e.At(s.to)}, low: floor, high: floor})
		}
	}
	return runs
}

// clip keeps the parts of spans that lie within an edge of the given length.
func clip(spans []span, length float64) []span {
	var out []span
	for _, s := range spans {
		if s = s.overlap(span{0, length}); s.to > s.from {
			out = append(out, s)
		}
	}
	return joined(out, 0)
}

// facingAlong gives the stretches of an edge that edges of a region on its
// right run along, in the opposite sense, no farther away than outdoorGap.
func facingAlong(e geom.Segment, region geom.Region) []span {
	d, length := along(e), e.Length()
	box := e.Bounds().Grow(geom.Units(outdoorGap))
	var out []span
	for _, f := range region.Edges() {
		if !f.Bounds().Meets(box) {
			continue
		}
		if g := along(f); d.dx*g.dx+d.dy*g.dy > -0.99 {
			continue
		}
		s := span{e.Along(f.B), e.Along(f.A)}.overlap(span{0, length})
		if s.length() < leastRun {
			continue
		}
		if off := math.Abs(e.Off(f.Nearest(e.At((s.from + s.to) / 2)))); off <= outdoorGap+geom.Coincide/2 {
			out = append(out, s)
		}
	}
	return out
}

// insideAlong gives the stretches of an edge that lie in a region when the
// edge is moved out by a distance.
func insideAlong(e geom.Segment, region geom.Region, out float64) []span {
	return clip(along(e).beside(-out).cut(region), e.Length())
}

// houseAlong gives the stretches of an outdoor space's edge that run along
// the house: a wall stands there, nobody walks across.
func (b *builder) houseAlong(e geom.Segment, c *Cell) []span {
	d, length := along(e), e.Length()
	reach := b.ExteriorThickness + outdoorGap
	var out []span
	for _, s := range b.index.Near(e.Bounds().Grow(geom.Units(reach))) {
		solid := &b.solids[s]
		if b.outdoor(s) || solid.High < c.Floor+doorShare || solid.Low > c.Floor+usualDoor {
			continue
		}
		for _, f := range solid.Base.Edges() {
			g := along(f)
			if math.Abs(d.dx*g.dx+d.dy*g.dy) < 0.99 || d.dx*g.dx+d.dy*g.dy > 0 {
				continue
			}
			p := span{e.Along(f.B), e.Along(f.A)}
			// The house reaches out by the thickness of its wall at the corners.
			p = span{p.from - b.ExteriorThickness, p.to + b.ExteriorThickness}.overlap(span{0, length})
			if p.length() <= 0 {
				continue
			}
			if off := -e.Off(f.Mid()); off >= -outdoorGap && off <= reach {
				out = append(out, p)
			}
		}
	}
	return out
}

// withoutGates leaves out the runs in which a gate between the two cells stands.
func (b *builder) withoutGates(p pair, runs []run) []run {
	var out []run
	for _, r := range runs {
		fenced := false
		for _, l := range b.Links {
			if (l.Kind == LinkDoor || l.Kind == LinkOpening) && l.U == p.u && l.V == p.v && r.line.DistanceTo(l.Line.Mid()) <= offWall+outdoorGap {
				fenced = true
			}
		}
		if !fenced {
			out = append(out, r)
		}
	}
	return out
}
