package render

import (
	"slices"

	"github.com/tdewolff/canvas"

	"moiety/geom"
	"moiety/plan"
)

// demolition is what a scheme takes out of a level as surveyed.
type demolition struct {
	walls  []geom.Region
	breaks []placed // openings broken through standing walls
	count  int      // of everything taken out, leaves, windows and fixtures too
}

// demolish marks on a floor as surveyed what the scheme takes out of it: the
// leaves of doors that are sealed or replaced, walls, windows, fixtures, and
// the pieces of wall where new doors come.
func (f *floor) demolish(s *plan.Scheme) {
	d := &demolition{}
	f.demolition = d
	replaced := map[string]bool{}
	for _, w := range s.Works {
		replaced[w.Of] = replaced[w.Of] || (w.Kind == "new_door" || w.Kind == "new_entry") && w.Of != ""
	}
	for _, q := range s.Passages {
		if q.Door == nil || q.Level != f.level {
			continue
		}
		i := slices.IndexFunc(f.doors, func(o door) bool { return o.ID == q.Of })
		switch {
		case i >= 0 && !q.Door.Opening && (q.State == plan.Sealed || q.State == plan.Removed || replaced[q.Of]):
			if f.doors[i].state != plan.Removed {
				f.doors[i].state = plan.Removed
				d.count++
			}
		case i < 0 && q.State == plan.New && f.solidAlong(q.Line):
			d.breaks = append(d.breaks, f.inWall(q.Line))
			d.count++
		}
	}
	for _, r := range s.Walls {
		if r.Level == f.level && r.State == plan.Removed && !r.Fence && r.Thickness > 0 && r.Line.A != r.Line.B {
			d.walls = append(d.walls, strip(r.Line, 0, r.Line.Length(), r.Thickness/2))
			d.count++
		}
	}
	for _, w := range s.Windows {
		if w.State == plan.New && w.Level == f.level && f.solidAlong(w.Line) {
			d.breaks = append(d.breaks, f.inWall(w.Line))
			d.count++
		}
		for i := range f.windows {
			if f.windows[i].ID == w.ID && (w.State == plan.Removed || w.State == plan.Enlarged) {
				f.windows[i].goes = true
				d.count++
			}
		}
	}
	for _, x := range s.Fixtures {
		for i := range f.fixtures {
			if f.fixtures[i].ID == x.ID && x.State == plan.Removed {
				f.fixtures[i].state = plan.Removed
				d.count++
			}
		}
	}
}

// solidAlong tells whether a line runs in a wall as surveyed.
func (f *floor) solidAlong(l geom.Segment) bool { return f.solid(f.inWall(l).line.Mid()) }

// drawDemolition dashes the walls that go and the pieces broken out.
func (p *plot) drawDemolition() {
	d := p.demolition
	if d == nil {
		return
	}
	gone := &canvas.Path{}
	for _, r := range d.walls {
		gone = gone.Append(p.view.region(r))
		p.taken = append(p.taken, obstacle(p.view.points(r.Outer)))
	}
	p.sheet.both(layerHatch, white, line(medium).dashedBy(dashed), gone)
	if len(d.walls) > 0 {
		p.legend.add(entryRemoved)
	}
	for _, at := range d.breaks {
		q := at.rectangle(0)
		path := p.view.region(q)
		p.sheet.fill(layerOpening, white, path)
		p.sheet.stroke(layerOpening, line(medium).dashedBy(dashed), path)
		c := q.Outer
		p.sheet.stroke(layerOpening, line(hair), together(polyline(p.view.Paper(c[0]), p.view.Paper(c[2])), polyline(p.view.Paper(c[1]), p.view.Paper(c[3]))))
		p.legend.add(entryBreak)
	}
	for i := range p.windows {
		if w := &p.windows[i]; w.goes {
			p.sheet.stroke(layerSign, line(medium).dashedBy(dashed), p.view.region(w.at.rectangle(0.05)))
			p.legend.add(entryRemoved)
		}
	}
}

// demolitionFloors are the levels, as surveyed, out of which a scheme takes
// something; the others are noted.
func (p *project) demolitionFloors(surveyed []*floor) []*floor {
	var floors []*floor
	for _, f := range surveyed {
		g := *f
		g.doors, g.windows, g.fixtures = slices.Clone(f.doors), slices.Clone(f.windows), slices.Clone(f.fixtures)
		g.plain = true
		g.demolish(p.s)
		if g.demolition.count > 0 {
			floors = append(floors, &g)
		} else {
			p.untouched = append(p.untouched, g.level)
		}
	}
	return floors
}
