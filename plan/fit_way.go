package plan

import "math"

// leastWay is the width that a person gets through between fixtures and walls
// (common practice, no source).
const leastWay = 0.50

// leastWayIn is the width of the ways through a room of this use: of a hall
// and an entry those of the dwelling.
func leastWayIn(u Use) float64 {
	if u == Hall || u == Entry {
		return closetWay
	}
	return leastWay
}

// Steps of the grid on which ways are looked for: metres, and the area in
// square metres from which the coarser one serves.
const (
	fineStep   = 0.05
	coarseStep = 0.10
	coarseRoom = 8.0
)

// walkable is the floor of a room as a grid of places in its own frame at
// which somebody can stand. A way of leastWayIn is always found; one narrower by
// a step never is.
type walkable struct {
	room   *fitRoom
	step   float64
	radius float64
	across int // places in a row
	free   []bool
	groups []int // per way into the room: the first way that it hangs together with, -1 where nobody can stand in it
}

// walkableRoom finds where one can stand in the room as it is.
func (r *fitRoom) walkableRoom() *walkable {
	if r.ground != nil {
		return r.ground
	}
	w := &walkable{room: r, step: fineStep}
	if r.b.Cells[r.cell].AreaM2 > coarseRoom {
		w.step = coarseStep
	}
	w.radius = leastWayIn(r.b.Cells[r.cell].Use)/2 - w.step/2
	w.across = int(r.x.length()/w.step) + 1
	w.free = make([]bool, w.across*(int(r.y.length()/w.step)+1))
	var bodies []patch
	for _, o := range r.obstacles {
		if o.kind == isStanding {
			bodies = append(bodies, o.patch)
		}
	}
	for i := range w.free {
		w.free[i] = w.clearOfWalls(w.at(i))
	}
	w.stand(bodies)
	reached := make([]int, len(w.free))
	for i := range r.ways {
		group := -1
		for _, at := range w.on(r.ways[i].patch) {
			if reached[at] == 0 {
				w.spread(at, i+1, reached)
			}
			if group < 0 {
				group = reached[at] - 1
			}
		}
		w.groups = append(w.groups, group)
	}
	r.ground = w
	return w
}

func (w *walkable) at(i int) spot {
	return spot{w.room.x.from + float64(i%w.across)*w.step, w.room.y.from + float64(i/w.across)*w.step}
}

// clearOfWalls tells whether somebody at p stands in the room, clear of its sides.
func (w *walkable) clearOfWalls(p spot) bool {
	in := false
	for _, s := range w.room.sides {
		if p.off(s.a, s.b) < w.radius-fitTolerance {
			return false
		}
		if (s.a.y > p.y) != (s.b.y > p.y) && p.x < s.a.x+(s.b.x-s.a.x)*(p.y-s.a.y)/(s.b.y-s.a.y) {
			in = !in
		}
	}
	return in
}

// stand takes the places away that bodies bar.
func (w *walkable) stand(bodies []patch) {
	for _, b := range bodies {
		w.each(b, w.radius, func(i int) {
			if w.free[i] && b.distance(w.at(i)) < w.radius-fitTolerance {
				w.free[i] = false
			}
		})
	}
}

// each calls f for the places within reach of a patch's bounds.
func (w *walkable) each(b patch, reach float64, f func(i int)) {
	x, y := b.bounds()
	rows := len(w.free) / w.across
	index := func(v float64, most int) int { return min(max(int(math.Ceil(v/w.step)), 0), most) }
	x0, x1 := index(x.from-reach-w.room.x.from-fitTolerance, w.across), index(x.to+reach-w.room.x.from+fitTolerance, w.across)
	y0, y1 := index(y.from-reach-w.room.y.from-fitTolerance, rows), index(y.to+reach-w.room.y.from+fitTolerance, rows)
	for row := y0; row < y1; row++ {
		for col := x0; col < x1; col++ {
			f(row*w.across + col)
		}
	}
}

// on lists the free places on a patch.
func (w *walkable) on(b patch) []int {
	var out []int
	w.each(b, 0, func(i int) {
		if w.free[i] && b.distance(w.at(i)) <= fitTolerance {
			out = append(out, i)
		}
	})
	return out
}

// spread marks the free places that hang together with one of them.
func (w *walkable) spread(from, mark int, reached []int) {
	queue := []int{from}
	reached[from] = mark
	for len(queue) > 0 {
		i := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		x := i % w.across
		for _, j := range [...]int{i - 1, i + 1, i - w.across, i + w.across} {
			if j < 0 || j >= len(w.free) || !w.free[j] || reached[j] != 0 || j == i-1 && x == 0 || j == i+1 && x == w.across-1 {
				continue
			}
			reached[j] = mark
			queue = append(queue, j)
		}
	}
}

// keepsWays tells whether, with an arrangement placed, the ways into the room
// that hang together today still do, and its clear spaces are reached from
// them. What is used through a door takes that door for itself.
func (r *fitRoom) keepsWays(a arrangement) bool {
	through := map[*Door]bool{}
	var clears []patch
	for i := range a.placed {
		p := &a.placed[i]
		if p.through != nil {
			through[p.through] = true
			continue
		}
		for _, q := range p.all() {
			if q.role == aClear {
				clears = append(clears, q.patch)
			}
		}
	}
	today := r.walkableRoom()
	w := *today
	w.free = append([]bool(nil), today.free...)
	w.stand(a.patches(aBody))
	reached := make([]int, len(w.free))
	inUse := false
	spread := map[int]bool{}
	for i, group := range today.groups {
		if group < 0 || through[r.ways[i].door] {
			continue
		}
		inUse = true
		on := w.on(r.ways[i].patch)
		if len(on) == 0 {
			return false
		}
		// Of the places before the first door of those that hang together all
		// count as the way in: which of them are corners shows at the others.
		if !spread[group] {
			spread[group] = true
			for _, at := range on {
				if reached[at] == 0 {
					w.spread(at, group+1, reached)
				}
			}
		}
		if !anyReached(on, group+1, reached) {
			return false
		}
	}
	if !inUse {
		return true
	}
	for _, c := range clears {
		if !anyReached(w.on(c), 0, reached) {
			return false
		}
	}
	return true
}

// anyReached tells whether one of the places has the mark, or any mark where 0 is asked for.
func anyReached(places []int, mark int, reached []int) bool {
	for _, at := range places {
		if reached[at] == mark && mark > 0 || mark == 0 && reached[at] > 0 {
			return true
		}
	}
	return false
}

// mayBeWide is false where no circle of a width lies in the room clear of the
// patches: quickly, from places a few steps apart, since the clearance of a
// place is no more than its distance from another above the other's.
func (w *walkable) mayBeWide(patches []patch, width float64) bool {
	const apart = 0.20
	stride := int(math.Round(apart / w.step))
	least := width/2 - apart/math.Sqrt2 - fitTolerance
	for row := 0; row < len(w.free)/w.across; row += stride {
	next:
		for col := 0; col < w.across; col += stride {
			i := row*w.across + col
			p := w.at(i)
			if !w.free[i] {
				continue
			}
			for _, b := range patches {
				if b.distance(p) < least {
					continue next
				}
			}
			for _, s := range w.room.sides {
				if p.off(s.a, s.b) < least {
					continue next
				}
			}
			return true
		}
	}
	return false
}
