package render

import (
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// Room of a section around the cut, millimetres.
const (
	sectionLeft  = 44.0 // for the names and heights of levels
	sectionRight = 20.0 // for the heights of storeys
	sectionFoot  = 16.0 // for the name of the drawing
	sectionEarth = 4.0  // of hatched ground under its line
)

// sectionView is an upright cut on its way to a sheet.
type sectionView struct {
	*project
	cut       plan.Section
	low, high float64 // elevations drawn
	ground    float64 // where nothing outdoors was surveyed along the line
	sheet     *Sheet
	scale     Scale
	at        Point // of the start of the line at elevation low
	legend    *legend
	key       *roomKey
}

// sectionSheets draws the section through the most telling line of the scheme.
func (p *project) sectionSheets() ([]*Sheet, error) {
	cut, ok := p.s.Section()
	if !ok {
		return nil, nil
	}
	p.section = cut
	v := &sectionView{project: p, cut: cut}
	v.reach()
	for _, scale := range planScales(p.m.imperial) {
		if sheets := v.sheets(scale); sheets != nil {
			return sheets, nil
		}
	}
	return nil, fmt.Errorf("render: the section does not fit on %s at any scale", p.paper.Name)
}

// reach works out the heights that are drawn.
func (v *sectionView) reach() {
	v.low, v.high = math.Inf(1), math.Inf(-1)
	for _, w := range v.cut.Walls {
		v.low, v.high = min(v.low, w.Low), max(v.high, w.High)
	}
	for _, r := range v.cut.Rooms {
		v.low, v.high = min(v.low, r.Floor), max(v.high, r.Ceiling)
	}
	v.ground = v.b.House.Grade
	for _, g := range v.cut.Ground {
		v.low, v.high = min(v.low, g.Elevation), max(v.high, g.Elevation)
	}
	v.low = min(v.low, v.ground)
}

func (v *sectionView) size(scale Scale) (width, height float64) {
	k := scale.MMPerMetre()
	foot := v.fonts.width(v.foot(scale), smallText, false)
	return max(v.cut.Line.Length()*k+sectionLeft+sectionRight, foot), (v.high-v.low)*k + sectionFoot + sectionEarth + 8
}

func (v *sectionView) foot(scale Scale) string {
	return scale.Text + ", seen from the arrows on the proposed plans"
}

// sheets draws the section at a scale; nil where it does not fit.
func (v *sectionView) sheets(scale Scale) []*Sheet {
	w, h := v.size(scale)
	comps := slices.DeleteFunc(v.paper.compositions(), func(c composition) bool { return w > c.drawing.width() || h > c.drawing.height() })
	if len(comps) == 0 {
		return nil
	}
	draw := func(places []Point) (*Sheet, []block) {
		s := newSheet(v.fonts, v.paper, "", "Section "+sectionName)
		s.Scale, s.kind = scale, "Permit draft, section"
		s.subjects = append(s.subjects, sectionCut)
		v.sheet, v.scale, v.legend, v.key = s, scale, &legend{}, &roomKey{}
		v.at = places[0].add(Point{sectionLeft, sectionFoot + sectionEarth})
		v.draw(places[0])
		s.place()
		var blocks []block
		if len(v.key.rows) > 0 {
			blocks = append(blocks, v.fonts.keyBlock(v.key))
		}
		blocks = append(blocks, v.fonts.legendBlock(v.legend, v.refs), v.notesBlock())
		return s, blocks
	}
	return v.beside(comps, scale.Ratio >= overflows, draw, func(c composition) []Point {
		return []Point{{c.drawing.X0 + (c.drawing.width()-w)/2, c.drawing.Y0 + (c.drawing.height()-h)/2}}
	})
}

// notesBlock says what a section through a survey cannot show.
func (v *sectionView) notesBlock() block {
	b := block{title: "Notes"}
	say := func(text string) { b.rows = append(b.rows, v.fonts.paragraph(text, 0)) }
	if v.m.imperial {
		say("Heights above the survey's datum, in feet and inches.")
	} else {
		say("Heights above the survey's datum, in metres; storeys in millimetres.")
	}
	say("The roof and the foundation were not surveyed: the section goes from the lowest floor to the highest ceiling.")
	say("What lies between a ceiling and the floor above it is drawn as deep as it is; what it is made of was not surveyed.")
	if slices.ContainsFunc(v.cut.Slabs, func(s plan.SectionSlab) bool { return s.Separating }) {
		say("Fire and sound rating of the separation: to the local code, by licensed practice, before any work.")
	}
	return b
}

// point is the place of a distance along the line and an elevation.
func (v *sectionView) point(along, elevation float64) Point {
	k := v.scale.MMPerMetre()
	return v.at.add(Point{along * k, (elevation - v.low) * k})
}

func (v *sectionView) rect(from, to, low, high float64) Rect {
	a, b := v.point(from, low), v.point(to, high)
	return Rect{a.X, a.Y, b.X, b.Y}
}

// draw draws the cut with its lower left corner at a place.
func (v *sectionView) draw(corner Point) {
	v.drawGround()
	for _, r := range v.cut.Rooms {
		v.drawRoom(r)
	}
	for _, f := range v.cut.Slabs {
		v.drawSlab(f)
	}
	for _, w := range v.cut.Walls {
		v.drawWall(w)
	}
	var taken [][4]Point
	for _, f := range v.cut.Flights {
		taken = append(taken, v.drawFlight(f)...)
	}
	for _, r := range v.cut.Rooms {
		v.labelRoom(r, taken)
	}
	v.drawLevels()
	v.drawStoreys()
	name := "Section " + sectionName
	s := v.sheet
	s.write(Point{corner.X, corner.Y + 7.4}, words{text: name, height: roomText, bold: true}, onSheet())
	s.stroke(layerSign, line(thick), polyline(Point{corner.X, corner.Y + 5.6}, Point{corner.X + max(s.fonts.width(name, roomText, true), 30), corner.Y + 5.6}))
	s.write(Point{corner.X, corner.Y + 1.6}, words{text: v.foot(v.scale), height: smallText}, onSheet())
}

func (v *sectionView) drawRoom(r plan.SectionRoom) {
	box := rectangle(v.rect(r.From, r.To, r.Floor, r.Ceiling))
	switch v.s.Owners[r.Cell] {
	case plan.UnitA:
		v.sheet.fill(layerTint, tintA, box)
		v.legend.add(entryUnitA)
	case plan.UnitB:
		v.sheet.fill(layerTint, tintB, box)
		v.legend.add(entryUnitB)
	case plan.Common:
		v.legend.add(entryCommon)
		q := v.rect(r.From, r.To, r.Floor, r.Ceiling).corners()
		v.sheet.fill(layerPattern, faint, dots([][]Point{q[:]}, nil))
	}
	v.sheet.stroke(layerFace, line(thick), polyline(v.point(r.From, r.Floor), v.point(r.To, r.Floor)))
	v.sheet.stroke(layerFace, line(thick), polyline(v.point(r.From, r.Ceiling), v.point(r.To, r.Ceiling)))
}

func (v *sectionView) drawSlab(f plan.SectionSlab) {
	r := v.rect(f.From, f.To, f.Low, f.High)
	q := r.corners()
	v.sheet.fill(layerWall, wallGrey, rectangle(r))
	if f.Separating {
		v.sheet.stroke(layerHatch, line(hair), hatch([][]Point{q[:]}, hatchUpgraded...))
		v.sheet.stroke(layerFace, line(heavy), polyline(q[0], q[1]))
		v.sheet.stroke(layerFace, line(heavy), polyline(q[3], q[2]))
		v.legend.add(entryCutFloor)
	}
}

func (v *sectionView) drawWall(w plan.SectionWall) {
	r := v.rect(w.From, w.To, w.Low, w.High)
	q := r.corners()
	sides := together(polyline(q[0], q[3]), polyline(q[1], q[2]))
	switch {
	case w.New:
		v.sheet.fill(layerWall, white, rectangle(r))
		v.sheet.stroke(layerHatch, line(thin), hatch([][]Point{q[:]}, hatchSeparating...))
		v.sheet.stroke(layerFace, line(heavy), sides)
		v.legend.add(entrySeparating)
	case w.Separating:
		v.sheet.fill(layerWall, wallGrey, rectangle(r))
		v.sheet.stroke(layerHatch, line(hair), hatch([][]Point{q[:]}, hatchUpgraded...))
		v.sheet.stroke(layerFace, line(heavy), sides)
		v.legend.add(entryUpgraded)
	default:
		v.sheet.fill(layerWall, wallGrey, rectangle(r))
		v.sheet.stroke(layerFace, line(thick), sides)
		v.legend.add(entryWall)
	}
}

// drawFlight draws a flight in its true rise and run, and gives what it takes.
// Where its risers were not counted it is a slope.
func (v *sectionView) drawFlight(f plan.SectionFlight) [][4]Point {
	outline := []Point{v.point(f.Foot, f.Low)}
	if f.Risers > 1 {
		rise, going := (f.High-f.Low)/float64(f.Risers), (f.Head-f.Foot)/float64(f.Risers-1)
		for i := range f.Risers {
			x := f.Foot + going*float64(i)
			outline = append(outline, v.point(x, f.Low+rise*float64(i+1)))
			if i < f.Risers-1 {
				outline = append(outline, v.point(x+going, f.Low+rise*float64(i+1)))
			}
		}
	} else {
		outline = append(outline, v.point(f.Head, f.High))
	}
	const deep = 0.25 // of the flight under its steps, metres; not surveyed
	soffit := []Point{v.point(f.Head, f.High-deep), v.point(f.Foot+(f.Head-f.Foot)*deep/max(f.High-f.Low, 2*deep), f.Low)}
	v.sheet.both(layerFlight, white, line(medium), polygon(append(slices.Clone(outline), soffit...)...))
	v.legend.add(entryCutFlight)
	a, b := v.point(f.Foot, f.Low), v.point(f.Head, f.High)
	n := b.sub(a).unit().left().times(1.5)
	return [][4]Point{{a.sub(n.times(3)), b.sub(n.times(3)), b.add(n), a.add(n)}}
}

// labelRoom letters a room's name, its unit and its ceiling height where they
// fit beside the flights, else a number that the key explains.
func (v *sectionView) labelRoom(r plan.SectionRoom, taken [][4]Point) {
	c := &v.b.Cells[r.Cell]
	if c.Flight {
		return
	}
	name := v.fonts.legible(c.Name)
	if name == "" {
		name = useName(v.s.Uses[r.Cell])
	}
	unit := ""
	if o := v.s.Owners[r.Cell]; o == plan.UnitA || o == plan.UnitB {
		unit = o.String() + " "
	}
	lines := []string{unit + name, "ceiling " + v.m.length(r.Ceiling-r.Floor)}
	box := v.rect(r.From, r.To, r.Floor, r.Ceiling).grown(-1.2)
	if !v.letter(r, lines, box, taken) {
		number := v.key.add([]string{lines[0], lines[1]})
		v.letter(r, []string{number}, box, taken)
		v.legend.add(entryNumber)
	}
}

// letter puts lines into a box, in the middle or, where something is in the
// way, higher or lower or to one side; false where there is no room.
func (v *sectionView) letter(r plan.SectionRoom, lines []string, box Rect, taken [][4]Point) bool {
	width, height := 0.0, float64(len(lines))*textStep
	for i, l := range lines {
		width = max(width, v.fonts.width(l, smallText, i == 0))
	}
	if width > box.width() || height > box.height() {
		return false
	}
	for _, fy := range []float64{0.5, 0.75, 0.25, 0.95, 0.05} {
		for _, fx := range []float64{0.5, 0.25, 0.75, 0, 1} {
			x, y := box.X0+fx*(box.width()-width), box.Y0+fy*(box.height()-height)
			quad := Rect{x, y, x + width, y + height}.corners()
			if slices.ContainsFunc(taken, func(t [4]Point) bool { return overlapQuads(quad, t) }) {
				continue
			}
			for i, l := range lines {
				at := Point{x + width/2, y + height - textStep*float64(i) - smallText - 0.5}
				v.sheet.write(at, words{text: l, height: smallText, bold: i == 0, align: atMiddle}, onSheet())
			}
			return true
		}
	}
	return false
}

// overlapQuads tells whether two convex quadrilaterals overlap.
func overlapQuads(a, b [4]Point) bool {
	for _, q := range [2][4]Point{a, b} {
		for i := range q {
			n := q[(i+1)%4].sub(q[i]).left()
			lo, hi := spanOn(a, n)
			from, to := spanOn(b, n)
			if hi <= from || to <= lo {
				return false
			}
		}
	}
	return true
}

func spanOn(q [4]Point, n Point) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	for _, p := range q {
		from, to = min(from, p.dot(n)), max(to, p.dot(n))
	}
	return from, to
}

