package render

import (
	"container/heap"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// The grid on which the way from the street to an entry is looked for.
const (
	wayStep  = 0.25  // metres between its points; wider on a large site
	wayMost  = 40000 // points at most
	yardCost = 2.5   // a metre over grass against one over paving

	wallRoom  = 0.45 // metres that people keep from walls and borders where they can
	alongWall = 1.6  // a metre closer than that against one in the open
)

// drawWays draws how each entry is reached from the public way over ground
// that the unit may use. Where no such way is found none is drawn.
func (s *site) drawWays(p *plot) {
	for i := range s.entries {
		for _, unit := range s.entries[i].entry {
			way := s.way(&s.entries[i], string(unit))
			if len(way) < 2 {
				continue
			}
			points := make([]Point, len(way))
			for j, q := range way {
				points[j] = p.view.Paper(q)
			}
			p.sheet.stroke(layerSign, line(medium).dashedBy(dashDotted), polyline(points...))
			for j := 0; j+1 < len(points); j++ {
				p.taken = append(p.taken, hindrance(points[j], points[j+1]).wider(0.6))
			}
			const end = 0.9 // millimetres: the circle at the entry or the street
			c := points[len(points)-1]
			p.sheet.both(layerSign, white, line(medium), circle(c, end))
			ends := Rect{c.X, c.Y, c.X, c.Y}.grown(end).corners()
			p.taken = append(p.taken, obstacle(ends[:]))
			p.legend.add(entryWalk)
			p.legend.note(noteWalk)
		}
	}
}

// ground is the outdoor cells that a unit may walk on, with a cost per metre.
type ground struct {
	b       *plan.Building
	cells   []int
	boxes   []geom.Box
	cost    []float64
	barrier []geom.Segment
}

// at is the cell under a point: its place in the list, or -1.
func (g *ground) at(q geom.Pt) int {
	for i, c := range g.cells {
		if g.boxes[i].Holds(q) && g.b.Cells[c].Region.Contains(q) != geom.Out {
			return i
		}
	}
	return -1
}

// walkable is the ground that a unit may use: its own, what both share, and
// the public way.
func (s *site) walkable(unit string) *ground {
	g := &ground{b: s.b}
	for _, r := range s.rooms {
		c := &s.b.Cells[r.cell]
		if !c.Public && r.owner != plan.Common && r.owner.String() != unit {
			continue
		}
		g.cells = append(g.cells, r.cell)
		g.boxes = append(g.boxes, c.Region.Bounds())
		cost := 1.0
		if c.Use == plan.Yard {
			cost = yardCost
		}
		g.cost = append(g.cost, cost)
	}
	for _, w := range s.s.Walls {
		if w.Fence && w.State != plan.Removed {
			g.barrier = append(g.barrier, w.Line)
		}
	}
	return g
}

// costAt is what a metre costs at a point: more along walls and borders,
// which people keep clear of; false where the unit may not walk.
func (g *ground) costAt(q geom.Pt) (float64, bool) {
	i := g.at(q)
	if i < 0 {
		return 0, false
	}
	cost := g.cost[i]
	off := geom.Units(wallRoom)
	for _, d := range [4]geom.Pt{{X: off}, {X: -off}, {Y: off}, {Y: -off}} {
		if g.at(q.Add(d)) < 0 {
			return cost * alongWall, true
		}
	}
	return cost, true
}

// free tells whether one can walk straight from a to b, and what it costs.
func (g *ground) free(a, b geom.Pt) (float64, bool) {
	for _, w := range g.barrier {
		if geom.Meet(geom.Segment{A: a, B: b}, w) != geom.Apart {
			return 0, false
		}
	}
	l := geom.Segment{A: a, B: b}
	long := l.Length()
	n := max(1, int(math.Ceil(long/wayStep)))
	sum := 0.0
	for k := 0; k <= n; k++ {
		c, ok := g.costAt(l.At(long * float64(k) / float64(n)))
		if !ok {
			return 0, false
		}
		if k == 0 || k == n {
			c /= 2
		}
		sum += c * long / float64(n)
	}
	return sum, true
}

// way finds the cheapest way from an entry to the public way, and pulls it
// straight where that costs no more. It runs from the door.
func (s *site) way(d *door, unit string) []geom.Pt {
	g := s.walkable(unit)
	out := 1.0
	if c := d.sides[0]; c >= 0 && !s.b.Cells[c].Outdoor {
		out = -1
	}
	const before = 0.45 // metres before the door
	start := d.at.line.Beside(d.at.line.Length()/2, out*(d.at.thickness/2+before))
	if g.at(start) < 0 {
		return nil
	}
	path := g.search(start, s.extent)
	if path == nil {
		return nil
	}
	// Pulled straight: from each point to the farthest that is reached as cheaply.
	costs := make([]float64, len(path))
	for i := 1; i < len(path); i++ {
		c, _ := g.free(path[i-1], path[i])
		costs[i] = costs[i-1] + c
	}
	pulled := []geom.Pt{path[0]}
	for i := 0; i+1 < len(path); {
		next := i + 1
		for j := len(path) - 1; j > i+1; j-- {
			if c, ok := g.free(path[i], path[j]); ok && c <= (costs[j]-costs[i])*1.001 {
				next = j
				break
			}
		}
		pulled = append(pulled, path[next])
		i = next
	}
	return pulled
}

// search is Dijkstra's algorithm over a grid through the start, to the first
// point on the public way.
func (g *ground) search(start geom.Pt, within geom.Box) []geom.Pt {
	w, h := within.Size()
	step := max(wayStep, math.Sqrt(w*h/wayMost))
	unit := geom.Units(step)
	type node struct{ x, y int64 }
	at := func(n node) geom.Pt { return start.Add(geom.Pt{X: n.x * unit, Y: n.y * unit}) }
	found := map[node]float64{{}: 0}
	from := map[node]node{}
	done := map[node]bool{}
	under := map[node]int{}
	cellUnder := func(n node) int {
		c, ok := under[n]
		if !ok {
			c = -1
			if within.Holds(at(n)) {
				c = g.at(at(n))
			}
			under[n] = c
		}
		return c
	}
	queue := &wayQueue[node]{less: func(a, b node) bool { return a.x < b.x || a.x == b.x && a.y < b.y }}
	heap.Push(queue, wayItem[node]{node{}, 0})
	for queue.Len() > 0 {
		n := heap.Pop(queue).(wayItem[node]).node
		if done[n] {
			continue
		}
		done[n] = true
		if g.b.Cells[g.cells[cellUnder(n)]].Public {
			path := []geom.Pt{at(n)}
			for n != (node{}) {
				n = from[n]
				path = append(path, at(n))
			}
			slices.Reverse(path)
			return path
		}
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				m := node{n.x + dx, n.y + dy}
				if (dx == 0 && dy == 0) || done[m] || cellUnder(m) < 0 {
					continue
				}
				c, ok := g.free(at(n), at(m))
				if !ok {
					continue
				}
				c += found[n]
				if old, seen := found[m]; !seen || c < old-1e-9 {
					found[m], from[m] = c, n
					heap.Push(queue, wayItem[node]{m, c})
				}
			}
		}
	}
	return nil
}

type wayItem[N comparable] struct {
	node N
	cost float64
}

// wayQueue gives the cheapest first, ties in a fixed order.
type wayQueue[N comparable] struct {
	items []wayItem[N]
	less  func(a, b N) bool
}

func (q *wayQueue[N]) Len() int { return len(q.items) }
func (q *wayQueue[N]) Less(i, j int) bool {
	a, b := q.items[i], q.items[j]
	if a.cost != b.cost {
		return a.cost < b.cost
	}
	return q.less(a.node, b.node)
}
func (q *wayQueue[N]) Swap(i, j int) { q.items[i], q.items[j] = q.items[j], q.items[i] }
func (q *wayQueue[N]) Push(v any)    { q.items = append(q.items, v.(wayItem[N])) }
func (q *wayQueue[N]) Pop() any {
	last := q.items[len(q.items)-1]
	q.items = q.items[:len(q.items)-1]
	return last
}
