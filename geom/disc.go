package geom

// discStep is the precision to which the place of a disc is searched.
const discStep = 0.0005

// HoldsDisc tells whether a disc of the given radius in metres lies somewhere
// in the region; a region that lacks less than discStep to it may be said to
// hold none. It is what VisualCentre's clearance tells, found sooner.
func (r Region) HoldsDisc(radius float64) bool {
	if len(r.Outer) < 3 {
		return false
	}
	found := false
	search(r,
		func(s *square) bool {
			found = found || s.clearance >= radius
			s.rank = -(s.clearance + s.reach())
			return -s.rank >= radius
		},
		func(s square) (halve, stop bool) {
			return Metres(s.half) > discStep, found
		})
	return found
}
