package services

import (
	"fmt"
	"math"
	"slices"
)

// englishVolts is the nominal voltage of a dwelling's supply in England, V.
const englishVolts = 230

const englishElectricalCaution = "A first idea of the demand after diversity, by circuits that a dwelling usually has. A registered electrician and the network " +
	"operator decide; two dwellings need a supply, a cut-out and a consumer unit each."

// CookerDemand is the demand in A of a cooker of that full current: the first
// 10 A in full and 30 % of the rest.
func CookerDemand(amps float64) float64 {
	by := figures.England.Diversity.Value
	return min(amps, by.CookerFirstA) + by.CookerRest*max(amps-by.CookerFirstA, 0)
}

// EnglishDemand is the demand in A at 230 V of one dwelling after the diversity
// that the guide to BS 7671 allows households: socket circuits, the largest in
// full and 40 % of the others; 66 % of the lighting; a cooker; electric heating,
// the first 10 A in full and half of the rest; stored hot water in full.
func EnglishDemand(d Dwelling) Result {
	by, usual := figures.England.Diversity.Value, figures.England.Circuits.Value
	all := Result{Method: "demand after diversity, On-Site Guide to BS 7671", Unit: "A", Caution: englishElectricalCaution}
	floors := math.Max(math.Ceil(d.AreaM2/usual.EachM2-1e-9), 1)
	rings := floors + 1 // one more for the kitchen
	all.Value += all.add("socket circuits", fmt.Sprintf("%.0f of %.0f A: one in full, %.0f %% of the others", rings, usual.SocketsA, 100*by.SocketsOthers),
		usual.SocketsA*(1+by.SocketsOthers*(rings-1)), "A")
	all.Value += all.add("lighting", fmt.Sprintf("%.0f %% of %.0f circuits of %.0f A", 100*by.Lighting, floors, usual.LightingA), by.Lighting*floors*usual.LightingA, "A")
	if w := sum(d.Ranges); w > 0 {
		full := w / englishVolts
		all.Value += all.add("cooker", fmt.Sprintf("%.0f W, %.0f A: the first %.0f A in full, %.0f %% of the rest", w, full, by.CookerFirstA, 100*by.CookerRest), CookerDemand(full), "A")
	}
	if d.Heat > 0 {
		full := d.Heat / englishVolts
		all.Value += all.add("heating", fmt.Sprintf("%.0f A: the first %.0f A in full, %.0f %% of the rest", full, by.HeatFirstA, 100*by.HeatRest),
			min(full, by.HeatFirstA)+by.HeatRest*max(full-by.HeatFirstA, 0), "A")
	}
	if d.StoredWater > 0 {
		all.Value += all.add("stored hot water", "in full", d.StoredWater/englishVolts, "A")
	}
	if d.Charger > 0 {
		all.Value += all.add("vehicle charger", "in full", d.Charger/englishVolts, "A")
	}
	all.rest(figures.England.Diversity.Source, figures.England.Circuits.Source)
	return all
}

// EnglishSupply is the least usual rating in A of a cut-out that carries a
// demand on a single phase; beyond the largest, ok is false.
func EnglishSupply(amps float64) (rating float64, ok bool) {
	for _, size := range figures.England.CutOuts.Value {
		if size >= amps {
			return size, true
		}
	}
	return 0, false
}

// EnglishVentilation is the rate in l/s of a whole dwelling by Approved Document
// F: that of its bedrooms, and no less than 0.3 l/s for each m2.
func EnglishVentilation(areaM2 float64, bedrooms int) Result {
	by := figures.England.Ventilation
	rate := Result{Method: "Approved Document F, whole dwelling", Unit: "l/s", Caution: ventilationCaution}
	n := max(bedrooms, 1)
	rows := by.Value.ByBedrooms
	byRooms := rows[min(n, len(rows))-1] + by.Value.EachMore*float64(max(n-len(rows), 0))
	rate.add("by bedrooms", fmt.Sprintf("%d", n), byRooms, "l/s")
	byArea := rate.add("by area", fmt.Sprintf("%g l/s x %.1f m2", by.Value.PerM2, areaM2), by.Value.PerM2*areaM2, "l/s")
	rate.Value = max(byRooms, byArea)
	rate.rest(by.Source)
	return rate
}

// EnglishCylinder is the least cylinder in litres that trade guides give for the
// bedrooms of all households together; beyond their largest ok is false.
func EnglishCylinder(households []Household) (result Result, ok bool) {
	bedrooms := 0
	for _, h := range households {
		bedrooms += h.Bedrooms
	}
	rows := figures.England.Cylinders
	result = Result{Method: "cylinder by bedrooms, a trade's guide", Unit: "l", Caution: hotWaterCaution}
	result.rest(rows.Source)
	if bedrooms > len(rows.Value) {
		return result, false
	}
	result.Value = result.add("cylinder", fmt.Sprintf("%d households, %d bedrooms", len(households), bedrooms), rows.Value[max(bedrooms, 1)-1], "l")
	return result, true
}

// EnglishDrainage is the flow in l/s that fixtures put on a drain by BS EN
// 12056-2, system III: half the root of the sum of their discharge units.
func EnglishDrainage(fixtures Fixtures) Result {
	table := figures.England.DischargeUnits
	flow := Result{Method: "BS EN 12056-2 system III, 0.5 x the root of the discharge units", Unit: "l/s", Caution: drainageCaution}
	var uses []string
	for use, n := range fixtures {
		if n > 0 {
			uses = append(uses, use)
		}
	}
	slices.Sort(uses)
	units := 0.0
	for _, use := range uses {
		each, listed := table.Value[use]
		from := fmt.Sprintf("%d x %g", fixtures[use], each)
		if !listed {
			from = fmt.Sprintf("%d, not in the table here", fixtures[use])
		}
		units += flow.add(use, from, float64(fixtures[use])*each, "discharge units")
	}
	const frequency = 0.5 // BS EN 12056-2 Table 3: dwellings
	flow.Value = flow.add("flow", fmt.Sprintf("%g x root of %.1f", frequency, units), frequency*math.Sqrt(units), "l/s")
	flow.rest(table.Source)
	return flow
}
