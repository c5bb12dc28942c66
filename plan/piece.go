package plan

import (
	"slices"

	"moiety/geom"
	"moiety/plan/partition"
)

// isPiece tells whether a cell is a piece of a divided space.
func (c *Cell) isPiece() bool { return c.ID != c.Of }

// lead tells whether a cell is a whole space, or the largest piece of one.
func (b *Building) lead(c int) bool {
	return !b.Cells[c].isPiece() || b.Cells[c].ID == b.Cells[c].Of+"/1"
}

// pieceHas tells whether a piece has what the whole space has by its use. A
// living room is no living room in a piece that is smaller than one. What goes
// by fixtures goes to the piece that they stand in, and where none were drawn
// to the largest piece. A bedroom or bathroom is not had in pieces.
func (b *Building) pieceHas(c int, f Function) bool {
	cell := &b.Cells[c]
	switch f {
	case HasLiving:
		return livable(cell.Region)
	case HasKitchen:
		return b.fixturesIn(c, "range", "sink", "refrigerator")
	case HasLaundry:
		return b.fixturesIn(c, "washer", "dryer")
	case HasBedroom, HasBathroom:
		return false
	}
	return true
}

// livable tells whether a room is large and wide enough to live in.
func livable(r geom.Region) bool {
	return r.AreaM2() >= livingMinM2 && r.HoldsDisc(livingMinWidth/2-widthTolerance)
}

// fixturesIn tells whether one of the fixtures stands in a piece, or none in
// any piece and this is the largest.
func (b *Building) fixturesIn(c int, uses ...string) bool {
	if b.holds(c, uses...) {
		return true
	}
	for other := range b.Cells {
		if b.Cells[other].Of == b.Cells[c].Of && b.holds(other, uses...) {
			return false
		}
	}
	return b.lead(c)
}

// pieceTakesUp tells whether a piece can be thought of for a function that it
// lacks. Pieces of a room to live in that stay with one unit stay one room: no
// bedroom is made of one of them, and a kitchen besides the largest only where
// the whole has room for both.
func (b *Building) pieceTakesUp(c int, f Function) bool {
	cell := &b.Cells[c]
	if !slices.Contains([]Use{Living, Family, Dining}, cell.Use) {
		return true
	}
	switch f {
	case HasBedroom:
		return false
	case HasKitchen:
		whole := 0.0
		for _, other := range b.Cells {
			if other.Of == cell.Of {
				whole += other.AreaM2
			}
		}
		return b.lead(c) || whole >= livingMinM2+kitchenMinM2
	}
	return true
}

// divides makes the problem that of the divided house of another.
func (m *model) divides(whole *model, strict []string) {
	m.whole, m.strict = whole, strict
	m.lendToPieces(whole, strict)
	m.joinShared()
}

// lendToPieces lets the largest piece of each divided space take on what the
// space could take on whole and no piece can alone, and together what goes
// together in the whole, but for spaces that are taken strictly.
func (m *model) lendToPieces(whole *model, strict []string) {
	m.lent = map[int][]Function{}
	for c := range whole.b.Cells {
		id := whole.b.Cells[c].ID
		pieces := m.b.piecesOf(id)
		if len(pieces) < 2 || whole.place[c] < 0 || slices.Contains(strict, id) {
			continue
		}
		of := &whole.problem.Cells[whole.place[c]]
		for _, p := range pieces {
			if !m.b.lead(p) || m.place[p] < 0 {
				continue
			}
			lead := &m.problem.Cells[m.place[p]]
			for f := range functionCount {
				if of.Host[f] != partition.Impossible && !m.anyHosts(pieces, f, of.Host[f]) {
					lead.Host[f] = of.Host[f]
					lead.Closes[f] = of.Closes[f]
					m.lent[p] = append(m.lent[p], f)
				}
			}
			if len(m.lent[p]) > 0 {
				lead.Capacity = of.Capacity
			}
			could := func(f int) bool { return of.Host[f] != partition.Impossible }
			clashes := slices.Clone(of.Clashes)
			for _, clash := range lead.Clashes {
				if slices.ContainsFunc(clash, func(f int) bool { return !could(f) }) {
					clashes = append(clashes, clash)
				}
			}
			lead.Clashes = clashes
		}
	}
}

