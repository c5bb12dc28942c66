package plan

import "math"

// Decimals of the result files. Each is the last one that a reader can use:
// a cent, a hundredth of a square metre, a millimetre. The areas of
// plan.geojson carry two more, so that their sum agrees with the totals.
const (
	moneyDecimals    = 2
	areaDecimals     = 2
	cellAreaDecimals = 4
	lengthDecimals   = 3
	shareDecimals    = 6
)

// decimal rounds half away from zero and never gives a negative zero.
func decimal(value float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	r := math.Round(value*scale) / scale
	if r == 0 {
		return 0
	}
	return r
}
