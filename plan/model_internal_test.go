package plan

import "moiety/plan/partition"

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
