package render

import (
	"fmt"
	"strings"

	"moiety/plan"
)

// roomKey lists the rooms that are too small for their label, by number.
type roomKey struct {
	rows []keyRow
}

type keyRow struct {
	number string
	text   []string
}

func (k *roomKey) add(texts []string) string {
	n := fmt.Sprint(len(k.rows) + 1)
	k.rows = append(k.rows, keyRow{n, texts})
	return n
}

// Number of a room explained beside the plan, millimetres.
const numberRadius = 2.4

// numberRoom puts a number into a room, and its label into the key.
func (p *plot) numberRoom(r room, rings [][]Point, spots []Point) {
	c := &p.b.Cells[r.cell]
	texts := append([]string{strings.Join(p.roomNames(r.cell), ", ")}, p.roomSize(r.cell), p.roomArea(r.cell), p.roomCeiling(r.cell))
	if p.s != nil && p.unit == "" && (r.owner == plan.UnitA || r.owner == plan.UnitB) {
		texts[0] += " (" + r.owner.String() + ")"
	}
	number := fmt.Sprint(len(p.key.rows) + 1)
	width := p.sheet.fonts.width(number, smallText, true)
	circled := 2 * numberRadius
	for _, q := range spots {
		near := Rect{q.X, q.Y, q.X, q.Y}.grown(circled / 2)
		if insideRegion(near.grown(0.3).corners(), rings) && p.free(near.grown(0.3).corners()) && p.unlettered(near.corners()) {
			p.putNumber(q, p.key.add(texts), c.ID, true)
			return
		}
	}
	for _, q := range spots {
		near := Rect{q.X - width/2, q.Y - smallText/2, q.X + width/2, q.Y + smallText/2}
		if insideRegion(near.grown(0.3).corners(), rings) && p.free(near.grown(0.2).corners()) && p.unlettered(near.corners()) {
			p.putNumber(q, p.key.add(texts), c.ID, false)
			return
		}
	}
	p.outside = append(p.outside, func() { p.leadNumber(spots, texts) })
}

// leadNumber puts the number of a room in which nothing finds place on the
// free floor of another, or beside the house, with a line that leads to it. A
// room for which even that fails is still named in the key.
func (p *plot) leadNumber(spots []Point, texts []string) {
	to := spots[0]
	number := p.key.add(texts)
	for reach := 5.0; reach < 60; reach += 1.5 {
		for turn := 0.0; turn < 360; turn += 15 {
			q := to.add(Point{reach, 0}.turned(turn))
			near := Rect{q.X, q.Y, q.X, q.Y}.grown(numberRadius)
			if !p.tagFits(near, false) {
				continue
			}
			foot := q.add(to.sub(q).unit().times(numberRadius))
			if lead := hindrance(foot, to); p.overText([4]Point{lead[0], lead[1], lead[2], lead[3]}) {
				continue
			}
			p.sheet.stroke(layerSign, line(hair), polyline(foot, to))
			p.sheet.fill(layerSign, black, circle(to, 0.4))
			p.putNumber(q, number, "", true)
			p.taken = append(p.taken, hindrance(foot, to))
			return
		}
	}
}

func (p *plot) putNumber(q Point, number, cell string, circled bool) {
	width := p.sheet.fonts.width(number, smallText, true)
	kind, taken := TextBox, Rect{q.X - width/2, q.Y - smallText/2, q.X + width/2, q.Y + smallText/2}
	if circled {
		kind, taken = TagBox, Rect{q.X, q.Y, q.X, q.Y}.grown(numberRadius)
		p.sheet.both(layerSign, white, line(thin), circle(q, numberRadius))
	}
	if !circled && !p.unlettered(taken.corners()) {
		return // the key names the room
	}
	p.sheet.write(Point{q.X - width/2, q.Y - smallText/2}, words{text: number, height: smallText, bold: true}, p.box(kind, cell))
	corners := taken.corners()
	p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
	p.taken = append(p.taken, obstacle(corners[:]))
}
