package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// Elevation is one side of a house seen square on from outside. Distances are
// metres to the right, from the left end of what is seen; heights are
// elevations. The roof is not surveyed: a level goes up to its ceiling.
type Elevation struct {
	Facing   float64 // where the side looks, degrees clockwise from true north
	Width    float64
	Storeys  []ElevationStorey // from the lowest
	Openings []ElevationOpening
	Ground   []SectionGround // along the foot of the walls, from left to right
}

// ElevationStorey is the outline of a level.
type ElevationStorey struct {
	Level          int
	From, To       float64
	Floor, Ceiling float64
}

// ElevationOpening is a door or window of the side.
type ElevationOpening struct {
	Passage, Window int // index into the scheme's passages or windows, the other -1
	From, To        float64
	Sill, Head      float64
	State           State
	HeightGuessed   bool // no height was surveyed
}

// squareOn is the cosine of the angle by which a wall may look another way and
// still be of a side: twenty degrees.
const squareOn = 0.94

// Elevations gives the sides of the house that a scheme changes: by a new
// entry, by a door that is sealed, or by a window that is new or enlarged. They
// come by the compass, from north clockwise.
func (s *Scheme) Elevations() []Elevation {
	b := s.Building
	sides := s.exteriorSides()
	var out []Elevation
	for _, side := range sides {
		e := s.elevation(side)
		if slices.ContainsFunc(e.Openings, func(o ElevationOpening) bool { return o.State != Kept && o.State != Existing }) {
			e.Facing = math.Mod(90-math.Atan2(side.y, side.x)*180/math.Pi-b.House.North+720, 360)
			out = append(out, e)
		}
	}
	slices.SortStableFunc(out, func(p, q Elevation) int { return cmp.Compare(math.Round(p.Facing*10), math.Round(q.Facing*10)) })
	return out
}

// exteriorSides gives the directions in which outer walls look, as unit
// vectors: those of the longest walls first, each more than twenty degrees off
// those before it.
func (s *Scheme) exteriorSides() []spot {
	b := s.Building
	type wall struct {
		out    spot
		length float64
	}
	var walls []wall
	for i := range b.Levels {
		if b.House.Levels[i].Outdoor {
			continue
		}
		for _, region := range b.Levels[i].Outline {
			ring := region.Outer
			for k := range ring {
				e := geom.Segment{A: ring[k], B: ring[(k+1)%len(ring)]}
				if n := e.Length(); n > geom.Coincide {
					x0, y0 := e.A.Metres()
					x1, y1 := e.B.Metres()
					walls = append(walls, wall{spot{(y1 - y0) / n, -(x1 - x0) / n}, n}) // rings run counter-clockwise
				}
			}
		}
	}
	slices.SortStableFunc(walls, func(p, q wall) int { return cmp.Compare(math.Round(q.length*100), math.Round(p.length*100)) })
	var out []spot
	for _, w := range walls {
		if !slices.ContainsFunc(out, func(o spot) bool { return o.dot(w.out) > squareOn }) {
			out = append(out, w.out)
		}
	}
	return out
}

