package render

import (
	"fmt"
	"math"
	"slices"

	"moiety/plan"
)

// elevationView is one side of the house on its way to a sheet.
type elevationView struct {
	*project
	e         plan.Elevation
	low, high float64
	sheet     *Sheet
	scale     Scale
	at        Point // of its left end at elevation low
	legend    *legend
	doors     []string
	windows   []string
}

// Room around an elevation, millimetres.
const (
	elevationLeft  = 40.0
	elevationRight = 8.0
	elevationFoot  = 16.0
)

// groundBeyond is how far the ground is drawn beyond the house, in metres.
const groundBeyond = 1.0

// elevationSheets draws the sides that the scheme changes, as few to a sheet
// as fit at the largest scale at which each fits.
func (p *project) elevationSheets() ([]*Sheet, error) {
	var views []*elevationView
	doors, windows := doorTags(p.s), windowTags(p.s)
	for _, e := range p.s.Elevations() {
		v := &elevationView{project: p, e: e, doors: doors, windows: windows}
		v.reach()
		views = append(views, v)
	}
	if len(views) == 0 {
		return nil, nil
	}
	for _, scale := range planScales(p.m.imperial) {
		var sheets []*Sheet
		for rest := views; len(rest) > 0; {
			n := len(rest)
			var drawn []*Sheet
			for ; n > 0 && drawn == nil; n-- {
				drawn = p.elevationsOn(rest[:n], scale)
			}
			if drawn == nil {
				sheets = nil
				break
			}
			sheets = append(sheets, drawn...)
			rest = rest[n+1:]
		}
		if sheets != nil {
			return sheets, nil
		}
	}
	return nil, fmt.Errorf("render: an elevation does not fit on %s at any scale", p.paper.Name)
}

// compassNames are the sides by where they look, every 45 degrees from north.
var compassNames = [8]string{"North", "North-east", "East", "South-east", "South", "South-west", "West", "North-west"}

func (v *elevationView) name() string {
	return compassNames[int(math.Round(v.e.Facing/45))%8] + " elevation"
}

func (v *elevationView) reach() {
	v.low, v.high = math.Inf(1), math.Inf(-1)
	for _, s := range v.e.Storeys {
		v.low, v.high = min(v.low, s.Floor), max(v.high, s.Ceiling)
	}
	for _, g := range v.e.Ground {
		v.low = min(v.low, g.Elevation)
	}
}

func (v *elevationView) size(scale Scale) (width, height float64) {
	k := scale.MMPerMetre()
	return (v.e.Width+2*groundBeyond)*k + elevationLeft + elevationRight, (v.high-v.low)*k + elevationFoot + sectionEarth + 4
}

// elevationsOn draws elevations one over the other on a sheet; nil where they
// do not fit.
func (p *project) elevationsOn(views []*elevationView, scale Scale) []*Sheet {
	width, height := 0.0, viewGap*float64(len(views)-1)
	for _, v := range views {
		w, h := v.size(scale)
		width, height = max(width, w), height+h
	}
	comps := slices.DeleteFunc(p.paper.compositions(), func(c composition) bool { return width > c.drawing.width() || height > c.drawing.height() })
	if len(comps) == 0 {
		return nil
	}
	title := views[0].name()
	if len(views) > 1 {
		title = "Elevations"
	}
	draw := func(places []Point) (*Sheet, []block) {
		s := newSheet(p.fonts, p.paper, "", title)
		s.Scale, s.kind = scale, "Permit draft, elevation"
		l := &legend{}
		for i, v := range views {
			v.sheet, v.scale, v.legend = s, scale, l
			v.at = places[i].add(Point{elevationLeft + groundBeyond*scale.MMPerMetre(), elevationFoot + sectionEarth})
			v.draw(places[i])
			s.place()
		}
		return s, []block{p.fonts.legendBlock(l, p.refs), p.elevationNotes(views)}
	}
	return p.beside(comps, scale.Ratio >= overflows, draw, func(c composition) []Point {
		var places []Point
		y := c.drawing.Y1 - (c.drawing.height()-height)/2
		for _, v := range views {
			_, h := v.size(scale)
			y -= h
			places = append(places, Point{c.drawing.X0 + (c.drawing.width()-width)/2, y})
			y -= viewGap
		}
		return places
	})
}

