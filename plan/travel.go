package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/geom"
)

// Travel is the shortest way that somebody walks out of a room: from the place
// in it that is farthest away, keeping half a body's width from walls and
// fixtures where there is room for it, through doors in their middle, up and
// down flights along their slope.
type Travel struct {
	Unit    string // "A" or "B"
	From    string // the cell in which it begins
	To      TravelEnd
	Door    string // the door at which it ends; "" an open boundary
	LengthM float64
	Legs    []TravelLeg
	// Through lists the cells that it passes through, the first one included.
	Through []string
	// Garage tells that it passes through a garage, there being no other way.
	Garage bool
}

// TravelEnd says where a way ends.
type TravelEnd string

// The ends of ways: the unit's entry door, which may open to a common hall;
// the outdoors; and from an entry door the public way.
const (
	ToEntry   TravelEnd = "entry"
	ToOutside TravelEnd = "outside"
	ToStreet  TravelEnd = "street"
)

// TravelLeg is a part of a way on one level, as a line to draw. The leg up or
// down a flight lies on the level of its foot and is as long as its slope.
type TravelLeg struct {
	Level   int
	Flight  string // id of the flight; "" on a floor
	Points  []geom.Pt
	LengthM float64
}

// Travels gives the ways out of every habitable room of each unit, to its
// entry door and to the outdoors, by unit and cell; a room without a way out
// has none. In a scheme whose units cannot be entered there are none.
func Travels(s *Scheme) []Travel {
	var out []Travel
	for _, u := range bothUnits {
		w := newWalks(s, u)
		for _, c := range w.rooms() {
			for _, to := range [...]TravelEnd{ToEntry, ToOutside} {
				if t, ok := w.travel(c, to); ok {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// rooms lists the habitable rooms of the unit.
func (w *walks) rooms() []int {
	var out []int
	for _, c := range w.s.Units[w.unit].Cells {
		cell := &w.b.Cells[c]
		if !cell.Flight && !cell.Outdoor && (slices.Contains(habitable, w.s.Uses[c]) ||
			c < len(w.s.Also) && slices.ContainsFunc(w.s.Also[c], func(u Use) bool { return slices.Contains(habitable, u) })) {
			out = append(out, c)
		}
	}
	return out
}

// travel gives the way from the farthest place of a cell; where the only ways
// lead through a garage, that.
func (w *walks) travel(c int, to TravelEnd) (Travel, bool) {
	for _, garage := range [...]bool{false, true} {
		if t, ok := w.travelFrom(c, to, garage); ok {
			t.Garage = garage
			return t, true
		}
	}
	return Travel{}, false
}

func (w *walks) travelFrom(c int, to TravelEnd, garage bool) (Travel, bool) {
	r := w.outward(to, garage)
	floor := w.floor[c]
	if floor < 0 {
		return Travel{}, false
	}
	farthest, best := Travel{LengthM: -1}, 0.0
	for _, p := range w.places(c) {
		shortest, first := math.Inf(1), Travel{}
		for _, g := range w.ends[floor] {
			if math.IsInf(r.length[g], 1) || !r.from(g, floor) {
				continue
			}
			gate := &w.gates[g]
			way, ok := w.way(floor, p, gate.steps[gate.side(floor)])
			if !ok {
				continue
			}
			points := slices.Compact(append(slices.Clone(way.Points), gate.line.Mid()))
			if length := wayLength(points); length+r.length[g] < shortest-1e-9 {
				shortest = length + r.length[g]
				legs, door := r.legs(w, g)
				legs = append([]leg{{level: w.b.Cells[c].Level, floors: []int{floor}, points: points, length: length}}, legs...)
				first = w.travelOf(c, to, w.tightened(legs, append([]int{g}, r.gatesFrom(g)...)), door)
			}
		}
		if !math.IsInf(shortest, 1) && first.LengthM > best+1e-6 {
			farthest, best = first, first.LengthM
		}
	}
	return farthest, farthest.LengthM >= 0
}

// tightened joins legs on one level into one, which no longer passes through
// the middle of every door between them; gates are those that the legs end at.
func (w *walks) tightened(legs []leg, gates []int) []leg {
	var out []leg
	for i, l := range legs {
		n := len(out) - 1
		if i == 0 || l.flight != "" || out[n].flight != "" || out[n].level != l.level {
			out = append(out, l)
			continue
		}
		last := &out[n]
		last.floors = append(slices.Clone(last.floors), l.floors...)
		last.gates = append(slices.Clone(last.gates), gates[i-1])
		last.points = slices.Compact(append(slices.Clone(last.points), l.points...))
		last.length += l.length
	}
	for i := range out {
		l := &out[i]
		if len(l.floors) < 2 {
			continue
		}
		if points, length, ok := w.across(l.floors, l.gates).Way(l.points[0], l.points[len(l.points)-1]); ok && length < l.length {
			l.points, l.length = points, length
		}
	}
	return out
}

// across is several floors with the gates between them, to walk on.
func (w *walks) across(floors, gates []int) *geom.Walkway {
	key := fmt.Sprint(floors, gates)
	if w.joined[key] == nil {
		var parts []geom.Shape
		for _, f := range floors {
			parts = append(parts, geom.Shape{w.floors[f].clear()})
		}
		for _, g := range gates {
			gate := &w.gates[g]
			// Through the wall and as far into the rooms as edges are surveyed to.
			deep, n := gate.thick/2+2*geom.Coincide, gate.line.Length()
			parts = append(parts, geom.Shape{{Outer: geom.Ring{
				gate.line.Beside(0, -deep), gate.line.Beside(n, -deep), gate.line.Beside(n, deep), gate.line.Beside(0, deep),
			}}})
		}
		var region geom.Region
		if s, err := geom.Union(parts...); err == nil {
			region = largest(s)
		}
		w.joined[key] = geom.NewWalkway(region, halfBody)
	}
	return w.joined[key]
}

func (w *walks) travelOf(c int, to TravelEnd, legs []leg, door string) Travel {
	t := Travel{Unit: w.unit.String(), From: w.b.Cells[c].ID, To: to, Door: door}
	for _, l := range legs {
		if len(l.points) == 0 {
			continue // past the foot or head of a flight
		}
		t.LengthM += l.length
		t.Legs = append(t.Legs, TravelLeg{Level: l.level, Flight: l.flight, Points: l.points, LengthM: l.length})
		for _, passed := range w.passed(l) {
			if n := len(t.Through); n == 0 || t.Through[n-1] != passed {
				t.Through = append(t.Through, passed)
			}
		}
	}
	return t
}

// passed lists the cells that a leg passes through, in order.
func (w *walks) passed(l leg) []string {
	var cells []int
	for _, f := range l.floors {
		cells = append(cells, w.floors[f].cells...)
	}
	if len(cells) == 1 {
		return []string{w.b.Cells[cells[0]].ID}
	}
	var out []string
	const step = 0.1 // metres: a cell passed over less is not passed through
	for i := 1; i < len(l.points); i++ {
		s := geom.Segment{A: l.points[i-1], B: l.points[i]}
		for n, at := int(s.Length()/step)+1, 0; at <= n; at++ {
			p := s.At(s.Length() * float64(at) / float64(n))
			for _, c := range cells {
				id := w.b.Cells[c].ID
				if w.b.Cells[c].Region.Contains(p) == geom.Inside && (len(out) == 0 || out[len(out)-1] != id) {
					out = append(out, id)
				}
			}
		}
	}
	return out
}

// places lists the places of a cell from which a way may be longest: its
// corners, half a body's width off the walls.
func (w *walks) places(c int) []geom.Pt {
	region := w.b.Cells[c].Region
	var out []geom.Pt
	for _, ring := range region.Rings() {
		n := len(ring)
		for i, at := range ring {
			before, after := geom.Segment{A: ring[(i+n-1)%n], B: at}, geom.Segment{A: at, B: ring[(i+1)%n]}
			if geom.Orient(before.A, at, after.B) <= 0 {
				continue
			}
			d := halfBody + geom.Coincide
			p, ok := geom.CrossingPoint(
				geom.Segment{A: before.Beside(0, d), B: before.Beside(before.Length(), d)},
				geom.Segment{A: after.Beside(0, d), B: after.Beside(after.Length(), d)})
			if ok && region.Contains(p) == geom.Inside {
				out = append(out, p)
			}
		}
	}
	out = slices.DeleteFunc(out, func(p geom.Pt) bool {
		at, ok := w.floors[w.floor[c]].walkway(0).StandAt(p)
		return ok && (at.Distance(p) > halfBody || region.Contains(at) != geom.Inside) // what stands there is in the way
	})
	if len(out) == 0 {
		at, _ := geom.VisualCentre(region)
		out = append(out, at)
	}
	return out
}

// routes are the shortest ways from every gate to an end.
type routes struct {
	length []float64 // from the middle of each gate
	next   []int     // the gate after it, -1 at the end
	via    []int     // the floor on the way to the next
}

// from tells whether the way on from a gate does not lead back over a floor.
func (r *routes) from(g, floor int) bool { return r.next[g] < 0 || r.via[g] != floor }

// gatesFrom lists the gates on the way on from a gate.
func (r *routes) gatesFrom(g int) []int {
	var out []int
	for r.next[g] >= 0 {
		g = r.next[g]
		out = append(out, g)
	}
	return out
}

// legs gives the way on from a gate, and the door at its end.
func (r *routes) legs(w *walks, g int) ([]leg, string) {
	var out []leg
	for r.next[g] >= 0 {
		legs, _, _ := w.over(r.via[g], g, r.next[g])
		out = append(out, legs...)
		g = r.next[g]
	}
	return out, w.gates[g].of
}

// outward finds the shortest ways to an end from everywhere (Dijkstra 1959),
// through no garage unless allowed.
func (w *walks) outward(to TravelEnd, garage bool) *routes {
	n := len(w.gates)
	r := &routes{length: make([]float64, n), next: make([]int, n), via: make([]int, n)}
	settled := make([]bool, n)
	for g := range w.gates {
		r.length[g], r.next[g], r.via[g] = math.Inf(1), -1, -1
		gate := &w.gates[g]
		if to == ToEntry && gate.entry || to == ToOutside && gate.out || to == ToStreet && gate.public {
			r.length[g] = 0
		}
	}
	for {
		g := -1
		for k := range w.gates {
			if !settled[k] && !math.IsInf(r.length[k], 1) && (g < 0 || r.length[k] < r.length[g]) {
				g = k
			}
		}
		if g < 0 {
			return r
		}
		settled[g] = true
		for _, floor := range []int{w.gates[g].near, w.gates[g].far} {
			if floor < 0 || !w.walksOver(floor, to, garage) || r.next[g] >= 0 && r.via[g] == floor {
				continue
			}
			for _, k := range w.ends[floor] {
				if settled[k] {
					continue
				}
				if _, length, ok := w.over(floor, k, g); ok && r.length[g]+length < r.length[k]-1e-9 {
					r.length[k], r.next[k], r.via[k] = r.length[g]+length, g, floor
				}
			}
		}
	}
}

// walksOver tells whether the way to an end leads over a floor: to the entry
// and to the outdoors indoors only, to the street outdoors only.
func (w *walks) walksOver(floor int, to TravelEnd, garage bool) bool {
	for _, c := range w.floors[floor].cells {
		cell := &w.b.Cells[c]
		if cell.Outdoor != (to == ToStreet) || cell.Public || cell.Use == Garage && !garage || to == ToEntry && w.s.Owners[c] != w.unit {
			return false
		}
	}
	return true
}
