package plan

import (
	"slices"
	"strings"
)

// throughUse is what a dead end is taken for where it is the only way to
// another room. The first is given up the most lightly. Nobody ever passes
// through a bathroom or a garage.
var throughUse = []struct{ from, to Use }{
	{Mechanical, Unfinished}, {Laundry, Hall}, {Closet, Storage}, {Bedroom, Office},
}

// leastDwellingM2 is the least area behind a dead end that could be parted off
// as a unit with an entry of its own: 220 ft2 of an efficiency dwelling (IBC
// 1208.4, from memory).
const leastDwellingM2 = 20.4

// deadEnd tells whether nobody passes through the cell to reach anything but
// its own bathroom or closet.
func (c *Cell) deadEnd() bool { return c.Use.DeadEnd() && !c.Through }

// usedAs is the use of the cell where no work changes it: as surveyed, but of
// a dead end that is the only way to another room what people can walk through.
func (c *Cell) usedAs() Use {
	if c.Through {
		for _, t := range throughUse {
			if t.from == c.Use {
				return t.to
			}
		}
	}
	return c.Use
}

// findThroughRooms marks the dead ends that are the only way to another room,
// today and with any doorway that could be broken: a bedroom behind a bedroom,
// a cellar behind the furnace room. Without them a house that people live in
// could never be parted; with them it has a bedroom less. The mark goes with the
// space when it is divided.
func (b *builder) findThroughRooms() error {
	for _, s := range b.House.Spaces {
		if s.Of != "" || s.Through {
			return nil // found in the house that this one was made from
		}
	}
	h := *b.House
	h.Spaces = slices.Clone(h.Spaces)
	for {
		gate, behind := b.throughRoom()
		if gate == Outside {
			break
		}
		c := &b.Cells[gate]
		c.Through = true
		i := slices.IndexFunc(h.Spaces, func(s Space) bool { return s.ID == c.Of })
		h.Spaces[i].Through = true
		b.House = &h
		b.warn(c.Of, "the only way to %s leads through %s, and no other doorway could be made: it counts as %s, which people may walk through, and no longer as %s",
			strings.Join(behind, ", "), c.ID, words(string(c.usedAs())), words(string(c.Use)))
	}
	return nil
}

// throughRoom finds a dead end that has to be walked through, and the rooms
// behind it; Outside where there is none.
func (b *builder) throughRoom() (gate int, behind []string) {
	near := b.indoorWays()
	served := b.served(near)
	reached := b.Reached()
	seen := slices.Clone(served)
	for c := range b.Cells {
		if seen[c] || !reached[c] || b.Cells[c].Outdoor || b.Cells[c].Use == Garage {
			continue
		}
		part := make([]bool, len(b.Cells))
		part[c] = true
		queue, gates := []int{c}, []int(nil)
		for k := 0; k < len(queue); k++ {
			for _, w := range near[queue[k]] {
				switch {
				case served[w.to]:
					gates = append(gates, w.to)
				case !part[w.to] && b.Cells[w.to].Use != Garage:
					part[w.to] = true
					queue = append(queue, w.to)
				}
			}
		}
		for i := range seen {
			seen[i] = seen[i] || part[i]
		}
		if b.couldBeOpened(part, served, areaOf(b.Cells, queue)) {
			continue
		}
		if gate := b.lightestGate(gates); gate != Outside {
			slices.Sort(queue)
			for _, c := range queue {
				behind = append(behind, b.Cells[c].ID)
			}
			return gate, behind
		}
	}
	return Outside, nil
}

// indoorWay is a passage to another indoor cell.
type indoorWay struct {
	to      int
	leadsOn bool // also from a dead end
}

// indoorWays lists the passages of each indoor cell to other indoor cells.
func (b *builder) indoorWays() [][]indoorWay {
	near := make([][]indoorWay, len(b.Cells))
	for _, l := range b.Links {
		if !l.Passage() || l.V == Outside || b.Cells[l.U].Outdoor || b.Cells[l.V].Outdoor {
			continue
		}
		from, on := b.leadsOn(l)
		near[l.U] = append(near[l.U], indoorWay{l.V, on && from == l.U})
		near[l.V] = append(near[l.V], indoorWay{l.U, on && from == l.V})
	}
	return near
}

// served tells which indoor cells people reach from a door to the outside
// without passing through a dead end. In a house without such a door it is all
// that hangs together with the first cell that is no dead end.
func (b *builder) served(near [][]indoorWay) []bool {
	served := make([]bool, len(b.Cells))
	var queue []int
	reach := func(c int) {
		if !served[c] {
			served[c] = true
			queue = append(queue, c)
		}
	}
	first := Outside
	for c := range b.Cells {
		if b.entryRoom(c) && first == Outside {
			first = c
		}
	}
	for _, l := range b.Links {
		if l.Passage() && b.entryRoom(l.U) && (l.V == Outside || b.Cells[l.V].Outdoor) {
			reach(l.U)
		}
	}
	if len(queue) == 0 && first != Outside {
		reach(first)
	}
	for k := 0; k < len(queue); k++ {
		c := queue[k]
		for _, w := range near[c] {
			if !b.Cells[c].deadEnd() || w.leadsOn {
				reach(w.to)
			}
		}
	}
	return served
}

// couldBeOpened tells whether a new doorway could join a part of the house of
// m2 square metres to a room that people pass through, or, where it is large
// enough to be a unit, a new entry to the outside.
func (b *builder) couldBeOpened(part, served []bool, m2 float64) bool {
	return slices.ContainsFunc(b.Links, func(l Link) bool {
		passed := func(c int) bool { return served[c] && !b.Cells[c].deadEnd() }
		switch l.Kind {
		case LinkWall:
			if !(part[l.U] && passed(l.V)) && !(part[l.V] && passed(l.U)) {
				return false
			}
		case LinkExterior:
			if !part[l.U] || m2 < leastDwellingM2 {
				return false
			}
		}
		_, _, ok := b.doorwayThrough(l, 0)
		return ok
	})
}

// areaOf sums the areas of cells in square metres.
func areaOf(cells []Cell, of []int) float64 {
	var m2 float64
	for _, c := range of {
		m2 += cells[c].AreaM2
	}
	return m2
}

// lightestGate picks the dead end that is given up the most lightly; Outside
// where none may be.
func (b *builder) lightestGate(gates []int) int {
	slices.Sort(gates)
	for _, t := range throughUse {
		for _, c := range gates {
			if b.Cells[c].Use == t.from && !b.Cells[c].Through {
				return c
			}
		}
	}
	return Outside
}
