package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// Section is an upright cut through a divided house along a line. Distances
// are metres along the line from its start, heights are elevations. What lies
// to the left of the line is behind it.
type Section struct {
	Line    geom.Segment
	Rooms   []SectionRoom // by level from the lowest, then along the line
	Walls   []SectionWall // likewise
	Slabs   []SectionSlab
	Flights []SectionFlight
	Ground  []SectionGround // what lies outdoors along the line, in its order
}

// SectionRoom is the part of an indoor cell that the line runs through. The
// room of a flight goes up to the ceiling over its head, but where a space was
// surveyed over its low end to that of the level of its foot.
type SectionRoom struct {
	Cell           int
	From, To       float64
	Floor, Ceiling float64
}

// SectionWall is a wall that the line cuts, from the floor to the ceiling of
// its level.
type SectionWall struct {
	Level      int
	From, To   float64
	Low, High  float64
	Separating bool // between the two units, or a unit and what is shared
	New        bool // built where a space is divided
}

// SectionSlab is what lies between a ceiling and the floor above it.
type SectionSlab struct {
	From, To     float64
	Low, High    float64
	Below, Above int // cells
	Separating   bool
}

// SectionFlight is a flight cut lengthwise: its nosings rise evenly from foot
// to head, the first and the last riser at the ends of the walk.
type SectionFlight struct {
	Cell       int
	Foot, Head float64 // along the line
	Low, High  float64 // elevations of the floors that it joins
	Risers     int     // as surveyed; 0 where they were not counted
}

// SectionGround is ground, or a surface outdoors, along the line.
type SectionGround struct {
	From, To  float64
	Elevation float64
}

// sectionReach is how far a section goes on beyond the house, in metres.
const sectionReach = 1.5

// Section cuts the scheme along its most telling line: one that runs up
// flights, through the separation and through as many levels as there are.
// ok is false where the house has no indoor level.
func (s *Scheme) Section() (section Section, ok bool) {
	best := math.Inf(-1)
	for _, line := range s.sectionLines() {
		cut := s.sectionAlong(line)
		if worth := s.sectionWorth(&cut); worth > best+1e-6 {
			section, best, ok = cut, worth, true
		}
	}
	return section, ok
}

// sectionLines gives the lines to choose from: up the middle of every straight
// leg of a flight, square to the middle of every separating wall, and along and
// across the middle of the house.
func (s *Scheme) sectionLines() []geom.Segment {
	b := s.Building
	var box geom.Shape
	for i := range b.Levels {
		box = append(box, b.Levels[i].Outline...)
	}
	bounds := box.Bounds()
	if bounds.Empty() {
		return nil
	}
	reach := bounds.Min.Distance(bounds.Max)
	through := func(at geom.Pt, along geom.Segment) geom.Segment {
		base := geom.Segment{A: at, B: at.Add(along.B.Sub(along.A))}
		line := geom.Segment{A: base.At(-reach), B: base.At(reach)}
		if line.B.X < line.A.X || line.B.X == line.A.X && line.B.Y < line.A.Y {
			line.A, line.B = line.B, line.A
		}
		return line
	}
	var out []geom.Segment
	for i := range b.House.Stairs {
		walk := b.House.Stairs[i].Walk
		for k := range len(walk) - 1 {
			leg := geom.Segment{A: walk[k], B: walk[k+1]}
			if leg.Length() > 0.5 {
				out = append(out, through(leg.Mid(), leg))
			}
		}
	}
	for _, w := range s.Walls {
		if (w.State == Separating || w.State == New) && !w.Fence && w.Line.Length() > 0.5 {
			turned := geom.Segment{A: w.Line.Mid(), B: w.Line.Beside(w.Line.Length()/2, 1)}
			out = append(out, through(w.Line.Mid(), turned))
		}
	}
	longest := geom.Segment{}
	for _, e := range box.Edges() {
		if e.Length() > longest.Length()+geom.Coincide {
			longest = e
		}
	}
	middle := bounds.Centre()
	out = append(out, through(middle, longest), through(middle, geom.Segment{A: longest.Mid(), B: longest.Beside(longest.Length()/2, 1)}))
	return out
}

