package plan

import (
	"context"

	"moiety/plan/partition"
)

// Reason is the reason that a model gives, for tests of the package: the
// conflict, and a way to ask whether some of its demands hold together.
type Reason struct {
	Core  partition.Core
	Musts []bool // of all demands: what every unit must have
	model *model
}

// ReasonOf looks for the demands of a brief that conflict in an undivided house;
// there are none where two of them contradict each other outright.
func ReasonOf(b *Building, brief *Brief, prices *Prices) (Reason, error) {
	m := newModel(b, brief, prices)
	if m.contradiction() != nil {
		return Reason{}, nil
	}
	core, _, err := m.reason(context.Background(), 0)
	r := Reason{Core: core, model: m}
	for _, d := range m.demands() {
		r.Musts = append(r.Musts, d.must)
	}
	return r, err
}

// Hold tells whether a scheme meets the kept demands, all others dropped.
func (r Reason) Hold(kept map[int]bool) (partition.Status, error) {
	var set []int
	for i := range r.Musts {
		if kept[i] {
			set = append(set, i)
		}
	}
	p := r.model.stating(r.model.demands())(set)
	result, err := partition.Solve(context.Background(), p, partition.Options{Workers: 1})
	return result.Status, err
}
