package plan_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// convertible are the functions that a room takes on by fixtures.
var convertible = []plan.Function{
	plan.HasKitchen, plan.HasBathroom, plan.HasBedroom, plan.HasLaundry, plan.HasHeat, plan.HasHotWater, plan.HasPanel,
}

func TestEveryConversionOfASampleStandsWhereItMay(t *testing.T) {
	houses := corpus(t)
	delete(houses, "generated") // many rooms, all alike
	for _, name := range slices.Sorted(maps.Keys(houses)) {
		b := build(t, houses[name])
		fits := 0
		for c := range b.Cells {
			for _, f := range convertible {
				if !plan.ThinkableOf(b, c, f) {
					continue
				}
				for _, fit := range plan.FitsOf(b, c, f) {
					fits++
					assert.Empty(t, checkFit(b, fit), "%s, %s", name, f)
				}
			}
			for _, f := range plan.OfferOf(b, c) {
				for _, g := range append(plan.OfferOf(b, c), plan.HasOf(b, c)...) {
					for _, fit := range plan.FitsOf(b, c, f, g) {
						assert.Empty(t, checkFit(b, fit), "%s, %s with %s", name, f, g)
					}
				}
			}
		}
		assert.Positive(t, fits, name)
	}
}

// room draws a room with doors and windows that overlap neither each other nor
// the corners, a hall before one of them, and a few fixtures.
func anyRoom(t *rapid.T) *housetest.Draft {
	use := rapid.SampledFrom([]plan.Use{plan.Office, plan.Bedroom, plan.Living, plan.Storage, plan.Closet, plan.Bathroom, plan.Laundry, plan.Unfinished, plan.Kitchen, plan.Hall}).Draw(t, "use")
	cm := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) / 100 }
	w, h := cm("width", 70, 520), cm("depth", 70, 520)
	d := oneLevel()
	corners := []float64{0, 0, w, 0, w, h, 0, h}
	if w > 2 && h > 2 && rapid.Bool().Draw(t, "L") {
		x, y := w*cm("notch x", 30, 70), h*cm("notch y", 30, 70)
		corners = []float64{0, 0, w, 0, w, y, x, y, x, h, 0, h}
	}
	d.Room("room", use, "main", corners...)
	d.Room("hall", plan.Hall, "main", 0, -0.12-1.1, w, -0.12)
	put := func(name string, wide float64, add func(x0, y0, x1, y1 float64)) {
		side := rapid.SampledFrom([]string{"s", "w"}).Draw(t, name+" side")
		length := w
		if side == "w" {
			length = h
		}
		if length < wide+0.1 {
			return
		}
		from := 0.05 + cm(name+" from", 0, 100)*(length-wide-0.1)
		if side == "s" {
			add(from, -0.06, from+wide, -0.06)
		} else {
			add(-0.1, from, -0.1, from+wide)
		}
	}
	put("door", cm("door", 60, 100), func(x0, y0, x1, y1 float64) { d.Door("door", "main", x0, y0, x1, y1) })
	if rapid.Bool().Draw(t, "another door") {
		put("second", cm("opening", 80, 120), func(x0, y0, x1, y1 float64) { d.Opening("second", "main", x0, y0, x1, y1) })
	}
	win := cm("window", 60, 150)
	if w > win+0.2 && len(corners) == 8 {
		x := 0.1 + cm("window from", 0, 100)*(w-win-0.2)
		d.Window("win", "main", cm("sill", 0, 180), 1.0, x, h+0.1, x+win, h+0.1)
	}
	return d
}

func doorSides(t *rapid.T, h *plan.House) {
	for i := range h.Doors {
		d := &h.Doors[i]
		d.HingeAtEnd = rapid.Bool().Draw(t, "hinge")
		d.OpensInto = rapid.SampledFrom([]string{"", "room", "hall"}).Draw(t, "opens into")
	}
}

func TestNothingPlacedOverlapsAWallADoorOrAnother(t *testing.T) {
	placed := map[plan.Function]int{}
	checkTimes(t, 100, func(t *rapid.T) {
		h := anyRoom(t).House()
		doorSides(t, h)
		b, err := plan.Build(h)
		require.NoError(t, err)
		c := slices.IndexFunc(b.Cells, func(c plan.Cell) bool { return c.ID == "room" })
		for _, f := range convertible {
			for _, fit := range plan.FitsOf(b, c, f) {
				placed[f]++
				require.Empty(t, checkFit(b, fit), "%s", f)
			}
		}
		for _, set := range [][]plan.Function{
			{plan.HasKitchen, plan.HasLiving}, {plan.HasBathroom, plan.HasLaundry}, {plan.HasHeat, plan.HasHotWater}, {plan.HasKitchen, plan.HasLaundry},
		} {
			for _, fit := range plan.FitsOf(b, c, set...) {
				require.Empty(t, checkFit(b, fit), "%v", set)
			}
		}
	})
	for _, f := range convertible {
		assert.Positive(t, placed[f], "%s never fitted: the rooms try nothing", f)
	}
}

// fitFacts tells what a building offers: what fits, alone and with what else,
// and how far it drains, to the centimetre.
func fitFacts(b *plan.Building) map[string]string {
	out := map[string]string{}
	for c, cell := range b.Cells {
		out[cell.ID] = fmt.Sprint(plan.OfferOf(b, c), plan.CapacityOf(b, c), plan.ClashesOf(b, c))
	}
	return out
}

func TestTurningMirroringAndOrderChangeNoFit(t *testing.T) {
	houses := corpus(t)
	delete(houses, "generated")
	names := slices.Sorted(maps.Keys(houses))
	built := map[string]*plan.Building{}
	for _, name := range names {
		built[name] = build(t, houses[name])
	}
	checkTimes(t, 50, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "house")
		c := housetest.Shuffled(houses[name], rapid.Uint64().Draw(t, "order"))
		c = housetest.Turned(c, rapid.Float64Range(-360, 360).Draw(t, "angle"))
		if rapid.Bool().Draw(t, "mirrored") {
			c = housetest.Mirrored(c)
		}
		c = housetest.Moved(c, rapid.Float64Range(-2000, 2000).Draw(t, "dx"), rapid.Float64Range(-2000, 2000).Draw(t, "dy"))
		want := built[name]
		got, err := plan.Build(c)
		require.NoError(t, err)
		require.Equal(t, fitFacts(want), fitFacts(got), name)
		for i := range want.Cells {
			for _, f := range plan.OfferOf(want, i) {
				w, g := plan.FitsOf(want, i, f), plan.FitsOf(got, i, f)
				require.Len(t, g, len(w), "%s: %s in %s", name, f, want.Cells[i].ID)
				for k := range w {
					require.InDelta(t, w[k].DrainM, g[k].DrainM, 0.011, "%s: %s in %s, %d", name, f, want.Cells[i].ID, k)
					require.Equal(t, w[k].Stack, g[k].Stack)
					require.Len(t, g[k].Fixtures, len(w[k].Fixtures))
				}
			}
		}
	})
}
