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
}

// pieceLimit leaves a piece only some owners.
type pieceLimit struct {
	cell    string
	allowed partition.LabelSet
}

// limit leaves the pieces only the owners that they may have; it reports false
// where none is left to one.
func (m *model) limit(limits []pieceLimit) bool {
	for _, l := range limits {
		for i := range m.problem.Cells {
			if c := &m.problem.Cells[i]; c.Name == l.cell {
				if c.Allowed &= l.allowed; c.Allowed == 0 {
					return false
				}
			}
		}
	}
	return true
}

// division tells how a solution divides the house: the owners of all pieces,
// first those of spaces that come to several owners.
func (m *model) division(s *partition.Solution) (pieces []pieceOwner, parted int) {
	owners := map[string]partition.LabelSet{} // per space
	for i, c := range m.cells {
		if c != Outside && m.b.Cells[c].isPiece() {
			owners[m.b.Cells[c].Of] |= 1 << s.Labels[i]
			pieces = append(pieces, pieceOwner{m.b.Cells[c].ID, m.b.Cells[c].Of, s.Labels[i]})
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
// walls that it builds. The best schemes of the house as it divides it are those
// of that house, walls and all, with the pieces' owners fixed; every other
// scheme gives some piece to somebody else, the first piece or the second and
// the first not, and so on: these are searched one after the other.
func (x *lineSearch) otherwise(ctx context.Context, m *model, s *partition.Solution, set lineSet) error {
	pieces, parted := m.division(s)
	if say := m.spoilt(pieces[:parted]); !slices.Contains(x.thin, say) {
		x.thin = append(x.thin, say)
	}
	if err := x.asDivided(ctx, m, s); err != nil {
		return err
	}
	limits := slices.Clone(set.limits)
	for _, p := range pieces {
		next := set
		next.limits = append(slices.Clone(limits), pieceLimit{p.cell, partition.Any &^ (1 << p.label)})
		if err := x.along(ctx, next); err != nil {
			return err
		}
		limits = append(limits, pieceLimit{p.cell, 1 << p.label})
	}
	return nil
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
	result, err := final.solve(ctx, fixed, x.optionsFor(final))
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