// sectionWorth tells how much a section explains: flights most, then what
// separates the units, then rooms and levels.
func (s *Scheme) sectionWorth(c *Section) float64 {
	worth := 4 * float64(len(c.Flights))
	for _, w := range c.Walls {
		if w.Separating {
			worth += 2
		}
	}
	for _, f := range c.Slabs {
		if f.Separating {
			worth += 0.5 * (f.To - f.From)
		}
	}
	levels := map[int]bool{}
	for _, r := range c.Rooms {
		levels[s.Building.Cells[r.Cell].Level] = true
		worth += 0.2
	}
	return worth + 2*float64(len(levels))
}

// sectionAlong cuts the scheme along a line.
func (s *Scheme) sectionAlong(line geom.Segment) Section {
	b := s.Building
	first, last := math.Inf(1), math.Inf(-1)
	for i := range b.Levels {
		for _, at := range b.Levels[i].Outline.Along(line) {
			first, last = math.Min(first, at[0]), math.Max(last, at[1])
		}
	}
	if first > last {
		return Section{}
	}
	from := first - sectionReach
	cut := Section{Line: geom.Segment{A: line.At(from), B: line.At(last + sectionReach)}}
	var shafts []SectionRoom
	for c := range b.Cells {
		cell := &b.Cells[c]
		for _, at := range (geom.Shape{cell.Region}).Along(cut.Line) {
			switch {
			case cell.Flight:
				cut.addFlight(b, c)
				shafts = append(shafts, SectionRoom{c, at[0], at[1], cell.Floor, cell.Floor + b.House.Levels[cell.Level].Height})
			case cell.Outdoor:
				cut.Ground = append(cut.Ground, SectionGround{at[0], at[1], cell.Floor})
			default:
				cut.Rooms = append(cut.Rooms, SectionRoom{c, at[0], at[1], cell.Floor, cell.Ceiling})
			}
		}
	}
	cut.addShafts(b, shafts)
	slices.SortStableFunc(cut.Rooms, func(p, q SectionRoom) int {
		return cmp.Or(cmp.Compare(p.Floor, q.Floor), cmp.Compare(p.From, q.From))
	})
	slices.SortStableFunc(cut.Ground, func(p, q SectionGround) int { return cmp.Compare(p.From, q.From) })
	for i, l := range b.House.Levels {
		if l.Outdoor {
			continue
		}
		for _, at := range b.Levels[i].Mass.Along(cut.Line) {
			cut.Walls = append(cut.Walls, s.sectionWall(&cut, i, at))
		}
	}
	s.addSlabs(&cut)
	cut.joinWalls()
	return cut
}

// sectionWall tells what a wall is by the rooms that the line leaves and enters.
func (s *Scheme) sectionWall(cut *Section, level int, at [2]float64) SectionWall {
	l := s.Building.House.Levels[level]
	w := SectionWall{Level: level, From: at[0], To: at[1], Low: l.Floor, High: l.Floor + l.Height}
	before, after := -1, -1
	for i, r := range cut.Rooms {
		flight := s.Building.Cells[r.Cell].Flight && r.Floor < l.Floor && r.Ceiling > l.Floor+0.5*l.Height
		if math.Abs(r.Floor-l.Floor) > 0.6*l.Height && !flight {
			continue
		}
		if math.Abs(r.To-at[0]) < geom.Coincide {
			before = i
		}
		if math.Abs(r.From-at[1]) < geom.Coincide {
			after = i
		}
	}
	if before < 0 || after < 0 {
		return w
	}
	p, q := cut.Rooms[before].Cell, cut.Rooms[after].Cell
	w.Separating = s.Owners[p] != s.Owners[q]
	w.New = w.Separating && s.Building.Cells[p].Of == s.Building.Cells[q].Of
	return w
}

// joinWalls lets walls go up through the slab over them, to the floor of what
// stands on it.
func (c *Section) joinWalls() {
	for i := range c.Walls {
		w := &c.Walls[i]
		up := math.Inf(1)
		reach := func(from, to, low float64) {
			if math.Min(w.To, to)-math.Max(w.From, from) > 0 && low > w.High && low-w.High < deepestSlab {
				up = math.Min(up, low)
			}
		}
		for _, o := range c.Walls {
			reach(o.From, o.To, o.Low)
		}
		for _, r := range c.Rooms {
			reach(r.From, r.To, r.Floor)
		}
		if !math.IsInf(up, 1) {
			w.High = up
		}
	}
}

