package render_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/render"
)

// touch is how far, in millimetres, two boxes may reach into each other: boxes
// are drawn around descenders that few texts have.
const touch = 0.05

func TestNothingLetteredOverlaps(t *testing.T) {
	for _, o := range []render.Options{{}, {Paper: render.A2}, {Paper: render.A4}, {Paper: render.ANSIB, Imperial: true}} {
		t.Run(o.Paper.Name, func(t *testing.T) {
			everySheet(t, o, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
				for _, s := range sheets {
					for i, a := range s.Boxes {
						for _, b := range s.Boxes[:i] {
							if a.Kind == render.LineBox && b.Kind == render.LineBox {
								continue // dimension lines of two directions may cross
							}
							if a.Overlaps(b, touch) {
								t.Errorf("sheet %s %q: %s %q lies over %s %q at %.1f, %.1f", s.Number, s.Title, a.Kind, a.Text, b.Kind, b.Text, a.Corners[0].X, a.Corners[0].Y)
							}
						}
					}
				}
			})
		})
	}
}

func TestLabelsStayInTheirRoom(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, b *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			for _, box := range s.Boxes {
				if box.Cell == "" {
					continue
				}
				v := s.Views[box.View]
				for _, c := range b.Cells {
					if c.ID != box.Cell {
						continue
					}
					for _, corner := range box.Corners {
						assert.NotZero(t, c.Region.Contains(v.House(corner)), "sheet %s: %q leaves %s", s.Number, box.Text, c.ID)
					}
				}
			}
		}
	})
}

func TestEverythingStaysWithinTheFrame(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		const gridStrip = 5 // letters and numerals of the reference grid stand outside
		for _, s := range sheets {
			for _, b := range s.Boxes {
				for _, c := range b.Corners {
					assert.True(t, c.X >= 20-gridStrip && c.Y >= 10-gridStrip && c.X <= s.Paper.WidthMM-10+gridStrip && c.Y <= s.Paper.HeightMM-10+gridStrip,
						"sheet %s: %q at %v", s.Number, b.Text, c)
				}
			}
		}
	})
}
