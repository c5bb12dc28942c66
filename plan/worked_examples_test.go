package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/acoustics"
	"moiety/plan/services"
	"moiety/plan/structure"
)

// Units of the examples.
const (
	ft2      = 0.09290304
	oneFoot  = 0.3048
	oneInch  = 0.0254
	gallon   = 3.785411784
	btuHour  = 0.29307107
	btuU     = 5.678263 // W/m2K in a Btu/h ft2 degF
	psi      = 0.006894757
	psf      = 0.04788026
	pound    = 0.0044482216 // kN
	footLb   = 0.0013558179 // kNm
	lbPerFt2 = 4.88242764   // kg/m2
)

// publishedExamples are all worked examples that were collected for the
// project, by the names that they have in its list of references. The test
// below fails for one that nobody recomputes.
var publishedExamples = []string{
	"stc-ol05-1056", "stc-ol15-1013", "e413-intertek-cac25", "e413-ala2016-cac34", "e413-ala2020-cac39", "stc-pyacoustics-test",
	"stc-pyacoustics-stc-lib", "iso717-1-annexC", "rw-pyacoustics-test", "iso717-2-annexC1", "iso717-2-annexC1-covered",
	"iso717-2-annexC3-octave", "iic-synthetic-identity", "mass-law-example", "mass-law-example-imperial",
	"doe-fhr-worksheet-old", "doe-fhr-worksheet-new", "nec-D1a", "nec-D1b", "nec-D2a", "nec-D2b", "nec-D2c", "nec-220.85-duplex",
	"cec-8-200-range", "cec-dakota", "heat-loss-semi", "heat-loss-window",
	"lvl-2x11.875-2900", "lvl-3x18-2900", "lvl-3x11.875-2650", "lvl-2x11.875-2950", "lvl-3x1.5x9.5-2650", "lvl-3x1.5x9.5-2950",
	"beam-one-floor-tigard", "beam-M-readbag",
	"sheet-example", "sheet-example2", "stud-example", "rough-opening-steel",
}

// ruledOut are figures of the same list that must not be check values: they do
// not recompute, or two prints of them conflict.
//
//   - nbc-f5a-iic-anomaly: IIC 37 of row F5a, likely a misprint
//   - nec-220.85-duplex, its standard total of 66,180 VA: the largest motor is not stated
//   - sheet-example, its tape: 55 x 16 printed as 800
//   - hud-el-1-3: electric, three bedrooms and one bathroom: two prints differ
//   - the depth exponents and shear stresses of the LVL sheets: fitted, not published
//   - ashrae622-2016-<500, two bedrooms: the cell is garbled
var ruledOut = []string{"nbc-f5a-iic-anomaly", "hud-el-1-3"}

func TestEveryPublishedExampleIsRecomputed(t *testing.T) {
	recomputed := map[string]bool{}
	for _, of := range slices.Concat(soundExamples, serviceExamples, beamExamples, takeOffExamples) {
		require.False(t, recomputed[of.name], "%s stands twice", of.name)
		recomputed[of.name] = true
		t.Run(of.name, of.check)
	}
	for _, name := range publishedExamples {
		assert.True(t, recomputed[name], "nobody recomputes %s", name)
		delete(recomputed, name)
	}
	assert.Empty(t, recomputed, "an example that is not in the list of references")
	for _, name := range ruledOut {
		assert.NotContains(t, publishedExamples, name)
	}
}

type example struct {
	name  string
	check func(t *testing.T)
}

// stc checks a rating and, where not negative, the sum of the deficiencies.
func stc(name string, rating int, sum float64, tl acoustics.Bands) example {
	return example{name, func(t *testing.T) {
		rated := acoustics.STC(tl)
		assert.Equal(t, rating, rated.STC)
		if sum >= 0 {
			assert.Equal(t, sum, rated.Sum)
		}
	}}
}

