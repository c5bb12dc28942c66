package render

import (
	"slices"
	"strings"
)

// block is matter that stands beside a drawing: a legend, a key, a table. It
// may be broken between its rows.
type block struct {
	title   string
	subject subject    // what other sheets refer to it for, "" for nothing
	width   float64    // of the line under the title; 0: that of a column
	heading []blockRow // under the title, repeated where the block goes on
	rows    []blockRow
	covered bool // stands on the cover too
}

// top is the height of the title with what stands under it.
func (b block) top() float64 {
	h := headHeight
	for _, r := range b.heading {
		h += r.height
	}
	return h
}

// blockRow is one row: its height in millimetres, and how it is drawn with
// its upper left corner at a place.
type blockRow struct {
	height float64
	draw   func(s *Sheet, at Point)
	heads  bool // never stands last in a column
}

// Columns of blocks, millimetres.
const (
	columnWidth = 64.0
	columnGap   = 4.0
	blockGap    = 3.0
	headHeight  = 6.0
	rowHeight   = 4.4
	textStep    = 3.7 // between lines of running text
)

// continued says that a block goes on from the column before.
const continued = ", continued"

func goesOn(title string) string { return title + continued }

// heading is the name of a block within a width: where it goes on, that is
// said at any rate.
func (t *typeface) heading(title string, width float64) string {
	name, on := strings.CutSuffix(title, continued)
	if !on || t.width(title, smallText, true) <= width {
		return t.shortened(title, width, smallText, true)
	}
	const short = ", cont."
	return t.shortened(name, width-t.width(short, smallText, true), smallText, true) + short
}

// head is the row with the name of a block.
func head(title string, width float64) blockRow {
	if width == 0 {
		width = columnWidth
	}
	return blockRow{height: headHeight, draw: func(s *Sheet, at Point) {
		s.write(Point{at.X, at.Y - 3.6}, words{text: s.fonts.heading(title, width), height: smallText, bold: true}, onSheet())
		s.stroke(layerSign, line(thin), polyline(Point{at.X, at.Y - 4.7}, Point{at.X + width, at.Y - 4.7}))
	}}
}

// flow lets blocks run through columns from top to bottom; what found no
// place comes back. A head never stands alone at the foot of a column.
// Without a sheet nothing is drawn.
func (s *Sheet) flow(blocks []block, columns []Rect) []block {
	if s != nil {
		s.beside = true
		defer func() { s.beside = false }()
	}
	i, top := 0, 0.0
	if len(columns) > 0 {
		top = columns[0].Y1
	}
	for n, b := range blocks {
		if s != nil && i < len(columns) && b.subject != "" {
			defer func(drawn int) {
				if len(s.Boxes) > drawn {
					s.subjects = append(s.subjects, b.subject)
				}
			}(len(s.Boxes))
		}
		named := b.title != ""
		title, headed := b.title, !named
		for r, row := range b.rows {
			need := row.height
			if row.heads && r+1 < len(b.rows) {
				need += b.rows[r+1].height
			}
			if !headed {
				need += b.top()
			}
			// A row taller than every column is drawn all the same, where it is drawn.
			for i < len(columns) && top-need < columns[i].Y0 && (top < columns[i].Y1 || s == nil || holds(columns[i+1:], need)) {
				if i++; i < len(columns) {
					top = columns[i].Y1
				}
				if named && headed { // go on under the same name
					title, headed = goesOn(b.title), false
					need += b.top()
				}
			}
			if i >= len(columns) {
				b.rows = b.rows[r:]
				return append([]block{b}, blocks[n+1:]...)
			}
			if !headed {
				for _, h := range append([]blockRow{head(title, b.width)}, b.heading...) {
					if s != nil {
						h.draw(s, Point{columns[i].X0, top})
					}
					top -= h.height
				}
				headed = true
			}
			if s != nil {
				row.draw(s, Point{columns[i].X0, top})
			}
			top -= row.height
		}
		top -= blockGap
	}
	return nil
}

// holds tells whether a row fits into one of some columns.
func holds(columns []Rect, height float64) bool {
	return slices.ContainsFunc(columns, func(r Rect) bool { return height <= r.height() })
}

// paragraph is running text in a column.
func (t *typeface) paragraph(text string, indent float64) blockRow {
	return t.passage(text, indent, columnWidth)
}

// passage is running text in a column of some width.
func (t *typeface) passage(text string, indent, width float64) blockRow {
	lines := t.wrapped(text, width-indent, smallText, false)
	return blockRow{height: textStep*float64(len(lines)) + 1.2, draw: func(s *Sheet, at Point) {
		for i, l := range lines {
			s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText}, onSheet())
		}
	}}
}

// pair is a row of a table: what, and how much, set to the right.
func (t *typeface) pair(name, value string) blockRow {
	const gap = 2
	width := t.width(value, smallText, false)
	lines := t.wrapped(name, columnWidth-width-gap, smallText, false)
	return blockRow{height: textStep*float64(max(1, len(lines))) + 0.9, draw: func(s *Sheet, at Point) {
		for i, l := range lines {
			s.write(Point{at.X, at.Y - smallText - textStep*float64(i)}, words{text: l, height: smallText}, onSheet())
		}
		s.write(Point{at.X + columnWidth, at.Y - smallText}, words{text: value, height: smallText, align: atRight}, onSheet())
	}}
}

// legendBlock explains what occurs on the sheet, and nothing else.
func (t *typeface) legendBlock(l *legend, refs map[subject]string) block {
	b := block{title: "Legend"}
	const sampleWidth, gap = 11.0, 3.0
	for e := entry(0); e < entries; e++ {
		if !l.seen[e] {
			continue
		}
		lines := t.wrapped(e.text(refs), columnWidth-sampleWidth-gap, smallText, false)
		height := max(4.9, textStep*float64(len(lines))+1.1)
		// A tall sample stands in the middle of a row of its own height.
		const around = 0.5
		over := max(0, 2*e.reach()+around-height) / 2
		height += 2 * over
		b.rows = append(b.rows, blockRow{height: height, draw: func(s *Sheet, at Point) {
			at.Y -= over
			e.sample(s, Rect{at.X, at.Y - 4.4, at.X + sampleWidth, at.Y})
			for i, text := range lines {
				s.write(Point{at.X + sampleWidth + gap, at.Y - 3.4 - textStep*float64(i)}, words{text: text, height: smallText}, onSheet())
			}
		}})
	}
	for _, pair := range l.letters {
		b.rows = append(b.rows, blockRow{height: rowHeight, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - 3.4}, words{text: pair[0], height: smallText, bold: true}, onSheet())
			s.write(Point{at.X + sampleWidth + gap, at.Y - 3.4}, words{text: pair[1], height: smallText}, onSheet())
		}})
	}
	return b
}

// keyBlock names the rooms that carry a number.
func (t *typeface) keyBlock(k *roomKey) block {
	b := block{title: "Key to rooms"}
	const indent = 7.0
	for _, row := range k.rows {
		var lines []string
		current := ""
		for _, text := range row.text {
			if text == "" {
				continue
			}
			next := text
			if current != "" {
				next = current + ", " + text
			}
			if current != "" && t.width(next, smallText, false) > columnWidth-indent {
				lines = append(lines, current)
				next = text
			}
			current = next
		}
		lines = append(lines, current)
		b.rows = append(b.rows, blockRow{height: textStep*float64(len(lines)) + 1, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: row.number, height: smallText, bold: true}, onSheet())
			for i, l := range lines {
				s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(i)}, words{text: t.shortened(l, columnWidth-indent, smallText, false), height: smallText}, onSheet())
			}
		}})
	}
	return b
}
