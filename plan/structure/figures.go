package structure

import (
	"cmp"
	_ "embed"
	"slices"

	"moiety/plan/published"
)

//go:embed data/figures.json
var figuresFile []byte

// megapascals in a pound-force per square inch.
const mpaPerPSI = 0.006894757

// Caution goes with every beam: whoever is shown one is shown this.
const Caution = "Preliminary, for a first price and headroom. An engineer decides: what bears on the wall, the beam, " +
	"its posts and what carries them down to a footing, and the shoring while the work is done. Check with the local authority."

type material struct {
	Name          string                    `json:"name"`
	Kind          Kind                      `json:"kind"`
	Bending       published.Figure[float64] `json:"bending_psi"`
	ShearOnArea   published.Figure[float64] `json:"shear_on_area_psi"`
	Modulus       published.Figure[float64] `json:"modulus_psi"`
	Crushing      published.Figure[float64] `json:"crushing_psi"`
	PliesFactor   published.Figure[float64] `json:"plies_factor"`
	WeightKNPerM3 published.Figure[float64] `json:"kn_per_m3"`
	PlyMM         float64                   `json:"ply_mm"`
	Plies         []int                     `json:"plies"`
	Depths        []depth                   `json:"depths"`
	DepthSource   published.Figure[string]  `json:"depth_source"`
}

// depth is a depth that is sold and the factor on bending strength at it.
type depth struct {
	MM     float64 `json:"mm"`
	Factor float64 `json:"factor"`
}

// LoadSet are the loads of houses in one family of codes, in kPa of the floor,
// ceiling or roof that is carried, and of the face of a wall.
type LoadSet struct {
	ID        string                    `json:"id"`
	FloorLive published.Figure[float64] `json:"floor_live_kpa"`
	FloorDead published.Figure[float64] `json:"floor_dead_kpa"`
	AtticLive published.Figure[float64] `json:"attic_live_kpa"`
	AtticDead published.Figure[float64] `json:"attic_dead_kpa"`
	RoofLive  published.Figure[float64] `json:"roof_live_kpa"`
	RoofDead  published.Figure[float64] `json:"roof_dead_kpa"`
	Wall      published.Figure[float64] `json:"wall_kpa"`
}

type builtUp struct {
	Sizes []struct {
		Plies   int     `json:"plies"`
		DepthMM float64 `json:"depth_mm"`
	} `json:"sizes"`
	Rows []struct {
		Species    string    `json:"species"`
		Grade      string    `json:"grade"`
		SupportedM float64   `json:"supported_m"`
		SpansM     []float64 `json:"spans_m"`
	} `json:"rows"`
}

var figures = published.MustDecode[struct {
	Materials []material `json:"materials"`
	LoadSets  []LoadSet  `json:"load_sets"`
	Limits    struct {
		LiveDeflection  published.Figure[float64] `json:"live_deflection_ratio"`
		TotalDeflection published.Figure[float64] `json:"total_deflection_ratio"`
		LeastBearing    published.Figure[float64] `json:"least_bearing_mm"`
		Stud            published.Figure[float64] `json:"stud_mm"`
	} `json:"limits"`
	BuiltUp published.Figure[builtUp] `json:"built_up"`
}](figuresFile)

// Loads are those of a family of codes: "us", "ca" or "uk". An unknown family
// is reported as false.
func Loads(family string) (LoadSet, bool) {
	for _, set := range figures.LoadSets {
		if set.ID == family {
			return set, true
		}
	}
	return LoadSet{}, false
}

// sections are those of a material, by area and then by depth.
func (m material) sections() []Section {
	var all []Section
	for _, plies := range m.Plies {
		together := 1.0
		if plies >= 3 {
			together = m.PliesFactor.Value
		}
		for _, depth := range m.Depths {
			all = append(all, Section{
				Material: m.Name, Kind: m.Kind, Plies: plies,
				WidthMM: float64(plies) * m.PlyMM, DepthMM: depth.MM,
				BendingMPa:     m.Bending.Value * mpaPerPSI * depth.Factor * together,
				ShearOnAreaMPa: m.ShearOnArea.Value * mpaPerPSI,
				ModulusMPa:     m.Modulus.Value * mpaPerPSI,
				CrushingMPa:    m.Crushing.Value * mpaPerPSI,
				WeightKNPerM3:  m.WeightKNPerM3.Value,
				Sources:        []published.Source{m.Bending.Source, m.ShearOnArea.Source, m.Modulus.Source, m.Crushing.Source, m.DepthSource.Source},
			})
		}
	}
	slices.SortStableFunc(all, func(a, b Section) int {
		return cmp.Or(cmp.Compare(a.WidthMM*a.DepthMM, b.WidthMM*b.DepthMM), cmp.Compare(a.DepthMM, b.DepthMM))
	})
	return all
}
