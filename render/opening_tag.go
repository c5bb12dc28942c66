package render

import (
	"cmp"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan"
)

// doorTags numbers the doors of a scheme, by its passages: the new ones first,
// in the scheme's order, then the others level by level. A passage without a
// door, and a gate outdoors, has none.
func doorTags(s *plan.Scheme) []string {
	tags := make([]string, len(s.Passages))
	var order []int
	levels := s.Building.House.Levels
	for i, q := range s.Passages {
		if q.Door != nil && (q.State == plan.New || !levels[q.Level].Outdoor) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		p, q := s.Passages[a], s.Passages[b]
		if n := cmp.Compare(boolInt(q.State == plan.New), boolInt(p.State == plan.New)); n != 0 || p.State == plan.New {
			return n
		}
		return cmp.Or(cmp.Compare(levels[p.Level].Floor, levels[q.Level].Floor), cmp.Compare(p.Level, q.Level))
	})
	numbers := map[passageKey]string{}
	for _, i := range order {
		k := keyOf(s.Passages[i])
		if numbers[k] == "" {
			numbers[k] = numbered("D", len(numbers)+1)
		}
		tags[i] = numbers[k]
	}
	return tags
}

// passageKey tells one door from another: a scheme may list a door once for
// every pair of cells that it joins.
type passageKey struct {
	of    string
	level int
	line  geom.Segment
}

func keyOf(q plan.Passage) passageKey { return passageKey{q.Of, q.Level, q.Line} }

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// windowTags numbers the windows of a scheme, level by level in its order.
func windowTags(s *plan.Scheme) []string {
	levels := s.Building.House.Levels
	order := make([]int, len(s.Windows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		p, q := s.Windows[a], s.Windows[b]
		return cmp.Or(cmp.Compare(levels[p.Level].Floor, levels[q.Level].Floor), cmp.Compare(p.Level, q.Level))
	})
	tags := make([]string, len(s.Windows))
	for n, i := range order {
		tags[i] = numbered("W", n+1)
	}
	return tags
}

// tagDoors numbers the doors of a view, those new or those that stay.
func (p *plot) tagDoors(fresh bool) {
	for i := range p.doors {
		if d := &p.doors[i]; d.tag != "" && d.mine && !d.elsewhere && (d.state == plan.New) == fresh && p.tagOpening(d.at, d.tag, false, fresh) {
			p.legend.add(entryDoorTag)
		}
	}
}

// tagWindows numbers the windows of a view, on the outside where they can be.
func (p *plot) tagWindows() {
	for i := range p.windows {
		if w := &p.windows[i]; len(w.tags) > 0 && w.mine && !w.elsewhere {
			at := w.at
			if !w.left {
				at.line = at.line.Reverse()
			}
			if p.tagOpening(at, strings.Join(w.tags, " "), true, w.state == plan.New || w.state == plan.Enlarged) {
				p.legend.add(entryWindowTag)
			}
		}
	}
}

// tagOpening puts a tag beside an opening, or where nothing is free there with
// a line that leads to it; false where even that finds no place. The outside
// of a window lies to the left of its line.
func (p *plot) tagOpening(at placed, text string, outside, bold bool) bool {
	a, b := p.view.Paper(at.line.A), p.view.Paper(at.line.B)
	u := b.sub(a).unit()
	n := u.left()
	mid, half := a.add(b).times(0.5), a.distance(b)/2
	wall := p.view.mm(at.thickness) / 2
	w := p.tagSize(text) / 2
	reach := func(dir Point) float64 { return abs1(dir.X)*w + abs1(dir.Y)*tagHeight/2 }
	// Before an upright wall a tag that reads from the right is narrow enough
	// to stand between the house and its first dimension line.
	if outside && abs1(u.Y) > abs1(u.X) {
		for _, strict := range []bool{true, false} {
			for _, shift := range []float64{0, half / 2, -half / 2, half + 1 + w, -half - 1 - w} {
				for _, off := range []float64{0.8, 1.6} {
					c := mid.add(u.times(shift)).add(n.times(wall + off + abs1(n.X)*tagHeight/2 + abs1(n.Y)*w))
					if p.tagFits(p.tagPlace(c, text, true), strict) {
						p.putTagTurned(c, text, bold, true)
						return true
					}
				}
			}
		}
	}
	shifts := []float64{0, half + 1, -half - 1, half + 4, -half - 4, half + 7, -half - 7}
	offs := []float64{1.2, 4, 8, 2 * half}
	if outside {
		shifts, offs = []float64{0, half / 2, -half / 2, half + 1, -half - 1}, []float64{0.8, 1.6}
	}
	sides := []float64{1, -1}
	for _, strict := range []bool{true, false} {
		for _, first := range sides {
			for _, shift := range shifts {
				for _, side := range sides {
					if outside && side != first {
						continue
					}
					for _, off := range offs {
						c := mid.add(u.times(shift + reach(u)*sign(shift))).add(n.times(side * (wall + off + reach(n))))
						if p.tagFree(c, text, strict) {
							p.putTag(c, text, bold)
							return true
						}
					}
				}
			}
			if !outside {
				break
			}
		}
	}
	return p.leadTag(mid, wall, text, bold)
}

// longestTagLead is how far from what it is for, in millimetres, a tag is led.
const longestTagLead = 44.0

// leadTag puts a tag on the nearest free place around what it is for, with a
// line to it that crosses no lettering.
func (p *plot) leadTag(foot Point, near float64, text string, bold bool) bool {
	w := p.tagSize(text) / 2
	for reach := near + 4; reach < near+longestTagLead; reach += 1.5 {
		for turn := 0.0; turn < 360; turn += 7.5 {
			dir := Point{1, 0}.turned(turn)
			c := foot.add(dir.times(reach))
			if !p.tagFree(c, text, false) {
				continue
			}
			// The line ends at the border of the tag.
			back := min(w/max(1e-9, abs1(dir.X)), tagHeight/2/max(1e-9, abs1(dir.Y)))
			end := c.sub(dir.times(back))
			if reach-back < 0.6 {
				continue
			}
			lead := hindrance(foot, end.sub(dir.times(0.3)))
			if !p.unlettered([4]Point{lead[0], lead[1], lead[2], lead[3]}) {
				continue
			}
			p.sheet.stroke(layerSign, line(hair), polyline(foot, end))
			p.sheet.fill(layerSign, black, circle(foot, 0.45))
			p.putTag(c, text, bold)
			p.taken = append(p.taken, lead)
			return true
		}
	}
	return false
}
