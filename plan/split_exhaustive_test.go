package plan_test

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
	"moiety/plan/partition"
)

// seeds is how many generated houses a test looks at; MOIETY_SEEDS asks for more.
func seeds(t testing.TB, short, usual uint64) uint64 {
	if n, err := strconv.ParseUint(os.Getenv("MOIETY_SEEDS"), 10, 64); err == nil {
		return n
	}
	if testing.Short() {
		return short
	}
	return usual
}

func split(t testing.TB, b *plan.Building, brief *plan.Brief) *plan.Answer {
	t.Helper()
	a, err := plan.Split(t.Context(), b, brief, plan.DefaultPrices(), plan.SplitOptions{Workers: 1})
	require.NoError(t, err)
	require.NotEqual(t, partition.Unknown, a.Status)
	require.NotEqual(t, partition.Bounded, a.Status)
	return a
}

// unaccepted counts what stays shared although the brief does not accept it.
func unaccepted(s *plan.Scheme) int {
	n := 0
	for _, e := range s.Shared {
		if !e.Accepted {
			n++
		}
	}
	return n
}

// ownersOf gives the owners of a scheme as the reference has them.
func ownersOf(s *plan.Scheme) refOwners {
	var o refOwners
	for c, owner := range s.Owners {
		if owner <= plan.Common {
			o[owner] |= 1 << c
		}
	}
	return o
}

// sayOwners lists the cells of each owner.
func sayOwners(b *plan.Building, o refOwners) string {
	out := ""
	for owner, name := range [...]string{"A", "B", "common"} {
		out += name + ":"
		for c := range b.Cells {
			if o[owner]>>c&1 != 0 {
				out += " " + b.Cells[c].ID
			}
		}
		out += "; "
	}
	return out
}

// agree holds a split against trying everything.
func agree(t testing.TB, b *plan.Building, brief *plan.Brief) (feasible bool) {
	t.Helper()
	whole := *brief
	whole.Cuts = false // the reference knows no divided spaces
	a := split(t, b, &whole)
	want, at := newReference(b, brief, plan.DefaultPrices()).best()
	if len(a.Schemes) == 0 {
		require.Equal(t, never, want, "nothing was found, but this holds: %s", sayOwners(b, at))
		require.Equal(t, partition.Infeasible, a.Status)
		require.NotEmpty(t, a.WhyNot)
		return false
	}
	s := a.Schemes[0]
	got := fmt.Sprintf("%+v %s", refPrice{unaccepted(s), s.Cost.Total}, sayOwners(b, ownersOf(s)))
	require.NotEqual(t, never, want, "found, but does not hold: %s", got)
	require.Equal(t, want.shared, unaccepted(s), "%s\nagainst %+v %s", got, want, sayOwners(b, at))
	// The balance is rounded down to whole money units, works to cents.
	require.InDelta(t, want.cost, s.Cost.Total, 0.011, "%s\nagainst %+v %s", got, want, sayOwners(b, at))
	require.True(t, s.Proved)
	return true
}

func TestNoWayToPartASmallHouseIsBetterThanTheOneFound(t *testing.T) {
	feasible, all := 0, seeds(t, 20, 60)
	for seed := range all {
		t.Run(strconv.FormatUint(seed, 10), func(t *testing.T) {
			h := housetest.Small(seed)
			if agree(t, build(t, h), housetest.Demands(h, seed, true)) {
				feasible++
			}
		})
	}
	t.Logf("%d of %d houses can be parted", feasible, all)
	require.Positive(t, feasible)
	require.Less(t, feasible, int(all))
}
