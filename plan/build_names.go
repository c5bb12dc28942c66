package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"moiety/geom"
)

// compass gives directions around a cell that turn with the house: the angle
// of a point about the cell's centre, counter-clockwise from where no boundary
// with the cell's counterpart is to be expected.
type compass struct {
	centre geom.Pt
	north  float64 // direction of angle 0, in radians
}

// compassOf is the compass of a cell for its boundaries with another: 0 is
// straight away from the other, of the outside straight to the middle of the
// house. Where one lies around the other, 0 is the cell's first corner.
func (b *builder) compassOf(cell, other int) compass {
	centre := centreOf(b.Cells[cell].Region)
	from, to := centre, b.middle
	if other != Outside {
		from, to = centreOf(b.Cells[other].Region), centre
	}
	if from.Distance(to) < 0.05 {
		from, to = centre, b.Cells[cell].Region.Outer[0]
	}
	return compass{centre, math.Atan2(float64(to.Y-from.Y), float64(to.X-from.X))}
}

// angle is in degrees, 0 to 360.
func (c compass) angle(p geom.Pt) float64 {
	a := math.Atan2(float64(p.Y-c.centre.Y), float64(p.X-c.centre.X)) - c.north
	a = math.Mod(a/math.Pi*180, 360)
	if a < 0 {
		a += 360
	}
	return a
}

func centreOf(r geom.Region) geom.Pt {
	x, y := r.Centroid()
	return geom.FromMetres(x, y)
}

// findMiddle finds the centre of mass of the indoor cells, or of all where
// there is none indoors.
func (b *builder) findMiddle() error {
	var x, y, area float64
	for _, indoorsOnly := range [...]bool{true, false} {
		for i := range b.Cells {
			if c := &b.Cells[i]; !c.Outdoor || !indoorsOnly {
				cx, cy := c.Region.Centroid()
				x, y, area = x+cx*c.AreaM2, y+cy*c.AreaM2, area+c.AreaM2
			}
		}
		if area > 0 {
			b.middle = geom.FromMetres(x/area, y/area)
			break
		}
	}
	return nil
}

// wholeMillimetres rounds a length for comparison. Lengths that differ only by
// the rounding of a turned house come out alike: the offset keeps the lengths
// that are surveyed, whole or half millimetres, clear of where rounding flips.
func wholeMillimetres(v float64) int { return int(math.Floor(v*1000 + 0.2371)) }

// boundary fills a link with the geometry of its runs. The longest comes
// first; runs of one length are taken in the order of the compass.
func (b *builder) boundary(l Link, runs []run) Link {
	c := b.compassOf(l.U, l.V)
	runs = slices.Clone(runs)
	slices.SortStableFunc(runs, func(r, s run) int {
		return cmp.Or(
			cmp.Compare(wholeMillimetres(s.line.Length()), wholeMillimetres(r.line.Length())),
			cmp.Compare(wholeMillimetres(r.low), wholeMillimetres(s.low)),
			cmp.Compare(c.angle(r.line.Mid()), c.angle(s.line.Mid())),
		)
	})
	l.Line, l.Thickness = runs[0].line, runs[0].thickness
	for _, r := range runs {
		length := r.line.Length()
		l.Runs = append(l.Runs, r.line)
		l.Length += length
		l.AreaM2 += length * (r.high - r.low)
		l.Height = max(l.Height, r.high-r.low)
	}
	l.low = runs[0].low
	return l
}

// nameLinks sorts the links and gives each its id: its kind with the survey's
// own id where it was worked out from one feature, else with the ids of its
// cells. Several between the same cells are numbered from the lowest up and
// then counter-clockwise around the first cell, so that a name neither hangs
// on the order of features nor on how the house is turned.
func (b *builder) nameLinks() error {
	base := make([]string, len(b.Links))
	angle := make([]float64, len(b.Links))
	order := make([]int, len(b.Links))
	for i := range b.Links {
		l := &b.Links[i]
		base[i] = b.baseName(l)
		angle[i] = b.compassOf(l.U, l.V).angle(l.middle())
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		k, l := &b.Links[i], &b.Links[j]
		return cmp.Or(
			cmp.Compare(slices.Index(linkOrder, k.Kind), slices.Index(linkOrder, l.Kind)),
			cmp.Compare(base[i], base[j]),
			cmp.Compare(wholeMillimetres(k.low), wholeMillimetres(l.low)),
			cmp.Compare(angle[i], angle[j]),
			cmp.Compare(wholeMillimetres(l.Length), wholeMillimetres(k.Length)),
		)
	})
	links := make([]Link, len(order))
	taken := map[string]bool{}
	for n, i := range order {
		l := b.Links[i]
		l.ID = base[i]
		alike := (n > 0 && base[order[n-1]] == base[i]) || (n+1 < len(order) && base[order[n+1]] == base[i])
		for k := 1; alike || taken[l.ID]; k++ {
			l.ID = fmt.Sprintf("%s#%d", base[i], k)
			alike = false
		}
		taken[l.ID] = true
		links[n] = l
	}
	b.Links = links
	return nil
}

// linkOrder is the order of kinds in Building.Links.
var linkOrder = []LinkKind{LinkDoor, LinkOpening, LinkOpen, LinkStair, LinkSide, LinkWall, LinkFloor, LinkExterior}

func (b *builder) baseName(l *Link) string {
	u, v := b.idOf(l.U), b.idOf(l.V)
	switch l.Kind {
	case LinkDoor, LinkOpening:
		return string(l.Kind) + ":" + l.Of
	case LinkStair:
		end := "foot"
		if l.Head {
			end = "head"
		}
		return fmt.Sprintf("stair:%s.%s|%s", l.Of, end, v)
	}
	return fmt.Sprintf("%s:%s|%s", l.Kind, u, v)
}

// middle is where a link is: the middle of its line, of its floor.
func (l *Link) middle() geom.Pt {
	if len(l.Region) > 0 {
		return centreOf(l.Region[0])
	}
	return l.Line.Mid()
}
