package plan

import (
	"math"

	"moiety/geom"
)

// addOpen links the indoor cells that are open to each other: spaces of one
// level whose edges coincide, flights along their sides, and a gallery with
// the hall that it overlooks, whose edges coincide on different levels.
func (b *builder) addOpen() error {
	between := map[pair][]run{}
	var pairs []pair
	for i, w := range b.faces {
		u, v := b.cellsOf(w)
		if w.B == geom.Exposed || u == v || !(w.Open || w.Thickness == 0) {
			continue
		}
		p := pair{u: u, v: v}
		if !w.Open { // between levels: seen across, not walked across
			p.above = true
		}
		for _, r := range besideEnds(centreLine(w), append(b.arrivalsAt(p), b.ends[i]...)) {
			if between[p] == nil {
				pairs = append(pairs, p)
			}
			between[p] = append(between[p], r)
		}
	}
	for _, p := range pairs {
		for _, runs := range chains(between[p]) {
			b.addBoundary(p, runs)
		}
	}
	return nil
}

// arrivalsAt gives the edges over which other flights arrive in one of two
// cells: below the high end of a flight it is the one beneath that opens there.
func (b *builder) arrivalsAt(p pair) []geom.Segment {
	var out []geom.Segment
	for _, a := range b.arrivals {
		if a.flight != p.u && a.flight != p.v && (a.to == p.u || a.to == p.v) && (b.Cells[p.u].Flight || b.Cells[p.v].Flight) {
			out = append(out, a.edge)
		}
	}
	return out
}

// besideEnds gives what is left of a run beside the ends of flights that lie on it.
func besideEnds(r run, ends []geom.Segment) []run {
	var cuts []span
	for _, e := range ends {
		if math.Abs(r.line.Off(e.A)) > inLine || math.Abs(r.line.Off(e.B)) > inLine {
			continue
		}
		a, b := r.line.Along(e.A), r.line.Along(e.B)
		cuts = append(cuts, span{min(a, b), max(a, b)})
	}
	var out []run
	for _, s := range without([]span{{0, r.line.Length()}}, cuts) {
		if s.length() >= leastRun {
			left := r
			left.line = geom.Segment{A: r.line.At(s.from), B: r.line.At(s.to)}
			out = append(out, left)
		}
	}
	return out
}

// addBoundary links two cells along an open boundary. Beside a flight, between
// levels, and where it is too narrow to pass, it is open but no passage.
func (b *builder) addBoundary(p pair, runs []run) {
	kind := LinkOpen
	if p.above || b.Cells[p.u].Flight || b.Cells[p.v].Flight || !passable(runsLength(runs)) {
		kind = LinkSide
	}
	if kind == LinkSide && b.Cells[p.v].Flight && !b.Cells[p.u].Flight {
		p.u, p.v = p.v, p.u
		for i := range runs {
			runs[i].line = runs[i].line.Reverse()
		}
	}
	b.link(b.boundary(b.between(kind, p, runs[0]), runs))
}

// between starts a link of two cells along a run.
func (b *builder) between(kind LinkKind, p pair, r run) Link {
	level := b.levelOf(p, r)
	return Link{
		Kind: kind, U: p.u, V: p.v, Level: level,
		Rise: b.floorAt(p.v, level) - b.floorAt(p.u, level),
	}
}

// passable tells whether an opening of a width lets a person through. Widths
// that differ only by the rounding of a turned house are judged alike.
func passable(width float64) bool { return wholeMillimetres(width) >= wholeMillimetres(leastPassage) }

func runsLength(runs []run) float64 {
	sum := 0.0
	for _, r := range runs {
		sum += r.line.Length()
	}
	return sum
}
