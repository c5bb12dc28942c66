package acoustics

import "moiety/plan/published"

// iicFrom is what the level of the fitted contour at 500 Hz is taken from, ASTM E989.
const iicFrom = 110

// IICRating is an impact insulation class and how the contour lay.
type IICRating struct {
	// IIC is 110 less the fitted contour's level at 500 Hz: more is better.
	IIC int
	// Deficiencies are how far each band lies above the contour, in dB, and Sum is their sum.
	Deficiencies Bands
	Sum          float64
	// Source is the standard.
	Source published.Source
}

// IIC rates normalised impact sound pressure levels in the bands ISOBands by
// ASTM E989: the contour is the lowest that the levels exceed by 32 dB in all
// and by 8 dB in any band. Levels are rounded to whole decibels (from
// memory). It panics unless all are finite.
func IIC(levels Bands) IICRating {
	contour, limit := figures.IICContour.Value, figures.IICLimits.Value
	for i, db := range levels {
		levels[i] = whole(db)
	}
	for at := highestFall(levels[:], contour[:]) - limit.SingleDB; ; at++ {
		over, sum, most := Bands{}, 0.0, 0.0
		for i := range levels {
			over[i] = max(levels[i]-at-contour[i], 0)
			sum += over[i]
			most = max(most, over[i])
		}
		if sum <= limit.SumDB && most <= limit.SingleDB {
			return IICRating{IIC: iicFrom - int(at), Deficiencies: over, Sum: sum, Source: figures.IICContour.Source}
		}
	}
}
