package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// A side of an opening is found in the first of these places that has one.
const (
	onLevel   = iota // on the opening's own level
	nearLevel        // indoors on another level, at about the height of the sill
	outdoors         // an outdoor space of any level
	nowhere          // the outdoors where nothing was surveyed
)

// side is what lies on one side of an opening.
type side struct {
	solid int // index; meaningless nowhere
	tier  int
	at    float64 // distance from the line to where it begins, negative past the line
}

func (s side) found() bool { return s.tier < nowhere }

// opening is a door, cased opening or window, as far as what lies on its two
// sides is concerned.
type opening struct {
	line       geom.Segment
	level      int
	sill, head float64 // elevations of the clear opening
	window     bool
}

// sides finds what lies on the left and on the right of an opening: across
// its middle, and across its quarter points where the middle hits the end of
// another wall.
func (b *builder) sides(o opening) (left, right side) {
	left, right = side{tier: nowhere}, side{tier: nowhere}
	best := math.MaxInt
	for _, part := range [...]float64{0.5, 0.25, 0.75} {
		l, r := b.sidesAt(o, across(o.line, part*o.line.Length()))
		if score := l.tier + r.tier; score < best {
			left, right, best = l, r, score
		}
	}
	return left, right
}

// sidesAt finds the sides along one line across the opening, left being ahead.
func (b *builder) sidesAt(o opening, r ray) (left, right side) {
	left, right = side{tier: nowhere}, side{tier: nowhere}
	var tiers [nowhere][]int
	for _, s := range b.solidsNear(r, 2*thickest+outdoorReach) {
		switch solid := &b.solids[s]; {
		case solid.level == o.level:
			tiers[onLevel] = append(tiers[onLevel], s)
		case !b.outdoor(s) && o.meets(solid):
			tiers[nearLevel] = append(tiers[nearLevel], s)
		}
		if b.outdoor(s) {
			tiers[outdoors] = append(tiers[outdoors], s)
		}
	}
	for tier, solids := range tiers[:outdoors] {
		if !left.found() && !right.found() {
			left, right = b.sidesOfGap(r, solids, tier)
			continue
		}
		if !left.found() {
			left = b.sideBeyond(r, solids, tier, right)
		}
		if !right.found() {
			right = b.sideBeyond(r.back(), solids, tier, left)
		}
	}
	l, rt := left, right
	if !l.found() {
		left = b.outdoorBeyond(o, r, tiers[outdoors], rt)
	}
	if !rt.found() {
		right = b.outdoorBeyond(o, r.back(), tiers[outdoors], l)
	}
	return left, right
}

// meets tells whether an opening can give on to a solid of another level: a
// good part of its height lies there and, of a door, the step is no storey.
func (o opening) meets(s *solid) bool {
	height := o.head - o.sill
	share := min(o.head, s.High) - max(o.sill, s.Low)
	return share >= min(doorShare, height/2) && (o.window || math.Abs(s.floor-o.sill) <= doorStep)
}

// solidsNear gives the solids whose box comes within reach of the start of r.
func (b *builder) solidsNear(r ray, reach float64) []int {
	return b.index.Near(geom.Box{Min: r.at, Max: r.at}.Grow(geom.Units(reach)))
}

// stretch is a stretch of a line that lies in a solid.
type stretch struct {
	span
	solid int
}

// section gives the stretches of the line within the solids, in order; those
// of one cell that touch are one.
func (b *builder) section(r ray, solids []int) []stretch {
	var all []stretch
	for _, s := range solids {
		for _, c := range r.cut(b.solids[s].Base) {
			all = append(all, stretch{c, s})
		}
	}
	slices.SortFunc(all, func(x, y stretch) int {
		return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.to, y.to), cmp.Compare(x.solid, y.solid))
	})
	var out []stretch
	for _, s := range all {
		if n := len(out); n > 0 && b.solids[out[n-1].solid].cell == b.solids[s.solid].cell && s.from <= out[n-1].to+geom.Coincide {
			out[n-1].to = max(out[n-1].to, s.to)
			continue
		}
		out = append(out, s)
	}
	return out
}

// sidesOfGap finds the wall that the start of the line lies in, or nearest to
// within offWall, as the gap between two stretches of its section; it may be
// of no width.
func (b *builder) sidesOfGap(r ray, solids []int, tier int) (left, right side) {
	left, right = side{tier: nowhere}, side{tier: nowhere}
	section := b.section(r, solids)
	gap, off := -1, math.Inf(1)
	for i := range len(section) + 1 {
		from, to := math.Inf(-1), math.Inf(1)
		if i > 0 {
			from = section[i-1].to
		}
		if i < len(section) {
			to = section[i].from
		}
		if d := max(0, min(from, to), -max(from, to)); d < off-1e-6 {
			gap, off = i, d
		}
	}
	if off > offWall {
		return left, right
	}
	if gap < len(section) && section[gap].from <= thickest+offWall {
		left = side{section[gap].solid, tier, section[gap].from}
	}
	if gap > 0 && -section[gap-1].to <= thickest+offWall {
		right = side{section[gap-1].solid, tier, -section[gap-1].to}
	}
	if left.found() && right.found() && left.at+right.at > thickest+2*offWall {
		// Two walls with something between them: the opening is in the nearer.
		if left.at <= right.at {
			right = side{tier: nowhere}
		} else {
			left = side{tier: nowhere}
		}
	}
	return left, right
}

