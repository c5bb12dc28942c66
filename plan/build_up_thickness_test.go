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

// A floor of any thickness that a survey can show is given something to become,
// or says that nothing is listed, whatever the brief wants.
func TestFloorsOfEveryThicknessGetABuildUp(t *testing.T) {
	for mm := 60; mm <= 700; mm += 20 {
		for _, wanted := range []string{"", "underlay-floor", "nbc-F9d"} {
			brief := plan.DefaultBrief()
			brief.Separation.Floor = wanted
			s := plan.SchemeOfFloor(t, brief, plan.DefaultPrices(), float64(mm)/1000)
			if assert.NotEmpty(t, s.BuildUps, "%d mm", mm) {
				assert.NotEmpty(t, s.BuildUps[0].Layers, "%d mm", mm)
			}
			checkBuildUps(t, s)
		}
	}
}
