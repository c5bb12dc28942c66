package plan

import (
	"math"
	"slices"
	"sync"

	"moiety/geom"
)

// halfBody is half the width that a person takes up on the way.
const halfBody = leastWay / 2

// walks is where the people of one unit walk: floors of cells that are open to
// each other, joined by doors, cased openings and flights.
type walks struct {
	s      *Scheme
	b      *Building
	unit   Owner
	floors []walkFloor
	floor  []int // per cell: its floor, -1 where the unit does not go
	gates  []gate
	ends   [][]int                  // per floor: its gates
	joined map[string]*geom.Walkway // several floors with the gates between them
}

// walkFloor is a floor without doors in it, or a flight.
type walkFloor struct {
	cells  []int
	flight int                // cell; -1 none
	clear  func() geom.Region // without the fixtures that stand on it
	ways   []func() *geom.Walkway
	done   []*geom.Walkway
	known  map[[2]geom.Pt]geom.Way
}

// gate joins two floors; far is -1 where it leads to where nothing was surveyed.
type gate struct {
	of     string
	door   *Door        // nil where there is none
	line   geom.Segment // the near floor on its left
	near   int
	far    int
	level  int
	head   [2]bool    // of the near and of the far floor, where a flight: at its head
	steps  [2]geom.Pt // the place just inside on the near side, on the far side
	thick  float64
	out    bool // from indoors to outdoors
	entry  bool // an entry door of the unit
	public bool // on to the public way
	cells  [2]int
}

// newWalks gathers where the people of a unit walk: its own cells, common
// ones, and the public way.
func newWalks(s *Scheme, unit Owner) *walks {
	w := &walks{s: s, b: s.Building, unit: unit, floor: make([]int, len(s.Building.Cells)), joined: map[string]*geom.Walkway{}}
	w.gatherFloors()
	for i := range w.b.Links {
		l := &w.b.Links[i]
		if !l.Passage() || s.parted(*l) == partedUnits || !w.goes(l.U) || l.V != Outside && !w.goes(l.V) {
			continue
		}
		if l.V != Outside && w.floor[l.U] == w.floor[l.V] {
			continue
		}
		w.addGate(l.Of, s.door(l.Of), *l, l.Line, l.Thickness)
	}
	for i := range s.Passages {
		p := &s.Passages[i]
		if p.State != New || p.Of != "" && w.b.House.door(p.Of) != nil {
			continue // a door in the place of another is a gate already
		}
		for _, l := range w.b.Links {
			if between(w.b, l) == p.Between && (l.Kind == LinkWall || l.Kind == LinkExterior) && w.goes(l.U) && (l.V == Outside || w.goes(l.V)) &&
				l.Line.DistanceTo(p.Line.Mid()) <= l.Thickness+offWall+runsReach(l) {
				w.addGate(p.Of, p.Door, l, p.Line, l.Thickness)
				break
			}
		}
	}
	w.ends = make([][]int, len(w.floors))
	for g := range w.gates {
		w.ends[w.gates[g].near] = append(w.ends[w.gates[g].near], g)
		if far := w.gates[g].far; far >= 0 {
			w.ends[far] = append(w.ends[far], g)
		}
	}
	return w
}

// door is a door as the scheme has it, else as surveyed; nil where there is none.
func (s *Scheme) door(id string) *Door {
	for i := range s.Passages {
		if p := &s.Passages[i]; p.Of == id && id != "" && p.Door != nil {
			return p.Door
		}
	}
	return s.Building.House.door(id)
}

// runsReach is how far the runs of a boundary may lie from its longest.
func runsReach(l Link) float64 {
	reach := 0.0
	for _, r := range l.Runs {
		reach = max(reach, l.Line.DistanceTo(r.A), l.Line.DistanceTo(r.B))
	}
	return reach
}

// between names the two sides of a link.
func between(b *Building, l Link) [2]string {
	if l.V == Outside {
		return [2]string{b.Cells[l.U].ID, "outside"}
	}
	return [2]string{b.Cells[l.U].ID, b.Cells[l.V].ID}
}

// goes tells whether the unit's people go into a cell.
func (w *walks) goes(c int) bool {
	return w.s.Owners[c] == w.unit || w.s.Owners[c] == Common || w.b.Cells[c].Public
}

