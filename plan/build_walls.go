package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// findWalls recovers the walls between indoor cells, and those that face
// nothing, from the faces of their solids.
func (b *builder) findWalls() error {
	var prisms []geom.Prism
	var of []int
	for i, s := range b.solids {
		if !b.outdoor(i) && s.High > s.Low {
			prisms = append(prisms, s.Prism)
			of = append(of, i)
		}
	}
	for _, w := range geom.Walls(prisms, usualExterior) {
		same := w.B != geom.Exposed && of[w.A] != of[w.B] && b.solids[of[w.A]].cell == b.solids[of[w.B]].cell
		if same {
			continue // within one flight
		}
		w.A = of[w.A]
		if w.B != geom.Exposed {
			w.B = of[w.B]
			w.Open = w.Open || w.Thickness == 0 && b.shareLevel(w.A, w.B)
		}
		b.faces = append(b.faces, w)
	}
	for i := range b.faces {
		b.encloseVoid(&b.faces[i])
	}
	return nil
}

// shareLevel tells whether two solids belong to cells of one level; a flight
// is on two, and its void goes on above its foot.
func (b *builder) shareLevel(s, t int) bool {
	c := &b.Cells[b.solids[t].cell]
	return b.onLevel(b.solids[s].cell, c.Level) || b.onLevel(b.solids[s].cell, c.To)
}

// gallery has the uses of a space that may end over a flight in a railing.
var gallery = map[Use]bool{Entry: true, Hall: true, Living: true, Family: true, Dining: true, Unfinished: true}

// encloseVoid gives a room that was surveyed over the low end of a flight its
// wall to the void: its edge there is cut out of the footprint, so that the
// two coincide, but a bedroom does not end in a stairwell. The wall is as
// thick as the one that the room has farther along the same line; where there
// is none, a hall is taken to be open to the void, and any other room to have
// a usual partition.
func (b *builder) encloseVoid(w *geom.Wall) {
	if !w.Open || w.B == geom.Exposed || b.solids[w.A].void == b.solids[w.B].void {
		return
	}
	room, void := w.A, w.B
	edge := w.FaceA
	if b.solids[room].void {
		room, void = w.B, w.A
		edge = w.FaceB.Reverse()
	}
	flight := &b.Cells[b.solids[void].cell]
	if flight.Region.Contains(edge.Mid()) != geom.Inside || flight.Region.DistanceToBorder(edge.Mid()) <= geom.Coincide {
		return
	}
	thickness := b.thicknessInLine(room, edge)
	if thickness == 0 && (b.solids[room].flight || gallery[b.Cells[b.solids[room].cell].Use]) {
		return
	}
	if thickness == 0 {
		thickness = usualPartition
	}
	w.Open, w.Thickness = false, thickness
	length := edge.Length()
	moved := geom.Segment{A: edge.Beside(0, -thickness), B: edge.Beside(length, -thickness)}
	if room == w.A {
		w.FaceB = moved
	} else {
		w.FaceA = moved.Reverse()
	}
	b.voidWalls = append(b.voidWalls, voidWall{void, geom.Region{Outer: geom.Ring{edge.A, moved.A, moved.B, edge.B}}})
}

// voidWall is the place of a wall that stands within a void.
type voidWall struct {
	void int
	base geom.Region
}

// thicknessInLine gives the thickness of the walls that a solid has in the
// line of one of its edges, the least where there are several; 0 where it has none.
func (b *builder) thicknessInLine(s int, edge geom.Segment) float64 {
	least := 0.0
	for _, w := range b.faces {
		if w.Open || w.B == geom.Exposed || w.Thickness < leastRun {
			continue
		}
		line := w.FaceA
		if w.B == s {
			line = w.FaceB.Reverse()
		} else if w.A != s {
			continue
		}
		if (run{line: edge}).alike(run{line: line}) && (least == 0 || w.Thickness < least) {
			least = w.Thickness
		}
	}
	return least
}

// cellsOf gives the cells on either side of a face; Outside for Exposed.
func (b *builder) cellsOf(w geom.Wall) (u, v int) {
	u, v = b.solids[w.A].cell, Outside
	if w.B != geom.Exposed {
		v = b.solids[w.B].cell
	}
	return u, v
}

// centreLine is the run of a wall along its middle, A on its left.
func centreLine(w geom.Wall) run {
	return run{line: w.CentreLine(), thickness: w.Thickness, low: w.Low, high: w.High}
}

// pair is two cells, or a cell and Outside.
type pair struct {
	u, v  int
	above bool // on different levels, one seen from the other
}

// addWalls links the indoor cells that a wall parts, one link to each line of
// wall, and lists the walls for drawing.
func (b *builder) addWalls() error {
	between := map[pair][]run{}
	var pairs []pair
	for _, w := range b.faces {
		u, v := b.cellsOf(w)
		if w.B == geom.Exposed {
			w = withThickness(w, b.ExteriorThickness)
		}
		drawn := w
		drawn.A, drawn.B = u, v
		b.Walls = append(b.Walls, drawn)
		if w.Open || w.Thickness == 0 || v == Outside || u == v || b.atArrival(w) {
			continue
		}
		p := pair{u: u, v: v}
		if between[p] == nil {
			pairs = append(pairs, p)
		}
		between[p] = append(between[p], centreLine(w))
	}
	for _, p := range pairs {
		for _, runs := range inOneLine(stacked(between[p])) {
			b.link(b.boundary(b.between(LinkWall, p, runs[0]), runs))
		}
	}
	return nil
}

// levelOf is the level on which a boundary is drawn: that of the cell whose
// floor it rises from; a flight has two.
func (b *builder) levelOf(p pair, r run) int {
	best, level := math.Inf(1), b.Cells[p.u].Level
	for _, s := range b.solids {
		if s.cell != p.u && s.cell != p.v {
			continue
		}
		d := math.Abs(s.Low-r.low) + 0.001*math.Abs(s.High-r.high)
		if d < best-1e-6 {
			best, level = d, s.level
		}
	}
	return level
}

// atArrival tells whether a wall stands across the arrival of a flight that
// was found beyond it: there is none, people walk through.
func (b *builder) atArrival(w geom.Wall) bool {
	u, v := b.cellsOf(w)
	return slices.ContainsFunc(b.arrivals, func(a arrival) bool {
		if (a.flight != u || a.to != v) && (a.flight != v || a.to != u) {
			return false
		}
		mid := centreLine(w).line.Mid()
		at, off := a.edge.Along(mid), a.edge.Off(mid)
		return math.Abs(off) <= stairReach && at > 0 && at < a.edge.Length() &&
			w.Low < a.floor+doorShare && w.High > a.floor
	})
}
