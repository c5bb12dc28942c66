package render

import (
	"math"

	"moiety/geom"
	"moiety/plan"
)

// planView is a floor with its dimension lines and its name, ready to be put
// on a sheet at some scale.
type planView struct {
	*floor
	fonts   *typeface
	chains  [4][]chain
	reach   Rect       // what the drawings of all levels take, turned, in metres
	depths  [4]float64 // room for the lines of each side, millimetres
	own     [4]float64 // what the view itself needs of it
	name    string
	caption string
	marks   markPlace // of the section
	crowded bool      // a mark of the section found no place when it was drawn
	piece   *part     // of the level that is drawn, nil for the whole
}

// viewFoot is the room for the name of a view under its drawing, millimetres.
const viewFoot = 13.0

// reachOf is what a floor takes, turned as on the sheet, in metres.
func (f *floor) reachOf() Rect {
	r := noRect
	add := func(g geom.Region) {
		for _, p := range g.Outer {
			q := f.turnedPoint(p)
			r = r.joined(Rect{q.X, q.Y, q.X, q.Y})
		}
	}
	for _, g := range f.outline {
		add(g)
	}
	for _, o := range f.outdoors {
		if f.structure(o.cell) && f.beside(o.cell) {
			add(f.b.Cells[o.cell].Region)
		}
	}
	for _, o := range f.rooms {
		add(f.b.Cells[o.cell].Region)
	}
	return r
}

// newPlanView names a floor and works out its dimension lines.
func newPlanView(f *floor, fonts *typeface, what string) *planView {
	l := f.b.House.Levels[f.level]
	v := &planView{floor: f, fonts: fonts, reach: f.reachOf(), name: levelTitle(l)}
	if !f.plain {
		v.chains = f.allChains()
	}
	if what != "" {
		v.name += ", " + what
	}
	v.caption = "Finished floor " + f.m.elevation(l.Floor)
	if l.Height > 0 {
		v.caption += ", ceiling " + f.m.length(l.Height)
	}
	for _, s := range sides {
		v.depths[s] = depth(v.chains[s])
	}
	return v.marked(marksOutside)
}

// marked is the same view with the marks of its section elsewhere.
func (v *planView) marked(at markPlace) *planView {
	w := *v
	w.marks = at
	for _, s := range sides {
		w.depths[s] = depth(v.chains[s])
	}
	if at == marksOutside {
		for _, s := range v.sectionEnds() {
			w.depths[s] += sectionRoom
		}
	}
	w.own = w.depths
	return &w
}

// levelTitle is what a level is called.
func levelTitle(l plan.Level) string {
	if l.Name != "" {
		return l.Name
	}
	return l.ID
}

// alignViews gives views of several levels the same reach and the same room
// for lines, so that the house lies at the same place on every sheet.
func alignViews(views []*planView) {
	reach := noRect
	var depths [4]float64
	for _, v := range views {
		reach = reach.joined(v.reach)
		for s, d := range v.depths {
			depths[s] = max(depths[s], d)
		}
	}
	for _, v := range views {
		v.reach, v.depths = reach, depths
	}
}

// size is what the view takes on a sheet, millimetres.
func (v *planView) size(scale Scale) (width, height float64) {
	k := scale.MMPerMetre()
	// The name stands under the house, which may begin anywhere in its reach.
	foot := v.fonts.width(v.foot(scale), smallText, false) + v.depths[leftOf] + max(0, v.reachOf().X0-v.reach.X0)*k
	name := v.fonts.width(v.legibleName(), roomText, true) + v.depths[leftOf] + max(0, v.reachOf().X0-v.reach.X0)*k
	return max(v.reach.width()*k+v.depths[leftOf]+v.depths[rightOf], foot, name),
		v.reach.height()*k + v.depths[below] + v.depths[above] + viewFoot
}

// foot is the line under the name of the view.
func (v *planView) foot(scale Scale) string { return scale.Text + ", " + v.caption }

