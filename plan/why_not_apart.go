package plan

import (
	"context"
	"fmt"
	"slices"

	"moiety/plan/partition"
)

// hangTogether is what stands behind all demands and can be dropped from none.
const hangTogether = "the rooms of a unit hang together, and nobody passes through a bedroom, bathroom, closet, laundry, furnace room or garage to reach others"

// byPlace tells whether demands conflict only for where the rooms lie: whether
// they could hold together if every room of a unit were reached from every other.
func (m *model) byPlace(ctx context.Context, demands []partition.Demand, conflict []int) (bool, error) {
	p := newModel(m.b, m.brief, m.prices).problem
	for i, d := range demands {
		if !slices.Contains(conflict, i) {
			d.Relax(p)
		}
	}
	for i := range p.Units {
		p.Units[i].NeedEntry = false
	}
	for i := range p.Cells {
		// Where there is no public way, outdoor cells need not be reached.
		c := &p.Cells[i]
		if c.Public {
			c.Public, c.Allowed = false, partition.Any
		}
		c.Outdoor, c.DeadEnd, c.Detached = true, false, false
	}
	p.Links = nil
	result, err := partition.Solve(ctx, p, partition.Options{})
	if err != nil {
		return false, fmt.Errorf("plan: looking for why demands conflict: %w", err)
	}
	return len(result.Solutions) > 0, nil
}
