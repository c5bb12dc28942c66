package render

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan"
)

// Place of the name of the project on the cover, millimetres from the frame.
const coverHead = 22.0

// coverSheets say what the set is: the project, its sheets, areas, what was
// checked, the legend of all plans, the notes that apply, and what is missing.
func (p *project) coverSheets() ([]*Sheet, error) {
	index := &block{title: "Sheets"}
	blocks := []block{p.projectBlock(), {}, p.areaBlock()}
	if b := p.siteBlock(); len(b.rows) > 0 {
		blocks = append(blocks, b)
	}
	blocks = append(blocks, p.findingsBlock(), p.sharedBlock(), p.scopeBlock(), p.cautionBlock(), p.fonts.legendBlock(p.seen, p.refs), p.generalNotes(), p.applicantBlock())
	// How many sheets the cover takes is in the list of sheets that it holds.
	for covers := 1; ; covers++ {
		*index = p.indexBlock(covers)
		blocks[1] = *index
		var sheets []*Sheet
		for rest := blocks; len(rest) > 0; {
			s := newSheet(p.fonts, p.paper, "", "Cover")
			s.kind = "Permit draft, cover"
			columns := p.paper.tallColumns()
			if len(sheets) > 0 {
				s.Title = "Cover, continued"
			} else {
				s.drawCoverHead(p)
				for i := range columns {
					columns[i].Y1 -= coverHead
				}
			}
			rest = s.flow(rest, columns)
			sheets = append(sheets, s)
		}
		if len(sheets) <= covers || covers > 9 {
			return sheets, nil
		}
	}
}

// tallColumns are the columns of a sheet without a drawing; those left of the
// title block reach down to the frame.
func (p Paper) tallColumns() []Rect {
	columns := p.columnsOnly()
	for i := range columns {
		if columns[i].X1 <= p.titlePlace().X0-clearance {
			columns[i].Y0 = p.frame().Y0 + clearance
		}
	}
	return columns
}

func (s *Sheet) drawCoverHead(p *project) {
	in := s.Paper.frame().grown(-clearance)
	name := s.fonts.shortened(p.fonts.legible(p.b.House.Name), in.width(), numberText, true)
	s.write(Point{in.X0, in.Y1 - 8}, words{text: name, height: numberText, bold: true}, onSheet())
	s.write(Point{in.X0, in.Y1 - 15}, words{text: s.fonts.shortened("One house divided into two self-contained units: permit draft", in.width(), roomText, false), height: roomText}, onSheet())
	s.stroke(layerSign, line(thick), polyline(Point{in.X0, in.Y1 - 18}, Point{in.X1, in.Y1 - 18}))
}

func (p *project) projectBlock() block {
	t := p.fonts
	b := block{title: "Project"}
	row := func(name, value string) { b.rows = append(b.rows, t.pair(name, value)) }
	h := p.b.House
	indoors := len(p.levels)
	row("Levels", fmt.Sprint(indoors))
	units := [2]string{}
	for i, u := range p.s.Units {
		units[i] = "Unit " + u.ID
		if name := t.legible(u.Name); name != "" && name != units[i] {
			row(units[i], t.shortened(name, columnWidth-16, smallText, false))
		}
	}
	row("Scheme", p.s.ID)
	if h.SHA256 != "" {
		row("Survey file, SHA-256 begins", h.SHA256[:min(12, len(h.SHA256))])
	}
	unit := "millimetres and metres"
	if p.m.imperial {
		unit = "feet and inches"
	}
	row("Units of measure", unit)
	row("Sheet size", p.paper.Name)
	rules := "none applied"
	if p.s.Brief != nil {
		if id := p.s.Brief.RuleSetID(); id != "" {
			rules = id
		}
	}
	row("Rule set", rules)
	if p.o.Date != "" {
		row("Date", p.o.Date)
	}
	return b
}

