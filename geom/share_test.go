package geom_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

func TestSharesRunToTheMiddleOfTheWall(t *testing.T) {
	//   +----+----+
	//   | 0  | 1  |  walls: 0.30 outside, 0.20 between 0 and 1, 0.10 above 2
	//   +----+----+
	//   |    2    |
	//   +---------+
	prisms := storeys(rect(0, 2.1, 3.9, 5), rect(4.1, 2.1, 8, 5), rect(0, 0, 8, 2))
	outline := outlineOf(t, prisms)
	require.InDelta(t, 8.6*5.6, outline.AreaM2(), 1e-6)
	for _, c := range []struct {
		name  string
		group []int
		want  []float64
	}{
		{"each by itself", []int{0, 1, 2}, []float64{4.3 * 3.25, 4.3 * 3.25, 8.6 * 2.35}},
		{"two together have the wall between them", []int{0, 0, 1}, []float64{8.6 * 3.25, 8.6 * 2.35}},
		{"all together have everything", []int{0, 0, 0}, []float64{8.6 * 5.6}},
		{"one above the other, beside a third", []int{0, 1, 0}, []float64{8.6*2.35 + 4.3*3.25, 4.3 * 3.25}},
		{"nobody's takes its half", []int{0, -1, 1}, []float64{4.3 * 3.25, 8.6 * 2.35}},
		{"a group without rooms has nothing", []int{2, 2, 2}, []float64{0, 0, 8.6 * 5.6}},
		{"all nobody's", []int{-1, -1, -2}, []float64{}},
	} {
		got, err := geom.Shares(outline, prisms, c.group)
		require.NoError(t, err)
		assert.InDeltaSlice(t, c.want, got, 0.003, c.name)
	}
}

func TestSharesWantAGroupForEveryPrism(t *testing.T) {
	assert.Panics(t, func() { _, _ = geom.Shares(nil, storeys(rect(0, 0, 1, 1)), nil) })
	got, err := geom.Shares(nil, nil, nil)
	require.NoError(t, err)
	assert.Empty(t, got)
}
