package plan

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"moiety/plan/partition"
)

// pieceOwner is a piece of a divided space and whose it is.
type pieceOwner struct {
	cell, space string
	label       partition.Label
	outdoor     bool
}

// ownership gives ways to divide the house, which are to be left out, as the
// problem numbers the pieces.
func (m *model) ownership(divisions [][]pieceOwner) (out [][]partition.Ownership) {
	for _, pieces := range divisions {
		var list []partition.Ownership
		for _, p := range pieces {
			c := slices.IndexFunc(m.problem.Cells, func(c partition.Cell) bool { return c.Name == p.cell })
			list = append(list, partition.Ownership{Cell: c, Label: p.label})
		}
		out = append(out, list)
	}
	return out
}

// division tells how a solution divides the house: the owners of all pieces,
// first those of spaces that come to several owners.
func (m *model) division(s *partition.Solution) (pieces []pieceOwner, parted int) {
	owners := map[string]partition.LabelSet{} // per space
	for i, c := range m.cells {
		if c != Outside && m.b.Cells[c].isPiece() {
			owners[m.b.Cells[c].Of] |= 1 << s.Labels[i]
			pieces = append(pieces, pieceOwner{m.b.Cells[c].ID, m.b.Cells[c].Of, s.Labels[i], m.b.Cells[c].Outdoor})
		}
	}
	severally := func(p pieceOwner) int {
		if set := owners[p.space]; set&(set-1) != 0 {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(pieces, func(p, q pieceOwner) int { return severally(p) - severally(q) })
	for parted < len(pieces) && severally(pieces[parted]) == 0 {
		parted++
	}
	return pieces, parted
}

// otherwise deals with a solution that does not hold with the thickness of the
// walls that it builds. Where no owners of all else, yards in pieces too, go with
// its rooms as it divides them, all these are left out at once. Else the best
// schemes of the house as it divides it are those of that house, walls and all,
// with the pieces' owners fixed. Every other scheme gives some piece to somebody
// else: these are searched next.
func (x *lineSearch) otherwise(ctx context.Context, m *model, s *partition.Solution, set lineSet) error {
	pieces, parted := m.division(s)
	if say := m.spoilt(pieces[:parted]); !slices.Contains(x.thin, say) {
		x.thin = append(x.thin, say)
	}
	spoilt, err := x.spoiltIndoors(ctx, m, s)
	if err != nil {
		return err
	}
	if spoilt {
		pieces = slices.DeleteFunc(pieces, func(p pieceOwner) bool { return p.outdoor })
	} else if err := x.asDivided(ctx, m, s); err != nil {
		return err
	}
	set.except = append(slices.Clone(set.except), pieces)
	return x.along(ctx, set)
}

// spoiltIndoors tells whether no scheme of interest divides the rooms as a
// solution does, with the thickness of walls.
func (x *lineSearch) spoiltIndoors(ctx context.Context, m *model, s *partition.Solution) (bool, error) {
	owners := map[string]partition.Label{}
	h, err := m.reunite(x.whole.b.House, s, owners, true)
	if err != nil {
		return false, err
	}
	b, err := Build(h)
	if err != nil {
		return false, fmt.Errorf("plan: the house as a scheme divides its rooms: %w", err)
	}
	var strict []string // rooms are divided for good
	for _, sp := range x.whole.b.House.Spaces {
		if !sp.Outdoor {
			strict = append(strict, sp.ID)
		}
	}
	final := x.whole.dividedIn(b, strict)
	fixed := final.problem.Clone()
	pieces, _ := m.division(s)
	for i, c := range final.cells {
		if c == Outside || b.Cells[c].Outdoor {
			continue
		}
		cell := &b.Cells[c]
		if label, ok := owners[cell.ID]; ok && slices.ContainsFunc(pieces, func(p pieceOwner) bool { return p.space == cell.Of }) {
			fixed.Cells[i].Allowed &= 1 << label
		}
	}
	result, err := final.solve(ctx, fixed, x.optionsFor(final, lineSet{}))
	if err != nil {
		return false, fmt.Errorf("plan: stating the house as a scheme divides its rooms: %w", err)
	}
	x.answer.Nodes += result.Nodes
	return result.Status == partition.Infeasible, nil
}

// asDivided searches the house as a solution divides it, with the walls' thickness.
func (x *lineSearch) asDivided(ctx context.Context, m *model, s *partition.Solution) error {
	final, owners, err := m.rebuilt(x.whole, s)
	if err != nil {
		return err
	}
	fixed := final.problem.Clone()
	for i, c := range final.cells {
		if c != Outside && final.b.Cells[c].isPiece() {
			label, ok := owners[final.b.Cells[c].ID]
			if !ok {
				return fmt.Errorf("plan: %s has no owner in the scheme that divides it", final.b.Cells[c].ID)
			}
			fixed.Cells[i].Allowed &= 1 << label
		}
	}
	result, err := final.solve(ctx, fixed, x.optionsFor(final, lineSet{}))
	if err != nil {
		return fmt.Errorf("plan: stating the house as divided by a scheme: %w", err)
	}
	x.results = append(x.results, result)
	x.answer.Nodes += result.Nodes
	x.bounds = append(x.bounds, final.wholePrice(result.Bound))
	for i := range result.Solutions {
		if x.single && !x.promises(final, &result.Solutions[i]) {
			continue
		}
		scheme, err := final.scheme("", &result.Solutions[i])
		if err != nil {
			return err
		}
		scheme.Whole = x.whole.b
		x.add(final, scheme)
	}
	x.answer.rank()
	return nil
}

// spoilt says of a way to divide spaces that the walls' thickness spoils it.
func (m *model) spoilt(pieces []pieceOwner) string {
	var spaces []string
	of := map[string][]string{}
	for _, p := range pieces {
		if !slices.Contains(spaces, p.space) {
			spaces = append(spaces, p.space)
		}
		owner := "shared"
		if p.label != partition.Common {
			owner = "unit " + m.brief.Units[p.label].ID
		}
		of[p.space] = append(of[p.space], p.cell+" "+owner)
	}
	var parts []string
	for _, id := range spaces {
		parts = append(parts, fmt.Sprintf("%s (%s)", m.nameOfSpace(id), strings.Join(of[id], ", ")))
	}
	return fmt.Sprintf("the cheapest scheme that divides %s does not hold with the %.2f m that a new wall is thick, and was left out", strings.Join(parts, " and "), m.prices.SeparatingWall.Thickness)
}
