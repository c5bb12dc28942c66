package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
	"moiety/plan/structure"
)

// OpenedWall is an opening that the brief asks for, with what has to carry
// what the wall may have carried.
type OpenedWall struct {
	ID         string // open-1, open-2: also of the cased opening that stands for it
	Between    [2]string
	Level      int
	Line       geom.Segment // the clear opening, along the wall's centre line
	ThicknessM float64      // of the wall
	HeightM    float64      // of the wall that goes, floor to ceiling
	AreaM2     float64
	// Bears tells whether the wall is taken to bear, and Why on what grounds.
	Bears bool
	Why   string
	// TributaryM is the width of floor that comes down on it.
	TributaryM float64
	// Beam is nil where the wall does not bear, or where no section listed is enough.
	Beam *structure.Beam
	// Below tells that the beam hangs below the ceiling; otherwise it has to lie
	// within the floor above, or there is no headroom.
	Below bool
	Notes []string
	// Cost of taking the wall out and of the beam.
	Cost float64
}

const (
	// Each end of a wall that is opened keeps the studs that the beam rests on,
	// in metres (common practice, no source).
	openEnd = 0.10
	// The least clear height under a beam, in metres: 80 in, as a door's (common
	// practice, no source).
	openHeadroom = 2.03
	// The least opening that is one: a doorway.
	openLeast = 0.60
	// A fixture so near a wall that is opened stands against it, in metres.
	againstWall = 0.15
)

// OpenWalls opens the walls that the brief asks for and builds the house again,
// so that the two spaces are one way through; where it asks for none, the
// building is returned as it is. What cannot be opened comes as a *Problems,
// all of it together.
func OpenWalls(b *Building, brief *Brief, prices *Prices, set *rules.Set) (*Building, error) {
	if len(brief.Open) == 0 || len(b.House.Opened) > 0 {
		return b, nil
	}
	problems := &Problems{File: cmp.Or(brief.source.file, "brief")}
	h := *b.House
	h.Doors = slices.Clone(h.Doors)
	var taken []string // links that are opened
	for i, o := range brief.Open {
		l, err := b.wallToOpen(o)
		if err == nil && slices.Contains(taken, l.ID) {
			err = fmt.Errorf("the wall between %s and %s is opened twice", b.Cells[l.U].ID, b.Cells[l.V].ID)
		}
		var opened OpenedWall
		if err == nil {
			taken = append(taken, l.ID)
			opened, err = b.openedWall(i, o, l, prices, set)
		}
		if err != nil {
			problems.add(o.at, "", "open: %s", err)
			continue
		}
		h.Opened = append(h.Opened, opened)
		h.Doors = slices.DeleteFunc(h.Doors, func(d Door) bool { return swallows(opened, l, d) })
		h.Doors = append(h.Doors, Door{
			ID: opened.ID, Level: opened.Level, Line: opened.Line, Opening: true, Height: opened.clearHeight(),
		})
	}
	if err := problems.err(); err != nil {
		return nil, err
	}
	out, err := Build(&h)
	if err != nil {
		return nil, fmt.Errorf("plan: the house with its walls opened: %w", err)
	}
	return out, nil
}

// clearHeight is what is left under the beam.
func (o OpenedWall) clearHeight() float64 {
	if o.Beam != nil && o.Below {
		return o.HeightM - o.Beam.DepthMM/1e3
	}
	return o.HeightM
}

// wallToOpen finds the wall that an entry of open means.
func (b *Building) wallToOpen(o OpenBrief) (Link, error) {
	names := func(c int, id string) bool { return b.Cells[c].ID == id || b.Cells[c].Of == id }
	var found []Link
	marked, exterior := false, false
	for _, l := range b.Links {
		if o.Wall != "" && !slices.Contains(l.Marks, o.Wall) {
			continue
		}
		marked = true
		if l.Kind == LinkExterior {
			exterior = true
		}
		if l.Kind != LinkWall || o.Between[0] != "" &&
			!(names(l.U, o.Between[0]) && names(l.V, o.Between[1]) || names(l.U, o.Between[1]) && names(l.V, o.Between[0])) {
			continue
		}
		found = append(found, l)
	}
	what := quoteUnlessPlain(o.Wall)
	if o.Wall == "" {
		what = fmt.Sprintf("between %s and %s", quoteUnlessPlain(o.Between[0]), quoteUnlessPlain(o.Between[1]))
	}
	for _, id := range o.Between {
		if id != "" && !slices.ContainsFunc(b.Cells, func(c Cell) bool { return c.ID == id || c.Of == id }) {
			return Link{}, fmt.Errorf("the house has no space %s%s", quote(id), didYouMean(id, b.House.roomWords()))
		}
	}
	switch {
	case len(found) == 0 && !marked:
		return Link{}, fmt.Errorf("no wall %s was surveyed", what)
	case len(found) == 0 && o.Between[0] == "" && exterior:
		return Link{}, fmt.Errorf("%s is a wall to the outdoors; only walls between two rooms are opened", what)
	case len(found) == 0:
		return Link{}, fmt.Errorf("no wall lies %s", what)
	case len(found) > 1 && o.Between[0] == "":
		return Link{}, fmt.Errorf("%s runs along %d walls: say with between which two spaces", what, len(found))
	}
	// The longest, where a wall is broken.
	l := slices.MaxFunc(found, func(a, b Link) int { return cmp.Or(cmp.Compare(a.Length, b.Length), cmp.Compare(b.ID, a.ID)) })
	if b.Cells[l.U].Flight || b.Cells[l.V].Flight || math.Abs(l.Rise) > doorwayStep {
		return Link{}, fmt.Errorf("the wall %s parts floors at different heights or encloses a flight", what)
	}
	return l, nil
}

