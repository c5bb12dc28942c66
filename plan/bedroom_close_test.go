package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// pairWithOffice puts an office beside a's living room, with a window and a cased
// opening of some width between them; 0: none, and the two are one open plan.
func pairWithOffice(wide float64) *plan.House {
	d := pair()
	if wide > 0 {
		d.Room("office", plan.Office, "main", -3.6, 0, -0.1, 4).Opening("arch", "main", -0.05, 1, -0.05, 1+wide)
	} else {
		d.Room("office", plan.Office, "main", -3.6, 0, 0, 4)
	}
	return d.Window("office-window", "main", 0.9, 1.2, -2.5, -0.1, -1.3, -0.1).House()
}

// A room made a bedroom gets a door in its cased opening, at 1300 (the shipped
// prices): of two leaves where it is wider than a door of 0.90 m.
func TestARoomMadeABedroomGetsADoorInItsCasedOpening(t *testing.T) {
	for wide, leaf := range map[float64]plan.Leaf{0.9: plan.Single, 1.6: plan.Double} {
		h := pairWithOffice(wide)
		brief := nothingAsked()
		brief.Units[0].Bedrooms.Min = 2
		brief.Units[0].Keep = []string{"a-bed", "office"}
		s := schemeOf(t, h, brief)
		var doors []plan.Work
		for _, w := range s.Works {
			if w.Of == "arch" {
				doors = append(doors, w)
			}
		}
		require.Len(t, doors, 1)
		assert.Equal(t, "new_door", doors[0].Kind)
		assert.Equal(t, "A", doors[0].Unit)
		assert.InDelta(t, 1300, doors[0].Cost, 0.005)
		found := false
		for _, p := range s.Passages {
			if p.Of == "arch" {
				found = true
				assert.Equal(t, "door", p.Type)
				assert.Equal(t, plan.New, p.State)
				assert.Equal(t, leaf, p.Door.Leaf)
				assert.False(t, p.Door.Opening)
				assert.Equal(t, "office", p.Door.OpensInto)
			}
		}
		assert.True(t, found)

		brief.Units[0].Bedrooms.Min = 1
		for _, p := range schemeOf(t, h, brief).Passages {
			if p.Of == "arch" {
				assert.Equal(t, "opening", p.Type, "an office stays as open as it is")
			}
		}
		brief.Units[0].Bedrooms.Min, brief.Leave = 2, []string{"arch"}
		assert.Empty(t, split(t, build(t, h), brief).Schemes, "where the opening may not be touched it is no bedroom")
	}
}

// What lies open to another room along its whole edge is no bedroom.
func TestAnOpenPlanMakesNoBedroom(t *testing.T) {
	b := build(t, pairWithOffice(0))
	_, ok := plan.ConversionOf(b, plan.DefaultPrices(), cellIndex(t, b, "office"), plan.HasBedroom)
	assert.False(t, ok)
	b = build(t, pairWithOffice(0.9))
	cost, ok := plan.ConversionOf(b, plan.DefaultPrices(), cellIndex(t, b, "office"), plan.HasBedroom)
	assert.True(t, ok)
	assert.InDelta(t, 1300, cost, 0.005)
}
