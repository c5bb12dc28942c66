package geom

import (
	"cmp"
	"slices"
)

// Prism is a region with a vertical extent, in metres above the datum.
// Prisms of one Layer are surveyed together: coinciding edges within a layer
// are open to each other, and a layer has an outline of its own.
type Prism struct {
	Base       Region
	Low, High  float64
	Layer      int
	Unenclosed bool // outdoors: it has edges, but no walls of its own
}

// Exposed stands for the far side of a wall that faces nothing.
const Exposed = -1

// Wall is a straight stretch between an edge of prism A and the edge of prism
// B that it faces (A < B, or A == B for a stub within one prism), or of an
// edge of A that faces nothing (B == Exposed).
//
// FaceA runs along A's edge with A on its left; FaceB is the same stretch
// projected on B's edge, in the same sense. For an exposed wall FaceB lies
// Thickness outside FaceA.
type Wall struct {
	A, B         int
	FaceA, FaceB Segment
	Thickness    float64 // metres, 0 for coinciding edges
	Low, High    float64 // vertical extent that both sides share
	Open         bool    // coinciding edges of one layer: no wall stands there
}

// CentreLine returns the line halfway between the faces, in their sense.
func (w Wall) CentreLine() Segment {
	return Segment{Segment{w.FaceA.A, w.FaceB.A}.Mid(), Segment{w.FaceA.B, w.FaceB.B}.Mid()}
}

// Walls recovers the walls from the edges of prisms that face each other.
//
// Two edges face each other where they run against each other within
// FacingAngle, each outside the other's prism, with a gap of at most
// ThickestWall and nothing between them, and their prisms share a height of
// at least LowestWall. Along each stretch and height the nearest edge counts,
// so an edge may have several walls side by side, and one above the other.
// Edges that coincide (Coincide) are Open to each other within a layer and
// have a wall of thickness 0 between layers. The thickness is the gap in the
// middle of the stretch.
//
// An Unenclosed prism has no ceiling: an indoor edge that faces it has a wall
// over the whole height of the indoor prism (of two Unenclosed prisms, to the
// one whose Low is nearer its own), and between two Unenclosed prisms heights
// do not matter.
//
// A stretch of an enclosed prism that faces nothing over a height of at least
// LowestExposed is an Exposed wall of the given thickness in metres. Stretches
// under ShortestWall, and those that look into the end of another wall, are
// corner bits and dropped.
//
// Neighbouring stretches on one line with the same sides are merged. The walls
// are sorted by place, so that the order of prisms decides nothing but their
// numbers. Time grows with the number of edges times the number of edges near each.
func Walls(prisms []Prism, exposed float64) []Wall {
	f := newFacing(prisms, ThickestWall)
	sights, ends := f.sights()
	var out []Wall
	for _, s := range sights {
		out = append(out, f.wall(s))
	}
	out = append(out, f.exposed(sights, ends, exposed)...)
	out = slices.DeleteFunc(merged(out), func(w Wall) bool { return span{0, w.FaceA.Length()}.short() })
	slices.SortFunc(out, compareWalls)
	return out
}

// wall makes a wall of a sight.
func (f *facing) wall(s sight) Wall {
	a, b := f.faces[s.a].prism, f.faces[s.b].prism
	w := Wall{
		A: a, B: b,
		FaceA: s.on(s.near, s.along), FaceB: s.on(s.far, s.along),
		Thickness: s.thickness(),
		Low:       s.band.from, High: s.band.to,
	}
	if w.Thickness <= Coincide {
		w.Thickness = 0
		w.Open = f.prisms[a].Layer == f.prisms[b].Layer
	}
	if a > b || (a == b && compareSegments(w.FaceB.Reverse(), w.FaceA) < 0) {
		w.A, w.B = w.B, w.A
		w.FaceA, w.FaceB = w.FaceB.Reverse(), w.FaceA.Reverse()
	}
	return w
}

