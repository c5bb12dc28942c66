package plan

import (
	"math"
	"slices"

	"moiety/geom"
	"moiety/plan/rules"
)

// checkHalls compares the clear width of halls along every way through them,
// from door to door, at the narrowest place that cannot be gone around. The
// doors themselves, and what stands in front of nobody's way, do not count.
func checkHalls(c *checking) {
	for cell := range c.b.Cells {
		owner := c.s.Owners[cell]
		if owner == Nobody || c.b.Cells[cell].Outdoor || c.b.Cells[cell].Flight || c.s.Uses[cell] != Hall {
			continue
		}
		a := about{subject: c.b.Cells[cell].ID, cure: c.orOtherSide(cell, "move a wall of it, or what stands in it")}
		id := rules.ID("hall-width")
		if owner != Common {
			a.unit = owner.String()
		} else if _, ok := c.set.Get("corridor-width"); ok && !c.IsSecondary() {
			id = "corridor-width"
		}
		width, ways := c.hallWidth(cell)
		if ways == 0 {
			continue
		}
		figure, asked := c.set.Get(id)
		if narrow, ok := c.set.Get("hall-width-narrow"); asked && ok && id == "hall-width" && !figure.Meets(width) && narrow.Meets(width) {
			a.note = narrow.Limit.String() + " may do: " + narrow.When
		}
		c.measured(id, width, a.noted(c.s.lining(cell).widthNote()))
	}
}

// hallWidth gives the least clear width of the ways through a hall, and how
// many ways are narrowed by anything.
func (c *checking) hallWidth(cell int) (width float64, ways int) {
	region, gain := c.standingFree(cell), c.s.lining(cell).thickest
	var mouths []geom.Segment
	for _, l := range c.b.Links {
		if l.U != cell && l.V != cell || !l.Passage() && l.Kind != LinkSide || c.s.parted(l) == partedUnits || l.Kind == LinkSide {
			continue
		}
		for _, run := range append([]geom.Segment{l.Line}, l.Runs...) {
			if m, ok := mouthOf(region, run, l.Thickness+2*gain); ok && !slices.Contains(mouths, m) {
				mouths = append(mouths, m)
			}
		}
	}
	for _, p := range c.s.Passages {
		if p.State == New && slices.Contains(p.Between[:], c.b.Cells[cell].ID) {
			if m, ok := mouthOf(region, p.Line, thickest); ok {
				mouths = append(mouths, m)
			}
		}
	}
	width = math.Inf(1)
	clear := geom.NewClearWays(region)
	for i := range mouths {
		for j := range i {
			if w, _, ok := clear.Width(mouths[i], mouths[j]); ok {
				width = min(width, w)
				ways++
			}
		}
	}
	return width, ways
}

// standingFree is a cell's floor without the fixtures that stand on it.
func (c *checking) standingFree(cell int) geom.Region {
	region := c.lined(cell)
	var bodies []geom.Shape
	for i := range c.s.Fixtures {
		f := &c.s.Fixtures[i]
		if f.State != Removed && f.Footprint != nil && f.Level == c.b.Cells[cell].Level && region.Contains(f.centre()) == geom.Inside {
			bodies = append(bodies, geom.Shape{*f.Footprint})
		}
	}
	if len(bodies) == 0 {
		return region
	}
	standing, err := geom.Union(bodies...)
	if err != nil {
		return region
	}
	if left, err := geom.Difference(geom.Shape{region}, standing); err == nil && len(left) > 0 {
		return largest(left)
	}
	return region
}

// mouthOf is the part of a region's border at which a door or an open boundary
// opens to it: the door's width on the side of the room that runs along it.
func mouthOf(region geom.Region, line geom.Segment, thickness float64) (geom.Segment, bool) {
	best, found := geom.Segment{}, false
	reach := thickness/2 + offWall
	for _, e := range region.Edges() {
		off := max(math.Abs(e.Off(line.A)), math.Abs(e.Off(line.B)))
		if off > reach || e.Length() == 0 {
			continue
		}
		a, b := e.Along(line.A), e.Along(line.B)
		s := span{min(a, b), max(a, b)}.overlap(span{0, e.Length()})
		if s.length() < leastRun || s.length() < best.Length() {
			continue
		}
		if off < reach {
			best, found = geom.Segment{A: e.At(s.from), B: e.At(s.to)}, true
		}
	}
	return best, found
}
