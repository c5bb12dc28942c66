package render

import (
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// side is one of the four sides of a plan on the sheet.
type side int

const (
	below side = iota
	leftOf
	above
	rightOf
)

var sides = [4]side{below, leftOf, above, rightOf}

// across gives a point in the terms of a side: how far along it, and how far
// out towards it. Both in the unit of the point.
func (s side) across(p Point) (along, out float64) {
	switch s {
	case below:
		return p.X, -p.Y
	case above:
		return p.X, p.Y
	case leftOf:
		return p.Y, -p.X
	}
	return p.Y, p.X
}

// point is the inverse of across.
func (s side) point(along, out float64) Point {
	switch s {
	case below:
		return Point{along, -out}
	case above:
		return Point{along, out}
	case leftOf:
		return Point{-out, along}
	}
	return Point{out, along}
}

// level tells whether the dimension lines of a side lie level.
func (s side) level() bool { return s == below || s == above }

// chain is one dimension line of a side: the places, in metres along it,
// between which lengths are given. A length that is given elsewhere is left out.
type chain struct {
	stops []float64
	given []bool // per length between stops
}

// front is the part of the outline that is seen from a side between two
// places along it.
type front struct {
	from, to, outFrom, outTo float64
	flat                     bool // square to the view
}

// turnedPoint is a point of the house, turned as on the sheet, in metres.
func (f *floor) turnedPoint(p geom.Pt) Point {
	x, y := p.Metres()
	return Point{x, y}.turned(f.turn)
}

// stopGap is the least distance in metres between two stops: what lies closer
// is one corner.
const stopGap = geom.Coincide

// fronts gives the outline as it is seen from a side, in order along it.
func (f *floor) fronts(s side) []front {
	type edge struct{ a0, o0, a1, o1 float64 }
	var edges []edge
	var at []float64
	for _, e := range f.outline.Edges() {
		a0, o0 := s.across(f.turnedPoint(e.A))
		a1, o1 := s.across(f.turnedPoint(e.B))
		if a1 < a0 {
			a0, o0, a1, o1 = a1, o1, a0, o0
		}
		if a1-a0 < stopGap {
			continue
		}
		edges = append(edges, edge{a0, o0, a1, o1})
		at = append(at, a0, a1)
	}
	at = merged(at)
	var out []front
	last := -1
	for i := 0; i+1 < len(at); i++ {
		mid := (at[i] + at[i+1]) / 2
		best, most := -1, math.Inf(-1)
		for j, e := range edges {
			if e.a0 <= mid && mid <= e.a1 {
				if o := e.o0 + (e.o1-e.o0)*(mid-e.a0)/(e.a1-e.a0); o > most {
					best, most = j, o
				}
			}
		}
		if best < 0 {
			last = -1
			continue
		}
		e := edges[best]
		outAt := func(a float64) float64 { return e.o0 + (e.o1-e.o0)*(a-e.a0)/(e.a1-e.a0) }
		if best == last {
			out[len(out)-1].to, out[len(out)-1].outTo = at[i+1], outAt(at[i+1])
			continue
		}
		last = best
		out = append(out, front{at[i], at[i+1], outAt(at[i]), outAt(at[i+1]), math.Abs(e.o1-e.o0) < 0.02*(e.a1-e.a0)})
	}
	return withoutCracks(out)
}

// crack is the width in metres of a gap in a straight face that no builder
// would dimension.
const crack = 0.06

// withoutCracks makes one front of two that lie in one line beside a crack.
func withoutCracks(fronts []front) []front {
	var out []front
	for i := 0; i < len(fronts); i++ {
		f := fronts[i]
		for j := i + 1; f.flat && j < len(fronts) && fronts[j].from-f.to < crack; j++ {
			if g := fronts[j]; g.flat && math.Abs(g.outFrom-f.outTo) < stopGap {
				f.to, f.outTo = g.to, g.outTo
				i = j
			}
		}
		out = append(out, f)
	}
	return out
}

// merged sorts places and makes one of those that lie closer than stopGap.
func merged(v []float64) []float64 {
	slices.Sort(v)
	var out []float64
	for _, x := range v {
		if len(out) == 0 || x-out[len(out)-1] >= stopGap {
			out = append(out, x)
		}
	}
	return out
}

// chains gives the dimension lines of a side from the house outwards: the
// openings, the rooms behind the face with the walls between them, and the whole.
// Only of the first kind are the stops that are jambs told apart: an opening
// is measured on its own side.
func (f *floor) chains(s side) (lines [][]float64, jambs []float64) {
	fronts := f.fronts(s)
	if len(fronts) == 0 {
		return nil, nil
	}
	first, last := fronts[0].from, fronts[len(fronts)-1].to
	corners := []float64{first, last}
	for _, r := range fronts {
		corners = append(corners, r.from, r.to)
	}
	opening := func(at placed) {
		a0, o0 := s.across(f.turnedPoint(at.line.A))
		a1, o1 := s.across(f.turnedPoint(at.line.B))
		if math.Abs(o1-o0) > 0.02*math.Abs(a1-a0) {
			return
		}
		if f.atFront(fronts, (a0+a1)/2, (o0+o1)/2) {
			jambs = append(jambs, a0, a1)
		}
	}
	for _, d := range f.doors {
		if d.at.exterior && d.mine && d.state != plan.Sealed {
			opening(d.at)
		}
	}
	for _, w := range f.windows {
		if w.mine && w.state != plan.Removed {
			opening(w.at)
		}
	}
	faces := []float64{first, last}
	for _, r := range f.rooms {
		c := &f.b.Cells[r.cell]
		if c.Outdoor || !r.mine {
			continue
		}
		f.facesAt(s, fronts, c.Region, &faces)
	}
	for _, l := range f.flights {
		if !l.mine {
			continue
		}
		f.facesAt(s, fronts, l.stair.Region, &faces)
	}
	return [][]float64{merged(append(corners, jambs...)), merged(faces), {first, last}}, jambs
}

// atFront tells whether a place lies in the exterior wall seen from a side.
func (f *floor) atFront(fronts []front, along, out float64) bool {
	for _, r := range fronts {
		if r.flat && along > r.from && along < r.to && r.outFrom-out < geom.ThickestWall+0.1 && r.outFrom-out > -0.1 {
			return true
		}
	}
	return false
}

// facesAt adds the ends of the edges with which a room lies behind a front.
func (f *floor) facesAt(s side, fronts []front, r geom.Region, to *[]float64) {
	for _, e := range r.Edges() {
		a0, o0 := s.across(f.turnedPoint(e.A))
		a1, o1 := s.across(f.turnedPoint(e.B))
		if math.Abs(o1-o0) > 0.02*math.Abs(a1-a0) || math.Abs(a1-a0) < stopGap {
			continue
		}
		if f.atFront(fronts, (a0+a1)/2, (o0+o1)/2) {
			*to = append(*to, a0, a1)
		}
	}
}

func isStop(stops []float64, at float64) bool {
	return slices.ContainsFunc(stops, func(v float64) bool { return math.Abs(v-at) < stopGap })
}

// allChains gives the dimension lines of all four sides. A length between the
// same two places is given once on a plan: on the first side that has it.
func (f *floor) allChains() [4][]chain {
	type given struct {
		level    bool
		from, to int64
	}
	done := map[given]bool{}
	key := func(s side, a, b float64) given {
		const perMetre = 200 // 5 mm: the same face, whichever side it was seen from
		return given{s.level(), int64(math.Round(a * perMetre)), int64(math.Round(b * perMetre))}
	}
	var out [4][]chain
	for _, s := range sides {
		lines, jambs := f.chains(s)
		// The whole is decided first: it must not be lost to a line that
		// happens to have no stops in between.
		order := []int{2, 0, 1}
		made := make([]chain, len(lines))
		for _, i := range order {
			if i >= len(lines) {
				continue
			}
			c := chain{stops: lines[i], given: make([]bool, max(0, len(lines[i])-1))}
			for j := range c.given {
				k := key(s, c.stops[j], c.stops[j+1])
				opening := i == 0 && (isStop(jambs, c.stops[j]) || isStop(jambs, c.stops[j+1]))
				c.given[j] = opening || !done[k]
				done[k] = true
			}
			made[i] = c
		}
		for _, c := range made {
			if slices.Contains(c.given, true) {
				out[s] = append(out[s], c)
			}
		}
	}
	return out
}
