package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"moiety/plan"
)

// coarsest is the smallest scale at which all levels of a unit are still put
// on one sheet; below it each gets a sheet of its own.
const coarsest = 100.0

// unitSheets draws one unit alone: all its levels on one sheet where they
// fit, else one sheet for each.
func (p *project) unitSheets(u plan.Owner) ([]*Sheet, error) {
	unit := p.s.Units[u]
	title := "Unit " + unit.ID
	if unit.Name != "" && unit.Name != unit.ID {
		title += ", " + p.fonts.legible(unit.Name)
	}
	scales := planScales(p.m.imperial)
	best, pick := len(scales), []*planView(nil)
	for _, quarter := range []float64{0, 90} {
		views, err := p.unitViews(unit, p.turn+quarter)
		if err != nil {
			return nil, err
		}
		if len(views) == 0 {
			return nil, nil
		}
		for i, s := range scales {
			if i >= best {
				break
			}
			if p.packs(views, s) {
				best, pick = i, views
				break
			}
		}
	}
	for i := best; i < len(scales) && scales[i].Ratio <= coarsest; i++ {
		if s := p.composed(title, "Permit draft, unit plan", scales[i], pick, p.unitBlocks(unit)); s != nil {
			return []*Sheet{s}, nil
		}
	}
	return p.unitSheetPerLevel(unit, title)
}

func (p *project) unitSheetPerLevel(unit plan.Unit, title string) ([]*Sheet, error) {
	views, err := p.unitViews(unit, p.turn)
	if err != nil {
		return nil, err
	}
	for _, scale := range planScales(p.m.imperial) {
		var sheets []*Sheet
		for i, v := range views {
			var extra []block
			if i == 0 {
				extra = p.unitBlocks(unit)
			}
			s := p.composed(title+", "+p.levelName(v.level), "Permit draft, unit plan", scale, []*planView{v}, extra)
			if s == nil {
				break
			}
			sheets = append(sheets, s)
		}
		if len(sheets) == len(views) {
			return sheets, nil
		}
	}
	return nil, fmt.Errorf("render: unit %s does not fit on %s at any scale", unit.ID, p.paper.Name)
}

// packs tells whether views fit the sheet by their size.
func (p *project) packs(views []*planView, scale Scale) bool {
	return slices.ContainsFunc(p.paper.compositions(), func(c composition) bool {
		_, ok := packViews(views, scale, c.drawing)
		return ok
	})
}

// unitViews are the levels on which a unit has rooms.
func (p *project) unitViews(unit plan.Unit, turn float64) ([]*planView, error) {
	var views []*planView
	for _, l := range p.levels {
		if !slices.ContainsFunc(unit.Cells, func(c int) bool {
			cell := p.b.Cells[c]
			return cell.Level == l || cell.Flight && cell.To == l
		}) {
			continue
		}
		f, err := newFloor(p.b, p.s, unit.ID, l, turn, p.m)
		if err != nil {
			return nil, err
		}
		views = append(views, newPlanView(f, ""))
	}
	return views, nil
}

// unitBlocks are the figures of a unit and what it shares.
func (p *project) unitBlocks(u plan.Unit) []block {
	t := p.fonts
	figures := block{title: "Unit " + u.ID}
	row := func(name, value string) { figures.rows = append(figures.rows, t.pair(name, value)) }
	row("Net area, inside faces", p.m.area(u.NetM2))
	row("Gross area", p.m.area(u.GrossM2))
	row("of it above grade", p.m.area(u.AboveM2))
	row("of it below grade", p.m.area(u.BelowM2))
	row("Bedrooms", strconv.Itoa(u.Bedrooms))
	row("Bathrooms (powder room one half)", strconv.FormatFloat(u.Bathrooms, 'g', -1, 64))
	row("Entry", t.shortened(p.entryNames(u), columnWidth-14, smallText, false))
	if p.hasSite() {
		row("Outdoor area", p.m.area(u.OutdoorM2))
		row("Parking stalls", strconv.Itoa(u.Parking))
	}
	for _, n := range u.Notes {
		figures.rows = append(figures.rows, t.paragraph(t.legible(n), 0))
	}
	shared := block{title: "Shared with the other unit"}
	for _, s := range p.s.Shared {
		text := p.sharedName(s)
		if !s.Accepted {
			text += " (not accepted by the brief)"
		}
		shared.rows = append(shared.rows, t.paragraph(t.legible(text), 0))
	}
	if len(shared.rows) == 0 {
		shared.rows = append(shared.rows, t.paragraph("nothing", 0))
	}
	return []block{figures, shared}
}

// entryNames are the doors into a unit: a new one by its number on the plans.
func (p *project) entryNames(u plan.Unit) string {
	names := make([]string, len(u.Entries))
	for i, id := range u.Entries {
		names[i] = p.fonts.legible(id)
		for _, q := range p.s.Passages {
			if q.Of == id && q.State == plan.New && q.Door != nil {
				names[i] = newDoorTag(p.s, q) + " (new)"
			}
		}
	}
	return strings.Join(names, ", ")
}

// sharedName is what is shared, by the name that the drawing gives it.
func (p *project) sharedName(s plan.Shared) string {
	if i := slices.IndexFunc(p.b.Cells, func(c plan.Cell) bool { return c.ID == s.ID }); i >= 0 && p.b.Cells[i].Name != "" {
		return p.b.Cells[i].Name
	}
	if s.Use != "" && s.Use != s.ID {
		return useName(plan.Use(s.Use)) + " " + s.ID
	}
	return s.ID
}

// hasSite tells whether the survey has outdoor cells.
func (p *project) hasSite() bool {
	return slices.ContainsFunc(p.b.Cells, func(c plan.Cell) bool { return c.Outdoor })
}
