package geom

import "fmt"

// BreachKind is a way in which rings fail to bound a region.
type BreachKind int

// The kinds of breach.
const (
	FewCorners   BreachKind = iota + 1 // fewer than three distinct corners
	ZeroArea                           // corners all on one line
	SelfCrossing                       // the line crosses itself
	SelfTouching                       // the line touches itself or runs back along itself
	HoleOutside                        // a hole leaves the outer ring or runs along it
	HoleOverlap                        // holes overlap or run along each other
)

func (k BreachKind) String() string {
	switch k {
	case FewCorners:
		return "fewer than three distinct corners"
	case ZeroArea:
		return "zero area"
	case SelfCrossing:
		return "self-crossing"
	case SelfTouching:
		return "self-touching"
	case HoleOutside:
		return "hole outside"
	case HoleOverlap:
		return "holes overlapping"
	}
	return fmt.Sprintf("breach %d", int(k))
}

// Breach is one failure and the place where it shows.
type Breach struct {
	Kind BreachKind
	Ring int // 0 is the outer ring, 1 the first hole
	At   Pt
}

// Breaches checks the rings of a region, the outer first, in either winding,
// and returns for each ring the first place of each kind of breach; none means
// that Wound of them is a sound region. Repeated corners are no breach (see
// RepeatedCorners), and holes may touch the outer ring and each other in
// single points. Exact; near-linear in the number of corners where few edges meet.
func Breaches(rings []Ring) []Breach {
	var c ringCheck
	for i, r := range rings {
		r = r.WithoutRepeats()
		c.rings = append(c.rings, r)
		if c.poor(i, r) {
			continue
		}
		for k := range r {
			c.sides = append(c.sides, side{i, k})
		}
	}
	c.compareSides()
	c.compareRings()
	return c.sorted(len(rings))
}

// side is one edge of one ring.
type side struct{ ring, edge int }

type ringCheck struct {
	rings []Ring
	sides []side
	found map[Breach]bool // with At left out: which kinds a ring has
	list  []Breach
}

func (c *ringCheck) add(kind BreachKind, ring int, at Pt) {
	key := Breach{Kind: kind, Ring: ring}
	if c.found == nil {
		c.found = make(map[Breach]bool)
	}
	if !c.found[key] {
		c.found[key] = true
		c.list = append(c.list, Breach{kind, ring, at})
	}
}

// poor reports a ring that bounds nothing, which needs no further check.
func (c *ringCheck) poor(i int, r Ring) bool {
	distinct := make(map[Pt]bool)
	for _, p := range r {
		distinct[p] = true
	}
	if len(distinct) < 3 {
		var at Pt
		if len(r) > 0 {
			at = r[0]
		}
		c.add(FewCorners, i, at)
		return true
	}
	for _, p := range r[2:] {
		if Orient(r[0], r[1], p) != 0 {
			return false
		}
	}
	c.add(ZeroArea, i, r[0])
	return true
}

func (c *ringCheck) corner(s side, step int) Pt {
	r := c.rings[s.ring]
	return r[(s.edge+step+len(r))%len(r)]
}

func (c *ringCheck) segment(s side) Segment { return Segment{c.corner(s, 0), c.corner(s, 1)} }

func (c *ringCheck) compareSides() {
	x := newIndex(len(c.sides), func(i int) Box { return c.segment(c.sides[i]).Bounds() })
	var near []int
	for i, s := range c.sides {
		near = x.near(c.segment(s).Bounds(), near)
		for _, j := range near {
			if j > i {
				c.compare(s, c.sides[j])
			}
		}
	}
}

// compare reports what two sides do to each other.
func (c *ringCheck) compare(s, t side) {
	a, b := c.segment(s), c.segment(t)
	meet := Meet(a, b)
	if meet == Apart {
		return
	}
	at := meetingPoint(a, b, meet)
	if s.ring != t.ring {
		if meet == Crossed || meet == Overlaid || c.crossAt(s, t, at) {
			c.add(holeKind(s.ring), max(s.ring, t.ring), at)
		}
		return
	}
	n := len(c.rings[s.ring])
	next := t.edge == s.edge+1 || (s.edge == 0 && t.edge == n-1)
	switch {
	case meet == Overlaid:
		c.add(SelfTouching, s.ring, at)
	case next:
	case meet == Crossed || c.crossAt(s, t, at):
		c.add(SelfCrossing, s.ring, at)
	default:
		c.add(SelfTouching, s.ring, at)
	}
}

