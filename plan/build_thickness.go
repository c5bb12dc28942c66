package plan

import (
	"math"
	"slices"

	"moiety/geom"
)

// findThickness takes the thickness of the walls that face nothing from what
// the survey shows of them: a door, window or wall mark drawn along the middle
// of such a wall lies half the thickness outside its face, and an outdoor
// space begins at the outer face. What is typical of all is the house's.
func (b *builder) findThickness() error {
	var seen []float64
	sample := func(w geom.Wall, offset float64, gap float64) {
		switch {
		case gap >= leastOffset && gap <= thickest && (offset < leastOffset || offset > 0.75*gap):
			seen = append(seen, gap) // nothing drawn on it, or drawn on its outer face
		case offset >= leastOffset && 2*offset <= thickest:
			seen = append(seen, 2*offset)
		}
	}
	marked := map[int]bool{}
	for _, line := range b.linesAlong() {
		i, offset := b.exposedAt(line.line, line.level)
		if i < 0 {
			continue
		}
		marked[i] = true
		sample(b.faces[i], offset, b.outdoorGap(b.faces[i]))
	}
	for i, w := range b.faces {
		if w.B == geom.Exposed && !marked[i] {
			sample(w, 0, b.outdoorGap(w))
		}
	}
	if len(seen) == 0 {
		b.ExteriorThickness = usualExterior
		b.warn("", "nothing in the survey shows how thick the exterior walls are: %.2f m is taken", usualExterior)
		return nil
	}
	b.ExteriorThickness = math.Round(typical(seen)*1000) / 1000
	return nil
}

// typical is the mean of the values that agree with their median within the
// reading of a tape, so that half a millimetre of rounding evens out.
func typical(values []float64) float64 {
	slices.Sort(values)
	median := values[(len(values)-1)/2]
	sum, n := 0.0, 0
	for _, v := range values {
		if math.Abs(v-median) <= geom.Coincide {
			sum, n = sum+v, n+1
		}
	}
	return sum / float64(n)
}

// lineAlong is a line that was drawn along a wall.
type lineAlong struct {
	line  geom.Segment
	level int
}

// linesAlong lists what was drawn along walls.
func (b *builder) linesAlong() []lineAlong {
	var out []lineAlong
	for _, d := range b.House.Doors {
		out = append(out, lineAlong{d.Line, d.Level})
	}
	for _, w := range b.House.Windows {
		out = append(out, lineAlong{w.Line, w.Level})
	}
	for _, m := range b.House.Walls {
		for i := range len(m.Line) - 1 {
			out = append(out, lineAlong{geom.Segment{A: m.Line[i], B: m.Line[i+1]}, m.Level})
		}
	}
	return out
}

// exposedAt finds the exposed face along whose outside a line was drawn, and
// the distance between them; -1 where there is none.
func (b *builder) exposedAt(line geom.Segment, level int) (face int, offset float64) {
	face, offset = -1, math.Inf(1)
	d := along(line)
	mid := line.Mid()
	for i, w := range b.faces {
		if w.B != geom.Exposed || b.solids[w.A].level != level {
			continue
		}
		at, off := w.FaceA.Along(mid), -w.FaceA.Off(mid)
		if at < 0 || at > w.FaceA.Length() || off < -geom.Coincide || off > thickest {
			continue
		}
		if f := along(w.FaceA); math.Abs(f.dx*d.dx+f.dy*d.dy) < 0.999 {
			continue
		}
		if off < offset-1e-6 {
			face, offset = i, off
		}
	}
	return face, max(offset, 0)
}

// outdoorGap measures from an exposed face to the outdoor space that it looks
// on, where that runs parallel; 0 where there is none.
func (b *builder) outdoorGap(w geom.Wall) float64 {
	gap := 0.0
	for i, part := range [...]float64{0.5, 0.25, 0.75} {
		r := across(w.FaceA, part*w.FaceA.Length()).back()
		nearest := math.Inf(1)
		for _, s := range b.solidsNear(r, thickest) {
			if !b.outdoor(s) || b.solids[s].floor > w.High {
				continue
			}
			for _, c := range r.cut(b.solids[s].Base) {
				if c.from >= -geom.Coincide && c.from < nearest {
					nearest = c.from
				}
			}
		}
		if nearest > thickest || (i > 0 && math.Abs(nearest-gap) > geom.Coincide) {
			return 0
		}
		if i == 0 {
			gap = nearest
		}
	}
	return gap
}
