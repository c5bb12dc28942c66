package render

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"moiety/plan"
)

// servicesSheets draw what the house is served by: plans with fixtures and
// plant, and a list of them by unit.
func (p *project) servicesSheets() ([]*Sheet, error) {
	var level, turned []*planView
	for _, proposed := range p.proposed {
		if len(proposed.fixtures) == 0 {
			continue
		}
		f := proposed.withTurn(p.turn)
		f.plain = true
		level = append(level, newPlanView(f, p.fonts, "services"))
		turned = append(turned, newPlanView(f.withTurn(p.turn+90), p.fonts, "services"))
	}
	if len(level) == 0 {
		return nil, nil
	}
	sheets := p.largest("Services", "Permit draft, services", planScales(p.m.imperial)[1:], nil, level, turned)
	if sheets == nil {
		return nil, fmt.Errorf("render: the services cannot be drawn on %s", p.paper.Name)
	}
	return append(sheets, p.equipmentSheets()...), nil
}

// equipmentSheets list fixtures and plant by unit.
func (p *project) equipmentSheets() []*Sheet {
	t := table{title: "Fixtures and plant", none: "none surveyed", columns: []column{
		{name: "Unit"}, {name: "Level"}, {name: "Room"}, {name: "Fixture"}, {name: "On plan"}, {name: "Work"},
	}}
	type row struct {
		owner plan.Owner
		level int
		cells []string
	}
	var rows []row
	for _, f := range p.proposed {
		l := f.level
		for _, d := range f.fixtures {
			owner, room := plan.Nobody, ""
			if d.cell >= 0 {
				owner, room = p.s.Owners[d.cell], p.cellName(&p.b.Cells[d.cell])
			}
			letters := ""
			if pair, ok := fixtureLetters[d.Use]; ok {
				letters = pair[0]
			}
			name := d.Use
			if d.carries {
				name, letters = "washer, dryer on it", stackedLetters[0]
			}
			rows = append(rows, row{owner, l, []string{ownerName(owner), p.levelName(l), room, useName(plan.Use(name)), letters, stateName(d.state)}})
		}
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(a.owner, b.owner) })
	for _, r := range rows {
		t.rows = append(t.rows, r.cells)
	}
	width := p.panelWide()
	blocks := []block{p.fonts.tableBlock(t, width)}
	if b := p.plantBlock(width); len(b.rows) > 0 {
		blocks = append(blocks, b)
	}
	blocks[0].subject = fixtureSchedule
	return p.tableSheets("Services, fixtures and plant", "Permit draft, services", blocks)
}

// plantBlock says what the units still share of what serves them, and that
// what crosses the separation has to be stopped.
func (p *project) plantBlock(width float64) block {
	b := block{title: "Services and the separation", width: width}
	for _, s := range p.s.Shared {
		if slices.ContainsFunc(p.b.Cells, func(c plan.Cell) bool { return c.ID == s.ID }) {
			continue
		}
		text := p.sharedName(s) + ": shared"
		if s.Why != "" {
			text += "; " + strings.TrimSuffix(s.Why, ".")
		}
		b.rows = append(b.rows, p.fonts.passage(p.fonts.legible(text)+".", 0, width))
	}
	if len(p.buildUps.list) > 0 || p.hasSeparatingFloor() {
		b.rows = append(b.rows, p.fonts.passage("Every pipe, duct, cable and box that passes through or into the separation is to be stopped so that the separation keeps its rating; ducts of one unit do not open into the other. Gas and electricity: by licensed trades.", 0, width))
	}
	return b
}

func (p *project) hasSeparatingFloor() bool {
	return slices.ContainsFunc(p.s.Floors, func(f plan.FloorRun) bool { return f.State == plan.Separating })
}
