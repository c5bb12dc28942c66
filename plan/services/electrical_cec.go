package services

import (
	"fmt"
	"math"
	"slices"
)

// BasicLoad is the Canadian basic load in W of a living area in m2: 5000 W for
// the first 90 m2 and 1000 W for each further 90 m2 or part of it.
func BasicLoad(areaM2 float64) float64 {
	by := figures.CEC.Basic.Value
	// nearM2 forgives the rounding of an area that is a whole number of steps.
	const nearM2 = 1e-6
	return by.FirstW + by.EachW*max(math.Ceil((areaM2-by.FirstM2-nearM2)/by.EachM2), 0)
}

// RangeLoad is the Canadian load in W of a range by nameplate: 6000 W, and 40 %
// of what it has over 12 kW.
func RangeLoad(w float64) float64 {
	by := figures.CEC.Range.Value
	return by.W + by.Rest*max(w-by.To, 0)
}

// CanadianLoad is the load in W of one dwelling by CEC 8-200(1): the greater of
// its parts and of the least that the code sets by area. Fixed appliances up to
// 1500 W and dryers up to that are in the basic load.
func CanadianLoad(d Dwelling) Result {
	load, parts := canadianParts(d)
	if heat := figures.CEC.Heat.Value.of(d.Heat + d.HeatPump); max(heat, d.Cool) > 0 {
		parts += load.add("heating or cooling", fmt.Sprintf("the larger of %.0f W (the first 10 kW in full, 75 %% of the rest) and %.0f W", heat, d.Cool), max(heat, d.Cool), "W")
		load.rest(figures.CEC.Heat.Source)
	}
	least := load.add("the least by area", fmt.Sprintf("%.0f m2", d.AreaM2), leastCanadian(d), "W")
	load.Value = max(parts, least)
	return load
}

// canadianParts are the parts of a dwelling's load without heating and cooling.
func canadianParts(d Dwelling) (load Result, parts float64) {
	cec := figures.CEC
	load = Result{Method: "CEC 8-200(1), single dwelling", Unit: "W", Caution: electricalCaution}
	area := d.AreaM2 - d.BasementM2 + cec.Basic.Value.Basement*d.BasementM2
	parts = load.add("basic load", fmt.Sprintf("%.0f m2 counted", area), BasicLoad(area), "W")
	for _, w := range d.Ranges {
		parts += load.add("range", fmt.Sprintf("%.0f W", w), RangeLoad(w), "W")
	}
	by, others := cec.Other.Value, 0.0
	for _, w := range append(slices.Clone(d.Fixed), d.Dryer) {
		if w > by.From {
			others += w
		}
	}
	if others > 0 {
		counted, from := by.WithRange*others, "25 %, with a range"
		if len(d.Ranges) == 0 {
			counted, from = min(others, by.Free)+by.WithRange*max(others-by.Free, 0), "the first 6000 W in full, 25 % of the rest"
		}
		parts += load.add("appliances over 1500 W", fmt.Sprintf("%.0f W, %s", others, from), counted, "W")
	}
	if d.Charger > 0 {
		parts += load.add("vehicle charger", "in full", d.Charger, "W")
	}
	load.rest(cec.Basic.Source, cec.Range.Source, cec.Other.Source, cec.Least.Source)
	return load, parts
}

func leastCanadian(d Dwelling) float64 {
	if by := figures.CEC.Least.Value; d.AreaM2 < by.FromM2 {
		return by.Below
	}
	return figures.CEC.Least.Value.W
}

// CanadianTwo is the load in W of two dwellings on one service, CEC 8-200(2):
// each without heating and cooling, the larger in full and 65 % of the other,
// and then all heating and cooling.
func CanadianTwo(a, b Dwelling) Result {
	both := Result{Method: "CEC 8-200(2), house with a second dwelling", Unit: "W", Caution: electricalCaution}
	var units []float64
	heat, cool := 0.0, 0.0
	for _, d := range []Dwelling{a, b} {
		load, parts := canadianParts(d)
		units = append(units, max(parts, leastCanadian(d)))
		both.rest(load.Sources...)
		heat += d.Heat + d.HeatPump
		cool += d.Cool
	}
	slices.Sort(units)
	demand := figures.CEC.Demand
	both.Value += both.add("the larger dwelling", fmt.Sprintf("%.0f %%", 100*demand.Value[0]), demand.Value[0]*units[1], "W")
	both.Value += both.add("the other", fmt.Sprintf("%.0f %% of %.0f W", 100*demand.Value[1], units[0]), demand.Value[1]*units[0], "W")
	both.rest(demand.Source)
	if hvac := max(figures.CEC.Heat.Value.of(heat), cool); hvac > 0 {
		both.Value += both.add("heating or cooling of both", "the larger", hvac, "W")
		both.rest(figures.CEC.Heat.Source)
	}
	return both
}
