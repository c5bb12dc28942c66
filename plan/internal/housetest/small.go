package housetest

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// Small generates a house of five to nine cells that an owner is found for,
// so few that every way to part it can be tried: two rows of rooms on one
// level, or two levels around a hall with its flight. Doors, windows, open
// plans, fixtures, bearing walls and the pieces of ground around it come and
// go with the seed. The same seed gives the same house.
func Small(seed uint64) *plan.House {
	s := &small{Draft: New(fmt.Sprintf("Small house %d", seed)), r: rand.New(rand.NewPCG(seed, 7))}
	s.surveyedSite = s.chance(0.8)
	if s.surveyedSite {
		s.Site("site", -s.pick(0.15, 0.3, 0.6, 1.2))
	}
	s.Level("main", 0, clearHeight)
	if s.chance(0.35) {
		s.twoLevels()
	} else {
		s.rows()
	}
	s.joinRooms()
	s.addOutsideDoors()
	s.addWindows()
	s.addFixtures()
	if s.surveyedSite {
		s.addGround()
	}
	return s.House()
}

// small is a small house in the making.
type small struct {
	*Draft
	r            *rand.Rand
	surveyedSite bool
	rooms        []box
	width, depth float64
}

// box is a rectangular room.
type box struct {
	id, level      string
	use            plan.Use
	x0, y0, x1, y1 float64
	hall           bool // the hall around a flight, of which the box is the bounds
}

func (s *small) chance(p float64) bool { return s.r.Float64() < p }

func (s *small) pick(of ...float64) float64 { return of[s.r.IntN(len(of))] }

// between gives a length in a range, in whole steps of 5 cm as a tape is read.
func (s *small) between(low, high float64) float64 {
	return math.Round((low+s.r.Float64()*(high-low))*20) / 20
}

// uses gives n uses of rooms: those that a house has, those that it needs a
// second time to make two units, and others, any of which may be missing.
func (s *small) uses(n int) []plan.Use {
	may := []plan.Use{
		plan.Hall, plan.Entry, plan.Dining, plan.Office, plan.Laundry, plan.Closet, plan.Storage, plan.Mechanical,
		plan.Unfinished, plan.Garage, plan.PowderRoom, plan.Bedroom, plan.Family, plan.Bathroom, plan.Hall, plan.Office,
	}
	var out []plan.Use
	for range 2 {
		for _, u := range [...]plan.Use{plan.Living, plan.Bathroom, plan.Bedroom, plan.Kitchen} {
			if s.chance(0.96) && (u != plan.Kitchen || s.chance(0.25)) {
				out = append(out, u)
			}
		}
	}
	s.r.Shuffle(len(may), func(i, j int) { may[i], may[j] = may[j], may[i] })
	out = append(out, may...)[:n]
	s.r.Shuffle(n, func(i, j int) { out[i], out[j] = out[j], out[i] })
	return out
}

func (s *small) room(id, level string, use plan.Use, x0, y0, x1, y1 float64) {
	s.Room(id, use, level, x0, y0, x1, y1)
	if (use == plan.Living || use == plan.Family) && s.chance(0.85) {
		s.Also(plan.Kitchen)
	}
	s.rooms = append(s.rooms, box{id: id, level: level, use: use, x0: x0, y0: y0, x1: x1, y1: y1})
}

// rows lays rooms out in a front row and a back row.
func (s *small) rows() {
	front, back := 3+s.r.IntN(2), 2+s.r.IntN(3)
	uses := s.uses(front + back)
	s.width = 3.4 * float64(max(front, back))
	wall := s.pick(0.1, 0.12, 0.15)
	mid := s.between(2.8, 4.5)
	s.depth = mid + wall + s.between(2.8, 4.5)
	n := 0
	row := func(count int, y0, y1 float64) {
		x := 0.0
		for i := range count {
			gap := wall
			if s.chance(0.12) {
				gap = 0
			}
			x1 := s.width
			if left := count - 1 - i; left > 0 {
				x1 = s.between(x+1.5, math.Min(x+5, s.width-float64(left)*1.6))
			}
			s.room(fmt.Sprintf("%s-%d", uses[n], n), "main", uses[n], x, y0, x1, y1)
			x = x1 + gap
			n++
		}
	}
	row(front, 0, mid)
	row(back, mid+wall, s.depth)
}

