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

// The family room between two flats can go to either. With A it costs one sealed
// door, and lies against B's bedroom with 3.00 x 2.44 m of wall: 585.60 at 80 a
// square metre. With B it costs two sealed doors, 700 more, and lies against A's
// bathroom. As noise weighs once the doors decide, as it weighs twice the bedroom.
//
//	+----+-----+------+-----+----+
//	|bed |bath = fami-| bed |bath|
//	+----+-----+ ly   +-----+----+
//	| living   =      = living   |
func TestNoiseCanDecideWhoGetsARoom(t *testing.T) {
	d := housetest.New("two flats and a room").Level("main", 0, 2.44)
	d.Room("a-living", plan.Living, "main", 0, 0, 5, 4).Also(plan.Kitchen)
	d.Room("a-bed", plan.Bedroom, "main", 0, 4.1, 2.2, 7.1).Room("a-bath", plan.Bathroom, "main", 2.3, 4.1, 5, 7.1)
	d.Room("family", plan.Family, "main", 5.1, 0, 8.2, 7.1)
	d.Room("b-living", plan.Living, "main", 8.3, 0, 13.3, 4).Also(plan.Kitchen)
	d.Room("b-bed", plan.Bedroom, "main", 8.3, 4.1, 11, 7.1).Room("b-bath", plan.Bathroom, "main", 11.1, 4.1, 13.3, 7.1)
	d.Door("a-bed-door", "main", 0.5, 4.05, 1.3, 4.05).Door("a-bath-door", "main", 3, 4.05, 3.8, 4.05)
	d.Door("b-bed-door", "main", 9.4, 4.05, 10.2, 4.05).Door("b-bath-door", "main", 11.9, 4.05, 12.7, 4.05)
	d.Door("a-family", "main", 5.05, 1, 5.05, 1.8).Door("a-bath-family", "main", 5.05, 5, 5.05, 5.8).Door("b-family", "main", 8.25, 1, 8.25, 1.8)
	d.Door("a-front", "main", 1, -0.1, 1.9, -0.1).Door("b-front", "main", 10.3, -0.1, 11.2, -0.1)
	d.Window("a-window", "main", 0.9, 1.2, 0.4, 7.2, 1.6, 7.2).Window("b-window", "main", 0.9, 1.2, 9, 7.2, 10.2, 7.2)
	d.Fixture("a-washer", "washer", "main", 4.5, 6.8).Fixture("b-washer", "washer", "main", 12.8, 6.5)
	h := d.House()
	family := func(weight float64) (string, float64) {
		brief := kept()
		brief.Priorities.Noise = weight
		s := best(t, h, brief)
		for c, cell := range s.Building.Cells {
			if cell.ID == "family" {
				return s.Owners[c].String(), s.Cost.Priorities
			}
		}
		return "", 0
	}
	for weight, want := range map[float64]string{0: "A", 1: "A", 2: "B"} {
		owner, priced := family(weight)
		assert.Equal(t, want, owner, "noise weighs %g", weight)
		if want == "A" {
			assert.InDelta(t, weight*585.60, priced, 0.01)
		} else {
			assert.Zero(t, priced, "a bathroom and a family room back to back disturb nobody's sleep")
		}
	}
}
