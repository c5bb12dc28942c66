package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// flightEnd is the foot or the head of a flight.
type flightEnd struct {
	flight int // cell
	head   bool
	level  int
	floor  float64
	tip    geom.Pt      // end of the walk
	edge   geom.Segment // part of the footprint's edge, crossed on the way out; the flight on its left
}

// arrival is where a flight arrives across a gap: its edge, and the cell beyond.
type arrival struct {
	flight, to int
	edge       geom.Segment
	floor      float64
}

// addStairs links each flight at its foot and at its head: through the door
// that stands there, along the edges that coincide with it there, through a
// door beside its last step, or else to the space just beyond.
func (b *builder) addStairs() error {
	stairs := slices.Clone(b.House.Stairs)
	slices.SortFunc(stairs, func(s, t Stair) int { return cmp.Compare(s.ID, t.ID) })
	for i := range stairs {
		s := &stairs[i]
		flight := slices.IndexFunc(b.Cells, func(c Cell) bool { return c.Flight && c.ID == s.ID })
		for _, head := range [...]bool{false, true} {
			end, ok := b.endOf(flight, s, head)
			if !ok || b.doorAcross(end) || b.arrivesOpen(end) || b.doorBeside(end) || b.arrivesBeyond(end) {
				continue
			}
			if b.Cells[flight].Outdoor || b.House.Levels[end.level].Outdoor {
				b.linkStair(end, Outside, []run{end.run()})
				continue
			}
			b.problems.add(nil, s.ID, "the %s of the flight at %s reaches no space on level %q",
				end.name(), b.place(end.tip), b.House.Levels[end.level].ID)
		}
	}
	return nil
}

// endOf finds where the walk leaves the flight: the part of the footprint's
// edge that people walk over. It is the first edge on from the end of the walk
// or, where the walk was drawn past it, back from there.
func (b *builder) endOf(flight int, s *Stair, head bool) (flightEnd, bool) {
	end := flightEnd{flight: flight, head: head, level: s.Level, tip: s.Walk[0]}
	if head {
		end.level, end.tip = s.To, s.Walk[len(s.Walk)-1]
	}
	end.floor = b.House.Levels[end.level].Floor
	edge, exit, ok := exitOf(b.Cells[flight].Region, s, head)
	if !ok {
		b.problems.add(nil, s.ID, "the walk of the flight at %s does not leave its footprint at the %s", b.place(end.tip), end.name())
		return end, false
	}
	at := edge.Along(exit)
	wide := span{0, edge.Length()}
	if s.Width > 0 {
		wide = around(at, s.Width, wide)
	}
	// A flight that turns back on itself has its foot and head side by side.
	if other, away, ok := exitOf(b.Cells[flight].Region, s, !head); ok && other == edge {
		if between := (at + edge.Along(away)) / 2; at < between {
			wide.to = min(wide.to, between)
		} else {
			wide.from = max(wide.from, between)
		}
	}
	if wide.length() > widestEnd {
		wide = around(at, usualEnd, wide)
	}
	end.edge = geom.Segment{A: edge.At(wide.from), B: edge.At(wide.to)}
	return end, true
}

// around gives the stretch of a width around a place, moved as little as
// needed to lie within bounds.
func around(at, width float64, bounds span) span {
	width = min(width, bounds.length())
	from := min(max(at-width/2, bounds.from), bounds.to-width)
	return span{from, from + width}
}

// exitOf finds the edge of the footprint over which a walk leaves it at its
// head or foot, and where.
func exitOf(region geom.Region, s *Stair, head bool) (edge geom.Segment, exit geom.Pt, ok bool) {
	walk := slices.Clone(s.Walk)
	if !head {
		slices.Reverse(walk)
	}
	tip := walk[len(walk)-1]
	walk = slices.DeleteFunc(walk, func(p geom.Pt) bool { return p == tip })
	if len(walk) == 0 {
		return edge, exit, false
	}
	out := along(geom.Segment{A: walk[len(walk)-1], B: tip})
	out.at = tip
	spans := out.cut(region)
	if len(spans) == 0 {
		return edge, exit, false
	}
	slices.SortFunc(spans, func(x, y span) int { return cmp.Compare(x.distance(0), y.distance(0)) })
	exit = out.point(spans[0].to, 0)
	edges := region.Edges()
	slices.SortStableFunc(edges, func(e, f geom.Segment) int { return cmp.Compare(e.DistanceTo(exit), f.DistanceTo(exit)) })
	return edges[0], exit, true
}

// distance is how far v lies from the stretch.
func (s span) distance(v float64) float64 { return max(0, s.from-v, v-s.to) }

func (e flightEnd) name() string {
	if e.head {
		return "head"
	}
	return "foot"
}

// run is the end's edge as a boundary.
func (e flightEnd) run() run {
	return run{line: e.edge, low: e.floor, high: e.floor}
}

// before gives the part of the end's edge before a region that begins some
// way ahead.
func (e flightEnd) before(region geom.Region, ahead float64) []run {
	var out []run
	for _, s := range insideAlong(e.edge, region, ahead+geom.Coincide) {
		r := e.run()
		r.line = geom.Segment{A: e.edge.At(s.from), B: e.edge.At(s.to)}
		out = append(out, r)
	}
	if len(out) == 0 {
		return []run{e.run()}
	}
	return out
}

// doorAcross tells whether a door or cased opening stands across the end: then
// the way on is the door's, and linked already.
func (b *builder) doorAcross(e flightEnd) bool {
	return b.doorAt(e, func(door geom.Segment) bool {
		mid := door.Mid()
		at, off := e.edge.Along(mid), e.edge.Off(mid)
		d, w := along(e.edge), along(door)
		return math.Abs(d.dx*w.dx+d.dy*w.dy) > 0.9 &&
			at > 0 && at < e.edge.Length() && off <= offWall && -off <= thickest+offWall
	})
}

