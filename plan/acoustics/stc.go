package acoustics

import "moiety/plan/published"

// STCRating is a sound transmission class and how the contour lay.
type STCRating struct {
	// STC is the value of the fitted contour at 500 Hz.
	STC int
	// Deficiencies are how far each band lies below the contour, in dB, and Sum is their sum.
	Deficiencies Bands
	Sum          float64
	// Source is the standard.
	Source published.Source
}

// STC rates transmission losses in the bands STCBands by ASTM E413: the data
// are rounded to whole decibels, and the contour is the highest at which they
// fall short by 32 dB in all and by 8 dB in any band. It panics unless all are finite.
func STC(tl Bands) STCRating {
	contour, limit := figures.STCContour.Value, figures.STCLimits.Value
	for i, db := range tl {
		tl[i] = whole(db)
	}
	for level := -highestFall(contour[:], tl[:]) + limit.SingleDB; ; level-- {
		short, sum, most := Bands{}, 0.0, 0.0
		for i := range tl {
			short[i] = max(level+contour[i]-tl[i], 0)
			sum += short[i]
			most = max(most, short[i])
		}
		if sum <= limit.SumDB && most <= limit.SingleDB {
			return STCRating{STC: int(level), Deficiencies: short, Sum: sum, Source: figures.STCContour.Source}
		}
	}
}
