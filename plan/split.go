package plan

import (
	"context"
	"fmt"
	"runtime"
	"slices"

	"moiety/plan/partition"
	"moiety/plan/rules"
)

// SplitOptions tunes the search, never its answer.
type SplitOptions struct {
	Workers int              // 0: one per core
	Trace   partition.Tracer // told of progress; nil for none
	// Wishes asks what each demand of the brief costs.
	Wishes bool
	// Front asks for the Pareto front.
	Front bool
}

func (o SplitOptions) workers() int {
	if o.Workers > 0 {
		return o.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// Answer is what comes of asking for two units.
type Answer struct {
	Building *Building
	Brief    *Brief
	Prices   *Prices
	Rules    *rules.Set // that the schemes were checked against; nil for none
	Status   partition.Status
	// Complete: no further scheme that differs exists.
	Complete bool
	Schemes  []*Scheme // the best first
	WhyNot   []string  // the smallest set of demands that cannot hold together
	// WhyNotProof is what is proved of that set, "" where there is none.
	WhyNotProof WhyNotProof
	Nodes       int64
	Warnings    []Warning
	// Cuts are the candidate lines along which spaces may have been divided:
	// what is proved is proved of them.
	Cuts []Cut

	// Wishes are the demands with their prices, the dearest first, where they
	// were asked for and there is a scheme.
	Wishes []Wish
	// Front is the Pareto front, where it was asked for and there is a scheme.
	Front *Front

	houses *dividedHouses
}

// Split parts the building under the brief and returns the best schemes, each
// with its proof, or the reason why there is none. Cancelling ctx returns the
// best found so far with its bound. The error is for a brief that does not fit
// the house, or a fault.
func Split(ctx context.Context, b *Building, brief *Brief, prices *Prices, o SplitOptions) (*Answer, error) {
	if err := brief.Check(b.House); err != nil {
		return nil, err
	}
	set, err := brief.ruleSet()
	if err != nil {
		return nil, err
	}
	surveyed := b
	if b, err = OpenWalls(b, brief, prices, set); err != nil {
		return nil, err
	}
	m := newModel(b, brief, prices)
	if why := m.contradiction(); why != nil {
		return &Answer{
			Building: b, Brief: brief, Prices: prices, Rules: set,
			Status: partition.Infeasible, Complete: true, WhyNot: why, WhyNotProof: SmallestConflict, Warnings: m.allWarnings(),
		}, nil
	}
	answer := &Answer{
		houses: newDividedHouses(b, prices), Building: b, Brief: brief, Prices: prices, Rules: set, Warnings: m.allWarnings(),
	}
	last, err := answer.search(ctx, m, o)
	if err != nil {
		return nil, err
	}
	for _, s := range answer.Schemes {
		s.addBuildUps(set, prices)
		s.Alarms = PlaceAlarms(s, set, brief.Conditions)
		if b != surveyed {
			s.Whole = surveyed // as it is before any wall is opened
		}
		s.addNoise(prices)
		s.addRanges(prices)
		s.Findings = Check(s, set, brief.Conditions)
		if s.Services, err = Supplies(s, set); err != nil {
			return nil, err
		}
	}
	if answer.Status == partition.Infeasible && last != nil {
		// The reason is looked for in so many steps, and given whatever the limit.
		if answer.WhyNot, answer.WhyNotProof, err = last.whyNot(context.WithoutCancel(ctx)); err != nil {
			return nil, err
		}
	}
	if o.Wishes && len(answer.Schemes) > 0 {
		if answer.Wishes, err = answer.wishes(ctx, m, o); err != nil {
			return nil, err
		}
	}
	if o.Front && len(answer.Schemes) > 0 {
		if answer.Front, err = answer.front(ctx, m, o); err != nil {
			return nil, err
		}
	}
	return answer, nil
}

// allWarnings lists the warnings of the survey, of the building and of the model.
func (m *model) allWarnings() []Warning {
	return slices.Concat(m.b.House.Warnings, m.b.Warnings, m.warnings())
}

// warnings says what the model had to assume or leave out.
func (m *model) warnings() []Warning {
	var out []Warning
	for _, f := range m.notSurveyed {
		out = append(out, Warning{Message: fmt.Sprintf("%s: not surveyed anywhere in the house, so neither unit is asked to have it", f)})
	}
	if !m.b.outdoorsSurveyed() {
		out = append(out, Warning{Message: "no outdoor space was surveyed: entries are doors to the outside; yard and parking are not surveyed"})
		for _, u := range m.brief.Units {
			if u.OutdoorMin > 0 || u.Parking.Min > 0 {
				out = append(out, Warning{Message: fmt.Sprintf("unit %s asks for yard or parking: not surveyed", u.ID)})
			}
		}
	} else if len(m.b.publicGround()) > 0 {
		out = append(out, Warning{Message: "no street or lane was surveyed: walks, drives and parking are taken to reach the public way"})
	}
	if _, known := m.b.grade(); !known {
		out = append(out, Warning{Message: "the ground's elevation was not surveyed and no door leads outside: no new entry is offered"})
	}
	if m.brief.Priorities.Walk > 0 {
		out = append(out, Warning{Message: "the walk from parking to the entry is not priced"})
	}
	return out
}
