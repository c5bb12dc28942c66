package geom

import (
	"cmp"
	"math"
	"slices"
)

// face is an edge of a prism; corners in which it does not turn do not part it.
type face struct {
	prism int
	Segment
}

// facing finds, for the faces of a set of prisms, which stretches look at each
// other across at most the given gap in metres.
type facing struct {
	prisms []Prism
	most   float64
	faces  []face
	index  *BoxIndex
}

func newFacing(prisms []Prism, most float64) *facing {
	f := &facing{prisms: prisms, most: most}
	for i, p := range prisms {
		for _, r := range p.Base.Rings() {
			for _, e := range r.withoutBends(bent).Edges() {
				f.faces = append(f.faces, face{i, e})
			}
		}
	}
	f.index = newIndex(len(f.faces), func(i int) Box { return f.faces[i].Bounds() })
	return f
}

// pair is two faces that look at each other, before anything between them is
// taken into account.
type pair struct {
	a, b int // faces
	frame
	near, far line // a and b in the frame
	whole     cut  // where they overlap
}

// gapAt returns the gap in the middle of a stretch.
func (p pair) gapAt(s span) float64 { return p.far.at(s.mid()) - p.near.at(s.mid()) }

// reach is the box in which everything lies that a face can look at.
func (f *facing) reach(s Segment) Box { return s.Bounds().Grow(Units(f.most + Coincide)) }

