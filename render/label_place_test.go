package render_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// drawnRooms draws a row of rooms of any shape: rectangles, angles and rooms
// with a slanting side, from cupboards to halls, some with a fixture in them,
// the whole turned on its lot.
func drawnRooms(t *rapid.T) *plan.House {
	s := &sketch{h: &plan.House{Name: "Rooms", Unit: plan.Metres}, turn: float64(rapid.IntRange(-40, 40).Draw(t, "turn")), n: map[string]int{}}
	s.level("Floor", 0)
	length := func(name string, low, high int) float64 {
		return float64(rapid.IntRange(low, high).Draw(t, name)) / 100
	}
	x := 0.0
	for i := range rapid.IntRange(1, 5).Draw(t, "rooms") {
		w, h := length("width", 60, 600), length("depth", 60, 500)
		corners := []float64{x, 0, x + w, 0, x + w, h, x, h}
		switch rapid.IntRange(0, 3).Draw(t, "shape") {
		case 1: // an angle
			cut, high := w*0.6, h*0.5
			corners = []float64{x, 0, x + w, 0, x + w, high, x + w - cut, high, x + w - cut, h, x, h}
		case 2: // a slanting side
			corners = []float64{x, 0, x + w, 0, x + w, h * 0.6, x, h}
		}
		ring := make(geom.Ring, 0, len(corners)/2)
		for k := 0; k < len(corners); k += 2 {
			ring = append(ring, s.pt(corners[k], corners[k+1]))
		}
		name := rapid.SampledFrom([]string{"Den", "Bedroom", "Living and dining room", "Conservatory", "Utility room and boot room"}).Draw(t, "name")
		s.h.Spaces = append(s.h.Spaces, plan.Space{ID: fmt.Sprint("room-", i), Name: name, Use: plan.Storage, Level: 0,
			Region: geom.Wound(geom.Region{Outer: ring}), Height: 2.4, Heated: true})
		if w > 1.2 && h > 1.5 && rapid.Bool().Draw(t, "fixture") {
			s.fixture(rapid.SampledFrom([]string{"sink", "refrigerator", "bath"}).Draw(t, "use"), x+w*0.3, 0.3)
		}
		x += w + partition
	}
	return s.h
}

// Whatever its shape, a room is labelled within its walls, clear of all else,
// or carries a number that the key explains; and always in the same way.
func TestAnyRoomIsLabelled(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		h := drawnRooms(r)
		b, err := plan.Build(h)
		require.NoError(r, err)
		sheets, err := render.Survey(b, render.Options{})
		require.NoError(r, err)
		again, err := render.Survey(b, render.Options{})
		require.NoError(r, err)
		labelled := map[string]bool{}
		for i, s := range sheets {
			assert.Equal(r, s.Boxes, again[i].Boxes)
			for k, a := range s.Boxes {
				for _, other := range s.Boxes[:k] {
					if (a.Kind != render.LineBox || other.Kind != render.LineBox) && a.Overlaps(other, touch) {
						assert.Fail(r, "overlap", "%q lies over %q", a.Text, other.Text)
					}
				}
				if a.Cell == "" {
					continue
				}
				labelled[a.Cell] = true
				for _, c := range b.Cells {
					if c.ID != a.Cell {
						continue
					}
					for _, q := range a.Corners {
						assert.NotEqual(r, geom.Out, c.Region.Contains(s.Views[a.View].House(q)), "%q leaves %s", a.Text, c.ID)
					}
				}
			}
		}
		joined := everyText(sheets)
		for _, c := range b.Cells {
			if !labelled[c.ID] { // its number stands outside
				assert.Contains(r, strings.ReplaceAll(joined, "\n", " "), c.Name)
				assert.Contains(r, joined, "Key to rooms")
			}
		}
	})
}

// The label of an empty room stands at its visual centre: the point farthest
// from all its walls, found here by trying every point of a fine grid.
func TestALabelStandsAtTheVisualCentre(t *testing.T) {
	for name, corners := range map[string][]float64{
		"square":             {0, 0, 4, 0, 4, 4, 0, 4},
		"angle":              {0, 0, 6, 0, 6, 3.4, 2.2, 3.4, 2.2, 6, 0, 6},
		"with a bay":         {0, 0, 5, 0, 5, 4, 3.6, 4, 3.2, 4.8, 1.8, 4.8, 1.4, 4, 0, 4},
		"with a sloped side": {0, 0, 5.2, 0, 5.2, 3.3, 0, 4.6},
	} {
		var ring geom.Ring
		for k := 0; k < len(corners); k += 2 {
			ring = append(ring, geom.FromMetres(corners[k], corners[k+1]))
		}
		region := geom.Wound(geom.Region{Outer: ring})
		h := &plan.House{Name: "Room", Unit: plan.Metres, Levels: []plan.Level{{ID: "floor", Name: "Floor", Height: 2.4}},
			Spaces: []plan.Space{{ID: "room", Name: "Den", Use: plan.Storage, Region: region, Height: 2.4, Heated: true}}}
		b, err := plan.Build(h)
		require.NoError(t, err)
		sheets, err := render.Survey(b, render.Options{})
		require.NoError(t, err)
		low, high := render.Point{X: math.Inf(1), Y: math.Inf(1)}, render.Point{X: math.Inf(-1), Y: math.Inf(-1)}
		var view render.View
		for _, s := range sheets {
			for _, box := range s.Boxes {
				for _, c := range box.Corners {
					if box.Cell == "room" {
						low, high = render.Point{X: min(low.X, c.X), Y: min(low.Y, c.Y)}, render.Point{X: max(high.X, c.X), Y: max(high.Y, c.Y)}
						view = s.Views[box.View]
					}
				}
			}
		}
		x, y := view.House(render.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}).Metres()
		at := geom.FromMetres(x, y)
		const step = 0.05
		best := 0.0
		for i := range 125 {
			for j := range 125 {
				if q := geom.FromMetres(float64(i)*step, float64(j)*step); region.Contains(q) == geom.Inside {
					best = max(best, region.DistanceToBorder(q))
				}
			}
		}
		// Half a line of text higher or lower is where lines of one height less stand.
		assert.Greater(t, region.DistanceToBorder(at), best-0.2, "%s: the label stands at %.2f, %.2f", name, x, y)
	}
}