// draw puts the view on a sheet with its lower left corner at a place.
func (v *planView) draw(s *Sheet, scale Scale, at Point, l *legend, key *roomKey, ups *buildUps) {
	k := scale.MMPerMetre()
	pivot := v.pivot()
	turned := v.turnedPoint(pivot)
	corner := at.add(Point{v.depths[leftOf], v.depths[below] + viewFoot})
	view := View{
		Building: v.b, Level: v.level, Unit: v.unit, Scale: scale, Turn: v.turn, pivot: pivot,
		at: corner.add(turned.sub(Point{v.reach.X0, v.reach.Y0}).times(k)),
	}
	s.Views = append(s.Views, view)
	p := &plot{floor: v.floor, sheet: s, view: view, index: len(s.Views) - 1, legend: l, key: key, buildUps: ups, piece: v.piece}
	if v.piece != nil {
		r := p.shown()
		s.clip = &r
	}
	p.holdWithin()
	held := len(p.taken)
	p.drawPlan()
	p.drawEscapes()
	p.drawEntries()
	around := p.extent()
	v.crowded = !v.drawSection(p, around)
	if !p.plain {
		p.tagDoors(true)
	}
	p.layDividings()
	p.drawNoise()
	if !p.plain {
		p.drawAlarms()
	}
	if p.safety {
		p.drawAlarms()
		p.layTravels()
	}
	p.drawCrossings()
	p.setOut(v.chains)
	p.drawLabels()
	p.tagWalls()
	p.tagFloors()
	if !p.plain {
		p.tagWindows()
		p.tagDoors(false)
	}
	clip := s.clip
	s.clip = nil
	p.taken = p.taken[held:] // dimension lines lie beyond match lines
	p.drawDimensions(v.chains, around)
	p.drawMatchLines(around)
	s.clip = clip
	p.drawDividings()
	p.drawFloors()
	p.drawPatterns()
	s.clip = nil
	p.drawTravels()
	low := at.Y
	if v.piece == nil { // under the level itself, however far others reach
		low = max(low, around.Y0-v.own[below]-viewFoot)
	}
	v.drawName(p, Point{around.X0, low})
	p.notes()
}

// pivot is a corner of the house: coordinates on the sheet are worked out from it.
func (f *floor) pivot() geom.Pt {
	if b := f.outline.Bounds(); !b.Empty() {
		return b.Min
	}
	if len(f.rooms) > 0 {
		return f.b.Cells[f.rooms[0].cell].Region.Bounds().Min
	}
	return geom.Pt{}
}

// legibleName is the name of the view as it is lettered.
func (v *planView) legibleName() string {
	const longest = 96.0 // millimetres: fits the narrowest sheet with a column beside it
	return v.fonts.shortened(v.fonts.legible(v.name), longest, roomText, true)
}

// drawName letters the name of the view with a line under it, its scale and
// its level.
func (v *planView) drawName(p *plot, at Point) {
	s := p.sheet
	name := v.legibleName()
	s.write(Point{at.X, at.Y + 7.4}, words{text: name, height: roomText, bold: true}, p.box(TextBox, ""))
	width := max(s.fonts.width(name, roomText, true), 30)
	s.stroke(layerSign, line(thick), polyline(Point{at.X, at.Y + 5.6}, Point{at.X + width, at.Y + 5.6}))
	s.write(Point{at.X, at.Y + 1.8}, words{text: v.foot(p.view.Scale), height: smallText}, p.box(TextBox, ""))
}

// notes asks for the sentences that apply to what was drawn.
func (p *plot) notes() {
	if p.plain {
		p.legend.note(noteSizes)
	} else {
		p.legend.note(noteUnits)
	}
	if p.b.House.Levels[p.level].Height > 0 {
		p.legend.note(noteCeilings)
	}
	for _, w := range p.b.Walls {
		if w.B == geom.Exposed && p.onLevel(w.A) {
			p.legend.note(noteExterior)
			break
		}
	}
	for _, part := range p.parts {
		if part.mine && (part.kind == wallNewSeparating || part.kind == wallUpgraded) {
			p.legend.note(noteSeparation)
		}
	}
}

// noteTexts are the sentences of the notes.
func noteTexts(b *plan.Building, m measure) [notes]string {
	units := "Dimensions in millimetres, sizes of rooms and heights in metres; heights above the survey's datum."
	if m.imperial {
		units = "Dimensions in feet and inches to the nearest 1/8 in; heights above the survey's datum."
	}
	sizes := "Sizes of rooms and heights in metres; heights above the survey's datum."
	if m.imperial {
		sizes = "Sizes of rooms and heights in feet and inches; heights above the survey's datum."
	}
	thickness := m.thickness(math.Round(b.ExteriorThickness*1000) / 1000)
	return [notes]string{
		noteUnits:      units,
		noteSizes:      sizes,
		noteCeilings:   "A ceiling height holds for all rooms of a level that give no other.",
		noteSwings:     "Doors whose swing was not surveyed open into the room they serve.",
		noteExterior:   "Walls whose outer face was not surveyed are drawn " + thickness + " thick.",
		noteSeparation: "Fire and sound rating of the separation, and every bearing wall: to the local code, by licensed practice, before any work.",
		noteSite:       "Distances to the property line are measured square to it from the exterior face, not set out by a land surveyor.",
		noteWalk:       "The way to each entry is the shortest over ground that the unit may use.",
	}
}

// notesBlock lists the notes that apply.
func (t *typeface) notesBlock(l *legend, texts [notes]string) block {
	b := block{title: "Notes"}
	for n, text := range texts {
		if l.noted[n] {
			b.rows = append(b.rows, t.paragraph(text, 0))
		}
	}
	for _, text := range l.more {
		b.rows = append(b.rows, t.paragraph(text, 0))
	}
	return b
}
