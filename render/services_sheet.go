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
	crossings := p.crossings()
	for i := range p.proposed {
		f := p.proposed[i].withTurn(p.turn)
		f.fixtures = slices.Clone(f.fixtures)
		f.gatherOutside()
		f.plain, f.crossings = true, crossings
		p.proposed[i] = f
		if len(f.fixtures) == 0 && !slices.ContainsFunc(crossings, func(c crossing) bool { return c.Level == f.level }) {
			continue
		}
		level = append(level, newPlanView(f, p.fonts, "services"))
		turned = append(turned, newPlanView(f.withTurn(p.turn+90), p.fonts, "services"))
	}
	if len(level) == 0 && len(p.s.Services) > 0 {
		return p.equipmentSheets(), nil
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
			if name == "wc" {
				name = "WC"
			}
			if d.carries {
				name, letters = "washer, dryer on it", stackedLetters[0]
			}
			if p.sharedByBoth(d.ID) {
				owner = plan.Common
			}
			if room == "" && d.cell < 0 {
				room = "outside the house"
			}
			rows = append(rows, row{owner, l, []string{ownerName(owner), p.levelName(l), room, useName(plan.Use(name)), letters, stateName(d.state)}})
		}
	}
	for _, w := range p.s.Works {
		if cells, ok := p.unplaced(w); ok {
			owner := plan.Common
			if u := slices.IndexFunc(p.s.Units[:], func(u plan.Unit) bool { return u.ID == w.Unit }); u >= 0 {
				owner = plan.Owner(u)
			}
			rows = append(rows, row{owner: owner, cells: append([]string{ownerName(owner)}, cells...)})
		}
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(a.owner, b.owner) })
	for _, r := range rows {
		t.rows = append(t.rows, r.cells)
	}
	width := p.panelWide()
	blocks := []block{p.fonts.tableBlock(t, width)}
	blocks[0].subject = fixtureSchedule
	blocks = append(blocks, p.loadBlocks(width)...)
	if crossings := p.crossings(); len(crossings) > 0 {
		t := table{title: "Crossings of the separation", columns: []column{{name: "On plan"}, {name: "Unit"}, {name: "Level"}, {name: "What passes through"}}}
		for _, c := range crossings {
			unit := c.Unit
			if unit == "" {
				unit = "both"
			}
			t.rows = append(t.rows, []string{c.tag, unit, p.levelName(c.Level), p.fonts.legible(c.Note)})
		}
		blocks = append(blocks, p.fonts.tableBlock(t, width))
	}
	if b := p.plantBlock(width); len(b.rows) > 0 {
		blocks = append(blocks, b)
	}
	return p.tableSheets("Services, fixtures and plant", "Permit draft, services", blocks)
}

// unplaced is a thing that a scheme adds to what serves a unit and for which
// the survey gives no place: a meter, and what stands at an entry.
func (p *project) unplaced(w plan.Work) ([]string, bool) {
	switch w.Kind {
	case "new_meter":
		name, at := "meter", "as the utility says"
		for _, f := range p.b.House.Fixtures {
			if f.ID == w.Of {
				name = strings.ReplaceAll(f.Use, "_", " ")
			}
		}
		return []string{"", at, "Second " + name, "", stateName(plan.New)}, true
	case "address_set":
		return []string{"", "at ENTRY " + w.Unit, "Address number, mailbox, doorbell", "ENTRY " + w.Unit, stateName(plan.New)}, true
	}
	return nil, false
}

// sharedByBoth tells whether both units use a fixture.
func (p *project) sharedByBoth(id string) bool {
	return slices.ContainsFunc(p.s.Shared, func(s plan.Shared) bool { return s.ID == id })
}

// serviceNames are the kinds of services as a schedule names them, in its order.
var serviceNames = map[string]string{
	"heating": "Heating", "hot_water": "Hot water", "electrical": "Electricity", "ventilation": "Ventilation", "drainage": "Drainage",
}

// figuresFrom says where the weakest figure of a result comes from.
func figuresFrom(status string) string {
	switch status {
	case "read":
		return "as published"
	case "memory":
		return "some from memory"
	}
	return status
}

// loadBlocks give what each unit has to be supplied with, by which method, and
// with which caution.
func (p *project) loadBlocks(width float64) []block {
	if len(p.s.Services) == 0 {
		return nil
	}
	t := table{title: "Loads and sizes", columns: []column{{name: "Service"}, {name: "Unit"}, {name: "Comes to"}, {name: "Method"}, {name: "Figures"}}}
	notes := block{title: "Loads and sizes, notes", width: width}
	var said []string
	say := func(text string) {
		if text != "" && !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	for _, s := range p.s.Services {
		unit := s.Unit
		if unit == "" {
			unit = "both"
		}
		name := serviceNames[s.Kind]
		if name == "" {
			name = useName(plan.Use(s.Kind))
		}
		t.rows = append(t.rows, []string{name, unit, p.fonts.legible(s.Answer), p.fonts.legible(s.Method), figuresFrom(string(s.Status()))})
		for _, n := range s.Notes {
			if s.Unit != "" {
				say(name + ", unit " + s.Unit + ": " + n)
			} else {
				say(name + ": " + n)
			}
		}
	}
	for _, s := range p.s.Services {
		say(s.Caution)
	}
	for _, text := range said {
		notes.rows = append(notes.rows, p.fonts.passage(p.fonts.legible(strings.TrimSuffix(text, "."))+".", 0, width))
	}
	return []block{p.fonts.tableBlock(t, width), notes}
}

// plantBlock says what the units still share of what serves them, and that
// what crosses the separation has to be stopped.
func (p *project) plantBlock(width float64) block {
	b := block{title: "Services and the separation", width: width}
	for _, s := range p.s.Shared {
		if p.b.CellNamed(s.ID) >= 0 {
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
