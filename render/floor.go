package render

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// floor is what one plan shows: a level of a building as it was surveyed, as
// a scheme leaves it, or as one unit of a scheme has it.
type floor struct {
	b     *plan.Building
	s     *plan.Scheme // nil: as surveyed
	unit  string       // "A" or "B": that unit alone; "" for all
	level int
	turn  float64 // degrees that the house is turned on the sheet
	m     measure

	rooms    []room
	flights  []flight
	doors    []door
	windows  []window
	fixtures []fixture
	outdoors []room // ground and open structures beside the level
	parts    []wallPart

	demolition *demolition // of a plan that shows what is taken out
	plain      bool        // without dimensions and tags of openings

	found *workedOut // shared by the floors of a set

	crossings []crossing // marked on plans of services

	safety  bool     // a plan of life safety: alarms, ratings and ways out, and little else
	travels []travel // ways out, drawn on such a plan

	dividings []dividing
	section   *sectionMark // nil: none is marked
	noise     []noiseSign
	outline   geom.Shape
	cut       geom.Shape // walls as they stand, openings taken out

	own, others geom.Shape // of the walls that stand, those shown in full and those shown pale
	changed     [wallKinds]geom.Shape
	separation  geom.Shape // all that separates the units, sealed openings too
}

// room is one cell as a plan shows it.
type room struct {
	cell  int
	owner plan.Owner
	mine  bool // shown in full: every room, but on a unit's own sheet only its own
}

// withTurn is the same floor for a sheet on which the house is turned so.
func (f *floor) withTurn(degrees float64) *floor {
	g := *f
	g.turn = degrees
	return &g
}

// newFloor gathers what a level shows.
func (p *project) newFloor(b *plan.Building, s *plan.Scheme, unit string, level int) (*floor, error) {
	f := &floor{b: b, s: s, unit: unit, level: level, turn: p.turn, m: p.m, found: p.found}
	f.gatherRooms()
	f.gatherOpenings()
	f.gatherFlights()
	f.gatherFixtures()
	f.gatherOutdoors()
	if err := f.cutWalls(); err != nil {
		return nil, err
	}
	return f, nil
}

// owner tells whose a cell is; Nobody's in a survey.
func (f *floor) owner(cell int) plan.Owner {
	if f.s == nil || cell < 0 || cell >= len(f.s.Owners) {
		return plan.Nobody
	}
	return f.s.Owners[cell]
}

// shows tells whether a cell is drawn in full.
func (f *floor) shows(cell int) bool {
	if f.unit == "" {
		return true
	}
	o := f.owner(cell)
	return o.String() == f.unit || o == plan.Common
}

// use is the use that a cell has in what is drawn.
func (f *floor) use(cell int) plan.Use {
	if f.s != nil && cell < len(f.s.Uses) {
		return f.s.Uses[cell]
	}
	return f.b.Cells[cell].Use
}

func (f *floor) gatherRooms() {
	for i := range f.b.Cells {
		c := &f.b.Cells[i]
		if !c.Flight && c.Level == f.level && !f.b.House.Levels[c.Level].Outdoor {
			f.rooms = append(f.rooms, room{cell: i, owner: f.owner(i), mine: f.shows(i)})
		}
	}
}

// structures are the outdoor uses that are built: they are drawn beside the
// house in full. Ground is only drawn where it meets the house.
var structures = []plan.Use{plan.Porch, plan.Deck, plan.Balcony, plan.Carport}

// besideHouse is how far from the house, in metres, an outdoor structure may
// stand and still be drawn on the plan of the level that it belongs to.
const besideHouse = 0.65

// stepDown is how much lower than a level, in metres, the ground beside it
// may lie: a plan shows the ground that is stepped out on, up to about half a storey.
const stepDown = 1.5

