package render_test

import (
	"math"
	"strings"
	"testing"

	"moiety/geom"
	"moiety/render"
)

// Sheets of houses drawn by rule are lettered apart and clear of walls, as
// surveyed, divided at random and divided by the search.
func TestGeneratedHousesAreLetteredApart(t *testing.T) {
	for _, o := range []render.Options{{}, {Paper: render.ANSIC, Imperial: true}} {
		for name, sheets := range drawnGenerated(t, 4, o) {
			apart(t, name, sheets)
			offWalls(t, name, sheets)
			linesApart(t, name, sheets)
		}
	}
}

// And so are those of the samples, on every paper.
func TestNothingLiesOnWallsOnAnyPaper(t *testing.T) {
	for _, p := range render.Papers() {
		o := render.Options{Paper: p}
		for _, file := range surveys(t) {
			s := split(t, building(t, file), file)
			if s == nil {
				continue
			}
			sheets := sheetsOf(t, file, "set", o, func() ([]*render.Sheet, error) { return render.Set(s, o) })
			apart(t, p.Name+" "+file, sheets)
			offWalls(t, p.Name+" "+file, sheets)
			linesApart(t, p.Name+" "+file, sheets)
		}
	}
}

// offWalls holds lettering and tags of plans clear of the walls that stand and
// of new ones: no side of a box crosses a face, and none lies within a wall.
func offWalls(t *testing.T, name string, sheets []*render.Sheet) {
	t.Helper()
	for _, s := range sheets {
		for _, box := range s.Boxes {
			if box.View < 0 || box.Kind == render.LineBox || s.Scale.Ratio > 100 {
				continue // a site plan shows no walls
			}
			if partOf.MatchString(s.Title) && (strings.HasPrefix(box.Text, "MATCH LINE") || strings.Contains(box.Text, ", part ") || strings.Contains(box.Text, "Finished floor")) {
				continue // stands beyond what is drawn of the level
			}
			v := s.Views[box.View]
			var corners [4]geom.Pt
			for i, c := range box.Corners {
				corners[i] = v.House(inwards(box.Corners, c))
			}
			mass := v.Building.Levels[v.Level].Mass
			on := mass.Contains(corners[0]) == geom.Inside
			for _, e := range mass.Edges() {
				for i := range corners {
					a, b := corners[i], corners[(i+1)%4]
					on = on || geom.Orient(e.A, e.B, a)*geom.Orient(e.A, e.B, b) < 0 && geom.Orient(a, b, e.A)*geom.Orient(a, b, e.B) < 0
				}
			}
			if on {
				t.Errorf("%s sheet %s %q: %s %q lies on a wall at %.0f, %.0f", name, s.Number, s.Title, box.Kind, box.Text, box.Corners[0].X, box.Corners[0].Y)
			}
		}
	}
}

// inwards is a corner moved a little towards the middle of its box.
func inwards(box [4]render.Point, c render.Point) render.Point {
	m := render.Point{X: (box[0].X + box[2].X) / 2, Y: (box[0].Y + box[2].Y) / 2}
	l := math.Hypot(m.X-c.X, m.Y-c.Y)
	return render.Point{X: c.X + (m.X-c.X)*touch/l, Y: c.Y + (m.Y-c.Y)*touch/l}
}

// linesApart holds dimension lines that run the same way clear of each other:
// they may meet at their ends and cross, never lie upon one another.
func linesApart(t *testing.T, name string, sheets []*render.Sheet) {
	t.Helper()
	const ends = 0.6 // millimetres at the ends, where two lengths meet
	for _, s := range sheets {
		for i, a := range s.Boxes {
			for _, b := range s.Boxes[:i] {
				if a.Kind != render.LineBox || b.Kind != render.LineBox || a.View != b.View {
					continue
				}
				ux, uy := a.Corners[1].X-a.Corners[0].X, a.Corners[1].Y-a.Corners[0].Y
				wx, wy := b.Corners[1].X-b.Corners[0].X, b.Corners[1].Y-b.Corners[0].Y
				long, other := math.Hypot(ux, uy), math.Hypot(wx, wy)
				if long < 2*ends || other < 2*ends || math.Abs(ux*wy-uy*wx) > 0.02*long*other {
					continue
				}
				if a.Overlaps(b, ends) {
					continue // thin boxes: told apart below
				}
				at := func(p render.Point) (along, off float64) {
					dx, dy := p.X-a.Corners[0].X, p.Y-a.Corners[0].Y
					return (dx*ux + dy*uy) / long, (dy*ux - dx*uy) / long
				}
				a0, off := at(b.Corners[0])
				a1, _ := at(b.Corners[1])
				if shared := min(long, max(a0, a1)) - max(0, min(a0, a1)); shared > ends && math.Abs(off) < 0.4 {
					t.Errorf("%s sheet %s %q: two dimension lines lie upon one another at %.0f, %.0f", name, s.Number, s.Title, b.Corners[0].X, b.Corners[0].Y)
				}
			}
		}
	}
}