var soundExamples = []example{
	// Orfield Laboratories test reports OL 05-1056 (2005-10-15), https://m.moam.info/ol-05-1056-soundproofing-company_5a02cd161723dd0aeb797e27.html,
	// and OL15-1013 (2015-10-28), https://doczz.net/doc/2381533/astm-e-90-09--laboratory-measurement-of-airborne-sound
	stc("stc-ol05-1056", 46, 29, acoustics.Bands{28, 38, 34, 40, 39, 37, 44, 46, 49, 51, 51, 50, 44, 45, 50, 57}),
	stc("stc-ol15-1013", 50, 20, acoustics.Bands{34, 36, 41, 45, 46, 50, 53, 54, 56, 57, 56, 55, 48, 46, 49, 54}),
	// Reports on ceilings as printed in https://github.com/jmrplens/phonometry
	stc("e413-intertek-cac25", 25, 24, acoustics.Bands{8, 13, 15, 15, 19, 23, 24, 21, 23, 26, 26, 27, 29, 32, 34, 36}),
	stc("e413-ala2016-cac34", 34, -1, acoustics.Bands{14.4, 18.6, 21.7, 24.1, 23.4, 30.3, 33.7, 35.2, 41.6, 44.2, 42.1, 36.8, 35.7, 36.0, 36.9, 37.9}),
	stc("e413-ala2020-cac39", 39, 32, acoustics.Bands{20.7, 22.1, 25.1, 25.8, 27.1, 35.2, 37.9, 41.2, 43.4, 46.1, 48.2, 46.4, 45.7, 43.0, 40.7, 41.2}),
	// Values of libraries: python-acoustics tests/test_building.py, and the README of pyacoustics-stc.
	stc("stc-pyacoustics-test", 25, -1, acoustics.Bands{18, 18, 17, 17, 20, 21, 22, 23, 25, 26, 26, 25, 25, 26, 30, 31}),
	stc("stc-pyacoustics-stc-lib", 29, -1, acoustics.Bands{11.66, 13.303, 14.825, 20.861, 22.868, 24.943, 26.881, 28.889, 30.964, 32.902, 34.84, 36.984, 38.923, 40.861, 27.557, 30.67}),
	// ISO 717-1 Annex C Table C.1 and ISO 717-2 Annex C Tables C.1 and C.3, as transcribed in https://github.com/jmrplens/phonometry
	{"iso717-1-annexC", func(t *testing.T) {
		r := acoustics.Rw(acoustics.Bands{20.4, 16.3, 17.7, 22.6, 22.4, 22.7, 24.8, 26.6, 28.0, 30.5, 31.8, 32.5, 33.4, 33.0, 31.0, 25.5})
		assert.Equal(t, []any{30, -2, -3, 31.8}, []any{r.Rw, r.C, r.Ctr, r.Sum})
	}},
	{"rw-pyacoustics-test", func(t *testing.T) {
		r := acoustics.Rw(acoustics.Bands{10, 11, 12, 13, 15, 18, 20, 20, 25, 22, 18, 15, 20, 25, 28, 30})
		assert.Equal(t, 22, r.Rw)
		assert.InDelta(t, 19.65747318, r.SumC, 1e-8)
		assert.InDelta(t, 18.036282792, r.SumCtr, 1e-8)
	}},
	{"iso717-2-annexC1", func(t *testing.T) {
		r := acoustics.Lnw(acoustics.Bands{62.1, 63.2, 63.5, 66.2, 68.5, 70.0, 71.7, 73.1, 73.8, 73.5, 73.8, 73.3, 73.1, 73.0, 72.4, 71.2})
		assert.Equal(t, []any{79, -11, 28.0}, []any{r.Lnw, r.CI, r.Sum})
	}},
	{"iso717-2-annexC1-covered", func(t *testing.T) {
		r := acoustics.Lnw(acoustics.Bands{59.1, 59.5, 61.6, 63.2, 65.3, 66.5, 67.7, 67.0, 67.1, 66.5, 66.1, 62.5, 57.9, 52.7, 47.0, 48.0})
		assert.Equal(t, []any{64, -3, 30.0}, []any{r.Lnw, r.CI, r.Sum})
	}},
	{"iso717-2-annexC3-octave", func(t *testing.T) {
		r := acoustics.LnwOctaves([5]float64{65.3, 64.5, 58.0, 55.8, 43.0})
		assert.Equal(t, []any{54, 0, 7.8}, []any{r.Lnw, r.CI, r.Sum})
	}},
	// An identity by construction: 2 dB above the contour whose value at 500 Hz is 60 in all 16 bands are 32 dB and IIC 50.
	{"iic-synthetic-identity", func(t *testing.T) {
		levels := acoustics.Bands{2, 2, 2, 2, 2, 2, 1, 0, -1, -2, -3, -6, -9, -12, -15, -18}
		for i := range levels {
			levels[i] += 60 + 2
		}
		r := acoustics.IIC(levels)
		assert.Equal(t, []any{50, 32.0}, []any{r.IIC, r.Sum})
	}},
	// https://theprimecalculator.com/science/sound-transmission-loss/formula: 32.7 dB with the constant 47.3; ours is 47.
	{"mass-law-example", func(t *testing.T) { assert.InDelta(t, 32.7, acoustics.MassLaw(20, 500)-0.3, 0.05) }},
	// http://www.grozier.com/TransmissionLossWalls.shtml: 20 dB of 1 lb/ft2 at 250 Hz at normal incidence, which lies about
	// 5 dB above the field incidence of ours (42 and 47 are the constants that the same pages give).
	{"mass-law-example-imperial", func(t *testing.T) {
		assert.InDelta(t, 20, acoustics.MassLaw(1*lbPerFt2, 250)+5, 0.5)
	}},
}

