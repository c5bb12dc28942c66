package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// run is a straight stretch of a boundary between two cells, the first on its left.
type run struct {
	line      geom.Segment
	thickness float64
	low, high float64
}

// longestFirst orders runs so that what is worked out from them does not hang
// on the order in which they were found.
func longestFirst(runs []run) []run {
	runs = slices.Clone(runs)
	slices.SortFunc(runs, func(r, s run) int {
		return cmp.Or(
			cmp.Compare(s.line.Length(), r.line.Length()),
			cmp.Compare(r.low, s.low),
			cmp.Compare(r.line.A.X, s.line.A.X), cmp.Compare(r.line.A.Y, s.line.A.Y),
			cmp.Compare(r.line.B.X, s.line.B.X), cmp.Compare(r.line.B.Y, s.line.B.Y),
		)
	})
	return runs
}

// alike tells whether s runs in the line of r, in the same sense.
func (r run) alike(s run) bool {
	a, b := along(r.line), along(s.line)
	return a.dx*b.dx+a.dy*b.dy > 0 &&
		math.Abs(r.line.Off(s.line.A)) <= inLine && math.Abs(r.line.Off(s.line.B)) <= inLine
}

// sameBand tells whether two runs have the same vertical extent.
func (r run) sameBand(s run) bool {
	return math.Abs(r.low-s.low) <= geom.Coincide && math.Abs(r.high-s.high) <= geom.Coincide
}

// inOneLine groups the runs that lie in one line and have the same vertical
// extent: the wall between two rooms that a third wall meets halfway is one wall.
// Runs of a group that touch are joined; the longest comes first.
func inOneLine(runs []run) [][]run {
	var groups [][]run
next:
	for _, r := range longestFirst(runs) {
		for i, g := range groups {
			if g[0].alike(r) && g[0].sameBand(r) {
				groups[i] = append(g, r)
				continue next
			}
		}
		groups = append(groups, []run{r})
	}
	for i, g := range groups {
		groups[i] = joinRuns(g)
	}
	return slices.DeleteFunc(groups, func(g []run) bool { return len(g) == 0 }) // too short to be a wall
}

// joinRuns joins runs of one line that touch or overlap, the longest first.
func joinRuns(group []run) []run {
	lead := group[0]
	spans := make([]span, len(group))
	for i, r := range group {
		spans[i] = span{lead.line.Along(r.line.A), lead.line.Along(r.line.B)}
	}
	var out []run
	for _, s := range joined(spans, leastRun) {
		if wholeMillimetres(s.length()) < wholeMillimetres(leastRun) {
			continue
		}
		joinedRun := lead
		joinedRun.line = geom.Segment{A: endNear(group, lead.line.At(s.from), false), B: endNear(group, lead.line.At(s.to), true)}
		out = append(out, joinedRun)
	}
	return longestFirst(out)
}

// endNear gives the end of a run that lies at p, so that joined runs keep the
// corners they were found with.
func endNear(group []run, p geom.Pt, last bool) geom.Pt {
	for _, r := range group {
		end := r.line.A
		if last {
			end = r.line.B
		}
		if end.Distance(p) <= inLine {
			return end
		}
	}
	return p
}

// stacked joins runs in the same place that stand on each other: beside a
// flight that ends halfway up a room, its side and its void are one boundary.
func stacked(runs []run) []run {
	var out []run
next:
	for _, r := range longestFirst(runs) {
		for i, s := range out {
			if s.line.A.Distance(r.line.A) <= inLine && s.line.B.Distance(r.line.B) <= inLine &&
				r.low <= s.high+geom.Coincide && r.high >= s.low-geom.Coincide {
				out[i].low, out[i].high = min(s.low, r.low), max(s.high, r.high)
				continue next
			}
		}
		out = append(out, r)
	}
	return out
}

// chains groups the runs that hang together end to end: the open side of a
// room that turns a corner is one boundary. In a chain, runs in one line are
// joined, and the longest comes first.
func chains(runs []run) [][]run {
	runs = stacked(runs)
	of := make([]int, len(runs))
	for i := range of {
		of[i] = i
	}
	find := func(i int) int {
		for of[i] != i {
			i = of[i]
		}
		return i
	}
	for i, r := range runs {
		for j, s := range runs[:i] {
			if touching(r.line, s.line) {
				lo, hi := min(find(i), find(j)), max(find(i), find(j))
				of[hi] = lo
			}
		}
	}
	members := make([][]run, len(runs))
	for i, r := range runs {
		members[find(i)] = append(members[find(i)], r)
	}
	var out [][]run
	for _, m := range members {
		var chain []run
		for _, g := range inOneLine(m) {
			chain = append(chain, g...)
		}
		if len(chain) > 0 {
			out = append(out, longestFirst(chain))
		}
	}
	return out
}

// touching tells whether an end of one segment lies at an end of the other.
func touching(s, t geom.Segment) bool {
	for _, p := range [...]geom.Pt{s.A, s.B} {
		if p.Distance(t.A) <= inLine || p.Distance(t.B) <= inLine {
			return true
		}
	}
	return false
}
