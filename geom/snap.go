package geom

import (
	"cmp"
	"slices"
)

// Snap brings the corners of neighbouring regions together: corners of
// different rings within the tolerance (metres) become one, and a corner
// within it of another ring's edge is moved onto that edge, which gets a corner
// there. The closest go first. A step that would make a region unsound is left
// out; corners of one ring are never brought together. The result has the
// regions in the same order; none is changed in place.
func Snap(regions []Region, tolerance float64) []Region {
	s := newSnapper(regions, tolerance)
	s.joinCorners()
	s.nodeEdges()
	return s.regions()
}

// snapper holds the rings as lists of shared corners.
type snapper struct {
	tolerance float64
	at        []Pt    // per corner
	rings     [][]int // corners per ring
	region    []int   // per ring
	first     []int   // per region: its outer ring; the holes follow
	users     [][]int // per corner: the rings that have it
}

func newSnapper(regions []Region, tolerance float64) *snapper {
	s := &snapper{tolerance: tolerance}
	number := make(map[Pt]int)
	for i, r := range regions {
		s.first = append(s.first, len(s.rings))
		for _, ring := range r.Rings() {
			var ids []int
			for _, p := range ring {
				id, ok := number[p]
				if !ok {
					id = len(s.at)
					number[p] = id
					s.at = append(s.at, p)
					s.users = append(s.users, nil)
				}
				if !slices.Contains(s.users[id], len(s.rings)) {
					s.users[id] = append(s.users[id], len(s.rings))
				}
				ids = append(ids, id)
			}
			s.rings = append(s.rings, ids)
			s.region = append(s.region, i)
		}
	}
	return s
}

func (s *snapper) ring(i int) Ring {
	r := make(Ring, len(s.rings[i]))
	for k, id := range s.rings[i] {
		r[k] = s.at[id]
	}
	return r
}

func (s *snapper) regions() []Region {
	out := make([]Region, len(s.first))
	for i := range out {
		rings := s.ringsOf(i)
		out[i] = regionOf(rings)
	}
	return out
}

func (s *snapper) ringsOf(region int) []Ring {
	var out []Ring
	for i := s.first[region]; i < len(s.rings) && s.region[i] == region; i++ {
		out = append(out, s.ring(i))
	}
	return out
}

// sound tells whether the regions of these rings have no breach and kept their winding.
func (s *snapper) sound(rings []int) bool {
	var checked []int
	for _, i := range rings {
		region := s.region[i]
		if slices.Contains(checked, region) {
			continue
		}
		checked = append(checked, region)
		of := s.ringsOf(region)
		if len(Breaches(of)) > 0 {
			return false
		}
		for k, r := range of {
			if r.CounterClockwise() != (k == 0) || len(r.RepeatedCorners()) > 0 {
				return false
			}
		}
	}
	return true
}

// closeTo is a corner near another corner, or near a ring.
type closeTo struct {
	corner, other int
	distance      float64
}

// sorted orders by distance, then by place.
func (s *snapper) sorted(found []closeTo, other func(int) Pt) []closeTo {
	slices.SortFunc(found, func(a, b closeTo) int {
		return cmp.Or(
			cmp.Compare(a.distance, b.distance),
			comparePts(s.at[a.corner], s.at[b.corner]),
			comparePts(other(a.other), other(b.other)),
			cmp.Compare(a.other, b.other),
		)
	})
	return found
}

// joinCorners makes one corner of those within the tolerance; it stays where
// more rings have it.
func (s *snapper) joinCorners() {
	x := newIndex(len(s.at), func(i int) Box { return Box{s.at[i], s.at[i]} })
	var found []closeTo
	var near []int
	for i, p := range s.at {
		near = x.near(Box{p, p}.Grow(Units(s.tolerance)), near)
		for _, j := range near {
			if d := p.Distance(s.at[j]); j > i && d <= s.tolerance {
				found = append(found, closeTo{i, j, d})
			}
		}
	}
	gone := make([]bool, len(s.at))
	for _, c := range s.sorted(found, func(i int) Pt { return s.at[i] }) {
		keep, drop := c.corner, c.other
		if n, m := len(s.users[keep]), len(s.users[drop]); m > n || (m == n && s.at[drop].Less(s.at[keep])) {
			keep, drop = drop, keep
		}
		if !gone[keep] && !gone[drop] {
			gone[drop] = s.join(keep, drop)
		}
	}
}

// join puts keep in the place of drop, unless a ring has both or becomes unsound.
func (s *snapper) join(keep, drop int) bool {
	for _, r := range s.users[drop] {
		if slices.Contains(s.users[keep], r) {
			return false
		}
	}
	s.replace(drop, keep)
	if !s.sound(s.users[drop]) {
		for _, r := range s.users[drop] {
			for k, id := range s.rings[r] {
				if id == keep {
					s.rings[r][k] = drop
				}
			}
		}
		return false
	}
	s.users[keep] = append(s.users[keep], s.users[drop]...)
	return true
}

func (s *snapper) replace(drop, keep int) {
	for _, r := range s.users[drop] {
		for k, id := range s.rings[r] {
			if id == drop {
				s.rings[r][k] = keep
			}
		}
	}
}

// nodeEdges moves corners onto the edges of other rings that they lie near.
func (s *snapper) nodeEdges() {
	type edge struct {
		ring int
		Segment
	}
	var edges []edge
	used := make([]bool, len(s.at))
	for i := range s.rings {
		for _, e := range s.ring(i).Edges() {
			edges = append(edges, edge{i, e})
		}
		for _, id := range s.rings[i] {
			used[id] = true
		}
	}
	x := newIndex(len(edges), func(i int) Box { return edges[i].Bounds() })
	var found []closeTo
	var near []int
	for id, p := range s.at {
		if !used[id] {
			continue
		}
		near = x.near(Box{p, p}.Grow(Units(s.tolerance)), near)
		for _, k := range near {
			if d := edges[k].DistanceTo(p); d <= s.tolerance && !slices.Contains(s.users[id], edges[k].ring) {
				found = append(found, closeTo{id, edges[k].ring, d})
			}
		}
	}
	for _, c := range s.sorted(found, func(ring int) Pt { return s.at[s.rings[ring][0]] }) {
		if !slices.Contains(s.users[c.corner], c.other) {
			s.noded(c.corner, c.other)
		}
	}
}

// noded moves the corner onto the nearest edge of the ring and into it, unless
// it lies at an end or a region becomes unsound.
func (s *snapper) noded(corner, ring int) {
	p := s.at[corner]
	best, after := s.tolerance, -1
	for k, e := range s.ring(ring).Edges() {
		along := e.Along(p)
		if d := e.DistanceTo(p); d <= best && along > s.tolerance && along < e.Length()-s.tolerance {
			best, after = d, k
		}
	}
	if after < 0 {
		return
	}
	old := s.rings[ring]
	e := s.ring(ring).Edges()[after]
	s.at[corner] = e.Nearest(p)
	s.rings[ring] = slices.Insert(slices.Clone(old), after+1, corner)
	s.users[corner] = append(s.users[corner], ring)
	if !s.sound(s.users[corner]) {
		s.at[corner] = p
		s.rings[ring] = old
		s.users[corner] = s.users[corner][:len(s.users[corner])-1]
	}
}
