package plan

import (
	"math"

	"moiety/geom"
)

// piece is one fixture, or what stands in one place, with its back to a wall.
type piece struct {
	use        string
	wide, deep float64
	high       float64
	pipe       float64
	bay        float64 // width that is its own, about its middle; 0: its own width
	clear      float64 // width of the clear space before it
	centred    bool    // the clear space lies before its middle, else anywhere before it
	front      float64 // depth of the clear space
	corner     bool    // an end of it stands against another wall
}

// inCorner is how far from the end of a wall something still stands in the
// corner, in metres: walls lean, and a gap is filled.
const inCorner = 0.05

// bodies gives the parts of a piece but for its clear space.
func (p piece) bodies() []part {
	out := []part{{role: aBody, x: span{0, p.wide}, off: span{0, p.deep}, high: p.high, use: p.use, pipe: p.pipe}}
	if p.bay > p.wide {
		out = append(out, part{role: aBay, x: span{(p.wide - p.bay) / 2, (p.wide + p.bay) / 2}, off: span{0, p.deep}})
	}
	return out
}

// stand gives the options of a piece beside what was placed: its clear space
// lies before its middle or, where that is free to choose, to one side.
func (r *fitRoom) stand(p piece, variant int, done []placed) []placed {
	from := []float64{(p.wide - p.clear) / 2}
	if !p.centred && math.Abs(p.wide-p.clear) > fitTolerance {
		from = append(from, 0, p.wide-p.clear)
	}
	bodies := p.bodies()
	var out []placed
	for _, x := range from {
		clear := part{role: aClear, x: span{x, x + p.clear}, off: span{p.deep, p.deep + p.front}}
		out = append(out, r.along(append(bodies[:len(bodies):len(bodies)], clear), p.corner, variant, done)...)
	}
	if !p.corner {
		out = append(out, r.behindDoors(bodies, p.wide, p.front, variant, done)...)
	}
	return out
}

// before gives the options of bodies that need a clear space before their
// whole width.
func (r *fitRoom) before(bodies []part, wide, front float64, variant int, done []placed) []placed {
	deep := bodies[0].off.to
	clear := part{role: aClear, x: span{0, wide}, off: span{deep, deep + front}}
	out := r.along(append(bodies[:len(bodies):len(bodies)], clear), false, variant, done)
	return append(out, r.behindDoors(bodies, wide, front, variant, done)...)
}

// along gives the options of parts that belong together along one wall.
func (r *fitRoom) along(parts []part, corner bool, variant int, done []placed) []placed {
	body := parts[0]
	var out []placed
	for i := range r.runs {
		run := &r.runs[i]
		slots := r.slots(run, parts, done, nil)
		for _, at := range r.places(run, slots, body.x.to) {
			if corner {
				before := at <= inCorner && run.before >= body.off.to-inCorner
				after := at+body.x.to >= run.length-inCorner && run.after >= body.off.to-inCorner
				if !before && !after {
					continue
				}
			}
			p := placed{run: i, at: at, parts: r.put(i, at, parts), variant: variant}
			if r.drained(p.parts) {
				out = append(out, p)
			}
		}
	}
	return out
}

// behindDoors gives the options of bodies that stand behind the door of a
// closet and are used, and brought in, from before it: as wide as the door at
// most, with what their clear space lacks in the closet kept clear outside.
func (r *fitRoom) behindDoors(bodies []part, wide, front float64, variant int, done []placed) []placed {
	if !reachedInto(r.b.Cells[r.cell].Use) {
		return nil
	}
	deep := bodies[0].off.to
	var out []placed
	for _, o := range r.openings {
		side := &r.sides[o.side]
		for i := range r.runs {
			run := &r.runs[i]
			if run.in.dot(side.in) > -straightAcross {
				continue
			}
			inside := side.a.sub(run.a).dot(run.in) - deep
			if o.at.length() < wide-fitTolerance || inside < -fitTolerance || inside > front {
				continue
			}
			from, to := side.at(o.at.to).sub(run.a).dot(run.dir), side.at(o.at.from).sub(run.a).dot(run.dir)
			within := span{from - fitTolerance, to - wide + fitTolerance}
			var slots []span
			for _, s := range r.slots(run, bodies, done, o.door) {
				if s = s.overlap(within); s.length() >= 0 {
					slots = append(slots, s)
				}
			}
			clear := part{role: aClear, x: span{0, wide}, off: span{deep, deep + max(inside, 0)}}
			parts := append(bodies[:len(bodies):len(bodies)], clear)
			for _, at := range r.places(run, slots, wide) {
				p := placed{run: i, at: at, parts: r.put(i, at, parts), variant: variant}
				face := deep + inside + o.deep // of the wall, beyond the door
				if more := deep + front - face; more > fitTolerance {
					p.through = o.door
					p.beyond = run.rect(span{at, at + wide}, span{face, face + more})
					if !r.freeBeyond(o.other, p.beyond) {
						continue
					}
				}
				if r.drained(p.parts) && !p.clashes(done) {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// straightAcross is the cosine of the angle by which the wall behind a closet
// may be off the parallel to that of its door: five degrees.
const straightAcross = 0.996

// at is the spot along a side.
func (s *roomSide) at(along float64) spot { return s.a.add(s.dir.times(along)) }

// clashes tells whether a clear space meets a body placed.
func (p *placed) clashes(done []placed) bool {
	for _, q := range p.parts {
		for i := range done {
			for _, o := range done[i].all() {
				if q.meets(o.part) && q.patch.overlaps(o.patch) {
					return true
				}
			}
		}
	}
	return false
}

// freeBeyond tells whether a patch lies on the free floor of another room indoors.
func (r *fitRoom) freeBeyond(c int, p patch) bool {
	if c == Outside || r.b.Cells[c].Outdoor || r.b.Cells[c].Flight {
		return false
	}
	for _, s := range sidesOf(r.b.Cells[c].Region, r.frame) {
		if p.overlaps(patch{s.a, s.b}) {
			return false
		}
	}
	if r.b.Cells[c].Region.Contains(r.frame.out(p.centre())) == geom.Out {
		return false
	}
	for i := range r.b.House.Fixtures {
		f := &r.b.House.Fixtures[i]
		if r.b.FixtureCell[i] != c || f.Footprint == nil {
			continue
		}
		var corners []spot
		for _, q := range f.Footprint.Outer {
			corners = append(corners, r.frame.in(q))
		}
		if h := hull(corners); len(h) > 2 && h.overlaps(p) {
			return false
		}
	}
	return true
}
