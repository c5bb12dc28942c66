package plan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"moiety/geom"
	"moiety/plan/partition"
)

// search finds the best schemes: those that leave every space whole, and those
// that divide some along their candidate lines.
//
// In the divided house each piece is a cell; pieces of one space that hang
// together and are common count as one shared element. What a space could take
// on whole and no piece can alone is first offered by the largest piece. A
// scheme that makes use of that although the space comes to two owners does not
// hold; the search is then split in two, with the space whole and with no more
// than its pieces can take on. Two pieces of three may take on what neither can
// alone: so the house is searched with one line to a space, with two, and so on.
// What the thickness of the new walls spoils is built otherwise where it can be,
// and searched around: see otherwise.
//
// It gives the widest problem that was found to have no solution, which can
// say why; nil where there was none.
func (a *Answer) search(ctx context.Context, m *model, o SplitOptions) (*model, error) {
	x := a.lines(m, partition.Options{Schemes: m.brief.Schemes, Workers: o.Workers, Trace: o.Trace})
	err := x.run(ctx)
	for _, say := range x.thin {
		a.Warnings = append(a.Warnings, Warning{Message: say})
	}
	return x.infeasible, err
}

// lines prepares a search whose schemes become the answer's.
func (a *Answer) lines(m *model, o partition.Options) *lineSearch {
	return &lineSearch{answer: a, whole: m, options: o}
}

// run searches the whole house, and then the divided one with ever more lines.
func (x *lineSearch) run(ctx context.Context) error {
	a, m := x.answer, x.whole
	if err := x.solve(ctx, m, lineSet{}); err != nil {
		return err
	}
	if m.brief.Cuts {
		a.Cuts = slices.DeleteFunc(slices.Clone(a.houses.cuts()), func(c Cut) bool { return m.left(c.Space) })
		for most := 1; ; most++ {
			set := lineSet{cuts: firstOfEach(a.Cuts, most)}
			if err := x.along(ctx, set); err != nil {
				return err
			}
			if len(set.cuts) == len(a.Cuts) {
				break
			}
		}
	}
	a.finish(x)
	return nil
}

// lineSearch solves the problems that differ in the lines along which spaces
// are divided, and gathers their schemes.
type lineSearch struct {
	answer  *Answer
	whole   *model
	options partition.Options
	// single asks for the best scheme alone; below is the best one known to
	// hold so far, if any.
	single  bool
	below   *Scheme
	results []partition.Result
	bounds  []partition.Price // of the results, in whole shared elements
	thin    []string          // ways to divide the house that the walls' thickness spoils, in words
	tried   []string          // keys of what has been solved
	open    bool              // a scheme that does not hold was left unexplored
	// infeasible is the widest problem without a solution.
	infeasible *model
}

// firstOfEach gives the first lines of each space, so many at most; the most
// useful come first.
func firstOfEach(cuts []Cut, most int) []Cut {
	var out []Cut
	n := map[string]int{}
	for _, c := range cuts {
		if n[c.Space]++; n[c.Space] <= most {
			out = append(out, c)
		}
	}
	return out
}

// lineSet is a choice of lines, with the spaces whose pieces take on no more
// than each can alone, and the ways to divide the house that are left out.
type lineSet struct {
	cuts   []Cut
	strict []string
	except [][]pieceOwner
}

func (s lineSet) key() string { return fmt.Sprint(s.cuts, s.strict, s.except) }

// without leaves a space whole; what is left out says nothing of the house then.
func (s lineSet) without(space string) lineSet {
	s.except = nil
	s.cuts = slices.DeleteFunc(slices.Clone(s.cuts), func(c Cut) bool { return c.Space == space })
	s.strict = slices.DeleteFunc(slices.Clone(s.strict), func(id string) bool { return id == space })
	return s
}

// strictly takes the pieces of a space for what each is alone.
func (s lineSet) strictly(space string) lineSet {
	s.strict = append(slices.Clone(s.strict), space)
	slices.Sort(s.strict)
	return s
}