// exposed returns the walls along what no sight covers of the enclosed prisms.
func (f *facing) exposed(sights []sight, ends *caps, thickness float64) []Wall {
	seen := make([][]cut, len(f.faces))
	note := func(face int, stretch Segment, band span) {
		if l, ok := frameOf(f.faces[face].Segment).line(stretch); ok {
			seen[face] = append(seen[face], cut{l.span, band})
		}
	}
	for _, s := range sights {
		note(s.a, s.on(s.near, s.along), s.band)
		note(s.b, s.on(s.far, s.along), s.band)
	}
	var out []Wall
	for i, e := range f.faces {
		p := f.prisms[e.prism]
		if p.Unenclosed {
			continue
		}
		own := frameOf(e.Segment)
		l, ok := own.line(e.Segment)
		if !ok {
			continue
		}
		cuts := append(seen[i], ends.infront(own, l, f.reach(e.Segment))...)
		for _, left := range patches(cut{l.span, span{p.Low, p.High}}, cuts) {
			for _, band := range left.bands {
				if band.length() >= LowestExposed-settled {
					out = append(out, Wall{
						A: e.prism, B: Exposed,
						FaceA:     own.on(l, left.along),
						FaceB:     Segment{own.place(left.along.from, thickness), own.place(left.along.to, thickness)},
						Thickness: thickness,
						Low:       band.from, High: band.to,
					})
				}
			}
		}
	}
	return out
}

// merged joins walls that continue each other.
func merged(walls []Wall) []Wall {
	slices.SortStableFunc(walls, func(a, b Wall) int {
		return cmp.Or(cmp.Compare(a.A, b.A), cmp.Compare(a.B, b.B))
	})
	var out []Wall
	for from := 0; from < len(walls); {
		to := from
		for to < len(walls) && walls[to].A == walls[from].A && walls[to].B == walls[from].B {
			to++
		}
		out = append(out, joined(walls[from:to])...)
		from = to
	}
	return out
}

// joined joins walls of one pair of prisms until none continues another.
func joined(walls []Wall) []Wall {
	for i := 0; i < len(walls); i++ {
		for j := 0; j < len(walls); {
			if i != j && continues(walls[i], walls[j]) {
				walls[i].FaceA.B, walls[i].FaceB.B = walls[j].FaceA.B, walls[j].FaceB.B
				walls = slices.Delete(walls, j, j+1)
				if j < i {
					i--
				}
				j = 0
				continue
			}
			j++
		}
	}
	return walls
}

// continues tells whether b is the prolongation of a.
func continues(a, b Wall) bool {
	return a.Open == b.Open &&
		abs(a.FaceA.B.X-b.FaceA.A.X) <= joint && abs(a.FaceA.B.Y-b.FaceA.A.Y) <= joint &&
		near(a.Thickness, b.Thickness, sliver) && near(a.Low, b.Low, sliver) && near(a.High, b.High, sliver) &&
		prolongs(a.FaceA, b.FaceA) && prolongs(a.FaceB, b.FaceB)
}

// joint is how far apart, in grid units, the ends of two stretches of one line
// may be after rounding.
const joint = 4

func near(a, b, within float64) bool { return a-b <= within && b-a <= within }

// prolongs tells whether t goes on from s in a straight line.
func prolongs(s, t Segment) bool {
	whole := Segment{s.A, t.B}
	return near(whole.Off(s.B), 0, sliver) && near(whole.Off(t.A), 0, sliver) &&
		s.B.Distance(t.A) <= sliver && whole.Length() >= max(s.Length(), t.Length())
}

func compareSegments(s, t Segment) int {
	return cmp.Or(comparePts(s.A, t.A), comparePts(s.B, t.B))
}

// compareWalls orders walls by the corners of what they occupy, then by height;
// prism numbers decide only between walls in the same place.
func compareWalls(a, b Wall) int {
	return cmp.Or(
		compareRings(a.place(), b.place()),
		cmp.Compare(a.Low, b.Low),
		cmp.Compare(a.High, b.High),
		cmp.Compare(a.A, b.A),
		cmp.Compare(a.B, b.B),
	)
}

// place lists the corners of a wall, whichever side is A.
func (w Wall) place() Ring {
	corners := Ring{w.FaceA.A, w.FaceA.B, w.FaceB.A, w.FaceB.B}
	slices.SortFunc(corners, comparePts)
	return corners
}