func holeKind(lower int) BreachKind {
	if lower == 0 {
		return HoleOutside
	}
	return HoleOverlap
}

// meetingPoint returns a point that both segments have.
func meetingPoint(a, b Segment, meet Crossing) Pt {
	if meet == Crossed {
		at, _ := CrossingPoint(a, b)
		return at
	}
	for _, p := range []Pt{a.A, a.B, b.A} {
		if a.On(p) && b.On(p) {
			return p
		}
	}
	return b.B
}

// crossAt tells whether the lines of which s and t are sides change over to
// each other's other side in p, which both sides hold. Where they leave p in
// the same direction they run along each other, which is told of elsewhere.
func (c *ringCheck) crossAt(s, t side, p Pt) bool {
	sIn, sOut := c.through(s, p)
	tIn, tOut := c.through(t, p)
	for _, a := range []Pt{sIn, sOut} {
		for _, b := range []Pt{tIn, tOut} {
			if Orient(p, a, b) == 0 && (Segment{p, a}).Along(b) > 0 {
				return false
			}
		}
	}
	return turnsWithin(p, sIn, sOut, tIn) != turnsWithin(p, sIn, sOut, tOut)
}

// through returns the corners before and after p on the line of s.
func (c *ringCheck) through(s side, p Pt) (in, out Pt) {
	in, out = c.corner(s, 0), c.corner(s, 1)
	switch p {
	case in:
		in = c.corner(s, -1)
	case out:
		out = c.corner(s, 2)
	}
	return in, out
}

// turnsWithin tells whether the direction from p to q lies left of the path
// from in over p to out.
func turnsWithin(p, in, out, q Pt) bool {
	if Orient(in, p, out) >= 0 {
		return Orient(in, p, q) > 0 && Orient(p, out, q) > 0
	}
	return Orient(in, p, q) > 0 || Orient(p, out, q) > 0
}

// compareRings finds rings that lie apart or one in the other without their
// sides crossing.
func (c *ringCheck) compareRings() {
	sound := func(i int) bool {
		return !c.found[Breach{Kind: FewCorners, Ring: i}] && !c.found[Breach{Kind: ZeroArea, Ring: i}]
	}
	if len(c.rings) < 2 {
		return
	}
	x := newIndex(len(c.rings), func(i int) Box {
		if i == 0 || !sound(i) {
			return noBox
		}
		return c.rings[i].Bounds()
	})
	var near []int
	for i := 1; i < len(c.rings); i++ {
		if !sound(i) {
			continue
		}
		if at, ok := c.probe(i, 0, Out); ok && sound(0) {
			c.add(HoleOutside, i, at)
		}
		near = x.near(c.rings[i].Bounds(), near)
		for _, j := range near {
			if i == j {
				continue
			}
			if at, ok := c.probe(i, j, Inside); ok {
				c.add(HoleOverlap, max(i, j), at)
			}
		}
	}
}

// probe returns a corner or the middle of a side of ring i that has the
// position wanted in ring j.
func (c *ringCheck) probe(i, j int, wanted Position) (Pt, bool) {
	r := c.rings[i]
	border := 0
	for k, p := range r {
		at := c.rings[j].position(p)
		if at == wanted {
			return p, true
		}
		if at != Border {
			return Pt{}, false // the rest has the same position, or a side crosses
		}
		border = k
	}
	if border == len(r)-1 {
		for _, e := range r.Edges() {
			if mid := e.Mid(); c.rings[j].position(mid) == wanted {
				return mid, true
			}
		}
	}
	return Pt{}, false
}

// sorted lists what was found by ring and kind.
func (c *ringCheck) sorted(rings int) []Breach {
	var out []Breach
	for ring := range rings {
		for kind := FewCorners; kind <= HoleOverlap; kind++ {
			for _, b := range c.list {
				if b.Ring == ring && b.Kind == kind {
					out = append(out, b)
				}
			}
		}
	}
	return out
}
