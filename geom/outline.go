package geom

import (
	"fmt"
	"math"
	"slices"
)

// Outline returns the ground that the enclosed prisms of a layer cover, out to
// the exterior face: exposed walls by their thickness, walls to Unenclosed
// prisms by the measured gap, walls to other layers to their centre line, and
// the walls within the layer wholly. Faces are mitred at corners; slots narrower
// than NarrowestSlot and closed voids narrower than NarrowestCourt are filled. walls are those of Walls for the same prisms.
func Outline(prisms []Prism, walls []Wall, layer int) (Shape, error) {
	return outline(prisms, walls, layer, Wall.CentreLine)
}

// OutlineToFarFace is Outline with the walls to other layers as thick as they
// are, for a drawing of this layer by itself.
func OutlineToFarFace(prisms []Prism, walls []Wall, layer int) (Shape, error) {
	return outline(prisms, walls, layer, func(w Wall) Segment { return w.FaceB })
}

func outline(prisms []Prism, walls []Wall, layer int, toOther func(Wall) Segment) (Shape, error) {
	in := func(i int) bool { return i >= 0 && prisms[i].Layer == layer && !prisms[i].Unenclosed }
	around := stretches(prisms, walls, in, func(w Wall) (far Segment, shared bool) {
		switch {
		case w.B == Exposed || prisms[w.B].Unenclosed:
			return w.FaceB, false
		case prisms[w.B].Layer == layer:
			return lapped(w.FaceB), true
		}
		return toOther(w), false
	})
	bridge(around, prisms, walls, in)
	var parts []Shape
	for i, p := range prisms {
		if in(i) {
			parts = append(parts, newMargin(p.Base, around[i]).around(p.Base))
		}
	}
	s, err := Union(parts...)
	if err != nil {
		return nil, fmt.Errorf("geom: outline of layer %d: %w", layer, err)
	}
	return straightened(withoutVoids(s)), nil
}

// stretches lists, for each prism that is in, the stretches of its border that
// walls run along; reach says how far out each goes, given the wall with the
// prism as A, and whether what lies there has a margin too.
func stretches(prisms []Prism, walls []Wall, in func(int) bool, reach func(Wall) (far Segment, shared bool)) [][]stretch {
	out := make([][]stretch, len(prisms))
	add := func(w Wall) {
		if in(w.A) {
			far, shared := reach(w)
			s := stretch{near: w.FaceA, far: far, height: w.High - w.Low, shared: shared}
			if shared {
				s.goesOn = goesOn(prisms[w.B].Base, w.FaceB)
			}
			out[w.A] = append(out[w.A], s)
		}
	}
	for _, w := range walls {
		add(w)
		if w.B != Exposed {
			add(w.turned())
		}
	}
	return out
}

// goesOn tells whether the border of a region, on which s lies, goes on
// straight past either end of s.
func goesOn(r Region, s Segment) [2]bool {
	past := func(along float64) bool { return r.DistanceToBorder(s.At(along)) <= bent }
	return [2]bool{past(-ShortestWall), past(s.Length() + ShortestWall)}
}

// bridge adds the stretches along which two exposed walls stand so close that
// only a slot narrower than NarrowestSlot is left between them: there the wall
// reaches across.
func bridge(around [][]stretch, prisms []Prism, walls []Wall, in func(int) bool) {
	var thickest float64
	for _, w := range walls {
		if w.B == Exposed && in(w.A) {
			thickest = max(thickest, w.Thickness)
		}
	}
	most := 2*thickest + NarrowestSlot
	if most <= ThickestWall {
		return
	}
	f := newFacing(prisms, most)
	sights, _ := f.sights()
	for _, s := range sights {
		w := f.wall(s)
		if w.Thickness <= ThickestWall || !in(w.A) || !in(w.B) {
			continue
		}
		for _, w := range []Wall{w, w.turned()} {
			around[w.A] = append(around[w.A], stretch{
				near: w.FaceA, far: lapped(w.FaceB), height: math.Inf(1),
				shared: true, goesOn: goesOn(prisms[w.B].Base, w.FaceB),
			})
		}
	}
}

// turned returns the wall seen from B.
func (w Wall) turned() Wall {
	w.A, w.B = w.B, w.A
	w.FaceA, w.FaceB = w.FaceB.Reverse(), w.FaceA.Reverse()
	return w
}

// lapped returns the segment moved by lap to its right, into the prism beyond.
func lapped(s Segment) Segment {
	return Segment{s.Beside(0, -lap), s.Beside(s.Length(), -lap)}
}

// withoutVoids fills the holes that are narrower than NarrowestCourt, by more
// than the search for their middle may miss.
func withoutVoids(s Shape) Shape {
	for i, r := range s {
		s[i].Holes = slices.DeleteFunc(slices.Clone(r.Holes), func(h Ring) bool {
			void := Region{Outer: h.wound(true)}
			x, y := void.Centroid()
			_, clearance := clearest(void, FromMetres(x, y))
			return clearance < NarrowestCourt/2-2*centreStep
		})
	}
	return s
}

// straightened drops corners that lie off the line through their neighbours by
// no more than bent, which laps and rounding leave, where the region stays sound.
func straightened(s Shape) Shape {
	var out Shape
	for _, r := range s {
		var rings []Ring
		for _, ring := range r.Rings() {
			if ring = ring.straightened(bent); len(ring) >= 3 {
				rings = append(rings, ring)
			}
		}
		if len(rings) == 0 || len(Breaches(rings)) > 0 {
			out = append(out, r)
			continue
		}
		out = append(out, regionOf(rings))
	}
	return out.normalised()
}

// straightened drops, the least first, corners that lie within the given
// distance of the line through their neighbours.
func (r Ring) straightened(within float64) Ring {
	r = slices.Clone(r)
	for len(r) > 3 {
		least, at := within, -1
		for i, p := range r {
			base := Segment{r[(i+len(r)-1)%len(r)], r[(i+1)%len(r)]}
			if d := base.DistanceTo(p); d <= least && (d < least || at < 0) {
				least, at = d, i
			}
		}
		if at < 0 {
			break
		}
		r = slices.Delete(r, at, at+1)
	}
	return r
}

// Mass returns what is solid of a layer: the outline less its enclosed prisms,
// and less the seams between prisms that are open to each other.
func Mass(outline Shape, prisms []Prism, layer int) (Shape, error) {
	var enclosed []Prism
	var spaces Shape
	for _, p := range prisms {
		if p.Layer == layer && !p.Unenclosed {
			enclosed = append(enclosed, p)
			spaces = append(spaces, p.Base)
		}
	}
	f := newFacing(enclosed, ThickestWall)
	sights, _ := f.sights()
	var seams Shape
	for _, s := range sights {
		if w := f.wall(s); w.Open {
			seams = appendPiece(seams, w.seam()...)
		}
	}
	all, err := Union(spaces, seams)
	if err != nil {
		return nil, fmt.Errorf("geom: mass of layer %d: %w", layer, err)
	}
	s, err := Difference(outline, all)
	if err != nil {
		return nil, fmt.Errorf("geom: mass of layer %d: %w", layer, err)
	}
	return s, nil
}

// seam returns the corners of the ground between the faces, lapped over both prisms.
func (w Wall) seam() []Pt {
	near, far := lapped(w.FaceA.Reverse()), lapped(w.FaceB)
	return []Pt{near.B, near.A, far.B, far.A}
}
