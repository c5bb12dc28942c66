package render

import "image/color"

// Line widths in millimetres, from the series of ISO 128 (steps of the square
// root of two). Nothing is drawn with another one.
const (
	hair   = 0.18 // hatches, patterns, dimension lines, seen floor edges
	thin   = 0.25 // fixtures, treads, door swings, glass
	medium = 0.35 // faces of partitions, leaves of doors
	thick  = 0.5  // faces of exterior walls, view titles
	heavy  = 0.7  // new and separating work, the frame
)

// LineWidths is the series that every line on a sheet is drawn with, in millimetres.
func LineWidths() []float64 { return []float64{hair, thin, medium, thick, heavy} }

// Heights of capitals in millimetres, from the series of ISO 3098. The
// smallest is the least that a sheet carries at full size.
const (
	smallText  = 2.5
	roomText   = 3.5
	titleText  = 5.0
	numberText = 7.0
)

// MinTextMM is the least height of capitals on a sheet.
const MinTextMM = smallText

// Line types after ISO 128-2, in millimetres: dash and gap. They follow the
// standard's 12 d and 3 d for the thin lines they are used with, rounded.
var (
	solid        []float64
	dashed       = []float64{2.0, 1.0}                 // hidden, overhead
	dotted       = []float64{0.35, 1.25}               // a separating floor underfoot
	shortDashed  = []float64{1.2, 1.0}                 // a separating floor overhead: above the cut
	doubleDotted = []float64{7, 1.6, .6, 1.6, .6, 1.6} // the property line
	dashDotted   = []float64{4, 1, .5, 1}              // the middle of a separation, a walk
)

// Inks. Each tint is opaque and was mixed beforehand, so that it prints as it
// shows; in grey the two units differ by a tenth of full black.
var (
	black     = color.RGBA{0, 0, 0, 255}
	white     = color.RGBA{255, 255, 255, 255}
	caption   = color.RGBA{90, 90, 90, 255}    // names of fields, outlines of others' rooms
	faint     = color.RGBA{150, 150, 150, 255} // patterns, floor edges of the ground
	wallGrey  = color.RGBA{168, 168, 168, 255} // existing walls, cut
	blankGrey = color.RGBA{226, 226, 226, 255} // others' walls on a unit's own sheet
	tintA     = color.RGBA{252, 243, 222, 255} // unit A: warm and light
	tintB     = color.RGBA{205, 223, 236, 255} // unit B: cool and darker
	nothing   = color.RGBA{}
)

// pen is how a line is drawn.
type pen struct {
	width float64
	ink   color.RGBA
	dash  []float64 // millimetres; nil for a continuous line
}

func line(width float64) pen { return pen{width, black, solid} }

func (p pen) in(ink color.RGBA) pen { p.ink = ink; return p }

func (p pen) dashedBy(dash []float64) pen { p.dash = dash; return p }
