package assembly_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan/assembly"
)

// No published row covers the underside of a flight. Where there is height
// enough a whole published floor can be built below it: NBC Table 9.10.3.1.-B row
// F9d, 1 h, STC 54, IIC 48 (as in BCBC 2024), is 15.5 + 235 + 13 + 2 x 15.9 mm deep.
func TestAFloorBuiltUnderAFlightIsRatedAsItsRow(t *testing.T) {
	const depth = 0.0155 + 0.235 + 0.013 + 2*0.0159
	rated := func(free float64) (rows []string) {
		for _, c := range assembly.UnderFlight(free) {
			assert.False(t, c.New[0], "the flight stands")
			assert.Zero(t, c.Gain[0], "nothing is laid on the treads")
			assert.LessOrEqual(t, c.Gain[1], max(free, 0.089+2*0.0159))
			assert.True(t, c.Fire == 0 || c.FireEstimated, "a flight over a row is no tested specimen")
			if c.Fire >= 60 && c.STC >= 50 && c.IIC >= 45 {
				rows = append(rows, c.Row)
			}
		}
		return rows
	}
	assert.Contains(t, rated(depth+0.001), "F9d")
	assert.Empty(t, rated(0.25), "in 250 mm no published floor can be built")
}
