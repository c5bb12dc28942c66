package geom

import (
	"container/heap"
	"math"
	"slices"
	"sync"
)

// Walkway is a floor on which shortest ways are looked for, by somebody whose
// middle keeps half a body's width from every wall.
//
// A shortest way among walls bends only around corners that jut into the
// floor (Lozano-Pérez and Wesley 1979, "An algorithm for planning
// collision-free paths among polyhedral obstacles", CACM 22). At a distance
// from the walls it follows an arc around such a corner; the arc is walked
// along tangents of it, arcStep apart, which makes a way longer by less than 2
// % of the arc and never nearer to a wall. Making one takes time in the square
// of the number of such corners times the number of walls.
type Walkway struct {
	region Region
	half   float64
	walls  []Segment
	bends  []Pt
	near   [][]hop // from each bend to those that it sees
	// pole is the place farthest from the walls, and how far it is from them.
	pole func() (Pt, float64)
}

// hop is a straight stretch to another place, with its length in metres.
type hop struct {
	to     int
	length float64
}

const (
	// arcStep is the angle, in radians, between two tangents along which an arc
	// around a corner is walked: 22.5 degrees.
	arcStep = math.Pi / 8

	// walkSlack is how much nearer than half its width a way may come to a wall:
	// five grid units, for what rounding moves its bends.
	walkSlack = 0.00005
)

// NewWalkway prepares a floor for somebody twice half metres wide; half 0 walks
// along the very walls, and then ways are exact. Holes are what stands in the
// way. The region must be sound and wound.
func NewWalkway(r Region, half float64) *Walkway {
	w := &Walkway{region: r, half: max(0, half), walls: r.Edges()}
	w.pole = sync.OnceValues(func() (Pt, float64) {
		x, y := r.Centroid()
		return clearest(r, FromMetres(x, y))
	})
	for _, ring := range r.Rings() {
		n := len(ring)
		for i, at := range ring {
			before, after := ring[(i+n-1)%n], ring[(i+1)%n]
			if Orient(before, at, after) < 0 {
				w.addBends(before, at, after)
			}
		}
	}
	slices.SortFunc(w.bends, comparePts)
	w.bends = slices.Compact(w.bends)
	w.near = make([][]hop, len(w.bends))
	for i, p := range w.bends {
		for j, q := range w.bends[:i] {
			if w.straight(p, q) {
				d := p.Distance(q)
				w.near[i] = append(w.near[i], hop{j, d})
				w.near[j] = append(w.near[j], hop{i, d})
			}
		}
	}
	return w
}

// addBends adds the places at which a way bends around a corner that juts in.
func (w *Walkway) addBends(before, at, after Pt) {
	if w.half == 0 {
		w.bends = append(w.bends, at)
		return
	}
	// The arc runs between the perpendiculars to the two sides, on their left.
	first := math.Atan2(float64(at.Y-before.Y), float64(at.X-before.X)) + math.Pi/2
	turn := math.Mod(first-math.Pi/2-math.Atan2(float64(after.Y-at.Y), float64(after.X-at.X))+4*math.Pi, 2*math.Pi)
	steps := int(math.Ceil(turn/arcStep - 1e-9))
	step := turn / float64(steps)
	radius := w.half / math.Cos(step/2)
	for k := range steps {
		angle := first - (float64(k)+0.5)*step
		p := at.Add(FromMetres(radius*math.Cos(angle), radius*math.Sin(angle)))
		if w.holds(p) {
			w.bends = append(w.bends, p)
		}
	}
}

// holds tells whether somebody can stand at p.
func (w *Walkway) holds(p Pt) bool {
	at := w.region.Contains(p)
	if w.half == 0 {
		return at != Out
	}
	return at == Inside && w.region.DistanceToBorder(p) >= w.half-walkSlack
}

// straight tells whether one walks straight from p to q, at both of which one can stand.
func (w *Walkway) straight(p, q Pt) bool {
	if w.half == 0 {
		return w.region.sees(p, q)
	}
	line := Segment{p, q}
	box := line.Bounds().Grow(Units(w.half))
	for _, wall := range w.walls {
		if box.Meets(wall.Bounds()) && apartBy(line, wall) < w.half-walkSlack {
			return false
		}
	}
	return true
}

