package plan

import (
	"math"

	"moiety/geom"
)

// Where an alarm hangs on a ceiling. What a rule set says comes before these.
const (
	// alarmOffWall is the distance from walls and light fittings (BS 5839-6, from
	// memory; NFPA 72 asks for less).
	alarmOffWall = 0.30
	// alarmFromCooking is the distance from what one cooks on (NFPA 72, from memory).
	alarmFromCooking = 3.0
	// alarmStep is the step of the places that are tried: nobody sets one out finer.
	alarmStep = 0.10
)

// place finds the place for an alarm in cells of one level: clear of walls,
// at the set's distance from bathroom doors, away from cooking, and as near to
// the farthest of the doors as that leaves; without doors, in the middle.
func (p *alarmPlan) place(kind AlarmKind, cells []int, near []geom.Pt) (geom.Pt, int) {
	baths, clear := p.bathDoors(p.b.Cells[cells[0]].Level), p.fromBathrooms()
	cooking := p.cookers(p.b.Cells[cells[0]].Level)
	var best geom.Pt
	bestCell, bestScore := cells[0], math.Inf(1)
	for _, c := range cells {
		region := p.b.Cells[c].Region
		centre, room := geom.VisualCentre(region)
		off := min(alarmOffWall, room*0.9)
		try := func(at geom.Pt) {
			if region.Contains(at) != geom.Inside || region.DistanceToBorder(at) < off-1e-6 {
				return
			}
			short, far := 0.0, 0.0
			if kind.smoke() {
				for _, door := range baths {
					short = max(short, (clear-door.DistanceTo(at))*1000)
				}
				for _, f := range cooking {
					short = max(short, (alarmFromCooking-f.Distance(at))*10)
				}
			}
			for _, d := range near {
				far = max(far, d.Distance(at))
			}
			// Of places as near to the doors, the one nearest the middle.
			score := math.Round((max(short, 0)+far+centre.Distance(at)/10)*1000) / 1000
			if score < bestScore {
				best, bestCell, bestScore = at, c, score
			}
		}
		try(centre)
		if len(near) == 0 && bestScore < alarmStep {
			continue // the middle will do
		}
		for _, at := range p.ceiling(c, centre) {
			try(at)
		}
	}
	return best, bestCell
}

// ceiling lists places all over a cell's ceiling, in rows along its longest
// side through the middle, so that they turn with the house.
func (p *alarmPlan) ceiling(c int, centre geom.Pt) []geom.Pt {
	region := p.b.Cells[c].Region
	var side geom.Segment
	for _, e := range region.Edges() {
		if e.Length() > side.Length()+1e-3 {
			side = e
		}
	}
	through := geom.Segment{A: centre, B: centre.Add(side.B.Sub(side.A))}
	reach := 0.0
	for _, q := range region.Outer {
		reach = max(reach, centre.Distance(q))
	}
	n := int(reach/alarmStep) + 1
	var out []geom.Pt
	for i := -n; i <= n; i++ {
		for j := -n; j <= n; j++ {
			if at := through.Beside(float64(i)*alarmStep, float64(j)*alarmStep); region.Contains(at) == geom.Inside {
				out = append(out, at)
			}
		}
	}
	return out
}

// fromBathrooms is the distance that the set asks for from a bathroom's door; 0 none.
func (p *alarmPlan) fromBathrooms() float64 {
	if f, ok := p.set.Get("smoke-bathroom-distance"); ok {
		return f.Value()
	}
	return 0
}

// bathDoors lists the doors and openings of bathrooms with a bath or shower on
// a level; where no fixtures were drawn, of every bathroom.
func (p *alarmPlan) bathDoors(level int) []geom.Segment {
	var out []geom.Segment
	for _, passage := range p.s.Passages {
		if passage.Level != level || passage.State == Sealed || passage.Type == "stair" {
			continue
		}
		for _, id := range passage.Between {
			if c := p.b.CellNamed(id); c >= 0 && p.used(c, Bathroom) {
				out = append(out, passage.Line)
			}
		}
	}
	return out
}

// cookers lists what one cooks on on a level.
func (p *alarmPlan) cookers(level int) []geom.Pt {
	var out []geom.Pt
	for i := range p.s.Fixtures {
		if f := &p.s.Fixtures[i]; f.Use == "range" && f.Level == level && f.State != Removed {
			out = append(out, f.centre())
		}
	}
	return out
}

// distance is how far it is, walked, from a place on one floor to a place on
// another: of the same level, through doors.
func (w *walks) distance(from, to int, a, b geom.Pt) (float64, bool) {
	if from == to {
		way, ok := w.way(from, a, b)
		return way.Length, ok
	}
	best, found := math.Inf(1), false
	for _, g := range w.ends[from] {
		for _, h := range w.ends[to] {
			if g != h {
				continue
			}
			gate := &w.gates[g]
			one, ok := w.way(from, a, gate.steps[gate.side(from)])
			two, also := w.way(to, gate.steps[gate.side(to)], b)
			if d := one.Length + two.Length + gate.steps[0].Distance(gate.steps[1]); ok && also && d < best {
				best, found = d, true
			}
		}
	}
	return best, found
}
