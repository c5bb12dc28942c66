package structure

import (
	"fmt"

	"moiety/plan/published"
)

// Kind says what a beam is made of.
type Kind string

// The kinds of beam.
const (
	Sawn Kind = "sawn" // plies of lumber, nailed together
	LVL  Kind = "lvl"  // plies of laminated veneer lumber, bolted or screwed together
)

// Section is a beam's cross-section with its allowable stresses in MPa.
type Section struct {
	Material       string
	Kind           Kind
	Plies          int
	WidthMM        float64 // of all plies together
	DepthMM        float64
	BendingMPa     float64 // with the factors for depth and plies
	ShearOnAreaMPa float64 // allowable shear force over the whole area
	ModulusMPa     float64
	CrushingMPa    float64 // across the grain at the supports
	WeightKNPerM3  float64
	Sources        []published.Source // of bending, shear, modulus, crushing, depth
}

// Name is the section as it is ordered: "3 plies 38 x 235 mm S-P-F No. 2".
func (s Section) Name() string {
	return fmt.Sprintf("%d plies %.0f x %.0f mm %s", s.Plies, s.WidthMM/float64(s.Plies), s.DepthMM, s.Material)
}

// MomentKNm is the allowable moment, Fb b d2/6.
func (s Section) MomentKNm() float64 {
	return s.BendingMPa * s.WidthMM * s.DepthMM * s.DepthMM / 6 / 1e6
}

// ShearKN is the allowable shear force: for a rectangle 2/3 of the allowable
// shear stress on the whole area (NDS 3.4.2, fv = 3V/2bd).
func (s Section) ShearKN() float64 { return s.ShearOnAreaMPa * s.WidthMM * s.DepthMM / 1e3 }

// StiffnessKNm2 is E I.
func (s Section) StiffnessKNm2() float64 {
	return s.ModulusMPa * s.WidthMM * s.DepthMM * s.DepthMM * s.DepthMM / 12 / 1e9
}

// SelfWeightKNPerM is the beam's own weight.
func (s Section) SelfWeightKNPerM() float64 { return s.WeightKNPerM3 * s.WidthMM * s.DepthMM / 1e6 }

// Sections are all sections that are sized from, of one kind, of the material
// whose generic design values are known: by area, then by depth. For lumber
// the first species listed is used, S-P-F.
func Sections(kind Kind) []Section {
	for _, of := range figures.Materials {
		if of.Kind == kind {
			return of.sections()
		}
	}
	return nil
}
