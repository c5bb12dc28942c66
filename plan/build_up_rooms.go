package plan

import (
	"fmt"
	"math"

	"moiety/geom"
	"moiety/plan/rules"
)

// AfterM2 is the net area of a unit inside the linings of the separation: what
// is left of NetM2 after the works.
func (u Unit) AfterM2() float64 { return u.NetM2 - u.LiningM2 }

// AfterM2 is the floor area of a cell after the works: that of its polygon less
// what the separation's linings stand on, or with what a thinner wall gives back.
func (s *Scheme) AfterM2(cell int) float64 {
	return s.Building.Cells[cell].AreaM2 - s.lining(cell).AreaM2
}

// shownLining is the least area that a lining has to take to be mentioned, m2.
const shownLining = 0.005

// linedRegion is the floor of a cell inside the separation's linings: every
// wall's growth is cut off along the face that it stands on. What a thinner wall
// gives back is not added: nobody counts on it.
func (s *Scheme) linedRegion(cell int) geom.Region {
	region := s.Building.Cells[cell].Region
	id := s.Building.Cells[cell].ID
	var strips []geom.Shape
	for i := range s.Walls {
		w := &s.Walls[i]
		up := s.buildUp(w.BuildUp)
		if up == nil || w.Fence || w.Between[0] != id && w.Between[1] != id {
			continue
		}
		gain := up.Gain[btoi(w.Between[1] == id)]
		if w.State == New {
			gain -= w.Thickness / 2 // drawn with that much already
		}
		face, ok := mouthOf(region, w.Line, w.Thickness)
		if !ok || gain <= geom.Coincide/2 {
			continue
		}
		strips = append(strips, geom.Shape{{Outer: geom.Ring{face.A, face.B, face.Beside(face.Length(), gain), face.Beside(0, gain)}}})
	}
	if len(strips) == 0 {
		return region
	}
	lining, err := geom.Union(strips...)
	if err != nil {
		return region
	}
	left, err := geom.Difference(geom.Shape{region}, lining)
	if err != nil || len(left) == 0 {
		return region
	}
	return largest(left)
}

// lined is a cell's floor inside the linings, worked out once.
func (c *checking) lined(cell int) geom.Region {
	if region, ok := c.linedFloors[cell]; ok {
		return region
	}
	if c.linedFloors == nil {
		c.linedFloors = map[int]geom.Region{}
	}
	region := c.b.Cells[cell].Region
	if c.s.lining(cell).grows {
		region = c.s.linedRegion(cell)
	}
	c.linedFloors[cell] = region
	return region
}

// areaNote says what the separation takes off a room's floor; "" for nothing.
func (c *checking) areaNote(cell int) string {
	l := c.s.lining(cell)
	if math.Abs(l.AreaM2) < shownLining {
		return ""
	}
	if l.AreaM2 < 0 {
		return fmt.Sprintf("as drawn and the %s by which the separation is thinner", c.set.Text(rules.Area, -l.AreaM2))
	}
	return fmt.Sprintf("as surveyed less the %s that the separation's linings take", c.set.Text(rules.Area, l.AreaM2))
}

// widthNote says that a width is measured inside the linings.
func (l Lining) widthNote() string {
	if !l.grows {
		return ""
	}
	return "inside the separation's linings"
}

// orOtherSide adds a cure for what a lining makes too narrow.
func (c *checking) orOtherSide(cell int, cure string) string {
	if c.s.lining(cell).grows {
		cure += "; or build up its separating wall from the other side alone"
	}
	return cure
}
