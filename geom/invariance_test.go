package geom_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/geom"
)

// house draws a house of one level, or of two half levels side by side with
// others above, and its yard.
func house(t *rapid.T) []geom.Prism {
	rnd := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "house"), 17))
	width, depth := 6+rnd.IntN(8), 5+rnd.IntN(8)
	prisms := storeys(randomHouse(rnd, width, depth)...)
	if rapid.Bool().Draw(t, "half levels") {
		for i := range prisms {
			prisms[i].Layer = rnd.IntN(2)
			prisms[i].Low = 1.3 * float64(prisms[i].Layer)
			prisms[i].High = prisms[i].Low + 2.4
		}
	}
	if rapid.Bool().Draw(t, "upper floor") {
		for _, r := range randomHouse(rnd, width, depth) {
			prisms = append(prisms, geom.Prism{Base: r, Low: 4, High: 6.4, Layer: 2})
		}
	}
	if rapid.Bool().Draw(t, "yard") {
		w, d := float64(width), float64(depth)
		prisms = append(prisms, geom.Prism{Low: -0.3, High: -0.3, Layer: 3, Unenclosed: true, Base: geom.Wound(geom.Region{
			Outer: ring(-6, -6, w+6, -6, w+6, d+6, -6, d+6),
			Holes: []geom.Ring{ring(-0.3, -0.3, w+0.3, -0.3, w+0.3, d+0.3, -0.3, d+0.3)},
		})})
	}
	return prisms
}

func lay(t *rapid.T) motion {
	return motion{
		mirror:  rapid.Bool().Draw(t, "mirror"),
		degrees: rapid.Float64Range(0, 360).Draw(t, "degrees"),
		x:       rapid.Float64Range(-500, 500).Draw(t, "x"),
		y:       rapid.Float64Range(-500, 500).Draw(t, "y"),
	}
}

// sameWalls compares walls whichever way their house lies: each of one set has
// its like in the other, with the same sides and ends.
func sameWalls(t *rapid.T, want, got []geom.Wall, m motion) {
	require.Len(t, got, len(want))
	left := slices.Clone(got)
	for _, w := range want {
		i := slices.IndexFunc(left, func(v geom.Wall) bool {
			a, b := m.pt(w.FaceA.A), m.pt(w.FaceA.B)
			if v.A == v.B { // a stub: either side may be A
				c, d := m.pt(w.FaceB.A), m.pt(w.FaceB.B)
				if near(v.FaceA.A, c) && near(v.FaceA.B, d) || near(v.FaceA.A, d) && near(v.FaceA.B, c) {
					return v.A == w.A && v.Open == w.Open && math.Abs(v.Thickness-w.Thickness) < 1e-4
				}
			}
			return v.A == w.A && v.B == w.B && v.Open == w.Open && math.Abs(v.Thickness-w.Thickness) < 1e-4 &&
				math.Abs(v.Low-w.Low) < 1e-9 && math.Abs(v.High-w.High) < 1e-9 &&
				(near(v.FaceA.A, a) && near(v.FaceA.B, b) || near(v.FaceA.A, b) && near(v.FaceA.B, a))
		})
		require.GreaterOrEqual(t, i, 0, "%v has no like", w)
		left = slices.Delete(left, i, i+1)
	}
}

func near(p, q geom.Pt) bool { return p.Distance(q) < 2e-4 }

func TestTurningMirroringAndMovingChangeNoWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prisms, m := house(t), lay(t)
		sameWalls(t, geom.Walls(prisms, 0.25), geom.Walls(m.prisms(prisms), 0.25), m)
	})
}

func TestOrderOfPrismsChangesNoWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prisms := house(t)
		order := rapid.Permutation(numbers(len(prisms))).Draw(t, "order")
		shuffled := make([]geom.Prism, len(prisms))
		for i, k := range order {
			shuffled[i] = prisms[k]
		}
		got := geom.Walls(shuffled, 0.25)
		for i, w := range got { // back to the first numbers
			a := order[w.A]
			if w.B == geom.Exposed {
				got[i].A = a
				continue
			}
			if b := order[w.B]; a <= b {
				got[i].A, got[i].B = a, b
			} else {
				got[i].A, got[i].B = b, a
				got[i].FaceA = geom.Segment{A: w.FaceB.B, B: w.FaceB.A}
				got[i].FaceB = geom.Segment{A: w.FaceA.B, B: w.FaceA.A}
			}
		}
		require.Equal(t, rounded(geom.Walls(prisms, 0.25)), rounded(got))
	})
}