// twoLevels stands rooms left and right of a hall in which a flight climbs.
//
//	+-----+------+-----+
//	|     | .--. |     |   the hall goes around the flight on both levels
//	+-----+ |  | |     |
//	|     | |__| |     |
//	+-----+------+-----+
func (s *small) twoLevels() {
	const depth, wall = 6.0, 0.1
	left, right := s.between(2.8, 4.5), s.between(2.8, 4.5)
	s.width, s.depth = left+wall+2+wall+right, depth
	s.Level("upper", storey, clearHeight)
	x := left + wall
	count := [2][2]int{{1 + s.r.IntN(2), 1 + s.r.IntN(2)}, {1 + s.r.IntN(2), 1 + s.r.IntN(2)}}
	uses := s.uses(count[0][0] + count[0][1] + count[1][0] + count[1][1])
	n := 0
	for l, level := range [...]string{"main", "upper"} {
		hall := fmt.Sprintf("hall-%s", level)
		s.Room(hall, plan.Hall, level, x, 0, x+2, 0, x+2, 1.2, x+1, 1.2, x+1, 4.8, x+2, 4.8, x+2, depth, x, depth)
		s.rooms = append(s.rooms, box{hall, level, plan.Hall, x, 0, x + 2, depth, true})
		for side, x0 := range [...]float64{0, x + 2 + wall} {
			x1 := left
			if side == 1 {
				x1 = s.width
			}
			y := 0.0
			for i := range count[l][side] {
				y1 := depth
				if i+1 < count[l][side] {
					y1 = s.between(2.2, 3.6)
				}
				s.room(fmt.Sprintf("%s-%d", uses[n], n), level, uses[n], x0, y, x1, y1)
				y = y1 + wall
				n++
			}
		}
	}
	s.Flight("flight", "main", "upper", "n", x+1, 1.2, x+2, 4.8)
}

// facing gives the stretch along which two rooms face each other across a wall.
func facing(a, b box) (x0, y0, x1, y1 float64, ok bool) {
	if a.level != b.level {
		return
	}
	for _, p := range [2][2]box{{a, b}, {b, a}} {
		if gap := p[1].x0 - p[0].x1; gap >= 0 && gap < 0.3 {
			low, high := math.Max(a.y0, b.y0), math.Min(a.y1, b.y1)
			return p[0].x1 + gap/2, low, p[0].x1 + gap/2, high, gap > 0 && high-low > 1.1
		}
		if gap := p[1].y0 - p[0].y1; gap >= 0 && gap < 0.3 {
			low, high := math.Max(a.x0, b.x0), math.Min(a.x1, b.x1)
			return low, p[0].y1 + gap/2, high, p[0].y1 + gap/2, gap > 0 && high-low > 1.1
		}
	}
	return
}