// firstHour checks what uses ask of a tank in the first hour, in gallons.
func firstHour(name string, gallons float64, sheet services.Worksheet, uses ...services.Use) example {
	return example{name, func(t *testing.T) {
		asked, err := services.FirstHour(uses, sheet)
		require.NoError(t, err)
		assert.InDelta(t, gallons, asked.Value/gallon, 1e-9)
	}}
}

var serviceExamples = []example{
	// http://www.energycode.com/?page_id=237, and https://profixdirectory.com/calculators/materials/water-heater-size quoting energy.gov
	firstHour("doe-fhr-worksheet-old", 46, services.OlderWorksheet, services.Use{What: "shower", Times: 3}, services.Use{What: "shave", Times: 1}, services.Use{What: "shampoo", Times: 1}, services.Use{What: "dishes_by_hand", Times: 1}),
	firstHour("doe-fhr-worksheet-new", 65, services.CurrentWorksheet, services.Use{What: "shower", Times: 3}, services.Use{What: "shave", Times: 1}, services.Use{What: "dishes_by_hand", Times: 1}),
	// NEC Annex D, https://flylib.com/books/en/2.419.1/ (2005 edition)
	{"nec-D1a", func(t *testing.T) {
		house := services.Dwelling{AreaM2: 1500 * ft2, Ranges: []float64{12000}, Dryer: 5500}
		load := services.StandardLoad(house)
		assert.InDelta(t, 18600, load.Value, 0.5)
		assert.InDelta(t, 5100, load.Lines[0].Value, 0.5)
		assert.Equal(t, 78.0, services.Amps(load.Value))
		assert.InDelta(t, 14550, services.StandardNeutral(house), 0.5)
		assert.Equal(t, 61.0, services.Amps(services.StandardNeutral(house)))
		assert.Equal(t, 3, services.LightingCircuits(house.AreaM2), "of 15 A")
		assertService(t, 100, load.Value)
	}},
	{"nec-D1b", func(t *testing.T) {
		lines := services.Lines{A: 78, Neutral: 61, B: 78}.Add(services.Lines{A: 6, B: 6}).Add(services.Lines{A: 12, Neutral: 12, B: 10}).
			Add(services.Lines{Neutral: 8, B: 8}).Add(services.Lines{A: 3, Neutral: 2, B: 2})
		assert.Equal(t, services.Lines{A: 99, Neutral: 83, B: 104}, lines)
		assertService(t, 110, 240*lines.B)
	}},
	{"nec-D2a", func(t *testing.T) {
		house := services.Dwelling{AreaM2: 1500 * ft2, Ranges: []float64{12000}, Dryer: 5000, Fixed: []float64{2500, 1200}, Heat: 9000, HeatUnits: 5, Cool: 6 * 230}
		load := services.OptionalLoad(house)
		assert.InDelta(t, 21480, load.Value, 0.5)
		assert.InDelta(t, 17880, load.Lines[4].Value, 0.5)
		assert.InDelta(t, 3600, load.Lines[5].Value, 0.5)
		house.Fixed = []float64{1200} // the dishwasher alone is on the neutral
		assert.InDelta(t, 15400, services.StandardNeutral(house), 0.5)
		assertService(t, 100, load.Value)
	}},
	{"nec-D2b", func(t *testing.T) {
		load := services.OptionalLoad(services.Dwelling{AreaM2: 1500 * ft2, Ranges: []float64{4000, 4000, 5100}, Dryer: 5000, Fixed: []float64{4500, 1200}, Heat: 1500, HeatUnits: 1, Cool: 6 * 7 * 240})
		assert.InDelta(t, 19120, load.Lines[4].Value, 0.5)
		assert.InDelta(t, 29200, load.Value, 0.5)
		assert.Equal(t, 122.0, services.Amps(load.Value))
	}},
	{"nec-D2c", func(t *testing.T) {
		load := services.OptionalLoad(services.Dwelling{AreaM2: 2000 * ft2, Ranges: []float64{12000}, Dryer: 5000, Fixed: []float64{4500, 1200}, HeatPump: 24 * 240, Heat: 15000})
		assert.InDelta(t, 19280, load.Lines[4].Value, 0.5)
		assert.InDelta(t, 15510, load.Lines[5].Value, 0.5)
		assert.InDelta(t, 34790, load.Value, 0.5)
		assertService(t, 150, load.Value)
	}},
	// https://www.ecmag.com/section/codes-standards/branch-circuit-feeder-and-service-calculations-part-lviii: the optional side.
	{"nec-220.85-duplex", func(t *testing.T) {
		unit := services.Dwelling{AreaM2: 1800 * ft2, Ranges: []float64{12000}, Dryer: 5000, Fixed: []float64{9156}, Heat: 10000 + 1176, Cool: 4200 + 360 + 1176}
		three := services.ThreeDwellings(unit)
		parts := map[string]float64{}
		for _, line := range three.Lines {
			parts[line.What] = 3 * line.Value
		}
		// Three units together: lighting 16200 and circuits 13500; fixed appliances, range and dryer 78468; heat 33528.
		assert.InDelta(t, 16200+13500, parts["lighting, small appliances and laundry"], 1)
		assert.InDelta(t, 78468, parts["fixed appliances"]+parts["cooking"]+parts["dryer"], 1)
		assert.InDelta(t, 33528, 3*unit.Heat, 1)
		assert.InDelta(t, 0.45*141696, three.Value, 1)
		assert.InDelta(t, 63763, services.TwoDwellings(unit, unit).Value, 1)
	}},
	// CEC 8-200(1)(a)(iv) as quoted in a public audit of the rule.
	{"cec-8-200-range", func(t *testing.T) {
		assert.Equal(t, []float64{6000, 6000, 7200}, []float64{services.RangeLoad(8000), services.RangeLoad(12000), services.RangeLoad(15000)})
	}},
	// https://www.dakotaprep.com/red-seal-exam-guides/demand-factors-residential-guide-for-red-seal-exam-cec-2024: the basic load and the division.
	{"cec-dakota", func(t *testing.T) {
		assert.Equal(t, 32000.0, services.BasicLoad(2475))
		assert.Equal(t, 197.0, services.Amps(47375))
	}},
	// http://www.diydata.com/planning/ch_design/calculations.php: Btu/h, to the printed Btu.
	{"heat-loss-semi", func(t *testing.T) {
		for _, row := range [][5]float64{ // ft2, degF inside, outside, U, Btu/h
			{72, 70, 30, 0.18, 518}, {40, 70, 30, 0.51, 816}, {136, 70, 65, 0.38, 258}, {238, 70, 65, 0.29, 345}, {238, 70, 30, 0.12, 1142},
			{112, 70, 65, 0.39, 218}, {72, 70, 30, 0.18, 518}, {40, 70, 30, 0.51, 816}, {120, 70, 65, 0.38, 228}, {210, 70, 65, 0.29, 305},
			{210, 70, 30, 0.12, 1008}, {120, 70, 60, 0.39, 468}, {32, 65, 30, 0.18, 202}, {16, 65, 30, 0.51, 286}, {95.75, 65, 30, 0.18, 603},
			{16.25, 65, 30, 0.42, 239}, {84, 65, 72, 0.25, -147}, {84, 65, 30, 0.12, 353}, {231.5, 60, 30, 0.18, 1250}, {16, 60, 30, 0.51, 245},
			{19.5, 60, 30, 0.42, 246}, {80, 60, 30, 0.05, 120}, {108, 60, 30, 0.12, 389}, {72, 65, 30, 0.18, 454}, {238, 65, 30, 0.05, 417},
			{238, 65, 70, 0.29, -345},
		} {
			assert.InDelta(t, row[4], heatLoss(row[0], row[1], row[2], row[3]), 1)
		}
	}},
	// http://studylib.net/doc/8966346/comparison-of-heat-loss-by-sample-building-component
	{"heat-loss-window", func(t *testing.T) {
		assert.InDelta(t, 264, heatLoss(6, 70, 30, 1.1), 0.05)
		assert.InDelta(t, 16.8, heatLoss(6, 70, 30, 0.07), 0.05)
	}},
}

