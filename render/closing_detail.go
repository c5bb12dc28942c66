package render

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan"
)

// closingBlocks are the details of what a scheme closes for good: doors that
// are sealed and flights that are closed off. How they are built is common
// practice, no source; the build-up they have to go on in is the scheme's.
func (p *project) closingBlocks(scale Scale) []block {
	var out []block
	var doors, flights []plan.Passage
	for _, q := range p.s.Passages {
		switch {
		case q.State != plan.Sealed:
		case q.Door != nil:
			doors = append(doors, q)
		case q.Type == "stair":
			flights = append(flights, q)
		}
	}
	if len(doors) > 0 {
		out = append(out, p.sealedDoorBlock(doors, scale))
	}
	if len(flights) > 0 {
		out = append(out, p.closedFlightBlock(flights, scale))
	}
	return out
}

// closedWall is the wall that a passage is closed with, or that it lies in: its
// thickness in metres, and its build-up.
func (p *project) closedWall(q plan.Passage) (thickness float64, tag string) {
	for _, r := range p.s.Walls {
		same := r.Between == q.Between || r.Between == [2]string{q.Between[1], q.Between[0]}
		if same && r.Level == q.Level && r.Thickness > 0 && r.State != plan.Removed {
			thickness = r.Thickness
			if own := p.buildUps.known[r.BuildUp]; own != nil {
				if r.State == plan.New {
					thickness = own.Assembly.Thickness()
				}
				return thickness, r.BuildUp
			}
		}
	}
	if thickness == 0 {
		thickness = thinWall
	}
	return thickness, ""
}

// closings names the rooms on both sides of some passages.
func (p *project) closings(list []plan.Passage) string {
	tags := doorTags(p.s)
	var names []string
	for _, q := range list {
		name := p.named(q.Between[0]) + " / " + p.named(q.Between[1])
		if i := slices.IndexFunc(p.s.Passages, func(o plan.Passage) bool { return o.Of == q.Of && o.Level == q.Level && o.Door != nil }); i >= 0 && q.Door != nil && tags[i] != "" {
			name = fmt.Sprintf("%s, %s wide: %s", tags[i], p.m.dimension(q.Line.Length()), name)
		}
		names = append(names, name)
	}
	return strings.Join(names, "; ")
}

// keyed lists what the numbers of a detail stand for.
func (t *typeface) keyed(texts []string) []blockRow {
	var rows []blockRow
	const indent = 5.0
	for i, text := range texts {
		lines := t.wrapped(t.legible(text), columnWidth-indent, smallText, false)
		rows = append(rows, blockRow{height: textStep*float64(len(lines)) + 0.8, draw: func(s *Sheet, at Point) {
			s.write(Point{at.X, at.Y - smallText}, words{text: fmt.Sprint(i + 1), height: smallText, bold: true}, onSheet())
			for k, l := range lines {
				s.write(Point{at.X + indent, at.Y - smallText - textStep*float64(k)}, words{text: l, height: smallText}, onSheet())
			}
		}})
	}
	return rows
}

// point letters a number at a place, with a line to what it stands for.
func (s *Sheet) point(n int, at, to Point) {
	text := fmt.Sprint(n)
	width := s.fonts.width(text, smallText, true)
	end := at.add(Point{0, smallText + 0.6})
	if to.Y < at.Y {
		end = at.sub(Point{0, 0.6})
	}
	s.stroke(layerSign, line(hair), polyline(to, end))
	s.fill(layerSign, black, circle(to, 0.35))
	s.write(Point{at.X - width/2, at.Y}, words{text: text, height: smallText, bold: true}, onSheet())
}

// boardDepth is that of the boards drawn on a closed opening, metres: 15.9 mm,
// Type X.
const boardDepth = 0.0159