// gatherOutdoors finds the outdoor cells beside the level: those on the level
// itself, and those of the site for the level nearest to the ground.
func (f *floor) gatherOutdoors() {
	site := f.level == groundLevel(f.b)
	for i := range f.b.Cells {
		c := &f.b.Cells[i]
		if !c.Outdoor || c.Flight {
			continue
		}
		if c.Level == f.level {
			continue // a room of the level already
		}
		if site && f.b.House.Levels[c.Level].Outdoor && math.Abs(c.Floor-f.b.House.Levels[f.level].Floor) <= stepDown {
			f.outdoors = append(f.outdoors, room{cell: i, owner: f.owner(i), mine: f.shows(i)})
		}
	}
}

// groundLevel is the indoor level that most doors leave to the ground; of
// several the one whose floor is nearest to it.
func groundLevel(b *plan.Building) int {
	h := b.House
	doors := make([]int, len(h.Levels))
	for _, l := range b.Links {
		if l.Kind == plan.LinkDoor && (l.V == plan.Outside || b.Cells[l.V].Outdoor != b.Cells[l.U].Outdoor) {
			doors[b.Cells[l.U].Level]++
		}
	}
	best := -1
	for i, l := range h.Levels {
		if l.Outdoor {
			continue
		}
		if best < 0 || doors[i] > doors[best] ||
			doors[i] == doors[best] && math.Abs(l.Floor-h.Grade) < math.Abs(h.Levels[best].Floor-h.Grade) {
			best = i
		}
	}
	return best
}

// cellAt finds the room of the level that a point lies in.
func (f *floor) cellAt(p geom.Pt) int {
	for _, r := range f.rooms {
		if f.b.Cells[r.cell].Region.Contains(p) == geom.Inside {
			return r.cell
		}
	}
	for i := range f.b.Cells {
		c := &f.b.Cells[i]
		if c.Flight && (c.Level == f.level || c.To == f.level) && c.Region.Contains(p) == geom.Inside {
			return i
		}
	}
	return plan.Outside
}

// structure tells whether an outdoor cell is built.
func (f *floor) structure(cell int) bool { return slices.Contains(structures, f.b.Cells[cell].Use) }

// mainDirection is the direction, in degrees over -45 to 45, that most of the
// house's walls run along or square to, by their length.
func mainDirection(b *plan.Building) float64 {
	const bin = 0.05 // degrees: finer than a wall is set out
	lengths := map[int]float64{}
	for i := range b.Cells {
		c := &b.Cells[i]
		if c.Outdoor || c.Flight {
			continue
		}
		for _, e := range c.Region.Edges() {
			lengths[int(math.Round(quarter(e)/bin))] += e.Length()
		}
	}
	directions := slices.Sorted(maps.Keys(lengths))
	slices.SortStableFunc(directions, func(a, b int) int { return cmp.Compare(abs(a), abs(b)) })
	best, most := 0, 0.0
	for _, d := range directions {
		if lengths[d] > most+1e-6 {
			best, most = d, lengths[d]
		}
	}
	// The bin found says which edges to average, so that the result is as
	// true as the survey.
	var sum, weight float64
	for i := range b.Cells {
		c := &b.Cells[i]
		if c.Outdoor || c.Flight {
			continue
		}
		for _, e := range c.Region.Edges() {
			if q := quarter(e); math.Abs(q-float64(best)*bin) <= bin {
				sum += q * e.Length()
				weight += e.Length()
			}
		}
	}
	if weight == 0 {
		return 0
	}
	if d := sum / weight; math.Abs(d) > 0.005 {
		return d
	}
	return 0
}

func abs(i int) int {
	if i < 0 {
		return -i
	}
	return i
}

// quarter is the direction of an edge folded into -45 to 45 degrees.
func quarter(e geom.Segment) float64 {
	d := e.B.Sub(e.A)
	a := math.Mod(math.Atan2(float64(d.Y), float64(d.X))*180/math.Pi, 90)
	if a > 45 {
		a -= 90
	}
	if a <= -45 {
		a += 90
	}
	return a
}
