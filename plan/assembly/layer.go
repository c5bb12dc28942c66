package assembly

import "fmt"

// Material is what a layer is made of.
type Material string

// The materials that build-ups are made of. Framing layers are as deep as the
// cavity that they make; their fill lies in it.
const (
	GypsumRegular  Material = "gypsum board"
	GypsumX        Material = "Type X gypsum board"
	SoundBoard     Material = "wood-fibre sound board"
	StoneWool      Material = "stone-wool batts"
	GlassWool      Material = "glass-wool batts"
	Studs          Material = "wood studs"
	StaggeredStuds Material = "wood studs, staggered on one plate"
	SteelStuds     Material = "steel studs"
	Joists         Material = "wood joists"
	Air            Material = "air gap"
	Channel        Material = "resilient channel"
	Furring        Material = "steel furring channel"
	Subfloor       Material = "subfloor panel"
	Underlay       Material = "resilient underlay"
	Concrete       Material = "concrete"
	HollowCore     Material = "hollow-core slab"
	Masonry        Material = "masonry"
	Flight         Material = "treads of a flight"
)

// Materials lists every material, boards first.
func Materials() []Material {
	return []Material{
		GypsumRegular, GypsumX, SoundBoard, StoneWool, GlassWool, Studs, StaggeredStuds, SteelStuds, Joists, Air,
		Channel, Furring, Subfloor, Underlay, Concrete, HollowCore, Masonry, Flight,
	}
}

// IsFrame tells whether a layer of the material is framing with a cavity.
func (m Material) IsFrame() bool {
	return m == Studs || m == StaggeredStuds || m == SteelStuds || m == Joists
}

// IsFill tells whether the material lies in the cavity of the frame after
// which it is listed, and so adds nothing to the thickness.
func (m Material) IsFill() bool { return m == StoneWool || m == GlassWool }

// IsBoard tells whether the material comes as gypsum sheets.
func (m Material) IsBoard() bool { return m == GypsumRegular || m == GypsumX }

// IsSolid tells whether the material is a solid leaf that needs no frame.
func (m Material) IsSolid() bool { return m == Concrete || m == HollowCore || m == Masonry }

// Layer is one layer of a build-up.
type Layer struct {
	Material  Material
	Thickness float64 // of a fill: how deep it lies in the cavity
	Spacing   float64 // centre to centre, of framing and channels; 0 of others
	KgPerM2   float64
}

// String names the layer: "15.9 mm Type X gypsum board", "89 mm wood studs at 400 mm".
func (l Layer) String() string {
	text := fmt.Sprintf("%g mm %s", millimetres(l.Thickness), l.Material)
	if l.Spacing > 0 {
		text += fmt.Sprintf(" at %g mm", millimetres(l.Spacing))
	}
	return text
}

// millimetres rounds to the tenth that boards are sold in.
func millimetres(m float64) float64 { return float64(int(m*10000+0.5)) / 10 }

// The lengths of the trade.
const (
	ThinBoard       = 0.0127
	ThickBoard      = 0.0159
	SoundBoardDepth = 0.0127
	StudDepth       = 0.089 // 38x89, a 2x4
	StaggeredDepth  = 0.140 // the 38x140 plate under staggered studs
	SteelStudDepth  = 0.064
	JoistDepth      = 0.235 // 38x235, the least that the published floors take
	RowGap          = 0.025 // between the plates of two rows of studs
	ChannelDepth    = 0.013 // 12.7 mm channel; from memory
	FurringDepth    = 0.022 // from memory
	Close           = 0.400 // 16 in
	Wide            = 0.600 // 24 in
	memberWidth     = 0.038
)

// Densities in kg/m3 and masses in kg/m2: from memory, the usual values of the
// trade, except stone wool, which is the least that the notes of NBC Table
// 9.10.3.1.-A ask for (2.8 kg/m2 for 89 mm).
const (
	gypsumRegularDensity = 575.0  // 7.3 kg/m2 at 12.7 mm
	gypsumXDensity       = 690.0  // 11.0 kg/m2 at 15.9 mm
	soundBoardDensity    = 310.0  // 3.9 kg/m2 at 12.7 mm
	stoneWoolDensity     = 31.5   // 2.8 kg/m2 at 89 mm
	glassWoolDensity     = 11.0   //
	woodDensity          = 450.0  // softwood framing
	subfloorDensity      = 620.0  // oriented strand board, 9.6 kg/m2 at 15.5 mm
	underlayDensity      = 200.0  //
	concreteDensity      = 2400.0 //
	hollowCoreShare      = 0.6    // of the solid slab's mass
	masonryDensity       = 1800.0 //
	steelKgPerM2         = 2.0    // light steel studs
	channelKgPerM2       = 0.5    //
)

// NewLayer makes a layer of a material with the usual mass of the material.
func NewLayer(m Material, thickness, spacing float64) Layer {
	l := Layer{Material: m, Thickness: thickness, Spacing: spacing}
	switch m {
	case GypsumRegular:
		l.KgPerM2 = gypsumRegularDensity * thickness
	case GypsumX:
		l.KgPerM2 = gypsumXDensity * thickness
	case SoundBoard:
		l.KgPerM2 = soundBoardDensity * thickness
	case StoneWool:
		l.KgPerM2 = stoneWoolDensity * thickness
	case GlassWool:
		l.KgPerM2 = glassWoolDensity * thickness
	case Studs, StaggeredStuds, Joists:
		l.KgPerM2 = woodDensity * thickness * memberWidth / max(spacing, memberWidth)
	case Flight:
		l.KgPerM2 = woodDensity * thickness
	case Subfloor:
		l.KgPerM2 = subfloorDensity * thickness
	case Underlay:
		l.KgPerM2 = underlayDensity * thickness
	case Concrete:
		l.KgPerM2 = concreteDensity * thickness
	case HollowCore:
		l.KgPerM2 = hollowCoreShare * concreteDensity * thickness
	case Masonry:
		l.KgPerM2 = masonryDensity * thickness
	case SteelStuds:
		l.KgPerM2 = steelKgPerM2
	case Channel, Furring:
		l.KgPerM2 = channelKgPerM2
	}
	return l
}
