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
// needs, where there is room for that, and of what is left every column up to
// an equal share gets what it needs, and what it leaves goes to the others.
func (t *typeface) columnWidths(tb table, width float64) []float64 {
	need, words := make([]float64, len(tb.columns)), make([]float64, len(tb.columns))
	consider := func(i int, text string, bold bool) {
		need[i] = max(need[i], t.width(text, smallText, bold))
		for _, word := range wordsOf(text, tb.columns[i].right && !bold) {
			words[i] = max(words[i], t.width(word, smallText, bold))
		}
	}
	for i, c := range tb.columns {
		consider(i, c.name, true)
		for _, r := range tb.rows {
			consider(i, r[i], false)
		}
	}
	room := width - cellGap*float64(len(need)-1)
	least := 0.0
	for _, w := range words {
		least += w
	}
	if least > room {
		clear(words) // words are broken, wherever that may be
		least = 0
	}
	room -= least
	order := make([]int, len(need))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(need[a]-words[a], need[b]-words[b]) })
	out := make([]float64, len(need))
	for k, i := range order {
		more := min(need[i]-words[i], room/float64(len(order)-k))
		out[i] = words[i] + more
		room -= more
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
