package render_test

import (
	"fmt"
	"math"
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
	everySchemeAndGenerated(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
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
				assert.True(t, jambSetOut(s, sheet, v, p.Door.Line), "sheet %s: the new door %s has no distance from a face", sheet.Number, p.Of)
			}
		}
	})
}

// everySchemeAndGenerated adds to the schemes of the samples those that the
// search finds of houses drawn by rule.
func everySchemeAndGenerated(t *testing.T, check func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet)) {
	t.Helper()
	everyScheme(t, check)
	for _, seed := range []uint64{3, 9, 18, 19} {
		name := fmt.Sprintf("generated %d", seed)
		t.Run(name, func(t *testing.T) {
			s, known := parted[name]
			if !known {
				s = searched(t, generated(t, seed))
				require.NotNil(t, s)
				parted[name] = s
			}
			check(t, s, sheetsOf(t, name, "set", render.Options{}, func() ([]*render.Sheet, error) { return render.Set(s, render.Options{}) }))
		})
	}
}

// jambSetOut tells whether the distance of a jamb along its wall is given from
// something else than the other jamb: a face that stands, or a corner.
func jambSetOut(s *plan.Scheme, sheet *render.Sheet, v render.View, door geom.Segment) bool {
	const close = 0.012
	ax, ay := door.A.Metres()
	bx, by := door.B.Metres()
	l := door.Length()
	u := [2]float64{(bx - ax) / l, (by - ay) / l}
	from, to := ax*u[0]+ay*u[1], bx*u[0]+by*u[1]
	from, to = min(from, to), max(from, to)
	return slices.ContainsFunc(sheet.Dimensions, func(d render.Dimension) bool {
		if d.Text == "" || !along(v, d, u) {
			return false
		}
		a, b := extent(v, d, u)
		switch {
		case math.Abs(b-from) < close:
			return face(s, v, u, a)
		case math.Abs(a-to) < close:
			return face(s, v, u, b)
		}
		return false
	})
}

// face tells whether something of the level, as surveyed or as built, has a
// face or a jamb across a direction at a distance along it.
func face(s *plan.Scheme, v render.View, u [2]float64, at float64) bool {
	const close = 0.012
	here := func(q geom.Pt) bool {
		x, y := q.Metres()
		return math.Abs(x*u[0]+y*u[1]-at) < close
	}
	across := func(e geom.Segment) bool { return here(e.A) && here(e.B) }
	houses := []*plan.Building{s.Building}
	if s.Whole != nil {
		houses = append(houses, s.Whole)
	}
	for _, b := range houses {
		if slices.ContainsFunc(b.Levels[v.Level].Mass.Edges(), across) || slices.ContainsFunc(b.Levels[v.Level].Outline.Edges(), across) {
			return true
		}
	}
	for _, w := range s.Walls {
		half := geom.Units(w.Thickness / 2)
		if w.Level == v.Level && !w.Fence && w.State == plan.New && w.Line.A != w.Line.B && half > 0 {
			if across(geom.Segment{A: w.Line.Beside(0, w.Thickness/2), B: w.Line.Beside(w.Line.Length(), w.Thickness/2)}) ||
				across(geom.Segment{A: w.Line.Beside(0, -w.Thickness/2), B: w.Line.Beside(w.Line.Length(), -w.Thickness/2)}) {
				return true
			}
		}
	}
	jamb := func(l geom.Segment) bool { return here(l.A) || here(l.B) }
	return slices.ContainsFunc(s.Passages, func(p plan.Passage) bool { return p.Door != nil && p.Level == v.Level && jamb(p.Door.Line) }) ||
		slices.ContainsFunc(s.Windows, func(w plan.PlacedWindow) bool { return w.Level == v.Level && jamb(w.Line) })
}

// Between the same two faces a length is given once on a plan; an opening is
// measured on its own side, even where one lies opposite (ISO 129-1).
func TestNoLengthIsGivenTwice(t *testing.T) {
	const step = 200.0 // per metre: 5 mm
	everySchemeAndGenerated(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		for _, sheet := range sheets {
			if len(sheet.Views) != 1 || strings.HasPrefix(sheet.Title, "Site") || !strings.Contains(sheet.Title, ", ") {
				continue
			}
			v := sheet.Views[0]
			jamb := func(at float64, u [2]float64) bool {
				here := func(q geom.Pt) bool {
					x, y := q.Metres()
					return math.Abs(x*u[0]+y*u[1]-at) < 0.012
				}
				return slices.ContainsFunc(s.Passages, func(p plan.Passage) bool {
					return p.Door != nil && p.Level == v.Level && (here(p.Door.Line.A) || here(p.Door.Line.B))
				}) || slices.ContainsFunc(s.Windows, func(w plan.PlacedWindow) bool {
					return w.Level == v.Level && (here(w.Line.A) || here(w.Line.B))
				})
			}
			type length struct{ direction, from, to int64 }
			seen := map[length]string{}
			for _, d := range sheet.Dimensions {
				if d.Text == "" {
					continue
				}
				ax, ay := v.House(d.A).Metres()
				bx, by := v.House(d.B).Metres()
				angle := math.Mod(math.Atan2(by-ay, bx-ax)*180/math.Pi+360+0.5, 180)
				u := [2]float64{(bx - ax) / math.Hypot(bx-ax, by-ay), (by - ay) / math.Hypot(bx-ax, by-ay)}
				if u[0] < -1e-6 || math.Abs(u[0]) < 1e-6 && u[1] < 0 {
					u = [2]float64{-u[0], -u[1]}
				}
				from, to := extent(v, d, u)
				if jamb(from, u) || jamb(to, u) {
					continue
				}
				k := length{int64(angle), int64(math.Round(from * step)), int64(math.Round(to * step))}
				assert.Empty(t, seen[k], "sheet %s: %s is given twice", sheet.Number, d.Text)
				seen[k] = d.Text
			}
		}
	})
}

// What is printed on a dimension line is its length at the sheet's scale, and
// no length is given twice on a plan by lines between the same two places.
func TestSettingOutMeasuresTrueAndOnce(t *testing.T) {
	everySchemeAndGenerated(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
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
				assert.InDelta(t, long, atof(t, d.Text), 0.52, "sheet %s", sheet.Number) // half a millimetre, and the survey's grid
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
