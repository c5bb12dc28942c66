package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
)

// A wall of any thickness that a survey can show is given something to become.
func TestWallsOfEveryThicknessGetABuildUp(t *testing.T) {
	for mm := 80; mm <= 600; mm += 20 {
		s := buildUpsOf(t, plan.DefaultBrief(), plan.DefaultPrices(), float64(mm)/1000)
		if assert.NotEmpty(t, s.BuildUps, "%d mm", mm) {
			assert.NotEmpty(t, s.BuildUps[0].Layers, "%d mm", mm)
		}
	}
}
