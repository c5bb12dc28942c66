package plan

import "moiety/plan/partition"

// ProblemOf gives the partition problem that a split solves, and the place of
// each of its cells among the building's.
func ProblemOf(b *Building, brief *Brief, prices *Prices) (p *partition.Problem, cells []int) {
	m := newModel(b, brief, prices)
	return m.problem, m.cells
}
