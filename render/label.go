package render

import (
	"fmt"
	"math"
	"strings"

	"moiety/geom"
	"moiety/plan"
)

// label is a block of lines for a room.
type label struct {
	lines []labelLine
	badge plan.Owner // whose room it is, drawn before the first line; Nobody for none
}

type labelLine struct {
	text   string
	height float64
	bold   bool
}

// Spacing of lettering, as parts of the height of capitals.
const lineStep = 1.6

// badge of a unit, millimetres.
const (
	badgeSize = 4.2
	badgeGap  = 1.2
)

// size is the place that a label takes.
func (t *typeface) labelSize(l label) (width, height float64) {
	for i, line := range l.lines {
		w := t.width(line.text, line.height, line.bold)
		if i == 0 {
			if l.hasBadge() {
				w += badgeSize
				if line.text != "" {
					w += badgeGap
				}
			}
			height += line.height * (1 + descent)
			if l.hasBadge() {
				height = max(height, badgeSize)
			}
		} else {
			height += line.height * lineStep
		}
		width = max(width, w)
	}
	return width, height
}

func (l label) hasBadge() bool { return l.badge == plan.UnitA || l.badge == plan.UnitB }

// drawLabels letters every room. Those in which not even a number finds place
// come last: their number stands in another room, beside its own label.
func (p *plot) drawLabels() {
	for _, r := range p.rooms {
		if r.mine {
			p.labelRoom(r)
		}
	}
	for _, r := range p.outdoors {
		if r.mine && p.structure(r.cell) && p.beside(r.cell) {
			p.labelRoom(r)
		}
	}
	p.leadNumbers()
}

// leadNumbers puts the numbers that found no place in their own room.
func (p *plot) leadNumbers() {
	for _, put := range p.outside {
		put()
	}
	p.outside = nil
}

// nameSize is the height of room names at a scale.
func (v View) nameSize() float64 {
	const largeScale = 64 // and larger: 1:50, 1/4 in
	if v.Scale.Ratio <= largeScale {
		return roomText
	}
	return smallText
}

// labelRoom letters one room with as much as finds place: name, clear size,
// area and ceiling height; then less; then turned to read from the right;
// at last a number, explained beside the plan.
//
// A room that a match line cuts is labelled where most of it lies, and on the
// other side too if its label finds place there.
func (p *plot) labelRoom(r room) {
	region := p.b.Cells[r.cell].Region
	if p.piece == nil {
		p.labelIn(r, region, true)
		return
	}
	if piece, most := p.piece.pieceOf(region, p.turn); len(piece.Outer) > 0 {
		p.labelIn(r, piece, most)
	}
}

// labels lists the labels that a room may get, fullest first.
func (p *plot) labels(r room) []label {
	names := p.roomNames(r.cell)
	size, area, ceiling := p.roomSize(r.cell), p.roomArea(r.cell), p.roomCeiling(r.cell)
	if p.safety {
		size, area, ceiling = "", "", ""
	}
	big := p.view.nameSize()
	badge := plan.Nobody
	if p.s != nil && p.unit == "" {
		badge = r.owner
	}
	build := func(height float64, names []string, rest ...string) label {
		l := label{badge: badge}
		for i, n := range names {
			h := height
			if i > 0 {
				h = smallText
			}
			l.lines = append(l.lines, labelLine{n, h, i == 0})
		}
		for _, t := range rest {
			if t != "" {
				l.lines = append(l.lines, labelLine{t, smallText, false})
			}
		}
		return l
	}
	var all []label
	heights := []float64{big}
	if big > smallText {
		heights = append(heights, smallText)
	}
	for _, h := range heights {
		all = append(all, build(h, names, size, area, ceiling))
	}
	for _, rest := range [][]string{{size, area}, {area}, nil} {
		all = append(all, build(smallText, names, rest...))
		if badge == plan.UnitA || badge == plan.UnitB {
			all = append(all, build(smallText, append([]string{""}, names...), rest...).bolder(1))
		}
		if broken := p.sheet.fonts.halved(names[0], smallText, true); broken != nil {
			l := build(smallText, nil)
			for _, part := range broken {
				l.lines = append(l.lines, labelLine{part, smallText, true})
			}
			l.lines = append(l.lines, build(smallText, names[1:]).regular()...)
			l.lines = append(l.lines, build(smallText, nil, rest...).lines...)
			all = append(all, l)
		}
	}
	if len(names) > 1 { // what it was stands on the plan as existing
		all = append(all, build(smallText, names[:1], area), build(smallText, names[:1]))
	}
	return all
}

// bolder makes a line of a label bold: the name under a badge of its own line.
func (l label) bolder(i int) label {
	l.lines[i].bold = true
	return l
}

func (l label) regular() []labelLine {
	for i := range l.lines {
		l.lines[i].bold = false
	}
	return l.lines
}

