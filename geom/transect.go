package geom

import "slices"

// Along gives the stretches of a segment that lie in the shape, in metres from
// its start and in order. Stretches that meet are one; where the segment runs
// along the border it counts as inside on one side only.
func (s Shape) Along(line Segment) [][2]float64 {
	if line.A == line.B {
		return nil
	}
	length := line.Length()
	cuts := []float64{0, length}
	for _, e := range s.Edges() {
		y0, y1 := line.Off(e.A), line.Off(e.B)
		if (y0 > 0) == (y1 > 0) {
			continue
		}
		x0, x1 := line.Along(e.A), line.Along(e.B)
		if x := x0 + (x1-x0)*y0/(y0-y1); x > 0 && x < length {
			cuts = append(cuts, x)
		}
	}
	slices.Sort(cuts)
	var out [][2]float64
	for i := range len(cuts) - 1 {
		from, to := cuts[i], cuts[i+1]
		if to-from < Coincide || s.Contains(line.At((from+to)/2)) == Out {
			continue
		}
		if n := len(out); n > 0 && from-out[n-1][1] < Coincide {
			out[n-1][1] = to
			continue
		}
		out = append(out, [2]float64{from, to})
	}
	return out
}
