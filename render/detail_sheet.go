package render

import (
	"fmt"
	"strings"

	"github.com/tdewolff/canvas"

	"moiety/plan"
)

// Scales of details, largest first: ISO 5455, 5.1, and the architect's scales
// of North American practice (common practice, no source).
var (
	detailScales         = []Scale{{10, "1:10"}, {20, "1:20"}, {50, "1:50"}}
	imperialDetailScales = []Scale{{12, `1" = 1'-0"`}, {24, `1/2" = 1'-0"`}, {48, `1/4" = 1'-0"`}}
)

// detailWidth is the most that a build-up may take across its layers beside
// their numbers, millimetres.
const detailWidth = 42.0

// detailScale is the largest scale at which every build-up fits its column.
func (p *project) detailScale() Scale {
	scales := detailScales
	if p.m.imperial {
		scales = imperialDetailScales
	}
	thickest := 0.0
	for i := range p.s.BuildUps {
		thickest = max(thickest, p.s.BuildUps[i].Assembly.Thickness())
	}
	for _, s := range scales {
		if thickest*s.MMPerMetre() <= detailWidth {
			return s
		}
	}
	return scales[len(scales)-1]
}

// detailStrip is how much of a build-up is drawn across its layers, millimetres.
const detailStrip = 34.0

// detailSheets draws every separating build-up layer by layer to scale, with
// its ratings, their source, and the notes to its edges.
func (p *project) detailSheets() ([]*Sheet, error) {
	if len(p.s.BuildUps) == 0 {
		return nil, nil
	}
	scale := p.detailScale()
	var blocks []block
	for i := range p.s.BuildUps {
		blocks = append(blocks, p.detailBlock(&p.s.BuildUps[i], scale))
	}
	blocks = append(blocks, p.closingBlocks(scale)...)
	blocks = append(blocks, p.detailNotes())
	var sheets []*Sheet
	for rest := blocks; rest != nil; {
		title := "Separating build-ups"
		if len(sheets) > 0 {
			title += ", continued"
		}
		s := newSheet(p.fonts, p.paper, "", title)
		s.Scale, s.kind = scale, "Permit draft, details"
		left := s.flow(rest, p.paper.columnsOnly())
		if len(left) == len(rest) && len(left) > 0 && len(left[0].rows) == len(rest[0].rows) {
			return nil, fmt.Errorf("render: build-up %s does not fit on %s", rest[0].title, p.paper.Name)
		}
		sheets = append(sheets, s)
		rest = left
	}
	return sheets, nil
}

// detailBlock is one build-up: its section, its layers from the first face, or
// from the top, its ratings and its notes.
func (p *project) detailBlock(up *plan.BuildUp, scale Scale) block {
	kind := "floor"
	if up.LengthM > 0 || strings.HasPrefix(up.Tag, "SW") {
		kind = "wall"
	}
	b := block{title: fmt.Sprintf("%s, %s, %s", up.Tag, kind, p.m.thickness(up.Assembly.Thickness())), subject: buildUpDetails}
	b.rows = append(b.rows, p.detailRow(up, scale, kind == "wall"))
	say := func(text string, indent float64) {
		b.rows = append(b.rows, p.fonts.paragraph(p.fonts.legible(text), indent))
	}
	for i, l := range up.Layers {
		text := fmt.Sprintf("%d  %s", i+1, l.Layer)
		if l.State == plan.New {
			text += ", new"
		} else {
			text += ", as it stands"
		}
		say(text, 0)
	}
	for _, l := range up.Removed {
		say("Taken off before: "+l.String(), 0)
	}
	rating := up.Assembly.Rating
	say("Rating: "+ratings(up)+".", 0)
	if up.Shortfall != "" {
		say("DOES NOT REACH what is asked: "+up.Shortfall, 0)
	}
	if how := rating.How; how != "" {
		if rating.Source.Standard != "" {
			how += "; " + rating.Source.String()
		}
		say(how, 0)
	}
	for _, n := range [...][2]string{{"Head", up.Head}, {"Base", up.Base}, {"Junctions", up.Junction}, {"What passes through", up.Penetrations}} {
		if n[1] != "" {
			say(n[0]+": "+n[1], 0)
		}
	}
	return b
}

// detailRow draws the section of a build-up: a wall as on a plan, its first
// face to the left, a floor upright.
func (p *project) detailRow(up *plan.BuildUp, scale Scale, wall bool) blockRow {
	k := scale.MMPerMetre()
	thick := up.Assembly.Thickness() * k
	strip := max(detailStrip, 3.8*float64(len(up.Layers))+4) // as high as the numbers beside it
	height := strip + 8
	if !wall {
		height = thick + 8
	}
	return blockRow{height: height, draw: func(s *Sheet, at Point) {
		origin := Point{at.X + min(10, (columnWidth-thick-14)/2), at.Y - height + 2}
		if !wall {
			origin.X = at.X + 10
		}
		// place gives a point so far from the first face and along the strip.
		place := func(off, along float64) Point {
			if wall {
				return origin.add(Point{off, along})
			}
			return origin.add(Point{along, thick - off})
		}
		along := strip
		if !wall {
			along = columnWidth - 16
		}
		off, frame := 0.0, [2]float64{}
		for i, l := range up.Layers {
			depth := l.Thickness * k
			from := off
			if isFill(string(l.Material)) {
				from = frame[0]
				depth = min(depth, frame[1]-frame[0])
			} else {
				off += depth
			}
			a, c := place(from, 0), place(from+depth, along)
			r := Rect{min(a.X, c.X), min(a.Y, c.Y), max(a.X, c.X), max(a.Y, c.Y)}
			drawLayer(s, string(l.Material), r, wall, l.Spacing*k, l.State == plan.New)
			if !isFill(string(l.Material)) {
				frame = [2]float64{from, from + depth}
			}
			number := fmt.Sprint(i + 1)
			p.numberLayer(s, number, i, r, wall, origin, thick, along)
		}
		s.stroke(layerFace, line(thin), rectangle(bounds2(place(0, 0), place(thick, along))))
	}}
}

