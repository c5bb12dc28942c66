package plan

import (
	"fmt"
	"math"
	"slices"

	"moiety/plan/rules"
)

// halfStorey is the rise up to which a flight leads up half a storey only, in
// metres: less than a person's height.
const halfStorey = 1.8

// checkExits compares the ways out of each unit.
func checkExits(c *checking) {
	for _, u := range bothUnits {
		w := newWalks(c.s, u)
		a := about{unit: u.String(), subject: u.String()}
		c.exits(w, a)
		ways := map[TravelEnd][]Travel{}
		for _, room := range w.rooms() {
			for _, to := range [...]TravelEnd{ToEntry, ToOutside} {
				if t, ok := w.travel(room, to); ok {
					ways[to] = append(ways[to], t)
				}
			}
		}
		c.waysOut(w, ways[ToOutside])
		c.travelDistance(w, ways[ToEntry])
		c.commonTravel(w, a)
		c.innerRooms(w, ways[ToEntry])
		c.passageHeight(w)
	}
}

// exits counts the doors to the outdoors that a unit's people get to, through
// no garage, and tells whether it has one of its own.
func (c *checking) exits(w *walks, a about) {
	r := w.outward(ToOutside, false)
	hinged, own := 0, 0
	var seen []string
	for g := range w.gates {
		gate := &w.gates[g]
		if !gate.out || slices.Contains(seen, gate.of) || gate.of == "" {
			continue
		}
		seen = append(seen, gate.of)
		for _, cell := range gate.cells {
			if cell == Outside || c.b.Cells[cell].Outdoor || c.b.Cells[cell].Use == Garage || r.length[g] != 0 {
				continue
			}
			if sideHinged(gate.door) {
				hinged++
			}
			if c.s.Owners[cell] == w.unit {
				own++
			}
		}
	}
	b := a
	b.note, b.cure = "side-hinged doors to the outside that its people get to without passing a garage", "a side-hinged door to the outside"
	c.measured("exit-doors", float64(hinged), b)
	b = a
	b.cure = "a door of its own to the outside"
	provided := fmt.Sprintf("%d of its own", own)
	holds := own > 0
	if !holds && w.entersCommon() {
		provided = "a door to what both units use"
		_, limited := c.set.Get("exit-may-be-shared")
		holds = !limited || c.IsSecondary()
		b.note = "both units use the way out"
		if limited {
			b.note = "both units use the way out, which a house with a secondary suite may have"
		}
	}
	c.judged("exit-own", holds, provided, b)
}

// entersCommon tells whether a door of the unit opens to a common hall.
func (w *walks) entersCommon() bool {
	return slices.ContainsFunc(w.gates, func(g gate) bool { return g.entry && !g.out })
}

// waysOut judges the way out of each room: through no garage, and how many
// storeys it goes up or down.
func (c *checking) waysOut(w *walks, ways []Travel) {
	storeys := map[string]float64{}
	var levels []string
	for _, t := range ways {
		if t.Garage {
			c.judged("exit-no-garage", false, "through a garage", about{unit: t.Unit, subject: t.From, cure: "a way out that passes no garage"})
		}
		level := c.b.House.Levels[t.Legs[0].Level].ID
		if !slices.Contains(levels, level) {
			levels = append(levels, level)
		}
		n := 0.0
		for _, l := range t.Legs {
			if s := c.b.House.stair(l.Flight); s != nil {
				n += 0.5
				if c.b.House.Levels[s.To].Floor-c.b.House.Levels[s.Level].Floor > halfStorey {
					n += 0.5
				}
			}
		}
		storeys[level] = max(storeys[level], math.Ceil(n))
	}
	if len(ways) > 0 && !slices.ContainsFunc(ways, func(t Travel) bool { return t.Garage }) {
		c.judged("exit-no-garage", true, "through none", about{unit: w.unit.String(), subject: w.unit.String()})
	}
	for _, level := range levels {
		c.measured("exit-storeys", storeys[level], about{
			unit: w.unit.String(), subject: level, note: "flights to the door, two half flights counted as one",
			cure: "a way out nearer by, or a window or balcony that the clause accepts in its place",
		})
	}
}

