package render

import (
	"errors"
	"fmt"

	"moiety/plan"
)

// Survey draws the house as it is: the site where it was surveyed, and a plan
// of each level.
func Survey(b *plan.Building, o Options) ([]*Sheet, error) {
	p, err := newProject(b, nil, o)
	if err != nil {
		return nil, err
	}
	return p.sheets()
}

// Set draws a scheme: the site, each level as it is and as proposed, and each
// unit alone.
func Set(s *plan.Scheme, o Options) ([]*Sheet, error) {
	if s == nil || s.Building == nil {
		return nil, errors.New("render: a scheme without its building")
	}
	p, err := newProject(s.Building, s, o)
	if err != nil {
		return nil, err
	}
	return p.sheets()
}

// project is a set of sheets in the making.
type project struct {
	b      *plan.Building
	s      *plan.Scheme
	o      Options
	paper  Paper
	fonts  *typeface
	m      measure
	turn   float64 // of the plans, so that the main walls lie level
	levels []int   // indoors, from the lowest
}

func newProject(b *plan.Building, s *plan.Scheme, o Options) (*project, error) {
	if b == nil || b.House == nil {
		return nil, errors.New("render: no building to draw")
	}
	if len(b.Levels) != len(b.House.Levels) {
		return nil, fmt.Errorf("render: %d levels with %d outlines", len(b.House.Levels), len(b.Levels))
	}
	fonts, err := loadTypeface()
	if err != nil {
		return nil, err
	}
	p := &project{
		b: b, s: s, o: o, paper: o.paper(), fonts: fonts,
		m:    measure{imperial: o.Imperial || b.House.Unit == plan.Feet},
		turn: -mainDirection(b),
	}
	for i, l := range b.House.Levels {
		if !l.Outdoor && len(b.Levels[i].Outline) > 0 {
			p.levels = append(p.levels, i)
		}
	}
	sortLevels(p.levels, b.House)
	if len(p.levels) == 0 {
		return nil, errors.New("render: the building has no level to draw")
	}
	return p, nil
}

// north is where true north points on a sheet whose plan is turned, degrees
// counter-clockwise from up the sheet.
func (p *project) north(turn float64) float64 { return turn - p.b.House.North }

// sheets draws all sheets and numbers them.
func (p *project) sheets() ([]*Sheet, error) {
	var all []*Sheet
	site, err := p.siteSheet()
	if err != nil {
		return nil, err
	}
	all = append(all, site...)
	plans, err := p.planSheets()
	if err != nil {
		return nil, err
	}
	all = append(all, plans...)
	if p.s != nil {
		for _, u := range []plan.Owner{plan.UnitA, plan.UnitB} {
			sheets, err := p.unitSheets(u)
			if err != nil {
				return nil, err
			}
			all = append(all, sheets...)
		}
	}
	for i, s := range all {
		s.Number = fmt.Sprintf("A-1%02d", i+1)
		s.drawFrame()
		s.drawTitle(titleBlock{
			project: p.fonts.legible(p.b.House.Name), title: s.Title, kind: s.kind, number: s.Number, sheet: i + 1, of: len(all),
			scale: s.Scale.Text, paper: p.paper.Name, date: p.o.Date, revision: p.o.Revision, survey: p.fonts.surveyName(p.b.House, titleMiddle-2*titleInset),
		})
	}
	return all, nil
}
