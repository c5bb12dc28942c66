package plan

import (
	"fmt"
	"math"

	"moiety/geom"
	"moiety/plan/rules"
)

// checkParking puts stalls of the size asked into what a unit parks on.
func checkParking(c *checking) {
	width, okWidth := c.set.Get("stall-width")
	length, okLength := c.set.Get("stall-length")
	for _, u := range bothUnits {
		fits := 0
		for _, cell := range c.s.Units[u].Cells {
			claimed := c.b.stalls(cell)
			if claimed == 0 || !okWidth || !okLength {
				continue
			}
			n := stallsIn(c.b.Cells[cell].Region, width.Value(), length.Value(), claimed)
			fits += n
			c.judged("stall-width", n > 0, fmt.Sprintf("%s of %s by %s", counted(float64(n), "stall"), width.Limit, length.Limit), about{
				unit: u.String(), subject: c.b.Cells[cell].ID, note: stallNote(n, claimed, length),
				cure: "widen or lengthen it, or park elsewhere",
			})
		}
		if _, ok := c.set.Get("stalls-per-unit"); ok && c.b.outdoorsSurveyed() {
			if !okWidth || !okLength {
				fits = c.s.Units[u].Parking
			}
			c.measured("stalls-per-unit", float64(fits), about{unit: u.String(), subject: u.String(), cure: "a stall more on the lot"})
		}
	}
	if _, ok := c.set.Get("stalls-per-unit"); ok && !c.b.outdoorsSurveyed() {
		c.unknown("stalls-per-unit", "", about{note: "nothing outdoors was surveyed"})
	}
}

func stallNote(n, claimed int, length rules.Figure) string {
	note := fmt.Sprintf("square to its longest side, %s long", length.Limit)
	if n < claimed {
		note = joinNotes(note, fmt.Sprintf("by area alone it would park %d", claimed))
	}
	return note
}

// stallsIn is how many stalls of a size lie side by side or end to end in a
// region, square to its longest side, most at most. It tries a place at every
// corner and beside every stall placed; a region of an odd shape may hold more.
func stallsIn(r geom.Region, width, length float64, most int) int {
	var base geom.Segment
	for _, e := range r.Outer.Edges() {
		if e.Length() > base.Length() {
			base = e
		}
	}
	best := 0
	for _, size := range [...][2]float64{{width, length}, {length, width}} {
		best = max(best, stallsAt(r, base, size[0], size[1], most))
	}
	return best
}

// stallsAt puts rectangles of one orientation, one after the other.
func stallsAt(r geom.Region, base geom.Segment, along, off float64, most int) int {
	var xs, ys []float64
	for _, p := range r.Outer {
		xs = append(xs, base.Along(p), base.Along(p)-along)
		ys = append(ys, base.Off(p), base.Off(p)-off)
	}
	var taken [][2]float64
	for len(taken) < most {
		at, ok := stallPlace(r, base, along, off, xs, ys, taken)
		if !ok {
			break
		}
		taken = append(taken, at)
		xs = append(xs, at[0]+along, at[0]-along)
		ys = append(ys, at[1]+off, at[1]-off)
	}
	return len(taken)
}

// stallPlace finds a place for one rectangle clear of those taken.
func stallPlace(r geom.Region, base geom.Segment, along, off float64, xs, ys []float64, taken [][2]float64) (at [2]float64, ok bool) {
	for _, y := range ys {
	next:
		for _, x := range xs {
			for _, t := range taken {
				if math.Abs(t[0]-x) < along-rules.LengthTolerance && math.Abs(t[1]-y) < off-rules.LengthTolerance {
					continue next
				}
			}
			// A hair smaller, so that it may touch what is around it.
			const hair = rules.LengthTolerance
			ring := geom.Ring{
				base.Beside(x+hair, y+hair), base.Beside(x+along-hair, y+hair),
				base.Beside(x+along-hair, y+off-hair), base.Beside(x+hair, y+off-hair),
			}
			if within(r, geom.Region{Outer: ring}) {
				return [2]float64{x, y}, true
			}
		}
	}
	return at, false
}

// within tells whether a small region lies in a larger one: no corner outside,
// no side crossed.
func within(r, small geom.Region) bool {
	for _, p := range small.Outer {
		if r.Contains(p) == geom.Out {
			return false
		}
	}
	for _, e := range r.Edges() {
		if small.Contains(e.A) == geom.Inside || small.Contains(e.Mid()) == geom.Inside {
			return false
		}
		for _, s := range small.Outer.Edges() {
			if geom.Meet(e, s) == geom.Crossed {
				return false
			}
		}
	}
	return true
}