// travelDistance measures the walk from the entrance to the farthest place of
// the habitable rooms, where a floor of the unit lies so high that the set asks.
func (c *checking) travelDistance(w *walks, ways []Travel) {
	grade, known := c.b.grade()
	if limit, ok := c.set.Get("escape-storey-height"); ok && known {
		top := math.Inf(-1)
		for _, cell := range c.indoors(w.unit) {
			top = max(top, c.b.Cells[cell].Floor)
		}
		if limit.Meets(top - grade) {
			return
		}
	}
	farthest := Travel{LengthM: -1}
	for _, t := range ways {
		if t.LengthM > farthest.LengthM {
			farthest = t
		}
	}
	if farthest.LengthM >= 0 {
		c.measured("travel-distance", farthest.LengthM, about{
			unit: farthest.Unit, subject: farthest.From, note: "walked from its farthest corner, along the slope of flights",
			cure: "a protected hall, which the clause accepts instead",
		})
	}
}

// commonTravel measures the walk from the unit's own door through what is
// common to the outside.
func (c *checking) commonTravel(w *walks, a about) {
	r := w.outward(ToOutside, false)
	farthest, door := -1.0, ""
	for g := range w.gates {
		gate := &w.gates[g]
		served := slices.ContainsFunc(gate.cells[:], func(cell int) bool {
			return cell != Outside && c.s.Owners[cell] == w.unit && (c.b.Cells[cell].Flight || c.used(cell, habitable...) || c.used(cell, Hall, Entry))
		})
		if served && gate.entry && !gate.out && !math.IsInf(r.length[g], 1) && r.length[g] > farthest {
			farthest, door = r.length[g], gate.of
		}
	}
	if farthest < 0 {
		return
	}
	exits := 0
	for g := range w.gates {
		gate := &w.gates[g]
		for _, cell := range gate.cells {
			if gate.out && cell != Outside && !c.b.Cells[cell].Outdoor && c.s.Owners[cell] == Common {
				exits++
			}
		}
	}
	id := rules.ID("travel-common-one-way")
	if exits > 1 {
		id = "travel-common-two-ways"
	}
	if door != "" {
		a.subject = door
	}
	a.note, a.cure = "walked through what is common", "a door of its own nearer to the outside"
	c.measured(id, farthest, a)
}

// innerRooms judges the rooms that are reached only through another room.
func (c *checking) innerRooms(w *walks, ways []Travel) {
	for _, t := range ways {
		cell := c.b.CellNamed(t.From)
		through := ""
		for _, id := range t.Through {
			passed := c.b.CellNamed(id)
			if passed >= 0 && passed != cell && !c.b.Cells[passed].Flight && w.floor[passed] != w.floor[cell] && c.used(passed, habitable...) && !c.used(passed, Hall, Entry) {
				through = id
			}
		}
		if through == "" || c.used(cell, Kitchen) {
			continue
		}
		windows := c.windowsOf([]int{cell})
		opens := slices.ContainsFunc(windows, func(win *Window) bool { return win.Operation != "fixed" })
		direct := slices.ContainsFunc(w.ends[w.floor[cell]], func(g int) bool { return w.gates[g].out })
		c.judged("inner-rooms", opens || direct, "through "+through, about{
			unit: t.Unit, subject: t.From, note: "let be where it has an escape window: see its escape opening",
			cure: "a door to the hall, or a window to escape by",
		})
	}
}

// passageHeight measures how high above the ground an entrance opens to an
// outside passage.
func (c *checking) passageHeight(w *walks) {
	grade, known := c.b.grade()
	for g := range w.gates {
		gate := &w.gates[g]
		if !gate.entry || !gate.out {
			continue
		}
		for _, cell := range gate.cells {
			if cell == Outside {
				continue
			}
			if use := c.b.Cells[cell].Use; known && (use == Deck || use == Balcony || use == Porch) {
				c.measured("exit-passage-height", c.b.Cells[cell].Floor-grade, about{
					unit: w.unit.String(), subject: gate.of, note: c.b.Cells[cell].ID + " above the ground", cure: "a second way out",
				})
			}
		}
	}
}