// indexBlock lists the sheets of the set, the cover's own first.
func (p *project) indexBlock(covers int) block {
	b := block{title: "Sheets"}
	row := func(number, title, scale string) {
		const indent = 13.0
		lines := p.fonts.wrapped(title, columnWidth-indent-p.fonts.width(scale, smallText, false)-2, smallText, false)
		b.rows = append(b.rows, blockRow{height: textStep*float64(max(1, len(lines))) + 0.9, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: number, height: smallText, bold: true}, onSheet())
			for i, l := range lines {
				s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText}, onSheet())
			}
			s.write(Point{at.X + columnWidth, at.Y - smallText}, words{text: scale, height: smallText, align: atRight}, onSheet())
		}})
	}
	for i := range covers {
		title := "Cover"
		if i > 0 {
			title += ", continued"
		}
		row(sheetNumber(general, i+1), title, "")
	}
	for _, s := range p.drawn {
		row(s.Number, s.Title, s.Scale.Text)
	}
	return b
}

// areaBlock gives the areas of the units, per level and together.
func (p *project) areaBlock() block {
	b := block{title: "Areas"}
	type line [4]string
	var lines []line
	level := func(l int) (net [3]float64) {
		for i := range p.b.Cells {
			c := &p.b.Cells[i]
			if o := p.s.Owners[i]; c.Level == l && !c.Outdoor && c.Use != plan.Garage && o <= plan.Common {
				net[o] += c.AreaM2
			}
		}
		return net
	}
	none := func(v float64) string {
		if v == 0 {
			return notSurveyed
		}
		return p.m.area(v)
	}
	for _, l := range p.levels {
		net := level(l)
		lines = append(lines, line{p.levelName(l), none(net[0]), none(net[1]), none(net[2])})
	}
	a, u := p.s.Units[0], p.s.Units[1]
	lines = append(lines, line{"Net together", none(a.NetM2), none(u.NetM2), ""})
	lines = append(lines, line{"Gross", none(a.GrossM2), none(u.GrossM2), ""})
	lines = append(lines, line{"above grade", none(a.AboveM2), none(u.AboveM2), ""})
	lines = append(lines, line{"below grade", none(a.BelowM2), none(u.BelowM2), ""})
	lines = append(lines, line{"Outdoors", none(a.OutdoorM2), none(u.OutdoorM2), ""})
	if sum := a.NetM2 + u.NetM2; sum > 0 {
		lines = append(lines, line{"Share of net area", fmt.Sprintf("%.0f %%", 100*a.NetM2/sum), fmt.Sprintf("%.0f %%", 100*u.NetM2/sum), ""})
	}
	row := func(cells line, bold bool) blockRow {
		lines := p.fonts.wrapped(cells[0], columnWidth-3*15-1, smallText, bold)
		return blockRow{height: textStep*float64(max(1, len(lines))) + 0.9, draw: func(s *Sheet, at Point) {
			for i, l := range lines {
				s.write(Point{at.X, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText, bold: bold}, onSheet())
			}
			for i, c := range cells[1:] {
				s.write(Point{at.X + columnWidth - 15*float64(2-i), at.Y - smallText}, words{text: c, height: smallText, bold: bold, align: atRight}, onSheet())
			}
		}}
	}
	b.rows = append(b.rows, row(line{"", "A", "B", "shared"}, true))
	for _, l := range lines {
		b.rows = append(b.rows, row(l, false))
	}
	b.rows = append(b.rows, p.fonts.paragraph("Per level: net, inside the faces of walls, flights at their foot, garages left out. Gross: to the exterior face and the middle of the separation.", 0))
	return b
}

// siteBlock gives the figures of the lot.
func (p *project) siteBlock() block {
	b := block{title: "Lot"}
	lot := 0.0
	for _, l := range p.b.House.Lots {
		lot += l.Region.AreaM2()
	}
	if lot == 0 {
		return b
	}
	row := func(name, value string) { b.rows = append(b.rows, p.fonts.pair(name, value)) }
	row("Lot area", p.m.area(lot))
	if front := p.frontage(); front > 0 {
		row("Frontage on the public way", p.m.run(front))
	}
	if p.footprint > 0 {
		row("Footprint of the house", p.m.area(p.footprint))
		row("Coverage by the house", fmt.Sprintf("%.1f %%", 100*p.footprint/lot))
	}
	gross := 0.0
	for _, l := range p.levels {
		area := p.b.Levels[l].Outline.AreaM2()
		row("Floor, "+p.levelName(l)+", outside faces", p.m.area(area))
		gross += area
	}
	row("Floors together, outside faces", p.m.area(gross))
	return b
}

