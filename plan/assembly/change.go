package assembly

import "slices"

// Change is a way from what is there to a build-up.
type Change struct {
	Assembly
	New     []bool     // per layer: new, not there before
	Removed []Layer    // what is taken off before
	Gain    [2]float64 // how far it grows on the first face (a floor: upwards) and on the second
}

// keptNote is said where an old sheet stays.
const keptNote = "; an old sheet that stays under the new ones counts for nothing: an estimate, not a test"

// Build is a build-up made anew where nothing stands: its thickness is gained
// half on either side.
func Build(goal Assembly) Change {
	c := Change{Assembly: goal, New: make([]bool, len(goal.Layers))}
	for i := range c.New {
		c.New[i] = true
	}
	c.Gain = [2]float64{goal.Thickness() / 2, goal.Thickness() / 2}
	return c
}

// Rebuild takes a wall down and builds another in its place.
func Rebuild(existing, goal Assembly) Change {
	c := Build(goal)
	c.Removed = slices.Clone(existing.Layers)
	grown := (goal.Thickness() - existing.Thickness()) / 2
	c.Gain = [2]float64{grown, grown}
	return c
}

// Upgrades lists the ways from a wall or floor as it stands to a goal of the
// same kind. A face keeps its board where it may: under sheets fixed straight
// to the framing, not behind a resilient channel, which needs a free cavity. A
// cavity is filled from a side whose boards are off. Of a wall both sides are
// tried, and a second row of studs on either. It is empty where the goal's
// framing is another, or deeper than what stands.
func Upgrades(existing, goal Assembly) []Change {
	if existing.Kind != goal.Kind {
		return nil
	}
	var out []Change
	for _, g := range orientations(goal) {
		out = append(out, upgrades(existing, g)...)
		if existing.Kind == Wall {
			out = append(out, secondRow(existing, g)...)
		}
	}
	return out
}

func upgrades(existing, goal Assembly) []Change {
	from, to := sections(existing.Layers), sections(goal.Layers)
	if len(from.core) == 0 || len(to.core) == 0 || !sameFrame(from.core[0], to.core[0]) {
		return nil
	}
	for _, l := range to.core[1:] {
		if !l.Material.IsFill() {
			return nil
		}
	}
	core := framing{{from.core[0], false}}
	for _, fill := range to.core[1:] {
		if existing.Kind == Wall {
			fill = NewLayer(fill.Material, from.core[0].Thickness, 0) // the cavity filled through
		}
		core = append(core, placed{fill, true})
	}
	var out []Change
	for strip := range 4 {
		stripped := [2]bool{strip&1 != 0, strip&2 != 0}
		if existing.Kind == Floor && stripped[0] {
			continue // the subfloor stays
		}
		var sides [2]side
		possible := true
		for f := range sides {
			s, ok := from.faces[f].become(to.faces[f], stripped[f])
			sides[f], possible = s, possible && ok
		}
		opened := stripped[0] || stripped[1] || len(from.faces[1]) == 0
		if possible && (len(to.core) == 1 || opened) {
			out = append(out, assemble(goal, sides, core))
		}
	}
	return out
}

// secondRow sets a second row of studs beside the one that stands: the boards
// between the rows come off, since a leaf there would spoil the wall.
func secondRow(existing, goal Assembly) []Change {
	from, to := sections(existing.Layers), sections(goal.Layers)
	if len(from.core) == 0 || !slices.ContainsFunc(to.core, func(l Layer) bool { return l.Material == Air }) {
		return nil
	}
	if !sameFrame(from.core[0], to.core[0]) {
		return nil
	}
	// The row that stands is the first; the second face is the new row's.
	var core framing
	second := false
	for i, l := range to.core {
		switch {
		case i == 0:
			core = append(core, placed{from.core[0], false})
			continue
		case l.Material == Air:
			second = true
		case l.Material.IsFill() && !second:
			l = NewLayer(l.Material, from.core[0].Thickness, 0)
		}
		core = append(core, placed{l, true})
	}
	var out []Change
	for _, strip := range []bool{false, true} {
		kept, ok := from.faces[0].become(to.faces[0], strip)
		off, okOff := from.faces[1].become(to.faces[1], true)
		if !ok || !okOff {
			continue
		}
		c := assemble(goal, [2]side{kept, off}, core)
		for _, p := range core {
			if p.new && !p.Material.IsFill() {
				c.Gain[1] += p.Thickness
			}
		}
		out = append(out, c)
	}
	return out
}

