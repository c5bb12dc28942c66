package render

import (
	"cmp"
	"fmt"
	"slices"

	"moiety/plan"
)

// sortLevels orders levels from the lowest.
func sortLevels(levels []int, h *plan.House) {
	slices.SortStableFunc(levels, func(a, b int) int { return cmp.Compare(h.Levels[a].Floor, h.Levels[b].Floor) })
}

// planJob is one plan sheet to be drawn.
type planJob struct {
	title string
	view  *planView
}

// planSheets draws the plans of all levels at one scale: the largest at which
// every one fits with its dimensions and what stands beside it. Levels too
// large for that at a legible scale are drawn in parts.
func (p *project) planSheets() ([]*Sheet, error) {
	floors, err := p.planFloors()
	if err != nil {
		return nil, err
	}
	arrangements := p.arrangements(floors)
	for _, scale := range planScales(p.m.imperial) {
		if scale.Ratio > legible {
			break
		}
		for _, jobs := range arrangements {
			if !p.fit(jobs, scale) {
				continue
			}
			if sheets := p.drawPlans(jobs, scale); sheets != nil && !crowded(jobs) {
				return sheets, nil
			}
		}
	}
	scale := leastLegible(planScales(p.m.imperial))
	var best []planJob
	var sheets []*Sheet
	for _, marks := range []markPlace{marksOutside, marksInside} {
		for _, quarter := range []float64{0, 90} {
			jobs := p.partJobs(p.planJobs(floors, p.turn+quarter), scale, marks)
			if len(jobs) == 0 || best != nil && len(jobs) >= len(best) {
				continue
			}
			if drawn := p.drawPlans(jobs, scale); drawn != nil && !crowded(jobs) {
				best, sheets = jobs, drawn
			}
		}
	}
	if sheets != nil {
		return sheets, nil
	}
	return nil, fmt.Errorf("render: the house cannot be drawn on %s", p.paper.Name)
}

// leastLegible is the smallest scale at which a plan is drawn.
func leastLegible(scales []Scale) Scale {
	last := scales[0]
	for _, s := range scales {
		if s.Ratio <= legible {
			last = s
		}
	}
	return last
}

// arrangements lists the ways to lay the plans on their sheets, the best
// first: with the house at the same place on every sheet, then wherever it
// fits; with the marks of the section outside the dimension lines, then
// inside; north up, then, since the house may fit at a larger scale so, to
// one side.
func (p *project) arrangements(floors []*floor) [][]planJob {
	var all [][]planJob
	for _, aligned := range []bool{true, false} {
		for _, quarter := range []float64{0, 90} {
			jobs := p.planJobs(floors, p.turn+quarter)
			for _, marks := range []markPlace{marksOutside, marksInside} {
				tried := make([]planJob, len(jobs))
				views := make([]*planView, len(jobs))
				for i, j := range jobs {
					views[i] = j.view.marked(marks)
					tried[i] = planJob{j.title, views[i]}
				}
				if aligned {
					alignViews(views)
				}
				all = append(all, tried)
			}
		}
	}
	return all
}

// crowded tells whether a mark of the section found no place.
func crowded(jobs []planJob) bool {
	return slices.ContainsFunc(jobs, func(j planJob) bool { return j.view.crowded })
}

// partJobs are the same plans in parts that fit the sheet at a scale, with
// the marks of the section at a place.
func (p *project) partJobs(jobs []planJob, scale Scale, marks markPlace) []planJob {
	views := make([]*planView, len(jobs))
	titles := map[*planView]string{}
	for i, j := range jobs {
		views[i] = j.view.marked(marks)
		titles[views[i]] = j.title
	}
	var out []planJob
	for _, v := range p.divided(views, scale) {
		title := titles[v.whole()]
		if v.piece != nil {
			title += v.piece.title()
		}
		out = append(out, planJob{title, v})
	}
	return out
}

