package plan

// groundAt gives the elevation of the ground outside a link to the outdoors:
// the outdoor space's floor, else the survey's grade, else the floor of the
// lowest level that has a door to the outside. The last is a guess; known is
// false where even that is missing.
func (b *Building) groundAt(v int) (elevation float64, known bool) {
	if v != Outside {
		return b.Cells[v].Floor, true
	}
	return b.grade()
}

// grade is the elevation of the ground at the house.
func (b *Building) grade() (elevation float64, known bool) {
	if b.House.GradeSaid {
		return b.House.Grade, true
	}
	for _, l := range b.Links {
		if l.Kind == LinkDoor && l.V == Outside && !b.Cells[l.U].Outdoor {
			if f := b.Cells[l.U].Floor; !known || f < elevation {
				elevation, known = f, true
			}
		}
	}
	return elevation, known
}

// outdoorsSurveyed tells whether the survey has any outdoor space.
func (b *Building) outdoorsSurveyed() bool {
	for c := range b.Cells {
		if b.Cells[c].Outdoor {
			return true
		}
	}
	return false
}

// publicGround lists the outdoor cells that the public way is taken to reach
// where no street or lane was surveyed: walks, drives and parking, else every
// outdoor cell.
func (b *Building) publicGround() []int {
	var ways, all []int
	for c := range b.Cells {
		switch cell := &b.Cells[c]; {
		case cell.Public:
			return nil
		case cell.Use == Walk || cell.Use == Drive || cell.Use == Parking:
			ways = append(ways, c)
			all = append(all, c)
		case cell.Outdoor:
			all = append(all, c)
		}
	}
	if len(ways) > 0 {
		return ways
	}
	return all
}

// opensTo tells whether an entry with the outdoor end v meets the brief's
// entry_from: v is that space, or lies on ground reached from it without
// crossing another public way.
func (b *Building) opensTo(v int, from string) bool {
	if from == "" {
		return true
	}
	if v == Outside {
		return false
	}
	seen := make([]bool, len(b.Cells))
	var queue []int
	for c := range b.Cells {
		if b.Cells[c].Outdoor && b.means(from, c) {
			if c == v {
				return true
			}
			if b.Cells[c].Public {
				seen[c] = true
				queue = append(queue, c)
			}
		}
	}
	for len(queue) > 0 {
		c := queue[0]
		queue = queue[1:]
		if c == v {
			return true
		}
		for _, l := range b.Links {
			next := l.other(c)
			if next < 0 || !l.Passage() || seen[next] || !b.Cells[next].Outdoor || b.Cells[next].Public {
				continue
			}
			seen[next] = true
			queue = append(queue, next)
		}
	}
	return false
}

// other is the far end of the link from c; Outside also where c is no end.
func (l Link) other(c int) int {
	switch c {
	case l.U:
		return l.V
	case l.V:
		return l.U
	}
	return Outside
}

// named tells whether a word of the brief's share means the cell: its id, the
// space it is a piece of, or its use.
func (c *Cell) named(word string) bool {
	return c.ID == word || c.Of == word || (c.Use != "" && string(c.Use) == word)
}

// means tells whether a word of keep, avoid or entry_from means the cell: an
// id where one is so called, otherwise every space of that use.
func (b *Building) means(word string, c int) bool {
	for i := range b.Cells {
		if b.Cells[i].ID == word || b.Cells[i].Of == word {
			return b.Cells[c].ID == word || b.Cells[c].Of == word
		}
	}
	return b.Cells[c].named(word)
}
