package render

import (
	"cmp"
	"fmt"
	"slices"

	"moiety/plan"
)

// travel is a way out that is drawn, with its number.
type travel struct {
	plan.Travel
	tag string // T1, T2
}

// lifeSafetySheets draw what a fire officer looks for and nothing else: what
// separates the units with its rating, alarms, openings to escape by, ways in,
// and from each level of each unit the longest way out, with its length.
func (p *project) lifeSafetySheets() ([]*Sheet, error) {
	ways := p.longestWays()
	var level, turned []*planView
	for _, proposed := range p.proposed {
		f := proposed.withTurn(p.turn)
		f.plain, f.safety, f.travels = true, true, ways
		f.fixtures, f.section = nil, nil
		level = append(level, newPlanView(f, p.fonts, "life safety"))
		turned = append(turned, newPlanView(f.withTurn(p.turn+90), p.fonts, "life safety"))
	}
	if len(level) == 0 {
		return nil, nil
	}
	sheets := p.largest("Life safety", "Permit draft, life safety", planScales(p.m.imperial)[1:], p.travelNote(ways), level, turned)
	if sheets == nil {
		return nil, fmt.Errorf("render: the plans of life safety cannot be drawn on %s", p.paper.Name)
	}
	sheets[0].refer(safetyPlan)
	return sheets, nil
}

// longestWays are the longest ways to the outdoors that begin on each level of
// each unit, numbered by unit and level.
func (p *project) longestWays() []travel {
	type from struct {
		unit  string
		level int
	}
	longest := map[from]plan.Travel{}
	var order []from
	for _, t := range plan.Travels(p.s) {
		i := p.b.CellNamed(t.From)
		if t.To != plan.ToOutside || i < 0 || len(t.Legs) == 0 {
			continue
		}
		k := from{t.Unit, p.b.Cells[i].Level}
		if _, known := longest[k]; !known {
			order = append(order, k)
		}
		if t.LengthM > longest[k].LengthM {
			longest[k] = t
		}
	}
	levels := p.b.House.Levels
	slices.SortStableFunc(order, func(a, b from) int {
		return cmp.Or(cmp.Compare(a.unit, b.unit), cmp.Compare(levels[a.level].Floor, levels[b.level].Floor))
	})
	var out []travel
	for i, k := range order {
		out = append(out, travel{longest[k], numbered("T", i+1)})
	}
	return out
}

// travelNote says how the ways out were measured.
func (p *project) travelNote(ways []travel) []block {
	text := "Ways out run from the farthest place of a room, past walls and fixtures, along the slope of flights; of each unit the longest from each level is drawn. What is allowed, and every rating, is for the local authority to say."
	if len(ways) == 0 {
		text = "No way out was found on foot from any room. What is allowed, and every rating, is for the local authority to say."
	}
	return []block{{title: "Life safety", rows: []blockRow{p.fonts.paragraph(text, 0)}}}
}

// say is a way out in words.
func (w travel) say(p *plot) string {
	i := p.b.CellNamed(w.From)
	c := &p.b.Cells[i]
	room := c.Name
	if room == "" {
		room = useName(c.Use)
	}
	text := fmt.Sprintf("unit %s, %s: from %s to the outdoors, %s", w.Unit, levelTitle(p.b.House.Levels[c.Level]), room, p.m.run(w.LengthM))
	if w.Garage {
		text += ", through a garage"
	}
	return text
}

// layTravels marks where each way out begins, with its number and length, and
// has labels keep clear of its line.
func (p *plot) layTravels() {
	for _, w := range p.travels {
		for i, leg := range w.Legs {
			if leg.Level != p.level {
				continue
			}
			for k := 0; k+1 < len(leg.Points); k++ {
				p.faint = append(p.faint, hindrance(p.view.Paper(leg.Points[k]), p.view.Paper(leg.Points[k+1])))
			}
			if i > 0 || len(leg.Points) == 0 || p.piece != nil && !p.piece.owns(p.turnedPoint(leg.Points[0])) {
				continue
			}
			text := w.tag + "  " + p.m.run(w.LengthM)
			put := func(at Point, place Rect) {
				p.sheet.both(layerSign, white, line(thin).dashedBy(travelDash), rectangle(place))
				p.sheet.write(Point{at.X, at.Y - smallText/2}, words{text: text, height: smallText, bold: true, align: atMiddle}, p.box(TagBox, ""))
				corners := place.corners()
				p.sheet.Boxes[len(p.sheet.Boxes)-1].Corners = corners
				p.taken = append(p.taken, obstacle(corners[:]))
			}
			start := p.view.Paper(leg.Points[0])
			half := func() float64 { return p.sheet.fonts.width(text, smallText, true)/2 + 1.2 }
			if !p.standNear(start, half(), tagHeight/2, p.indoors, put) && !p.standNear(start, half(), tagHeight/2, p.closeBy, put) {
				text = w.tag // its length is in the key
				p.standNear(start, half(), tagHeight/2, p.closeBy, put)
			}
		}
	}
}

// travelDash is the line of a way out: long dashes, unlike any other line of a
// plan.
var travelDash = []float64{4, 1.2}

// drawTravels draws the ways out, broken where they would cross lettering,
// with a dot where one begins and an arrow where it leaves the level.
func (p *plot) drawTravels() {
	window := p.window()
	for _, w := range p.travels {
		for i, leg := range w.Legs {
			if leg.Level != p.level || len(leg.Points) < 2 {
				continue
			}
			points := make([]Point, len(leg.Points))
			for k, q := range leg.Points {
				points[k] = p.view.Paper(q)
			}
			for k := 0; k+1 < len(points); k++ {
				a, b, ok := clip(points[k], points[k+1], window)
				if !ok {
					continue
				}
				for _, piece := range p.clearOfText(a, b) {
					p.sheet.stroke(layerSign, line(medium).dashedBy(travelDash), polyline(piece[0], piece[1]))
				}
			}
			last := len(points) - 1
			if i == 0 {
				p.sheet.fill(layerSign, black, circle(points[0], 0.9))
			}
			if leaves := i+1 == len(w.Legs) || w.Legs[i+1].Level != p.level; leaves && within(points[last], rectRing(window)) {
				p.sheet.fill(layerSign, black, arrowHead(points[last], points[last].sub(points[last-1]).unit()))
			}
			p.legend.add(entryTravel)
			p.legend.travel([2]string{w.tag, w.say(p)})
		}
	}
}

func rectRing(r Rect) []Point {
	q := r.corners()
	return q[:]
}
