package acoustics

import (
	"errors"
	"fmt"
	"math"
)

// Part is a piece of a surface: its area in m2 and its rating in dB, which is
// STC, Rw or the transmission loss in one band. A gap has a rating of 0.
type Part struct {
	Name   string
	AreaM2 float64
	DB     float64
}

// Composite is the rating of a surface from its parts by area: the energy that
// passes is added up, so that the weakest part soon decides. It is exact in one
// band; of STC or Rw it is the usual approximation. It never exceeds the best
// part's rating. Faulty parts are reported together; no area at all is an error.
func Composite(parts []Part) (float64, error) {
	var errs []error
	through, area := 0.0, 0.0
	for i, part := range parts {
		if !(part.AreaM2 >= 0) || math.IsInf(part.AreaM2, 1) || math.IsNaN(part.DB) || part.DB < 0 {
			errs = append(errs, fmt.Errorf("acoustics: part %d (%s): area %g m2 and %g dB must not be negative", i+1, part.Name, part.AreaM2, part.DB))
			continue
		}
		through += part.AreaM2 * math.Pow(10, -part.DB/10)
		area += part.AreaM2
	}
	if len(errs) > 0 {
		return 0, errors.Join(errs...)
	}
	if area == 0 {
		return 0, errors.New("acoustics: a surface of no area has no rating")
	}
	return 10 * math.Log10(area/through), nil
}

// BandPart is a piece of a surface whose losses are known band by band.
type BandPart struct {
	Name   string
	AreaM2 float64
	TL     Bands
}

// CompositeBands is Composite in each band. In every band the surface is no
// better than its best part there.
func CompositeBands(parts []BandPart) (Bands, error) {
	var all Bands
	for band := range all {
		inBand := make([]Part, len(parts))
		for i, part := range parts {
			inBand[i] = Part{Name: part.Name, AreaM2: part.AreaM2, DB: part.TL[band]}
		}
		db, err := Composite(inBand)
		if err != nil {
			return Bands{}, err
		}
		all[band] = db
	}
	return all, nil
}