// sameFrame tells whether framing that stands can be that of a goal.
func sameFrame(stands, goal Layer) bool {
	return stands.Material == goal.Material && stands.Thickness >= goal.Thickness-sameLength
}

type placed struct {
	Layer
	new bool
}

type framing []placed

// side is a face as it will be, from the framing outwards.
type side struct {
	layers  []placed
	removed []Layer
	extra   bool // an old sheet stays that the goal does not have
}

// become gives a face what a goal's has. Without stripping, old boards stay:
// as the first of the goal's where they serve as such.
func (f face) become(goal face, strip bool) (side, bool) {
	s := side{}
	rest := goal
	if strip {
		if len(f) == 0 {
			return s, false // nothing to strip: the other way covers it
		}
		s.removed = append(s.removed, f...)
	} else {
		for _, l := range f {
			if len(rest) > 0 && l.serves(rest[0]) {
				rest = rest[1:]
			} else if len(rest) > 0 && !l.mayPrecede(rest[0]) {
				return s, false
			} else {
				s.extra = true
			}
			s.layers = append(s.layers, placed{l, false})
		}
	}
	for _, l := range rest {
		s.layers = append(s.layers, placed{l, true})
	}
	return s, true
}

// assemble puts a change together from its sides, each from the framing outwards.
func assemble(goal Assembly, sides [2]side, core framing) Change {
	c := Change{Assembly: Assembly{ID: goal.ID, Name: goal.Name, Kind: goal.Kind, Rating: goal.Rating}}
	add := func(p placed) {
		c.Layers, c.New = append(c.Layers, p.Layer), append(c.New, p.new)
	}
	for i := len(sides[0].layers) - 1; i >= 0; i-- {
		add(sides[0].layers[i])
	}
	for _, p := range core {
		add(p)
	}
	for _, p := range sides[1].layers {
		add(p)
	}
	for f, s := range sides {
		for _, p := range s.layers {
			if p.new {
				c.Gain[f] += p.Thickness
			}
		}
		for _, l := range s.removed {
			c.Gain[f] -= l.Thickness
		}
		c.Removed = append(c.Removed, s.removed...)
		if s.extra {
			c.FireEstimated, c.SoundEstimated = true, true
			if !slices.ContainsFunc(sides[:f], func(s side) bool { return s.extra }) {
				c.How += keptNote
			}
		}
	}
	return c
}

// Shallower is a goal on framing of the same kind that is less deep than its
// own, with as much of its fill as the cavity takes, and the rating of just that,
// which no published row may cover; false where the framing is another.
func Shallower(existing, goal Assembly) (Assembly, bool) {
	from, to := sections(existing.Layers), sections(goal.Layers)
	if existing.Kind != goal.Kind || len(from.core) == 0 || len(to.core) == 0 || from.core[0].Material != to.core[0].Material ||
		from.core[0].Thickness >= to.core[0].Thickness {
		return Assembly{}, false
	}
	frame, depth := to.core[0], from.core[0].Thickness
	layers := slices.Clone(goal.Layers)
	for i, l := range layers {
		switch {
		case l.Material == frame.Material:
			layers[i] = NewLayer(l.Material, depth, l.Spacing)
		case l.Material.IsFill() && l.Thickness > depth:
			layers[i] = NewLayer(l.Material, depth, 0)
		}
	}
	out := goal.With(layers...)
	out.ID, out.Name = goal.ID+"-shallower", "on framing less deep than its own, "+goal.Name
	out.Rating = Rate(out)
	return out, true
}