// mostSearches bounds how many problems are solved for one answer.
const mostSearches = 60

// along solves the problem with a set of lines, unless it has been, and those
// that schemes which do not hold lead to.
func (x *lineSearch) along(ctx context.Context, set lineSet) error {
	key := set.key()
	if len(set.cuts) == 0 || ctx.Err() != nil || slices.Contains(x.tried, key) {
		return nil
	}
	if len(x.results) >= mostSearches {
		x.open = true
		return nil
	}
	x.tried = append(x.tried, key)
	b, err := x.answer.houses.along(set.cuts)
	if err != nil {
		return err
	}
	return x.solve(ctx, x.whole.dividedIn(b, set.strict), set)
}

// solve solves one problem and adds its schemes.
func (x *lineSearch) solve(ctx context.Context, m *model, set lineSet) error {
	result, err := m.solve(ctx, m.problem, x.optionsFor(m, set))
	if err != nil {
		return fmt.Errorf("plan: stating the partition of %q: %w", m.b.House.Name, err)
	}
	x.results = append(x.results, result)
	x.answer.Nodes += result.Nodes
	x.bounds = append(x.bounds, m.wholePrice(result.Bound))
	if result.Status == partition.Infeasible && !x.single && len(set.strict) == 0 && len(set.except) == 0 {
		x.infeasible = m
	}
	doubtful := ""
	var thin *partition.Solution // the first that the walls' thickness spoils
	for i := range result.Solutions {
		s := &result.Solutions[i]
		if x.single && !x.promises(m, s) {
			continue
		}
		if space := m.borrows(x.whole, s); space != "" {
			doubtful = cmp.Or(doubtful, space)
			continue
		}
		scheme, err := m.reunited(ctx, x.whole, s)
		if err != nil {
			return err
		}
		if scheme != nil {
			x.add(m, scheme)
		} else if thin == nil && ctx.Err() == nil {
			thin = s
		}
	}
	x.answer.rank()
	switch {
	case doubtful == "" && thin != nil:
		return x.otherwise(ctx, m, thin, set)
	case doubtful == "":
		return nil
	}
	if err := x.along(ctx, set.without(doubtful)); err != nil {
		return err
	}
	return x.along(ctx, set.strictly(doubtful))
}

// add takes a scheme among the answer's.
func (x *lineSearch) add(m *model, scheme *Scheme) {
	x.answer.Schemes = append(x.answer.Schemes, scheme)
	if x.single && (x.below == nil || m.better(scheme, x.below)) {
		x.below = scheme
	}
}

// finish draws the status of the answer from those of all problems solved.
func (a *Answer) finish(x *lineSearch) {
	a.Status, a.Complete = partition.Infeasible, true
	stopped := x.open
	for _, r := range x.results {
		stopped = stopped || r.Status == partition.Bounded || r.Status == partition.Unknown
		a.Complete = a.Complete && r.Complete
	}
	switch {
	case stopped && len(a.Schemes) > 0:
		a.Status = partition.Bounded
	case stopped:
		a.Status = partition.Unknown
	case len(a.Schemes) > 0:
		a.Status = partition.Proved
	}
	for _, s := range a.Schemes {
		s.Proved = s.Proved && !stopped
	}
}

// rank puts the schemes in order, leaves out those that do not differ from a
// better one, and numbers as many as the brief asks for.
func (a *Answer) rank() {
	slices.SortStableFunc(a.Schemes, better)
	a.Schemes = unlike(a.Schemes, a.Brief.alike())
	a.Schemes = a.Schemes[:min(len(a.Schemes), a.Brief.Schemes)]
	for i, s := range a.Schemes {
		s.ID = strconv.Itoa(i + 1)
	}
}