// openedWall places an opening in a wall and sizes what carries it.
func (b *Building) openedWall(i int, o OpenBrief, l Link, prices *Prices, set *rules.Set) (OpenedWall, error) {
	out := OpenedWall{
		ID: b.House.newFeatureID(fmt.Sprintf("open-%d", i+1)), Between: [2]string{b.Cells[l.U].ID, b.Cells[l.V].ID},
		Level: l.Level, ThicknessM: l.Thickness, HeightM: l.Height,
	}
	run := l.Line
	room := run.Length() - 2*openEnd
	width := o.WidthM
	if width == 0 {
		width = room
	}
	if room < openLeast || width > room+geom.Coincide {
		return out, fmt.Errorf("the wall between %s and %s leaves %.2f m for an opening of %.2f m", out.Between[0], out.Between[1], max(room, 0), max(width, openLeast))
	}
	middle := run.Length() / 2
	for _, d := range b.House.Doors {
		if d.Level == l.Level && swallows(OpenedWall{Level: l.Level, Line: run}, l, d) {
			middle = run.Along(d.Line.Mid())
		}
	}
	middle = min(max(middle, openEnd+width/2), run.Length()-openEnd-width/2)
	out.Line = geom.Segment{A: run.At(middle - width/2), B: run.At(middle + width/2)}
	out.AreaM2 = width * l.Height
	out.Cost = cents(prices.cost("remove_wall", width, out.AreaM2, 1))
	for i, f := range b.House.Fixtures {
		if c := b.FixtureCell[i]; (c == l.U || c == l.V) && b.standsAgainst(f, out.Line, l.Thickness) {
			out.Notes = append(out.Notes, f.ID+" stands against the wall and has to move")
		}
	}
	out.Bears, out.Why = b.bears(o, l)
	if !out.Bears {
		return out, nil
	}
	opening, tributary := b.load(o, l, out.Line, set)
	out.TributaryM = tributary
	opening.ClearM = out.Line.Length()
	opening.MaxDepthMM = max(l.Height-openHeadroom, 0) * 1e3
	beam, err := structure.Size(opening)
	if out.Below = err == nil && opening.MaxDepthMM > 0; !out.Below {
		opening.MaxDepthMM = 0
		beam, err = structure.Size(opening)
		out.Notes = append(out.Notes, fmt.Sprintf("no beam listed leaves %.2f m clear below the ceiling: it has to lie within the floor above", openHeadroom))
	}
	// Whoever finds the beam, it has to be paid for.
	out.Cost = cents(out.Cost + width*prices.BeamPerM)
	if family(set) == "uk" {
		out.Notes = append(out.Notes, englandBeam)
	}
	if err != nil {
		out.Notes = append(out.Notes, err.Error())
		return out, nil
	}
	out.Beam = &beam
	return out, nil
}

// englandBeam says what a beam in England is sized by, for want of figures of its own.
const englandBeam = "loads by the UK National Annex, stresses and sag by North American sheets and limits, for want of others: an engineer designs it to Eurocode 5"

// bears tells whether a wall is taken to bear, and on what grounds: as the
// survey marks it, by the way of the joists, and otherwise it does.
func (b *Building) bears(o OpenBrief, l Link) (bool, string) {
	switch {
	case l.Bearing:
		return true, "the survey marks it as bearing"
	case o.Joists == joistsAcross:
		return true, "the joists above run across it"
	case o.Joists == joistsAlong:
		return false, "the joists above run along it, and the survey does not mark it as bearing"
	}
	return true, "nothing says that it does not bear, so it is taken to"
}

// swallows tells whether an opening takes the place of a door in its wall.
func swallows(o OpenedWall, l Link, d Door) bool {
	if d.Level != o.Level || math.Abs(o.Line.Off(d.Line.Mid())) > l.Thickness/2+offWall {
		return false
	}
	s := span{o.Line.Along(d.Line.A), o.Line.Along(d.Line.B)}
	if s.from > s.to {
		s.from, s.to = s.to, s.from
	}
	return s.overlap(span{0, o.Line.Length()}).length() > geom.Coincide
}

func (b *Building) standsAgainst(f Fixture, line geom.Segment, thickness float64) bool {
	if f.Footprint == nil {
		return line.Along(f.At) > 0 && line.Along(f.At) < line.Length() && math.Abs(line.Off(f.At)) <= thickness/2+0.5
	}
	for _, side := range [...]float64{1, -1} {
		for _, e := range f.Footprint.Edges() {
			if _, over := alongWithin(line, e, side, 0, thickness/2+againstWall); over {
				return true
			}
		}
	}
	return false
}

// newFeatureID is the id, or the next of its kind that no feature has.
func (h *House) newFeatureID(id string) string {
	for slices.Contains(h.ids(), id) {
		id += "'"
	}
	return id
}
