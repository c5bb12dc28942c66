package services_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	. "moiety/plan/services"
)

// Units of the worked examples.
const (
	wattsPerBtuH = 0.29307107
	uPerImperial = 5.678263 // W/m2K in a Btu/h ft2 degF
)

// celsius of degrees Fahrenheit.
func celsius(f float64) float64 { return (f - 32) / 1.8 }

// A semi-detached house, room by room, with the temperatures on either side of
// each element: http://www.diydata.com/planning/ch_design/calculations.php
func TestHeatLossOfASemiDetachedHouse(t *testing.T) {
	for _, c := range []struct {
		element           string
		ft2, in, out, u   float64
		publishedBtuPerHr float64
	}{
		{"dining back wall", 72, 70, 30, 0.18, 518},
		{"dining window", 40, 70, 30, 0.51, 816},
		{"dining party wall", 136, 70, 65, 0.38, 258},
		{"dining ceiling", 238, 70, 65, 0.29, 345},
		{"dining floor", 238, 70, 30, 0.12, 1142},
		{"lounge/kitchen wall", 112, 70, 65, 0.39, 218},
		{"lounge front wall", 72, 70, 30, 0.18, 518},
		{"lounge window", 40, 70, 30, 0.51, 816},
		{"lounge party wall", 120, 70, 65, 0.38, 228},
		{"lounge ceiling", 210, 70, 65, 0.29, 305},
		{"lounge floor", 210, 70, 30, 0.12, 1008},
		{"lounge hall wall", 120, 70, 60, 0.39, 468},
		{"kitchen back wall", 32, 65, 30, 0.18, 202},
		{"kitchen window", 16, 65, 30, 0.51, 286},
		{"kitchen side wall", 95.75, 65, 30, 0.18, 603},
		{"kitchen back door", 16.25, 65, 30, 0.42, 239},
		{"kitchen ceiling", 84, 65, 72, 0.25, -147},
		{"kitchen floor", 84, 65, 30, 0.12, 353},
		{"hall side wall", 231.5, 60, 30, 0.18, 1250},
		{"hall window", 16, 60, 30, 0.51, 245},
		{"hall front door", 19.5, 60, 30, 0.42, 246},
		{"hall ceiling to roof", 80, 60, 30, 0.05, 120},
		{"hall floor", 108, 60, 30, 0.12, 389},
		{"bed1 back wall", 72, 65, 30, 0.18, 454},
		{"bed1 ceiling", 238, 65, 30, 0.05, 417},
		{"bed1 floor", 238, 65, 70, 0.29, -345},
		// Comparison of heat loss by sample building component, http://studylib.net/doc/8966346/
		{"single window", 6, 70, 30, 1.1, 264},
		{"wall in its place", 6, 70, 30, 0.07, 16.8},
	} {
		e := Element{Name: c.element, AreaM2: c.ft2 * m2PerFt2, U: c.u * uPerImperial, InC: celsius(c.in), OutC: celsius(c.out)}
		assert.InDelta(t, c.publishedBtuPerHr, e.LossW()/wattsPerBtuH, 1, c.element)
	}
}

// The form in Btu/h, 0.018 V ACH dT, and the one in watts agree within 2 %.
func TestAirLosesHeatInBothForms(t *testing.T) {
	// 1000 ft3 changed half an hourly time over 40 degF; https://hud-calculator.com/Calculating-Heat-Loss-In-A-House.php
	air := Air{VolumeM3: 1000 * 0.3048 * 0.3048 * 0.3048, ACH: 0.5, InC: celsius(70), OutC: celsius(30)}
	assert.InEpsilon(t, 0.018*1000*0.5*40, air.LossW()/wattsPerBtuH, 0.02)
}

func TestALoadAddsUpItsLines(t *testing.T) {
	load, err := HeatLoad([]Element{{"wall", 40, 0.5, 21, -19}, {"window", 5, 2, 21, -19}}, Air{100, 0.5, 21, -19})
	require.NoError(t, err)
	assert.InDelta(t, 40*0.5*40+5*2*40+0.33*0.5*100*40, load.Value, 1e-9)
	assert.Len(t, load.Lines, 3)
	assert.Contains(t, load.Caution, "licensed")
	least, most := Furnace(load.Value)
	assert.Equal(t, []float64{2000, 2500}, []float64{least, most}, "1860 W")
	_, err = HeatLoad([]Element{{"wall", -1, 0.5, 21, -19}, {"roof", 1, math.NaN(), 21, -19}}, Air{ACH: -1})
	for _, part := range []string{"wall", "roof", "air"} {
		assert.ErrorContains(t, err, part)
	}
}

func TestOlderHousesLoseMore(t *testing.T) {
	for _, pair := range [][2]int{{1900, 1960}, {1960, 1980}, {1980, 2000}, {2000, 2020}} {
		older, newer := Built(pair[0]), Built(pair[1])
		assert.Greater(t, older.Wall, newer.Wall)
		assert.Greater(t, older.Window, newer.Window)
		assert.Greater(t, older.Roof, newer.Roof)
		assert.Greater(t, older.ACH, newer.ACH)
	}
	assert.Equal(t, Built(2020), Built(20000))
	assert.Equal(t, 21.0, Against(Heated, 21, -19))
	assert.Equal(t, -19.0, Against(Outdoors, 21, -19))
	assert.Equal(t, 1.0, Against(Earth, 21, -19))
	assert.Equal(t, 1.0, Against(Unheated, 21, -19))
}

func TestLoadsScaleWithAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.Float64Range(1, 10).Draw(t, "by")
		n := rapid.IntRange(0, 6).Draw(t, "elements")
		var once, more []Element
		for range n {
			e := Element{"wall", rapid.Float64Range(0, 100).Draw(t, "m2"), rapid.Float64Range(0, 5).Draw(t, "u"), 21, rapid.Float64Range(-40, 20).Draw(t, "out")}
			once = append(once, e)
			e.AreaM2 *= by
			more = append(more, e)
		}
		small, err := HeatLoad(once, Air{100, 0.5, 21, -18})
		require.NoError(t, err)
		large, err := HeatLoad(more, Air{100 * by, 0.5, 21, -18})
		require.NoError(t, err)
		assert.InEpsilon(t, small.Value*by, large.Value, 1e-9)
		leastSmall, mostSmall := Furnace(small.Value)
		leastLarge, mostLarge := Furnace(large.Value)
		assert.LessOrEqual(t, leastSmall, leastLarge)
		assert.LessOrEqual(t, mostSmall, mostLarge)
		assert.GreaterOrEqual(t, leastSmall, small.Value)
	})
}
