package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func weakPoint(s *plan.Scheme, kind string) (plan.WeakPoint, bool) {
	for _, w := range s.WeakPoints {
		if w.Kind == kind {
			return w, true
		}
	}
	return plan.WeakPoint{}, false
}

// A door of 0.90 x 2.03 m and STC 28 in 4.00 x 2.40 m of wall of STC 51: by
// area, as handbooks of building acoustics have it,
//
//	-10 lg ((7.773 x 10^-5.1 + 1.827 x 10^-2.8) / 9.600) = 35.1
//
// so that the wall's last 15 decibels are lost.
func TestADoorDecidesWhatItsWallReaches(t *testing.T) {
	s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.12)
	_, there := weakPoint(s, "door")
	require.False(t, there)
	plan.WithWork(s, plan.Work{Kind: "new_door", Spaces: []string{"a", "b"}, Count: 1})
	door, there := weakPoint(s, "door")
	require.True(t, there)
	by := -10 * math.Log10((7.773*math.Pow(10, -5.1)+1.827*math.Pow(10, -2.8))/9.6)
	assert.InDelta(t, 35.1, by, 0.05)
	assert.Equal(t, []int{35, 50}, []int{door.Composite, door.Target})
	assert.Contains(t, door.Note, "from memory")
}

func TestWhatEverySeparationIsTold(t *testing.T) {
	s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), 0.12)
	for _, kind := range []string{"boxes", "flanking"} {
		w, there := weakPoint(s, kind)
		assert.True(t, there, kind)
		assert.NotEmpty(t, w.Note)
	}
	// 9.60 m2 of STC 51 with 1 cm2 of gaps: -10 lg ((9.5999 x 10^-5.1 + 0.0001) / 9.6) = 47.5 by hand.
	boxes, _ := weakPoint(s, "boxes")
	assert.Equal(t, 47, boxes.Composite)
	_, ducts := weakPoint(s, "ducts")
	assert.False(t, ducts)
	duct, ducts := weakPoint(plan.WithWork(s, plan.Work{Kind: "new_furnace", Unit: "A"}), "ducts")
	assert.True(t, ducts)
	// A bare duct of 150 mm is 0.01767 m2: 10 lg (9.6 / 0.01767) = 27.3.
	assert.Equal(t, 27, duct.Composite)
	flight, there := weakPoint(plan.WithWork(s, plan.Work{Kind: "close_stair", Spaces: []string{"a", "b"}}), "flight")
	assert.True(t, there)
	assert.Equal(t, [2]string{"a", "b"}, flight.Between)
	assert.Equal(t, []int{51, 50}, []int{flight.Composite, flight.Target}, "one wall of STC 51 around it")
}
