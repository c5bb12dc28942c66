package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// What stays free beside and before a candidate line.
const (
	// clearWay is the least clear width of a way indoors that the design
	// asks for where a rule set is silent: 34 in.
	clearWay = 0.86
	// groundWay is the least width of a piece of ground: a person with a
	// barrow (common practice, no source).
	groundWay = 1.2
	// approachDepth is kept clear before a door, a window or an opening, and
	// landingDepth before the foot and head of a flight.
	approachDepth = 0.80
	landingDepth  = clearWay
	// casing is what the lining of a door or window takes beside the opening
	// (common practice, no source).
	casing = 0.05
	// leastPieceM2 is the least piece of a room; leastGroundM2 of ground.
	leastPieceM2  = 0.9
	leastGroundM2 = 4.0
	// A car's place, and what is taken from a measured width before it is
	// found too narrow: more than the rounding of a turned house or of feet.
	stallWidth, stallDepth = 2.6, 5.2
	carWay                 = 2.4 // width of a drive (common practice, no source)
	widthTolerance         = 0.0008
)

// uncut has the uses of which a piece would be neither: what the survey says
// of them is kept whole.
var uncut = []Use{Bedroom, Bathroom, PowderRoom, Kitchen, Laundry, Closet, Pantry}

// cutSpace is a space that may be divided, with what a line has to keep clear
// of and what it may part.
type cutSpace struct {
	b         *Building
	c         int
	cell      *Cell
	region    geom.Region
	thickness float64 // of the new wall; 0 outdoors
	clear     float64 // width that a way through a piece must have
	marks     []cutMark
	keepOff   []keepOff
	bodies    []geom.Region // what no line crosses, though it may go along their sides
	edges     []geom.Segment
	lines     []cutLine // candidates
	spokes    []cutLine // of a space with a hole: those that end at it
}

// cutMark is something on the border of a space, or in it, that a line may
// have on one side or the other.
type cutMark struct {
	id     string // of the link, window or fixture
	of     string // as a sentence names it
	kind   cutMarkKind
	weight float64        // what it is worth to part it from another
	least  float64        // metres of it that a side must have for it to be there
	runs   []geom.Segment // a little inside the space's border
	base   geom.Segment   // on the border, the space on its left; none of a fixture
	zone   geom.Ring      // kept clear; nil none
	cars   carsWay        // where it leads cars to
	far    int            // the cell beyond a way or a wall
}

type cutMarkKind uint8

const (
	markWay       cutMarkKind = iota // a passage
	markWindow                       // of this space
	markNeighbour                    // a wall in which a new doorway could stand
	markFixture
)

// carsWay says where a way leads cars to; the greater is the better.
type carsWay uint8

const (
	noCars carsWay = iota
	toDrive
	toPublicWay
)

// keepOff is an area that the middle of a line keeps a distance from.
type keepOff struct {
	ring  geom.Ring
	clear float64
}

// probeDepth is how far inside the border marks lie.
const probeDepth = 0.03

// newCutSpace gathers what a space's lines depend on; false where the space is
// not to be divided: by its use or by what the survey says, because it is drawn
// on under the house, or is ground that does not touch it.
func (b *Building) newCutSpace(c int, thickness float64) (*cutSpace, bool) {
	cell := &b.Cells[c]
	space := b.House.space(cell.Of)
	if space == nil || !space.Divisible || cell.Public || cell.ID != cell.Of || slices.Contains(uncut, cell.Use) {
		return nil, false
	}
	s := &cutSpace{b: b, c: c, cell: cell, region: cell.Region, thickness: thickness, clear: clearWay}
	if cell.Outdoor {
		s.thickness, s.clear = 0, groundWay
		if b.underHouse(c) || !s.forCars() && !s.touchesHouse() {
			return nil, false
		}
	}
	switch cell.Use {
	case Garage, Drive, Parking, Carport:
		s.clear = stallWidth
	default:
		s.clear = math.Min(s.clear, b.width(c))
	}
	s.edges = straightSides(s.region)
	s.addWays()
	s.addWindows()
	s.addFixtures()
	s.addBodies()
	slices.SortStableFunc(s.marks, func(m, n cutMark) int { return cmp.Compare(m.id, n.id) })
	return s, true
}

// straightSides gives the sides of a region: its edges, those in one line together.
func straightSides(r geom.Region) []geom.Segment {
	var out []geom.Segment
	for _, ring := range r.Rings() {
		out = append(out, straightened(ring).Edges()...)
	}
	return out
}

