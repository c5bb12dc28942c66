package acoustics

import "math"

// Bands is one value in decibels for each of 16 one-third-octave bands, the
// lowest band first.
type Bands [16]float64

// STCBands are the centre frequencies of the bands of STC: 125 to 4000 Hz.
var STCBands = [16]float64{125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000}

// ISOBands are the centre frequencies of the bands of Rw, Ln,w and IIC: 100 to 3150 Hz.
var ISOBands = [16]float64{100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150}

// The place of the band of 500 Hz, at which a fitted contour is read.
const (
	at500InSTC = 6
	at500InISO = 7
)

// whole rounds to the nearest integer, halves up, as the standards say.
func whole(db float64) float64 { return math.Floor(db + 0.5) }

// tenths is the value in whole tenths of a decibel, the precision in which ISO
// 717 takes its data; whole numbers keep its sums exact.
func tenths(db float64) int { return int(math.Floor(db*10 + 0.5)) }

// sumOfLevels adds levels as energies.
func sumOfLevels(db []float64) float64 {
	sum := 0.0
	for _, level := range db {
		sum += math.Pow(10, level/10)
	}
	return 10 * math.Log10(sum)
}

// highestFall is the most by which the lower falls below the upper in any band.
// No contour fits that falls further than what one band alone may: fits start there.
// It panics if a value is not finite.
func highestFall(upper, lower []float64) float64 {
	most := math.Inf(-1)
	for i := range upper {
		most = max(most, upper[i]-lower[i])
		if math.IsNaN(lower[i]-upper[i]) || math.IsInf(lower[i]-upper[i], 0) {
			panic("acoustics: a value in a band is not finite")
		}
	}
	return most
}
