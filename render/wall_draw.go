package render

import (
	"slices"

	"github.com/tdewolff/canvas"

	"moiety/geom"
)

// drawWalls fills the walls that stand and draws their faces. On a unit's own
// sheet the walls that are none of its own are pale.
func (p *plot) drawWalls() {
	if len(p.others) > 0 {
		path := p.view.shape(p.others)
		p.sheet.fill(layerWall, blankGrey, path)
		p.sheet.stroke(layerWall, line(hair).in(caption), path)
		p.legend.add(entryOthers)
	}
	path := p.view.shape(p.own)
	p.sheet.fill(layerWall, wallGrey, path)
	p.sheet.stroke(layerFace, line(medium), path)
	if !path.Empty() {
		p.legend.add(entryWall)
	}
	p.sheet.stroke(layerFace, line(thick), p.exteriorFaces())
}

// exteriorFaces is the outline of the level without its openings.
func (p *plot) exteriorFaces() *canvas.Path {
	path := &canvas.Path{}
	for _, e := range p.outline.Edges() {
		gaps := p.gapsIn(e)
		at := 0.0
		long := e.Length()
		for _, g := range append(gaps, [2]float64{long, long}) {
			if g[0] > at+geom.Coincide/10 {
				path = path.Append(polyline(p.view.Paper(e.At(at)), p.view.Paper(e.At(g[0]))))
			}
			at = max(at, g[1])
		}
	}
	return path
}

// gapsIn lists the stretches of an edge of the outline that openings take, in order.
func (p *plot) gapsIn(e geom.Segment) [][2]float64 {
	var gaps [][2]float64
	add := func(at placed) {
		if !parallel(e, at.line) {
			return
		}
		if e.DistanceTo(at.line.Mid()) > at.thickness/2+2*overcut {
			return
		}
		a, b := e.Along(at.line.A), e.Along(at.line.B)
		gaps = append(gaps, [2]float64{max(0, min(a, b)), min(e.Length(), max(a, b))})
	}
	for _, d := range p.doors {
		add(d.at)
	}
	for _, w := range p.windows {
		add(w.at)
	}
	slices.SortFunc(gaps, func(a, b [2]float64) int {
		switch {
		case a[0] < b[0]:
			return -1
		case a[0] > b[0]:
			return 1
		}
		return 0
	})
	return gaps
}

// drawParts draws the stretches that a scheme builds, upgrades or removes.
// They are told apart by hatch and weight: new and separating, hatched one
// way on white; upgraded, cross-hatched on grey; new within a unit, hatched
// wide. What is removed is dashed.
func (p *plot) drawParts() {
	for _, part := range p.parts {
		if part.mine && part.kind != wallRemoved {
			ring := p.view.points(part.region.Outer)
			if outside := inset(ring, -heavy); outside != nil { // see outlineHeavily
				ring = outside
			}
			p.taken = append(p.taken, obstacle(ring))
		}
	}
	for _, k := range []wallKind{wallRemoved, wallUpgraded, wallNew, wallNewSeparating} {
		if len(p.changed[k]) > 0 {
			p.drawPart(k, p.changed[k])
		}
	}
	p.outlineHeavily(p.separation)
	p.outlineHeavily(p.changed[wallNew])
}

// outlineHeavily draws the outline outside the faces, so that a thin wall
// keeps its hatch.
func (p *plot) outlineHeavily(s geom.Shape) {
	outside := &canvas.Path{}
	for _, r := range p.rings(s) {
		if o := inset(r, -heavy/2); o != nil {
			outside = outside.Append(polygon(o...))
		}
	}
	p.sheet.stroke(layerFace, line(heavy), outside)
}

func (p *plot) drawPart(kind wallKind, area geom.Shape) {
	path := p.view.shape(area)
	switch kind {
	case wallRemoved:
		p.sheet.both(layerHatch, white, line(medium).dashedBy(dashed), path)
		p.legend.add(entryRemoved)
		return
	case wallUpgraded:
		p.sheet.fill(layerHatch, wallGrey, path)
		p.sheet.stroke(layerHatch, line(hair), hatch(p.rings(area), hatchUpgraded...))
		p.legend.add(entryUpgraded)
	case wallNew:
		p.sheet.fill(layerHatch, white, path)
		p.sheet.stroke(layerHatch, line(hair), hatch(p.rings(area), hatchNew...))
		p.legend.add(entryNewWall)
	case wallNewSeparating:
		p.sheet.fill(layerHatch, white, path)
		p.sheet.stroke(layerHatch, line(thin), hatch(p.rings(area), hatchSeparating...))
		p.legend.add(entrySeparating)
	}
}
