package render

import (
	"cmp"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// floorTag is the build-up of the separating floor over or under a room or a
// flight, as its tag says it.
type floorTag struct {
	buildUp string
	text    string
	cell    int
	region  geom.Region // the largest piece of that floor in the cell
	area    float64     // m2
}

// leastTagged is the least floor, in m2, that carries a tag where the same
// build-up is tagged elsewhere on the plan.
const leastTagged = 4.0

// tagFloors marks the floors that separate the units with their build-up,
// room by room, each build-up at least once: where no room has a place for
// the tag, a line leads to it.
func (p *plot) tagFloors() {
	if p.s == nil || p.plain && !p.safety {
		return
	}
	tags := p.floorTags()
	var done []floorTag
	tagged := func(t floorTag) bool {
		return slices.ContainsFunc(done, func(d floorTag) bool { return d.text == t.text })
	}
	for _, strict := range []bool{true, false} {
		for _, t := range tags {
			if !tagged(t) && p.tagFloor(t, strict) {
				done = append(done, t)
			}
		}
	}
	for _, t := range tags {
		if at := p.view.Paper(p.found.centre(t.region)); !tagged(t) && (p.leadTag(at, 0, t.text, true) || p.leadTag(at, 0, t.buildUp, true)) {
			done = append(done, t)
		}
	}
	for _, t := range done {
		p.buildUps.use(t.buildUp)
	}
	for _, t := range tags {
		first := slices.ContainsFunc(done, func(d floorTag) bool { return d.cell == t.cell && d.text == t.text })
		if !first && t.area >= leastTagged {
			p.tagFloor(t, true)
		}
	}
}

// floorTags lists what is to be tagged, the largest floors of a build-up first.
func (p *plot) floorTags() []floorTag {
	var tags []floorTag
	add := func(cell int) {
		c := &p.b.Cells[cell]
		pieces := map[string][]geom.Shape{}
		var order []string
		buildUp := map[string]string{}
		for _, f := range p.s.Floors {
			if f.State != plan.Separating || p.buildUps.known[f.BuildUp] == nil {
				continue
			}
			for _, side := range [2]struct{ id, where string }{{f.Below, " above"}, {f.Above, " below"}} {
				if side.id != c.ID {
					continue
				}
				text := f.BuildUp + side.where
				if p.safety {
					text += p.buildUps.fire(f.BuildUp)
				}
				if pieces[text] == nil {
					order = append(order, text)
				}
				pieces[text], buildUp[text] = append(pieces[text], f.Region), f.BuildUp
			}
		}
		slices.Sort(order)
		for _, text := range order {
			if region, area := p.largestPiece(pieces[text]); area > 0 {
				tags = append(tags, floorTag{buildUp[text], text, cell, region, area})
			}
		}
	}
	for _, r := range p.rooms {
		if r.mine {
			add(r.cell)
		}
	}
	for _, f := range p.flights {
		if f.mine && !f.elsewhere && !f.unseen {
			add(f.cell)
		}
	}
	slices.SortStableFunc(tags, func(a, b floorTag) int {
		return cmp.Or(cmp.Compare(a.text, b.text), cmp.Compare(b.area, a.area))
	})
	return tags
}

// largestPiece is the largest of the pieces that some floors make together,
// as far as it lies in the part of the level that is drawn.
func (p *plot) largestPiece(pieces []geom.Shape) (geom.Region, float64) {
	whole, err := geom.Union(pieces...)
	if err != nil || len(whole) == 0 {
		return geom.Region{}, 0
	}
	if p.piece != nil {
		if whole, err = geom.Intersection(whole, geom.Shape{p.piece.region(p.turn)}); err != nil || len(whole) == 0 {
			return geom.Region{}, 0
		}
	}
	largest := slices.MaxFunc(whole, func(a, b geom.Region) int { return cmp.Compare(a.AreaM2(), b.AreaM2()) })
	return largest, largest.AreaM2()
}

// tagFloor puts a tag on free floor under or over the floor that it is for.
func (p *plot) tagFloor(t floorTag, strict bool) bool {
	rings := p.rings(geom.Shape{t.region})
	if b := boundsOf(rings[0]...); max(b.width(), b.height()) < p.tagSize(t.text) {
		return false
	}
	for _, c := range places(rings, p.view.Paper(p.found.centre(t.region))) {
		for _, upright := range []bool{false, true} {
			place := p.tagPlace(c, t.text, upright)
			if insideRegion(place.grown(otherClearance).corners(), rings) && p.tagFits(place, strict) {
				p.putTagTurned(c, t.text, true, upright)
				return true
			}
		}
	}
	return false
}
