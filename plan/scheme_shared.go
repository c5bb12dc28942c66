package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan/partition"
)

// addShared lists what both units use: common cells, fixtures that the brief
// accepts as shared, and services that no room of a unit could take.
func (m *model) addShared(out *Scheme, s *partition.Solution) {
	for c := range m.b.Cells {
		if out.Owners[c] == Common {
			out.Shared = append(out.Shared, m.sharedCell(out, c))
		}
	}
	m.addSharedMeters(out)
	for _, f := range m.waived {
		for i, fix := range m.b.House.Fixtures {
			if slices.Contains(functions[f].fixtures, fix.Use) && m.b.FixtureCell[i] != Outside {
				size := "its size for two is not checked"
				if f == HasHotWater {
					size = "its size for two is among the services"
				}
				out.Shared = append(out.Shared, Shared{
					ID: fix.ID, Use: fix.Use, Accepted: true,
					Why: "the brief accepts one " + f.String() + " for both units; " + size,
				})
			}
		}
	}
	for u := range s.Hosts {
		for f := range functionCount {
			if m.problem.Units[u].Need[f] <= len(s.Hosts[u][f]) || m.problem.Units[u].Lack[f].Shared == 0 {
				continue
			}
			out.Shared = append(out.Shared, Shared{
				ID: fmt.Sprintf("%s of unit %s", f, Owner(u)), Use: strings.ReplaceAll(f.String(), " ", "_"),
				Why:  fmt.Sprintf("no space of unit %s has it or could take it, so the other unit's has to serve both", Owner(u)),
				Cure: fmt.Sprintf("give unit %s a closet, storage or mechanical room for it, or accept it with `share`", Owner(u)),
			})
		}
	}
}

// sharedCell says why a cell is common and what would cure it.
func (m *model) sharedCell(out *Scheme, c int) Shared {
	cell := &m.b.Cells[c]
	use := string(cell.Use)
	if cell.Flight {
		use = "stair"
	}
	shared := Shared{ID: cell.ID, Use: use, Accepted: m.accepted(c)}
	leads := m.leadsTo(out, c)
	switch {
	case shared.Accepted && leads != "":
		shared.Why = "accepted by the brief; it leads to " + leads
	case shared.Accepted:
		shared.Why = "accepted by the brief"
	case leads != "":
		shared.Why = "both units pass through it: it leads to " + leads
	default:
		shared.Why = "it serves both units and could not be given to one"
	}
	switch {
	case shared.Accepted:
	case cell.Outdoor:
		shared.Cure = "a second way from the public way, or a fence that divides it"
	case cell.Flight:
		shared.Cure = "a second flight or a second entry on the other level"
	default:
		shared.Cure = "divide it with a separating wall, or give one unit a new entry elsewhere"
	}
	return shared
}

// leadsTo names what each unit has beyond a common cell.
func (m *model) leadsTo(out *Scheme, c int) string {
	var ids [2][]string
	for _, l := range m.b.Links {
		if !l.Passage() || l.U != c && l.V != c {
			continue
		}
		far := l.other(c)
		if far == Outside || out.Owners[far] > UnitB {
			continue
		}
		o := out.Owners[far]
		if id := m.b.Cells[far].ID; !slices.Contains(ids[o], id) {
			ids[o] = append(ids[o], id)
		}
	}
	if len(ids[0]) == 0 || len(ids[1]) == 0 {
		return ""
	}
	slices.Sort(ids[0])
	slices.Sort(ids[1])
	return fmt.Sprintf("%s (A) and %s (B)", strings.Join(ids[0], ", "), strings.Join(ids[1], ", "))
}
