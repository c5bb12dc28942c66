package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan/partition"
)

// fitCells places what the cells of a scheme take on, and its new doors: all
// that a cell has stays where that goes together, else what the scheme needs of
// it. Each door stands in the best of its places at which the fixtures of both
// rooms can stand clear of it. It gives the places by link.
func (m *model) fitCells(out *Scheme, s *partition.Solution) (map[int]doorPlace, error) {
	needed := make([]functionSet, len(m.b.Cells))
	for u := range s.Hosts {
		for f := range functionCount {
			for _, i := range s.Hosts[u][f] {
				if c := m.cells[i]; c != Outside {
					needed[c] |= setOf(f)
				}
			}
		}
	}
	doors := m.boughtDoors(s)
	for c, set := range needed {
		has := m.b.hasAll(c)
		if set.without(has) == 0 {
			continue
		}
		fit := m.fitCell(c, set, has, doors)
		tops, err := geom.Union(fit.Worktops)
		if err != nil {
			return nil, fmt.Errorf("plan: the worktop in %s: %w", m.b.Cells[c].ID, err)
		}
		fit.Worktops = tops
		out.Fits = append(out.Fits, fit)
	}
	places := map[int]doorPlace{}
	for _, d := range doors {
		places[d.link] = d.places[0]
	}
	return places, nil
}

// boughtDoor is a door that a solution buys, with the places that are left to
// choose from, the best first.
type boughtDoor struct {
	link   int
	number int
	places []doorPlace
}

// boughtDoors lists the doors that a solution buys, in the order of links.
func (m *model) boughtDoors(s *partition.Solution) []*boughtDoor {
	var out []*boughtDoor
	for i, l := range m.b.Links {
		if m.buys(s, i) {
			out = append(out, &boughtDoor{link: i, number: len(out) + 1, places: m.doorPlaces(l)})
		}
	}
	return out
}

// fitCell is fitCells for one cell: it keeps, of the places of each door to
// the cell, the one that the fixtures stand clear of. The fit comes with a note
// where a door and the fixtures are in each other's way wherever it stands.
func (m *model) fitCell(c int, needed, has functionSet, doors []*boughtDoor) Fit {
	var here []*boughtDoor
	for _, d := range doors {
		if l := &m.b.Links[d.link]; l.U == c || l.V == c {
			here = append(here, d)
		}
	}
	const most = 24 // ways to place the doors together
	tries := 0
	var built []Door
	var try func(k int, set functionSet) []Fit
	try = func(k int, set functionSet) []Fit {
		if k == len(here) {
			tries++
			return m.b.fitsBeside(c, set, built)
		}
		d := here[k]
		all := d.places
		for i := range all {
			door, _, ok := m.newDoor(m.b.Links[d.link], d.number, all[i])
			if !ok {
				continue
			}
			d.places = all[i : i+1]
			built = append(built, *door)
			fits := try(k+1, set)
			built = built[:len(built)-1]
			if len(fits) > 0 {
				return fits
			}
			d.places = all
			if tries >= most {
				break
			}
		}
		return nil
	}
	for _, set := range [...]functionSet{needed | has, needed} {
		if fits := try(0, set); len(fits) > 0 {
			return fits[0]
		}
	}
	for _, set := range [...]functionSet{needed | has, needed} {
		if fits := m.b.fitsTogether(c, set); len(fits) > 0 {
			f := fits[0]
			if len(here) > 0 {
				f.clash = fmt.Sprintf("in the way of %s: one of them has to move", m.b.House.newDoorID(here[0].number))
			}
			return f
		}
	}
	return Fit{Cell: c, Functions: needed.list()}
}

// buys tells whether a solution buys a door in a wall of the building.
func (m *model) buys(s *partition.Solution, link int) bool {
	return m.b.Links[link].Kind != LinkDoor && m.bought(s, link)
}

// bought tells whether a solution buys anything in a link of the building.
func (m *model) bought(s *partition.Solution, link int) bool {
	return slices.ContainsFunc(s.Bought, func(i int) bool { return m.links[i] == link })
}