// deepestSlab is the most between a ceiling and a floor that belong to one
// slab, in metres.
const deepestSlab = 1.0

// addFlight adds a flight where the line runs up one of its legs.
func (c *Section) addFlight(b *Building, cell int) {
	i := slices.IndexFunc(b.House.Stairs, func(s Stair) bool { return s.ID == b.Cells[cell].Of })
	if i < 0 || slices.ContainsFunc(c.Flights, func(f SectionFlight) bool { return f.Cell == cell }) {
		return
	}
	const alongside = 0.17 // the sine of ten degrees
	st := &b.House.Stairs[i]
	if len(st.Walk) != 2 {
		return // a flight that turns shows no even rise along one line
	}
	walk := geom.Segment{A: st.Walk[0], B: st.Walk[1]}
	dir := geom.Segment{A: walk.A, B: walk.B}
	if math.Abs(c.Line.Off(dir.B)-c.Line.Off(dir.A)) > alongside*walk.Length() {
		return
	}
	c.Flights = append(c.Flights, SectionFlight{
		Cell: cell, Foot: c.Line.Along(walk.A), Head: c.Line.Along(walk.B), Risers: st.Risers,
		Low: b.House.Levels[st.Level].Floor, High: b.House.Levels[st.To].Floor,
	})
}

// addShafts adds the rooms of flights, given as they are on the level of their
// foot: open above but where another room lies over them.
func (c *Section) addShafts(b *Building, shafts []SectionRoom) {
	over := append(slices.Clone(c.Rooms), shafts...)
	for _, s := range shafts {
		head := b.House.Levels[b.Cells[s.Cell].To]
		ends := []float64{s.From, s.To}
		covered := func(from, to float64) bool {
			return slices.ContainsFunc(over, func(r SectionRoom) bool {
				return r.Floor > s.Floor && r.Floor <= head.Floor+0.5*head.Height && r.From <= from && r.To >= to
			})
		}
		for _, r := range over {
			for _, at := range [...]float64{r.From, r.To} {
				if r.Floor > s.Floor && at > s.From+geom.Coincide && at < s.To-geom.Coincide {
					ends = append(ends, at)
				}
			}
		}
		slices.Sort(ends)
		for i := range len(ends) - 1 {
			part := s
			part.From, part.To = ends[i], ends[i+1]
			if !covered(part.From, part.To) {
				part.Ceiling = math.Max(part.Ceiling, head.Floor+head.Height)
			}
			last := len(c.Rooms) - 1
			if i > 0 && c.Rooms[last].Ceiling == part.Ceiling {
				c.Rooms[last].To = part.To
				continue
			}
			c.Rooms = append(c.Rooms, part)
		}
	}
}

// addSlabs adds what lies between each ceiling and the nearest floor above it,
// and under the walls that stand on it.
func (s *Scheme) addSlabs(cut *Section) {
	for _, below := range cut.Rooms {
		for _, above := range cut.Rooms {
			from, to := math.Max(below.From, above.From), math.Min(below.To, above.To)
			gap := above.Floor - below.Ceiling
			if to-from < geom.Coincide || gap < 0 || gap > deepestSlab {
				continue
			}
			o, p := s.Owners[below.Cell], s.Owners[above.Cell]
			cut.Slabs = append(cut.Slabs, SectionSlab{
				From: from, To: to, Low: below.Ceiling, High: above.Floor, Below: below.Cell, Above: above.Cell, Separating: o != p,
			})
		}
	}
	for _, slab := range slices.Clone(cut.Slabs) {
		for _, w := range cut.Walls {
			room := slices.IndexFunc(cut.Rooms, func(r SectionRoom) bool {
				return r.Cell == slab.Below && r.From <= slab.From+geom.Coincide && r.To >= slab.To-geom.Coincide
			})
			if room < 0 || math.Abs(w.Low-slab.High) > geom.Coincide {
				continue
			}
			from, to := math.Max(w.From, cut.Rooms[room].From), math.Min(w.To, cut.Rooms[room].To)
			beside := math.Abs(from-slab.To) < geom.Coincide || math.Abs(to-slab.From) < geom.Coincide
			if beside && to-from > geom.Coincide {
				under := slab
				under.From, under.To = from, to
				cut.Slabs = append(cut.Slabs, under)
			}
		}
	}
}
