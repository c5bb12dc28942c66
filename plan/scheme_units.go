package plan

import (
	"fmt"
	"slices"

	"moiety/geom"
	"moiety/plan/partition"
)

// neitherUnit groups the cells that take their half of a wall between
// themselves and a unit but belong to neither.
const neitherUnit = -1

// belowGrade is how far a floor may lie under the ground before its level
// counts as below grade: a door sill's height. ANSI Z765 3.5 counts any level
// that is wholly or partly below grade, whole.
const belowGrade = 0.15

// addUnit measures a unit and counts what it has.
func (m *model) addUnit(out *Scheme, s *partition.Solution, o Owner) {
	b, brief := m.b, m.brief.Units[o]
	unit := &out.Units[o]
	unit.ID, unit.Name = o.String(), brief.Name
	if unit.Name == "" {
		unit.Name = "Unit " + unit.ID
	}
	for c := range b.Cells {
		if out.Owners[c] != o {
			continue
		}
		cell := &b.Cells[c]
		unit.Cells = append(unit.Cells, c)
		switch {
		case cell.Outdoor:
			if b.has(c, HasOutdoor) {
				unit.OutdoorM2 += cell.AreaM2
			}
		case cell.Use != Garage:
			unit.NetM2 += cell.AreaM2
		}
		unit.Parking += b.stalls(c)
		m.countRooms(out, unit, c)
	}
	if over := unit.Bedrooms - brief.Bedrooms.Max; brief.Bedrooms.MaxSaid && over > 0 {
		unit.Bedrooms = brief.Bedrooms.Max
		unit.Notes = append(unit.Notes, fmt.Sprintf("%d of its bedrooms to be used otherwise: the brief asks for at most %d", over, brief.Bedrooms.Max))
	}
	for f := range functionCount {
		if missing := m.problem.Units[o].Need[f] - len(s.Hosts[o][f]); missing > 0 {
			unit.Notes = append(unit.Notes, fmt.Sprintf("%s: none of its own", f))
		}
	}
}

// countRooms counts bedrooms and bathrooms as the scheme uses the cell.
func (m *model) countRooms(out *Scheme, unit *Unit, c int) {
	use, also := out.Uses[c], out.Also[c]
	is := func(u Use) bool { return use == u || slices.Contains(also, u) }
	if is(Bedroom) {
		if note := m.bedroomNote(out, c); note != "" {
			unit.Notes = append(unit.Notes, note)
		} else {
			unit.Bedrooms++
		}
	}
	for _, room := range [...]Use{Bathroom, PowderRoom, Bedroom} {
		if is(room) {
			if note := m.plantNote(out, c, room); note != "" {
				unit.Notes = append(unit.Notes, note)
			}
			break
		}
	}
	switch {
	case is(Bathroom) && (use != m.b.Cells[c].Use || m.b.has(c, HasBathroom) || out.takesOn(c, "new_bathroom")):
		unit.Bathrooms++
	case is(Bathroom), is(PowderRoom):
		unit.Bathrooms += 0.5
	}
}

// takesOn tells whether a kind of work is done in the cell.
func (s *Scheme) takesOn(c int, kind string) bool {
	return slices.ContainsFunc(s.Works, func(w Work) bool {
		return w.Kind == kind && slices.Contains(w.Spaces, s.Building.Cells[c].ID)
	})
}

// addGross measures both units' gross areas level by level: to the exterior
// face of exterior walls and the middle of the separation, garages left out
// (IPMS 3A, see AreaStandard), and parts them by grade.
func (m *model) addGross(out *Scheme) error {
	grade, known := m.b.grade()
	for level, l := range m.b.House.Levels {
		areas, err := m.b.grossAreas(level, func(c int) int {
			if owner := out.Owners[c]; owner <= UnitB && m.b.Cells[c].Use != Garage {
				return int(owner)
			}
			return neitherUnit
		})
		if err != nil {
			return fmt.Errorf("plan: gross areas on level %s: %w", l.ID, err)
		}
		for u, m2 := range areas {
			unit := &out.Units[u]
			unit.GrossM2 += m2
			if known && l.Floor < grade-belowGrade {
				unit.BelowM2 += m2
			} else {
				unit.AboveM2 += m2
			}
		}
	}
	return nil
}

// grossAreas parts a level's outline between the groups that its cells belong
// to and returns the square metres of each.
func (b *Building) grossAreas(level int, group func(c int) int) ([]float64, error) {
	var prisms []geom.Prism
	var of []int
	for _, s := range b.solids {
		if s.level == level && !b.Cells[s.cell].Outdoor {
			prisms = append(prisms, s.Prism)
			of = append(of, group(s.cell))
		}
	}
	return geom.Shares(b.Levels[level].Outline, prisms, of)
}
