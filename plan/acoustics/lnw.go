package acoustics

import "moiety/plan/published"

// LnwRating is a weighted normalised impact sound pressure level.
type LnwRating struct {
	// Lnw is the shifted reference's value at 500 Hz, in dB: less is better.
	Lnw int
	// CI adapts to footsteps' low tones: Ln,w+CI is a rating too.
	CI int
	// Sum is the sum of unfavourable deviations in dB.
	Sum float64
	// Source is the standard.
	Source published.Source
}

// bandsOfCI are the bands that CI adds up: 100 to 2500 Hz (ISO 717-2 A.2.1).
const bandsOfCI = 15

// Lnw rates normalised impact sound pressure levels in the bands ISOBands by
// ISO 717-2: the reference is shifted in steps of 1 dB to the lowest place that
// the levels, to 0.1 dB, exceed by 32.0 dB in all. It panics unless all are finite.
func Lnw(levels Bands) LnwRating {
	limits := figures.LnwLimits.Value
	return rateImpact(levels[:], figures.LnwReference.Value[:], at500InISO, limits.SumDB, 0, bandsOfCI)
}

// LnwOctaves rates levels in the octave bands 125 to 2000 Hz by ISO 717-2:
// 10.0 dB in all, and 5 dB less than the shifted reference at 500 Hz. It panics unless
// all are finite.
func LnwOctaves(levels [5]float64) LnwRating {
	limits := figures.LnwLimits.Value
	return rateImpact(levels[:], figures.LnwOctave.Value[:], 2, limits.OctaveSumDB, limits.OctaveOffsetDB, len(levels))
}

func rateImpact(levels, reference []float64, at500 int, limitDB, offsetDB float64, bandsOfCI int) LnwRating {
	over := func(shift int) int {
		all := 0
		for i := range levels {
			all += max(tenths(levels[i])-tenths(reference[i])-10*shift, 0)
		}
		return all
	}
	shift := int(highestFall(levels, reference)-limitDB) - 1
	for over(shift) > tenths(limitDB) {
		shift++
	}
	rated := LnwRating{
		Lnw:    int(reference[at500]+offsetDB) + shift,
		Sum:    float64(over(shift)) / 10,
		Source: figures.LnwReference.Source,
	}
	rated.CI = int(whole(sumOfLevels(levels[:bandsOfCI])+figures.LnwLimits.Value.CIOffsetDB)) - rated.Lnw
	return rated
}