// drawGround draws the line of the ground outside the house, hatched below,
// at the heights surveyed outdoors and at grade where nothing was.
func (v *sectionView) drawGround() {
	first, last := math.Inf(1), math.Inf(-1)
	for _, w := range v.cut.Walls {
		first, last = min(first, w.From), max(last, w.To)
	}
	length := v.cut.Line.Length()
	for _, side := range [2][2]float64{{0, first}, {last, length}} {
		at := side[0]
		var parts []plan.SectionGround
		for _, g := range v.cut.Ground {
			from, to := max(g.From, side[0]), min(g.To, side[1])
			if to-from < 0.05 {
				continue
			}
			if from > at+0.05 {
				parts = append(parts, plan.SectionGround{From: at, To: from, Elevation: v.ground})
			}
			parts = append(parts, plan.SectionGround{From: max(from, at), To: to, Elevation: g.Elevation})
			at = max(at, to)
		}
		if side[1] > at+0.05 {
			parts = append(parts, plan.SectionGround{From: at, To: side[1], Elevation: v.ground})
		}
		var profile []Point
		for _, g := range parts {
			a, b := v.point(g.From, g.Elevation), v.point(g.To, g.Elevation)
			profile = append(profile, a, b)
			earth := []Point{a, b, b.sub(Point{0, sectionEarth}), a.sub(Point{0, sectionEarth})}
			v.sheet.stroke(layerGround, line(hair), hatch([][]Point{earth}, hatching{45, 1.6}))
		}
		if len(profile) > 0 {
			v.sheet.stroke(layerFace, line(heavy), polyline(profile...))
			v.legend.add(entryCutGround)
		}
	}
}