// rounded takes the last bits off the thickness, which depend on the side from
// which a wall was measured.
func rounded(walls []geom.Wall) []geom.Wall {
	for i := range walls {
		walls[i].Thickness = math.Round(walls[i].Thickness*1e6) / 1e6
	}
	return walls
}

func numbers(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestTurningChangesNoFloor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prisms, m := house(t), lay(t)
		want, err := geom.Contacts(prisms, 3)
		require.NoError(t, err)
		got, err := geom.Contacts(m.prisms(prisms), 3)
		require.NoError(t, err)
		require.Len(t, got, len(want))
		for i := range want {
			require.Equal(t, want[i].Below, got[i].Below)
			require.Equal(t, want[i].Above, got[i].Above)
			require.InDelta(t, want[i].AreaM2(), got[i].AreaM2(), 0.001)
		}
	})
}

func TestTurningChangesNoOutlineMassOrShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prisms, m := house(t), lay(t)
		turned := m.prisms(prisms)
		walls, turnedWalls := geom.Walls(prisms, 0.25), geom.Walls(turned, 0.25)
		for layer := range 3 {
			for _, outline := range []func([]geom.Prism, []geom.Wall, int) (geom.Shape, error){geom.Outline, geom.OutlineToFarFace} {
				a, err := outline(prisms, walls, layer)
				require.NoError(t, err)
				b, err := outline(turned, turnedWalls, layer)
				require.NoError(t, err)
				requireSoundRapid(t, a)
				requireSoundRapid(t, b)
				require.InDelta(t, a.AreaM2(), b.AreaM2(), 0.005)
				massA, err := geom.Mass(a, prisms, layer)
				require.NoError(t, err)
				massB, err := geom.Mass(b, turned, layer)
				require.NoError(t, err)
				requireSoundRapid(t, massB)
				require.InDelta(t, massA.AreaM2(), massB.AreaM2(), 0.01)

				ownA, ownB := ofLayer(prisms, layer), ofLayer(turned, layer)
				var floor float64
				for _, p := range ownA {
					floor += p.Base.AreaM2()
				}
				require.InDelta(t, a.AreaM2(), floor+massA.AreaM2(), 0.005, "spaces and solid fill the outline")
				sharesA, err := geom.Shares(a, ownA, numbers(len(ownA)))
				require.NoError(t, err)
				sharesB, err := geom.Shares(b, ownB, numbers(len(ownB)))
				require.NoError(t, err)
				require.InDeltaSlice(t, sharesA, sharesB, 0.02)
				var sum float64
				for i, s := range sharesA {
					require.GreaterOrEqual(t, s, ownA[i].Base.AreaM2()-1e-3)
					sum += s
				}
				if len(ownA) > 0 {
					require.InDelta(t, a.AreaM2(), sum, 1e-6, "shares add up")
				}
			}
		}
	})
}

func ofLayer(prisms []geom.Prism, layer int) []geom.Prism {
	return slices.DeleteFunc(slices.Clone(prisms), func(p geom.Prism) bool { return p.Layer != layer || p.Unenclosed })
}

func requireSoundRapid(t *rapid.T, s geom.Shape) {
	for _, r := range s {
		require.Empty(t, geom.Breaches(r.Rings()), "%v", r)
	}
}

// The same walls come in the same order, sorted by place.
func TestWallsAreSortedByPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		walls := geom.Walls(house(t), 0.25)
		lowest := func(w geom.Wall) geom.Pt {
			return slices.MinFunc([]geom.Pt{w.FaceA.A, w.FaceA.B, w.FaceB.A, w.FaceB.B}, comparePts)
		}
		require.True(t, slices.IsSortedFunc(walls, func(a, b geom.Wall) int { return comparePts(lowest(a), lowest(b)) }))
	})
}

func comparePts(p, q geom.Pt) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) }
