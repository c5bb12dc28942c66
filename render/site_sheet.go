package render

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// besideLot is how much of the public way is shown beyond the lot, metres.
const besideLot = 2.5

// siteSheet draws the lot with the house on it, as the survey lies; none
// where nothing outdoors was surveyed.
func (p *project) siteSheet() ([]*Sheet, error) {
	site, err := p.newSite()
	if err != nil || site == nil {
		return nil, err
	}
	title := "Site plan, existing"
	if p.s != nil {
		title = "Site plan, proposed"
	}
	for _, scale := range siteScales(p.m.imperial) {
		w, h := site.size(scale)
		comps := slices.DeleteFunc(p.paper.compositions(), func(c composition) bool { return w > c.drawing.width() || h > c.drawing.height() })
		if len(comps) == 0 {
			continue
		}
		draw := func(places []Point) (*Sheet, []block) {
			s := newSheet(p.fonts, p.paper, "", title)
			s.Scale, s.kind = scale, "Permit draft, site plan"
			l, key := &legend{}, &roomKey{}
			site.draw(s, scale, places[0], l, key)
			s.place()
			blocks := append([]block{p.fonts.bearingBlock(p.north(0), scale, p.m.imperial)}, site.ownersBlock(p.fonts)...)
			return s, append(blocks, p.matter(l, key, &buildUps{})...)
		}
		sheets := p.beside(comps, scale.Ratio >= overflows, draw, func(c composition) []Point {
			return []Point{{c.drawing.X0 + (c.drawing.width()-w)/2, c.drawing.Y0 + (c.drawing.height()-h)/2}}
		})
		if sheets != nil {
			return sheets, nil
		}
	}
	return nil, fmt.Errorf("render: the site does not fit on %s at any scale", p.paper.Name)
}

// site is the lot and what lies on it. Its rooms are the outdoor cells.
type site struct {
	*floor
	footprint geom.Shape
	extent    geom.Box
	entries   []door
	sheds     []int // enclosed cells that stand on the outdoor level
	detached  geom.Shape
}

// newSite gathers the site; nil where the survey has none.
func (p *project) newSite() (*site, error) {
	h := p.b.House
	f := &floor{b: p.b, s: p.s, level: max(0, slices.IndexFunc(h.Levels, func(l plan.Level) bool { return l.Outdoor })), m: p.m, found: p.found}
	if p.s == nil {
		f.dividings = p.o.dividings(onSite)
	}
	s := &site{floor: f}
	ground := groundLevel(p.b)
	for i := range p.b.Cells {
		c := &p.b.Cells[i]
		switch {
		case c.Flight || !h.Levels[c.Level].Outdoor:
			if c.Outdoor && !c.Flight && c.Level == ground {
				f.rooms = append(f.rooms, room{cell: i, owner: f.owner(i), mine: true})
			}
		case c.Outdoor:
			f.rooms = append(f.rooms, room{cell: i, owner: f.owner(i), mine: true})
		default:
			s.sheds = append(s.sheds, i)
			s.detached = append(s.detached, c.Region)
		}
	}
	if len(f.rooms) == 0 && len(h.Lots) == 0 {
		return nil, nil
	}
	var outlines []geom.Shape
	for _, l := range p.levels {
		outlines = append(outlines, p.b.Levels[l].Outline)
	}
	var err error
	if s.footprint, err = geom.Union(outlines...); err != nil {
		return nil, fmt.Errorf("render: footprint of the house: %w", err)
	}
	f.outline = s.footprint
	p.footprint = s.footprint.AreaM2()
	s.extent = s.footprint.Bounds()
	for _, l := range h.Lots {
		s.extent = s.extent.Join(l.Region.Bounds())
	}
	for _, r := range f.rooms {
		if !p.b.Cells[r.cell].Public {
			s.extent = s.extent.Join(p.b.Cells[r.cell].Region.Bounds())
		}
	}
	s.extent = s.extent.Grow(geom.Units(besideLot))
	if p.s != nil {
		for _, l := range p.levels {
			upon := &floor{b: p.b, s: p.s, level: l, m: p.m}
			upon.gatherRooms()
			upon.gatherOpenings()
			for _, d := range upon.doors {
				if d.entry != "" && d.state != plan.Sealed {
					s.entries = append(s.entries, d)
				}
			}
		}
		f.doors = s.entries
	}
	return s, nil
}

func (s *site) size(scale Scale) (width, height float64) {
	w, h := s.extent.Size()
	k := scale.MMPerMetre()
	return w * k, h*k + viewFoot
}