// doorBeside tells whether a door stands beside the last step, as at the head
// of a cellar stair that ends at a wall.
func (b *builder) doorBeside(e flightEnd) bool {
	return b.doorAt(e, func(door geom.Segment) bool { return door.DistanceTo(e.tip) <= besideEnd })
}

// doorAt tells whether one of the flight's doors on the end's level is where asked for.
func (b *builder) doorAt(e flightEnd, where func(geom.Segment) bool) bool {
	return slices.ContainsFunc(b.Links, func(l Link) bool {
		return (l.Kind == LinkDoor || l.Kind == LinkOpening) && (l.U == e.flight || l.V == e.flight) &&
			l.Level == e.level && where(l.Line)
	})
}

// arrivesOpen links the flight with the cells whose edges coincide with its
// end. Where several do, each gets its link, but for those too narrow to pass.
func (b *builder) arrivesOpen(e flightEnd) bool {
	between := map[int][]run{}
	var others []int
	faces := map[int][]int{}
	for i, w := range b.faces {
		if !w.Open || w.B == geom.Exposed {
			continue
		}
		at := centreLine(w)
		other := w.B
		if b.solids[w.B].cell == e.flight {
			other, at.line = w.A, at.line.Reverse()
		} else if b.solids[w.A].cell != e.flight {
			continue
		}
		c := b.solids[other].cell
		if w.Low < e.floor-geom.Coincide || !b.onLevel(c, e.level) || !(run{line: e.edge}).alike(at) {
			continue
		}
		within := span{at.line.Along(e.edge.A), at.line.Along(e.edge.B)}.overlap(span{0, at.line.Length()})
		if within.length() < leastRun {
			continue
		}
		at.line = geom.Segment{A: at.line.At(within.from), B: at.line.At(within.to)}
		if between[c] == nil {
			others = append(others, c)
		}
		between[c] = append(between[c], at)
		faces[c] = append(faces[c], i)
	}
	widest := 0.0
	for _, c := range others {
		widest = max(widest, runsLength(stacked(between[c])))
	}
	for _, c := range others {
		if w := runsLength(stacked(between[c])); !passable(w) && w < widest-1e-3 {
			continue
		}
		b.linkStair(e, c, stacked(between[c]))
		for _, i := range faces[c] {
			b.ends[i] = append(b.ends[i], e.edge)
		}
	}
	return len(others) > 0
}

// arrivesBeyond links the flight with the cell that lies just beyond its end,
// across a gap that no door fills: on the end's level, or outdoors on another
// level at about its height.
func (b *builder) arrivesBeyond(e flightEnd) bool {
	for _, part := range [...]float64{0.5, 0.25, 0.75} {
		r := across(e.edge, part*e.edge.Length()).back()
		for _, tier := range [...]int{onLevel, outdoors} {
			var ahead []stretch
			for _, s := range b.solidsNear(r, stairReach+offWall) {
				solid := &b.solids[s]
				if solid.cell == e.flight || (tier == onLevel) != (solid.level == e.level) {
					continue
				}
				if tier == outdoors && (!b.outdoor(s) || math.Abs(solid.floor-e.floor) > outdoorStep) {
					continue
				}
				for _, c := range r.cut(solid.Base) {
					if c.from <= stairReach && c.to > geom.Coincide {
						ahead = append(ahead, stretch{c, s})
						break
					}
				}
			}
			if found := b.nearestAhead(ahead); found.found() {
				b.linkStair(e, b.solids[found.solid].cell, e.before(b.solids[found.solid].Base, found.at))
				return true
			}
		}
	}
	return false
}

// nearestAhead picks the stretch that begins first, the upper one of two that
// begin alike.
func (b *builder) nearestAhead(ahead []stretch) side {
	best := side{tier: nowhere}
	for _, s := range ahead {
		from := max(s.from, 0)
		if !best.found() || from < best.at-1e-3 || (from < best.at+1e-3 && b.solids[s.solid].floor > b.solids[best.solid].floor+1e-3) {
			best = side{s.solid, onLevel, from}
		}
	}
	return best
}

// linkStair links an end of a flight with a cell, unless that cell is a flight
// whose own end has been linked with this one. It stands as high as the
// room, whatever climbs above the flight.
func (b *builder) linkStair(e flightEnd, to int, runs []run) {
	if to != Outside && b.Cells[to].Flight && slices.ContainsFunc(b.Links, func(l Link) bool {
		return l.Kind == LinkStair && l.U == to && l.V == e.flight && l.Level == e.level
	}) {
		return
	}
	floor := b.House.Grade
	for i := range runs {
		if to != Outside && !b.Cells[to].Outdoor && !b.Cells[to].Flight {
			runs[i].high = max(b.Cells[to].Ceiling, e.floor)
		} else if runs[i].high <= runs[i].low {
			runs[i].high = e.floor + b.House.Levels[e.level].Height
		}
	}
	if to != Outside {
		floor = b.floorAt(to, e.level)
		b.arrivals = append(b.arrivals, arrival{e.flight, to, e.edge, e.floor})
	}
	l := b.boundary(Link{Kind: LinkStair, U: e.flight, V: to, Of: b.Cells[e.flight].ID, Head: e.head, Level: e.level}, runs)
	if to != Outside || b.House.GradeSaid {
		l.Rise = floor - e.floor
	}
	b.link(l)
}

// floorAt is where one stands in a cell on a level: a flight has two floors.
func (b *builder) floorAt(cell, level int) float64 {
	if c := &b.Cells[cell]; c.Flight && level == c.To {
		return b.House.Levels[c.To].Floor
	}
	return b.Cells[cell].Floor
}
