package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/plan/acoustics"
	"moiety/plan/assembly"
)

// WeakPoint is where a separation is weaker than its build-up.
type WeakPoint struct {
	Kind    string // door, flight, ducts, boxes, flanking
	Between [2]string
	// Composite is the STC of the surface as a whole by its parts' areas, and
	// Target what is asked; 0 where only a note is to be made.
	Composite, Target int
	Note              string
}

// ownDoorSTC is the rating of a solid-core door of 45 mm with seals all round
// and at the sill: from memory; one without seals is nearer 20.
const ownDoorSTC = 28

// addWeakPoints lists what makes the separation weaker than its build-ups.
func (s *Scheme) addWeakPoints() {
	s.WeakPoints = nil
	for _, w := range s.Works {
		switch {
		case w.Kind == "new_door" && len(w.Spaces) == 2 && s.separates(w.Spaces):
			s.WeakPoints = append(s.WeakPoints, s.weakDoor(w))
		case w.Kind == "close_stair" && len(w.Spaces) == 2:
			point := WeakPoint{
				Kind: "flight", Between: [2]string(w.Spaces),
				Note: "the flight is closed off by a wall, but its strings and treads still touch both units: part them from the new wall, fill and line its underside",
			}
			point.Composite, point.Target = s.around(point.Between)
			s.WeakPoints = append(s.WeakPoints, point)
		}
	}
	if len(s.BuildUps) == 0 {
		return
	}
	for i := range s.BuildUps {
		u := &s.BuildUps[i]
		if u.Meets || !u.has(assembly.Flight) {
			continue
		}
		for _, x := range u.Surfaces {
			s.WeakPoints = append(s.WeakPoints, WeakPoint{
				Kind: "flight", Between: x.Between,
				Note: "too low for a published floor under the flight: give what lies below to the flight's unit, leave it closed and empty, or have a designer rate its lining",
			})
		}
	}
	if slices.ContainsFunc(s.Works, func(w Work) bool { return w.Kind == "new_furnace" }) || s.sharesHeat() {
		s.WeakPoints = append(s.WeakPoints, s.holed(
			"ducts", bareDuctM2, "ducts of one furnace join the rooms of both units: cut and cap each at the separation, or line it and fit a rated damper; one bare duct of 150 mm is reckoned with",
		))
	}
	s.WeakPoints = append(s.WeakPoints,
		s.holed("boxes", boxGapM2, "boxes back to back in one bay, and recessed lights, can cost a separating surface several decibels: move them a bay apart and seal them; gaps of 1 cm2 in all are reckoned with"),
		WeakPoint{Kind: "flanking", Note: "sound also passes round the separation, through the subfloor, the ceiling space and the walls that run past it: ratings are the laboratory's, and commonly some 5 dB less are measured in the house"})
}

// around is the STC of all that separates the flight among two cells from the
// other unit, its walls and its underside, by area, and what is asked; 0 where
// one of them has no rating.
func (s *Scheme) around(between [2]string) (stc, target int) {
	flight := between[0]
	if c := s.Building.CellNamed(flight); c < 0 || !s.Building.Cells[c].Flight {
		flight = between[1]
	}
	var parts []acoustics.Part
	for _, up := range s.BuildUps {
		for _, surface := range up.Surfaces {
			if surface.Between[0] != flight && surface.Between[1] != flight {
				continue
			}
			if up.Assembly.STC == 0 {
				return 0, 0
			}
			target = max(target, up.Targets.STC)
			parts = append(parts, acoustics.Part{Name: up.Tag, AreaM2: surface.AreaM2, DB: float64(up.Assembly.STC)})
		}
	}
	r, err := acoustics.Composite(parts)
	if err != nil {
		return 0, 0
	}
	return int(math.Floor(r)), target
}

// What passes sound like an open hole, in m2.
const (
	bareDuctM2 = math.Pi * 0.150 * 0.150 / 4 // a round branch duct of 6 in
	boxGapM2   = 1e-4                        // the gaps round two boxes back to back; common practice, no source
)

// holed rates the largest separating surface with an open hole in it.
func (s *Scheme) holed(kind string, hole float64, note string) WeakPoint {
	point := WeakPoint{Kind: kind, Note: note}
	most := 0.0
	for _, up := range s.BuildUps {
		for _, surface := range up.Surfaces {
			if up.Assembly.STC == 0 || surface.AreaM2 <= max(most, hole) {
				continue
			}
			r, err := acoustics.Composite([]acoustics.Part{
				{Name: up.Tag, AreaM2: surface.AreaM2 - hole, DB: float64(up.Assembly.STC)}, {Name: kind, AreaM2: hole},
			})
			if err != nil {
				continue
			}
			most = surface.AreaM2
			point.Between, point.Composite, point.Target = surface.Between, int(math.Floor(r)), up.Targets.STC
		}
	}
	return point
}

// separates tells whether two cells belong to different owners.
func (s *Scheme) separates(ids []string) bool {
	a, b := s.Building.CellNamed(ids[0]), s.Building.CellNamed(ids[1])
	return a >= 0 && b >= 0 && s.Owners[a] != s.Owners[b]
}

// sharesHeat tells whether a furnace or boiler stays shared.
func (s *Scheme) sharesHeat() bool {
	return slices.ContainsFunc(s.Shared, func(e Shared) bool { return e.Use == "furnace" || e.Use == "boiler" })
}

// weakDoor rates the surface between two cells with a door in it.
func (s *Scheme) weakDoor(w Work) WeakPoint {
	point := WeakPoint{Kind: "door", Between: [2]string(w.Spaces)}
	area, door := 0.0, newDoorLeaf*ownDoorWidth
	parts := []acoustics.Part{}
	for _, up := range s.BuildUps {
		for _, surface := range up.Surfaces {
			if surface.Work == "upgrade_floor" || !samePair(surface.Between, point.Between) {
				continue
			}
			area += surface.AreaM2
			point.Target = up.Targets.STC
			parts = append(parts, acoustics.Part{Name: up.Tag, AreaM2: surface.AreaM2, DB: float64(up.Assembly.STC)})
		}
	}
	point.Note = fmt.Sprintf("a solid-core door with seals all round is taken at STC %d, from memory; without seals it is far less", ownDoorSTC)
	if area <= door {
		point.Note = "the door fills the surface: it decides what is heard. " + point.Note
		return point
	}
	for i := range parts {
		parts[i].AreaM2 *= (area - door) / area
	}
	parts = append(parts, acoustics.Part{Name: "door", AreaM2: door, DB: ownDoorSTC})
	if r, err := acoustics.Composite(parts); err == nil {
		point.Composite = int(math.Floor(r))
	}
	return point
}

// ownDoorWidth is that of a unit's own door where none is drawn yet.
const ownDoorWidth = 0.90

func samePair(a, b [2]string) bool { return a == b || a[0] == b[1] && a[1] == b[0] }