// draw puts the site on a sheet with its lower left corner at a place.
func (s *site) draw(sheet *Sheet, scale Scale, at Point, l *legend, key *roomKey) {
	view := View{Building: s.b, Level: s.level, Scale: scale, pivot: s.extent.Min, at: at.add(Point{0, viewFoot})}
	sheet.Views = append(sheet.Views, view)
	p := &plot{floor: s.floor, sheet: sheet, view: view, index: len(sheet.Views) - 1, legend: l, key: key, buildUps: &buildUps{}}
	w, h := s.extent.Size()
	k := scale.MMPerMetre()
	frame := Rect{view.at.X, view.at.Y, view.at.X + w*k, view.at.Y + h*k}

	s.drawPieces(p, frame)
	s.drawHouse(p)
	s.drawLots(p)
	s.drawFences(p)
	s.drawGates(p)
	s.drawWays(p)
	p.drawEntries()
	s.drawSetbacks(p)
	s.drawLotLengths(p)
	p.layDividings()
	s.letter(p)
	p.drawDividings()
	p.drawPatterns()
	p.drawSitePatterns()

	name := "Site, existing"
	if s.s != nil {
		name = "Site, proposed"
	}
	left := frame.X0 + view.mm(besideLot)
	sheet.write(Point{left, at.Y + 7.4}, words{text: name, height: roomText, bold: true}, p.box(TextBox, ""))
	sheet.stroke(layerSign, line(thick), polyline(Point{left, at.Y + 5.6}, Point{left + 40, at.Y + 5.6}))
	text := scale.Text
	if s.b.House.GradeSaid {
		text += ", ground " + s.m.elevation(s.b.House.Grade)
	}
	sheet.write(Point{left, at.Y + 1.8}, words{text: text, height: smallText}, p.box(TextBox, ""))
	l.note(noteUnits)
}

// drawPieces draws the outdoor cells, as far as they lie within the frame.
func (s *site) drawPieces(p *plot, frame Rect) {
	for _, r := range s.rooms {
		region := s.b.Cells[r.cell].Region
		if r.owner == plan.UnitA || r.owner == plan.UnitB {
			tint := tintA
			p.legend.add(entryUnitA + entry(r.owner))
			if r.owner == plan.UnitB {
				tint = tintB
			}
			p.sheet.fill(layerTint, tint, p.view.region(region))
		}
		for _, e := range region.Edges() {
			if s.onLotLine(e) {
				continue
			}
			if a, b, ok := clip(p.view.Paper(e.A), p.view.Paper(e.B), frame); ok {
				p.sheet.stroke(layerFixture, line(thin), polyline(a, b))
				p.faint = append(p.faint, hindrance(a, b))
			}
		}
	}
	p.legend.add(entrySurface)
}

// onLotLine tells whether an edge runs along the property line, which is
// drawn in its own way.
func (s *site) onLotLine(e geom.Segment) bool {
	for _, l := range s.b.House.Lots {
		for _, side := range l.Region.Edges() {
			if parallel(e, side) && side.DistanceTo(e.A) <= geom.Coincide && side.DistanceTo(e.B) <= geom.Coincide {
				return true
			}
		}
	}
	return false
}

// drawHouse draws the footprint with its exterior outline, and whose the
// rooms at the ground are.
func (s *site) drawHouse(p *plot) {
	p.sheet.fill(layerWall, wallGrey, p.view.shape(s.footprint))
	if s.s != nil {
		for _, i := range s.byGround() {
			c := &s.b.Cells[i]
			switch s.owner(i) {
			case plan.UnitA:
				p.sheet.fill(layerHatch, tintA, p.view.region(c.Region))
			case plan.UnitB:
				p.sheet.fill(layerHatch, tintB, p.view.region(c.Region))
			default:
				p.sheet.fill(layerHatch, white, p.view.region(c.Region))
			}
		}
	}
	p.sheet.stroke(layerFace, line(heavy), p.view.shape(s.footprint))
	for _, r := range s.footprint {
		p.taken = append(p.taken, obstacle(p.view.points(r.Outer)))
	}
	for _, c := range s.sheds {
		region := s.b.Cells[c].Region
		ink := wallGrey
		switch s.owner(c) {
		case plan.UnitA:
			ink = tintA
		case plan.UnitB:
			ink = tintB
		}
		p.sheet.both(layerWall, ink, line(thick), p.view.region(region))
	}
	p.legend.add(entryFootprint)
}

// byGround lists the indoor cells, those nearest to the ground last: they are
// what one walks up to.
func (s *site) byGround() []int {
	var cells []int
	for i := range s.b.Cells {
		if c := &s.b.Cells[i]; !c.Outdoor && !s.b.House.Levels[c.Level].Outdoor {
			cells = append(cells, i)
		}
	}
	off := func(i int) float64 { return math.Abs(s.b.House.Levels[s.b.Cells[i].Level].Floor - s.b.House.Grade) }
	slices.SortStableFunc(cells, func(a, b int) int { return cmp.Compare(off(b), off(a)) })
	return cells
}

// drawLots draws the property lines, long dash and two dots.
func (s *site) drawLots(p *plot) {
	for _, l := range s.b.House.Lots {
		p.sheet.stroke(layerSign, line(thick).dashedBy(doubleDotted), p.view.region(l.Region))
		for _, e := range l.Region.Edges() {
			p.taken = append(p.taken, hindrance(p.view.Paper(e.A), p.view.Paper(e.B)))
		}
		p.legend.add(entryLot)
	}
}

