package render

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

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

// subject is something that other sheets refer to.
type subject string

const (
	doorSchedule   subject = "doors"
	windowSchedule subject = "windows"
	roomSchedule   subject = "rooms"
	flightSchedule subject = "flights"
	workSchedule   subject = "works"

	fixtureSchedule subject = "fixtures"
	buildUpDetails  subject = "build-ups"
	sectionCut      subject = "section"
	elevationViews  subject = "elevations"
	alarmPlan       subject = "alarms"
	escapePlan      subject = "escape openings"
	safetyPlan      subject = "life safety"
	alarmSchedule   subject = "schedule of alarms"
	findingSchedule subject = "checks"
)

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

	refs      map[subject]string // the number of the first sheet that shows a subject
	drawn     []*Sheet           // and numbered so far, in the order of their numbers
	seen      *legend            // all that occurs on the plans
	footprint float64            // of the house on its lot, m2
	proposed  []*floor           // the levels as the scheme leaves them
	untouched []int              // levels out of which nothing is taken

	found      *workedOut        // for all sheets
	partSheets map[string]string // the sheets of the parts of levels, once they are known

	buildUps *buildUps    // of the separation, numbered throughout the set
	section  plan.Section // drawn, where refs has its sheet
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
		refs: map[subject]string{}, partSheets: map[string]string{}, found: newWorkedOut(), buildUps: &buildUps{}, seen: &legend{},
	}
	if s != nil {
		p.buildUps.gather(s)
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

// series is the first figure of a sheet's number, by what the sheet shows
// (order of the US National CAD Standard, uniform drawing system, module 1;
// from memory).
type series int

const (
	general    series = 0
	plans      series = 1
	elevations series = 2
	sections   series = 3
	details    series = 5
	schedules  series = 6
)

// family is a group of sheets of one series.
type family struct {
	series series
	draw   func() ([]*Sheet, error)
}

// families lists what a set holds, in the order in which it is drawn: what
// others refer to comes first, so that its numbers are known.
func (p *project) families() []family {
	if p.s == nil {
		return []family{{plans, p.siteSheet}, {plans, p.planSheets}}
	}
	return []family{
		{schedules, p.scheduleSheets},
		{sections, p.sectionSheets},
		{elevations, p.elevationSheets},
		{details, p.detailSheets},
		{plans, p.siteSheet},
		{plans, p.planSheets},
		{plans, func() ([]*Sheet, error) { return p.unitSheets(plan.UnitA) }},
		{plans, func() ([]*Sheet, error) { return p.unitSheets(plan.UnitB) }},
		{plans, p.lifeSafetySheets},
		{plans, p.servicesSheets},
		{plans, p.noiseSheets},
		{general, p.coverSheets},
	}
}

// sheets draws all sheets and numbers them.
func (p *project) sheets() ([]*Sheet, error) {
	count := map[series]int{}
	for _, f := range p.families() {
		sheets, err := p.drawFamily(f, count[f.series])
		if err != nil {
			return nil, err
		}
		if what, ok := map[series]subject{elevations: elevationViews, details: buildUpDetails}[f.series]; ok && len(sheets) > 0 {
			sheets[0].refer(what)
		}
		for _, s := range sheets {
			count[f.series]++
			s.Number = sheetNumber(f.series, count[f.series])
			for _, subject := range s.subjects {
				if p.refs[subject] == "" {
					p.refs[subject] = s.Number
				}
			}
		}
		p.drawn = append(p.drawn, sheets...)
		slices.SortStableFunc(p.drawn, func(a, b *Sheet) int { return cmp.Compare(a.Number, b.Number) })
	}
	all := p.drawn
	for i, s := range all {
		s.drawFrame()
		s.drawTitle(titleBlock{
			project: p.fonts.legible(p.b.House.Name), title: s.Title, kind: s.kind, number: s.Number, sheet: i + 1, of: len(all),
			scale: s.Scale.Text, paper: p.paper.Name, date: p.o.Date, revision: p.o.Revision, survey: p.fonts.surveyName(p.b.House, titleMiddle-2*titleInset),
		})
	}
	return all, nil
}

// drawFamily draws a group of sheets, numbered on from so many; where levels
// are drawn in parts again until each part names the sheets of the others by
// their numbers, which may hang on the room that these names take.
func (p *project) drawFamily(f family, from int) ([]*Sheet, error) {
	const most = 6
	for try := 1; ; try++ {
		sheets, err := f.draw()
		if err != nil {
			return nil, err
		}
		settled := true
		for i, s := range sheets {
			number := sheetNumber(f.series, from+i+1)
			for _, t := range s.pieces {
				settled = settled && p.partSheets[t.key()] == number
				p.partSheets[t.key()] = number
			}
		}
		if settled {
			return sheets, nil
		}
		if try == most {
			return nil, errors.New("render: the numbers of the sheets that show parts of a level do not settle")
		}
	}
}

func sheetNumber(s series, n int) string { return fmt.Sprintf("A-%d%02d", s, n) }
