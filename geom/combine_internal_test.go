package geom

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the overlay library and the exact combination of edges make of the same
// noded shapes is the same, corner by corner.
func TestCombineAgreesWithOverlayLibrary(t *testing.T) {
	for seed := range uint64(300) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		spread := []int64{300, 100_000, 1_000_000_000}[seed%3]
		quad := func() Shape {
			for {
				r := make(Ring, 4)
				for i := range r {
					r[i] = Pt{rnd.Int64N(2*spread) - spread, rnd.Int64N(2*spread) - spread}
				}
				if len(Breaches([]Ring{r})) == 0 {
					return Shape{Wound(Region{Outer: r})}
				}
			}
		}
		a, err := Union(quad(), quad())
		require.NoError(t, err)
		b, err := Difference(quad(), quad())
		require.NoError(t, err)
		noded := nodeShapes(a, b)
		for _, op := range []operation{union, intersection, difference} {
			want, err := runLibrary(noded[0], noded[1], op)
			require.NoError(t, err)
			got := combine(noded[0], noded[1], op.keep)
			require.Equal(t, tidied(want).normalised(), tidied(got).normalised(), "seed %d", seed)
		}
	}
}
