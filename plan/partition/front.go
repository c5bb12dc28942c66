package partition

import (
	"context"
	"math"
	"slices"
)

// Corner bounds schemes from the side on which they are worse: no more shared
// elements than Shared, no less of something counted than Count, no further off
// a wanted share than Off.
type Corner struct {
	Shared, Count, Off int
}

// FewestShared as a corner's Shared asks for the scheme with the fewest shared
// elements, and among those for the cheapest.
const FewestShared = -1

// Grid lists the steps of a front: counts from the least asked up, and
// distances from the wanted share. For each of both, shared elements go from the
// fewest that there can be to so many More.
type Grid struct {
	Counts, Offs []int
	More         int
}

// Point is a scheme on the front. Its Corner is what it reaches: the number of
// its shared elements, what it has of what is counted, and the least of the
// grid's distances that it keeps to.
type Point struct {
	Corner
	Money  Money
	Bound  Money // proved: nothing that keeps the corner costs less
	Proved bool  // Money equals Bound
	Of     any   // what the solver said of it
}

// Found is what a solver knows of the best scheme within a corner.
type Found struct {
	// Point is nil where there is none. Its Bound and Proved are of the corner.
	Point *Point
	// None: it is proved that no scheme keeps the corner.
	None bool
}

// FrontSolver finds the cheapest scheme within a corner. known, if not nil, is
// a scheme that keeps the corner: one no better may be given back in its place.
type FrontSolver func(ctx context.Context, within Corner, known *Point) (Found, error)

// Front is a Pareto front with what is proved of it.
type Front struct {
	// Points are not dominated by each other, the cheapest first; of several
	// alike the first found.
	Points []Point
	// Complete: every corner of the grid is settled. No scheme that keeps a
	// corner is then cheaper than the cheapest point that keeps it.
	Complete bool
	// Open are the corners that are not settled.
	Open []Corner
}

// FindFront finds the front of money, shared elements, a count and the distance from
// a share, complete for the grid: corner by corner from the widest in, each for
// the least money (epsilon-constraint method: Haimes, Lasdon, Wismer 1971). A
// corner whose optimum is known from a wider one is not solved again. Where a
// corner has none, nor have those within it.
func FindFront(ctx context.Context, g Grid, solve FrontSolver) (Front, error) {
	f := frontSearch{ctx: ctx, solve: solve, more: g.More}
	offs := slices.Clone(g.Offs)
	slices.Sort(offs)
	slices.Reverse(offs)
	for _, count := range g.Counts {
		some := false
		for _, off := range offs {
			found, err := f.column(count, off)
			if err != nil {
				return Front{}, err
			}
			some = some || found
		}
		if !some && len(f.open) == 0 {
			break
		}
	}
	return f.front(), nil
}

type frontSearch struct {
	ctx    context.Context
	solve  FrontSolver
	more   int
	solved []settled // corners with their optima
	none   []Corner  // corners that no scheme keeps
	points []Point
	open   []Corner
}

// settled is a corner with the scheme that is proved to be its best.
type settled struct {
	at Corner
	is Point
}

// keeps tells whether a scheme keeps a corner.
func (p *Point) keeps(c Corner) bool {
	return (c.Shared == FewestShared || p.Shared <= c.Shared) && p.Count >= c.Count && p.Off <= c.Off
}

// within tells whether what keeps c keeps d.
func (c Corner) within(d Corner) bool {
	return c.Shared <= d.Shared && c.Count >= d.Count && c.Off <= d.Off
}

// column settles the corners of one count and distance.
func (f *frontSearch) column(count, off int) (some bool, err error) {
	fewest, err := f.corner(Corner{FewestShared, count, off})
	if fewest == nil || err != nil {
		return false, err
	}
	for more := 1; more <= f.more; more++ {
		if _, err := f.corner(Corner{fewest.Shared + more, count, off}); err != nil {
			return true, err
		}
	}
	return true, nil
}

// corner settles one corner. It gives its best scheme; nil where there is none.
func (f *frontSearch) corner(c Corner) (*Point, error) {
	for _, n := range f.none {
		if c.within(n) {
			return nil, nil
		}
	}
	for i := range f.solved {
		s := &f.solved[i]
		if (c.Shared == FewestShared) == (s.at.Shared == FewestShared) && c.within(s.at) && s.is.keeps(c) {
			return &s.is, nil
		}
	}
	found, err := f.solve(f.ctx, c, f.known(c))
	if err != nil {
		return nil, err
	}
	if found.None {
		if c.Shared == FewestShared {
			c.Shared = math.MaxInt // nor with more
		}
		f.none = append(f.none, c)
		return nil, nil
	}
	if found.Point == nil || !found.Point.Proved {
		f.open = append(f.open, c)
	}
	if found.Point == nil {
		return nil, nil
	}
	p := *found.Point
	f.points = append(f.points, p)
	if p.Proved {
		f.solved = append(f.solved, settled{c, p})
		if c.Shared == FewestShared {
			f.solved = append(f.solved, settled{Corner{p.Shared, c.Count, c.Off}, p})
		}
	}
	return &p, nil
}

// known gives the best scheme met so far that keeps a corner.
func (f *frontSearch) known(c Corner) *Point {
	var best *Point
	for i := range f.points {
		p := &f.points[i]
		if !p.keeps(c) {
			continue
		}
		if best == nil || p.better(best, c.Shared == FewestShared) {
			best = p
		}
	}
	return best
}

// better tells whether p is the better of two schemes that keep a corner.
func (p *Point) better(q *Point, fewest bool) bool {
	if fewest && p.Shared != q.Shared {
		return p.Shared < q.Shared
	}
	return p.Money < q.Money
}

// front keeps the points that no other dominates.
func (f *frontSearch) front() Front {
	points := slices.Clone(f.points)
	slices.SortStableFunc(points, func(p, q Point) int { return comparePoints(&p, &q) })
	var out []Point
	for i := range points {
		p := &points[i]
		if slices.ContainsFunc(out, func(q Point) bool { return q.Money <= p.Money && q.keeps(p.Corner) }) {
			continue
		}
		out = append(out, *p)
	}
	return Front{Points: out, Complete: len(f.open) == 0, Open: f.open}
}

// comparePoints orders by money, and then so that what dominates comes first.
func comparePoints(p, q *Point) int {
	for _, by := range [][2]int64{
		{int64(p.Money), int64(q.Money)}, {int64(p.Shared), int64(q.Shared)}, {int64(q.Count), int64(p.Count)}, {int64(p.Off), int64(q.Off)},
	} {
		if by[0] != by[1] {
			if by[0] < by[1] {
				return -1
			}
			return 1
		}
	}
	return 0
}
