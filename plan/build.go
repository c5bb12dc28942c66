package plan

import (
	"cmp"
	"fmt"
	"slices"

	"moiety/geom"
)

// Build works out from a checked survey what partition.md calls cells and
// links: who borders on whom, through what, and at which height. The error is
// a *Problems that lists everything at once: a door that joins nothing, a
// flight that arrives nowhere.
//
// Cells are sorted by id, links by kind and id; neither depends on the order
// of features in the file, nor on how the house is turned on its lot.
func Build(h *House) (*Building, error) {
	b := &builder{
		Building: &Building{House: h},
		ends:     map[int][]geom.Segment{},
		problems: &Problems{File: h.Name},
	}
	steps := []func() error{
		b.addCells,
		b.findMiddle,
		b.addSolids,
		b.indexSolids,
		b.findWalls,
		b.findThickness,
		b.drawLevels,
		b.openDivisions,
		b.addPassages,
		b.addStairs,
		b.addOpen,
		b.addWalls,
		b.addExteriors,
		b.addOutdoors,
		b.addFloors,
		b.markBearing,
		b.placeFixtures,
		b.placeWindows,
		b.nameLinks,
		b.findThroughRooms,
		b.reportUnreached,
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, fmt.Errorf("house %q: %w", h.Name, err)
		}
	}
	if err := b.problems.err(); err != nil {
		return nil, err
	}
	slices.SortStableFunc(b.Warnings, func(v, w Warning) int {
		return cmp.Or(cmp.Compare(v.Feature, w.Feature), cmp.Compare(v.Message, w.Message))
	})
	return b.Building, nil
}

// builder is a Building in the making.
type builder struct {
	*Building
	index  *geom.BoxIndex
	middle geom.Pt // of the house in plan

	faces     []geom.Wall            // between indoor solids, A and B their indices
	ends      map[int][]geom.Segment // per face: the ends of flights that lie on it
	voidWalls []voidWall
	arrivals  []arrival
	problems  *Problems
}

// solid is the body of a cell, or a part of it: a flight has one on the level
// of its foot and, over it, its void on the level of its head.
type solid struct {
	geom.Prism
	cell   int
	level  int     // the level that it was surveyed on, also its layer
	floor  float64 // where one stands on it
	flight bool
	void   bool // of a flight: the part on the level of its head
}

// outdoor tells whether the solid belongs to an outdoor cell.
func (b *builder) outdoor(s int) bool { return b.Cells[b.solids[s].cell].Outdoor }

// warn notes what was assumed about a feature.
func (b *builder) warn(feature, format string, args ...any) {
	b.Warnings = append(b.Warnings, Warning{Feature: feature, Message: fmt.Sprintf(format, args...)})
}

// place gives a position as the survey's own coordinates show it.
func (b *builder) place(p geom.Pt) string {
	x, y := p.Metres()
	per := b.House.Unit.PerMetre()
	return fmt.Sprintf("(%.2f, %.2f)", x*per, y*per)
}

// link adds a link with its ends in order: indoors before outdoors, then cells
// by index, Outside last. Rise is given from u to v and turned with them.
func (b *builder) link(l Link) {
	swap := l.U == Outside || (l.V != Outside && b.before(l.V, l.U))
	if swap && !hasRoles[l.Kind] {
		l.U, l.V, l.Rise = l.V, l.U, -l.Rise
	}
	if l.Rise == 0 {
		l.Rise = 0 // no negative zero in the results
	}
	b.Links = append(b.Links, l)
}

// hasRoles has the kinds whose ends are told apart by what they are: the
// flight, the cell below, the cell indoors comes first.
var hasRoles = map[LinkKind]bool{LinkStair: true, LinkSide: true, LinkFloor: true, LinkExterior: true}

// before tells whether cell u stands before cell v in a link.
func (b *builder) before(u, v int) bool {
	if out := b.Cells[u].Outdoor; out != b.Cells[v].Outdoor {
		return !out
	}
	return u < v
}

// idOf is the id of a cell, or "outside".
func (b *builder) idOf(cell int) string {
	if cell == Outside {
		return "outside"
	}
	return b.Cells[cell].ID
}