// pairs returns every two faces that look at each other, each once.
func (f *facing) pairs() []pair {
	var out []pair
	var near []int
	for i, e := range f.faces {
		near = f.index.near(f.reach(e.Segment), near)
		for _, j := range near {
			if j > i {
				if p, ok := f.pair(i, j); ok {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

var facingCosine = math.Cos(FacingAngle * math.Pi / 180)

// pair tells whether two faces look at each other, and where.
func (f *facing) pair(i, j int) (pair, bool) {
	a, b := f.faces[i], f.faces[j]
	if -a.direction().dot(b.direction()) < facingCosine {
		return pair{}, false
	}
	band, ok := f.band(a.prism, b.prism)
	if !ok {
		return pair{}, false
	}
	p := pair{a: i, b: j, frame: frameBetween(a.Segment, b.Segment)}
	p.near, ok = p.line(a.Segment)
	if !ok {
		return pair{}, false
	}
	p.far, ok = p.line(b.Segment)
	if !ok {
		return pair{}, false
	}
	least := -DeepestOverlap
	if a.prism == b.prism {
		least = Coincide // nearer, it is the inside of the prism that lies between
	}
	along := gap(p.near.and(p.far.span), p.near, p.far, least, f.most+settled)
	p.whole = cut{along, band}
	return p, along.length() > settled
}

// band returns the heights over which two prisms can have a wall between them.
// Outdoors has no ceiling: a wall to it is as high as the prism indoors, and
// one between two outdoor prisms as high as a person.
func (f *facing) band(i, j int) (span, bool) {
	a, b := f.prisms[i], f.prisms[j]
	switch {
	case a.Unenclosed && b.Unenclosed:
		low := max(a.Low, b.Low)
		return span{low, low + headHeight}, true
	case a.Unenclosed:
		return span{b.Low, b.High}, true
	case b.Unenclosed:
		return span{a.Low, a.High}, true
	}
	band := span{a.Low, a.High}.and(span{b.Low, b.High})
	return band, band.length() >= LowestWall-settled
}

// hidden returns the parts of a pair that another face hides.
func (f *facing) hidden(p pair, near []int) ([]cut, []int) {
	var cuts []cut
	near = f.index.near(f.strip(p), near)
	for _, k := range near {
		if k == p.a || k == p.b {
			continue
		}
		band, rival, ok := f.hides(p, f.faces[k].prism)
		if !ok {
			continue
		}
		if rival {
			cuts = append(cuts, f.outdone(p, k)...)
			continue
		}
		l, ok := p.line(f.faces[k].Segment)
		if !ok {
			continue
		}
		// A face that coincides with the near or far one and looks at it hides
		// what is behind it, too.
		before, behind := between, between
		switch c := f.faces[k].direction().dot(p.frame.along); {
		case c <= -facingCosine:
			before = -DeepestOverlap
		case c >= facingCosine:
			behind = -DeepestOverlap
		}
		along := gap(l.and(p.whole.along), p.near, l, before, math.Inf(1))
		along = gap(along, l, p.far, behind, math.Inf(1))
		if along.length() > 0 {
			cuts = append(cuts, cut{along, band})
		}
	}
	return cuts, near
}

// strip is the box in which everything lies that can hide a pair.
func (f *facing) strip(p pair) Box {
	box := p.on(p.near, p.whole.along).Bounds().Join(p.on(p.far, p.whole.along).Bounds())
	if f.prisms[f.faces[p.a].prism].Unenclosed != f.prisms[f.faces[p.b].prism].Unenclosed {
		box = box.Grow(Units(f.most)) // a rival may stand farther off
	}
	return box
}

// hides tells over which heights the prism k hides the faces of a pair from
// each other where it stands between them. Of two outdoor prisms before one
// indoors, the one whose floor is nearer in height is a rival of the other:
// it wins wherever it stands (a bedroom looks at its balcony, not at the yard
// that runs underneath), and the other hides nothing from it.
func (f *facing) hides(p pair, k int) (band span, rival, ok bool) {
	third := f.prisms[k]
	if !third.Unenclosed {
		return span{third.Low, third.High}, false, true
	}
	a, b := f.prisms[f.faces[p.a].prism], f.prisms[f.faces[p.b].prism]
	if a.Unenclosed == b.Unenclosed {
		if a.Unenclosed {
			return p.whole.band, false, true
		}
		return span{third.Low, math.Inf(1)}, false, true
	}
	if a.Unenclosed {
		a, b = b, a
	}
	here, there := math.Abs(b.Low-a.Low), math.Abs(third.Low-a.Low)
	switch {
	case there < here-sameFloor:
		return p.whole.band, true, true
	case there > here+sameFloor:
		return span{}, false, false
	}
	return p.whole.band, false, true
}

// outdone returns the part of a pair of an indoor and an outdoor face along
// which face k, a rival, looks at the indoor one too.
func (f *facing) outdone(p pair, k int) []cut {
	indoors := p.a
	if f.prisms[f.faces[p.a].prism].Unenclosed {
		indoors = p.b
	}
	other, ok := f.pair(indoors, k)
	if !ok {
		return nil
	}
	l, ok := p.line(other.on(other.near, other.whole.along))
	if !ok {
		return nil
	}
	return []cut{{l.span, p.whole.band}}
}

// sight is a stretch along which two faces see each other.
type sight struct {
	pair
	along, band span
}

// thickness is the gap in the middle.
func (s sight) thickness() float64 { return max(0, s.gapAt(s.along)) }

// sights returns what is left of the pairs behind what stands between, corner
// bits included, the thinnest first. A wall hides what lies behind its end: nobody looks along
// the inside of a wall at what lies beyond it.
func (f *facing) sights() ([]sight, *caps) {
	var all []sight
	var near []int
	for _, p := range f.pairs() {
		var cuts []cut
		cuts, near = f.hidden(p, near)
		all = appendSights(all, p, cuts)
	}
	slices.SortStableFunc(all, func(a, b sight) int { return cmp.Compare(a.thickness(), b.thickness()) })
	var seen []sight
	ends := new(caps)
	for from := 0; from < len(all); {
		to := from
		var batch []sight
		for ; to < len(all) && all[to].thickness() <= all[from].thickness()+Coincide; to++ {
			s := all[to]
			p := s.pair
			p.whole = cut{s.along, s.band}
			batch = appendSights(batch, p, ends.before(p))
		}
		for _, s := range batch {
			if !s.along.short() {
				ends.add(s)
			}
		}
		seen = append(seen, batch...)
		from = to
	}
	return seen, ends
}

func appendSights(to []sight, p pair, cuts []cut) []sight {
	for _, left := range patches(p.whole, cuts) {
		for _, band := range left.bands {
			if band.length() >= LowestWall-settled {
				to = append(to, sight{p, left.along, band})
			}
		}
	}
	return to
}
