package plan

import "moiety/geom"

// BodiesOf gives what stands in a fit, beds and worktops too.
func BodiesOf(f Fit) []geom.Region {
	var out []geom.Region
	for _, p := range f.bodies {
		out = append(out, f.frame.region(p))
	}
	return out
}

// CapacityOf tells how many counted functions a cell hosts at once.
func CapacityOf(b *Building, c int) int { return b.offerOf(c).capacity }

// FitsOf gives the ways for a cell to take on functions together.
func FitsOf(b *Building, c int, fs ...Function) []Fit { return b.fitsTogether(c, setOf(fs...)) }

// ThinkableOf tells whether a cell of its use and size can be thought of for a function.
func ThinkableOf(b *Building, c int, f Function) bool { return b.takesUp(c, f) }

// OfferOf gives the functions that a cell is offered for.
func OfferOf(b *Building, c int) []Function { return b.offerOf(c).functions.list() }

// ClashesOf gives the sets of functions that do not go together in a cell.
func ClashesOf(b *Building, c int) [][]Function {
	var out [][]Function
	for _, set := range b.offerOf(c).clashes {
		out = append(out, set.list())
	}
	return out
}

// HasOf gives the functions that a cell has as surveyed.
func HasOf(b *Building, c int) []Function { return b.hasAll(c).list() }

// PlacesOf gives the fits of one thing alone in a cell, whatever its use.
func PlacesOf(b *Building, c int, name string) []Fit {
	b.fitting.Lock()
	defer b.fitting.Unlock()
	r := b.room(c)
	var out []Fit
	for _, w := range []want{
		kitchenWant, bathingWant, pieceWant(wcPiece), pieceWant(basinPiece), laundryWant,
		pieceWant(furnacePiece), pieceWant(heaterPiece), panelWant, bedWant, pieceWant(shelfPiece),
	} {
		if w.name != name {
			continue
		}
		for _, o := range w.options(r, nil) {
			out = append(out, r.result(r.arrangement([]placed{o}), 0, nil))
		}
	}
	return out
}
