package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/partition"
)

// The hall that must be divided, where unit B is asked for more area than the
// thickness of the wall in the hall leaves it on the best line: the scheme on
// that line is left out, the next best is given as proved, and that is said.
func TestAWallWhoseThicknessSpoilsTheBestScheme(t *testing.T) {
	b := build(t, hallHouse().House())
	asked := func(area float64) *plan.Answer {
		brief := plan.DefaultBrief()
		brief.Schemes = 1
		brief.Units[0].Keep = []string{"living-ground"}
		brief.Units[1].Keep = []string{"living-upper"}
		brief.Units[1].AreaMin = area
		return split(t, b, brief)
	}
	free := asked(0)
	first := free.Schemes[0]
	has := first.Units[1].NetM2
	spoilt := func(a *plan.Answer) (said []string) {
		for _, w := range a.Warnings {
			if strings.Contains(w.Message, "does not hold with the") {
				said = append(said, w.Message)
			}
		}
		return said
	}
	require.Empty(t, spoilt(free))

	enough := asked(has - 0.01)
	assert.Equal(t, first.Cost, enough.Schemes[0].Cost, "the wall leaves that much")
	assert.Empty(t, spoilt(enough))

	next := asked(has + 1) // on that line B would not have it without any wall either
	require.Equal(t, partition.Proved, next.Status)
	require.Empty(t, spoilt(next))
	for _, more := range []float64{0.03, 0.06} { // the wall takes more than that from B's piece
		a := asked(has + more)
		require.Equal(t, partition.Proved, a.Status)
		s := a.Schemes[0]
		assert.True(t, s.Proved)
		assert.GreaterOrEqual(t, s.Units[1].NetM2, has+more-0.005)
		assert.Greater(t, s.Cost.Total, first.Cost.Total)
		assert.Equal(t, next.Schemes[0].Cost, s.Cost)
		assert.Equal(t, owners(next.Schemes[0]), owners(s))
		require.Len(t, spoilt(a), 1)
		assert.Contains(t, spoilt(a)[0], "divides hall (hall/1 unit A, hall/2 unit B, hall/3 unit A)")
		assert.Contains(t, spoilt(a)[0], "0.20 m")
	}
}

// Where no other line will do, there is no scheme: what the thickness spoils is
// not taken for one.
func TestAWallWhoseThicknessSpoilsEveryScheme(t *testing.T) {
	b := build(t, hallHouse().House())
	brief := plan.DefaultBrief()
	brief.Schemes = 1
	brief.Units[0].Keep = []string{"living-ground"}
	brief.Units[1].Keep = []string{"living-upper"}
	has := split(t, b, brief).Schemes[0].Units[0].NetM2
	brief.Units[0].AreaMin = has + 0.03
	a := split(t, b, brief)
	assert.Equal(t, partition.Infeasible, a.Status)
	assert.Empty(t, a.Schemes)
	assert.NotEmpty(t, a.WhyNot)
	var said []string
	for _, w := range a.Warnings {
		said = append(said, w.Message)
	}
	assert.Contains(t, strings.Join(said, "\n"), "was left out")
}