// reunited gives the scheme of a solution of the divided problem in the house
// as it would be built: pieces that stay together are one space again, and the
// walls between those that part take their thickness from both. All owners
// being fixed, the partition of that house gives works, areas and price. It is
// nil where the walls' thickness leaves a unit without what it must have.
func (m *model) reunited(ctx context.Context, whole *model, s *partition.Solution) (*Scheme, error) {
	if m == whole {
		scheme, err := m.scheme("", s)
		if err == nil {
			scheme.Whole = m.b
		}
		return scheme, err
	}
	final, owners, err := m.rebuilt(whole, s)
	if err != nil {
		return nil, err
	}
	fixed := *final.problem
	fixed.Cells = slices.Clone(fixed.Cells)
	for i := range fixed.Cells {
		if c := &fixed.Cells[i]; !c.Public {
			label, ok := owners[c.Name]
			if !ok {
				return nil, fmt.Errorf("plan: %s has no owner in the scheme that divides it", c.Name)
			}
			c.Allowed = 1 << label
		}
	}
	result, err := final.solve(ctx, &fixed, partition.Options{Schemes: 1, Workers: 1})
	if err != nil {
		return nil, fmt.Errorf("plan: stating the house as divided by a scheme: %w", err)
	}
	if len(result.Solutions) == 0 {
		return nil, ctx.Err()
	}
	solution := result.Solutions[0]
	solution.Proved = s.Proved
	solution.Bound = s.Bound
	if solution.Price.Less(solution.Bound) {
		solution.Bound = solution.Price
	}
	scheme, err := final.scheme("", &solution)
	if err != nil {
		return nil, err
	}
	scheme.Whole = whole.b
	if over := currency(solution.Price.Money - s.Price.Money); over > 0 && scheme.Bound > scheme.Cost.Total-over {
		// What the search has proved, it has proved of lines without thickness.
		scheme.Bound = cents(scheme.Cost.Total - over)
		scheme.Gap = over / scheme.Cost.Total
	}
	return scheme, nil
}

// rebuilt states the problem of the house as it would be built by a solution of
// the divided problem, and tells the owners of its cells.
func (m *model) rebuilt(whole *model, s *partition.Solution) (final *model, owners map[string]partition.Label, err error) {
	owners = map[string]partition.Label{}
	h, err := m.reunite(whole.b.House, s, owners, false)
	if err != nil {
		return nil, nil, err
	}
	if len(h.Divisions) == 0 {
		return whole, owners, nil
	}
	b, err := Build(h)
	if err != nil {
		return nil, nil, fmt.Errorf("plan: the house as divided by a scheme: %w", err)
	}
	return newModel(b, m.brief, m.prices), owners, nil
}

// reunite gives the house as a solution divides it and tells the owner of each
// of its cells. Outdoor spaces may be left in all their pieces: a fence has no
// thickness.
func (m *model) reunite(h *House, s *partition.Solution, owners map[string]partition.Label, apart bool) (*House, error) {
	type share struct {
		label  partition.Label
		pieces []geom.Shape
	}
	shares := map[string][]share{}
	label := make([]partition.Label, len(m.b.Cells))
	for c := range m.b.Cells {
		cell := &m.b.Cells[c]
		label[c] = partition.Common
		if i := m.place[c]; i >= 0 {
			label[c] = s.Labels[i]
		}
		of := shares[cell.Of]
		k := slices.IndexFunc(of, func(sh share) bool { return sh.label == label[c] })
		if k < 0 || apart && cell.Outdoor {
			k = len(of)
			of = append(of, share{label: label[c]})
		}
		of[k].pieces = append(of[k].pieces, geom.Shape{cell.Region})
		shares[cell.Of] = of
	}
	divisions := m.divisions(label)
	var kept []Division
	out := h.withPieces(func(sp *Space) ([]geom.Region, error) {
		if len(shares[sp.ID]) < 2 {
			return nil, nil
		}
		var pieces []geom.Region
		var slits []geom.Shape
		for _, d := range divisions[sp.ID] {
			slits = append(slits, slitAlong(sp.Region, []geom.Pt{d.Line.A, d.Line.B}, d.Thickness))
			if !apart || !sp.Outdoor {
				kept = append(kept, d)
			}
		}
		for _, sh := range shares[sp.ID] {
			together, err := geom.Union(sh.pieces...)
			if err != nil {
				return nil, err
			}
			if len(slits) > 0 && !sp.Outdoor {
				slit, err := geom.Union(slits...)
				if err != nil {
					return nil, err
				}
				if together, err = geom.Difference(together, slit); err != nil {
					return nil, err
				}
			}
			pieces = append(pieces, together...)
		}
		return pieces, nil
	})
	if out.err != nil {
		return nil, fmt.Errorf("plan: joining the pieces of a scheme: %w", out.err)
	}
	out.house.Divisions = kept
	for c := range m.b.Cells {
		cell := &m.b.Cells[c]
		if len(shares[cell.Of]) == 1 {
			owners[cell.Of] = label[c]
		}
	}
	// withPieces has numbered the regions anew: each is its owner's by place.
	for i := range out.house.Spaces {
		sp := &out.house.Spaces[i]
		if sp.Of == "" {
			continue
		}
		at, _ := geom.VisualCentre(sp.Region)
		for c := range m.b.Cells {
			if m.b.Cells[c].Of == sp.Of && m.b.Cells[c].Region.Contains(at) != geom.Out {
				owners[sp.ID] = label[c]
			}
		}
	}
	return out.house, nil
}

