package acoustics

import "math"

// Received is the level in dB in a room beyond a surface: the level on the
// loud side, less the surface's rating, and 10 lg(S/A) for its area S against
// the absorption A of the quiet room, both in m2 (the definition of the sound
// reduction index, ISO 10140-2; from memory). It is the direct part alone: what
// comes round the surface adds to it.
func Received(sourceDB, ratingDB, areaM2, absorptionM2 float64) float64 {
	return sourceDB - ratingDB + 10*math.Log10(areaM2/absorptionM2)
}

// furnishedSeconds is the reverberation time of a furnished room of a dwelling,
// the reference of ISO 717-1 and ISO 16283-1 (from memory).
const furnishedSeconds = 0.5

// Furnished is the absorption in m2 of a furnished room by its volume in m3:
// Sabine's 0.161 V/T with a reverberation time of 0.5 s (from memory).
func Furnished(volumeM3 float64) float64 { return 0.161 * volumeM3 / furnishedSeconds }
