package acoustics

import (
	"errors"
	"fmt"
	"math"

	"moiety/plan/published"
)

// MassLaw is the transmission loss in dB of a limp leaf of the mass, in kg/m2,
// at the frequency, at field incidence: 20 lg(m f) - 47, never less than 0.
func MassLaw(kgPerM2, hertz float64) float64 {
	return max(20*math.Log10(kgPerM2*hertz)-figures.MassLawConstant.Value, 0)
}

// MassLawBands is MassLaw in the bands STCBands.
func MassLawBands(kgPerM2 float64) Bands {
	var tl Bands
	for i, hertz := range STCBands {
		tl[i] = MassLaw(kgPerM2, hertz)
	}
	return tl
}

// Estimate is a rating that nobody measured.
type Estimate struct {
	// STC as estimated, about equal to Rw.
	STC int
	// Method says how, and that it is an estimate.
	Method string
	// Source of the method.
	Source published.Source
	// Caution says what it leaves out.
	Caution string
}

// EstimateFramed estimates a framed wall or floor of board on studs or joists
// from the mass of all its layers together, in kg/m2: the mass law, less the
// margin that keeps it at or below every published assembly whose faces are
// fixed straight to the frame. Resilient mounting and batts only add to it.
func EstimateFramed(kgPerM2 float64) (Estimate, error) {
	if err := checkMass(kgPerM2); err != nil {
		return Estimate{}, err
	}
	margin := figures.FramedMargin.Value
	return Estimate{
		STC:     max(STC(MassLawBands(kgPerM2)).STC-int(margin), 0),
		Method:  fmt.Sprintf("estimate: mass law of %.1f kg/m2 in all, rated by ASTM E413, less %.0f dB", kgPerM2, margin),
		Source:  figures.MassLawConstant.Source,
		Caution: "An estimate from mass alone, not a test: it knows no resilient mounting, gaps or flanking.",
	}, nil
}

// EstimateMasonry estimates a solid leaf of brick, block or concrete from its
// mass in kg/m2: coincidence lies low in so stiff a leaf, so that the mass law
// of limp leaves would promise about 7 dB too much. Below 50 kg/m2, where the
// formula ends, it is an error.
func EstimateMasonry(kgPerM2 float64) (Estimate, error) {
	if err := checkMass(kgPerM2); err != nil {
		return Estimate{}, err
	}
	line := figures.Masonry.Value
	if kgPerM2 < line.From {
		return Estimate{}, fmt.Errorf("acoustics: masonry of %g kg/m2: the formula holds from %g kg/m2", kgPerM2, line.From)
	}
	return Estimate{
		STC:     int(math.Floor(line.Slope*math.Log10(kgPerM2) + line.Constant)),
		Method:  fmt.Sprintf("estimate: %.2f lg m %+.1f with m = %.0f kg/m2", line.Slope, line.Constant, kgPerM2),
		Source:  figures.Masonry.Source,
		Caution: "An estimate from mass alone, from memory, not a test: joints must be full and one face plastered.",
	}, nil
}

func checkMass(kgPerM2 float64) error {
	if !(kgPerM2 > 0) || math.IsInf(kgPerM2, 1) {
		return errors.New("acoustics: a mass must be more than 0 kg/m2 and finite")
	}
	return nil
}
