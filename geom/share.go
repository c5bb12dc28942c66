package geom

import (
	"fmt"
	"slices"
)

// Shares returns the gross area in square metres of each group of prisms
// within the outline of their layer, entry g for group g: out to the outline,
// walls within a group wholly, walls between two groups by halves, to their
// centre line. group gives the group of each prism; those with a negative one
// together are nobody's: they take their half of the walls like any other and
// are not reported. Unenclosed prisms are left out. prisms are those of the
// one layer; with nobody left out, the shares add up to the outline.
//
// A post at which several groups meet is parted by the mitres of their walls,
// and what two of them claim, or none, goes to those concerned in equal parts.
func Shares(outline Shape, prisms []Prism, group []int) ([]float64, error) {
	if len(group) != len(prisms) {
		panic(fmt.Sprintf("geom: %d groups for %d prisms", len(group), len(prisms)))
	}
	claims, err := claims(outline, prisms, group)
	if err != nil {
		return nil, fmt.Errorf("geom: shares: %w", err)
	}
	for i := range claims {
		claims[i].area = claims[i].shape.AreaM2()
	}
	if err := splitContested(claims); err != nil {
		return nil, fmt.Errorf("geom: shares: %w", err)
	}
	if err := splitUnclaimed(claims, outline); err != nil {
		return nil, fmt.Errorf("geom: shares: %w", err)
	}
	share := make([]float64, 1+max(nobody, slices.Max(append([]int{nobody}, group...))))
	for _, c := range claims {
		if c.group != nobody {
			share[c.group] = c.area
		}
	}
	return share, nil
}

// nobody is the group of all prisms whose group is negative.
const nobody = -1

// claim is the ground of a group: its prisms and its part of their walls.
type claim struct {
	group int
	shape Shape
	area  float64 // the share worked out so far
}

// claims returns the claims by group, each within the outline. Other claims
// may overlap it by a little where walls of different thickness meet.
func claims(outline Shape, prisms []Prism, group []int) ([]claim, error) {
	all := slices.Clone(prisms)
	for _, r := range outline {
		all = append(all, outside(r))
	}
	groupOf := func(i int) int { return max(group[i], nobody) }
	in := func(i int) bool { return i < len(prisms) && !prisms[i].Unenclosed }
	f := newFacing(all, 2*ThickestWall+NarrowestSlot)
	sights, _ := f.sights()
	var walls []Wall
	for _, s := range sights {
		walls = append(walls, f.wall(s))
	}
	around := stretches(all, walls, in, func(w Wall) (far Segment, shared bool) {
		switch {
		case w.B >= len(prisms) || prisms[w.B].Unenclosed:
			return w.FaceB, false
		case groupOf(w.A) == groupOf(w.B):
			return lapped(w.FaceB), true
		}
		return w.CentreLine(), false
	})
	parts := make(map[int][]Shape)
	for i, p := range prisms {
		if in(i) {
			parts[groupOf(i)] = append(parts[groupOf(i)], newMargin(p.Base, around[i]).around(p.Base))
		}
	}
	var out []claim
	for g := nobody; len(parts) > 0; g++ {
		if len(parts[g]) == 0 {
			continue
		}
		s, err := Union(parts[g]...)
		if err != nil {
			return nil, err
		}
		if s, err = Intersection(s, outline); err != nil {
			return nil, err
		}
		out = append(out, claim{group: g, shape: s})
		delete(parts, g)
	}
	return out, nil
}

// outside is what lies around a region of an outline, as a prism of which only
// the edges are used.
func outside(r Region) Prism {
	base := Region{Outer: r.Outer.Reverse()}
	for _, h := range r.Holes {
		base.Holes = append(base.Holes, h.Reverse())
	}
	return Prism{Base: base, Unenclosed: true}
}

// splitContested halves what two claims have in common.
func splitContested(claims []claim) error {
	x := newIndex(len(claims), func(i int) Box { return claims[i].shape.Bounds() })
	var near []int
	for i, a := range claims {
		near = x.near(a.shape.Bounds(), near)
		for _, j := range near {
			if j <= i {
				continue
			}
			both, err := Intersection(a.shape, claims[j].shape)
			if err != nil {
				return err
			}
			claims[i].area -= both.AreaM2() / 2
			claims[j].area -= both.AreaM2() / 2
		}
	}
	return nil
}

// splitUnclaimed gives each piece of the outline that nobody claims to the
// claims that it touches, and what rounding leaves to all in proportion.
func splitUnclaimed(claims []claim, outline Shape) error {
	if len(claims) == 0 {
		return nil
	}
	var all []Shape
	for _, c := range claims {
		all = append(all, c.shape)
	}
	claimed, err := Union(all...)
	if err != nil {
		return err
	}
	rest, err := Difference(outline, claimed)
	if err != nil {
		return err
	}
	for _, piece := range rest {
		var touching []int
		for i, c := range claims {
			if c.touches(piece) {
				touching = append(touching, i)
			}
		}
		for _, i := range touching {
			claims[i].area += piece.AreaM2() / float64(len(touching))
		}
	}
	var sum float64
	for _, c := range claims {
		sum += c.area
	}
	if sum > 0 {
		for i := range claims {
			claims[i].area *= outline.AreaM2() / sum
		}
	}
	return nil
}

// touches tells whether a corner of the piece lies on the claim.
func (c claim) touches(piece Region) bool {
	box := piece.Bounds().Grow(Units(Coincide))
	for _, r := range c.shape {
		if !r.Bounds().Meets(box) {
			continue
		}
		for _, ring := range piece.Rings() {
			for _, p := range ring {
				if r.Contains(p) != Out || r.DistanceToBorder(p) <= Coincide {
					return true
				}
			}
		}
	}
	return false
}
