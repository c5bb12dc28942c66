package geom_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

func TestContacts(t *testing.T) {
	below := geom.Prism{Base: rect(0, 0, 4, 3), Low: 0, High: 2.4}
	over := func(low float64) geom.Prism {
		return geom.Prism{Base: rect(1, 1, 6, 6), Low: low, High: low + 2.4, Layer: 1}
	}
	for _, c := range []struct {
		name   string
		prisms []geom.Prism
		area   float64 // 0: no floor
		depth  float64
	}{
		{"a floor where one lies over the other", []geom.Prism{below, over(2.7)}, 6, 0.3},
		{"as deep as allowed", []geom.Prism{below, over(2.9)}, 6, 0.5},
		{"deeper: something unsurveyed lies between", []geom.Prism{below, over(3.0)}, 0, 0},
		{"measured a little too low", []geom.Prism{below, over(2.36)}, 6, -0.04},
		{"a half level is beside, not above", []geom.Prism{below, over(1.2)}, 0, 0},
		{"outdoors has no floor assembly", []geom.Prism{below, {Base: rect(1, 1, 6, 6), Low: 2.7, High: 2.7, Unenclosed: true}}, 0, 0},
		{"walls one above the other", []geom.Prism{below, {Base: rect(3.985, 0, 8, 3), Low: 2.7, High: 5.1}}, 0, 0},
		{"side by side", []geom.Prism{below, {Base: rect(4, 0, 8, 3), Low: 2.7, High: 5.1}}, 0, 0},
	} {
		got, err := geom.Contacts(c.prisms, 0.5)
		require.NoError(t, err)
		if c.area == 0 {
			assert.Empty(t, got, c.name)
			continue
		}
		require.Len(t, got, 1, c.name)
		assert.Equal(t, []int{0, 1}, []int{got[0].Below, got[0].Above}, c.name)
		assert.InDelta(t, c.area, got[0].AreaM2(), 1e-9, c.name)
		assert.InDelta(t, c.depth, got[0].Depth, 1e-9, c.name)
	}
}

// Upright houses of two storeys against the raster, pair by pair.
func TestContactsAgreeWithRaster(t *testing.T) {
	for seed := range uint64(25) {
		rnd := rand.New(rand.NewPCG(seed, 37))
		lower, upper := randomHouse(rnd, 9, 7), randomHouse(rnd, 8, 8)
		prisms := storeys(lower...)
		for _, r := range upper {
			prisms = append(prisms, geom.Prism{Base: r, Low: 2.7, High: 5.1, Layer: 1})
		}
		contacts, err := geom.Contacts(prisms, 0.5)
		require.NoError(t, err)
		got := make(map[[2]int]float64)
		for _, c := range contacts {
			got[[2]int{c.Below, c.Above}] = c.AreaM2()
		}
		white := newGrid(0.05, 0, append(lower, upper...)...)
		for i, r := range lower {
			below := white.paint(r)
			for k, q := range upper {
				above := white.paint(q)
				want := white.each(func(i int) bool { return below.black[i] && above.black[i] }).area()
				require.InDelta(t, want, got[[2]int{i, len(lower) + k}], 1e-6, "seed %d: %d under %d", seed, i, k)
			}
		}
	}
}