// drawLevels marks the floor of each level cut, left of the section: its name
// and its elevation.
func (v *sectionView) drawLevels() {
	x := v.at.X - 3
	last := math.Inf(-1)
	for _, l := range v.levelsCut() {
		level := v.b.House.Levels[l]
		y := v.point(0, level.Floor).Y
		text := max(y, last+2*textStep+0.8)
		last = text
		tip := Point{x, y}
		v.sheet.stroke(layerSign, line(hair), polyline(Point{x - 6, y}, Point{v.at.X + 2, y}))
		v.sheet.fill(layerSign, black, polygon(tip, tip.add(Point{-1.4, 2}), tip.add(Point{1.4, 2})))
		if text > y+0.1 {
			v.sheet.stroke(layerSign, line(hair), polyline(Point{x - 6, y}, Point{x - 8, text}))
		}
		name := v.fonts.shortened(v.levelName(l), sectionLeft-14, smallText, false)
		v.sheet.write(Point{x - 9, text + 0.6}, words{text: v.m.elevation(level.Floor), height: smallText, bold: true, align: atRight}, onSheet())
		v.sheet.write(Point{x - 9, text + 0.6 + textStep}, words{text: name, height: smallText, align: atRight}, onSheet())
	}
}

// levelsCut are the levels of the rooms that the section runs through, from
// the lowest.
func (v *sectionView) levelsCut() []int {
	var out []int
	for _, r := range v.cut.Rooms {
		if l := v.b.Cells[r.Cell].Level; !slices.Contains(out, l) {
			out = append(out, l)
		}
	}
	sortLevels(out, v.b.House)
	return out
}

