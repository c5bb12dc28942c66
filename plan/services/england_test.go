package services_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	. "moiety/plan/services"
)

// A cooker of 16 kW takes 66 A at 240 V; its demand is 10 A and 30 % of 56 A,
// 26.8 A: an example in https://electriciansforums.net/threads/
// calculating-volt-drop-cable-selection-and-mcb-selection-on-an-3kw-motor.28769/page-2
func TestACookersDemandInEngland(t *testing.T) {
	assert.InDelta(t, 26.8, CookerDemand(66), 1e-9)
	assert.Equal(t, 8.0, CookerDemand(8), "below 10 A in full")
}

// Approved Document F as a maker's page gives it,
// https://zehnder.co.uk/en/indoor-ventilation/insights/building-regulations: 19
// to 43 l/s for one to five bedrooms, 6 l/s for each more; and 0.3 l/s for each
// m2, https://www.venti-group.com/faq-tag/building-regulations/.
func TestWholeDwellingVentilationInEngland(t *testing.T) {
	for bedrooms, rate := range map[int]float64{0: 19, 1: 19, 2: 25, 3: 31, 4: 37, 5: 43, 6: 49, 7: 55} {
		assert.Equal(t, rate, EnglishVentilation(50, bedrooms).Value, "%d bedrooms", bedrooms)
	}
	assert.InDelta(t, 36, EnglishVentilation(120, 2).Value, 1e-9, "a large dwelling by its area")
}

// BS EN 12056-2:2000 Table 2, system III: by hand, 0.5 x the root of 1.8 + 0.3.
func TestFlowOfAPowderRoomInEngland(t *testing.T) {
	flow := EnglishDrainage(Fixtures{"wc": 1, "basin": 1, "fountain": 1})
	assert.InDelta(t, 0.7246, flow.Value, 1e-4)
	assert.Contains(t, flow.Lines[1].From, "not in the table")
}

func TestEnglishDemandsAreThoseOfTheirCircuits(t *testing.T) {
	// 150 m2: three rings and two lighting circuits; heating of 6.9 kW is 30 A, 10 in full and half of 20; 4.6 kW of stored hot water 20 A; a charger of 7.36 kW 32 A.
	d := Dwelling{AreaM2: 150, Heat: 6900, StoredWater: 4600, Charger: 7360}
	load := EnglishDemand(d)
	assert.InDelta(t, 32*1.8+0.66*12+20+20+32, load.Value, 1e-9)
	_, ok := EnglishSupply(load.Value)
	assert.False(t, ok, "more than 100 A")
	rating, ok := EnglishSupply(60.5)
	assert.True(t, ok)
	assert.Equal(t, 80.0, rating)
	_, ok = EnglishCylinder([]Household{{3, 1}, {3, 1}})
	assert.False(t, ok, "six bedrooms are beyond the guide")
}
