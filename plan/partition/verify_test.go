package partition_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// The verifier refuses a scheme from which anything is taken, or to which
// anything is added.
func TestVerifierRefusesAnythingChanged(t *testing.T) {
	p := twoRooms()
	r := solve(t, p, partition.Options{})
	require.Equal(t, partition.Price{Money: 400}, r.Solutions[0].Price) // the parting 100, one new front door 300
	require.NoError(t, partition.Verify(p, &r.Solutions[0]))
	east := r.Solutions[0].Labels[1]
	for _, c := range []struct {
		name  string
		spoil func(s *partition.Solution)
		want  string
	}{
		{"too few labels", func(s *partition.Solution) { s.Labels = s.Labels[:2] }, "2 labels for 3 cells"},
		{"label not allowed", func(s *partition.Solution) { s.Labels[1] = partition.Common }, `cell "east" may not be common`},
		{"owned street", func(s *partition.Solution) { s.Labels[0] = partition.A }, `public cell "street" has an owner`},
		{"all to one unit", func(s *partition.Solution) { s.Labels[2] = east }, "does not lead into one of its rooms"},
		{"door not bought", func(s *partition.Solution) { s.Bought = nil }, "cannot be its entry"},
		{"door bought twice", func(s *partition.Solution) { s.Bought = []int{1, 1} }, "link 1 is bought twice"},
		{"open door bought", func(s *partition.Solution) { s.Bought = []int{0, 1} }, "is bought but open today"},
		{"unknown door", func(s *partition.Solution) { s.Bought = []int{7} }, "link 7 is bought, of 3"},
		{"no entry", func(s *partition.Solution) { s.Entry[0] = -1 }, "unit A has no entry"},
		{"the other's entry", func(s *partition.Solution) { s.Entry[0], s.Entry[1] = s.Entry[1], s.Entry[0] }, "does not lead into one of its rooms"},
		{"inner entry", func(s *partition.Solution) { s.Entry[0] = 2 }, "cannot be its entry"},
		{"no bed", func(s *partition.Solution) { s.Hosts[0][0] = nil }, `unit A lacks 1 of "bed"`},
		{"bed in the street", func(s *partition.Solution) { s.Hosts[0][0] = []int{0} }, `"bed" is hosted by cell "street", which is not the unit's`},
		{"the other's bed", func(s *partition.Solution) { s.Hosts[0][0] = s.Hosts[1][0] }, "which is not the unit's"},
		{"one bed twice", func(s *partition.Solution) { s.Hosts[0][0] = append(s.Hosts[0][0], s.Hosts[0][0]...) }, "hosts \"bed\" twice"},
		{"price", func(s *partition.Solution) { s.Price.Money-- }, "the price is {Shared:0 Money:400}, not {Shared:0 Money:399}"},
		{"terms", func(s *partition.Solution) { s.Terms.Doors-- }, "the parts cost"},
		{"bound", func(s *partition.Solution) { s.Bound.Money += 1 }, "is below its bound"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, p, partition.Options{}).Solutions[0]
			c.spoil(&s)
			assert.ErrorContains(t, partition.Verify(p, &s), c.want)
		})
	}
}
