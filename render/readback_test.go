package render_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// The PDF and the SVG of a sheet hold the same ink: every path and every text
// in the same order at the same place, to a hundredth of a millimetre.
func TestThePDFAndTheSVGsHoldTheSameInk(t *testing.T) {
	const same = 0.01
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		for i, p := range readSheetsPDF(t, sheets) {
			sheet := sheets[i]
			v := readSheetSVG(t, sheet)
			require.InDelta(t, sheet.Paper.WidthMM, p.width, same)
			require.InDelta(t, sheet.Paper.HeightMM, p.height, same)
			require.InDelta(t, sheet.Paper.WidthMM, v.width, 1e-6)
			require.Len(t, p.paths, len(v.paths), sheet.Number)
			for k, a := range v.paths {
				require.Equal(t, "", differ(a, p.paths[k], same), "sheet %s, path %d", sheet.Number, k)
			}
			require.Len(t, p.texts, len(v.texts))
			for k, a := range v.texts {
				b := p.texts[k]
				require.Equal(t, a.text, b.text)
				require.LessOrEqual(t, a.at.to(b.at), same)
				assert.InDelta(t, a.turn, b.turn, 0.01)
				assert.InDelta(t, a.height, b.height, 1e-3)
			}
		}
	})
}

// differ says in what two paths differ, "" where in nothing.
func differ(a, b inkedPath, same float64) string {
	if a.fill != b.fill || a.stroke != b.stroke || math.Abs(a.width-b.width) > same/10 || len(a.dash) != len(b.dash) {
		return fmt.Sprintf("%s %s %g %v against %s %s %g %v", a.fill, a.stroke, a.width, a.dash, b.fill, b.stroke, b.width, b.dash)
	}
	if a.curved {
		return "" // an arc is several curves in a PDF
	}
	if len(a.lines) != len(b.lines) {
		return fmt.Sprintf("%d lines against %d", len(a.lines), len(b.lines))
	}
	for i, l := range a.lines {
		m := b.lines[i]
		if a.stroke != "" && l.closed != m.closed || len(l.points) != len(m.points) { // a fill closes what it fills
			return fmt.Sprintf("%v against %v", l, m)
		}
		for k, at := range l.points {
			if at.to(m.points[k]) > same {
				return fmt.Sprintf("%v against %v", at, m.points[k])
			}
		}
	}
	return ""
}