// gatherFloors joins cells that are open to each other: indoors those of one
// owner, outdoors all that the unit may walk on.
func (w *walks) gatherFloors() {
	for c := range w.floor {
		w.floor[c] = -1
	}
	near := make([][]int, len(w.b.Cells))
	for _, l := range w.b.Links {
		if l.Kind != LinkOpen || l.V == Outside || !w.goes(l.U) || !w.goes(l.V) || w.b.Cells[l.U].Public || w.b.Cells[l.V].Public {
			continue
		}
		ground := w.b.Cells[l.U].Outdoor && w.b.Cells[l.V].Outdoor
		if ground || w.s.Owners[l.U] == w.s.Owners[l.V] && w.b.Cells[l.U].Outdoor == w.b.Cells[l.V].Outdoor {
			near[l.U] = append(near[l.U], l.V)
			near[l.V] = append(near[l.V], l.U)
		}
	}
	seen := make([]bool, len(w.b.Cells))
	for c := range w.b.Cells {
		if seen[c] || !w.goes(c) {
			continue
		}
		cells, queue := []int{}, []int{c}
		seen[c] = true
		for len(queue) > 0 {
			at := queue[0]
			queue = queue[1:]
			cells = append(cells, at)
			w.floor[at] = len(w.floors)
			for _, n := range near[at] {
				if !seen[n] {
					seen[n] = true
					queue = append(queue, n)
				}
			}
		}
		slices.Sort(cells)
		f := walkFloor{cells: cells, flight: -1, known: map[[2]geom.Pt]geom.Way{}}
		if w.b.Cells[c].Flight {
			f.flight = c
		} else {
			f.clear, f.ways = w.waysOver(cells)
			f.done = make([]*geom.Walkway, len(f.ways))
		}
		w.floors = append(w.floors, f)
	}
}

// region is the floor of cells that are open to each other, in one piece
// across what their edges differ by.
func (w *walks) region(cells []int) geom.Region {
	if len(cells) == 1 {
		return w.b.Cells[cells[0]].Region
	}
	var parts []geom.Shape
	for _, c := range cells {
		parts = append(parts, geom.Shape{w.b.Cells[c].Region})
	}
	for _, l := range w.b.Links {
		if l.Kind != LinkOpen || l.V == Outside || !slices.Contains(cells, l.U) || !slices.Contains(cells, l.V) {
			continue
		}
		for _, r := range l.Runs {
			// As wide as two edges that count as one lie apart, on either side.
			if n := r.Length(); n > 4*geom.Coincide {
				parts = append(parts, geom.Shape{{Outer: geom.Ring{
					r.Beside(geom.Coincide, -geom.Coincide), r.Beside(n-geom.Coincide, -geom.Coincide),
					r.Beside(n-geom.Coincide, geom.Coincide), r.Beside(geom.Coincide, geom.Coincide),
				}}})
			}
		}
	}
	s, err := geom.Union(parts...)
	if err != nil {
		return largest(geom.Shape{w.b.Cells[cells[0]].Region})
	}
	return largest(s)
}

// largest gives the largest region of a shape.
func largest(s geom.Shape) geom.Region {
	var best geom.Region
	for _, r := range s {
		if best.Outer == nil || r.AreaM2() > best.AreaM2() {
			best = r
		}
	}
	return best
}

// waysOver gives a floor without its fixtures, and the floors to look for ways
// on, the best first: clear of fixtures at half a body's width; with nothing
// standing on it; and along the very walls, for the narrowest of places.
func (w *walks) waysOver(cells []int) (clear func() geom.Region, ways []func() *geom.Walkway) {
	region := sync.OnceValue(func() geom.Region { return w.region(cells) })
	clear = sync.OnceValue(func() geom.Region {
		r := region()
		var bodies []geom.Shape
		for i := range w.s.Fixtures {
			f := &w.s.Fixtures[i]
			if f.State != Removed && f.Footprint != nil && f.Level == w.b.Cells[cells[0]].Level && r.Contains(f.centre()) == geom.Inside {
				bodies = append(bodies, geom.Shape{*f.Footprint})
			}
		}
		if len(bodies) == 0 {
			return r
		}
		standing, err := geom.Union(bodies...)
		if err != nil {
			return r
		}
		if left, err := geom.Difference(geom.Shape{r}, standing); err == nil && len(left) > 0 {
			return largest(left)
		}
		return r
	})
	return clear, []func() *geom.Walkway{
		func() *geom.Walkway { return geom.NewWalkway(clear(), halfBody) },
		func() *geom.Walkway { return geom.NewWalkway(region(), halfBody) },
		func() *geom.Walkway { return geom.NewWalkway(region(), 0) },
	}
}

// walkway is the i-th floor to look for ways on.
func (f *walkFloor) walkway(i int) *geom.Walkway {
	if f.done[i] == nil {
		f.done[i] = f.ways[i]()
	}
	return f.done[i]
}

// way gives the shortest way between two places of a floor.
func (w *walks) way(floor int, from, to geom.Pt) (geom.Way, bool) {
	f := &w.floors[floor]
	if known, ok := f.known[[2]geom.Pt{from, to}]; ok {
		return known, known.Points != nil
	}
	var found geom.Way
	for i := range f.ways {
		if points, length, ok := f.walkway(i).Way(from, to); ok {
			found = geom.Way{Points: points, Length: length}
			break
		}
	}
	f.known[[2]geom.Pt{from, to}] = found
	back := geom.Way{Points: slices.Clone(found.Points), Length: found.Length}
	slices.Reverse(back.Points)
	f.known[[2]geom.Pt{to, from}] = back
	return found, found.Points != nil
}

