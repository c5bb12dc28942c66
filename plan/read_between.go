package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// checkBetween checks what features are to each other: overlaps, ceilings
// under floors, doors on walls, flights into spaces.
func (s *survey) checkBetween() {
	for _, check := range []func(){s.checkPairs, s.checkOnWalls, s.checkLandings} {
		if !s.hopeless() {
			check()
		}
	}
}

// hopeless tells whether enough is wrong to stop comparing.
func (s *survey) hopeless() bool { return len(s.problems.List)+len(s.house.Warnings) > mostProblems }

// checkPairs compares all footprints that meet on the plan, each pair once,
// and reports at the later one of the file.
func (s *survey) checkPairs() {
	var tree geom.BoxIndex
	for i, p := range s.prints {
		if !p.sound {
			continue
		}
		box := p.region.Bounds()
		for _, j := range tree.Near(box) {
			if s.hopeless() {
				return
			}
			s.checkPair(s.prints[j], p)
		}
		tree.Insert(box, i)
	}
}

// checkPair takes footprints in the order of the file.
func (s *survey) checkPair(p, q footprint) {
	sameLevel := p.level == q.level
	low, high := p, q
	if low.floor > high.floor {
		low, high = high, low
	}
	through := !sameLevel && !s.noFloor[p.level] && !s.noFloor[q.level] && !p.flight && !q.flight && !s.ground(high) && low.floor+low.height > high.floor+ceilingSlack
	if !sameLevel && !through {
		return
	}
	shared, err := geom.Intersection(geom.Shape{p.region}, geom.Shape{q.region})
	sc := s.scope
	sc.about = q.id
	if err != nil {
		sc.bad(q.n, "cannot be compared with %s: %v", quoteUnlessPlain(p.id), err)
		return
	}
	area := shared.AreaM2()
	if area <= mostOverlap {
		return
	}
	box := shared.Bounds()
	where := "between " + s.at(box.Min) + " and " + s.at(box.Max)
	switch {
	case through && slices.Contains(s.guessed, low.space) && high.floor-low.floor >= leastGarageHeight:
		// Nobody measured the lower ceiling: it lies under that floor.
		guess := &s.house.Spaces[low.space]
		guess.Height = math.Min(guess.Height, high.floor-low.floor)
	case through:
		sc.bad(q.n, "the ceiling of %s (%s) lies above the floor of %s (%s) where they overlap by %s, %s; check the floors and heights of their levels",
			quoteUnlessPlain(low.id), s.length(low.floor+low.height), quoteUnlessPlain(high.id), s.length(high.floor), s.area(area), where)
	case p.flight || q.flight:
		s.warn(q.id, "%s and %s overlap by %s on level %s, %s; that ground counts for both",
			quoteUnlessPlain(p.id), quoteUnlessPlain(q.id), s.area(area), quoteUnlessPlain(s.levelIDs[p.level]), where)
	default:
		sc.bad(q.n, "overlaps %s on level %s by %s, %s",
			quoteUnlessPlain(p.id), quoteUnlessPlain(s.levelIDs[p.level]), s.area(area), where)
	}
}

// ground tells whether a footprint is open ground, which is no floor above a
// basement: it is drawn around a house or through below it.
func (s *survey) ground(p footprint) bool {
	return p.height == 0 && s.house.Levels[p.level].Outdoor
}

// checkLandings checks that each flight's foot and head lead to a space.
func (s *survey) checkLandings() {
	var spaces geom.BoxIndex
	for i, p := range s.prints {
		if !p.flight {
			spaces.Insert(p.region.Bounds(), i)
		}
	}
	for i, st := range s.house.Stairs {
		if len(st.Walk) < 2 || len(st.Region.Outer) < 3 || st.To < 0 || st.Level < 0 {
			continue
		}
		sc := s.scope
		sc.about = st.ID
		for _, head := range []bool{false, true} {
			end, level, at := "foot", st.Level, st.Walk[0]
			if head {
				end, level, at = "head", st.To, st.Walk[len(st.Walk)-1]
			}
			spaceAt := func(p geom.Pt) bool {
				return slices.ContainsFunc(spaces.Near(geom.Box{Min: p, Max: p}), func(i int) bool {
					return s.prints[i].level == level && s.prints[i].region.Contains(p) != geom.Out
				})
			}
			if _, ok := st.landing(head, spaceAt); !ok && !s.doubtful(geom.Segment{A: at, B: at}.Bounds(), level) {
				sc.bad(s.nodes.stairs[i].get("properties").get("walk"),
					"the %s at %s reaches no space: none of level %s begins within %s beyond the end of walk",
					end, s.at(at), quoteUnlessPlain(s.levelIDs[level]), s.length(landingReach))
			}
		}
	}
}

// landing looks straight on from the foot or head of the flight for the first
// point that a space holds: from the end of the walk, through the rest of the
// footprint, to landingReach beyond it.
func (st Stair) landing(head bool, spaceAt func(geom.Pt) bool) (geom.Pt, bool) {
	n := len(st.Walk)
	end, before := st.Walk[0], st.Walk[1]
	if head {
		end, before = st.Walk[n-1], st.Walk[n-2]
	}
	ahead := geom.Segment{A: before, B: end}
	from := ahead.Length()
	beyond := 0.0
	for along := from; along <= from+longestFlight && beyond <= landingReach; along += landingStep {
		p := ahead.At(along)
		if st.Region.Contains(p) == geom.Inside {
			beyond = 0
			continue
		}
		if spaceAt(p) {
			return p, true
		}
		beyond += landingStep
	}
	return geom.Pt{}, false
}