// space finds a space by id; nil where there is none.
func (h *House) space(id string) *Space {
	for i := range h.Spaces {
		if h.Spaces[i].ID == id {
			return &h.Spaces[i]
		}
	}
	return nil
}

// underHouse tells whether ground was drawn on under the house.
func (b *Building) underHouse(c int) bool {
	for level := range b.Levels {
		over, err := geom.Intersection(b.Levels[level].Outline, geom.Shape{b.Cells[c].Region})
		if err != nil || over.AreaM2() > leastPieceM2 {
			return b.House.Levels[level].Floor < b.Cells[c].Floor+usualHeight
		}
	}
	return false
}

// touchesHouse tells whether a wall or door of the house stands on the ground.
func (s *cutSpace) touchesHouse() bool {
	return slices.ContainsFunc(s.b.Links, func(l Link) bool {
		return l.V == s.c && !s.b.Cells[l.U].Outdoor
	})
}

// addWays adds the passages, and the walls in which new doorways could stand.
func (s *cutSpace) addWays() {
	for i := range s.b.Links {
		l := &s.b.Links[i]
		if l.U != s.c && l.V != s.c {
			continue
		}
		m := cutMark{id: l.ID, of: s.nameOf(l), weight: 1, least: leastPassage, far: l.other(s.c)}
		switch l.Kind {
		case LinkDoor, LinkOpening:
			base, ok := s.baseOf(l.Line)
			if !ok || !l.Passage() {
				continue
			}
			m.base, m.weight = base, s.worth(l)
			m.zone = s.zone(base, s.approach(l), casing)
			m.least = base.Length() / 2
		case LinkStair:
			base, ok := s.baseOf(l.Line)
			if !ok {
				continue
			}
			// Where the flight is open at its side, the wall beside it stands half on it.
			m.base, m.weight = base, 2
			m.zone = s.zone(base, landingDepth, -s.thickness/2)
			m.least = base.Length() / 2
		case LinkOpen:
			m.runs = s.inside(l)
			m.base = m.runs[0]
			m.weight, m.least = s.worth(l), s.clear
			switch far := &s.b.Cells[l.other(s.c)]; {
			case far.Public:
				m.cars = toPublicWay
			case far.Use == Drive:
				m.cars = toDrive
			}
		case LinkWall, LinkExterior:
			m.runs = s.inside(l)
			m.base = m.runs[0]
			m.kind, m.weight, m.least = markNeighbour, 0.1, newDoorWidth+2*doorwayMargin
		default:
			continue
		}
		if m.runs == nil {
			m.runs = []geom.Segment{movedIn(m.base)}
		}
		s.marks = append(s.marks, m)
	}
}

// worth is what it is worth to part a passage from another: ways in from
// outdoors and flights first, closets and neighbouring ground last.
func (s *cutSpace) worth(l *Link) float64 {
	far := l.other(s.c)
	switch {
	case far == Outside:
		return 2
	case s.b.Cells[far].Outdoor != s.cell.Outdoor, s.b.Cells[far].Public:
		return 2
	case s.cell.Outdoor, slices.Contains([]Use{Closet, Pantry}, s.b.Cells[far].Use):
		return 0.5
	}
	return 1
}

// nameOf is how a sentence names a link.
func (s *cutSpace) nameOf(l *Link) string {
	if l.Of != "" {
		return l.Of
	}
	if far := l.other(s.c); far != Outside {
		return s.b.Cells[far].ID
	}
	return "outside"
}

// approach is the depth that a door needs clear before it on the space's side.
func (s *cutSpace) approach(l *Link) float64 {
	d := s.b.House.door(l.Of)
	if d == nil || d.OpensInto != s.cell.Of {
		return approachDepth
	}
	switch d.Leaf {
	case Single:
		return math.Max(approachDepth, l.Length)
	case Overhead:
		return math.Max(approachDepth, d.Height)
	}
	return approachDepth
}

