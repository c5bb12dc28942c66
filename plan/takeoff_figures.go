package plan

import (
	_ "embed"

	"moiety/plan/published"
)

//go:embed data/takeoff.json
var takeOffFile []byte

// takeOffFigures are quantities per length and area, each with its source.
// Lengths are metres, wastes shares of the net quantity.
var takeOffFigures = published.MustDecode[struct {
	SheetWidth   published.Figure[float64]    `json:"sheet_width_m"`
	SheetLengths published.Figure[[]float64]  `json:"sheet_lengths_m"`
	SheetWaste   published.Figure[float64]    `json:"sheet_waste"`
	Compound     published.Figure[float64]    `json:"compound_kg_m2"`
	Tape         published.Figure[float64]    `json:"tape_m_per_m2"`
	TapeRoll     published.Figure[float64]    `json:"tape_roll_m"`
	Screws       published.Figure[float64]    `json:"screws_kg_per_sheet"`
	StudWaste    published.Figure[float64]    `json:"stud_waste"`
	Plates       published.Figure[float64]    `json:"plates"`
	BattWaste    published.Figure[float64]    `json:"batt_waste"`
	PanelWaste   published.Figure[float64]    `json:"panel_waste"`
	ChannelWaste published.Figure[float64]    `json:"channel_waste"`
	SealantBeads published.Figure[float64]    `json:"sealant_beads"`
	SealantTube  published.Figure[float64]    `json:"sealant_m_per_tube"`
	PostSpacing  published.Figure[float64]    `json:"post_spacing_m"`
	FenceRails   published.Figure[float64]    `json:"fence_rails"`
	Flooring     published.Figure[float64]    `json:"flooring_waste"`
	InfillStuds  published.Figure[float64]    `json:"infill_studs"`
	RoughWood    published.Figure[[2]float64] `json:"rough_opening_wood_m"`
	RoughSteel   published.Figure[[2]float64] `json:"rough_opening_steel_m"`
	OpeningStuds published.Figure[float64]    `json:"opening_studs"`
	LintelPlies  published.Figure[float64]    `json:"lintel_plies"`
}](takeOffFile)
