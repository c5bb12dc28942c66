package plan

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"moiety/plan/partition"
)

// Front is what there is to choose between when cost, shared elements that the
// brief does not accept, bedrooms and the balance of areas all count: the
// schemes that no other beats in one of these without losing in another.
type Front struct {
	Points []FrontPoint // the cheapest first
	// Wanted is A's wanted share of the area that is A's or B's alone, in
	// thousandths; Steps are the distances from it that are told apart,
	// frontAnyShare being any.
	Wanted int
	Steps  []int
	// Bedrooms are the least and the most numbers of bedrooms, of both units
	// together, that were asked for; Complete tells that it is proved for these,
	// the steps and every number of shared elements that nothing is missing.
	Bedrooms [2]int
	Complete bool
	// Open says what is not settled.
	Open []string
}

// FrontPoint is one scheme of the front.
type FrontPoint struct {
	Scheme   *Scheme  // its Proved and Bound are among those that reach as much
	Shared   int      // elements that the brief does not accept
	Bedrooms int      // of both units
	ShareA   int      // A's part of the area, in thousandths, rounded
	Step     int      // the least step that ShareA keeps to
	Listed   []string // ids of the answer's schemes that are as good
}

// frontSteps are the distances from the wanted share that a front tells apart,
// in thousandths: a room more or less, a few rooms, about a storey. Common
// practice has no such steps; these are ours.
var frontSteps = []int{50, 100, 200, frontAnyShare}

// frontAnyShare is further than any share lies from another.
const frontAnyShare = 1000

// frontMoreShared is how many shared elements more than the fewest that can be
// had are looked into: what two neighbours may still put up with.
const frontMoreShared = 2

// mostFrontNodes bounds the search for one point in one problem, in parts of
// the search tree, so that the same question gets the same answer.
const mostFrontNodes = 60_000

// frontBounds are what is asked of the schemes of one corner of the front.
type frontBounds struct {
	shared   int // partition.FewestShared: the fewest before the cheapest
	from, to int // A's part of the area, thousandths
}

// bound makes the problem that of a corner of the front.
func (m *model) bound() {
	if w := m.brief.within; w != nil {
		m.problem.ShareMin, m.problem.ShareMax = w.from, w.to
	}
}

// byMoney tells whether the cheapest scheme is asked for, rather than the one
// with the fewest shared elements.
func (m *model) byMoney() bool {
	return m.brief.within != nil && m.brief.within.shared != partition.FewestShared
}

// solve solves a problem as the brief asks.
func (m *model) solve(ctx context.Context, p *partition.Problem, o partition.Options) (partition.Result, error) {
	if !m.byMoney() {
		return partition.Solve(ctx, p, o)
	}
	shared := m.brief.within.shared
	return partition.SolveWithin(ctx, p, shared*m.sharedUnit(), o)
}

// frontSearch finds the front of an answer.
type frontSearch struct {
	answer  *Answer
	m       *model
	workers chan struct{}
	wanted  int
}

// front finds the Pareto front of an answer.
func (a *Answer) front(ctx context.Context, m *model, o SplitOptions) (*Front, error) {
	f := frontSearch{answer: a, m: m, workers: make(chan struct{}, o.workers()), wanted: 500}
	if s := a.Brief.wantedShare(); s > 0 {
		f.wanted = int(math.Round(s * 1000))
	}
	least, most := f.bedrooms()
	grid := partition.Grid{Offs: frontSteps, More: frontMoreShared}
	for n := least; n <= most; n++ {
		grid.Counts = append(grid.Counts, n)
	}
	found, err := partition.FindFront(ctx, grid, f.corner)
	if err != nil {
		return nil, err
	}
	out := &Front{Wanted: f.wanted, Steps: frontSteps, Bedrooms: [2]int{least, most}, Complete: found.Complete}
	for _, p := range found.Points {
		s := p.Of.(*Scheme)
		s.ID = fmt.Sprintf("F%d", len(out.Points)+1)
		s.Proved = p.Proved
		share, _ := f.share(s)
		point := FrontPoint{Scheme: s, Shared: p.Shared, Bedrooms: p.Count, ShareA: share, Step: p.Off}
		for _, listed := range a.Schemes {
			if f.asGood(listed, point) {
				point.Listed = append(point.Listed, listed.ID)
			}
		}
		out.Points = append(out.Points, point)
	}
	for _, c := range found.Open {
		out.Open = append(out.Open, f.said(c))
	}
	return out, nil
}

// asGood tells whether a scheme of the answer is as good as a point.
func (f *frontSearch) asGood(s *Scheme, p FrontPoint) bool {
	_, step := f.share(s)
	return math.Abs(s.Cost.Total-p.Scheme.Cost.Total) < priceSlack && s.unaccepted() == p.Shared &&
		s.bedrooms() == p.Bedrooms && step == p.Step
}

// wantedShare is A's wanted share of the area; 0 none.
func (b *Brief) wantedShare() float64 {
	u, v := b.Units[0].AreaShare, b.Units[1].AreaShare
	if u == 0 && v > 0 {
		u = 1 - v
	}
	return u
}

// bedrooms gives the least and the most bedrooms that both units can be asked
// to have: those that the brief asks for, and as many as there are rooms to sleep in.
func (f *frontSearch) bedrooms() (least, most int) {
	units := f.answer.Brief.Units
	least = units[0].Bedrooms.Min + units[1].Bedrooms.Min
	for i := range f.m.problem.Cells {
		if f.m.problem.Cells[i].Host[HasBedroom] != partition.Impossible {
			most++
		}
	}
	if units[0].Bedrooms.MaxSaid && units[1].Bedrooms.MaxSaid {
		most = min(most, units[0].Bedrooms.Max+units[1].Bedrooms.Max)
	}
	return least, max(least, most)
}