// planFloors are the levels as surveyed and, with a scheme, as proposed.
func (p *project) planFloors() ([]*floor, error) {
	p.proposed, p.untouched = nil, nil
	var floors []*floor
	schemes := []*plan.Scheme{nil}
	if p.s != nil {
		schemes = append(schemes, p.s)
	}
	for _, s := range schemes {
		b := p.b
		if s == nil && p.s != nil && p.s.Whole != nil {
			b = p.s.Whole // no space is divided yet
		}
		for _, l := range p.levels {
			f, err := p.newFloor(b, s, "", l)
			if err != nil {
				return nil, err
			}
			if s != nil {
				p.proposed = append(p.proposed, f)
				if p.refs[sectionCut] != "" {
					f.section = &sectionMark{p.section.Line, p.refs[sectionCut]}
				}
			}
			if s == nil {
				f.dividings = p.o.dividings(onPlan(l))
			}
			floors = append(floors, f)
		}
		if s == nil && p.s != nil {
			floors = append(floors, p.demolitionFloors(floors)...)
		}
	}
	return floors, nil
}

// planJobs are the plans to draw, the house turned by so many degrees.
func (p *project) planJobs(floors []*floor, turn float64) []planJob {
	var jobs []planJob
	for _, f := range floors {
		what := "existing"
		switch {
		case f.s != nil:
			what = "proposed"
		case f.demolition != nil:
			what = "demolition"
		}
		v := newPlanView(f.withTurn(turn), p.fonts, what)
		jobs = append(jobs, planJob{p.levelName(f.level) + ", " + what, v})
	}
	return jobs
}

func (p *project) levelName(level int) string {
	return p.fonts.legible(levelTitle(p.b.House.Levels[level]))
}

// fit tells whether all drawings fit the sheet by their size.
func (p *project) fit(jobs []planJob, scale Scale) bool {
	comps := p.paper.compositions()
	return !slices.ContainsFunc(jobs, func(j planJob) bool {
		w, h := j.view.size(scale)
		return !slices.ContainsFunc(comps, func(c composition) bool { return w <= c.drawing.width() && h <= c.drawing.height() })
	})
}

// drawPlans draws all jobs at a scale; nil where one does not fit.
func (p *project) drawPlans(jobs []planJob, scale Scale) []*Sheet {
	var sheets []*Sheet
	for _, j := range jobs {
		drawn := p.composed(j.title, "Permit draft, plan", scale, []*planView{j.view}, nil, scale.Ratio >= overflows)
		if drawn == nil {
			return nil
		}
		sheets = append(sheets, drawn...)
	}
	return sheets
}

// overflows is the scale from which what stands beside a drawing may go on to
// a sheet of its own, rather than the drawing become still smaller.
const overflows = 96.0

// composed draws views on a sheet with what stands beside them, in the first
// composition that takes it all; nil where none does. Where they may go on,
// what finds no place beside the views goes on to further sheets.
func (p *project) composed(title, kind string, scale Scale, views []*planView, extra []block, goOn bool) []*Sheet {
	comps := slices.DeleteFunc(p.paper.compositions(), func(c composition) bool {
		_, ok := packViews(views, scale, c.drawing)
		return !ok
	})
	if len(comps) == 0 {
		return nil
	}
	// What stands beside the views follows from drawing them; where they
	// stand does not matter to it.
	draw := func(places []Point) (*Sheet, []block) {
		s := newSheet(p.fonts, p.paper, "", title)
		s.Scale, s.kind = scale, kind
		l, key, ups := &legend{}, &roomKey{}, p.buildUps.onSheet()
		for i, v := range views {
			v.draw(s, scale, places[i], l, key, ups)
			s.place()
		}
		blocks := []block{p.fonts.bearingBlock(p.north(views[0].turn), scale, p.m.imperial)}
		for _, v := range views {
			if v.piece != nil {
				s.pieces = append(s.pieces, v.piece)
				blocks = append(blocks, p.keyPlan(v))
			}
		}
		blocks = append(blocks, extra...)
		return s, append(blocks, p.matter(l, key, ups)...)
	}
	return p.beside(comps, goOn, draw, func(c composition) []Point {
		places, _ := packViews(views, scale, c.drawing)
		return places
	})
}