// takeUses gives each cell its use in the scheme: as surveyed, or what it is
// converted to. What goes on beside it is among its further uses.
func (m *model) takeUses(out *Scheme) {
	out.Uses = make([]Use, len(m.b.Cells))
	out.Also = make([][]Use, len(m.b.Cells))
	for c := range m.b.Cells {
		out.Uses[c], out.Also[c] = m.b.Cells[c].usedAs(), slices.Clone(m.b.Cells[c].Also)
	}
	for _, fit := range out.Fits {
		c := fit.Cell
		set := setOf(fit.Functions...)
		fresh := set.without(m.b.hasAll(c))
		if m.b.replacesUse(c, set) || m.b.storesNoMore(c, set) {
			for _, f := range append([]Function{HasLiving}, fresh.list()...) {
				if room := functions[f].room; room != "" && fresh.has(f) {
					out.Uses[c] = room
					break
				}
			}
		}
		for _, f := range set.list() {
			room := functions[f].room
			if room != "" && room != out.Uses[c] && (fresh.has(f) || m.b.Cells[c].is(room)) && !slices.Contains(out.Also[c], room) {
				out.Also[c] = append(out.Also[c], room)
			}
		}
	}
}

// storesNoMore tells whether a closet or store gives its place to a laundry.
func (b *Building) storesNoMore(c int, set functionSet) bool {
	cell := &b.Cells[c]
	return set.has(HasLaundry) && !set.has(HasStorage) && slices.Contains([]Use{Closet, Pantry, Storage}, cell.Use)
}

// fitNote says what the drawing does not show of a new function's fixtures.
func (s *Scheme) fitNote(c int, f Function) string {
	i := slices.IndexFunc(s.Fits, func(fit Fit) bool { return fit.Cell == c })
	if i < 0 {
		return ""
	}
	fit := &s.Fits[i]
	var notes []string
	longest, stack := -1.0, ""
	for _, b := range fit.branches {
		if servedBy(b.use) == f && b.length > longest {
			longest, stack = b.length, b.stack
		}
	}
	if longest >= 0 && stack != "" {
		notes = append(notes, fmt.Sprintf("drain of %.1f m to %s, falling %.2f m", longest, stack, longest*drainFall))
	}
	if f == HasBathroom && slices.ContainsFunc(fit.Closets, func(c BuiltCloset) bool { return len(c.Front) > 0 }) {
		notes = append(notes, "built into the room, with partitions and a door")
	}
	if f == HasLaundry && fit.Stacked {
		notes = append(notes, "the dryer on the washer")
	}
	if servesRoom(f) && len(fit.Removed) > 0 {
		var ids []string
		for _, i := range fit.Removed {
			ids = append(ids, s.Building.House.Fixtures[i].ID)
		}
		notes = append(notes, "takes out "+strings.Join(ids, ", "))
	}
	if fit.clash != "" {
		notes = append(notes, fit.clash)
	}
	return strings.Join(notes, "; ")
}

// servesRoom tells whether f makes a room of another kind of its cell.
func servesRoom(f Function) bool {
	return f == HasKitchen || f == HasBathroom || f == HasLiving || f == HasBedroom
}

// addFixtures adds the surveyed fixtures, kept or removed, and the new ones.
func (m *model) addFixtures(out *Scheme) {
	removed := map[int]bool{}
	for _, fit := range out.Fits {
		for _, i := range fit.Removed {
			removed[i] = true
		}
	}
	for i, f := range m.b.House.Fixtures {
		unit := Nobody.String()
		if c := m.b.FixtureCell[i]; c != Outside {
			unit = out.Owners[c].String()
		}
		state := Kept
		if removed[i] {
			state = Removed
		}
		out.Fixtures = append(out.Fixtures, PlacedFixture{Fixture: f, Unit: unit, State: state})
	}
	for _, fit := range out.Fits {
		for _, f := range fit.Fixtures {
			out.Fixtures = append(out.Fixtures, PlacedFixture{Fixture: f, Unit: out.Owners[fit.Cell].String(), State: New})
		}
	}
}

// joinNotes puts what is said into one note.
func joinNotes(notes ...string) string {
	return strings.Join(slices.DeleteFunc(notes, func(n string) bool { return n == "" }), "; ")
}