// heatLoss is an element's loss in Btu/h from ft2, degF and Btu/h ft2 degF.
func heatLoss(area, inF, outF, u float64) float64 {
	e := services.Element{AreaM2: area * ft2, U: u * btuU, InC: (inF - 32) / 1.8, OutC: (outF - 32) / 1.8}
	return e.LossW() / btuHour
}

func assertService(t *testing.T, amps, va float64) {
	t.Helper()
	size, ok := services.Service(va)
	assert.True(t, ok)
	assert.Equal(t, amps, size)
}

// beamSheet checks the moment in ft lb and the shear in lb that a sheet of a
// public permit record prints for a beam of laminated veneer lumber: City of
// Tigard, http://publicrecords.tigard-or.gov. The sheets do not print the
// factor for a depth below 12 in, which raises the moment by less than 3 %: none
// is taken here; at 18 in it is that of the sizing.
func beamSheet(name string, plies, widthIn, depthIn, bendingPSI, factor, momentFtLb, shearLb float64) example {
	return example{name, func(t *testing.T) {
		section := structure.Section{
			WidthMM: 1e3 * plies * widthIn * oneInch, DepthMM: 1e3 * depthIn * oneInch, BendingMPa: bendingPSI * factor * psi,
			ShearOnAreaMPa: 190 * psi, // of the sheets with a shear stress of 285 psi; 290 psi are 1.7 % more
		}
		ratio := section.MomentKNm() / (momentFtLb * footLb)
		assert.LessOrEqual(t, ratio, 1.0005)
		assert.Greater(t, ratio, 0.97)
		assert.InEpsilon(t, shearLb*pound, section.ShearKN(), 0.018)
	}}
}