// drawFences draws the fences that part the ground.
func (s *site) drawFences(p *plot) {
	if s.s == nil {
		return
	}
	for _, w := range s.s.Walls {
		if !w.Fence || w.State != plan.New {
			continue
		}
		a, b := p.view.Paper(w.Line.A), p.view.Paper(w.Line.B)
		if a == b {
			continue
		}
		p.sheet.stroke(layerSign, line(thick), fenceLine(a, b))
		p.taken = append(p.taken, hindrance(a, b).wider(1.2))
		p.legend.add(entryFence)
	}
}

// drawGates draws the gates of the ground and the doors of what stands on it.
func (s *site) drawGates(p *plot) {
	var doors []plan.Door
	if s.s == nil {
		doors = s.b.House.Doors
	} else {
		for _, q := range s.s.Passages {
			if q.Door != nil && q.State != plan.Sealed {
				doors = append(doors, *q.Door)
			}
		}
	}
	for _, d := range doors {
		if d.Level != s.level {
			continue
		}
		const post = 0.10 // metres to either side of the line
		a, b := p.view.Paper(d.Line.A), p.view.Paper(d.Line.B)
		n := b.sub(a).unit().left().times(p.view.mm(post))
		p.sheet.fill(layerFace, white, p.view.region(strip(d.Line, 0, d.Line.Length(), post)))
		p.sheet.stroke(layerDoor, line(medium), together(polyline(a.sub(n), a.add(n)), polyline(b.sub(n), b.add(n))))
		if d.Opening {
			continue
		}
		if d.Leaf == plan.Single || d.Leaf == plan.NoLeaf {
			g := gate{origin: a, u: b.sub(a).unit(), n: b.sub(a).unit().left(), width: a.distance(b), straight: true}
			swing, _ := g.sector(g.width)
			p.sheet.stroke(layerDoor, line(hair), swing)
			p.sheet.stroke(layerDoor, line(medium), polyline(g.at(0, 0), g.at(0, g.width)))
		} else {
			p.sheet.stroke(layerDoor, line(thin), polyline(a, b))
		}
		p.legend.add(entryGate)
	}
}

// wider is a hindrance with more room to both sides.
func (o obstacle) wider(by float64) obstacle {
	n := o[3].sub(o[0]).unit().times(by)
	return obstacle{o[0].sub(n), o[1].sub(n), o[2].add(n), o[3].add(n)}
}

// letter names the pieces of ground, and the house.
func (s *site) letter(p *plot) {
	shown := geom.Shape{{Outer: geom.Ring{
		s.extent.Min, {X: s.extent.Max.X, Y: s.extent.Min.Y}, s.extent.Max, {X: s.extent.Min.X, Y: s.extent.Max.Y}}}}
	rooms := slices.Clone(s.rooms)
	for _, c := range s.sheds {
		rooms = append(rooms, room{cell: c, owner: s.owner(c), mine: true})
	}
	for _, r := range rooms {
		region := s.b.Cells[r.cell].Region
		if s.b.Cells[r.cell].Public {
			part, err := geom.Intersection(geom.Shape{region}, shown)
			if err != nil || len(part) == 0 {
				continue
			}
			region = part[0]
		}
		p.labelIn(r, region, true)
	}
	defer p.leadNumbers()
	if len(s.footprint) == 0 {
		return
	}
	largest := slices.MaxFunc(s.footprint, func(a, b geom.Region) int {
		switch d := a.AreaM2() - b.AreaM2(); {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return 0
	})
	centre, _ := geom.VisualCentre(largest)
	c := p.view.Paper(centre)
	name := p.sheet.fonts.shortened(p.sheet.fonts.legible(s.b.House.Name), 0.8*p.view.bounds(s.footprint).width(), smallText, true)
	lines := []labelLine{{name, smallText, true}, {"footprint " + s.m.area(s.footprint.AreaM2()), smallText, false}}
	w, h := p.sheet.fonts.labelSize(label{lines: lines, badge: plan.Nobody})
	p.sheet.fill(layerSign, white, rectangle(Rect{c.X - w/2, c.Y - h/2, c.X + w/2, c.Y + h/2}.grown(0.8)))
	p.putLabel(label{lines: lines, badge: plan.Nobody}, c, 0, "")
}

// drawSitePatterns dots the ground that both units share.
func (p *plot) drawSitePatterns() {
	if p.s == nil {
		return
	}
	var boxes [][4]Point
	for _, b := range p.sheet.Boxes {
		boxes = append(boxes, b.Corners)
	}
	for _, r := range p.rooms {
		c := &p.b.Cells[r.cell]
		if r.owner == plan.Common && !c.Public && !p.structure(r.cell) {
			p.sheet.fill(layerPattern, faint, dots(p.rings(geom.Shape{c.Region}), boxes))
			p.legend.add(entryCommon)
		}
	}
}

// ownersBlock lists what each unit has outdoors.
func (s *site) ownersBlock(t *typeface) []block {
	if s.s == nil {
		return nil
	}
	var out []block
	for _, u := range s.s.Units {
		b := block{title: "Unit " + u.ID + " outdoors"}
		b.rows = append(b.rows, t.pair("Outdoor area", s.m.area(u.OutdoorM2)), t.pair("Parking stalls", fmt.Sprint(u.Parking)))
		out = append(out, b)
	}
	return out
}
