package plan_test

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// bathAgainstBed is the house of two flats with the second flat's bedroom and
// bathroom changed about: its bedroom then lies against the first's bathroom.
func bathAgainstBed(t *testing.T) *plan.House {
	t.Helper()
	h := *twoFlats(t)
	h.Spaces = slices.Clone(h.Spaces)
	for i := range h.Spaces {
		switch s := &h.Spaces[i]; s.ID {
		case "bath-2":
			s.Use, s.Also = plan.Bedroom, nil
		case "bed-2":
			s.Use, s.Also = plan.Bathroom, []plan.Use{plan.Laundry}
		}
	}
	return &h
}

func TestABathroomAgainstTheOtherUnitsBedroomIsANoiseConflict(t *testing.T) {
	s := bestScheme(t, bathAgainstBed(t), nothingAsked())
	require.Len(t, s.Noise, 1)
	n := s.Noise[0]
	assert.Equal(t, []string{"bath-1", "bath-2", "wall"}, []string{n.Noisy, n.Quiet, n.Surface})
	assert.InDelta(t, 3.1*2.44, n.AreaM2, 0.3)
	assert.InDelta(t, n.AreaM2*plan.DefaultPrices().Priorities.Noise, n.Cost, 0.5)
	// By hand: the level less the rating, and the wall's area against the absorption of 2 x 3.1 x 2.44 m3 in half a second.
	want := n.SourceDB - float64(n.STC) + 10*math.Log10(n.AreaM2/(0.161*2*3.1*2.44/0.5))
	assert.InDelta(t, want, n.ReceivedDB, 0.01)
	assert.Equal(t, "laundry", n.NoisyUse, "the louder of the bathroom's uses")
	assert.Empty(t, flatsUnder(t, "").Noise, "living rooms and bathrooms back to back disturb nobody's sleep")
	var table bytes.Buffer
	require.NoError(t, plan.WriteNoise(&table, s))
	rows, err := csv.NewReader(&table).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 2)
}

// What the list says that conflicts weigh is what the price of the scheme has
// of them: without the priority the scheme costs that much less.
func TestNoiseConflictsAddUpToTheirPriority(t *testing.T) {
	for _, weight := range []string{"1", "2.5"} {
		s := bestScheme(t, bathAgainstBed(t), readBrief(t, "rules: none\npriorities: {noise: "+weight+"}"))
		silent := bestScheme(t, bathAgainstBed(t), readBrief(t, "rules: none\npriorities: {noise: 0}"))
		sum := 0.0
		for _, n := range s.Noise {
			sum += n.Cost
		}
		assert.Greater(t, sum, 0.0)
		assert.InDelta(t, s.Cost.Priorities-silent.Cost.Priorities, sum, 0.01)
		require.Len(t, silent.Noise, len(s.Noise), "a conflict that weighs nothing is still one")
	}
}

func TestNoiseTurnsWithTheHouse(t *testing.T) {
	h := bathAgainstBed(t)
	plain := bestScheme(t, h, nothingAsked())
	for name, other := range map[string]*plan.House{"turned": housetest.Turned(h, 33), "mirrored": housetest.Mirrored(h)} {
		s := bestScheme(t, other, nothingAsked())
		require.Len(t, s.Noise, 1, name)
		assert.Equal(t, plain.Noise[0].Quiet, s.Noise[0].Quiet, name)
		assert.InDelta(t, plain.Noise[0].ReceivedDB, s.Noise[0].ReceivedDB, 0.05, name)
	}
}