// numberLayer puts the number of a layer outside the section, with a line to it;
// numbers of thin layers that follow one another stand in turn farther out.
func (p *project) numberLayer(s *Sheet, number string, i int, r Rect, wall bool, origin Point, thick, along float64) {
	width := p.fonts.width(number, smallText, true)
	tip := r.centre()
	if wall {
		x := origin.X + thick + 4 + float64(i%2)*4.4
		y := origin.Y + along - 2.2 - float64(i)*3.8
		tip.Y = y + smallText/2
		s.stroke(layerSign, line(hair), polyline(tip, Point{x - 0.6, tip.Y}))
		s.fill(layerSign, black, circle(tip, 0.35))
		s.write(Point{x, y}, words{text: number, height: smallText, bold: true}, onSheet())
		return
	}
	x := origin.X + 4 + float64(i)*5.2
	tip.X = x + width/2
	s.stroke(layerSign, line(hair), polyline(tip, Point{tip.X, origin.Y + thick + 0.8}))
	s.fill(layerSign, black, circle(tip, 0.35))
	s.write(Point{x, origin.Y + thick + 1.2}, words{text: number, height: smallText, bold: true}, onSheet())
}

func bounds2(a, b Point) Rect {
	return Rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
}

// isFill tells whether a material lies in the frame before it.
func isFill(material string) bool { return strings.Contains(material, "batts") }

// drawLayer draws one layer in section with the mark of its material: boards
// plain, framing crossed, batts in loops, panels hatched. New ones have heavy
// outlines.
func drawLayer(s *Sheet, material string, r Rect, upright bool, spacing float64, fresh bool) {
	outline := line(thin)
	if fresh {
		outline = line(thick)
	}
	box := rectangle(r)
	q := r.corners()
	switch {
	case isFill(material):
		s.stroke(layerFixture, line(hair), loops(r, upright))
		return
	case strings.Contains(material, "studs") || strings.Contains(material, "joists"):
		const member = 3.8 // 38 mm at 1:10
		if spacing < member {
			spacing = 40
		}
		length := r.width()
		if upright {
			length = r.height()
		}
		for at := spacing / 4; at+member < length; at += spacing {
			m := Rect{r.X0 + at, r.Y0, r.X0 + at + member, r.Y1}
			if upright {
				m = Rect{r.X0, r.Y0 + at, r.X1, r.Y0 + at + member}
			}
			c := m.corners()
			s.both(layerFace, white, outline, rectangle(m))
			s.stroke(layerFace, line(hair), together(polyline(c[0], c[2]), polyline(c[1], c[3])))
		}
		return
	case strings.Contains(material, "channel"):
		step := 8.0
		length := r.width()
		if upright {
			length = r.height()
		}
		for at := step / 2; at < length; at += 2 * step {
			if upright {
				s.stroke(layerFace, outline, polyline(Point{r.X0, r.Y0 + at}, Point{r.X1, r.Y0 + at + 1.5}, Point{r.X1, r.Y0 + at + 3.5}))
			} else {
				s.stroke(layerFace, outline, polyline(Point{r.X0 + at, r.Y1}, Point{r.X0 + at + 1.5, r.Y0}, Point{r.X0 + at + 3.5, r.Y0}))
			}
		}
		return
	case strings.Contains(material, "air"):
		return
	case strings.Contains(material, "gypsum"):
		s.both(layerFace, white, outline, box)
	case strings.Contains(material, "concrete"), strings.Contains(material, "masonry"), strings.Contains(material, "slab"):
		s.both(layerFace, wallGrey, outline, box)
	default:
		s.both(layerFace, white, outline, box)
		s.stroke(layerOpening, line(hair), hatch([][]Point{q[:]}, hatching{45, 1.0}))
	}
}

// detailNotes says what holds of all details.
func (p *project) detailNotes() block {
	b := block{title: "Notes"}
	say := func(text string) { b.rows = append(b.rows, p.fonts.paragraph(text, 0)) }
	say("A wall is drawn as on the plans, its first face to the left; a floor upright. New layers have heavy outlines.")
	say("Existing layers are taken as the trade commonly built them: open the wall or floor and look before any work.")
	say("Ratings are those of specimens in a laboratory; fasteners, joints, edges and whatever passes through decide what is reached. Licensed practice and the local building authority decide what is accepted.")
	return b
}

// loops is the mark of batts: a line that winds between the faces of the frame.
func loops(r Rect, upright bool) *canvas.Path {
	step := 2.4
	length, deep := r.width(), r.height()
	if upright {
		length, deep = deep, length
	}
	inset := deep * 0.06
	var points []Point
	for i, at := 0, 0.0; at <= length; i, at = i+1, at+step {
		off := inset
		if i%2 == 1 {
			off = deep - inset
		}
		if upright {
			points = append(points, Point{r.X0 + off, r.Y0 + at})
		} else {
			points = append(points, Point{r.X0 + at, r.Y0 + off})
		}
	}
	return polyline(points...)
}