var beamExamples = []example{
	beamSheet("lvl-2x11.875-2900", 2, 1.75, 11.875, 2900, 1, 19902, 7897),
	beamSheet("lvl-3x18-2900", 3, 1.75, 18, 2900, math.Pow(12.0/18, 1.0/7), 64657, 17955),
	beamSheet("lvl-3x11.875-2650", 3, 1.75, 11.875, 2650, 1, 27280, 11845),
	beamSheet("lvl-2x11.875-2950", 2, 1.75, 11.875, 2950, 1, 20246, 8035),
	beamSheet("lvl-3x1.5x9.5-2650", 3, 1.5, 9.5, 2650, 1, 15341, 8123),
	beamSheet("lvl-3x1.5x9.5-2950", 3, 1.5, 9.5, 2950, 1, 17077, 8265),
	// The same record, floor beam 1: 207.4 in of span, 40 psf on 6 ft: 0.347 in, L/598; L/360 is 0.576 in.
	{"beam-one-floor-tigard", func(t *testing.T) {
		span := 207.4 * oneInch
		section := structure.Section{WidthMM: 3 * 1.75 * 1e3 * oneInch, DepthMM: 11.875 * 1e3 * oneInch, ModulusMPa: 1.9e6 * psi}
		sag := structure.UniformDeflectionMM(6*oneFoot*40*psf, span, section.StiffnessKNm2())
		assert.InDelta(t, 0.347, sag/1e3/oneInch, 0.0015)
		assert.InDelta(t, 598, span*1e3/sag, 2)
	}},
	// http://www.readbag.com/constructioncalc-blog-wp-content-uploads-2009-05-02mbeam9-25-02, floor beam M.
	{"beam-M-readbag", func(t *testing.T) {
		section := structure.Sections(structure.LVL)[0]
		section.WeightKNPerM3 = 0
		beam := structure.Try(structure.Opening{ClearM: 10.7*oneFoot - 0.076, Kind: structure.LVL,
			Carries: []structure.Carried{{What: "floor", WidthM: 12 * oneFoot, DeadKPa: 12 * psf, LiveKPa: 40 * psf}}}, section)
		assert.InEpsilon(t, 480*pound/oneFoot, beam.LiveKNPerM, 1e-4)
		assert.InEpsilon(t, 144*pound/oneFoot, beam.DeadKNPerM, 1e-4)
		assert.InEpsilon(t, 624*pound/oneFoot, beam.LiveKNPerM+beam.DeadKNPerM, 1e-4)
		assert.InDelta(t, 0.36, beam.Checks[2].Capacity/1e3/oneInch, 0.005)
		assert.InDelta(t, 0.54, beam.Checks[3].Capacity/1e3/oneInch, 0.006)
	}},
}

