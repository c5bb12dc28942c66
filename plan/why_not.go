package plan

import (
	"context"
	"fmt"
	"slices"

	"moiety/plan/partition"
)

// WhyNotProof says what is proved of the demands that cannot hold together.
type WhyNotProof string

// What is proved of conflicting demands, the most first.
const (
	SmallestConflict WhyNotProof = "smallest" // no fewer demands conflict
	MinimalConflict  WhyNotProof = "minimal"  // without any one of them the others hold
	SomeConflict     WhyNotProof = "conflict" // they conflict; some may be beside the point
)

// How much is looked at to find out which demands conflict, in parts of the
// search tree: for each question whether some hold together, and for all.
const (
	whyNotNodes      = 800
	mostWhyNotNodes  = 6_000
	whyNotProofNodes = 2_000 // to carry a reason over to the divided house
)

// whyNot finds the smallest set of demands that cannot hold together and says
// each in a sentence. Demands that conflict by number and size alone, wherever
// the rooms lie, are the plainest reason: no larger set than of the others.
//
// Of a divided house the reason is first looked for in the undivided one, whose
// schemes the divided one has too: what conflicts there is the smallest set
// here, if it conflicts here.
func (m *model) whyNot(ctx context.Context) ([]string, WhyNotProof, error) {
	if m.whole != nil {
		core, byPlace, err := m.whole.reason(ctx)
		if err != nil {
			return nil, "", err
		}
		if holds, err := m.impossible(ctx, core.Demands); err != nil || holds {
			return m.whole.saying(core.Demands, byPlace), proofOf(core), err
		}
	}
	core, byPlace, err := m.reason(ctx)
	if err != nil {
		return nil, "", err
	}
	return m.saying(core.Demands, byPlace), proofOf(core), nil
}

func proofOf(core partition.Core) WhyNotProof {
	switch {
	case core.Smallest:
		return SmallestConflict
	case core.Minimal:
		return MinimalConflict
	}
	return SomeConflict
}

// reason finds the smallest set of demands that conflict, and tells whether
// they do so by where rooms lie.
func (m *model) reason(ctx context.Context) (core partition.Core, byPlace bool, err error) {
	demands := m.demands()
	plain, err := m.conflict(ctx, demands, nil, func(p *partition.Problem) {
		anywhere(p)
		forFree(p)
	})
	if err != nil {
		return core, false, err
	}
	// What conflicts wherever rooms lie conflicts where they do lie.
	known := plain.Demands
	if plain.Status != partition.Infeasible || len(known) == 0 {
		for i := range demands {
			known = append(known, i)
		}
	} else if len(known) == 1 {
		return plain, false, nil
	}
	core, err = m.conflict(ctx, demands, known, forFree, asPriced)
	if err != nil {
		return core, false, err
	}
	if plain.Status == partition.Infeasible && len(plain.Demands) > 0 && len(core.Demands) >= len(plain.Demands) {
		plain.Smallest = core.Smallest && len(core.Demands) == len(plain.Demands)
		return plain, false, nil
	}
	return core, true, nil
}

// impossible tells whether it is found that nothing holds under some of the
// demands alone.
func (m *model) impossible(ctx context.Context, kept []int) (bool, error) {
	var asked []partition.Demand // those that are kept cannot be dropped
	for i, d := range m.demands() {
		if !slices.Contains(kept, i) {
			asked = append(asked, d)
		}
	}
	p := m.restated().problem
	for _, d := range asked {
		d.Relax(p)
	}
	core, err := partition.Conflict(ctx, p, nil, partition.ConflictOptions{
		Nodes: whyNotProofNodes, Forms: []func(*partition.Problem){forFree, asPriced},
	})
	if err != nil {
		return false, fmt.Errorf("plan: looking for the demands that conflict: %w", err)
	}
	return core.Status == partition.Infeasible, nil
}

// conflict finds the smallest set of demands that conflict, smaller than a known
// one if there is one, in a form of the problem.
func (m *model) conflict(ctx context.Context, demands []partition.Demand, known []int, forms ...func(*partition.Problem)) (partition.Core, error) {
	core, err := partition.Conflict(ctx, m.restated().problem, demands, partition.ConflictOptions{
		Nodes: whyNotNodes, Total: mostWhyNotNodes, Known: known, Forms: forms,
	})
	if err != nil {
		return core, fmt.Errorf("plan: looking for the demands that conflict: %w", err)
	}
	return core, nil
}

// saying says the demands that conflict, each in a sentence.
func (m *model) saying(conflict []int, byPlace bool) []string {
	demands := m.demands()
	var out []string
	for _, i := range conflict {
		out = append(out, demands[i].Name)
	}
	entry := func(u UnitBrief) bool { return slices.Contains(out, entrySentence(u)) }
	switch {
	case len(out) == 0:
		out = append(out, "the house cannot be parted into two units that are each reached from the public way and hang together, whatever is asked of them")
	case byPlace && !slices.ContainsFunc(m.brief.Units[:], entry):
		out = append(out, hangTogether)
	}
	return out
}

// entrySentence says the demand for a way in.
func entrySentence(u UnitBrief) string {
	return fmt.Sprintf("unit %s needs an entry door of its own from the public way, and rooms that hang together without passing through bedrooms, bathrooms or closets", u.ID)
}