// elevationNotes says what was not surveyed of the sides drawn.
func (p *project) elevationNotes(views []*elevationView) block {
	b := block{title: "Notes"}
	say := func(text string) { b.rows = append(b.rows, p.fonts.paragraph(text, 0)) }
	say("Sides that the works change. The roof was not surveyed: walls are drawn to the ceiling of each level, without eaves.")
	say("Setbacks of the wall behind one another are not shown.")
	if slices.ContainsFunc(views, func(v *elevationView) bool {
		return slices.ContainsFunc(v.e.Openings, func(o plan.ElevationOpening) bool { return o.HeightGuessed })
	}) {
		say("A door whose height was not surveyed is drawn " + p.m.length(2.03) + " high.")
	}
	return b
}

func (v *elevationView) point(along, elevation float64) Point {
	k := v.scale.MMPerMetre()
	return v.at.add(Point{along * k, (elevation - v.low) * k})
}

func (v *elevationView) rect(from, to, low, high float64) Rect {
	a, b := v.point(from, low), v.point(to, high)
	return Rect{a.X, a.Y, b.X, b.Y}
}

func (v *elevationView) draw(corner Point) {
	v.drawFoot()
	for i, s := range v.e.Storeys {
		v.drawStorey(s, v.e.Storeys[:i])
	}
	var taken [][4]Point
	for i := range v.e.Openings {
		o := &v.e.Openings[i]
		taken = append(taken, v.rect(o.From, o.To, o.Sill, o.Head).corners())
	}
	for i := range v.e.Openings {
		taken = v.drawOpening(&v.e.Openings[i], taken)
	}
	v.drawHeights()
	s := v.sheet
	name := v.name()
	s.write(Point{corner.X, corner.Y + 7.4}, words{text: name, height: roomText, bold: true}, onSheet())
	s.stroke(layerSign, line(thick), polyline(Point{corner.X, corner.Y + 5.6}, Point{corner.X + max(s.fonts.width(name, roomText, true), 30), corner.Y + 5.6}))
	s.write(Point{corner.X, corner.Y + 1.6}, words{text: v.scale.Text, height: smallText}, onSheet())
}

// drawStorey draws the outline of a level, down to the ceiling of the one under
// it: below the ground dashed. Its floor is a thin line.
func (v *elevationView) drawStorey(s plan.ElevationStorey, under []plan.ElevationStorey) {
	const deepest = 1.0 // between a ceiling and the floor of the same house over it, metres
	low := s.Floor
	for _, u := range under {
		if u.Ceiling <= s.Floor && s.Floor-u.Ceiling < deepest {
			low = min(low, u.Ceiling)
		}
	}
	ground := func(x float64) float64 {
		at, least := v.low, math.Inf(1)
		for _, g := range v.e.Ground {
			if d := max(g.From-x, x-g.To, 0); d < least {
				at, least = g.Elevation, d
			}
		}
		return at
	}
	upright := func(x, g float64) {
		if g > low {
			v.sheet.stroke(layerWall, line(medium).dashedBy(dashed), polyline(v.point(x, low), v.point(x, min(g, s.Ceiling))))
		}
		if g < s.Ceiling {
			v.sheet.stroke(layerWall, line(medium), polyline(v.point(x, max(low, g)), v.point(x, s.Ceiling)))
		}
	}
	left, right := ground(s.From), ground(s.To)
	upright(s.From, left)
	upright(s.To, right)
	v.sheet.stroke(layerWall, line(medium), polyline(v.point(s.From, s.Ceiling), v.point(s.To, s.Ceiling)))
	floor := line(hair)
	if max(left, right) > s.Floor {
		floor = floor.dashedBy(dashed)
	}
	v.sheet.stroke(layerWall, floor, polyline(v.point(s.From, s.Floor), v.point(s.To, s.Floor)))
}