// divisions lists, per space, the stretches between pieces that come to
// different owners, in the order of links.
func (m *model) divisions(label []partition.Label) map[string][]Division {
	out := map[string][]Division{}
	for _, l := range m.b.Links {
		if l.V == Outside || l.Kind != LinkOpen && l.Kind != LinkSide {
			continue
		}
		u, v := &m.b.Cells[l.U], &m.b.Cells[l.V]
		if u.Of != v.Of || label[l.U] == label[l.V] {
			continue
		}
		d := Division{Level: u.Level, Thickness: m.prices.SeparatingWall.Thickness}
		if u.Outdoor {
			d.Thickness = 0
		}
		for _, r := range l.Runs {
			d.Line = r
			out[u.Of] = append(out[u.Of], d)
		}
	}
	return out
}

// better sorts schemes by what is shared and not accepted, then by their price.
func better(a, b *Scheme) int {
	return cmp.Or(cmp.Compare(a.unaccepted(), b.unaccepted()), cmp.Compare(a.Cost.Total, b.Cost.Total))
}

// unaccepted counts the elements that both units use and the brief does not accept.
func (s *Scheme) unaccepted() int {
	n := 0
	for _, sh := range s.Shared {
		if !sh.Accepted {
			n++
		}
	}
	return n
}

// class spells who has what, alike in schemes that do not differ: the owners
// of flights, spaces and the largest pieces of divided ones, but for closets
// and the like. Where the units are asked the same, mirror images are alike.
func (s *Scheme) class(alikeUnits bool) string {
	owner := map[string]Owner{}
	for c := range s.Building.Cells {
		if s.Building.lead(c) {
			owner[s.Building.Cells[c].Of] = s.Owners[c]
		}
	}
	spell := func(flip bool) string {
		var out []byte
		for _, cell := range s.Whole.Cells {
			if cell.Public || slices.Contains([]Use{Closet, Storage, Pantry}, cell.Use) {
				continue
			}
			o := owner[cell.ID]
			if flip && o <= UnitB {
				o = UnitA + UnitB - o
			}
			out = append(out, byte('0'+o))
		}
		return string(out)
	}
	if alikeUnits {
		return min(spell(false), spell(true))
	}
	return spell(false)
}

// alike tells whether the brief asks the same of both units.
func (b *Brief) alike() bool {
	u, v := b.Units[0], b.Units[1]
	u.ID, u.Name, v.ID, v.Name = "", "", "", ""
	return fmt.Sprint(u) == fmt.Sprint(v)
}

// unlike keeps, of schemes sorted best first, the best of those that do not differ.
func unlike(schemes []*Scheme, alikeUnits bool) []*Scheme {
	seen := map[string]bool{}
	var out []*Scheme
	for _, s := range schemes {
		if class := s.class(alikeUnits); !seen[class] {
			seen[class] = true
			out = append(out, s)
		}
	}
	return out
}
