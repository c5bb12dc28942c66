package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/plan/partition"
)

// scheme turns a solution of the partition into a scheme with its works,
// areas and parts. The error is a fault: works that do not add up to the price.
func (m *model) scheme(id string, s *partition.Solution) (*Scheme, error) {
	out := &Scheme{ID: id, Building: m.b, Brief: m.brief, Proved: s.Proved}
	out.Owners = make([]Owner, len(m.b.Cells))
	for c := range m.b.Cells {
		out.Owners[c] = Nobody
		if i := m.place[c]; i >= 0 && !m.b.Cells[c].Public {
			out.Owners[c] = Owner(s.Labels[i])
		}
	}
	places, err := m.fitCells(out, s)
	if err != nil {
		return nil, err
	}
	m.takeUses(out)
	m.addHostingWorks(out, s)
	m.addLinkParts(out, s, places)
	m.closeBedrooms(out, s)
	m.addUnitWorks(out)
	numberWorks(out)
	m.addFixtures(out)
	m.addWindows(out)
	for u := range out.Units {
		m.addUnit(out, s, Owner(u))
	}
	if err := m.addGross(out); err != nil {
		return nil, err
	}
	m.addShared(out, s)
	return out, m.addCost(out, s)
}

func (m *model) addHostingWorks(out *Scheme, s *partition.Solution) {
	for u := range s.Hosts {
		for f := range functionCount {
			for _, i := range s.Hosts[u][f] {
				works, _ := m.hosting(m.cells[i], f)
				for _, w := range works {
					w.Unit = Owner(u).String()
					if w.Kind == functions[f].work {
						w.Note = joinNotes(w.Note, out.fitNote(m.cells[i], f))
					}
					out.Works = append(out.Works, w)
				}
			}
		}
	}
}

// addUnitWorks adds what every scheme has: the walls that the brief opens,
// meters, and a number, a mailbox and a doorbell for each unit.
func (m *model) addUnitWorks(out *Scheme) {
	for _, o := range m.b.House.Opened {
		out.Works = append(out.Works, m.openWork(out, o))
		out.Walls = append(out.Walls, WallRun{
			Between: o.Between, Level: o.Level, Line: o.Line, Thickness: o.ThicknessM, Height: o.HeightM, State: Removed,
		})
	}
	out.Works = append(out.Works, m.meterWorks()...)
	for u := range out.Units {
		out.Works = append(out.Works, Work{
			Kind: "address_set", Unit: Owner(u).String(), Count: 1,
			Cost: cents(m.prices.cost("address_set", 0, 0, 1)), Note: "address number, mailbox and doorbell",
		})
	}
}

// workKinds lists the kinds of works as results list them.
var workKinds = [...]string{
	"separating_wall", "upgrade_wall", "upgrade_floor", "seal_door", "seal_opening", "close_stair", "new_door", "new_entry",
	"remove_wall", "fence", "new_kitchen", "new_bathroom", "new_powder_room", "new_laundry", "new_furnace",
	"new_water_heater", "finish_space", "new_window", "enlarge_window", "window_well", "new_panel", "new_meter", "address_set",
}

// numberWorks sorts the works by kind, keeping the order of links within one,
// and numbers them.
func numberWorks(out *Scheme) {
	slices.SortStableFunc(out.Works, func(a, b Work) int {
		return slices.Index(workKinds[:], a.Kind) - slices.Index(workKinds[:], b.Kind)
	})
	for i := range out.Works {
		out.Works[i].ID = fmt.Sprintf("W%d", i+1)
	}
}

// addCost adds the works up and holds them against the price of the solution.
func (m *model) addCost(out *Scheme, s *partition.Solution) error {
	always := m.always()
	for _, w := range out.Works {
		out.Cost.Works += w.Cost
	}
	out.Cost.Works = cents(out.Cost.Works)
	out.Cost.Priorities = m.priorities(out, s)
	out.Cost.Total = cents(out.Cost.Works + out.Cost.Priorities)
	price := cents(currency(s.Price.Money) + always)
	// A cent for each of the priorities that the partition rounds down.
	if math.Abs(price-out.Cost.Total) > 0.02 {
		return fmt.Errorf("plan: scheme %s: works and priorities come to %.2f, the partition's price is %.2f", out.ID, out.Cost.Total, price)
	}
	out.Bound = out.Cost.Total
	if !s.Proved {
		out.Bound = math.Min(out.Bound, cents(currency(max(s.Bound.Money, 0))+always))
		if s.Bound.Shared < s.Price.Shared {
			out.Bound = always
		}
		if out.Cost.Total > 0 {
			out.Gap = (out.Cost.Total - out.Bound) / out.Cost.Total
		}
	}
	return nil
}

// priorities is the part of the price that is not works: noise across the
// separation, distance from the wanted share, a unit without storage.
func (m *model) priorities(out *Scheme, s *partition.Solution) float64 {
	sum := 0.0
	for _, l := range m.b.Links {
		if out.parted(l) == partedUnits {
			sum += m.noise(l)
		}
	}
	for u := range s.Hosts {
		if missing := m.problem.Units[u].Need[HasStorage] - len(s.Hosts[u][HasStorage]); missing > 0 {
			sum += float64(missing) * currency(m.lack(HasStorage).Money)
		}
	}
	if balance := m.problem.Balance; balance.PerArea > 0 {
		var area [2]int64
		for c, o := range out.Owners {
			if o <= UnitB && m.place[c] >= 0 {
				area[o] += m.problem.Cells[m.place[c]].Area
			}
		}
		off := 1000*area[0] - int64(balance.Share)*(area[0]+area[1])
		if off < 0 {
			off = -off
		}
		sum += currency(partition.Money(off) * balance.PerArea / 1000)
	}
	return cents(sum)
}
