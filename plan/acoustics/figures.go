package acoustics

import (
	_ "embed"

	"moiety/plan/published"
)

//go:embed data/figures.json
var figuresFile []byte

// limits are the sums and single deviations that a fitted contour may have.
type limits struct {
	SumDB          float64 `json:"sum_db"`
	SingleDB       float64 `json:"single_db"`
	OctaveSumDB    float64 `json:"octave_sum_db"`
	OctaveOffsetDB float64 `json:"octave_offset_db"`
	CIOffsetDB     float64 `json:"ci_offset_db"`
}

// massRating is a rating as a line over the logarithm of mass.
type massRating struct {
	Slope    float64 `json:"slope"`
	Constant float64 `json:"constant"`
	From     float64 `json:"from_kg_m2"`
}

// figures are the published numbers that the ratings rest on.
var figures = published.MustDecode[struct {
	STCContour      published.Figure[Bands]      `json:"stc_contour"`
	STCLimits       published.Figure[limits]     `json:"stc_limits"`
	RwReference     published.Figure[Bands]      `json:"rw_reference"`
	RwLimit         published.Figure[limits]     `json:"rw_limit"`
	SpectrumC       published.Figure[Bands]      `json:"spectrum_c"`
	SpectrumCtr     published.Figure[Bands]      `json:"spectrum_ctr"`
	IICContour      published.Figure[Bands]      `json:"iic_contour"`
	IICLimits       published.Figure[limits]     `json:"iic_limits"`
	LnwReference    published.Figure[Bands]      `json:"lnw_reference"`
	LnwOctave       published.Figure[[5]float64] `json:"lnw_octave_reference"`
	LnwLimits       published.Figure[limits]     `json:"lnw_limits"`
	MassLawConstant published.Figure[float64]    `json:"mass_law_constant"`
	FramedMargin    published.Figure[float64]    `json:"framed_margin_db"`
	Masonry         published.Figure[massRating] `json:"masonry_rating"`
}](figuresFile)
