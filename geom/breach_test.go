package geom_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

func TestBreaches(t *testing.T) {
	square := ring(0, 0, 4, 0, 4, 4, 0, 4)
	at := geom.FromMetres
	for _, c := range []struct {
		name  string
		rings []geom.Ring
		want  []geom.Breach
	}{
		{"a square", []geom.Ring{square}, nil},
		{"the other way round", []geom.Ring{square.Reverse()}, nil},
		{"a repeated corner is mended, not a breach", []geom.Ring{ring(0, 0, 4, 0, 4, 0, 4, 4, 0, 4, 0, 0)}, nil},
		{"a corner on a straight side", []geom.Ring{ring(0, 0, 2, 0, 4, 0, 4, 4, 0, 4)}, nil},
		{"no corners", []geom.Ring{nil}, []geom.Breach{{Kind: geom.FewCorners}}},
		{"two corners, thrice", []geom.Ring{ring(1, 1, 3, 1, 1, 1, 3, 1)}, []geom.Breach{{Kind: geom.FewCorners, At: at(1, 1)}}},
		{"all in line", []geom.Ring{ring(1, 1, 3, 3, 2, 2)}, []geom.Breach{{Kind: geom.ZeroArea, At: at(1, 1)}}},
		// (0,4)   (4,4)
		//      \ /
		//      / \
		// (0,0)   (4,0)
		{"a bow tie", []geom.Ring{ring(0, 0, 4, 4, 4, 0, 0, 4)}, []geom.Breach{{Kind: geom.SelfCrossing, At: at(2, 2)}}},
		{"a bow tie knotted in a corner", []geom.Ring{ring(0, 0, 2, 2, 4, 4, 4, 0, 2, 2, 0, 4)}, []geom.Breach{{Kind: geom.SelfCrossing, At: at(2, 2)}}},
		{"two rooms that meet in a corner", []geom.Ring{ring(0, 0, 2, 0, 2, 2, 4, 2, 4, 4, 2, 4, 2, 2, 0, 2)}, []geom.Breach{{Kind: geom.SelfTouching, At: at(2, 2)}}},
		{"a spike", []geom.Ring{ring(0, 0, 4, 0, 4, 2, 7, 2, 4, 2, 4, 4, 0, 4)}, []geom.Breach{{Kind: geom.SelfTouching, At: at(4, 2)}}},
		{"a ring with a bridge to its hole", []geom.Ring{ring(0, 0, 6, 0, 6, 6, 0, 6, 0, 0, 2, 2, 2, 4, 4, 4, 4, 2, 2, 2)}, []geom.Breach{{Kind: geom.SelfTouching, At: at(0, 0)}}},
		{"a hole", []geom.Ring{square, ring(1, 1, 2, 1, 2, 2, 1, 2)}, nil},
		{"a hole in a corner point", []geom.Ring{square, ring(0, 0, 2, 1, 1, 2)}, nil},
		{"a hole outside", []geom.Ring{square, ring(5, 1, 6, 1, 6, 2, 5, 2)}, []geom.Breach{{Kind: geom.HoleOutside, Ring: 1, At: at(5, 1)}}},
		{"a hole half outside", []geom.Ring{square, ring(3, 1, 6, 1, 6, 2, 3, 2)}, []geom.Breach{{Kind: geom.HoleOutside, Ring: 1, At: at(4, 1)}}},
		{"a hole along a side", []geom.Ring{square, ring(1, 0, 2, 0, 2, 1, 1, 1)}, []geom.Breach{{Kind: geom.HoleOutside, Ring: 1, At: at(1, 0)}}},
		{"a hole around all", []geom.Ring{square, ring(-1, -1, 5, -1, 5, 5, -1, 5)}, []geom.Breach{{Kind: geom.HoleOutside, Ring: 1, At: at(-1, -1)}}},
		{"overlapping holes", []geom.Ring{square, ring(1, 1, 3, 1, 3, 3, 1, 3), ring(2, 1.5, 3.5, 1.5, 3.5, 2, 2, 2)}, []geom.Breach{{Kind: geom.HoleOverlap, Ring: 2, At: at(3, 1.5)}}},
		{"a hole in a hole", []geom.Ring{square, ring(1, 1, 3, 1, 3, 3, 1, 3), ring(1.5, 1.5, 2, 1.5, 2, 2)}, []geom.Breach{{Kind: geom.HoleOverlap, Ring: 2, At: at(1.5, 1.5)}}},
		{"holes back to back", []geom.Ring{square, ring(1, 1, 2, 1, 2, 3, 1, 3), ring(2, 1, 3, 1, 3, 3, 2, 3)}, []geom.Breach{{Kind: geom.HoleOverlap, Ring: 2, At: at(2, 1)}}},
		{"several faults of several rings", []geom.Ring{ring(0, 0, 4, 4, 4, 0, 0, 4), ring(9, 9, 9, 9)}, []geom.Breach{{Kind: geom.SelfCrossing, At: at(2, 2)}, {Kind: geom.FewCorners, Ring: 1, At: at(9, 9)}}},
	} {
		got := geom.Breaches(c.rings)
		require.Len(t, got, len(c.want), "%s: %v", c.name, got)
		for i := range got {
			assert.Equal(t, c.want[i].Kind, got[i].Kind, c.name)
			assert.Equal(t, c.want[i].Ring, got[i].Ring, c.name)
			assert.Equal(t, c.want[i].At, got[i].At, c.name)
		}
	}
}

func TestRepeatedCorners(t *testing.T) {
	r := ring(0, 0, 4, 0, 4, 0, 4, 4, 0, 0)
	assert.Equal(t, []geom.Pt{geom.FromMetres(0, 0), geom.FromMetres(4, 0)}, []geom.Pt(r.RepeatedCorners()))
	assert.Equal(t, ring(0, 0, 4, 0, 4, 4), r.WithoutRepeats())
	assert.Empty(t, ring(0, 0, 4, 0, 4, 4).RepeatedCorners())
}

// A ring around a point, seen whole from it, never crosses itself. Through
// points on a circle no other order goes without a crossing.
func TestStarsAreSoundAndTangledStarsAreNot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(5, 40).Draw(t, "corners")
		var r geom.Ring
		for i := range n {
			far := rapid.Float64Range(2, 9).Draw(t, "far")
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r = append(r, geom.FromMetres(far*cos, far*sin))
		}
		require.Empty(t, geom.Breaches([]geom.Ring{r}))
		for i := range r {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r[i] = geom.FromMetres(5*cos, 5*sin)
		}
		i := rapid.IntRange(0, n-1).Draw(t, "i")
		j := (i + rapid.IntRange(2, n-2).Draw(t, "j")) % n
		r[i], r[j] = r[j], r[i]
		require.NotEmpty(t, geom.Breaches([]geom.Ring{r}))
	})
}

func TestBreachesSayWhatTheyAre(t *testing.T) {
	for kind, words := range map[geom.BreachKind]string{
		geom.FewCorners: "fewer than three distinct corners", geom.ZeroArea: "zero area", geom.SelfCrossing: "self-crossing",
		geom.SelfTouching: "self-touching", geom.HoleOutside: "hole outside", geom.HoleOverlap: "holes overlapping",
	} {
		assert.Equal(t, words, kind.String())
	}
}
