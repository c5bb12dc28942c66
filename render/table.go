package render

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// table is a schedule: columns under their names, rows between thin lines.
// It is laid out as a block, so that it goes on from panel to panel.
type table struct {
	title   string
	columns []column
	rows    [][]string
	none    string // what is said where there are no rows
}

// column of a table.
type column struct {
	name  string
	right bool // figures, set to the right
}

// Tables, millimetres.
const (
	panelWidth  = 170.0 // the least that a table is set in: an A4 sheet holds one
	panelGap    = 6.0
	cellGap     = 2.5 // between columns
	tableStep   = 3.7 // between lines of one row
	tableAround = 1.7 // around the lines of a row
)

// panels divide a sheet without a drawing for tables. Those left of the title
// block reach down to the frame.
func (p Paper) panels() []Rect {
	in, title := p.frame(), p.titlePlace()
	left, right := in.X0+clearance, in.X1-clearance
	n := max(1, math.Floor((right-left+panelGap)/(panelWidth+panelGap)))
	width := (right - left - (n-1)*panelGap) / n
	var out []Rect
	for i := range int(n) {
		r := Rect{left + float64(i)*(width+panelGap), title.Y1 + clearance, 0, in.Y1 - clearance}
		r.X1 = r.X0 + width
		if r.X1 <= title.X0-clearance {
			r.Y0 = in.Y0 + clearance
		}
		out = append(out, r)
	}
	return out
}

// tableBlock sets a table in a width. Columns take what they need; where that
// is too much, the widest are broken into lines.
func (t *typeface) tableBlock(tb table, width float64) block {
	b := block{title: tb.title, width: width}
	if len(tb.rows) == 0 {
		b.rows = []blockRow{t.passage(tb.none, 0, width)}
		return b
	}
	tb = tb.withoutEmpty()
	widths := t.columnWidths(tb, width)
	names := make([]string, len(tb.columns))
	for i, c := range tb.columns {
		names[i] = c.name
	}
	b.heading = []blockRow{t.tableRow(tb.columns, names, widths, width, true)}
	for _, r := range tb.rows {
		b.rows = append(b.rows, t.tableRow(tb.columns, r, widths, width, false))
	}
	return b
}

// withoutEmpty is the table without the columns in which nothing stands.
func (tb table) withoutEmpty() table {
	out := table{title: tb.title, none: tb.none, rows: make([][]string, len(tb.rows))}
	for i, c := range tb.columns {
		if !slices.ContainsFunc(tb.rows, func(r []string) bool { return r[i] != "" }) {
			continue
		}
		out.columns = append(out.columns, c)
		for n, r := range tb.rows {
			out.rows[n] = append(out.rows[n], r[i])
		}
	}
	return out
}

// columnWidths shares a width out: every column gets what its longest word
// needs, where there is room for that; what is left goes step by step to the
// column that it makes the table shorter in, until no text is broken.
func (t *typeface) columnWidths(tb table, width float64) []float64 {
	const step = 1.5 // millimetres
	n := len(tb.columns)
	need, out := make([]float64, n), make([]float64, n)
	long := make([][]float64, 0, len(tb.rows)+1) // how long each text is in one line
	consider := func(row []float64, i int, text string, bold bool) {
		row[i] = t.width(text, smallText, bold)
		need[i] = max(need[i], row[i])
		for _, word := range wordsOf(text, tb.columns[i].right && !bold) {
			out[i] = max(out[i], t.width(word, smallText, bold))
		}
	}
	heading := make([]float64, n)
	for i, c := range tb.columns {
		consider(heading, i, c.name, true)
	}
	long = append(long, heading)
	for _, r := range tb.rows {
		row := make([]float64, n)
		for i := range tb.columns {
			consider(row, i, r[i], false)
		}
		long = append(long, row)
	}
	room := width - cellGap*float64(n-1)
	for _, w := range out {
		room -= w
	}
	if room < 0 {
		return sharedOut(need, width-cellGap*float64(n-1))
	}
	for room > 0 {
		best, least := -1, 0.0
		for i := range out {
			more := min(step, room, need[i]-out[i])
			if more <= 1e-9 {
				continue
			}
			was := out[i]
			out[i] += more
			lines := tableLines(long, out)
			out[i] = was
			if best < 0 || lines < least-1e-9 {
				best, least = i, lines
			}
		}
		if best < 0 {
			break
		}
		more := min(step, room, need[best]-out[best])
		out[best] += more
		room -= more
	}
	return out
}

// tableLines weighs how tall a table comes out with columns of some widths:
// the lines of its rows, and a little of each text's own, so that a column
// grows towards the width at which a row becomes shorter.
func tableLines(long [][]float64, widths []float64) float64 {
	const broken, own = 1.1, 0.05 // a broken line is not quite full
	all := 0.0
	for _, row := range long {
		most := 1.0
		for i, l := range row {
			if l > widths[i]+1e-9 && widths[i] > 0 {
				parts := l * broken / widths[i]
				most = max(most, math.Ceil(parts))
				all += own * parts
			}
		}
		all += most
	}
	return all
}

// sharedOut gives every column up to an equal share of a width what it needs,
// and what it leaves to the others: words are broken in the widest.
func sharedOut(need []float64, room float64) []float64 {
	order := make([]int, len(need))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(need[a], need[b]) })
	out := make([]float64, len(need))
	for k, i := range order {
		out[i] = min(need[i], room/float64(len(order)-k))
		room -= out[i]
	}
	return out
}

// wordsOf are the parts of a text that are not broken: its words, or of
// figures each length with its parts of an inch.
func wordsOf(text string, figures bool) []string {
	if figures {
		return strings.SplitAfter(text, " ×")
	}
	return strings.Fields(text)
}

// tableRow is one row with a thin line under it; the names of the columns stand bold.
func (t *typeface) tableRow(columns []column, cells []string, widths []float64, width float64, bold bool) blockRow {
	lines := make([][]string, len(cells))
	most := 1
	for i, c := range cells {
		lines[i] = t.wrapped(c, widths[i]+1e-9, smallText, bold)
		most = max(most, len(lines[i]))
	}
	height := tableStep*float64(most-1) + smallText + 2*tableAround
	return blockRow{height: height, draw: func(s *Sheet, at Point) {
		x := at.X
		for i := range cells {
			for n, l := range lines[i] {
				w := words{text: l, height: smallText, bold: bold}
				q := Point{x, at.Y - tableAround - smallText - tableStep*float64(n)}
				if columns[i].right {
					w.align = atRight
					q.X += widths[i]
				}
				s.write(q, w, onSheet())
			}
			x += widths[i] + cellGap
		}
		pen := line(hair).in(faint)
		if bold {
			pen = line(thin)
		}
		s.stroke(layerSign, pen, polyline(Point{at.X, at.Y - height + 0.35}, Point{at.X + width, at.Y - height + 0.35}))
	}}
}

// tableSheets sets blocks on as many sheets as they need.
func (p *project) tableSheets(title, kind string, blocks []block) []*Sheet {
	var sheets []*Sheet
	for len(blocks) > 0 {
		s := newSheet(p.fonts, p.paper, "", title)
		if len(sheets) > 0 {
			s.Title += ", continued"
		}
		s.kind = kind
		blocks = s.flow(blocks, p.paper.panels())
		sheets = append(sheets, s)
	}
	return sheets
}

// panelWide is the width of the panels of the set's paper.
func (p *project) panelWide() float64 { return p.paper.panels()[0].width() }
