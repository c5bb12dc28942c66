package plan

import (
	"slices"
	"sync"

	"moiety/geom"
)

// Fit is one way for a cell to take on functions: new fixtures in true size,
// each against a wall and with the floor that its use needs, clear of doors
// and their swings, of flights, of windows lower than it, and of what stays.
//
// A fit is looked for in the room's own coordinates, so that it turns with the
// house and hangs neither on the order of features nor on which way round the
// room was drawn. Clear spaces may overlap each other, the approach of a door
// and its swing; bodies may not. Clear space is floor of the cell itself, but
// for what stands behind the door of a closet and is used from before it.
// Screening only: sizes are those of the trade, and whoever supplies and
// installs the fixtures decides on theirs.
type Fit struct {
	Cell      int // index into Building.Cells
	Functions []Function
	Fixtures  []Fixture     // new ones, each with its footprint; ids are new-USE-CELL
	Removed   []int         // of House.Fixtures: those that go
	Worktops  []geom.Region // of a kitchen: sink and, beside it, what appliances leave
	Closets   []BuiltCloset // built around machines, and bathrooms built into a room
	Clear     []geom.Region // floor that stays free before the new fixtures, in another cell too
	DrainM    float64       // the longest new drain branch on plan, to its stack
	Stack     string        // fixture or, where none was surveyed, room that it drains to; "" unknown
	Stacked   bool          // the dryer on the washer, with one footprint

	merit    [6]int
	clash    string // what it could not stand clear of
	branches []branch
	bodies   []patch // in the frame
	frame    roomFrame
}

// branch is the drain of one new fixture.
type branch struct {
	use, stack string
	length     float64
}

// fitting keeps what was found out about fits, for one Building.
type fitting struct {
	sync.Mutex
	rooms  map[int]*fitRoom
	sets   map[fitKey]knownFits
	offers map[int]*cellOffer
	stacks *stackPoints
	links  [][]int // of Building.Links, per cell
}

type fitKey struct {
	cell int
	set  functionSet
}

// fitsTogether gives the ways for a cell to take on functions that it lacks,
// the best first: the shortest drain to the metre, the better of several
// layouts (a bath before a shower, a double bed before a single one, machines
// beside each other before one on the other), the longer worktop, no door that
// swings over clear floor, backs on walls with plumbing, all drains together.
// At most mostKept, which really differ. It is nil where they do not fit.
// Those of the set that the cell has stay, as does what it is used for unless
// one of the new ones replaces that. A Building may be asked by several
// goroutines.
func (b *Building) fitsTogether(c int, set functionSet) []Fit {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	return b.fitSet(c, set, mostKept)
}

// fitSet is fitsTogether under the lock, for as many as are enough.
func (b *Building) fitSet(c int, set functionSet, enough int) []Fit {
	key := fitKey{c, set}
	if known, ok := b.fitting.sets[key]; ok && (known.enough >= enough || len(known.fits) < known.enough) {
		return known.fits
	}
	if b.fitting.sets == nil {
		b.fitting.sets = map[fitKey]knownFits{}
	}
	found := b.findFits(c, set, nil, enough)
	b.fitting.sets[key] = knownFits{found, enough}
	return found
}

// knownFits are the best so many fits.
type knownFits struct {
	fits   []Fit
	enough int
}

// fitsBeside is fitsTogether clear of new doorways as well.
func (b *Building) fitsBeside(c int, set functionSet, doors []Door) []Fit {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	return b.findFits(c, set, doors, mostKept)
}

// linksOf lists the links of a cell, by index.
func (b *Building) linksOf(c int) []int {
	if b.fitting.links == nil {
		b.fitting.links = make([][]int, len(b.Cells))
		for i, l := range b.Links {
			b.fitting.links[l.U] = append(b.fitting.links[l.U], i)
			if l.V != Outside && l.V != l.U {
				b.fitting.links[l.V] = append(b.fitting.links[l.V], i)
			}
		}
	}
	return b.fitting.links[c]
}

// room lays a cell out once.
func (b *Building) room(c int) *fitRoom {
	if b.fitting.rooms == nil {
		b.fitting.rooms = map[int]*fitRoom{}
	}
	if b.fitting.rooms[c] == nil {
		b.fitting.rooms[c] = newFitRoom(b, c)
	}
	return b.fitting.rooms[c]
}

// findFits looks for fits: with everything that is there and, where the set
// changes the use of the room, without the fixtures that only the old use has.
func (b *Building) findFits(c int, set functionSet, doors []Door, enough int) []Fit {
	if !b.goTogether(c, set) || corners(b.Cells[c].Region) > mostCorners {
		return nil
	}
	fresh := set.without(b.hasAll(c))
	if fresh == 0 {
		return []Fit{{Cell: c, Functions: set.list()}}
	}
	r := b.room(c)
	if len(doors) > 0 {
		r = r.with(doors)
	}
	gone := [][]int{nil}
	if b.replacesUse(c, set) {
		if old := b.servesNone(c, set); len(old) > 0 {
			gone = append(gone, old)
		}
	}
	for _, removed := range gone {
		if fits := r.less(removed).fit(set, fresh, removed, enough); len(fits) > 0 {
			return fits
		}
	}
	return nil
}

