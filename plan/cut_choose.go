package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/geom"
)

// What a line is worth.
const (
	// areaWorth weighs how evenly lines part the area against the ways that
	// they part; ground is fenced for its own sake.
	areaWorth       = 1.0
	areaWorthGround = 6.0
	// fullGroundM2 is the ground from which on its area counts in full.
	fullGroundM2 = 80.0
	// leastGain is the worth under which a line parts nothing of use: less
	// than a door from a closet, or ground too small to be worth a fence.
	leastGain       = 0.5
	leastGainGround = 2.0
	// sameWorth is the part by which a line must part more than one that is
	// preferred to it.
	sameWorth = 0.05
	// spokesTried bounds the pairs of lines that are tried on a ring.
	spokesTried = 16
)

// chooseCuts chooses the lines of a space, one after the other: each time the
// one that, with those before it, parts most, a wall for its length. What lines part
// is the worth of all pairs of ways, windows and neighbours that come to lie
// in different pieces (a way in from outdoors or a flight counts 2, a door 1, a
// closet's 0.5), and how evenly they part the area.
func (s *cutSpace) chooseCuts() spaceCuts {
	out := spaceCuts{space: s}
	most := cutsPerSpace
	if s.cell.Outdoor {
		most = cutsPerGround
	}
	var lines []cutLine
	whole := s.gain(geom.Shape{s.region})
	for len(lines) < most {
		step, ok := s.bestStep(lines, whole, most-len(lines))
		if !ok {
			break
		}
		lines = append(lines, step.lines...)
		whole += step.gain
		out.steps = append(out.steps, step)
	}
	return out
}

// bestStep finds the line, or the two lines across a ring, that part most.
func (s *cutSpace) bestStep(lines []cutLine, whole float64, most int) (cutStep, bool) {
	var best cutStep
	worth := 0.0
	try := func(more ...cutLine) {
		all := append(slices.Clone(lines), more...)
		pieces, ok := s.parted(all)
		if !ok || len(pieces) <= len(lines) {
			return
		}
		gain := s.gain(pieces) - whole
		length := 0.0
		for _, l := range more {
			length += l.length()
		}
		least := leastGain
		if s.cell.Outdoor {
			least = leastGainGround
		}
		// Prefers the earlier of two that are as good, which is the shorter.
		w := gain
		if !s.cell.Outdoor {
			w /= math.Sqrt(max(length, 1))
		}
		if gain < least-widthTolerance || w <= worth*(1+sameWorth) || !s.usable(pieces, all) {
			return
		}
		worth = w
		best = cutStep{lines: more, pieces: len(pieces) - s.count(lines), gain: gain}
	}
	for _, l := range s.lines {
		try(l)
	}
	for i, l := range s.spokes {
		try(l)
		if most < 2 || len(s.region.Holes) == 0 {
			continue
		}
		for _, m := range s.spokes[:i] {
			try(m, l)
		}
	}
	return best, best.lines != nil
}

// count is the number of pieces that lines make of the space.
func (s *cutSpace) count(lines []cutLine) int {
	if len(lines) == 0 {
		return 1
	}
	pieces, err := s.pieces(s.thickness, lines...)
	if err != nil {
		return 1
	}
	return len(pieces)
}

// gain is what pieces part.
func (s *cutSpace) gain(pieces geom.Shape) float64 {
	in := make([]uint64, len(s.marks))
	total, even := 0.0, 1.0
	for k, piece := range pieces {
		total += piece.AreaM2()
		for i := range s.marks {
			if m := &s.marks[i]; m.lengthIn(piece) >= min(m.least, m.length())-widthTolerance {
				in[i] |= 1 << min(k, 63)
			}
		}
	}
	for _, piece := range pieces {
		even -= math.Pow(piece.AreaM2()/total, 2)
	}
	sum := areaWorth * even
	if s.cell.Outdoor {
		sum = areaWorthGround * even
		if !s.forCars() {
			sum *= min(1, total/fullGroundM2)
		}
	}
	for i := range s.marks {
		for j := range i {
			if in[i] != 0 && in[j] != 0 && in[i]&in[j] == 0 {
				sum += s.marks[i].weight * s.marks[j].weight
			}
		}
	}
	return sum
}

// findLines finds the lines that part the space, of alternatives only one,
// and those that end at a hole, which part it two by two. A line with a corner
// is taken where no straight one parts the same ways; a fence has none.
func (s *cutSpace) findLines() {
	if s.cell.Outdoor {
		s.lines, s.spokes = s.alternatives(s.groundGuides(), nil)
		return
	}
	straight := s.guides()
	s.lines, s.spokes = s.alternatives(straight, nil)
	parted := map[string]bool{}
	for _, l := range s.lines {
		parted[s.signature(l, markWay)] = true
	}
	more, _ := s.alternatives(s.cornered(straight), parted)
	s.lines = append(s.lines, more...)
	s.sortLines(s.lines)
}