// apartBy is the distance between two segments in metres.
func apartBy(s, t Segment) float64 {
	if Meet(s, t) != Apart {
		return 0
	}
	return closest(s, t).Length()
}

// closest is the shortest line from s to t, which do not cross; of equally
// short ones any. Its ends are rounded to the grid.
func closest(s, t Segment) Segment {
	best := Segment{s.A, t.Nearest(s.A)}
	for _, c := range [...]Segment{{s.B, t.Nearest(s.B)}, {s.Nearest(t.A), t.A}, {s.Nearest(t.B), t.B}} {
		if c.Length() < best.Length() {
			best = c
		}
	}
	return best
}

// StandAt gives the place nearest to p at which somebody can stand, to half a
// centimetre; ok is false where there is none on the whole floor.
func (w *Walkway) StandAt(p Pt) (at Pt, ok bool) {
	if w.holds(p) {
		return p, true
	}
	pole, room := w.pole()
	if room < w.half-walkSlack {
		return p, false
	}
	return nearestClear(w.region, p, pole, max(w.half, walkSlack)), true
}

// Way gives the shortest way between two places, with its bends, and its
// length in metres. Where somebody cannot stand at an end, as at a door in a
// wall, the way begins straight from there to the nearest place where they can.
// ok is false where there is no way.
func (w *Walkway) Way(from, to Pt) (way []Pt, length float64, ok bool) {
	ways := w.Ways(from, []Pt{to})
	return ways[0].Points, ways[0].Length, ways[0].Points != nil
}

// Way is a way with its length in metres; Points is nil where there is none.
type Way struct {
	Points []Pt
	Length float64
}

// Ways gives the shortest way to each of several places.
func (w *Walkway) Ways(from Pt, to []Pt) []Way {
	out := make([]Way, len(to))
	start, ok := w.StandAt(from)
	if !ok {
		return out
	}
	reached, last := w.spread(start)
	for i, p := range to {
		end, _ := w.StandAt(p)
		best, via := math.Inf(1), -1
		if w.straight(start, end) {
			best = start.Distance(end)
		} else {
			for k, q := range w.bends {
				if d := reached[k] + q.Distance(end); d < best && w.straight(q, end) {
					best, via = d, k
				}
			}
		}
		if math.IsInf(best, 1) {
			continue
		}
		points := []Pt{p, end}
		for k := via; k >= 0; k = last[k] {
			points = append(points, w.bends[k])
		}
		points = slices.Compact(append(points, start, from))
		slices.Reverse(points)
		out[i] = Way{points, best + from.Distance(start) + end.Distance(p)}
	}
	return out
}

// spread gives the length of the shortest way from start to every bend, and
// the bend before it (Dijkstra 1959).
func (w *Walkway) spread(start Pt) (length []float64, last []int) {
	length, last = make([]float64, len(w.bends)), make([]int, len(w.bends))
	var q frontier
	for k, p := range w.bends {
		length[k], last[k] = math.Inf(1), -1
		if w.straight(start, p) {
			length[k] = start.Distance(p)
			q = append(q, hop{k, length[k]})
		}
	}
	heap.Init(&q)
	for q.Len() > 0 {
		at := heap.Pop(&q).(hop)
		if at.length > length[at.to] {
			continue
		}
		for _, h := range w.near[at.to] {
			if d := at.length + h.length; d < length[h.to] {
				length[h.to], last[h.to] = d, at.to
				heap.Push(&q, hop{h.to, d})
			}
		}
	}
	return length, last
}

// frontier is what Dijkstra's method has reached, the nearest first.
type frontier []hop

func (f frontier) Len() int { return len(f) }
func (f frontier) Less(i, j int) bool {
	return f[i].length < f[j].length || f[i].length == f[j].length && f[i].to < f[j].to
}
func (f frontier) Swap(i, j int) { f[i], f[j] = f[j], f[i] }
func (f *frontier) Push(v any)   { *f = append(*f, v.(hop)) }
func (f *frontier) Pop() any {
	old := *f
	v := old[len(old)-1]
	*f = old[:len(old)-1]
	return v
}
