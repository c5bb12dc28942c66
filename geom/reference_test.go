package geom_test

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// table is testdata/geometry/reference.json: cases with the answers of Shapely
// (GEOS), an independent library. reference.py beside it writes it.
type table struct {
	MadeWith string `json:"made_with"`
	Overlays []struct {
		Name                            string
		A, B                            []tableRegion
		Union, Intersection, Difference float64
	}
	Poles []struct {
		Region    tableRegion
		Clearance float64
	}
	Outlines []struct {
		Region          tableRegion
		Thickness, Area float64
	}
	Splits []struct {
		Rooms                                  []tableRegion
		Wall, Thickness, Outline, Mass, Length float64
		Shares                                 []float64
	}
	Stacks []struct {
		Below, Above []tableRegion
		Floors       [][3]float64
	}
}

// tableRegion is rings of grid coordinates, the outer first.
type tableRegion [][][2]int64

func (r tableRegion) region() geom.Region {
	var rings []geom.Ring
	for _, points := range r {
		var ring geom.Ring
		for _, p := range points {
			ring = append(ring, geom.Pt{X: p[0], Y: p[1]})
		}
		rings = append(rings, ring)
	}
	return geom.Wound(geom.Region{Outer: rings[0], Holes: rings[1:]})
}

func shapeOf(regions []tableRegion) geom.Shape {
	var out geom.Shape
	for _, r := range regions {
		out = append(out, r.region())
	}
	return out
}

func readTable(t *testing.T) table {
	t.Helper()
	data, err := os.ReadFile("../testdata/geometry/reference.json")
	require.NoError(t, err)
	var out table
	require.NoError(t, json.Unmarshal(data, &out))
	require.NotEmpty(t, out.MadeWith)
	return out
}

// Rounding a crossing to the grid moves an edge by less than a hundredth of a
// millimetre; along the 50 m of edges of a case that is 5 cm2.
const roundedM2 = 0.0005

func TestOverlaysAgreeWithReferenceLibrary(t *testing.T) {
	cases := readTable(t).Overlays
	require.Len(t, cases, 160)
	for i, c := range cases {
		t.Run(fmt.Sprintf("%s-%d", c.Name, i), func(t *testing.T) {
			a, b := shapeOf(c.A), shapeOf(c.B)
			union, err := geom.Union(a, b)
			require.NoError(t, err)
			both, err := geom.Intersection(a, b)
			require.NoError(t, err)
			less, err := geom.Difference(a, b)
			require.NoError(t, err)
			requireSound(t, union, "union")
			requireSound(t, both, "intersection")
			requireSound(t, less, "difference")
			assert.InDelta(t, c.Union, union.AreaM2(), roundedM2)
			assert.InDelta(t, c.Intersection, both.AreaM2(), roundedM2)
			assert.InDelta(t, c.Difference, less.AreaM2(), roundedM2)
		})
	}
}

func TestVisualCentreHasTheClearanceOfTheReferenceLibrary(t *testing.T) {
	cases := readTable(t).Poles
	require.Len(t, cases, 25)
	for i, c := range cases {
		r := c.Region.region()
		at, clearance := geom.VisualCentre(r)
		assert.Equal(t, geom.Inside, r.Contains(at), "case %d", i)
		assert.InDelta(t, r.DistanceToBorder(at), clearance, 1e-9, "case %d", i)
		assert.LessOrEqual(t, clearance, c.Clearance+0.0002, "case %d", i)
		assert.GreaterOrEqual(t, clearance, 0.98*(c.Clearance-0.006), "case %d", i)
	}
}

func TestOutlineOfOnePrismIsItsMitredBuffer(t *testing.T) {
	cases := readTable(t).Outlines
	require.Len(t, cases, 40)
	for i, c := range cases {
		prisms := storeys(c.Region.region())
		walls := geom.Walls(prisms, c.Thickness)
		assert.Len(t, walls, len(prisms[0].Base.Outer), "case %d: one exterior wall to each edge", i)
		outline, err := geom.Outline(prisms, walls, 0)
		require.NoError(t, err)
		requireSound(t, outline, "outline")
		assert.InDelta(t, c.Area, outline.AreaM2(), roundedM2, "case %d", i)
	}
}

func TestSlantedWallBetweenTwoRooms(t *testing.T) {
	cases := readTable(t).Splits
	require.Len(t, cases, 40)
	for i, c := range cases {
		prisms := storeys(c.Rooms[0].region(), c.Rooms[1].region())
		walls := geom.Walls(prisms, c.Thickness)
		var between []geom.Wall
		for _, w := range walls {
			if w.B != geom.Exposed {
				between = append(between, w)
			}
		}
		require.Len(t, between, 1, "case %d", i)
		assert.InDelta(t, c.Wall, between[0].Thickness, 0.0001, "case %d", i)
		// The faces of a slanted wall are of different length: they share what
		// lies square to both, at most half a thickness less at either end for
		// each of the sides, which lean by at most 45 degrees.
		assert.InDelta(t, c.Length, between[0].CentreLine().Length(), 2*c.Wall, "case %d", i)

		outline, err := geom.Outline(prisms, walls, 0)
		require.NoError(t, err)
		requireSound(t, outline, "outline")
		assert.InDelta(t, c.Outline, outline.AreaM2(), roundedM2, "case %d", i)
		mass, err := geom.Mass(outline, prisms, 0)
		require.NoError(t, err)
		requireSound(t, mass, "mass")
		assert.InDelta(t, c.Mass, mass.AreaM2(), roundedM2, "case %d", i)
		shares, err := geom.Shares(outline, prisms, []int{0, 1})
		require.NoError(t, err)
		assert.InDeltaSlice(t, c.Shares, shares, 2*roundedM2, "case %d", i)
	}
}

func TestFloorsBetweenTwoLevelsAgreeWithReferenceLibrary(t *testing.T) {
	cases := readTable(t).Stacks
	require.Len(t, cases, 25)
	for i, c := range cases {
		var prisms []geom.Prism
		for _, r := range c.Below {
			prisms = append(prisms, geom.Prism{Base: r.region(), High: 2.4})
		}
		for _, r := range c.Above {
			prisms = append(prisms, geom.Prism{Base: r.region(), Low: 2.7, High: 5.1, Layer: 1})
		}
		contacts, err := geom.Contacts(prisms, 0.5)
		require.NoError(t, err)
		want := make(map[[2]int]float64)
		for _, f := range c.Floors {
			want[[2]int{int(f[0]), len(c.Below) + int(f[1])}] = f[2]
		}
		assert.Len(t, contacts, len(want), "case %d", i)
		for _, k := range contacts {
			assert.InDelta(t, want[[2]int{k.Below, k.Above}], k.AreaM2(), roundedM2, "case %d: %d under %d", i, k.Below, k.Above)
			assert.InDelta(t, 0.3, k.Depth, 1e-9)
		}
	}
}
