package housetest

import (
	"fmt"
	"math/rand/v2"

	"moiety/plan"
)

// Planted is a house put together from two units.
type Planted struct {
	House *plan.House
	// Unit says whose each indoor space and flight is, "A" or "B".
	Unit map[string]string
	// Joined lists the doors and openings that were cut into the separation.
	Joined []string
	// Open lists the pairs of spaces between which the wall was taken out.
	Open [][2]string
}

// Plant generates two complete units of two bedrooms each, side by side with a
// party wall between or one above the other, and opens their separation in
// one to three places. The same seed gives the same house.
func Plant(seed uint64) Planted {
	r := rand.New(rand.NewPCG(seed, 13))
	p := &planting{
		small: small{Draft: New(fmt.Sprintf("Planted house %d", seed)), r: r},
		out:   Planted{Unit: map[string]string{}},
	}
	p.surveyedSite = p.chance(0.6)
	if p.surveyedSite {
		p.Site("site", -0.3)
	}
	p.Level("main", 0, clearHeight)
	if p.chance(0.5) {
		p.sideBySide()
	} else {
		p.stacked()
	}
	p.addWindows()
	if p.surveyedSite {
		p.addYards()
	}
	p.out.House = p.House()
	return p.out
}

// planting is a planted house in the making.
type planting struct {
	small
	out Planted
}

// dwelling has the rooms of one unit but its hall.
var dwelling = [...]plan.Use{
	plan.Living, plan.Kitchen, plan.Bathroom, plan.Bedroom, plan.Bedroom, plan.Laundry, plan.Mechanical, plan.Storage,
}

// widths gives the widths of the four rooms of a row, and their sum with the
// walls between.
func (p *planting) widths() (w [4]float64, sum float64) {
	for i := range w {
		w[i] = p.between(2.8, 3.8)
		sum += w[i] + wallInside
	}
	return w, sum - wallInside
}

const (
	wallInside = 0.1
	hallFront  = roomDepth + wallInside
	hallBack   = hallFront + corridorWidth
	backRow    = hallBack + wallInside
)

// unitRooms stands the rooms of a unit in two rows of four along a hall, each
// with a door to it.
func (p *planting) unitRooms(unit, level string, x0 float64, widths [4]float64, hallFrom, hallTo float64) {
	p.put(unit, unit+"-hall", level, plan.Hall, hallFrom, hallFront, hallTo, hallBack)
	for n, i := range p.r.Perm(len(dwelling)) {
		use, x := dwelling[i], x0
		for _, w := range widths[:n%4] {
			x += w + wallInside
		}
		width := widths[n%4]
		y, doorY := 0.0, roomDepth+wallInside/2
		if n >= 4 {
			y, doorY = backRow, backRow-wallInside/2
		}
		id := fmt.Sprintf("%s-%s-%d", unit, use, i)
		p.put(unit, id, level, use, x, y, x+width, y+roomDepth)
		at := x + p.between(0.2, width-1)
		p.Door("door-"+id, level, at, doorY, at+0.8, doorY)
		if use == plan.Mechanical {
			p.Fixture(unit+"-furnace", "furnace", level, x+0.5, y+0.5)
			p.Fixture(unit+"-heater", "water_heater", level, x+1.2, y+0.5)
			p.Fixture(unit+"-panel", "electrical_panel", level, x+0.5, y+1.5)
		}
	}
	p.depth = backRow + roomDepth
}

func (p *planting) put(unit, id, level string, use plan.Use, x0, y0, x1, y1 float64) {
	p.room(id, level, use, x0, y0, x1, y1)
	p.h.Spaces[len(p.h.Spaces)-1].Also = nil // one kitchen to each unit
	p.out.Unit[id] = unit
}

// sideBySide stands the units left and right of a party wall.
func (p *planting) sideBySide() {
	party := p.pick(0.2, 0.25, 0.3)
	left, end := p.widths()
	right, length := p.widths()
	start := end + party
	p.width = start + length
	hall := start
	if p.chance(0.3) {
		hall = end // the wall between the halls taken out
		p.out.Open = append(p.out.Open, [2]string{"A-hall", "B-hall"})
	}
	p.unitRooms("A", "main", 0, left, 0, end)
	p.unitRooms("B", "main", start, right, hall, p.width)
	p.Door("entry-A", "main", -wallOutside/2, hallFront+0.5, -wallOutside/2, hallFront+1.4)
	p.Door("entry-B", "main", p.width+wallOutside/2, hallFront+0.5, p.width+wallOutside/2, hallFront+1.4)
	middle := end + party/2
	if len(p.out.Open) == 0 && p.chance(0.6) {
		p.join("main", middle, hallFront+0.4, hallFront+0.4+p.between(0.8, 1.3))
	}
	if len(p.out.Open)+len(p.out.Joined) == 0 || p.chance(0.3) {
		p.join("main", middle, 0.8, 0.8+p.between(0.8, 2))
	}
	if p.chance(0.3) {
		p.join("main", middle, backRow+0.8, backRow+0.8+p.between(0.8, 2))
	}
}

// stacked stands unit B over unit A, with a lobby and a flight of its own
// beside A's end; a door or an opening leads from the lobby into A's hall.
//
//	 A's rooms   | .---. |   upstairs the same with B's rooms, and B's hall
//	-------------| |   | |   goes on to the landing
//	 A's hall    = |___| |
//	-------------|       |
//	 A's rooms   |__   __|   B's entry
func (p *planting) stacked() {
	const party = 0.2
	p.Level("upper", storey, clearHeight)
	widths, end := p.widths()
	x := end + party
	p.unitRooms("A", "main", 0, widths, 0, end)
	p.unitRooms("B", "upper", 0, widths, 0, x)
	p.width = x + 2
	for _, hall := range [...][2]string{{"B-lobby", "main"}, {"B-landing", "upper"}} {
		p.out.Unit[hall[0]] = "B"
		p.Room(hall[0], plan.Hall, hall[1], x, 0, x+2, 0, x+2, 2.4, x+1, 2.4, x+1, 6, x+2, 6, x+2, p.depth, x, p.depth)
	}
	p.Flight("B-flight", "main", "upper", "n", x+1, 2.4, x+2, 6)
	p.out.Unit["B-flight"] = "B"
	p.Door("entry-A", "main", -wallOutside/2, hallFront+0.5, -wallOutside/2, hallFront+1.4)
	p.Door("entry-B", "main", x+0.5, -wallOutside/2, x+1.4, -wallOutside/2)
	p.join("main", end+party/2, hallFront+0.4, hallFront+0.4+p.between(0.8, 1.3))
}

// join cuts a door or an opening into the separation, where it runs along x.
func (p *planting) join(level string, x, y0, y1 float64) {
	id := fmt.Sprintf("joined-%d", len(p.out.Joined))
	p.out.Joined = append(p.out.Joined, id)
	if p.chance(0.5) {
		p.Opening(id, level, x, y0, x, y1)
		return
	}
	p.Door(id, level, x, y0, x, y0+0.8)
}

// addYards surveys a yard for each unit's entry and the street.
func (p *planting) addYards() {
	x0, y0, x1, y1 := -wallOutside, -wallOutside, p.width+wallOutside, p.depth+wallOutside
	p.Room("yard-left", plan.Yard, "site", x0-4, y0-6, x0, y1)
	p.Room("yard-right", plan.Yard, "site", x1, y0-6, x1+4, y1)
	p.Room("yard-front", plan.Yard, "site", x0, y0-6, x1, y0)
	p.Room("street", plan.Street, "site", x0-4, y0-12, x1+4, y0-6)
}