// anyHosts tells whether a piece hosts a function at no more than a price.
func (m *model) anyHosts(pieces []int, f Function, price partition.Money) bool {
	return slices.ContainsFunc(pieces, func(p int) bool {
		if m.place[p] < 0 {
			return false
		}
		h := m.problem.Cells[m.place[p]].Host[f]
		return h != partition.Impossible && h <= price
	})
}

// joinShared makes pieces of one space that hang together and are all common
// count as one shared element, as they are one space when it is built. Shared
// elements are counted in halves for it; pieces are strung together along links
// at which no third piece joins, so that every stretch of common pieces has two
// ends (see partition.Link.SharedEdge).
func (m *model) joinShared() {
	p := m.problem
	for i := range p.Cells {
		p.Cells[i].Common.Shared *= 2
	}
	for u := range p.Units {
		for f := range p.Units[u].Lack {
			p.Units[u].Lack[f].Shared *= 2
		}
	}
	neighbours := make([]int, len(p.Cells))
	strung := make([]int, len(p.Cells)) // the string that a piece is in
	for i := range strung {
		strung[i] = i
	}
	for i := range p.Links {
		l := &p.Links[i]
		u, v := m.cells[l.U], m.cells[l.V]
		if u == Outside || v == Outside || m.b.Cells[u].Of != m.b.Cells[v].Of || u == v || !l.Open {
			continue
		}
		if neighbours[l.U] == 2 || neighbours[l.V] == 2 || strung[l.U] == strung[l.V] || p.Cells[l.U].Common.Shared == 0 {
			continue
		}
		neighbours[l.U]++
		neighbours[l.V]++
		from, to := strung[l.U], strung[l.V]
		for c := range strung {
			if strung[c] == from {
				strung[c] = to
			}
		}
		l.SharedEdge++
		p.Cells[l.U].Common.Shared--
		p.Cells[l.V].Common.Shared--
	}
}

// borrows names a space in whose largest piece a solution hosts what only the
// whole could, at all or together, although its pieces come to different
// owners, or host more together than the whole could, or what clashes in it; ""
// none.
func (m *model) borrows(whole *model, s *partition.Solution) string {
	for p := range m.b.Cells {
		id := m.b.Cells[p].Of
		if !m.b.Cells[p].isPiece() || !m.b.lead(p) || slices.Contains(m.strict, id) || whole.place[whole.b.CellNamed(id)] < 0 {
			continue
		}
		pieces := m.b.piecesOf(id)
		hosted, borrowed := 0, false
		var set, alone functionSet // what all pieces host, and this one
		for u := range s.Hosts {
			for f := range functionCount {
				for _, c := range s.Hosts[u][f] {
					if !slices.Contains(pieces, m.cells[c]) {
						continue
					}
					set |= setOf(f)
					if !functions[f].uncounted {
						hosted++
					}
					if m.cells[c] == p {
						alone |= setOf(f)
						borrowed = borrowed || slices.Contains(m.lent[p], f)
					}
				}
			}
		}
		if !borrowed && !m.b.offerOf(p).clash(alone) {
			continue
		}
		parted := slices.ContainsFunc(pieces, func(q int) bool {
			return m.place[q] >= 0 && s.Labels[m.place[q]] != s.Labels[m.place[p]]
		})
		offer := whole.b.offerOf(whole.b.CellNamed(id))
		if parted || offer.clash(set) || hosted > offer.capacity {
			return id
		}
	}
	return ""
}

// CellNamed finds a cell by id; -1 where there is none.
func (b *Building) CellNamed(id string) int {
	return slices.IndexFunc(b.Cells, func(c Cell) bool { return c.ID == id })
}

// piecesOf lists the cells that a space was parted into, or that it is.
func (b *Building) piecesOf(space string) []int {
	var out []int
	for c := range b.Cells {
		if b.Cells[c].Of == space {
			out = append(out, c)
		}
	}
	return out
}