// sideBeyond finds the nearest of the solids ahead, across the wall from a
// side that is known.
func (b *builder) sideBeyond(r ray, solids []int, tier int, known side) side {
	for _, s := range b.section(r, solids) {
		if b.solids[s.solid].cell != b.solids[known.solid].cell &&
			s.from >= -offWall-max(0, -known.at) && s.from+known.at <= thickest+offWall && s.to > offWall {
			return side{s.solid, tier, s.from}
		}
	}
	return side{tier: nowhere}
}

// outdoorBeyond finds the outdoor space ahead of an opening: of those that
// begin about equally near, the topmost that is not above where one steps out.
func (b *builder) outdoorBeyond(o opening, r ray, solids []int, known side) side {
	reach, not := outdoorReach, Outside
	if known.found() {
		reach += -known.at
		if not = b.solids[known.solid].cell; !b.Cells[not].Outdoor {
			reach += b.ExteriorThickness
		}
	}
	top := o.sill + outdoorStep
	if o.window {
		top = o.head
	}
	var ahead []stretch
	for _, s := range solids {
		if b.solids[s].cell == not {
			continue
		}
		for _, c := range r.cut(b.solids[s].Base) {
			if c.from <= reach && c.to > offWall {
				ahead = append(ahead, stretch{c, s})
				break
			}
		}
	}
	if low := slices.DeleteFunc(slices.Clone(ahead), func(s stretch) bool { return b.solids[s.solid].floor > top }); len(low) > 0 {
		return b.topmost(low, 1)
	}
	return b.topmost(ahead, -1)
}

// topmost picks the highest (up 1) or lowest (up -1) of the stretches that
// begin nearest to the start of their line.
func (b *builder) topmost(ahead []stretch, up float64) side {
	nearest := math.Inf(1)
	for _, s := range ahead {
		nearest = min(nearest, max(s.from, 0))
	}
	best := side{tier: nowhere}
	for _, s := range ahead {
		if max(s.from, 0) > nearest+sameDistance {
			continue
		}
		better := !best.found()
		if !better {
			d := up * (b.solids[s.solid].floor - b.solids[best.solid].floor)
			better = d > 1e-3 || (d > -1e-3 && s.from < best.at-1e-3)
		}
		if better {
			best = side{s.solid, outdoors, s.from}
		}
	}
	return best
}

// addPassages links what each door and cased opening joins.
func (b *builder) addPassages() error {
	for i := range b.House.Doors {
		b.addDoor(&b.House.Doors[i])
	}
	return nil
}

func (b *builder) addDoor(d *Door) {
	height := d.Height
	if height <= 0 {
		height = usualDoor
	}
	sill := b.House.Levels[d.Level].Floor
	what := "door"
	kind := LinkDoor
	if d.Opening {
		what, kind = "opening", LinkOpening
	}
	left, right := b.sides(opening{line: d.Line, level: d.Level, sill: sill, head: sill + height})
	if !left.found() && !right.found() {
		b.problems.add(nil, d.ID, "the %s at %s on level %q joins nothing: no space lies on either side", what, b.place(d.Line.Mid()), b.House.Levels[d.Level].ID)
		return
	}
	l := Link{
		Kind: kind, U: Outside, V: Outside, Of: d.ID, Level: d.Level,
		Line: d.Line, Height: d.Height, Length: d.Line.Length(), low: sill,
	}
	l.AreaM2 = l.Length * l.Height
	floorU, floorV := b.House.Grade, b.House.Grade
	if left.found() {
		l.U, floorU = b.solids[left.solid].cell, b.solids[left.solid].floor
	}
	if right.found() {
		l.V, floorV = b.solids[right.solid].cell, b.solids[right.solid].floor
	}
	if l.U == l.V {
		b.warn(d.ID, "the %s at %s has %s on both sides and is left out", what, b.place(d.Line.Mid()), b.Cells[l.U].ID)
		return
	}
	switch {
	case left.found() && right.found():
		l.Rise = floorV - floorU
		l.Thickness = max(0, left.at+right.at)
	case b.House.GradeSaid:
		l.Rise = floorV - floorU
	}
	if l.Thickness == 0 && !(b.outdoorEnd(l.U) && b.outdoorEnd(l.V)) && (b.outdoorEnd(l.U) || b.outdoorEnd(l.V)) {
		l.Thickness = b.ExteriorThickness
	}
	b.link(l)
	if l = b.Links[len(b.Links)-1]; !l.Passage() {
		b.warn(d.ID, "the %s at %s opens %.2f m above or below %s with no steps surveyed: it is not counted as a way through",
			what, b.place(d.Line.Mid()), math.Abs(l.Rise), b.ground(l))
	}
}

// outdoorEnd tells whether an end of a link is outdoors.
func (b *builder) outdoorEnd(cell int) bool { return cell == Outside || b.Cells[cell].Outdoor }

// ground names the outdoor end of a link.
func (b *builder) ground(l Link) string {
	for _, c := range [...]int{l.V, l.U} {
		if c == Outside {
			return "the ground"
		}
		if b.Cells[c].Outdoor {
			return b.Cells[c].ID
		}
	}
	return b.Cells[l.V].ID
}