// drawOpening draws a door or window in its size, with its tag.
func (v *elevationView) drawOpening(o *plan.ElevationOpening, taken [][4]Point) [][4]Point {
	r := v.rect(o.From, o.To, o.Sill, o.Head)
	q := r.corners()
	tag := ""
	if o.Passage >= 0 {
		tag = v.doors[o.Passage]
	} else {
		tag = v.windows[o.Window]
	}
	switch o.State {
	case plan.New, plan.Enlarged:
		v.sheet.both(layerOpening, white, line(heavy), rectangle(r))
		v.legend.add(entryNewOpening)
	case plan.Sealed, plan.Removed:
		v.sheet.stroke(layerOpening, line(medium).dashedBy(dashed), rectangle(r))
		v.sheet.stroke(layerHatch, line(hair), hatch([][]Point{q[:]}, hatchInfill...))
		v.legend.add(entrySealed)
	default:
		v.sheet.both(layerOpening, white, line(medium), rectangle(r))
		v.legend.add(entryOpeningKept)
	}
	if o.Window >= 0 {
		mid := (q[0].Y + q[3].Y) / 2
		v.sheet.stroke(layerOpening, line(hair), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	}
	if tag == "" {
		return taken
	}
	width := v.fonts.width(tag, smallText, true)
	if height := 2*smallText + 2; width+1.6 <= r.width() && height <= r.height() {
		at := Point{(r.X0+r.X1)/2 - width/2, r.Y0 + 1.2}
		v.sheet.write(at, words{text: tag, height: smallText, bold: true}, onSheet())
		return taken
	}
	for _, at := range []Point{{(r.X0 + r.X1) / 2, r.Y1 + 1.2}, {(r.X0 + r.X1) / 2, r.Y0 - smallText - 1.2}, {r.X1 + width/2 + 1.2, (r.Y0 + r.Y1) / 2}, {r.X0 - width/2 - 1.2, (r.Y0 + r.Y1) / 2}} {
		box := textQuad(tag, Point{at.X - width/2, at.Y}, width, smallText, 0)
		if slices.ContainsFunc(taken, func(t [4]Point) bool { return overlapQuads(box, t) }) {
			continue
		}
		v.sheet.write(Point{at.X - width/2, at.Y}, words{text: tag, height: smallText, bold: true}, onSheet())
		return append(taken, box)
	}
	return taken
}

// drawFoot draws the line of the ground along the side, hatched below.
func (v *elevationView) drawFoot() {
	if len(v.e.Ground) == 0 {
		return
	}
	first, last := v.e.Ground[0], v.e.Ground[len(v.e.Ground)-1]
	parts := append([]plan.SectionGround{{From: -groundBeyond, To: first.From, Elevation: first.Elevation}}, v.e.Ground...)
	parts = append(parts, plan.SectionGround{From: last.To, To: v.e.Width + groundBeyond, Elevation: last.Elevation})
	var profile []Point
	for i, g := range parts {
		from, to := g.From, g.To
		if i > 0 {
			from = parts[i-1].To
		}
		a, b := v.point(from, g.Elevation), v.point(to, g.Elevation)
		profile = append(profile, a, b)
		parts[i].To = to
		earth := []Point{a, b, b.sub(Point{0, sectionEarth}), a.sub(Point{0, sectionEarth})}
		v.sheet.stroke(layerGround, line(hair), hatch([][]Point{earth}, hatching{45, 1.6}))
	}
	v.sheet.stroke(layerFace, line(heavy), polyline(profile...))
	v.legend.add(entryCutGround)
}

// drawHeights marks floors and ceilings left of the elevation.
func (v *elevationView) drawHeights() {
	x := v.at.X - groundBeyond*v.scale.MMPerMetre() - 3
	last := math.Inf(-1)
	mark := func(elevation float64, name string) {
		y := v.point(0, elevation).Y
		text := max(y, last+2*textStep+0.8)
		last = text
		tip := Point{x, y}
		v.sheet.stroke(layerSign, line(hair), polyline(Point{x - 6, y}, Point{x + 3, y}))
		v.sheet.fill(layerSign, black, polygon(tip, tip.add(Point{-1.4, 2}), tip.add(Point{1.4, 2})))
		if text > y+0.1 {
			v.sheet.stroke(layerSign, line(hair), polyline(Point{x - 6, y}, Point{x - 8, text}))
		}
		name = v.fonts.shortened(name, elevationLeft-14, smallText, false)
		v.sheet.write(Point{x - 9, text + 0.6}, words{text: v.m.elevation(elevation), height: smallText, bold: true, align: atRight}, onSheet())
		v.sheet.write(Point{x - 9, text + 0.6 + textStep}, words{text: name, height: smallText, align: atRight}, onSheet())
	}
	for _, s := range v.e.Storeys {
		mark(s.Floor, v.levelName(s.Level))
	}
}
