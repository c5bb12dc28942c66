package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// Every cell of the raster of a level belongs to the group of the room that is
// nearest to it: that is the centre line of a wall, and the mitre of a corner.
// Only at posts between walls of different thickness, and where one wall ends
// beside a thicker one, do the two differ, by less than a post.
func TestSharesAgreeWithNearestRoomOnRaster(t *testing.T) {
	const cell, post = 0.05, 0.4 * 0.4
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 13))
		rooms := randomHouse(rnd, 8+rnd.IntN(5), 6+rnd.IntN(5))
		if len(rooms) < 2 {
			continue
		}
		prisms := storeys(rooms...)
		outline, err := geom.Outline(prisms, geom.Walls(prisms, 0.30), 0)
		require.NoError(t, err)
		groups := 2 + rnd.IntN(2)
		group := make([]int, len(prisms))
		for i := range group {
			group[i] = rnd.IntN(groups+1) - 1
		}
		shares, err := geom.Shares(outline, prisms, group)
		require.NoError(t, err)

		white := newGrid(cell, 0.5, rooms...)
		got := white.paint(outline...)
		want := make([]float64, groups)
		for i, in := range got.black {
			if !in {
				continue
			}
			x, y := got.middle(i)
			best, nearest := math.Inf(1), []int{}
			for k, r := range rooms {
				b := r.Bounds()
				x0, y0 := b.Min.Metres()
				x1, y1 := b.Max.Metres()
				d := math.Hypot(max(x0-x, 0, x-x1), max(y0-y, 0, y-y1))
				switch {
				case d < best-1e-9:
					best, nearest = d, []int{k}
				case d < best+1e-9:
					nearest = append(nearest, k)
				}
			}
			for _, k := range nearest {
				if group[k] >= 0 {
					want[group[k]] += cell * cell / float64(len(nearest))
				}
			}
		}
		for g := range shares {
			require.InDelta(t, want[g], shares[g], post, "seed %d: group %d of %v", seed, g, want)
		}
		t.Log(want, shares)
	}
}
