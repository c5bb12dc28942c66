package plan

import "moiety/geom"

// addOpen links the indoor cells that are open to each other: spaces of one
// level whose edges coincide, and flights along their sides.
func (b *builder) addOpen() error {
	between := map[pair][]run{}
	var pairs []pair
	for i, w := range b.faces {
		if !w.Open || w.B == geom.Exposed || b.used[i] {
			continue
		}
		u, v := b.cellsOf(w)
		if u == v {
			continue
		}
		p := pair{u, v}
		if between[p] == nil {
			pairs = append(pairs, p)
		}
		between[p] = append(between[p], centreLine(w))
	}
	for _, p := range pairs {
		for _, runs := range chains(between[p]) {
			b.addBoundary(p, runs)
		}
	}
	return nil
}

// addBoundary links two cells along an open boundary. Beside a flight, and
// where it is too narrow to pass, it is open but no passage.
func (b *builder) addBoundary(p pair, runs []run) {
	kind := LinkOpen
	if b.Cells[p.u].Flight || b.Cells[p.v].Flight || !passable(runsLength(runs)) {
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
