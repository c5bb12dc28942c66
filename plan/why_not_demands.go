package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan/partition"
)

// demand is what can be dropped from what is asked of a house. One for a
// function or an entry has no text: it is said together with others of its kind.
type demand struct {
	text     string
	must     bool     // every unit must have it, whatever the brief says
	unit     int      // whose it is, -1 where neither's
	function Function // that the unit needs, -1 where it is no such demand
	entry    bool     // the unit needs a way in

	// What drops it: words of the brief, or a change to the problem.
	keep, avoid, leave, opened string
	entryFrom                  bool
	relax                      func(*partition.Problem)
}

// demands lists what can be dropped.
func (m *model) demands() []demand {
	var out []demand
	unit := -1
	add := func(d demand) {
		d.unit, d.function = unit, -1
		out = append(out, d)
	}
	for i, u := range m.brief.Units {
		unit = i
		for f := range functionCount {
			if m.problem.Units[i].Need[f] == 0 || m.problem.Units[i].Lack[f].Money != partition.Impossible {
				continue
			}
			out = append(out, demand{
				unit: i, function: f, must: f != HasBedroom && f != HasParking,
				relax: func(p *partition.Problem) { p.Units[i].Need[f] = 0 },
			})
		}
		if u.AreaMin > 0 {
			add(demand{
				text:  fmt.Sprintf("unit %s asks for at least %s: the house has %s indoors and heated", u.ID, m.area(u.AreaMin), m.area(m.indoors())),
				relax: func(p *partition.Problem) { p.Units[i].MinArea = 0 },
			})
		}
		if m.problem.Units[i].MinAmount[groundAmount] > 0 {
			add(demand{
				text:  fmt.Sprintf("unit %s asks for at least %s of yard, patio, deck, balcony or porch: the lot has %s", u.ID, m.area(u.OutdoorMin), m.area(m.ground())),
				relax: func(p *partition.Problem) { p.Units[i].MinAmount[groundAmount] = 0 },
			})
		}
		if n := m.problem.Units[i].MinAmount[stallAmount]; n > 0 {
			add(demand{
				text:  fmt.Sprintf("unit %s asks for %d parking stalls of its own: the house has %d", u.ID, n, m.stalls()),
				relax: func(p *partition.Problem) { p.Units[i].MinAmount[stallAmount] = 0 },
			})
		}
		if u.EntryFrom != "" {
			add(demand{text: m.entryFromSentence(u, i), entryFrom: true})
		}
		add(demand{must: true, entry: true, relax: func(p *partition.Problem) { p.Units[i].NeedEntry = false }})
		for _, word := range u.Keep {
			add(demand{text: fmt.Sprintf("unit %s keeps %s", u.ID, m.called(word)), keep: word})
		}
		for _, word := range u.Avoid {
			add(demand{text: fmt.Sprintf("unit %s avoids %s", u.ID, m.called(word)), avoid: word})
		}
	}
	unit = -1
	for _, id := range m.brief.Leave {
		add(demand{text: m.leaveSentence(id), leave: id})
	}
	for _, o := range m.b.House.Opened {
		add(demand{text: fmt.Sprintf("the wall between %s and %s is opened, so one unit has both", o.Between[0], o.Between[1]), opened: o.ID})
	}
	return out
}

// stating states the problem with some of the demands alone.
func (m *model) stating(demands []demand) func(kept []int) *partition.Problem {
	variants := map[string]*model{} // by what a problem is stated anew without
	return func(kept []int) *partition.Problem {
		brief := *m.brief
		var anew, parts []string
		words := false
		var relax []func(*partition.Problem)
		for i := range demands {
			d := &demands[i]
			if slices.Contains(kept, i) {
				continue
			}
			switch {
			case d.relax != nil:
				relax = append(relax, d.relax)
			case d.keep != "":
				brief.Units[d.unit].Keep = butFor(brief.Units[d.unit].Keep, d.keep)
				words = true
			case d.avoid != "":
				brief.Units[d.unit].Avoid = butFor(brief.Units[d.unit].Avoid, d.avoid)
				words = true
			case d.entryFrom:
				brief.Units[d.unit].EntryFrom = ""
				anew = append(anew, fmt.Sprint("entry of ", d.unit))
			case d.leave != "":
				brief.Leave = butFor(brief.Leave, d.leave)
				anew = append(anew, "leave "+d.leave)
			case d.opened != "":
				parts = append(parts, d.opened)
				anew = append(anew, "opened "+d.opened)
			}
		}
		key := strings.Join(anew, "\n")
		variant := variants[key]
		if variant == nil {
			whole := brief
			for u := range whole.Units {
				whole.Units[u].Keep, whole.Units[u].Avoid = m.brief.Units[u].Keep, m.brief.Units[u].Avoid
			}
			variant = m.under(&whole, parts)
			variants[key] = variant
		}
		p := variant.problem.Clone()
		for _, change := range relax {
			change(p)
		}
		if words {
			n := *variant
			n.brief = &brief
			for i, c := range n.cells {
				if c != Outside && !p.Cells[i].Public {
					p.Cells[i].Allowed, _ = n.allowed(c)
				}
			}
		}
		return p
	}
}

// under states the problem anew under another brief, with the sides of some
// openings of the brief free to come to different units.
func (m *model) under(brief *Brief, parts []string) *model {
	n := newModel(m.b, brief, m.prices)
	if m.whole != nil {
		n.divides(newModel(m.whole.b, brief, m.prices), m.strict)
	}
	n.parts = parts
	for i, l := range n.links {
		if l < 0 || !slices.Contains(parts, n.b.Links[l].Of) {
			continue
		}
		p := n.problem
		if link, ok := n.link(n.b.Links[l], p.Links[i].U, p.Links[i].V); ok {
			p.Links[i].Sep, p.Links[i].SepCommon = link.Sep, link.SepCommon
		}
	}
	return n
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
