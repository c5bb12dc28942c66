package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// addExteriors links each indoor cell with what lies beyond its walls that
// face nothing: an outdoor space, or the outside. A wall that looks on two
// outdoor spaces gives two links; a shaft that nobody surveyed gives none.
func (b *builder) addExteriors() error {
	between := map[pair][]run{}
	var pairs []pair
	for _, w := range b.faces {
		if w.B != geom.Exposed {
			continue
		}
		u, _ := b.cellsOf(w)
		for _, r := range b.exteriorRuns(w) {
			if r.beyond == inShaft {
				continue
			}
			p := pair{u: u, v: r.beyond}
			if between[p] == nil {
				pairs = append(pairs, p)
			}
			between[p] = append(between[p], r.run)
		}
	}
	ground, known := b.grade()
	for _, p := range pairs {
		for _, runs := range inOneLine(between[p]) {
			l := Link{Kind: LinkExterior, U: p.u, V: p.v, Level: b.levelOf(pair{u: p.u, v: p.u}, runs[0])}
			floor := b.floorAt(p.u, l.Level)
			switch {
			case p.v != Outside:
				l.Rise = b.Cells[p.v].Floor - floor
			case known:
				l.Rise = ground - floor
			}
			// One link to each run: an entry needs a wall without a break.
			for _, r := range runs {
				b.link(b.boundary(l, []run{r}))
			}
		}
	}
	return nil
}

// inShaft stands for a hole in the outline that nobody surveyed.
const inShaft = -2

// exteriorRun is a stretch of exterior wall that looks on one thing.
type exteriorRun struct {
	run
	beyond int // cell, Outside or inShaft
}

// exteriorRuns parts an exposed face where what lies beyond it changes.
func (b *builder) exteriorRuns(w geom.Wall) []exteriorRun {
	length, half := w.FaceA.Length(), b.ExteriorThickness/2
	if length < leastRun {
		return nil
	}
	cuts := append(b.breaksAlong(w.FaceA), length)
	slices.Sort(cuts)
	var out []exteriorRun
	from := 0.0
	for _, to := range cuts {
		if to-from < settled {
			continue
		}
		beyond := b.beyond(w, (from+to)/2)
		if n := len(out); n > 0 && out[n-1].beyond == beyond {
			out[n-1].line.B = w.FaceA.Beside(to, -half)
		} else {
			out = append(out, exteriorRun{
				run{geom.Segment{A: w.FaceA.Beside(from, -half), B: w.FaceA.Beside(to, -half)}, b.ExteriorThickness, w.Low, w.High},
				beyond,
			})
		}
		from = to
	}
	return out
}

// breaksAlong gives the places along a face where an outdoor space may begin
// or end beyond it: corners of outdoor spaces in front of it, and where their
// sides cross the line of its outer face or the limit of reach.
func (b *builder) breaksAlong(face geom.Segment) []float64 {
	length, reach := face.Length(), b.ExteriorThickness+outdoorReach
	box := face.Bounds().Grow(geom.Units(reach))
	outer := geom.Segment{A: face.Beside(0, -b.ExteriorThickness-geom.Coincide), B: face.Beside(length, -b.ExteriorThickness-geom.Coincide)}
	limit := geom.Segment{A: face.Beside(0, -reach), B: face.Beside(length, -reach)}
	var out []float64
	add := func(at float64) {
		if at > 0 && at < length {
			out = append(out, at)
		}
	}
	for _, s := range b.index.Near(box) {
		if !b.outdoor(s) {
			continue
		}
		for _, e := range b.solids[s].Base.Edges() {
			if !e.Bounds().Meets(box) {
				continue
			}
			if off := -face.Off(e.A); off >= -geom.Coincide && off <= reach {
				add(face.Along(e.A))
			}
			for _, line := range [...]geom.Segment{outer, limit} {
				if m := geom.Meet(line, e); m == geom.Crossed || m == geom.Touching {
					if p, ok := geom.CrossingPoint(line, e); ok {
						add(face.Along(p))
					}
				}
			}
		}
	}
	return out
}

// beyond tells what lies beyond an exposed face at a distance along it.
func (b *builder) beyond(w geom.Wall, at float64) int {
	r := across(w.FaceA, at).back()
	if b.enclosed(w, r.point(b.ExteriorThickness+2*geom.Coincide, 0)) {
		return inShaft
	}
	var out []int
	for _, s := range b.solidsNear(r, b.ExteriorThickness+outdoorReach) {
		if b.outdoor(s) {
			out = append(out, s)
		}
	}
	inside := side{solid: w.A, tier: onLevel}
	found := b.outdoorBeyond(opening{sill: b.solids[w.A].floor}, r, out, inside)
	if !found.found() {
		return Outside
	}
	return b.solids[found.solid].cell
}

// enclosed tells whether a point just beyond an exposed face lies within the
// house at that height: in the thickness of another wall, or in a hole of the
// outline too small for a court.
func (b *builder) enclosed(w geom.Wall, p geom.Pt) bool {
	for _, l := range b.levelsBeside(w) {
		for _, r := range b.Levels[l].Outline {
			if !r.Bounds().Holds(p) {
				continue
			}
			if r.Contains(p) == geom.Inside && r.DistanceToBorder(p) > geom.Coincide {
				return true
			}
			for _, h := range r.Holes {
				if (geom.Region{Outer: h.Reverse()}).Contains(p) == geom.Inside && math.Abs(h.AreaM2()) < shaft {
					return true
				}
			}
		}
	}
	return false
}

// levelsBeside gives the levels with rooms at the height of a wall.
func (b *builder) levelsBeside(w geom.Wall) []int {
	var out []int
	for i, l := range b.House.Levels {
		if i == b.solids[w.A].level || (!l.Outdoor && l.Floor <= w.Low+geom.Coincide && l.Floor+l.Height >= w.High-geom.Coincide) {
			out = append(out, i)
		}
	}
	return out
}
