package plan

import (
	"cmp"
	"math"
	"slices"

	"moiety/geom"
)

// face is a stretch of an edge of a space that runs beside a door or window,
// seen from its line: from and to along the line, off to the left of it.
type face struct {
	from, to       float64
	off, offAtTo   float64
	interiorIsLeft bool
	of             string // id of the space
}

// offAt is how far left of the line the face lies at t along the line.
func (f face) offAt(t float64) float64 {
	return f.off + (f.offAtTo-f.off)*(t-f.from)/(f.to-f.from)
}

// faces are the edges of all spaces, by level, to find the walls of lines among.
type faces struct {
	edges  []geom.Segment // interior on the left
	of     []string       // per edge: id of its space
	levels []geom.BoxIndex
}

// askew is the sine of the greatest angle between a door and its wall: that by
// which two faces of a wall may lean.
var askew = math.Sin(geom.FacingAngle * math.Pi / 180)

// facesOf indexes the edges of all spaces, and of flights on the levels of
// their foot and head, where they bound a void.
func facesOf(prints []footprint, levels int) *faces {
	f := &faces{levels: make([]geom.BoxIndex, levels)}
	for _, p := range prints {
		for _, e := range geom.Wound(p.region).Edges() {
			f.edges = append(f.edges, e)
			f.of = append(f.of, p.id)
			f.levels[p.level].Insert(e.Bounds(), len(f.edges)-1)
			if p.flight && p.to >= 0 && p.to != p.level {
				f.levels[p.to].Insert(e.Bounds(), len(f.edges)-1)
			}
		}
	}
	return f
}

// beside lists the faces beside the line, none farther than reach.
func (f *faces) beside(level int, line geom.Segment, reach float64) []face {
	var out []face
	length := line.Length()
	d := line.B.Sub(line.A)
	for _, i := range f.levels[level].Near(line.Bounds().Grow(geom.Units(reach))) {
		e := f.edges[i]
		v := e.B.Sub(e.A)
		sine := float64(d.Cross(v)) / (math.Hypot(float64(d.X), float64(d.Y)) * math.Hypot(float64(v.X), float64(v.Y)))
		if !(math.Abs(sine) <= askew) {
			continue
		}
		same := d.Dot(v) > 0
		if !same {
			e = e.Reverse()
		}
		g := face{from: line.Along(e.A), to: line.Along(e.B), off: line.Off(e.A), offAtTo: line.Off(e.B), interiorIsLeft: same, of: f.of[i]}
		from, to := math.Max(g.from, 0), math.Min(g.to, length)
		if to-from < geom.Coincide {
			continue
		}
		g.off, g.offAtTo = g.offAt(from), g.offAt(to)
		g.from, g.to = from, to
		out = append(out, g)
	}
	slices.SortFunc(out, func(a, b face) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to), cmp.Compare(a.off, b.off), cmp.Compare(a.of, b.of))
	})
	return out
}

// band is the thickness of a wall beside one place of a line: from low to high
// left of it. Where nothing faces the face, home is the face itself, otherwise
// the middle.
type band struct{ low, high, home float64 }

// off is how far the line lies outside of the band.
func (b band) off() float64 { return math.Max(0, math.Max(b.low, -b.high)) }

// bandsAt lists the walls beside the line at t along it. A face that nothing
// faces has its wall outwards, of unknown thickness: a line farther out than
// the thickest wall lies on none.
func bandsAt(all []face, t float64) []band {
	var left, right []float64 // faces by the side on which their space lies
	for _, f := range all {
		switch {
		case t < f.from || t > f.to:
		case f.interiorIsLeft:
			left = append(left, f.offAt(t))
		default:
			right = append(right, f.offAt(t))
		}
	}
	var out []band
	facesOne := func(off float64, others []float64, sign float64) (float64, bool) {
		best, found := 0.0, false
		for _, o := range others {
			if gap := sign * (off - o); gap >= -geom.Coincide && gap <= geom.ThickestWall+onLimit && (!found || gap < sign*(off-best)) {
				best, found = o, true
			}
		}
		return best, found
	}
	for _, off := range left {
		if o, ok := facesOne(off, right, 1); ok {
			out = append(out, band{math.Min(o, off), math.Max(o, off), (o + off) / 2})
		} else if low := off - geom.ThickestWall; low <= onLimit {
			out = append(out, band{low, off, off})
		}
	}
	for _, off := range right {
		if _, ok := facesOne(off, left, -1); !ok && off+geom.ThickestWall >= -onLimit {
			out = append(out, band{off, off + geom.ThickestWall, off})
		}
	}
	return out
}

// onWall says how a line lies to the walls of its level.
type onWall struct {
	on, off, none float64 // lengths of the line
	shift         float64 // to the left, that brings it home where it is off
	beside        float64 // how far off it is there
	past          float64 // length at one end beside which no wall runs
}

// find measures how a line lies to the walls beside it.
func (f *faces) find(level int, line geom.Segment) onWall {
	all := f.beside(level, line, geom.ThickestWall+farthestOffWall)
	length := line.Length()
	cuts := []float64{0, length}
	for _, g := range all {
		cuts = append(cuts, g.from, g.to)
	}
	slices.Sort(cuts)
	var w onWall
	longest, start, end := 0.0, -1.0, 0.0
	for i := 1; i < len(cuts); i++ {
		run := cuts[i] - cuts[i-1]
		if run < geom.Metres(1) {
			continue
		}
		best, found := band{}, false
		for _, b := range bandsAt(all, (cuts[i]+cuts[i-1])/2) {
			if b.off() <= farthestOffWall+onLimit && (!found || b.off() < best.off()) {
				best, found = b, true
			}
		}
		switch {
		case !found:
			w.none += run
			continue
		case best.off() <= geom.Coincide:
			w.on += run
		default:
			w.off += run
			if run > longest {
				longest, w.shift, w.beside = run, best.home, best.off()
			}
		}
		if start < 0 {
			start = cuts[i-1]
		}
		end = cuts[i]
	}
	if start >= 0 {
		w.past = math.Max(start, length-end)
	}
	return w
}

func (w onWall) length() float64 { return w.on + w.off + w.none }

// lies tells whether half of the line or more lies on walls.
func (w onWall) lies() bool { return w.on >= w.length()/2 }

// nearly tells whether it does so after it is moved.
func (w onWall) nearly() bool { return w.on+w.off >= w.length()/2 }
