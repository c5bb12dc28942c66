package plan_test

import (
	"math"
	"math/bits"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// reference finds the best way to part a house by trying every owner of every
// cell. It is written from the description of the partition (cells, links,
// owners, what each unit must have, objective) and from what a builder would
// charge; it shares no code with the model or the search, and knows of a
// building only its cells, its links with their measures, and what stands where.
//
// Sets of cells are bits of a word. The outside world is the last cell.
type reference struct {
	b      *plan.Building
	brief  *plan.Brief
	prices *plan.Prices

	outside int
	public  uint64 // street, lane and the outside world
	owned   []int  // the cells that an owner is found for
	ground  uint64 // public or outdoors
	rooms   uint64 // indoors, garages apart
	garages uint64
	deadEnd uint64
	links   []refLink
	hosts   [][]refHost // per cell, per function
	room    []int       // per cell: how many functions it has room for
	clashes [][]uint64  // per cell: sets of functions that do not go together in it
	area    []int64     // per cell: hundredths of a square metre that count
}

// refLink is a link as the reference sees it.
type refLink struct {
	id     string
	u, v   int
	open   bool
	door   float64 // price of a new door; negative: none can be made
	apart  float64 // works, and noise, where one end is A's and the other B's
	shared float64 // works where one end is common
	fixed  bool    // no work may touch what parts the ends
	suite  int     // the dead end that leads on to the other; -1 none
	entry  [2]bool // could be the unit's way in
}

// refHost is what it takes for a cell to serve as something.
type refHost struct {
	can   bool
	price float64
}

// refPrice is compared by what is shared first, then by cost.
type refPrice struct {
	shared int
	cost   float64
}

func (p refPrice) less(q refPrice) bool {
	return p.shared < q.shared || p.shared == q.shared && p.cost < q.cost-1e-6
}

var never = refPrice{math.MaxInt32, 0}

func newReference(b *plan.Building, brief *plan.Brief, prices *plan.Prices) *reference {
	r := &reference{b: b, brief: brief, prices: prices, outside: len(b.Cells)}
	if r.outside >= 64 {
		panic("too many cells for a word")
	}
	r.public = 1 << r.outside
	r.ground = 1 << r.outside
	reached := r.reachedToday()
	for c, cell := range b.Cells {
		bit := uint64(1) << c
		switch {
		case cell.Public:
			r.public |= bit
		case reached&bit != 0:
			r.owned = append(r.owned, c)
		}
		switch {
		case cell.Public, cell.Outdoor:
			r.ground |= bit
		case cell.Use == plan.Garage:
			r.garages |= bit
		default:
			r.rooms |= bit
		}
		if slices.Contains([]plan.Use{plan.Bedroom, plan.Bathroom, plan.PowderRoom, plan.Closet, plan.Laundry, plan.Mechanical, plan.Garage}, cell.Use) && !cell.Through {
			r.deadEnd |= bit
		}
		counts := !cell.Outdoor && cell.Heated && cell.Use != plan.Garage
		r.area = append(r.area, 0)
		if counts {
			r.area[c] = int64(math.Round(cell.AreaM2 * 100))
		}
		r.room = append(r.room, r.capacity(c))
		r.clashes = append(r.clashes, r.clashing(c))
		var hosts []refHost
		for f := range refFunctions {
			hosts = append(hosts, r.host(c, f))
		}
		r.hosts = append(r.hosts, hosts)
	}
	known := r.public
	for _, c := range r.owned {
		known |= 1 << c
	}
	for _, l := range b.Links {
		v := l.V
		if v == plan.Outside {
			v = r.outside
		}
		if known>>l.U&1 != 0 && known>>v&1 != 0 {
			link := r.link(l, v)
			r.links = append(r.links, link)
			if r.slides(l) {
				// A way in only with a hinged door in its place, where one may be put.
				last := &r.links[len(r.links)-1]
				last.entry = [2]bool{}
				if !r.left(l.Of) && !r.left(l.Marks...) && !r.left(b.Cells[l.U].Of) && (v == r.outside || !r.left(b.Cells[v].Of)) {
					r.links = append(r.links, refLink{id: l.ID, u: l.U, v: v, door: prices.NewEntry.InPlace, suite: -1, entry: link.entry})
				}
			}
		}
	}
	for _, c := range r.firstGround() {
		if known>>c&1 != 0 {
			r.links = append(r.links, refLink{id: "to the street", u: c, v: r.outside, open: true, door: -1, suite: -1})
		}
	}
	return r
}

// reachedToday gives the cells that people get to: from the public way, and
// from every door between indoors and outdoors.
func (r *reference) reachedToday() uint64 {
	reached, entered := uint64(0), false
	for c, cell := range r.b.Cells {
		if cell.Public {
			reached |= 1 << c
		}
	}
	for _, l := range r.b.Links {
		if l.Passage() && (l.V == plan.Outside || r.b.Cells[l.U].Outdoor != r.b.Cells[l.V].Outdoor) {
			entered = true
			reached |= 1 << l.U
			if l.V != plan.Outside {
				reached |= 1 << l.V
			}
		}
	}
	if !entered {
		panic("a house without a door")
	}
	for again := true; again; {
		again = false
		for _, l := range r.b.Links {
			if l.V == plan.Outside || !l.Passage() {
				continue
			}
			ends := uint64(1)<<l.U | uint64(1)<<l.V
			if n := bits.OnesCount64(reached & ends); n == 1 {
				reached |= ends
				again = true
			}
		}
	}
	return reached
}

// firstGround gives what the public way is taken to lead to where neither
// street nor lane was surveyed.
func (r *reference) firstGround() []int {
	var ways, all []int
	for c, cell := range r.b.Cells {
		if cell.Public {
			return nil
		}
		if cell.Outdoor {
			all = append(all, c)
			if cell.Use == plan.Walk || cell.Use == plan.Drive || cell.Use == plan.Parking {
				ways = append(ways, c)
			}
		}
	}
	if len(ways) > 0 {
		return ways
	}
	return all
}

func (r *reference) left(ids ...string) bool {
	return slices.ContainsFunc(ids, func(id string) bool { return id != "" && slices.Contains(r.brief.Leave, id) })
}

func (r *reference) outdoor(c int) bool { return c == plan.Outside || r.b.Cells[c].Outdoor }

// slides tells whether a link is a door to the outdoors that the IRC does not
// count as a way out: one that is not hinged at its side (R311.2).
func (r *reference) slides(l plan.Link) bool {
	if r.brief.RuleSetID() != "us-irc-2021" || l.Kind != plan.LinkDoor || r.outdoor(l.U) || !r.outdoor(l.V) {
		return false
	}
	return slices.ContainsFunc(r.b.House.Doors, func(d plan.Door) bool {
		return d.ID == l.Of && slices.Contains([]plan.Leaf{plan.Sliding, plan.Pocket, plan.Bifold}, d.Leaf)
	})
}

// link works out what a link costs in each case.
func (r *reference) link(l plan.Link, v int) refLink {
	out := refLink{id: l.ID, u: l.U, v: v, open: l.Passage(), door: -1, suite: -1}
	out.apart, out.shared = r.parting(l)
	out.fixed = (out.apart > 0 || out.shared > 0) && (r.left(l.Of) || r.left(l.Marks...))
	if !out.open {
		out.door = r.newDoor(l)
	}
	if l.V == plan.Outside {
		out.apart, out.shared = 0, 0
	} else {
		out.apart += r.noise(l)
		if out.open {
			out.suite = r.leadsOn(l)
		}
	}
	door := l.Kind == plan.LinkDoor || l.Kind == plan.LinkExterior
	overhead := slices.ContainsFunc(r.b.House.Doors, func(d plan.Door) bool { return d.ID == l.Of && d.Leaf == plan.Overhead })
	if door && r.outdoor(l.V) && !r.outdoor(l.U) && r.deadEnd>>l.U&1 == 0 && !overhead {
		for u, unit := range r.brief.Units {
			out.entry[u] = r.opensTo(l.V, unit.EntryFrom)
		}
	}
	return out
}

// toCents and toHundredths round as take-offs and bills are rounded.
func toCents(v float64) float64 { return math.Round(v*100) / 100 }

func toHundredths(v float64) float64 { return math.Round(v*100) / 100 }

// parting prices the works of a link whose ends part: between the units, and
// between a unit and what is common, where a way stays and needs a door.
func (r *reference) parting(l plan.Link) (apart, shared float64) {
	if l.V == plan.Outside || l.Kind == plan.LinkExterior {
		return 0, 0
	}
	p := r.prices
	length, area := toHundredths(l.Length), toHundredths(l.AreaM2)
	inside := !r.outdoor(l.U) && !r.outdoor(l.V)
	switch l.Kind {
	case plan.LinkDoor:
		apart, shared = p.SealDoor, p.NewDoor.Each
	case plan.LinkOpening:
		apart, shared = p.SealOpening, p.SealOpening+p.NewDoor.Each
	case plan.LinkOpen:
		apart = area * p.SeparatingWall.PerM2
		shared = apart + p.NewDoor.Each
		if r.outdoor(l.U) && r.outdoor(l.V) {
			apart = length * p.Fence.PerM
		}
	case plan.LinkSide:
		apart = area * p.SeparatingWall.PerM2
		shared = apart
	case plan.LinkStair:
		apart = p.CloseStair.Each + area*p.CloseStair.PerM2
		shared = apart + p.NewDoor.Each
	case plan.LinkWall:
		apart = area * p.UpgradeWall
		shared = apart
	case plan.LinkFloor:
		apart = area * p.UpgradeFloor
		shared = apart
	}
	if !inside {
		shared = 0 // ground that is shared is open to both
	}
	return toCents(apart), toCents(shared)
}

// noise prices a noisy room against a bedroom.
func (r *reference) noise(l plan.Link) float64 {
	if l.Kind != plan.LinkWall && l.Kind != plan.LinkFloor {
		return 0
	}
	is := func(c int, uses ...plan.Use) bool {
		cell := r.b.Cells[c]
		return slices.Contains(uses, cell.Use) || slices.ContainsFunc(cell.Also, func(u plan.Use) bool { return slices.Contains(uses, u) })
	}
	loud := func(c int) bool {
		return r.b.Cells[c].Flight || is(c, plan.Kitchen, plan.Living, plan.Family, plan.Laundry, plan.Mechanical, plan.Garage, plan.Bathroom)
	}
	quiet := func(c int) bool { return is(c, plan.Bedroom) && !r.b.Cells[c].Through }
	if loud(l.U) && quiet(l.V) || loud(l.V) && quiet(l.U) {
		return toCents(toHundredths(l.AreaM2) * r.prices.Priorities.Noise * r.brief.Priorities.Noise)
	}
	return 0
}

// newDoor prices a doorway through a wall, or gives -1 where none can be made.
func (r *reference) newDoor(l plan.Link) float64 {
	if l.Kind != plan.LinkWall && l.Kind != plan.LinkExterior || l.Height < 2.03 {
		return -1
	}
	u := r.b.Cells[l.U]
	if u.Flight || r.left(u.Of) || r.left(l.Marks...) || !r.roomForDoor(l) {
		return -1
	}
	if l.Kind == plan.LinkWall {
		v := r.b.Cells[l.V]
		if v.Flight || r.left(v.Of) || math.Abs(l.Rise) > 0.05 {
			return -1
		}
		price := r.prices.NewDoor.Each
		if l.Bearing {
			price += r.prices.NewDoor.Lintel
		}
		return toCents(price)
	}
	if r.deadEnd>>l.U&1 != 0 {
		return -1
	}
	ground := 0.0
	switch {
	case l.V != plan.Outside && r.left(r.b.Cells[l.V].Of):
		return -1
	case l.V != plan.Outside:
		ground = r.b.Cells[l.V].Floor
	case slices.ContainsFunc(r.b.Cells, func(c plan.Cell) bool { return c.Outdoor }):
		return -1 // a wall of which the survey does not say what lies beyond it
	default:
		ground = r.gradeGuessed()
	}
	if up := u.Floor - ground; up > 2 || up < -3 {
		return -1
	}
	price := r.prices.NewEntry.Each + toHundredths(math.Abs(u.Floor-ground))*r.prices.NewEntry.StepsM
	if l.Bearing {
		price += r.prices.NewEntry.Lintel
	}
	return toCents(price)
}

// gradeGuessed is the grade of the survey, else the lowest floor that a door
// leads out from.
func (r *reference) gradeGuessed() float64 {
	if r.b.House.GradeSaid {
		return r.b.House.Grade
	}
	lowest := math.Inf(1)
	for _, l := range r.b.Links {
		if l.Kind == plan.LinkDoor && l.V == plan.Outside {
			lowest = math.Min(lowest, r.b.Cells[l.U].Floor)
		}
	}
	return lowest
}

// roomForDoor walks along each run of the wall millimetre by millimetre and
// looks for 0.90 m of it with 0.12 m more on either side, clear of its ends
// and of what stands in it.
func (r *reference) roomForDoor(l plan.Link) bool {
	return slices.ContainsFunc(l.Runs, func(run geom.Segment) bool { return r.roomInRun(l, run) })
}

func (r *reference) roomInRun(l plan.Link, run geom.Segment) bool {
	n := int(math.Round(run.Length() * 1000))
	taken := make([]bool, n)
	stands := func(level int, line geom.Segment) {
		same := level == l.Level || level == r.b.Cells[l.U].Level || l.V != plan.Outside && level == r.b.Cells[l.V].Level
		band := l.Thickness/2 + 0.12
		if !same || math.Abs(run.Off(line.A)) > band || math.Abs(run.Off(line.B)) > band {
			return
		}
		a, b := run.Along(line.A), run.Along(line.B)
		for i := range taken {
			if x := (float64(i) + 0.5) / 1000; x > math.Min(a, b) && x < math.Max(a, b) {
				taken[i] = true
			}
		}
	}
	for _, d := range r.b.House.Doors {
		stands(d.Level, d.Line)
	}
	for _, w := range r.b.House.Windows {
		stands(w.Level, w.Line)
	}
	for i, x := range r.b.House.Fixtures {
		if c := r.b.FixtureCell[i]; x.Footprint == nil || x.Use == "electrical_panel" || c == plan.Outside || c != l.U && c != l.V {
			continue
		}
		for k := range taken {
			at := (float64(k) + 0.5) / 1000
			for off := l.Thickness/2 + 0.005; off < l.Thickness/2+0.80; off += 0.01 {
				if x.Footprint.Contains(run.Beside(at, off)) == geom.Inside || x.Footprint.Contains(run.Beside(at, -off)) == geom.Inside {
					taken[k] = true
				}
			}
		}
	}
	clear := 0
	for _, t := range taken {
		clear++
		if t {
			clear = 0
		}
		if clear >= 1140 {
			return true
		}
	}
	return false
}

// leadsOn gives the dead end through which the other end of a passage, its own
// bathroom or closet, is reached; -1 where there is none. A laundry or
// mechanical room counts as a closet where dead ends alone lead to it.
func (r *reference) leadsOn(l plan.Link) int {
	rank := map[plan.Use]int{plan.Bedroom: 1, plan.Bathroom: 2, plan.PowderRoom: 3, plan.Laundry: 4, plan.Mechanical: 5, plan.Closet: 6}
	if from, is := r.wouldLeadOn(l); is {
		return from
	}
	ru, rv := rank[r.b.Cells[l.U].Use], rank[r.b.Cells[l.V].Use]
	if ru == 0 || rv == 0 || r.b.Cells[l.U].Through || r.b.Cells[l.V].Through {
		return -1
	}
	fromRoom := func(c int) bool {
		for _, k := range r.b.Links {
			if k.V == plan.Outside || !k.Passage() || k.U != c && k.V != c {
				continue
			}
			far := k.U + k.V - c
			if r.rooms>>far&1 != 0 && r.deadEnd>>far&1 == 0 {
				return true
			}
		}
		return false
	}
	from, to := l.U, l.V
	fu, fv := fromRoom(l.U), fromRoom(l.V)
	if fv && !fu || fu == fv && rv < ru {
		from, to = to, from
	}
	switch r.b.Cells[to].Use {
	case plan.Bathroom, plan.PowderRoom, plan.Closet:
		return from
	case plan.Laundry, plan.Mechanical:
		if !fromRoom(to) {
			return from
		}
	}
	return -1
}

// wouldLeadOn tells of a passage between a dead end and a room that is none
// whether the room, once it is one, leads on to its own bathroom or closet.
func (r *reference) wouldLeadOn(l plan.Link) (from int, is bool) {
	from, to := l.U, l.V
	if r.deadEnd>>from&1 != 0 {
		from, to = to, from
	}
	if r.deadEnd>>from&1 != 0 || r.deadEnd>>to&1 == 0 || r.rooms>>from&1 == 0 {
		return -1, false
	}
	switch r.b.Cells[to].Use {
	case plan.Closet:
		return from, true
	case plan.Bathroom, plan.PowderRoom: // a store may become a laundry, which has neither
		store := slices.Contains([]plan.Use{plan.Storage, plan.Pantry}, r.b.Cells[from].Use)
		return from, !store || r.serves(from, int(plan.HasLaundry))
	}
	return -1, false
}

// opensTo tells whether a door on to v keeps the brief's entry_from: v is the
// place, or the place is the public way and v lies on its side of the house.
func (r *reference) opensTo(v int, from string) bool {
	if from == "" {
		return true
	}
	if v == plan.Outside {
		return false
	}
	meant := uint64(0)
	for c, cell := range r.b.Cells {
		if cell.ID == from {
			meant = 1 << c
			break
		}
		if string(cell.Use) == from && cell.Outdoor {
			meant |= 1 << c
		}
	}
	if meant>>v&1 != 0 {
		return true
	}
	walked := meant & r.public
	for again := true; again; {
		again = false
		for _, l := range r.b.Links {
			if l.V == plan.Outside || !l.Passage() || !r.outdoor(l.U) || !r.outdoor(l.V) {
				continue
			}
			for _, e := range [2][2]int{{l.U, l.V}, {l.V, l.U}} {
				if walked>>e[0]&1 != 0 && walked>>e[1]&1 == 0 && r.public>>e[1]&1 == 0 {
					walked |= 1 << e[1]
					again = true
				}
			}
		}
	}
	return walked>>v&1 != 0
}