// frontage is the length of the lot's sides along the public way, in metres.
func (p *project) frontage() float64 {
	const along = 0.5 // metres that a surveyed street may lie from the lot's side
	sum := 0.0
	for _, l := range p.b.House.Lots {
		for _, e := range l.Region.Edges() {
			if p.hasGround(func(c plan.Cell) bool { return c.Public && c.Region.DistanceToBorder(e.Mid()) <= along }) {
				sum += e.Length()
			}
		}
	}
	return sum
}

// sharedBlock says what the two units still share.
func (p *project) sharedBlock() block {
	b := block{title: "Still shared by the units"}
	for _, s := range p.s.Shared {
		text := p.sharedName(s)
		if !s.Accepted {
			text += " (not accepted by the brief)"
		}
		b.rows = append(b.rows, p.fonts.paragraph(p.fonts.legible(text), 0))
	}
	if len(b.rows) == 0 {
		b.rows = append(b.rows, p.fonts.paragraph("nothing", 0))
	}
	return b
}

// scopeBlock sums up the works.
func (p *project) scopeBlock() block {
	b := block{title: "Scope of work"}
	var kinds []string
	count := map[string]int{}
	for _, w := range p.s.Works {
		if count[w.Kind] == 0 {
			kinds = append(kinds, w.Kind)
		}
		count[w.Kind] += max(1, w.Count)
	}
	for _, k := range kinds {
		b.rows = append(b.rows, p.fonts.pair(useName(plan.Use(k)), fmt.Sprintf("%d no.", count[k])))
	}
	b.rows = append(b.rows, p.fonts.pair("Cost of the works, screening", money(p.s.Cost.Works)))
	if n := p.refs[workSchedule]; n != "" {
		b.rows = append(b.rows, p.fonts.paragraph("Quantities and places: sheet "+n+".", 0))
	}
	return b
}

// cautionBlock says what the set is not.
func (p *project) cautionBlock() block {
	b := block{title: "Caution"}
	texts := []string{
		cautionText + ".",
		"Drawn from a survey of the house, not from a measurement for this purpose: every dimension is to be checked on site before any work.",
	}
	if len(p.buildUps.list) > 0 || p.hasSeparatingFloor() {
		texts = append(texts, "Fire and sound ratings of the separation, and its junctions and penetrations, follow from the local code and from tested assemblies, not from this set.")
	}
	if p.opensWalls() {
		texts = append(texts, "Before a wall is opened or removed, whether it bears is to be found out by licensed practice; lintels are theirs to size.")
	}
	if p.hasWork("new_kitchen", "new_bathroom", "new_laundry", "new_furnace", "new_water_heater", "new_panel", "new_meter") {
		texts = append(texts, "Gas, electricity, heating and plumbing: by licensed trades, under permits of their own.")
	}
	if len(p.untouched) > 0 {
		names := make([]string, len(p.untouched))
		for i, l := range p.untouched {
			names[i] = p.levelName(l)
		}
		texts = append(texts, "No demolition sheet: nothing is taken out on "+strings.Join(names, ", ")+".")
	}
	for _, text := range texts {
		b.rows = append(b.rows, p.fonts.paragraph(text, 0))
	}
	return b
}

// opensWalls tells whether the scheme breaks an opening into a wall that
// stands, or takes one away.
func (p *project) opensWalls() bool {
	levels := p.s.Building.House.Levels
	return slices.ContainsFunc(p.s.Passages, func(q plan.Passage) bool { return q.State == plan.New && q.Door != nil && !levels[q.Level].Outdoor }) ||
		slices.ContainsFunc(p.s.Walls, func(w plan.WallRun) bool { return w.State == plan.Removed && !w.Fence }) ||
		slices.ContainsFunc(p.s.Windows, func(w plan.PlacedWindow) bool { return w.State == plan.New || w.State == plan.Enlarged })
}

// hasWork tells whether a work of one of some kinds is to be done.
func (p *project) hasWork(kinds ...string) bool {
	return slices.ContainsFunc(p.s.Works, func(w plan.Work) bool { return slices.Contains(kinds, w.Kind) })
}

// generalNotes are the notes of all sheets.
func (p *project) generalNotes() block {
	b := p.fonts.notesBlock(p.seen, noteTexts(p.b, p.m))
	b.title = "General notes"
	return b
}
