package render_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// metresOf reads a dimension back: whole millimetres, or feet, inches and a
// fraction of an inch.
func metresOf(t testing.TB, text string) float64 {
	t.Helper()
	if mm, err := strconv.Atoi(text); err == nil {
		return float64(mm) / 1000
	}
	m := regexp.MustCompile(`^(?:(\d+)'-)?(?:(\d+))?(?: ?(\d+)/(\d+))?"$`).FindStringSubmatch(text)
	require.NotNil(t, m, "dimension %q", text)
	number := func(s string) float64 {
		if s == "" {
			return 0
		}
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	inches := number(m[1])*12 + number(m[2])
	if m[4] != "" {
		inches += number(m[3]) / number(m[4])
	}
	return inches * 0.0254
}

func TestDimensionsSayWhatTheyMeasure(t *testing.T) {
	for _, o := range []render.Options{{}, {Imperial: true, Paper: render.ANSIB}} {
		everySheet(t, o, func(t *testing.T, b *plan.Building, sheets []*render.Sheet) {
			half := 0.0005 // metres: half of what is rounded to
			if o.Imperial || b.House.Unit == plan.Feet {
				half = 0.0254 / 16
			}
			const grid = 0.00003 // of the survey, twice
			given, left := 0, 0
			for _, s := range sheets {
				for _, d := range s.Dimensions {
					if d.Text == "" {
						left++
						continue
					}
					given++
					v := s.Views[d.View]
					assert.InDelta(t, v.House(d.A).Distance(v.House(d.B)), metresOf(t, d.Text), half+grid, "sheet %s: %q", s.Number, d.Text)
				}
			}
			assert.Positive(t, given)
			assert.LessOrEqual(t, left, given/20, "lengths without room for their text")
		})
	}
}

// Each length between two faces is given once on a plan (ISO 129-1).
func TestEachDimensionIsGivenOnce(t *testing.T) {
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	for _, s := range sheets {
		if strings.HasPrefix(s.Title, "Site") {
			continue
		}
		seen := map[[3]int64]string{}
		for _, d := range s.Dimensions {
			level := math.Abs(d.A.Y-d.B.Y) < 1e-6
			key := [3]int64{0, int64(math.Round(d.A.Y * 10)), int64(math.Round(d.B.Y * 10))}
			side := d.A.X < s.Paper.WidthMM/3
			if level {
				key = [3]int64{1, int64(math.Round(d.A.X * 10)), int64(math.Round(d.B.X * 10))}
				side = d.A.Y < s.Paper.HeightMM/2
			}
			if side {
				key[0] += 2 // an opening is measured on its own side, even where one lies opposite
			}
			assert.Empty(t, seen[key], "sheet %s: %q twice", s.Number, d.Text)
			seen[key] = d.Text
		}
	}
}

// The cottage is 8.90 m by 6.90 m over its exterior faces: 8.40 by 6.40
// inside and 0.25 of wall all round, as its survey says.
func TestOverallSizeOfTheCottage(t *testing.T) {
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	for _, s := range sheets {
		if strings.HasPrefix(s.Title, "Site") {
			continue
		}
		var texts []string
		for _, d := range s.Dimensions {
			texts = append(texts, d.Text)
		}
		assert.Contains(t, texts, "8900", s.Title)
		assert.Contains(t, texts, "6900", s.Title)
	}
}