// contradiction gives the two demands that leave a cell to nobody: one keeps
// it from unit A, the other from unit B. It is nil where each cell has an owner left.
func (m *model) contradiction() []string {
	for i, c := range m.cells {
		if c == Outside || m.b.Cells[c].Public || m.problem.Cells[i].Allowed != 0 {
			continue
		}
		id := m.b.Cells[c].ID
		var left [2]string // the demand that leaves the cell to that unit alone
		say := func(to int, unit, verb, word string) {
			if left[to] != "" || !m.b.means(word, c) {
				return
			}
			left[to] = fmt.Sprintf("unit %s %s %s", unit, verb, word)
			if word != id {
				left[to] += ", which means " + id + " too"
			}
		}
		for u, unit := range m.brief.Units {
			for _, word := range unit.Keep {
				say(u, unit.ID, "keeps", word)
			}
			for _, word := range unit.Avoid {
				say(1-u, unit.ID, "avoids", word)
			}
		}
		return left[:]
	}
	return nil
}

// demands lists what can be dropped from the problem, each as a sentence.
func (m *model) demands() []partition.Demand {
	var out []partition.Demand
	add := func(sentence string, relax func(*partition.Problem)) {
		out = append(out, partition.Demand{Name: sentence, Relax: relax})
	}
	for i, u := range m.brief.Units {
		for f := range functionCount {
			n := m.problem.Units[i].Need[f]
			if n == 0 || m.problem.Units[i].Lack[f].Money != partition.Impossible {
				continue
			}
			add(m.needSentence(u, f, n), func(p *partition.Problem) { p.Units[i].Need[f] = 0 })
		}
		if u.AreaMin > 0 {
			add(fmt.Sprintf("unit %s asks for at least %.1f m2: the house has %.1f m2 indoors and heated", u.ID, u.AreaMin, m.indoors()), func(p *partition.Problem) { p.Units[i].MinArea = 0 })
		}
		if m.problem.Units[i].MinAmount[groundAmount] > 0 {
			add(fmt.Sprintf("unit %s asks for at least %.1f m2 of yard, patio, deck, balcony or porch: the lot has %.1f m2", u.ID, u.OutdoorMin, m.ground()),
				func(p *partition.Problem) { p.Units[i].MinAmount[groundAmount] = 0 })
		}
		if n := m.problem.Units[i].MinAmount[stallAmount]; n > 0 {
			add(fmt.Sprintf("unit %s asks for %d parking stalls of its own: the house has %d", u.ID, n, m.stalls()),
				func(p *partition.Problem) { p.Units[i].MinAmount[stallAmount] = 0 })
		}
		if u.EntryFrom != "" {
			add(m.entryFromSentence(u, i), func(p *partition.Problem) {
				for l := range p.Links {
					p.Links[l].Entry[i] = p.Links[l].Entry[i] || p.Links[l].Entry[1-i] || m.entryAt(l)
				}
			})
		}
		add(entrySentence(u), func(p *partition.Problem) { p.Units[i].NeedEntry = false })
		for _, word := range u.Keep {
			add(fmt.Sprintf("unit %s keeps %s", u.ID, m.called(word)), m.relabel(word))
		}
		for _, word := range u.Avoid {
			add(fmt.Sprintf("unit %s avoids %s", u.ID, m.called(word)), m.relabel(word))
		}
	}
	for _, id := range m.brief.Leave {
		add(m.leaveSentence(id), func(p *partition.Problem) { m.unleave(p, id) })
	}
	for _, o := range m.b.House.Opened {
		add(fmt.Sprintf("the wall between %s and %s is opened, so one unit has both", o.Between[0], o.Between[1]),
			func(p *partition.Problem) { m.unopen(p, o.ID) })
	}
	return out
}

// entryAt tells whether problem link l can be a way in at all.
func (m *model) entryAt(l int) bool {
	return m.links[l] >= 0 && m.entryLink(m.b.Links[m.links[l]])
}

// relabel gives the cells that a word of keep or avoid means every label that
// the house allows.
func (m *model) relabel(word string) func(*partition.Problem) {
	return func(p *partition.Problem) {
		for i, c := range m.cells {
			if c == Outside || p.Cells[i].Public || !m.b.means(word, c) {
				continue
			}
			p.Cells[i].Allowed |= 1<<partition.A | 1<<partition.B
			if m.accepted(c) || shareable(&m.b.Cells[c]) {
				p.Cells[i].Allowed |= 1 << partition.Common
			}
		}
	}
}

// unleave prices the works that leave kept away from one feature.
func (m *model) unleave(p *partition.Problem, id string) {
	free := m.pricing
	free.leave = slices.DeleteFunc(slices.Clone(m.leave), func(other string) bool { return other == id })
	free.bedrooms = m.bedrooms.leaving(free.leave)
	relaxed := *m
	relaxed.pricing = free
	for i, l := range m.links {
		if l < 0 {
			continue
		}
		if link, ok := relaxed.link(m.b.Links[l], p.Links[i].U, p.Links[i].V); ok {
			p.Links[i].Sep, p.Links[i].SepCommon, p.Links[i].Door = link.Sep, link.SepCommon, link.Door
		}
	}
	for i, c := range m.cells {
		if c != Outside && (m.b.Cells[c].Of == id || m.b.hasWindow(c, id)) {
			p.Cells[i].Host = relaxed.cell(c).Host
		}
	}
}

// unopen lets the two sides of a wall that the brief opens come to different units.
func (m *model) unopen(p *partition.Problem, id string) {
	relaxed := *m
	relaxed.parts = append(slices.Clone(m.parts), id)
	for i, l := range m.links {
		if l < 0 || m.b.Links[l].Of != id {
			continue
		}
		if link, ok := relaxed.link(m.b.Links[l], p.Links[i].U, p.Links[i].V); ok {
			p.Links[i].Sep, p.Links[i].SepCommon = link.Sep, link.SepCommon
		}
	}
}
