package plan

import (
	"moiety/geom"
	"moiety/plan/partition"
)

// ProblemOf gives the partition problem that a split solves, and the place of
// each of its cells among the building's.
func ProblemOf(b *Building, brief *Brief, prices *Prices) (p *partition.Problem, cells []int) {
	m := newModel(b, brief, prices)
	return m.problem, m.cells
}

// ConversionOf tells what the works cost by which a cell takes on a function
// that it lacks, where nothing has to be left alone.
func ConversionOf(b *Building, prices *Prices, c int, f Function) (cost float64, ok bool) {
	p := pricing{b: b, prices: prices}
	works, ok := p.hosting(c, f)
	return cents(total(works)), ok
}

// BedroomOf tells what it costs for a cell to be a bedroom under a brief, and
// whether it can be one at all.
func BedroomOf(b *Building, brief *Brief, prices *Prices, c int) (cost float64, ok bool) {
	m := newModel(b, brief, prices)
	works, ok := m.hosting(c, HasBedroom)
	return cents(total(works)), ok
}

// NewWindowOf gives the new window by which a cell becomes a bedroom under a brief.
func NewWindowOf(b *Building, brief *Brief, prices *Prices, c int) (*Window, bool) {
	_, window := newModel(b, brief, prices).bedrooms.newWindowWorks(c, nil)
	return window, window != nil
}

// DoorwayOf gives the work of a new door or entry at a link, and where it stands.
func DoorwayOf(b *Building, prices *Prices, l Link, leave ...string) (Work, geom.Segment, bool) {
	m := &model{pricing: pricing{b: b, prices: prices, leave: leave}}
	work, ok := m.doorway(l)
	if !ok {
		return work, geom.Segment{}, false
	}
	places := m.doorPlaces(l)
	if len(places) == 0 { // across a line that may not be used
		return work, geom.Segment{}, true
	}
	return work, places[0].line, true
}

// Has tells whether a cell has a function as surveyed.
func (b *Building) Has(c int, f Function) bool { return b.has(c, f) }

// Stalls is how many cars a cell parks.
func (b *Building) Stalls(c int) int { return b.stalls(c) }

// OpensTo tells whether an entry to the outdoor cell v keeps entry_from.
func (b *Building) OpensTo(v int, from string) bool { return b.opensTo(v, from) }

// EveryFunction lists the functions.
func EveryFunction() []Function {
	var out []Function
	for f := range functionCount {
		out = append(out, f)
	}
	return out
}
