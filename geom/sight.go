package geom

// sees tells, exactly, whether the straight line from p to q stays within the
// region, its border included. Both must not lie outside.
//
// The line leaves the region where it crosses a side, or where it passes a
// corner, or starts on the border, towards the wrong side of the border there.
func (r Region) sees(p, q Pt) bool {
	if p == q {
		return true
	}
	line := Segment{p, q}
	box := line.Bounds()
	for _, ring := range r.Rings() {
		n := len(ring)
		for i, a := range ring {
			b := ring[(i+1)%n]
			side := Segment{a, b}
			if !box.Meets(side.Bounds()) {
				continue
			}
			if Meet(line, side) == Crossed {
				return false
			}
			if line.On(a) {
				before := ring[(i+n-1)%n]
				if a != p && !inCorner(before, a, b, p) || a != q && !inCorner(before, a, b, q) {
					return false
				}
			}
			for _, end := range [...][2]Pt{{p, q}, {q, p}} {
				if end[0] != a && end[0] != b && side.On(end[0]) && Orient(a, b, end[1]) < 0 {
					return false
				}
			}
		}
	}
	return true
}

// inCorner tells whether towards lies, seen from the corner at, on the
// interior's side of the border that runs from before to after, or along it.
func inCorner(before, at, after, towards Pt) bool {
	leftOfFirst := Orient(before, at, towards) >= 0
	leftOfSecond := Orient(at, after, towards) >= 0
	if Orient(before, at, after) >= 0 {
		return leftOfFirst && leftOfSecond
	}
	return leftOfFirst || leftOfSecond
}
