package render_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// printedMetres reads a length as it is printed: whole millimetres, metres with
// two places, or feet and inches. It also gives how far the length meant may
// be from the one printed.
func printedMetres(t testing.TB, text string) (metres, within float64) {
	t.Helper()
	switch {
	case strings.Contains(text, `"`):
		return metresOf(t, text), 0.0254 / 16
	case strings.Contains(text, "."):
		metres, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err, text)
		return metres, 0.005
	}
	return metresOf(t, text), 0.0005
}

// features are the points of the model that a dimension may measure between:
// corners of rooms, flights and outlines, jambs, and the faces of new walls.
func (v planView) features() []spot {
	var points []geom.Pt
	b := v.view.Building
	for i := range b.Cells {
		if c := &b.Cells[i]; c.Level == v.view.Level || c.Flight && c.To == v.view.Level {
			for _, r := range c.Region.Rings() {
				points = append(points, r...)
			}
		}
	}
	for _, o := range b.Levels[v.view.Level].Outline {
		for _, r := range o.Rings() {
			points = append(points, r...)
		}
	}
	for _, l := range v.openingLines() {
		points = append(points, l.A, l.B)
	}
	if v.scheme != nil {
		for _, r := range v.scheme.Walls {
			if r.Level != v.view.Level || r.Line.A == r.Line.B {
				continue
			}
			long := r.Line.Length()
			for _, half := range []float64{-r.Thickness / 2, r.Thickness / 2} {
				points = append(points, r.Line.Beside(0, half), r.Line.Beside(long, half), r.Line.At(half), r.Line.At(long+half))
			}
		}
	}
	spots := make([]spot, len(points))
	for i, p := range points {
		spots[i] = v.at(p)
	}
	return spots
}

// Each dimension printed on a plan is the length of the line that is inked
// under it, at the printed scale, and each end of that line is square across
// from something that the survey or the scheme has.
func TestPrintedDimensionsAreWhatTheLinesMeasure(t *testing.T) {
	checked := 0
	everyPlanView(t, func(t *testing.T, v planView) {
		features := v.features()
		for _, d := range v.sheet.Dimensions {
			if d.Text == "" || v.sheet.Views[d.View].Level != v.view.Level || v.sheet.Views[d.View].Unit != v.view.Unit {
				continue
			}
			checked++
			a, b := onPaper(d.A), onPaper(d.B)
			want, within := printedMetres(t, d.Text)
			// Coordinates on paper are whole micrometres.
			assert.InDelta(t, want, a.to(b)*v.ratio/1000, within+0.0011*v.ratio/1000, "sheet %s: %s", v.sheet.Number, d.Text)
			for _, p := range []spot{a, b, a.between(b)} {
				if !v.dimensionLineAt(p) {
					t.Errorf("sheet %s: no line of %s runs through %v", v.sheet.Number, d.Text, p)
				}
			}
			u := b.minus(a).unit()
			for _, end := range []spot{a, b} {
				if !slices.ContainsFunc(features, func(f spot) bool { return math.Abs(f.minus(end).dot(u)) <= tightly }) {
					t.Errorf("sheet %s: %s ends at %v, across from nothing", v.sheet.Number, d.Text, end)
				}
			}
			if !slices.ContainsFunc(v.texts, func(x inkedText) bool { return x.text == d.Text && x.nearTo(a, b) }) {
				t.Errorf("sheet %s: %s is not printed at its line", v.sheet.Number, d.Text)
			}
		}
	})
	assert.Greater(t, checked, 500)
}

// nearTo tells whether a text starts within its own length of a line.
func (x inkedText) nearTo(a, b spot) bool {
	const aside = 8
	reach := float64(len(x.text))*x.height*0.7 + aside
	along := x.at.along(a, b)
	return along > -reach && along < a.to(b)+reach && math.Abs(x.at.off(a, b)) < reach
}

func (v planView) dimensionLineAt(at spot) bool {
	for i := range v.paths {
		if q := &v.paths[i]; q.group == "dimensions" && q.stroke != "" && q.runsThrough(at) {
			return true
		}
	}
	return false
}

// The clear size lettered in a room of four sides is that of its sides.
func TestPrintedRoomSizesAreThoseOfTheRooms(t *testing.T) {
	checked := 0
	everyPlanView(t, func(t *testing.T, v planView) {
		b := v.view.Building
		for _, box := range v.sheet.Boxes {
			first, second, ok := strings.Cut(box.Text, " × ")
			if !ok || box.Cell == "" || box.View < 0 || v.sheet.Views[box.View].Level != v.view.Level {
				continue
			}
			c := &b.Cells[slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == box.Cell })]
			if len(c.Region.Outer) != 4 || len(c.Region.Holes) > 0 {
				continue
			}
			var sides []float64
			for i, p := range c.Region.Outer {
				sides = append(sides, p.Distance(c.Region.Outer[(i+1)%4]))
			}
			checked++
			w, within := printedMetres(t, first)
			h, _ := printedMetres(t, second)
			got, want := []float64{w, h, w, h}, sides
			slices.Sort(got)
			slices.Sort(want)
			assert.InDeltaSlice(t, want, got, within+0.003, "sheet %s: %s", v.sheet.Number, box.Text)
		}
	})
	assert.Greater(t, checked, 80)
}

// Each side of the lot is dimensioned beside it, and each distance to it too.
func TestTheSidesOfTheLotAreGiven(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, b *plan.Building, sheets []*render.Sheet) {
		i := slices.IndexFunc(sheets, func(s *render.Sheet) bool { return strings.HasPrefix(s.Title, "Site plan") })
		if i < 0 || len(b.House.Lots) == 0 {
			return
		}
		site := sheets[i]
		p := readSheetSVG(t, site)
		v := planView{page: p, view: site.Views[0], ratio: ratioOf(t, site.Scale.Text)}
		v.anchor = onPaper(v.view.Paper(geom.Pt{}))
		for _, lot := range b.House.Lots {
			for k, a := range lot.Region.Outer {
				c := lot.Region.Outer[(k+1)%len(lot.Region.Outer)]
				given := slices.ContainsFunc(p.texts, func(x inkedText) bool {
					if !x.nearTo(v.at(a), v.at(c)) || !regexp.MustCompile(`^[\d' "/-]+$`).MatchString(x.text) || len(x.text) < 3 {
						return false
					}
					metres, within := printedMetres(t, x.text)
					return math.Abs(metres-a.Distance(c)) <= within+1e-4
				})
				assert.True(t, given, "sheet %s: the side of the lot from %v is %.3f m long", site.Number, a, a.Distance(c))
			}
		}
	})
}
