package acoustics_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	. "moiety/plan/acoustics"
)

// Walls and floors with gypsum straight on wood studs or joists: the estimate
// never promises more than the published STC, and is no more than its margin
// below it. NBC 2020 Tables 9.10.3.1.-A and -B as in BCBC 2024,
// https://github.com/bcgov/HOUS-Interactive-BCBC. Masses are typical ones, from memory.
func TestEstimatesNeverPromiseMoreThanPublishedFramedAssemblies(t *testing.T) {
	const (
		gypsum12, gypsum15 = 8.5, 11.0
		batts89            = 2.8
		subfloor           = 9.6 // 15.5 mm of oriented strand board
		margin             = 9
	)
	for _, c := range []struct {
		row       string
		mass      float64
		published int
	}{
		{"W1a", 2*gypsum15 + batts89, 36},
		{"W1b", 2*gypsum12 + batts89, 34},
		{"W1c", 2*gypsum12 + batts89, 32},
		{"W1d", 2 * gypsum15, 32},
		{"W1e", 2 * gypsum12, 32},
		{"W2a", 4*gypsum15 + batts89, 38},
		{"W2b", 4*gypsum12 + batts89, 38},
		{"W2c", 4*gypsum12 + batts89, 36},
		{"W2d", 4 * gypsum15, 36},
		{"W2e", 4 * gypsum12, 35},
		{"W2f", 4 * gypsum12, 34},
		{"F3a", subfloor + gypsum15, 29},
		{"F3c", subfloor + gypsum12, 27},
		{"F3e", subfloor + gypsum12, 27},
		{"F4a", subfloor + 2*gypsum15, 33},
		{"F4e", subfloor + 2*gypsum12, 32},
		{"F4i", subfloor + 2*gypsum12, 31},
	} {
		estimate, err := EstimateFramed(c.mass)
		require.NoError(t, err)
		assert.LessOrEqual(t, estimate.STC, c.published, c.row)
		assert.GreaterOrEqual(t, estimate.STC, c.published-margin, c.row)
		assert.Contains(t, estimate.Method, "estimate")
		assert.NotEmpty(t, estimate.Caution)
	}
}

// Slabs of 90 and 130 mm of reinforced concrete of 2400 kg/m3: STC 47 and 52,
// rows F1a and F1b of the same table.
func TestConcreteSlabsAreEstimatedWithinADecibel(t *testing.T) {
	for mm, published := range map[float64]int{90: 47, 130: 52} {
		estimate, err := EstimateMasonry(2400 * mm / 1000)
		require.NoError(t, err)
		assert.InDelta(t, published, estimate.STC, 1, "%g mm", mm)
	}
}

// Coincidence lies low in a stiff leaf: it stops less than the mass law of a limp one says.
func TestMasonryStopsLessThanALimpLeafOfItsMass(t *testing.T) {
	for _, mass := range []float64{50, 100, 210, 400} {
		solid, err := EstimateMasonry(mass)
		require.NoError(t, err)
		assert.Less(t, solid.STC, STC(MassLawBands(mass)).STC, "%g kg/m2", mass)
	}
}

func TestMoreMassNeverStopsLessSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(0.1, 500).Draw(t, "mass")
		more := mass + rapid.Float64Range(0, 500).Draw(t, "added")
		light, err := EstimateFramed(mass)
		require.NoError(t, err)
		heavy, err := EstimateFramed(more)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, heavy.STC, light.STC)
		for i, hertz := range STCBands {
			assert.GreaterOrEqual(t, MassLawBands(more)[i], MassLaw(mass, hertz))
		}
		if mass >= 50 {
			light, err = EstimateMasonry(mass)
			require.NoError(t, err)
			heavy, err = EstimateMasonry(more)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, heavy.STC, light.STC)
		}
	})
}

func bands(t *rapid.T, name string) Bands {
	return Bands(rapid.SliceOfN(rapid.Float64Range(0, 90), 16, 16).Draw(t, name))
}

func TestASurfaceIsNeverBetterThanItsBestPart(t *testing.T) {
	// nearDB allows for the rounding of floating-point sums.
	const nearDB = 1e-9
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "parts")
		parts, inBands := make([]Part, n), make([]BandPart, n)
		least, most := 1e9, 0.0
		var best Bands
		for i := range parts {
			area := rapid.Float64Range(0.01, 50).Draw(t, "area")
			parts[i] = Part{fmt.Sprint(i), area, rapid.Float64Range(0, 80).Draw(t, "rating")}
			inBands[i] = BandPart{fmt.Sprint(i), area, bands(t, "losses")}
			least, most = min(least, parts[i].DB), max(most, parts[i].DB)
			for band, db := range inBands[i].TL {
				best[band] = max(best[band], db)
			}
		}
		db, err := Composite(parts)
		require.NoError(t, err)
		assert.LessOrEqual(t, db, most+nearDB)
		assert.GreaterOrEqual(t, db, least-nearDB, "nor worse than its worst")
		all, err := CompositeBands(inBands)
		require.NoError(t, err)
		for band := range all {
			assert.LessOrEqual(t, all[band], best[band]+nearDB)
		}
	})
}

// Raising every band by whole decibels raises each rating by as many, and
// improving one band never lowers a rating.
func TestRatingsFollowTheirBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Whole tenths, as laboratories print them.
		levels := bands(t, "levels")
		for i := range levels {
			levels[i] = float64(int(levels[i]*10)) / 10
		}
		by := rapid.IntRange(1, 20).Draw(t, "by")
		raised, better := levels, levels
		for i := range raised {
			raised[i] = float64(int(levels[i]*10+0.5)+10*by) / 10
		}
		better[rapid.IntRange(0, 15).Draw(t, "band")] += float64(by)
		assert.Equal(t, STC(levels).STC+by, STC(raised).STC)
		assert.Equal(t, Rw(levels).Rw+by, Rw(raised).Rw)
		assert.Equal(t, IIC(levels).IIC-by, IIC(raised).IIC)
		assert.Equal(t, Lnw(levels).Lnw+by, Lnw(raised).Lnw)
		assert.GreaterOrEqual(t, STC(better).STC, STC(levels).STC)
		assert.GreaterOrEqual(t, Rw(better).Rw, Rw(levels).Rw)
		assert.LessOrEqual(t, IIC(better).IIC, IIC(levels).IIC, "louder steps")
		assert.GreaterOrEqual(t, Lnw(better).Lnw, Lnw(levels).Lnw, "louder steps")
		assert.LessOrEqual(t, Rw(levels).Sum, 32.0)
		assert.LessOrEqual(t, STC(levels).Sum, 32.0)
	})
}

func ExampleComposite() {
	// A separating wall of 10 m2 with an old door of 2 m2 left in it.
	db, err := Composite([]Part{{"wall", 8, 50}, {"door", 2, 19}})
	if err != nil {
		panic(err)
	}
	fmt.Printf("about %.0f dB\n", db)
	// Output: about 26 dB
}
