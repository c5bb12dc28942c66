package render_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// extent is where a dimension begins and ends along a direction, in metres.
func extent(v render.View, d render.Dimension, u [2]float64) (from, to float64) {
	ax, ay := v.House(d.A).Metres()
	bx, by := v.House(d.B).Metres()
	a, b := ax*u[0]+ay*u[1], bx*u[0]+by*u[1]
	return min(a, b), max(a, b)
}

func along(v render.View, d render.Dimension, u [2]float64) bool {
	ax, ay := v.House(d.A).Metres()
	bx, by := v.House(d.B).Metres()
	l := math.Hypot(bx-ax, by-ay)
	return l > 0 && math.Abs((bx-ax)*u[1]-(by-ay)*u[0]) < 0.02*l
}

// Every new wall and every new door can be set out: its face from another
// face, and how long it is.
func TestNewWorkIsSetOut(t *testing.T) {
	const close = 0.012 // metres: coordinates on paper at 1:100 are rounded to 0.1 mm of the house
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		for _, sheet := range sheets {
			if !strings.HasSuffix(sheet.Title, ", proposed") || strings.HasPrefix(sheet.Title, "Site") {
				continue
			}
			v := sheet.Views[0]
			check := func(line geom.Segment, thickness float64, what string) (position, length bool) {
				ax, ay := line.A.Metres()
				bx, by := line.B.Metres()
				l := line.Length()
				u := [2]float64{(bx - ax) / l, (by - ay) / l}
				n := [2]float64{-u[1], u[0]}
				across, from := ax*n[0]+ay*n[1], ax*u[0]+ay*u[1]
				to := from + l
				for _, d := range sheet.Dimensions {
					if d.Text == "" {
						continue
					}
					if along(v, d, n) {
						a, b := extent(v, d, n)
						for _, face := range []float64{across - thickness/2, across + thickness/2} {
							position = position || math.Abs(a-face) < close || math.Abs(b-face) < close
						}
					}
					if along(v, d, u) {
						a, b := extent(v, d, u)
						length = length || math.Abs(a-from) < 0.31 && math.Abs(b-to) < 0.31 ||
							a < from+0.31 && b > to-0.31 && b-a < 20 && what == "wall"
					}
				}
				return position, length
			}
			for _, r := range s.Walls {
				if r.State != plan.New || r.Fence || r.Level != v.Level || r.Line.A == r.Line.B || r.Thickness <= 0 {
					continue
				}
				position, length := check(r.Line, r.Thickness, "wall")
				assert.True(t, position, "sheet %s: the wall between %v has no distance from another face", sheet.Number, r.Between)
				assert.True(t, length, "sheet %s: the wall between %v has no length", sheet.Number, r.Between)
			}
			for _, p := range s.Passages {
				if p.State != plan.New || p.Door == nil || p.Level != v.Level {
					continue
				}
				_, width := check(p.Door.Line, 0, "door")
				assert.True(t, width, "sheet %s: the new door %s has no width", sheet.Number, p.Of)
			}
		}
	})
}

// What is printed on a dimension line is its length at the sheet's scale, and
// no length is given twice on a plan by lines between the same two places.
func TestSettingOutMeasuresTrueAndOnce(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		if s.Building.House.Unit == plan.Feet {
			t.Skip("feet and inches are checked with the lines around the house")
		}
		for _, sheet := range sheets {
			type place struct{ ax, ay, bx, by int }
			seen := map[place]bool{}
			for _, d := range sheet.Dimensions {
				if d.Text == "" {
					continue
				}
				long := math.Hypot(d.A.X-d.B.X, d.A.Y-d.B.Y) * sheet.Scale.Ratio
				assert.Equal(t, math.Round(long), math.Round(atof(t, d.Text)), "sheet %s", sheet.Number)
				k := place{int(d.A.X * 10), int(d.A.Y * 10), int(d.B.X * 10), int(d.B.Y * 10)}
				assert.False(t, seen[k], "sheet %s: %s is given twice", sheet.Number, d.Text)
				seen[k] = true
			}
		}
	})
}

func atof(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