// beside draws a sheet in the first composition whose columns take what
// belongs to it.
func (p *project) beside(comps []composition, goOn bool, draw func([]Point) (*Sheet, []block), places func(composition) []Point) []*Sheet {
	s, blocks := draw(places(comps[0]))
	move := func(to composition) { s.move(places(comps[0]), places(to)) }
	for _, c := range comps {
		if (*Sheet)(nil).flow(blocks, c.columns) == nil {
			move(c)
			s.flow(blocks, c.columns)
			return []*Sheet{s}
		}
	}
	brief, shorter := p.uncovered(blocks)
	if shorter {
		for _, c := range comps {
			if (*Sheet)(nil).flow(brief, c.columns) == nil {
				move(c)
				s.flow(brief, c.columns)
				return []*Sheet{s}
			}
		}
	}
	if !goOn {
		return nil
	}
	if shorter {
		blocks = brief
	}
	// The composition with the most room beside the drawing.
	most := slices.MaxFunc(comps, func(a, b composition) int { return cmp.Compare(a.room(), b.room()) })
	move(most)
	sheets := []*Sheet{s}
	for rest := s.flow(blocks, most.columns); rest != nil; {
		more := newSheet(p.fonts, p.paper, "", s.Title+", continued")
		more.kind = s.kind
		rest = more.flow(rest, p.paper.columnsOnly())
		sheets = append(sheets, more)
	}
	return sheets
}

// uncovered leaves out what stands on the cover too, and says where it is.
func (p *project) uncovered(blocks []block) ([]block, bool) {
	var brief []block
	for _, b := range blocks {
		if !b.covered {
			brief = append(brief, b)
		}
	}
	if len(brief) == len(blocks) {
		return nil, false
	}
	return append(brief, block{rows: []blockRow{p.fonts.paragraph("Legend and general notes: on the cover, sheet "+sheetNumber(general, 1)+".", 0)}}), true
}

// matter is what explains a drawing: the key to its rooms, the build-ups of
// the separation, the legend and the notes.
func (p *project) matter(l *legend, key *roomKey, ups *buildUps) []block {
	p.seen.join(l)
	var blocks []block
	if len(key.rows) > 0 {
		blocks = append(blocks, p.fonts.keyBlock(key))
	}
	if slices.Contains(ups.used, true) {
		blocks = append(blocks, ups.block(p.fonts, p.m, p.refs[buildUpDetails]))
	}
	if len(l.crossings) > 0 {
		blocks = append(blocks, p.fonts.taggedBlock("Crossings of the separation", l.crossings))
	}
	if len(l.travels) > 0 {
		blocks = append(blocks, p.fonts.taggedBlock("Longest ways out", l.travels))
	}
	if len(l.dividings) > 0 {
		blocks = append(blocks, p.dividingBlock(l.dividings))
	}
	legend := p.fonts.legendBlock(l, p.refs)
	legend.covered = p.s != nil
	blocks = append(blocks, legend)
	if n := p.fonts.notesBlock(l, noteTexts(p.b, p.m)); len(n.rows) > 0 {
		n.covered = p.s != nil && len(l.more) == 0
		blocks = append(blocks, n)
	}
	return blocks
}

// viewGap is between views on one sheet, millimetres.
const viewGap = 6.0

// packViews lays views out in rows and columns within a rectangle, each with
// its lower left corner; false where they do not fit.
func packViews(views []*planView, scale Scale, in Rect) ([]Point, bool) {
	for columns := len(views); columns >= 1; columns-- {
		rows := (len(views) + columns - 1) / columns
		wide, high := make([]float64, columns), make([]float64, rows)
		for i, v := range views {
			w, h := v.size(scale)
			wide[i%columns] = max(wide[i%columns], w)
			high[i/columns] = max(high[i/columns], h)
		}
		w, h := viewGap*float64(columns-1), viewGap*float64(rows-1)
		for _, x := range wide {
			w += x
		}
		for _, y := range high {
			h += y
		}
		if w > in.width() || h > in.height() {
			continue
		}
		// What is left over is spread around the views.
		padX, padY := (in.width()-w)/float64(columns+1), (in.height()-h)/float64(rows+1)
		places := make([]Point, len(views))
		y := in.Y1
		for r := range rows {
			y -= high[r] + padY
			x := in.X0
			for c := range columns {
				x += padX
				if i := r*columns + c; i < len(views) {
					places[i] = Point{x, y}
				}
				x += wide[c] + viewGap
			}
			y -= viewGap
		}
		return places, true
	}
	return nil, false
}
