package plan

import (
	"context"

	"moiety/plan/partition"
)

// Reason is the reason that a model gives, for tests of the package: the
// conflict, and a way to ask whether some of its demands hold together.
type Reason struct {
	Core  partition.Core
	Names []string // of all demands
	model *model
}

// ReasonOf looks for the demands of a brief that conflict in an undivided house;
// there are no names where two of them contradict each other outright.
func ReasonOf(b *Building, brief *Brief, prices *Prices) (Reason, error) {
	m := newModel(b, brief, prices)
	if m.contradiction() != nil {
		return Reason{}, nil
	}
	core, _, err := m.reason(context.Background())
	r := Reason{Core: core, model: m}
	for _, d := range m.demands() {
		r.Names = append(r.Names, d.Name)
	}
	return r, err
}

// Hold tells whether a scheme meets the kept demands, all others dropped.
func (r Reason) Hold(kept map[int]bool) (partition.Status, error) {
	p := r.model.restated().problem
	for i, d := range r.model.demands() {
		if !kept[i] {
			d.Relax(p)
		}
	}
	result, err := partition.Solve(context.Background(), p, partition.Options{Workers: 1})
	return result.Status, err
}
