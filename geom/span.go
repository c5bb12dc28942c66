package geom

import (
	"cmp"
	"math"
	"slices"
)

// span is an interval in metres, empty where to is not beyond from.
type span struct{ from, to float64 }

func (s span) length() float64 { return s.to - s.from }

// short tells whether a stretch is a corner bit.
func (s span) short() bool { return s.length() < ShortestWall-settled }

func (s span) mid() float64 { return (s.from + s.to) / 2 }

func (s span) and(t span) span { return span{max(s.from, t.from), min(s.to, t.to)} }

// where returns the part of s in which a + b*x is not negative.
func (s span) where(a, b float64) span {
	switch {
	case b > 0:
		s.from = max(s.from, -a/b)
	case b < 0:
		s.to = min(s.to, -a/b)
	case a < 0:
		s.to = s.from
	}
	return s
}

// less returns what the cuts leave of s, in order.
func (s span) less(cuts []span) []span {
	slices.SortFunc(cuts, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out []span
	for _, c := range cuts {
		if c.from > s.from {
			if left := s.and(span{s.from, c.from}); left.length() > 0 {
				out = append(out, left)
			}
		}
		s.from = max(s.from, c.to)
	}
	if s.length() > 0 {
		out = append(out, s)
	}
	return out
}

// cut is a rectangle of an elevation: along is measured on the edge, band in
// height.
type cut struct{ along, band span }

// patch is a stretch of an edge with the vertical bands that are left of it.
type patch struct {
	along span
	bands []span
}

// settled is the difference under which two ends of a span are one: below it
// lies only rounding to the grid.
const settled = 3.0 / UnitsPerMetre

// patches returns what the cuts leave of an elevation, from left to right;
// neighbours with the same bands are one.
func patches(whole cut, cuts []cut) []patch {
	ends := []float64{whole.along.from, whole.along.to}
	for _, c := range cuts {
		ends = append(ends, c.along.from, c.along.to)
	}
	slices.Sort(ends)
	var out []patch
	from := whole.along.from
	for _, to := range ends {
		if to-from <= settled || to > whole.along.to {
			continue
		}
		p := patch{along: span{from, to}}
		from = to
		var bands []span
		for _, c := range cuts {
			if m := p.along.mid(); c.along.from < m && m < c.along.to {
				bands = append(bands, c.band)
			}
		}
		p.bands = whole.band.less(bands)
		if n := len(out); n > 0 && sameBands(out[n-1].bands, p.bands) {
			out[n-1].along.to = to
			continue
		}
		out = append(out, p)
	}
	return out
}

func sameBands(a, b []span) bool {
	return slices.EqualFunc(a, b, func(s, t span) bool {
		return math.Abs(s.from-t.from) < settled && math.Abs(s.to-t.to) < settled
	})
}
