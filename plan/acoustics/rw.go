package acoustics

import "moiety/plan/published"

// RwRating is a weighted sound reduction index with its two adaptation terms.
type RwRating struct {
	// Rw is the shifted reference's value at 500 Hz, in dB.
	Rw int
	// C adapts to living noises and Ctr to traffic's low tones: Rw+C and Rw+Ctr are ratings too.
	C, Ctr int
	// Sum is the sum of unfavourable deviations in dB, 32.0 at most.
	Sum float64
	// SumC and SumCtr are Rw+C and Rw+Ctr before they are rounded.
	SumC, SumCtr float64
	// Source is the standard.
	Source published.Source
}

// Rw rates sound reduction indices in the bands ISOBands by ISO 717-1: the
// reference is shifted in steps of 1 dB to the highest place at which the
// indices, to 0.1 dB, fall short of it by 32.0 dB in all. It panics unless all are finite.
func Rw(r Bands) RwRating {
	reference := figures.RwReference.Value
	shift, sum := highestShift(r, reference, figures.RwLimit.Value.SumDB)
	rated := RwRating{
		Rw:     int(reference[at500InISO]) + shift,
		Sum:    sum,
		SumC:   adapted(r, figures.SpectrumC.Value),
		SumCtr: adapted(r, figures.SpectrumCtr.Value),
		Source: figures.RwReference.Source,
	}
	rated.C = int(whole(rated.SumC)) - rated.Rw
	rated.Ctr = int(whole(rated.SumCtr)) - rated.Rw
	return rated
}

// highestShift is the highest shift of the reference, in dB, at which the
// values fall short of it by no more than the limit in all, and by how much.
func highestShift(values, reference Bands, limitDB float64) (shift int, sum float64) {
	limit := tenths(limitDB)
	short := func(shift int) int {
		all := 0
		for i := range values {
			all += max(tenths(reference[i])+10*shift-tenths(values[i]), 0)
		}
		return all
	}
	shift = int(-highestFall(reference[:], values[:])+limitDB) + 1
	for short(shift) > limit {
		shift--
	}
	return shift, float64(short(shift)) / 10
}

// adapted is the reduction of a whole spectrum, A-weighted and normalised to 0 dB.
func adapted(r, spectrum Bands) float64 {
	var through [16]float64
	for i := range r {
		through[i] = spectrum[i] - float64(tenths(r[i]))/10
	}
	return -sumOfLevels(through[:])
}
