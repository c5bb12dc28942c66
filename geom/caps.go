package geom

import (
	"math"

	"github.com/tidwall/rtree"
)

// wallEnd is the end of a wall: the line from face to face that closes it.
type wallEnd struct {
	Segment
	band span
}

// caps are the ends of the walls found so far. Where a face looks into the end
// of a wall it looks at nothing: there a wall butts against another.
type caps struct {
	tree rtree.RTreeGN[int64, int]
	ends []wallEnd
}

// add adds both ends of a wall; one without thickness has none.
func (c *caps) add(s sight) {
	if s.thickness() <= Coincide {
		return
	}
	a, b := s.on(s.near, s.along), s.on(s.far, s.along)
	for _, e := range []Segment{{a.A, b.A}, {a.B, b.B}} {
		box := e.Bounds()
		c.tree.Insert([2]int64{box.Min.X, box.Min.Y}, [2]int64{box.Max.X, box.Max.Y}, len(c.ends))
		c.ends = append(c.ends, wallEnd{e, s.band})
	}
}

// meeting calls do with the ends that meet the box.
func (c *caps) meeting(b Box, do func(wallEnd)) {
	c.tree.Search([2]int64{b.Min.X, b.Min.Y}, [2]int64{b.Max.X, b.Max.Y}, func(_, _ [2]int64, i int) bool {
		do(c.ends[i])
		return true
	})
}

// before returns the parts of a pair between whose faces a wall ends.
func (c *caps) before(p pair) []cut {
	var cuts []cut
	strip := p.on(p.near, p.whole.along).Bounds().Join(p.on(p.far, p.whole.along).Bounds())
	c.meeting(strip.Grow(Units(between)), func(e wallEnd) {
		l, ok := p.line(e.Segment)
		if !ok {
			return
		}
		along := gap(l.and(p.whole.along), p.near, l, -between, math.Inf(1))
		along = gap(along, l, p.far, -between, math.Inf(1))
		if along.length() > settled {
			cuts = append(cuts, cut{along, e.band})
		}
	})
	return cuts
}

// infront returns the parts of an edge, in its own frame, that look into the
// end of a wall.
func (c *caps) infront(f frame, l line, reach Box) []cut {
	var cuts []cut
	c.meeting(reach, func(e wallEnd) {
		m, ok := f.line(e.Segment)
		if !ok {
			return
		}
		if along := gap(m.and(l.span), l, m, -between, ThickestWall); along.length() > settled {
			cuts = append(cuts, cut{along, e.band})
		}
	})
	return cuts
}