// bedrooms counts those of both units.
func (s *Scheme) bedrooms() int { return s.Units[UnitA].Bedrooms + s.Units[UnitB].Bedrooms }

// share gives A's part of the area, in thousandths, and the step that it keeps to.
func (f *frontSearch) share(s *Scheme) (share, step int) {
	m := model{pricing: pricing{b: s.Building}}
	var area [2]int64
	for c, o := range s.Owners {
		if o <= UnitB && m.countsArea(c) {
			area[o] += int64(math.Round(s.Building.Cells[c].AreaM2 * areaPerM2))
		}
	}
	all := area[UnitA] + area[UnitB]
	if all == 0 {
		return f.wanted, frontSteps[0]
	}
	share = int(math.Round(1000 * float64(area[UnitA]) / float64(all)))
	for _, step = range frontSteps {
		from, to := f.shares(step)
		if int64(from)*all <= 1000*area[UnitA] && 1000*area[UnitA] <= int64(to)*all {
			break
		}
	}
	return share, step
}

// shares gives A's least and greatest part within a step of what is wanted.
func (f *frontSearch) shares(step int) (from, to int) {
	return max(0, f.wanted-step), min(1000, f.wanted+step)
}

// corner finds the best scheme within a corner: the best of all ways to share
// the bedrooms out between the units. These are looked into at once, each by
// one worker, and each below what was known before.
func (f *frontSearch) corner(ctx context.Context, c partition.Corner, known *partition.Point) (partition.Found, error) {
	var holds *Scheme
	if known != nil {
		holds = known.Of.(*Scheme)
	}
	ways := f.ways(c)
	found, faults := make([]best, len(ways)), make([]error, len(ways))
	var all sync.WaitGroup
	for i, brief := range ways {
		all.Go(func() {
			f.workers <- struct{}{}
			defer func() { <-f.workers }()
			found[i], faults[i] = f.way(ctx, brief, holds)
		})
	}
	all.Wait()
	if err := errors.Join(faults...); err != nil {
		return partition.Found{}, fmt.Errorf("plan: %s: %w", f.said(c), err)
	}
	if len(ways) == 0 {
		return partition.Found{None: true}, nil
	}
	m := newModel(f.answer.Building, ways[0], f.answer.Prices)
	whole := found[0]
	for _, b := range found[1:] {
		if b.scheme != nil && (whole.scheme == nil || m.better(b.scheme, whole.scheme)) {
			whole.scheme = b.scheme
		}
		if b.bound.Less(whole.bound) {
			whole.bound = b.bound
		}
		whole.proved = whole.proved && b.proved
	}
	if whole.scheme == nil {
		return partition.Found{None: whole.proved}, nil
	}
	s := *whole.scheme
	m.say(&s, whole)
	_, step := f.share(&s)
	return partition.Found{Point: &partition.Point{
		// A bedroom made of a space that stays common is no unit's own.
		Corner: partition.Corner{Shared: s.unaccepted(), Count: max(c.Count, s.bedrooms()), Off: step},
		Money:  money(s.Cost.Total), Bound: money(s.Bound), Proved: whole.proved, Of: &s,
	}}, nil
}

// way finds the best scheme where each unit is asked for its own bedrooms.
func (f *frontSearch) way(ctx context.Context, brief *Brief, holds *Scheme) (best, error) {
	if ctx.Err() != nil {
		return best{}, nil
	}
	a := &Answer{Building: f.answer.Building, Brief: brief, Prices: f.answer.Prices, houses: f.answer.houses}
	x := a.lines(newModel(a.Building, brief, a.Prices), partition.Options{Workers: 1, Nodes: mostFrontNodes})
	return x.runBelow(ctx, holds)
}

// ways gives the briefs that together ask for a corner.
func (f *frontSearch) ways(c partition.Corner) []*Brief {
	var out []*Brief
	units := f.answer.Brief.Units
	within := &frontBounds{shared: c.Shared}
	within.from, within.to = f.shares(c.Off)
	for a := units[0].Bedrooms.Min; a <= c.Count-units[1].Bedrooms.Min; a++ {
		b := *f.answer.Brief
		b.Schemes, b.within = 1, within
		b.Units[0].Bedrooms.Min, b.Units[1].Bedrooms.Min = a, c.Count-a
		if !slices.ContainsFunc(b.Units[:], func(u UnitBrief) bool { return u.Bedrooms.MaxSaid && u.Bedrooms.Min > u.Bedrooms.Max }) {
			out = append(out, &b)
		}
	}
	return out
}

// said says a corner in words.
func (f *frontSearch) said(c partition.Corner) string {
	text := fmt.Sprintf("%d bedrooms or more", c.Count)
	if c.Off < frontAnyShare {
		text += fmt.Sprintf(", A's share of the area within %s %% of %s %%", trimmed(float64(c.Off)/10), trimmed(float64(f.wanted)/10))
	}
	switch c.Shared {
	case partition.FewestShared:
		text += ", as few shared elements as can be"
	default:
		text += fmt.Sprintf(", no more than %s shared", counted(float64(c.Shared), "element"))
	}
	return text
}
