package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
)

// A boiler in a bathroom is cautioned about (IRC G2406.2, from memory), unless
// nothing in the house burns fuel.
func TestABoilerInABathroomIsCautionedAbout(t *testing.T) {
	h := pair().Fixture("old-boiler", "boiler", "main", 0.4, 6.8).House()
	notes := func(fuel plan.Fuel) string {
		brief := nothingAsked()
		brief.Conditions.Fuel = fuel
		var all []string
		for _, u := range schemeOf(t, h, brief).Units {
			all = append(all, u.Notes...)
		}
		return strings.Join(all, "\n")
	}
	assert.Contains(t, notes(plan.FuelNotSaid), "old-boiler in a-bath, a bathroom: plant that burns fuel may stand there only if it takes no air from the room")
	assert.NotContains(t, notes(plan.NoFuel), "old-boiler in a-bath")
}