// mostCorners is the number of corners beyond which a room is not thought of
// for a conversion: four times those of a round room with a bay.
const mostCorners = 200

func corners(r geom.Region) int {
	n := 0
	for _, ring := range r.Rings() {
		n += len(ring)
	}
	return n
}

// less is the room without some of its fixtures.
func (r *fitRoom) less(removed []int) *fitRoom {
	if len(removed) == 0 {
		return r
	}
	return r.changed(slices.DeleteFunc(slices.Clone(r.obstacles), func(o obstacle) bool {
		return (o.kind == isStanding || o.kind == isService) && slices.Contains(removed, o.fixture)
	}))
}

// with is the room with more doors.
func (r *fitRoom) with(doors []Door) *fitRoom {
	more := r.changed(slices.Clone(r.obstacles))
	for i := range doors {
		d := &doors[i]
		side, at, off, ok := locate(r.sides, r.frame.in(d.Line.A), r.frame.in(d.Line.B))
		if !ok {
			continue
		}
		more.addDoor(roomOpening{door: d, side: side, at: at, deep: max(-2*off, 0)}, r.sides, r.cell)
		more.ways = append(more.ways[:len(more.ways):len(more.ways)], wayIn{r.sides[side].rect(at, span{0, doorApproach}), d})
	}
	return more
}

// changed is the room with other obstacles.
func (r *fitRoom) changed(obstacles []obstacle) *fitRoom {
	c := *r
	c.obstacles, c.ground = obstacles, nil
	c.runs = slices.Clone(r.runs)
	for i := range c.runs {
		c.runs[i].barred = map[barKey][]span{}
	}
	return &c
}

// fit places the fresh functions of a set in as many ways as are enough.
func (r *fitRoom) fit(set, fresh functionSet, removed []int, enough int) []Fit {
	wants := r.wants(set, fresh, removed)
	var leaves func(arrangement) bool
	switch {
	case set.has(HasLiving) && (fresh.has(HasLiving) || fresh.has(HasKitchen)):
		leaves = r.leavesLiving
	case r.buildsClosets(set) && fresh&setOf(HasLaundry, HasHeat, HasHotWater) != 0:
		leaves = func(a arrangement) bool { return r.leavesRoom(a, set) }
	}
	starts := [][]placed{nil}
	if fresh.has(HasBedroom) {
		starts = r.escapes()
	}
	var found []arrangement
	for _, given := range starts {
		found = append(found, r.search(wants, given, leaves, enough)...)
	}
	slices.SortStableFunc(found, func(a, b arrangement) int { return slices.Compare(a.merit[:], b.merit[:]) })
	var out []Fit
	for _, a := range found {
		if len(out) < enough {
			out = append(out, r.result(a, set, removed))
		}
	}
	return out
}

// result gives an arrangement in the house's coordinates.
func (r *fitRoom) result(a arrangement, set functionSet, removed []int) Fit {
	f := Fit{
		Cell: r.cell, Functions: set.list(), Removed: removed, DrainM: hundredth(a.drain), Stack: a.stack,
		merit: a.merit, bodies: a.patches(aBody), frame: r.frame, Closets: r.closets(a),
	}
	cell := &r.b.Cells[r.cell]
	for i := range a.placed {
		p := &a.placed[i]
		if p.reserved {
			continue
		}
		f.Stacked = f.Stacked || p.stacked
		if p.beyond != nil {
			f.Clear = append(f.Clear, r.frame.region(p.beyond))
		}
		for _, q := range p.all() {
			switch {
			case q.role == aClear:
				f.Clear = append(f.Clear, r.frame.region(q.patch))
			case q.role != aBody:
			default:
				if p.worktop > 0 && (q.use == "" || q.use == "sink") {
					f.Worktops = append(f.Worktops, r.frame.region(q.patch))
				}
				if q.use == "" {
					continue
				}
				if q.pipe > 0 {
					run, id, _ := r.drainFrom(r.outline(q).centre(), q.pipe)
					f.branches = append(f.branches, branch{q.use, id, run})
				}
				f.Fixtures = append(f.Fixtures, newFixture(q.use, cell, r.frame.region(r.outline(q))))
				if p.stacked {
					f.Fixtures = append(f.Fixtures, newFixture("dryer", cell, r.frame.region(r.outline(q))))
				}
			}
		}
	}
	return f
}

func newFixture(use string, cell *Cell, footprint geom.Region) Fixture {
	return Fixture{
		ID: "new-" + use + "-" + cell.ID, Use: use, Level: cell.Level,
		At: geom.FromMetres(footprint.Centroid()), Footprint: &footprint,
	}
}
