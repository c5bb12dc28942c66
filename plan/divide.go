package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
)

// Division is a stretch along which a space has been parted, as House.Divisions
// lists them.
type Division struct {
	Level     int
	Line      geom.Segment
	Thickness float64 // of the wall taken from the pieces; 0 where their edges coincide
}

// pieceJoin is the distance at which the corners on the two sides of a hair's
// slit are brought together: more than the slit is wide at a corner.
const pieceJoin = 0.002

// Divide replaces each space that cuts part by its pieces, whose edges
// coincide along the cuts: each has an id of its own, entry/1, and in Of that of
// the space. The house given stays as it is. The error names a space that the
// house does not have or that could not be overlaid.
func Divide(h *House, cuts []Cut) (*House, error) {
	lines := map[string][]Cut{}
	for _, c := range cuts {
		lines[c.Space] = append(lines[c.Space], c)
	}
	var found []string
	out := h.withPieces(func(s *Space) ([]geom.Region, error) {
		of := lines[s.ID]
		if len(of) == 0 {
			return nil, nil
		}
		found = append(found, s.ID)
		var slits []geom.Shape
		for _, c := range of {
			slits = append(slits, slitAlong(s.Region, c.Line, 0))
		}
		pieces, err := slitted(s.Region, slits)
		if err != nil || len(pieces) < 2 {
			return nil, err
		}
		return withoutBent(geom.Snap(pieces, pieceJoin)), nil
	})
	if out.err != nil {
		return nil, fmt.Errorf("plan: dividing the spaces of %q: %w", h.Name, out.err)
	}
	if len(found) < len(lines) {
		return nil, fmt.Errorf("plan: dividing the spaces of %q: of %d spaces to be cut the house has %d", h.Name, len(lines), len(found))
	}
	return out.house, nil
}

// withoutBent drops the corners that a slit has left in the line of their
// neighbours.
func withoutBent(pieces []geom.Region) []geom.Region {
	for i, r := range pieces {
		pieces[i].Outer = straightened(r.Outer)
		for k, h := range r.Holes {
			pieces[i].Holes[k] = straightened(h)
		}
	}
	return pieces
}

type dividedHouse struct {
	house *House
	err   error
}

// withPieces gives the house with each space replaced by the pieces that a
// function makes of it; nil keeps it whole. Pieces are numbered the largest
// first; of pieces as large the one first that lies nearer to the first of
// the other spaces by id from which they are not as far, so that numbers do
// not hang on how the house is turned.
func (h *House) withPieces(piecesOf func(*Space) ([]geom.Region, error)) dividedHouse {
	n := *h
	n.Spaces = nil
	for i := range h.Spaces {
		s := &h.Spaces[i]
		pieces, err := piecesOf(s)
		if err != nil {
			return dividedHouse{err: fmt.Errorf("space %q: %w", s.ID, err)}
		}
		if len(pieces) < 2 {
			n.Spaces = append(n.Spaces, *s)
			continue
		}
		h.sortPieces(s, pieces)
		for k, region := range pieces {
			piece := *s
			piece.ID, piece.Of, piece.Region = fmt.Sprintf("%s/%d", s.ID, k+1), s.ID, region
			if s.Name != "" {
				piece.Name = fmt.Sprintf("%s %d", s.Name, k+1)
			}
			n.Spaces = append(n.Spaces, piece)
		}
	}
	return dividedHouse{house: &n}
}

// sameAreaM2 is the difference up to which two pieces are as large: what a few
// millimetres along a fence make.
const sameAreaM2 = 0.05

func (h *House) sortPieces(s *Space, pieces []geom.Region) {
	var others []geom.Pt
	byID := slices.Clone(h.Spaces)
	slices.SortFunc(byID, func(a, b Space) int { return cmp.Compare(a.ID, b.ID) })
	for _, o := range byID {
		if o.ID != s.ID {
			others = append(others, centreOf(o.Region))
		}
	}
	slices.SortStableFunc(pieces, func(p, q geom.Region) int {
		if d := p.AreaM2() - q.AreaM2(); math.Abs(d) > sameAreaM2 {
			return cmp.Compare(0, d)
		}
		a, b := centreOf(p), centreOf(q)
		for _, o := range others {
			if d := a.Distance(o) - b.Distance(o); math.Abs(d) > geom.Coincide {
				return cmp.Compare(d, 0)
			}
		}
		return 0
	})
}

// openDivisions marks the gap between two pieces of a space as open: no wall
// stands there today, whatever room has been left for one.
func (b *builder) openDivisions() error {
	for i := range b.faces {
		w := &b.faces[i]
		if w.B == geom.Exposed || w.Open {
			continue
		}
		u, v := &b.Cells[b.solids[w.A].cell], &b.Cells[b.solids[w.B].cell]
		if u.Of == v.Of && u.ID != v.ID && b.onDivision(u.Level, w.CentreLine()) {
			w.Open = true
		}
	}
	return nil
}

// onDivision tells whether a line runs along one of the house's divisions.
func (b *builder) onDivision(level int, line geom.Segment) bool {
	return slices.ContainsFunc(b.House.Divisions, func(d Division) bool {
		at := d.Line.Along(line.Mid())
		return d.Level == level && at > -d.Thickness && at < d.Line.Length()+d.Thickness &&
			math.Abs(d.Line.Off(line.A)) <= geom.Coincide && math.Abs(d.Line.Off(line.B)) <= geom.Coincide
	})
}
