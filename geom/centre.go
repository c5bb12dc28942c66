package geom

import (
	"container/heap"
	"math"
)

// VisualCentre returns a place for a label: of all points whose distance to
// the border is within centreShare of the greatest, the one nearest the
// centroid, to a precision of centreStep; and its distance to the border in
// metres. Where the centroid itself has that clearance it is the answer, so a
// rectangle is labelled in its middle. The zero Region gives the origin and 0.
//
// The greatest clearance is the pole of inaccessibility (Garcia-Castellanos
// and Lombardo 2007, "Poles of inaccessibility", Scottish Geographical Journal
// 123), found by halving squares, the most promising first, as in Agafonkin
// 2016, "A new algorithm for finding a visual center of a polygon". The second
// search, towards the centroid, halves squares in the same way.
func VisualCentre(r Region) (at Pt, clearance float64) {
	if len(r.Outer) < 3 {
		return Pt{}, 0
	}
	x, y := r.Centroid()
	centroid := FromMetres(x, y)
	pole, best := clearest(r, centroid)
	if best <= 0 { // a sliver thinner than the precision
		return r.Outer[0], 0
	}
	at = nearestClear(r, centroid, pole, best*centreShare)
	return at, clearanceAt(r, at)
}

// clearanceAt is the distance to the border, negative outside.
func clearanceAt(r Region, p Pt) float64 {
	d := r.DistanceToBorder(p)
	if r.Contains(p) == Out {
		return -d
	}
	return d
}

// square is a part of the plane that is still being searched.
type square struct {
	mid       Pt
	half      int64 // half of the side in grid units
	clearance float64
	rank      float64 // the least first
}

// reach is the distance from the middle to a corner in metres.
func (s square) reach() float64 { return Metres(s.half) * math.Sqrt2 }

type squares []square

func (q squares) Len() int { return len(q) }
func (q squares) Less(i, j int) bool {
	if q[i].rank != q[j].rank {
		return q[i].rank < q[j].rank
	}
	return q[i].mid.Less(q[j].mid)
}
func (q squares) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *squares) Push(v any)   { *q = append(*q, v.(square)) }
func (q *squares) Pop() any {
	old := *q
	v := old[len(old)-1]
	*q = old[:len(old)-1]
	return v
}

// search takes squares by rank, starting from a cover of the region, and
// halves those that visit says. keep ranks a square, or drops it.
func search(r Region, keep func(*square) bool, visit func(square) (halve, stop bool)) {
	box := r.Bounds()
	half := max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)/2 + 1
	var q squares
	push := func(mid Pt, half int64) {
		s := square{mid: mid, half: half, clearance: clearanceAt(r, mid)}
		if keep(&s) {
			heap.Push(&q, s)
		}
	}
	push(box.Centre(), half)
	for q.Len() > 0 {
		s := heap.Pop(&q).(square)
		halve, stop := visit(s)
		if stop {
			return
		}
		if !halve {
			continue
		}
		h := (s.half + 1) / 2
		for _, d := range [...]Pt{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
			push(s.mid.Add(d), h)
		}
	}
}

// clearest returns the point with the greatest clearance, to centreStep.
func clearest(r Region, centroid Pt) (Pt, float64) {
	pole, best := centroid, max(0, clearanceAt(r, centroid))
	search(r,
		func(s *square) bool {
			if s.clearance > best {
				pole, best = s.mid, s.clearance
			}
			s.rank = -(s.clearance + s.reach())
			return -s.rank > best+centreStep
		},
		func(s square) (halve, stop bool) {
			return -s.rank > best+centreStep, -s.rank <= best+centreStep
		})
	return pole, best
}

// nearestClear returns the point nearest the centroid with at least the given
// clearance, to centreStep; pole is one that has it.
func nearestClear(r Region, centroid, pole Pt, clearance float64) Pt {
	if clearanceAt(r, centroid) >= clearance {
		return centroid
	}
	finest := Units(centreStep) / 8
	best, found := pole.Distance(centroid), pole
	search(r,
		func(s *square) bool {
			if d := s.mid.Distance(centroid); s.clearance >= clearance && (d < best || (d == best && s.mid.Less(found))) {
				best, found = d, s.mid
			}
			s.rank = max(0, s.mid.Distance(centroid)-s.reach())
			return s.clearance+s.reach() >= clearance && s.rank < best-centreStep
		},
		func(s square) (halve, stop bool) {
			return s.half > finest, s.rank >= best-centreStep
		})
	return found
}