// alternatives keeps of the lines that leave the same things on the same sides
// the preferred one that can be used, in order of preference; but for those
// that part no other ways than has been done.
func (s *cutSpace) alternatives(all []cutLine, done map[string]bool) (lines, spokes []cutLine) {
	classes := map[string][]cutLine{}
	var names []string
	for _, l := range all {
		if !s.clearOf(l) || len(done) > 0 && done[s.signature(l, markWay)] {
			continue
		}
		class := s.signature(l, markFixture)
		if class == "" {
			continue
		}
		if classes[class] == nil {
			names = append(names, class)
		}
		classes[class] = append(classes[class], l)
	}
	slices.Sort(names)
	for _, name := range names {
		class := classes[name]
		s.sortLines(class)
		if strings.HasPrefix(name, spokePrefix) {
			spokes = append(spokes, class[0])
			continue
		}
		for _, l := range class {
			if pieces, ok := s.parted([]cutLine{l}); ok && len(pieces) > 1 && s.usable(pieces, []cutLine{l}) {
				lines = append(lines, l)
				break
			}
		}
	}
	s.sortLines(lines)
	s.sortLines(spokes)
	return lines, spokes[:min(len(spokes), spokesTried)]
}

const spokePrefix = "spoke "

// signature says which marks up to a kind a line leaves on which side, the
// same for alternatives; "" where one side has none. A line that ends at a
// hole parts nothing by itself; its signature is what it passes between.
func (s *cutSpace) signature(l cutLine, upTo cutMarkKind) string {
	side, ok := sideOf(s.region, l.points)
	if !ok {
		if len(s.region.Holes) == 0 {
			return ""
		}
		return spokePrefix + s.where(l)
	}
	var left, right []string
	var waysLeft, waysRight []int // where ways lead to
	for i := range s.marks {
		m := &s.marks[i]
		in, least := m.lengthIn(side), min(m.least, m.length())-widthTolerance
		if m.kind == markWay && in >= least {
			waysLeft = append(waysLeft, m.far)
		}
		if m.kind == markWay && m.length()-in >= least {
			waysRight = append(waysRight, m.far)
		}
	}
	for i := range s.marks {
		m := &s.marks[i]
		if m.kind > upTo {
			continue
		}
		// A wall for a new doorway tells sides apart where no way leads there yet.
		in, least := m.lengthIn(side), min(m.least, m.length())-widthTolerance
		if in >= least && (m.kind != markNeighbour || !slices.Contains(waysLeft, m.far)) {
			left = append(left, m.id)
		}
		if m.length()-in >= least && (m.kind != markNeighbour || !slices.Contains(waysRight, m.far)) {
			right = append(right, m.id)
		}
	}
	a, b := strings.Join(left, " "), strings.Join(right, " ")
	if upTo == markFixture && (a == "" || b == "") {
		return ""
	}
	return min(a, b) + " / " + max(a, b)
}

// lengthStep is the difference in length, in metres, up to which one line is
// as short as another and the better placed is taken.
const lengthStep = 0.05

// sortLines puts the preferred lines first: the shorter; of those about as
// long the one in line with a wall; then by what they go by and where they
// are, so that nothing hangs on the order in which they were found.
func (s *cutSpace) sortLines(lines []cutLine) {
	type key struct {
		step  int
		mm    int
		where string
	}
	keys := map[*geom.Pt]key{}
	keyOf := func(l cutLine) key {
		k, ok := keys[&l.points[0]]
		if !ok {
			cost := l.length()
			if l.rank == cornered {
				cost += cornerCost
			}
			k = key{int(math.Floor(cost/lengthStep + 0.2371)), wholeMillimetres(cost), s.where(l)}
			keys[&l.points[0]] = k
		}
		return k
	}
	slices.SortStableFunc(lines, func(l, m cutLine) int {
		k, n := keyOf(l), keyOf(m)
		return cmp.Or(
			cmp.Compare(k.step, n.step), cmp.Compare(l.rank, m.rank), cmp.Compare(k.mm, n.mm),
			cmp.Compare(l.why, m.why), cmp.Compare(k.where, n.where),
		)
	})
}

// where says where a line is by its distances from the space's marks, in
// decimetres.
func (s *cutSpace) where(l cutLine) string {
	var b strings.Builder
	for i := range s.marks {
		best := math.Inf(1)
		for _, leg := range l.legs() {
			for _, r := range s.marks[i].runs {
				best = min(best, leg.DistanceTo(r.Mid()))
			}
		}
		fmt.Fprintf(&b, "%04d ", int(math.Floor(best*10+0.2371)))
	}
	return b.String()
}