// elevation gives what is seen of the side that looks outwards.
func (s *Scheme) elevation(out spot) Elevation {
	b := s.Building
	right := out.left()
	across := func(p geom.Pt) float64 {
		x, y := p.Metres()
		return spot{x, y}.dot(right)
	}
	e := Elevation{}
	first := math.Inf(1)
	for i := range b.Levels {
		l := b.House.Levels[i]
		if l.Outdoor || len(b.Levels[i].Outline) == 0 {
			continue
		}
		st := ElevationStorey{Level: i, From: math.Inf(1), To: math.Inf(-1), Floor: l.Floor, Ceiling: l.Floor + l.Height}
		for _, edge := range b.Levels[i].Outline.Edges() {
			x := across(edge.A)
			st.From, st.To = math.Min(st.From, x), math.Max(st.To, x)
		}
		first = math.Min(first, st.From)
		e.Storeys = append(e.Storeys, st)
	}
	slices.SortStableFunc(e.Storeys, func(p, q ElevationStorey) int { return cmp.Compare(p.Floor, q.Floor) })
	add := func(o ElevationOpening, line geom.Segment) {
		x0, x1 := across(line.A), across(line.B)
		o.From, o.To = math.Min(x0, x1), math.Max(x0, x1)
		e.Openings = append(e.Openings, o)
	}
	for i := range s.Passages {
		p := &s.Passages[i]
		if p.Door == nil || !s.looks(p.Line, p.Level, out) || !s.toOutdoors(p) {
			continue
		}
		o := ElevationOpening{Passage: i, Window: -1, Sill: b.House.Levels[p.Level].Floor, State: p.State}
		height := p.Door.Height
		if height == 0 {
			height, o.HeightGuessed = newDoorLeaf, true
		}
		o.Head = o.Sill + height
		add(o, p.Line)
	}
	for i := range s.Windows {
		w := &s.Windows[i]
		if !s.looks(w.Line, w.Level, out) {
			continue
		}
		sill := b.House.Levels[w.Level].Floor + w.Sill
		add(ElevationOpening{Passage: -1, Window: i, Sill: sill, Head: sill + w.Height, State: w.State}, w.Line)
	}
	slices.SortStableFunc(e.Openings, func(p, q ElevationOpening) int {
		return cmp.Or(cmp.Compare(p.From, q.From), cmp.Compare(p.Sill, q.Sill))
	})
	s.addFoot(&e, out, across)
	for i := range e.Storeys {
		e.Storeys[i].From -= first
		e.Storeys[i].To -= first
		e.Width = math.Max(e.Width, e.Storeys[i].To)
	}
	for i := range e.Openings {
		e.Openings[i].From -= first
		e.Openings[i].To -= first
	}
	for i := range e.Ground {
		e.Ground[i].From -= first
		e.Ground[i].To -= first
	}
	return e
}

// looks tells whether an opening of a level is in an outer wall that looks
// outwards: square to it, with the house on one side and the outdoors on the other.
func (s *Scheme) looks(line geom.Segment, level int, out spot) bool {
	x0, y0 := line.A.Metres()
	x1, y1 := line.B.Metres()
	n := math.Hypot(x1-x0, y1-y0)
	if n == 0 || s.Building.House.Levels[level].Outdoor || math.Abs((x1-x0)*out.x+(y1-y0)*out.y)/n > 0.34 { // the cosine of seventy degrees
		return false
	}
	const beyond = 0.75 // metres from the middle of a wall: past the thickest face
	outline := s.Building.Levels[level].Outline
	at := func(d float64) geom.Pt {
		return geom.FromMetres((x0+x1)/2+out.x*d, (y0+y1)/2+out.y*d)
	}
	return outline.Contains(at(beyond)) == geom.Out && outline.Contains(at(-beyond)) != geom.Out
}

// toOutdoors tells whether a passage joins a room and the outdoors.
func (s *Scheme) toOutdoors(p *Passage) bool {
	indoors := 0
	for _, id := range p.Between {
		if i := s.Building.CellNamed(id); i >= 0 && !s.Building.Cells[i].Outdoor {
			indoors++
		}
	}
	return indoors == 1
}

// raised tells whether a surface outdoors is built over the ground.
func raised(u Use) bool { return u == Deck || u == Balcony || u == Porch }

// addFoot gives the ground along the foot of the walls that look outwards.
func (s *Scheme) addFoot(e *Elevation, out spot, across func(geom.Pt) float64) {
	b := s.Building
	for _, l := range b.Links {
		if l.Kind != LinkExterior {
			continue
		}
		at := l.V
		if at != Outside && raised(b.Cells[at].Use) {
			at = Outside // the ground goes on under it
		}
		elevation, known := b.groundAt(at)
		if !known {
			continue
		}
		for _, r := range l.Runs {
			if !s.looks(r, b.Cells[l.U].Level, out) {
				continue
			}
			x0, x1 := across(r.A), across(r.B)
			e.Ground = append(e.Ground, SectionGround{math.Min(x0, x1), math.Max(x0, x1), elevation})
		}
	}
	slices.SortStableFunc(e.Ground, func(p, q SectionGround) int { return cmp.Compare(p.From, q.From) })
	// Of several grounds before the same wall (one per level) the first counts.
	kept := e.Ground[:0]
	for _, g := range e.Ground {
		if n := len(kept); n > 0 {
			g.From = math.Max(g.From, kept[n-1].To)
		}
		if g.To-g.From > geom.Coincide {
			kept = append(kept, g)
		}
	}
	e.Ground = kept
}
