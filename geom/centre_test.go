package geom_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

func TestVisualCentre(t *testing.T) {
	for _, c := range []struct {
		name      string
		region    geom.Region
		x, y      float64
		clearance float64
	}{
		{"a square room is labelled in its middle", rect(0, 0, 4, 4), 2, 2, 2},
		{"a corridor too, though it is as wide everywhere", rect(1, 1, 11, 2.2), 6, 1.6, 0.6},
		{"nothing", geom.Region{}, 0, 0, 0},
	} {
		at, clearance := geom.VisualCentre(c.region)
		assert.Equal(t, geom.FromMetres(c.x, c.y), at, c.name)
		assert.InDelta(t, c.clearance, clearance, 1e-9, c.name)
	}

	// The label of an L lies where its wings meet, not outside between them; the
	// greatest circle touches the re-entrant corner (2, 2): r = 4 - 2 sqrt(2)
	// (the distance from (r, r) to the corner is r).
	//	+--+
	//	|  |
	//	|  +----+
	//	|       |
	//	+-------+
	wings := geom.Region{Outer: ring(0, 0, 6, 0, 6, 2, 2, 2, 2, 6, 0, 6)}
	at, clearance := geom.VisualCentre(wings)
	assert.Equal(t, geom.Inside, wings.Contains(at))
	assert.InDelta(t, 1.1716, clearance, 0.03)

	// Round a pier the label keeps clear of it.
	at, clearance = geom.VisualCentre(withPier)
	assert.Equal(t, geom.Inside, withPier.Contains(at))
	assert.Greater(t, clearance, 1.4)

	// A strip thinner than the precision still has a place.
	_, clearance = geom.VisualCentre(rect(0, 0, 3, 0.004))
	assert.GreaterOrEqual(t, clearance, 0.0)
}

// The label goes with the room: turned, mirrored and moved, it is in the same
// place to the precision of the search, except where two places are as good.
func TestVisualCentreMovesWithTheRoom(t *testing.T) {
	ell := geom.Region{Outer: ring(0, 0, 6.3, 0, 6.3, 2.1, 2.4, 2.1, 2.4, 5.7, 0, 5.7)}
	want, clearance := geom.VisualCentre(ell)
	rapid.Check(t, func(t *rapid.T) {
		m := lay(t)
		at, turned := geom.VisualCentre(m.region(ell))
		require.InDelta(t, clearance, turned, 0.02)
		require.Less(t, at.Distance(m.pt(want)), 0.05)
	})
}

// No place of a coarse raster over the room beats the visual centre by more
// than the two per cent given up.
func TestNoPlaceIsMuchClearer(t *testing.T) {
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 31))
		for _, r := range randomHouse(rnd, 9, 8) {
			r = motion{shear: rnd.Float64() - 0.5, degrees: rnd.Float64() * 360}.region(r)
			_, clearance := geom.VisualCentre(r)
			white := newGrid(0.1, 0, r)
			for i, in := range white.paint(r).black {
				if in {
					x, y := white.middle(i)
					require.LessOrEqual(t, 0.98*r.DistanceToBorder(geom.FromMetres(x, y)), clearance+0.006)
				}
			}
		}
	}
}