// drawStoreys gives the heights from floor to floor, and of the highest
// ceiling, right of the section.
func (v *sectionView) drawStoreys() {
	heights := []float64{v.high}
	for _, l := range v.levelsCut() {
		heights = append(heights, v.b.House.Levels[l].Floor)
	}
	slices.Sort(heights)
	heights = slices.CompactFunc(heights, func(a, b float64) bool { return math.Abs(b-a) < geom.Coincide })
	x := v.point(v.cut.Line.Length(), 0).X + 8
	for i := range len(heights) - 1 {
		a, b := v.point(0, heights[i]), v.point(0, heights[i+1])
		a.X, b.X = x, x
		v.sheet.stroke(layerDimension, line(hair), polyline(a, b))
		for _, end := range []Point{a, b} {
			v.sheet.stroke(layerDimension, line(hair), polyline(end.sub(Point{3, 0}), end.add(Point{1.5, 0})))
			v.sheet.stroke(layerDimension, line(medium), polyline(end.sub(Point{stroke45, stroke45}), end.add(Point{stroke45, stroke45})))
		}
		text := v.m.dimension(heights[i+1] - heights[i])
		if v.fonts.width(text, smallText, false) <= b.Y-a.Y-1 {
			v.sheet.write(Point{x - 0.8, (a.Y + b.Y) / 2}.sub(Point{0, v.fonts.width(text, smallText, false) / 2}), words{text: text, height: smallText, turn: 90}, onSheet())
		} else {
			v.sheet.write(Point{x + 2, (a.Y+b.Y)/2 - smallText/2}, words{text: text, height: smallText}, onSheet())
		}
	}
}
