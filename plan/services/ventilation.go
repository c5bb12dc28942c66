package services

import (
	"fmt"
	"math"
)

const ventilationCaution = "Whole-house ventilation only: kitchens and bathrooms need their exhaust besides, and fuel that burns indoors its own air. " +
	"Units must not share a duct."

// Ventilation is the rate in l/s of a dwelling by ASHRAE 62.2: 0.03 cfm for
// each ft2 and 7.5 cfm for each person, one more than bedrooms.
func Ventilation(areaM2 float64, bedrooms int) Result {
	by := figures.ASHRAE622.Value
	rate := Result{Method: "ASHRAE 62.2, 0.03 A + 7.5 (N + 1) in cfm and ft2", Unit: "l/s", Caution: ventilationCaution}
	ft2 := areaM2 / m2PerFt2
	cfm := by.CFMFt2*ft2 + by.CFMPerson*float64(bedrooms+1)
	rate.Value = rate.add("ventilation", fmt.Sprintf("%.0f ft2, %d bedrooms: %.0f cfm", ft2, bedrooms, math.Floor(cfm+0.5)), cfm*litresPerSPerCFM, "l/s")
	rate.rest(figures.ASHRAE622.Source)
	return rate
}

// PrincipalFan is the range of a dwelling's principal ventilation fan in l/s by
// the NBC's table, one to five bedrooms; beyond five, ok is false.
func PrincipalFan(bedrooms int) (least, most float64, result Result, ok bool) {
	rows := figures.NBCVentilation
	if bedrooms > len(rows.Value) {
		return 0, 0, Result{}, false
	}
	row := rows.Value[max(bedrooms, 1)-1]
	result = Result{Method: "NBC table of principal ventilation", Value: row[0], Unit: "l/s", Caution: ventilationCaution}
	result.add("principal fan", fmt.Sprintf("%d bedrooms: %g to %g l/s", bedrooms, row[0], row[1]), row[0], "l/s")
	result.rest(rows.Source)
	return row[0], row[1], result, true
}