// baseOf finds the stretch of the space's border that a door, window or
// flight's end stands before, with the space on its left.
func (s *cutSpace) baseOf(line geom.Segment) (geom.Segment, bool) {
	best, found := math.Inf(1), geom.Segment{}
	d, mid := along(line), line.Mid()
	for _, e := range s.edges {
		f := along(e)
		if math.Abs(d.dx*f.dx+d.dy*f.dy) < 0.9 {
			continue
		}
		a, z := e.Along(line.A), e.Along(line.B)
		at := span{min(a, z), max(a, z)}
		beside := max(0, -at.mid(), at.mid()-e.Length())
		off := math.Abs(e.Off(mid)) + 2*beside
		if off < best-1e-6 {
			best, found = off, geom.Segment{A: e.At(at.from), B: e.At(at.to)}
		}
	}
	return found, best <= thickest+offWall
}

func (s span) mid() float64 { return (s.from + s.to) / 2 }

// zone is the rectangle before a stretch of the border, wider by margin at
// either end.
func (s *cutSpace) zone(base geom.Segment, depth, margin float64) geom.Ring {
	length := base.Length()
	return geom.Ring{
		base.Beside(-margin, 0), base.Beside(length+margin, 0), base.Beside(length+margin, depth), base.Beside(-margin, depth),
	}
}

// movedIn is a stretch of the border moved a little into the space.
func movedIn(e geom.Segment) geom.Segment {
	return geom.Segment{A: e.Beside(0, probeDepth), B: e.Beside(e.Length(), probeDepth)}
}

// inside gives the runs of a boundary moved from its middle into the space.
func (s *cutSpace) inside(l *Link) []geom.Segment {
	var out []geom.Segment
	for _, r := range l.Runs {
		if l.U != s.c {
			r = r.Reverse()
		}
		off := l.Thickness/2 + probeDepth
		if off > probeDepth+geom.Coincide || !s.cell.Outdoor {
			out = append(out, geom.Segment{A: r.Beside(0, off), B: r.Beside(r.Length(), off)})
			continue
		}
		// Ground is paced out: the boundary is the edge of one of the two.
		if base, ok := s.baseOf(r); ok {
			r = base
		}
		out = append(out, movedIn(r))
	}
	return out
}

// addWindows adds the windows in the space's walls, and outdoors those that
// look on it.
func (s *cutSpace) addWindows() {
	for i := range s.b.House.Windows {
		w := &s.b.House.Windows[i]
		if sides := s.b.WindowCells[i]; sides[0] != s.c && sides[1] != s.c {
			continue
		}
		base, ok := s.baseOf(w.Line)
		if !ok {
			continue
		}
		m := cutMark{id: w.ID, of: w.ID, kind: markWindow, weight: 0.25, least: base.Length() / 2, base: base, runs: []geom.Segment{movedIn(base)}}
		m.zone = s.zone(base, approachDepth, casing)
		if s.cell.Outdoor {
			m.weight, m.zone = 0, s.zone(base, probeDepth, casing)
		}
		s.marks = append(s.marks, m)
	}
}

// addFixtures keeps lines off fixtures.
func (s *cutSpace) addFixtures() {
	for i := range s.b.House.Fixtures {
		f := &s.b.House.Fixtures[i]
		if s.b.FixtureCell[i] != s.c {
			continue
		}
		m := cutMark{id: f.ID, of: f.ID, kind: markFixture}
		if at := f.centre(); s.region.Contains(at) == geom.Inside {
			m.runs = []geom.Segment{{A: at, B: at}}
			m.weight = 0.1
		}
		s.marks = append(s.marks, m)
		if f.Footprint != nil {
			s.keepOff = append(s.keepOff, keepOff{f.Footprint.Outer, s.thickness / 2})
		} else {
			s.keepOff = append(s.keepOff, keepOff{geom.Ring{f.At}, s.thickness/2 + probeDepth})
		}
	}
}

// addBodies keeps lines off flights, and outdoors off what stands on the
// ground: decks and porches of other levels. A line may go along their sides.
func (s *cutSpace) addBodies() {
	for i := range s.b.Cells {
		c := &s.b.Cells[i]
		if i == s.c || !c.Region.Bounds().Meets(s.region.Bounds()) {
			continue
		}
		flight := c.Flight && (c.Level == s.cell.Level || c.To == s.cell.Level)
		stands := s.cell.Outdoor && c.Outdoor && c.Level != s.cell.Level && math.Abs(c.Floor-s.cell.Floor) < usualHeight
		if flight || stands {
			s.bodies = append(s.bodies, c.Region)
		}
	}
	for _, m := range s.marks {
		if m.zone != nil {
			s.keepOff = append(s.keepOff, keepOff{m.zone, s.thickness / 2})
		}
	}
}
