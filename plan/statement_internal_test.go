package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan/partition"
)

// A scheme below what was proved shows a fault of ours, which no answer to a
// right search can: so the search's own price is spoiled here.
func TestABetterAnswerThanProvedIsToldAsSuch(t *testing.T) {
	for _, c := range []struct {
		ours, theirs partition.Price
		want         Verdict
	}{
		{partition.Price{Money: 400_0000}, partition.Price{Money: 399_0000}, Better},
		{partition.Price{Shared: 1, Money: 400_0000}, partition.Price{Money: 900_0000}, Better},
		{partition.Price{Money: 400_0000}, partition.Price{Shared: 1, Money: 1}, Worse},
		{partition.Price{Money: 400_0000}, partition.Price{Money: 400_0003}, Agrees},
		{partition.Price{Money: 400_0000}, partition.Price{Money: 400_0005}, Worse},
	} {
		x := Comparison{
			Statement: &Statement{Problem: &partition.Problem{}},
			Answer:    &partition.Answer{Solver: "CBC"},
			Scheme:    &partition.Solution{Price: c.theirs},
			Ours:      partition.Result{Status: partition.Proved, Solutions: []partition.Solution{{Price: c.ours}}},
		}
		x.judge()
		assert.Equal(t, c.want, x.Verdict, "%+v beside %+v: %s", c.theirs, c.ours, x.Why)
	}
	x := Comparison{
		Statement: &Statement{Problem: &partition.Problem{}},
		Answer:    &partition.Answer{Solver: "CBC"},
		Scheme:    &partition.Solution{},
		Ours:      partition.Result{Status: partition.Infeasible},
	}
	x.judge()
	assert.Equal(t, Better, x.Verdict)
}