// bought is how many sheets a net number and a waste come to.
func bought(net, waste float64) float64 {
	return plan.Totals([]plan.Quantity{{Item: "board", Measure: "sheets", Net: net, Waste: waste}})[0].Net
}

var takeOffExamples = []example{
	// https://www.thebalancesmb.com/how-to-estimate-drywall-step-by-step-tutorial-844379: 1600 ft2 are 50 sheets, 55 with 10 %.
	{"sheet-example", func(t *testing.T) {
		assert.Equal(t, []float64{50, 55}, []float64{bought(1600/32.0, 0), bought(1600/32.0, 0.10)})
	}},
	// http://howtobuildplans.com/?p=40: 135 ft of wall 8 ft high are 1080 ft2 and 34 sheets.
	{"sheet-example2", func(t *testing.T) { assert.Equal(t, 34.0, bought(135*8/32.0, 0)) }},
	// https://www.parkerslegacy.com/how-many-2x4-do-i-need-calculator/: 192 in at 16 in are 12 spaces, 13 studs with the end stud.
	{"stud-example", func(t *testing.T) { assert.Equal(t, 13, plan.StudsAlong(192*oneInch, 16*oneInch)) }},
	// http://www.delafontaine.com/en/sections.php?pksections=149332094: a steel frame's door of 36 x 84 in takes an opening of 38 x 85.25 in.
	{"rough-opening-steel", func(t *testing.T) {
		width, height := plan.RoughOpening(36*oneInch, 84*oneInch, plan.SteelFrame)
		assert.InDelta(t, 38, width/oneInch, 1e-9)
		assert.InDelta(t, 85.25, height/oneInch, 1e-9)
	}},
}

// A door of 6 ft 8 in in a wooden frame takes an opening 2 in wider and 82.5 in
// high (https://wackerhardware.com/accessories/what-is-the-rough-opening-of-a-24-oneInch-door.html).
func TestARoughOpeningOfAWoodenFrame(t *testing.T) {
	for door, rough := range map[float64]float64{30: 32, 32: 34, 36: 38} {
		width, height := plan.RoughOpening(door*oneInch, 80*oneInch, plan.WoodFrame)
		assert.InDelta(t, rough, width/oneInch, 1e-9)
		assert.InDelta(t, 82.5, height/oneInch, 1e-9)
	}
}
