package render

import (
	"fmt"

	"moiety/plan"
	"moiety/plan/rules"
)

// findingsBlock sums up on the cover what came of each figure of the rule set.
func (p *project) findingsBlock() block {
	b := block{title: "Checked against the rule set"}
	if len(p.s.Findings) == 0 {
		b.rows = append(b.rows, p.fonts.paragraph("No rule set was applied: nothing was checked against a building code.", 0))
		return b
	}
	type count struct {
		about          string
		ok, not, blank int
		advice         bool
	}
	var order []rules.ID
	counts := map[rules.ID]*count{}
	for _, f := range p.s.Findings {
		if f.Result == plan.Informed {
			continue // no figure of the set
		}
		c := counts[f.Figure.ID]
		if c == nil {
			c = &count{about: f.Figure.About, advice: !f.Binding()}
			counts[f.Figure.ID] = c
			order = append(order, f.Figure.ID)
		}
		switch f.Result {
		case plan.OK:
			c.ok++
		case plan.NotOK:
			c.not++
		default:
			c.blank++
		}
	}
	b.rows = append(b.rows, p.fonts.pair("figure", "ok / not / not surveyed"))
	for _, id := range order {
		c := counts[id]
		name := p.fonts.legible(c.about)
		if c.advice {
			name += " (advice)"
		}
		b.rows = append(b.rows, p.fonts.pair(name, fmt.Sprintf("%d / %d / %d", c.ok, c.not, c.blank)))
	}
	if n := p.refs[findingSchedule]; n != "" {
		b.rows = append(b.rows, p.fonts.paragraph("Each check with its clause: sheet "+n+". A screening by a published figure, not a judgement of the authority.", 0))
	}
	return b
}

// findingTable lists every check: what is not right first, then what was not
// surveyed.
func (p *project) findingTable() table {
	t := table{title: "Checks against the rule set", none: "no rule set was applied", columns: []column{
		{name: "Result"}, {name: "Unit"}, {name: "Concerns"}, {name: "Figure"}, {name: "Required"}, {name: "Provided"}, {name: "Clause"},
	}}
	for _, r := range []plan.Result{plan.NotOK, plan.NotSurveyed, plan.Informed, plan.OK} {
		for _, f := range p.s.Findings {
			if f.Result != r {
				continue
			}
			about := f.Figure.About
			if !f.Binding() {
				about += " (advice)"
			}
			t.rows = append(t.rows, []string{
				string(f.Result), f.Unit, p.fonts.legible(p.subjectName(f.Subject)), p.fonts.legible(about), p.fonts.legible(f.Required),
				p.fonts.legible(f.Provided), p.fonts.legible(f.Figure.Clause),
			})
		}
	}
	return t
}

// subjectName is what a finding concerns: a room by its name, a door or
// window by its tag, else its id.
func (p *project) subjectName(id string) string {
	if i := p.b.CellNamed(id); i >= 0 {
		return p.cellName(&p.b.Cells[i])
	}
	for i, w := range p.s.Windows {
		if w.ID == id {
			return "window " + windowTags(p.s)[i]
		}
	}
	for i, q := range p.s.Passages {
		if q.Of == id && q.Door != nil && doorTags(p.s)[i] != "" {
			return "door " + doorTags(p.s)[i]
		}
	}
	return id
}

// alarmTable lists the alarms that the rule set asks for.
func (p *project) alarmTable() table {
	t := table{title: "Alarms", none: "no rule set was applied", columns: []column{
		{name: "No."}, {name: "On plan"}, {name: "Kind"}, {name: "Level"}, {name: "Room"}, {name: "Unit"}, {name: "Sounds with"}, {name: "Why"}, {name: "Clause"},
	}}
	for _, a := range p.s.Alarms {
		kind := entryTexts[alarmEntry(a.Kind)]
		t.rows = append(t.rows, []string{
			a.ID, alarmLetter(a.Kind), kind, p.levelName(a.Level), p.named(a.Cell), a.Unit, a.Sounds, p.fonts.legible(a.Why), p.fonts.legible(a.Clause),
		})
	}
	return t
}
