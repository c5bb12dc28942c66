package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"moiety/plan"
)

// unitSheets draws one unit alone: all its levels on one sheet where they
// fit, else one sheet for each.
func (p *project) unitSheets(u plan.Owner) ([]*Sheet, error) {
	unit := p.s.Units[u]
	title := "Unit " + unit.ID
	if unit.Name != "" && unit.Name != unit.ID && unit.Name != title {
		title += ", " + p.fonts.legible(unit.Name)
	}
	level, err := p.unitViews(unit)
	if err != nil || len(level) == 0 {
		return nil, err
	}
	turned := make([]*planView, len(level))
	for i, v := range level {
		turned[i] = newPlanView(v.withTurn(p.turn+90), p.fonts, "")
	}
	sheets := p.largest(title, "Permit draft, unit plan", planScales(p.m.imperial), p.unitBlocks(unit), level, turned)
	if sheets == nil {
		return nil, fmt.Errorf("render: unit %s cannot be drawn on %s", unit.ID, p.paper.Name)
	}
	return sheets, nil
}

// largest deals the first of some ways to lay views out that fits, at the
// largest scale at which one does; in parts where none does at a legible scale.
func (p *project) largest(title, kind string, scales []Scale, figures []block, ways ...[]*planView) []*Sheet {
	for _, scale := range scales {
		if scale.Ratio > legible {
			break
		}
		for _, views := range ways {
			if sheets := p.dealt(title, kind, scale, views, figures); sheets != nil {
				return sheets
			}
		}
	}
	scale := leastLegible(scales)
	var best []*planView
	for _, views := range ways {
		if parts := p.divided(views, scale); best == nil || parts != nil && len(parts) < len(best) {
			best = parts
		}
	}
	if best == nil {
		return nil
	}
	return p.dealt(title, kind, scale, best, figures)
}

// dealt puts views on as few sheets as they fit on at a scale, in their
// order; nil where they do not. At a large scale they must fit on one. The figures of the unit stand on the first.
func (p *project) dealt(title, kind string, scale Scale, views []*planView, figures []block) []*Sheet {
	if scale.Ratio < overflows && !p.packs(views, scale) {
		return nil
	}
	var sheets []*Sheet
	for len(views) > 0 {
		extra := figures
		if len(sheets) > 0 {
			extra = nil
		}
		// Fewer views to a sheet rather than a sheet of legends; but one must go.
		n := len(views)
		s := p.composed(title, kind, scale, views, extra, n == 1 && scale.Ratio >= overflows)
		for s == nil && n > 1 {
			n--
			s = p.composed(title, kind, scale, views[:n], extra, n == 1 && scale.Ratio >= overflows)
		}
		if s == nil || scale.Ratio < overflows && n < len(views) {
			return nil
		}
		if n < len(views) || len(sheets) > 0 {
			var names []string
			for _, v := range views[:n] {
				name := p.levelName(v.level)
				if v.piece != nil {
					name += v.piece.title()
				}
				names = append(names, name)
			}
			s[0].Title = title + ", " + strings.Join(names, ", ")
		}
		sheets = append(sheets, s...)
		views = views[n:]
	}
	return sheets
}

// packs tells whether views fit the sheet by their size.
func (p *project) packs(views []*planView, scale Scale) bool {
	return slices.ContainsFunc(p.paper.compositions(), func(c composition) bool {
		_, ok := packViews(views, scale, c.drawing)
		return ok
	})
}

// unitViews are the levels on which a unit has rooms.
func (p *project) unitViews(unit plan.Unit) ([]*planView, error) {
	var views []*planView
	for _, l := range p.levels {
		if !slices.ContainsFunc(unit.Cells, func(c int) bool {
			cell := p.b.Cells[c]
			return cell.Level == l
		}) {
			continue
		}
		f, err := p.newFloor(p.b, p.s, unit.ID, l)
		if err != nil {
			return nil, err
		}
		views = append(views, newPlanView(f, p.fonts, ""))
	}
	return views, nil
}

// unitBlocks are the figures of a unit and what it shares.
func (p *project) unitBlocks(u plan.Unit) []block {
	t := p.fonts
	figures := block{title: "Unit " + u.ID}
	row := func(name, value string) { figures.rows = append(figures.rows, t.pair(name, value)) }
	row("Net area, inside faces", p.m.area(u.NetM2))
	if after := p.m.area(u.AfterM2()); after != p.m.area(u.NetM2) {
		row("Net area inside new linings", after)
	}
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
	tags := doorTags(p.s)
	for i, id := range u.Entries {
		names[i] = p.fonts.legible(id)
		for k, q := range p.s.Passages {
			if q.Of == id && q.Door != nil && tags[k] != "" {
				names[i] = tags[k]
				if q.State == plan.New {
					names[i] += " (new)"
				}
			}
		}
	}
	return strings.Join(names, ", ")
}

// sharedName is what is shared, by the name that the drawing gives it.
func (p *project) sharedName(s plan.Shared) string {
	if i := p.b.CellNamed(s.ID); i >= 0 && p.b.Cells[i].Name != "" {
		return p.b.Cells[i].Name
	}
	plain := strings.NewReplacer("_", " ", "-", " ")
	id, use := plain.Replace(s.ID), plain.Replace(s.Use)
	if use == "" || strings.Contains(strings.ToLower(id), strings.ToLower(use)) {
		return useName(plan.Use(id))
	}
	return useName(plan.Use(use)) + " " + s.ID
}

// hasSite tells whether the survey has outdoor cells.
func (p *project) hasSite() bool {
	return slices.ContainsFunc(p.b.Cells, func(c plan.Cell) bool { return c.Outdoor })
}