// halved breaks a name of several words into two lines as even as can be.
func (t *typeface) halved(name string, height float64, bold bool) []string {
	wordsOf := strings.Fields(name)
	if len(wordsOf) < 2 {
		return nil
	}
	var best []string
	least := math.Inf(1)
	for i := 1; i < len(wordsOf); i++ {
		a, b := strings.Join(wordsOf[:i], " "), strings.Join(wordsOf[i:], " ")
		if w := max(t.width(a, height, bold), t.width(b, height, bold)); w < least {
			best, least = []string{a, b}, w
		}
	}
	return best
}

// roomNames is the name of a room, and what it was where a scheme changes its use.
func (p *plot) roomNames(cell int) []string {
	c := &p.b.Cells[cell]
	name := p.sheet.fonts.legible(c.Name)
	if name == "" {
		name = useName(c.Use)
	}
	if u := p.use(cell); u != c.Use {
		return []string{useName(u), "was " + name}
	}
	return []string{name}
}

// useName is a use in words.
func useName(u plan.Use) string {
	s := strings.ReplaceAll(string(u), "_", " ")
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (p *plot) roomSize(cell int) string {
	if c := &p.b.Cells[cell]; c.Outdoor && c.Use != plan.Parking && c.Use != plan.Drive && !p.structure(cell) {
		return "" // ground has no clear size
	}
	w, h := clearSize(p.b.Cells[cell].Region, p.turn)
	if w <= 0 || h <= 0 {
		return ""
	}
	return p.m.size(w, h)
}

// roomArea is the area of a room; of the public way only a part was surveyed.
func (p *plot) roomArea(cell int) string {
	if p.b.Cells[cell].Public {
		return ""
	}
	return p.m.area(p.b.Cells[cell].AreaM2)
}

// roomCeiling is the height of a room, and its floor where that is not the level's.
func (p *plot) roomCeiling(cell int) string {
	c := &p.b.Cells[cell]
	var parts []string
	if h := c.Ceiling - c.Floor; h > 0 && p.s == nil && math.Abs(h-p.b.House.Levels[p.level].Height) > geom.Coincide {
		parts = append(parts, "ceiling "+p.m.length(h))
	}
	if d := c.Floor - p.b.House.Levels[p.level].Floor; math.Abs(d) > geom.Coincide && !c.Outdoor {
		parts = append(parts, "floor "+p.m.elevation(c.Floor))
	}
	return strings.Join(parts, ", ")
}

// putLabel letters a label with its middle at q, level or reading from the right.
func (p *plot) putLabel(l label, q Point, turn float64, cell string) {
	width, height := p.sheet.fonts.labelSize(l)
	p.sheet.parts++
	part := fmt.Sprintf("label %d", p.sheet.parts)
	place := func(x, y float64) Point { return q.add(Point{x, y}.turned(turn)) }
	top := height / 2
	for i, line := range l.lines {
		w := p.sheet.fonts.width(line.text, line.height, line.bold)
		x := -w / 2
		switch {
		case i > 0:
			top -= line.height * lineStep
		case l.hasBadge():
			whole := badgeSize
			if line.text != "" {
				whole += badgeGap + w
			}
			x = -whole/2 + whole - w
			first := max(line.height*(1+descent), badgeSize)
			middle := top - first/2
			p.putBadge(place(-whole/2+badgeSize/2, middle), l.badge, turn, cell, part)
			top = middle - line.height/2
		default:
			top -= line.height
		}
		box := p.box(TextBox, cell)
		box.Part = part
		p.sheet.write(place(x, top), words{text: line.text, height: line.height, bold: line.bold, turn: turn}, box)
	}
	w, h := width, height
	if turn != 0 {
		w, h = h, w
	}
	taken := Rect{q.X - w/2, q.Y - h/2, q.X + w/2, q.Y + h/2}.corners()
	p.taken = append(p.taken, obstacle(taken[:]))
}

// putBadge draws whose a room is: A in a circle, B in a square.
func (p *plot) putBadge(c Point, owner plan.Owner, turn float64, cell, part string) {
	letter := owner.String()
	r := Rect{c.X - badgeSize/2, c.Y - badgeSize/2, c.X + badgeSize/2, c.Y + badgeSize/2}
	shape := rectangle(r)
	if owner == plan.UnitA {
		shape = circle(c, badgeSize/2)
	}
	p.sheet.both(layerSign, white, line(medium), shape)
	at := c.add(Point{-p.sheet.fonts.width(letter, smallText, true) / 2, -smallText / 2}.turned(turn))
	box := p.box(TagBox, cell)
	box.Part = part
	p.sheet.write(at, words{text: letter, height: smallText, bold: true, turn: turn}, box)
	p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = r.corners()
}