// addGate adds the gate in a link, the link's U on the left of line.
func (w *walks) addGate(of string, door *Door, l Link, line geom.Segment, thick float64) {
	g := gate{of: of, door: door, line: line, near: w.floor[l.U], far: -1, level: l.Level, thick: thick, cells: [2]int{l.U, l.V}}
	if line.Off(l.Line.Mid()) != 0 && towards(line, l.Line) < 0 {
		g.line = line.Reverse()
	}
	if l.V != Outside {
		g.far = w.floor[l.V]
		g.out = w.b.Cells[l.U].Outdoor != w.b.Cells[l.V].Outdoor
		g.public = w.b.Cells[l.V].Public || w.b.Cells[l.U].Public
	} else {
		g.out = !w.b.Cells[l.U].Outdoor
	}
	for k, c := range g.cells {
		if c != Outside && w.b.Cells[c].Flight {
			g.head[k] = l.Head && k == 0 && l.Kind == LinkStair || l.Level == w.b.Cells[c].To
		}
	}
	mid := g.line.Length() / 2
	in := thick/2 + halfBody + geom.Coincide
	g.steps = [2]geom.Pt{g.line.Beside(mid, in), g.line.Beside(mid, -in)}
	for k, c := range g.cells {
		if c != Outside && w.b.Cells[c].Region.Contains(g.steps[k]) != geom.Inside {
			g.steps[k] = g.line.Mid()
		}
	}
	g.entry = w.isEntry(g)
	w.gates = append(w.gates, g)
}

// isEntry tells whether a gate leads into what is the unit's alone: its own
// entry door, or the way on from a common hall.
func (w *walks) isEntry(g gate) bool {
	own := [2]bool{}
	for k, c := range g.cells {
		own[k] = c != Outside && w.s.Owners[c] == w.unit && !w.b.Cells[c].Outdoor
	}
	if own[0] == own[1] {
		return false
	}
	return !g.out || g.of != "" && slices.Contains(w.s.Units[w.unit].Entries, g.of)
}

// towards is positive where two segments run the same way.
func towards(s, t geom.Segment) int64 { return s.B.Sub(s.A).Dot(t.B.Sub(t.A)) }

// side is 0 where the floor is the gate's near one, else 1.
func (g *gate) side(floor int) int {
	if g.near == floor {
		return 0
	}
	return 1
}

// over gives the way over a floor from one of its gates to another.
func (w *walks) over(floor, from, to int) ([]leg, float64, bool) {
	f, g, h := &w.floors[floor], &w.gates[from], &w.gates[to]
	if f.flight >= 0 {
		return w.climb(f.flight, g.head[g.side(floor)], h.head[h.side(floor)])
	}
	a, b := g.steps[g.side(floor)], h.steps[h.side(floor)]
	way, ok := w.way(floor, a, b)
	if !ok {
		return nil, 0, false
	}
	l := leg{level: w.b.Cells[f.cells[0]].Level, floors: []int{floor}}
	l.points = append(append([]geom.Pt{g.line.Mid()}, way.Points...), h.line.Mid())
	l.points = slices.Compact(l.points)
	l.length = wayLength(l.points)
	return []leg{l}, l.length, true
}

// leg is a part of a way on one level: over floors and the gates between them,
// or up or down a flight.
type leg struct {
	level  int
	floors []int
	gates  []int
	flight string
	points []geom.Pt
	length float64
}

// climb gives the way over a flight, along its slope.
func (w *walks) climb(c int, fromHead, toHead bool) ([]leg, float64, bool) {
	s := w.b.House.stair(w.b.Cells[c].Of)
	if fromHead == toHead {
		return []leg{{flight: w.b.Cells[c].ID, floors: []int{w.floor[c]}}}, 0, true
	}
	if s == nil {
		return nil, 0, false
	}
	points := slices.Clone(s.Walk)
	if fromHead {
		slices.Reverse(points)
	}
	length := math.Hypot(wayLength(points), w.b.House.Levels[s.To].Floor-w.b.House.Levels[s.Level].Floor)
	return []leg{{level: s.Level, floors: []int{w.floor[c]}, flight: s.ID, points: points, length: length}}, length, true
}

// stair finds a flight by id; nil where there is none.
func (h *House) stair(id string) *Stair {
	for i := range h.Stairs {
		if h.Stairs[i].ID == id {
			return &h.Stairs[i]
		}
	}
	return nil
}

// wayLength is the length of a line through points, in metres.
func wayLength(points []geom.Pt) float64 {
	sum := 0.0
	for i := 1; i < len(points); i++ {
		sum += points[i-1].Distance(points[i])
	}
	return sum
}