// joinRooms cuts doors so that the rooms hang together, rooms that people pass
// through first, and some more.
func (s *small) joinRooms() {
	type chance struct {
		a, b  int
		score float64
	}
	var all []chance
	for i, a := range s.rooms {
		for j, b := range s.rooms[:i] {
			if _, _, _, _, ok := facing(a, b); ok {
				score := s.r.Float64() * 1.5
				for _, u := range [...]plan.Use{a.use, b.use} {
					if u.DeadEnd() {
						score++
					}
				}
				all = append(all, chance{i, j, score})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y chance) int { return int(math.Copysign(1, x.score-y.score)) })
	group := make([]int, len(s.rooms))
	for i := range group {
		group[i] = i
	}
	for _, c := range all {
		if a, b := group[c.a], group[c.b]; a != b {
			for i := range group {
				if group[i] == a {
					group[i] = b
				}
			}
		} else if !s.chance(0.2) {
			continue
		}
		s.doorBetween(s.rooms[c.a], s.rooms[c.b])
	}
}

func (s *small) doorBetween(a, b box) {
	x0, y0, x1, y1, _ := facing(a, b)
	length := x1 - x0 + y1 - y0
	at := s.between(0.15, length-0.95)
	id := fmt.Sprintf("door-%s-%s", a.id, b.id)
	place := s.Door
	if s.chance(0.15) {
		place = s.Opening
	}
	if x0 == x1 {
		place(id, a.level, x0, y0+at, x1, y0+at+0.8)
	} else {
		place(id, a.level, x0+at, y0, x0+at+0.8, y0)
	}
	if s.chance(0.15) {
		s.Bearing("bearing-"+id, a.level, x0, y0, x1, y1)
	}
}

// outerWalls gives the exterior walls of a room, as lines in the middle of
// their thickness.
func (s *small) outerWalls(b box) [][4]float64 {
	const half = wallOutside / 2
	var out [][4]float64
	if b.y0 == 0 {
		out = append(out, [4]float64{b.x0, -half, b.x1, -half})
	}
	if b.y1 == s.depth {
		out = append(out, [4]float64{b.x0, s.depth + half, b.x1, s.depth + half})
	}
	if b.x0 == 0 {
		out = append(out, [4]float64{-half, b.y0, -half, b.y1})
	}
	if b.x1 == s.width {
		out = append(out, [4]float64{s.width + half, b.y0, s.width + half, b.y1})
	}
	return out
}

func part(w [4]float64, from, to float64) (x0, y0, x1, y1 float64) {
	if w[0] == w[2] {
		return w[0], w[1] + from, w[2], w[1] + to
	}
	return w[0] + from, w[1], w[0] + to, w[3]
}

func (s *small) addOutsideDoors() {
	n := 0
	for _, i := range s.r.Perm(len(s.rooms)) {
		b := s.rooms[i]
		if b.level != "main" || n > 2 || n > 0 && !s.chance(0.7) || b.use.DeadEnd() && !s.chance(0.2) {
			continue
		}
		walls := s.outerWalls(b)
		if len(walls) == 0 {
			continue
		}
		w := walls[s.r.IntN(len(walls))]
		length := w[2] - w[0] + w[3] - w[1]
		if length < 1.2 {
			continue
		}
		at := s.between(0.15, length-1.05)
		x0, y0, x1, y1 := part(w, at, at+0.9)
		s.Door(fmt.Sprintf("door-out-%d", n), b.level, x0, y0, x1, y1)
		if b.use == plan.Garage {
			s.h.Doors[len(s.h.Doors)-1].Leaf = plan.Overhead
		}
		n++
	}
}

func (s *small) addWindows() {
	for _, b := range s.rooms {
		for i, w := range s.outerWalls(b) {
			length := w[2] - w[0] + w[3] - w[1]
			if length < 1.6 || !s.chance(0.6) {
				continue
			}
			at := s.between(0.2, length-1.2)
			x0, y0, x1, y1 := part(w, at, at+1)
			if s.taken(b.level, x0, y0, x1, y1) {
				continue
			}
			s.Window(fmt.Sprintf("window-%s-%d", b.id, i), b.level, 0.9, 1.2, x0, y0, x1, y1)
		}
	}
}

// taken tells whether a door stands where a line of the same wall lies.
func (s *small) taken(level string, x0, y0, x1, y1 float64) bool {
	box := line(x0, y0, x1, y1).Bounds().Grow(geom.Units(0.1))
	return slices.ContainsFunc(s.h.Doors, func(d plan.Door) bool {
		return d.Level == s.level(level) && d.Line.Bounds().Meets(box)
	})
}

func (s *small) addFixtures() {
	stand := func(use string, p float64, among ...plan.Use) {
		for i, b := range s.rooms {
			if !b.hall && slices.Contains(among, b.use) && s.chance(p) {
				s.Fixture(fmt.Sprintf("%s-%d", use, i), use, b.level, b.x0+0.4, b.y0+0.4)
			}
		}
	}
	stand("electrical_panel", 0.4, plan.Mechanical, plan.Garage, plan.Storage, plan.Entry, plan.Laundry, plan.Office)
	stand("furnace", 0.6, plan.Mechanical, plan.Unfinished, plan.Storage)
	stand("water_heater", 0.5, plan.Mechanical, plan.Unfinished, plan.Closet, plan.Laundry)
	stand("washer", 0.5, plan.Laundry, plan.Bathroom, plan.Unfinished)
	if s.chance(0.3) {
		stand("wc", 1, plan.Bathroom, plan.PowderRoom)
		stand("basin", 1, plan.Bathroom, plan.PowderRoom)
		stand("shower", 0.7, plan.Bathroom)
	}
	if s.chance(0.3) {
		stand("drain_stack", 0.7, plan.Bathroom, plan.Kitchen)
	}
}

// addGround surveys pieces of ground around the house: in front, behind and
// beside it, with the public way in front of them, behind them, or nowhere.
func (s *small) addGround() {
	const margin = 3.0
	x0, y0, x1, y1 := -wallOutside, -wallOutside, s.width+wallOutside, s.depth+wallOutside
	front := plan.Use("")
	if s.chance(0.9) {
		front = plan.Yard
		if s.chance(0.2) {
			front = plan.Walk
		}
		s.Room("front", front, "site", x0-margin, y0-6, x1+margin, y0)
	}
	if s.chance(0.6) {
		s.Room("back", [...]plan.Use{plan.Yard, plan.Patio}[s.r.IntN(2)], "site", x0-margin, y1, x1+margin, y1+7)
	}
	if s.chance(0.5) {
		s.Room("left", [...]plan.Use{plan.Yard, plan.Walk, plan.Drive}[s.r.IntN(3)], "site", x0-margin, y0, x0, y1)
	}
	if s.chance(0.3) {
		s.Room("right", [...]plan.Use{plan.Drive, plan.Walk, plan.Parking}[s.r.IntN(3)], "site", x1, y0, x1+margin, y1)
	}
	if s.chance(0.7) {
		s.Room("street", plan.Street, "site", x0-margin, y0-12, x1+margin, y0-6)
	}
	if s.chance(0.3) {
		s.Room("lane", plan.Lane, "site", x0-margin, y1+7, x1+margin, y1+11)
	}
}
