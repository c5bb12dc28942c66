package plan

import (
	"fmt"

	"moiety/geom"
	"moiety/plan/services"
)

// envelope is what a unit loses heat through, in square metres, and the air
// that it holds.
type envelope struct {
	wallM2       float64 // to the outdoors, without windows and doors
	belowGradeM2 float64 // walls against the earth
	coldWallM2   float64 // to unheated rooms
	windowM2     float64
	doorM2       float64
	roofM2       float64
	groundM2     float64 // floors on the earth or over a crawl space
	openM2       float64 // floors over the open
	coldFloorM2  float64 // floors over, and ceilings under, unheated rooms
	volumeM3     float64
	heatedM2     float64
	basementM2   float64 // of the heated area, below grade
}

// overTheOpen is how high above the ground a floor with nothing under it is
// taken to be over the open, in metres; a lower one stands on the earth or over
// a crawl space (common practice, no source).
const overTheOpen = 1.2

// heated tells whether a cell is heated as the scheme uses it: a rough space
// that becomes a room is.
func (s *Scheme) heated(c int) bool {
	cell := &s.Building.Cells[c]
	return !cell.Outdoor && s.Uses[c] != Garage && (cell.Heated || s.Uses[c] != cell.Use)
}

// envelopeOf measures a unit's envelope. What lies against the other unit or a
// heated room that both share is no part of it.
func (s *Scheme) envelopeOf(u Owner) (envelope, error) {
	var e envelope
	b := s.Building
	mine := func(c int) bool { return c != Outside && s.Owners[c] == u && s.heated(c) }
	grade, known := b.grade()
	for _, l := range b.Links {
		switch {
		case l.Kind == LinkExterior && mine(l.U):
			ground, said := grade, known
			if l.V != Outside {
				ground, said = b.Cells[l.V].Floor, true
			}
			below := 0.0
			if said && l.Height > 0 {
				below = min(max(ground-l.low, 0), l.Height) / l.Height
			}
			e.belowGradeM2 += l.AreaM2 * below
			e.wallM2 += l.AreaM2 * (1 - below)
		case l.V == Outside || b.Cells[l.U].Outdoor || b.Cells[l.V].Outdoor || s.heated(l.U) == s.heated(l.V):
		case !mine(l.U) && !mine(l.V):
		case l.Kind == LinkWall:
			e.coldWallM2 += l.AreaM2
		case l.Kind == LinkFloor:
			e.coldFloorM2 += l.AreaM2
		}
	}
	for _, w := range s.Windows {
		if c := b.CellNamed(w.Cell); c >= 0 && mine(c) {
			e.windowM2 += w.Line.Length() * w.Height
		}
	}
	for _, p := range s.Passages {
		if p.Type == "door" && p.State != Sealed && s.leadsOut(p, mine) {
			height := newDoorLeaf
			if p.Door != nil && p.Door.Height > 0 {
				height = p.Door.Height
			}
			e.doorM2 += p.Line.Length() * height
		}
	}
	e.wallM2 = max(e.wallM2-e.windowM2-e.doorM2, 0)
	for _, body := range b.solids {
		if !mine(body.cell) {
			continue
		}
		if err := s.addBody(&e, body, grade, known); err != nil {
			return envelope{}, fmt.Errorf("plan: envelope of unit %s: %w", u, err)
		}
	}
	return e, nil
}

// leadsOut tells whether a passage joins a heated cell of the unit to the outdoors.
func (s *Scheme) leadsOut(p Passage, mine func(c int) bool) bool {
	in, out := false, false
	for _, id := range p.Between {
		c := s.Building.CellNamed(id)
		switch {
		case c < 0 || s.Building.Cells[c].Outdoor:
			out = true
		case mine(c):
			in = true
		}
	}
	return in && out
}

// addBody adds a body's air, its roof where no level lies over it, and its
// floor where none lies under it.
func (s *Scheme) addBody(e *envelope, body solid, grade float64, known bool) error {
	base := geom.Shape{body.Base}
	m2 := base.AreaM2()
	e.volumeM3 += m2 * (body.High - body.Low)
	if !body.void {
		e.heatedM2 += m2
		if known && body.Low < grade-belowGrade {
			e.basementM2 += m2
		}
		bare, err := s.bare(base, func(l Level) bool {
			top := l.Floor + l.Height
			return top <= body.Low+geom.Coincide && top >= body.Low-deepestFloor
		})
		if err != nil {
			return err
		}
		if known && body.Low > grade+overTheOpen {
			e.openM2 += bare
		} else {
			e.groundM2 += bare
		}
	}
	if !body.flight || body.void {
		bare, err := s.bare(base, func(l Level) bool {
			return l.Floor >= body.High-geom.Coincide && l.Floor <= body.High+deepestFloor
		})
		if err != nil {
			return err
		}
		e.roofM2 += bare
	}
	return nil
}

// bare is the area in m2 of a shape that no indoor level of a kind covers, out
// to its exterior faces.
func (s *Scheme) bare(base geom.Shape, covers func(Level) bool) (float64, error) {
	for i, l := range s.Building.House.Levels {
		if l.Outdoor || !covers(l) || len(s.Building.Levels[i].Outline) == 0 {
			continue
		}
		left, err := geom.Difference(base, s.Building.Levels[i].Outline)
		if err != nil {
			return 0, err
		}
		base = left
	}
	return base.AreaM2(), nil
}

// elements are the envelope's parts with U-values and temperatures.
func (e envelope) elements(given ServicesBrief) ([]services.Element, services.Air) {
	in, out := *given.InsideC, *given.OutsideC
	earth, cold := services.Against(services.Earth, in, out), services.Against(services.Unheated, in, out)
	var all []services.Element
	for _, part := range []services.Element{
		{Name: "walls to the outdoors", AreaM2: e.wallM2, U: given.U.Wall, OutC: out},
		{Name: "walls against the earth", AreaM2: e.belowGradeM2, U: given.U.BelowGrade, OutC: earth},
		{Name: "walls to unheated rooms", AreaM2: e.coldWallM2, U: given.U.Wall, OutC: cold},
		{Name: "windows", AreaM2: e.windowM2, U: given.U.Window, OutC: out},
		{Name: "doors to the outdoors", AreaM2: e.doorM2, U: given.U.Door, OutC: out},
		{Name: "roof", AreaM2: e.roofM2, U: given.U.Roof, OutC: out},
		{Name: "floors on the earth", AreaM2: e.groundM2, U: given.U.Ground, OutC: earth},
		{Name: "floors over the open", AreaM2: e.openM2, U: given.U.Floor, OutC: out},
		{Name: "floors and ceilings to unheated rooms", AreaM2: e.coldFloorM2, U: given.U.Floor, OutC: cold},
	} {
		part.InC = in
		if part.AreaM2 > sliverM2 {
			all = append(all, part)
		}
	}
	return all, services.Air{VolumeM3: e.volumeM3, ACH: given.U.ACH, InC: in, OutC: out}
}