// sealedDoorBlock is a level section through a door that is sealed: the wall's
// frame goes on through the opening and its boards over it without a joint.
func (p *project) sealedDoorBlock(doors []plan.Passage, scale Scale) block {
	deep, tag := p.closedWall(doors[0])
	k := scale.MMPerMetre()
	wall, board := deep*k, max(boardDepth*k, 0.9)
	height := wall + 2*board + 15
	b := block{title: "Sealed door, plan section"}
	b.rows = append(b.rows, blockRow{height: height, draw: func(s *Sheet, at Point) {
		x0, x1 := at.X+2, at.X+columnWidth-2
		j0, j1 := x0+13, x1-13 // jambs; the opening is shortened
		y0 := at.Y - 7 - board - wall
		y1 := y0 + wall
		for _, r := range []Rect{{x0, y0, j0, y1}, {j1, y0, x1, y1}} {
			s.both(layerWall, wallGrey, line(thin), rectangle(r))
		}
		stud := min(0.038*k, 4)
		for _, x := range []float64{j0 + 0.6, (j0 + j1 - stud) / 2, j1 - 0.6 - stud} {
			r := Rect{x, y0, x + stud, y1}
			s.both(layerHatch, white, line(thick), rectangle(r))
			q := r.corners()
			s.stroke(layerHatch, line(hair), together(polyline(q[0], q[2]), polyline(q[1], q[3])))
		}
		for _, bay := range [][2]float64{{j0 + 0.6 + stud, (j0 + j1 - stud) / 2}, {(j0 + j1 + stud) / 2, j1 - 0.6 - stud}} {
			q := Rect{bay[0], y0, bay[1], y1}.corners()
			s.stroke(layerHatch, line(hair), hatch([][]Point{q[:]}, hatchInfill...))
		}
		for _, x := range []float64{j0, j1 - 0.6} { // seals at the jambs
			s.fill(layerFace, black, rectangle(Rect{x, y0, x + 0.6, y1}))
		}
		for _, r := range []Rect{{x0, y1, x1, y1 + board}, {x0, y0 - board, x1, y0}} {
			s.both(layerFace, white, line(thick), rectangle(r))
		}
		s.point(1, Point{x0 + 6, at.Y - 3.6}, Point{x0 + 6, y1 - wall*0.3})
		s.point(2, Point{(j0 + j1) / 2, at.Y - 3.6}, Point{(j0 + j1) / 2, y1 - wall*0.3})
		s.point(3, Point{j0 + 11, y0 - board - 4.6}, Point{j0 + 11, y0 - board/2})
		s.point(4, Point{j1 - 0.3, y0 - board - 4.6}, Point{j1 - 0.3, y0 + wall*0.3})
	}})
	as := "the boards of the wall on both faces"
	if tag != "" {
		as = "the boards of " + tag + " on both faces"
	}
	b.rows = append(b.rows, p.fonts.keyed([]string{
		"wall that stands, " + p.m.thickness(deep) + "; door, frame and trim taken out, the threshold too",
		"frame as deep as the wall's, fixed to sound studs at jambs, head and floor; filled with mineral wool",
		as + ", over the jambs without a joint there, joints staggered and taped",
		"seal that keeps fire and sound all around: jambs, head and floor",
	})...)
	b.rows = append(b.rows, p.fonts.paragraph("Here: "+p.fonts.legible(p.closings(doors))+". Common practice, no source; the rating is for licensed practice to confirm.", 0))
	return b
}

// closedFlightBlock is an upright section through the end of a flight that is
// closed off: a wall on the floor before it, and what seals the flight itself.
func (p *project) closedFlightBlock(flights []plan.Passage, scale Scale) block {
	deep, tag := p.closedWall(flights[0])
	k := scale.MMPerMetre()
	wall := deep * k
	const rise, going, steps = 4.4, 5.6, 4 // of the flight, not to scale
	height := rise*steps + 26
	b := block{title: "Closed-off flight, section"}
	b.rows = append(b.rows, blockRow{height: height, draw: func(s *Sheet, at Point) {
		foot := Point{at.X + 4, at.Y - height + 5}
		top := foot.add(Point{going * (steps - 1), rise * steps})
		outline := []Point{foot}
		for i := range steps {
			outline = append(outline, foot.add(Point{going * float64(i), rise * float64(i+1)}))
			if i < steps-1 {
				outline = append(outline, foot.add(Point{going * float64(i+1), rise * float64(i+1)}))
			}
		}
		soffit := []Point{top.sub(Point{0, 6}), foot.add(Point{going * 1.3, 0})}
		s.both(layerFlight, white, line(medium), polygon(append(slices.Clone(outline), soffit...)...))
		// The lining under the flight.
		u := soffit[0].sub(soffit[1]).unit()
		n := u.left().times(-1.3)
		s.both(layerFace, white, line(thick), polygon(soffit[1], soffit[0], soffit[0].add(n), soffit[1].add(n)))
		// The floor before the flight's head, the gap, and the new wall on it.
		const gap = 1.2
		floor := Rect{top.X + gap, top.Y - 5, at.X + columnWidth - 3, top.Y}
		s.both(layerWall, wallGrey, line(thin), rectangle(floor))
		s.fill(layerFace, black, rectangle(Rect{top.X, top.Y - 5, top.X + gap, top.Y}))
		r := Rect{top.X + gap + 1, top.Y, top.X + gap + 1 + wall, at.Y - 8}
		q := r.corners()
		s.both(layerHatch, white, line(thin), rectangle(r))
		s.stroke(layerHatch, line(thin), hatch([][]Point{q[:]}, hatchSeparating...))
		s.stroke(layerFace, line(heavy), together(polyline(q[0], q[3]), polyline(q[1], q[2])))
		s.point(1, Point{r.X0 + wall/2, at.Y - 5}, Point{r.X0 + wall/2, r.Y1 - 1.5})
		s.point(2, Point{top.X - 5, r.Y1 - 3}, Point{top.X + gap/2, top.Y - 1.5})
		middle := soffit[0].add(soffit[1]).times(0.5).add(n.times(0.5))
		s.point(3, middle.add(Point{9, -6}), middle)
		s.point(4, foot.add(Point{going*0.5 - 2, rise * 3.2}), foot.add(Point{going * 1.5, rise*2 - 1}))
	}})
	as := "new separating wall"
	if tag != "" {
		as += " " + tag
	}
	b.rows = append(b.rows, p.fonts.keyed([]string{
		as + ", from the floor to the underside of what is above it, " + p.m.thickness(deep),
		"strings and treads cut free of the floor and the wall; the gap filled and sealed",
		"underside of the flight filled with mineral wool and lined with two sheets of Type X board",
		"treads stay as storage of the unit that has the flight, or are taken out",
	})...)
	b.rows = append(b.rows, p.fonts.paragraph("Here: "+p.fonts.legible(p.closings(flights))+". The flight is not drawn to scale. Common practice, no source; the rating is for licensed practice to confirm.", 0))
	return b
}
