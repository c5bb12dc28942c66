package render_test

import (
	"regexp"
	"strconv"
	"testing"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"

	"moiety/plan"
	"moiety/render"
)

// The least height of lettering at full size, as taught after ISO 3098.
const leastHeight = 2.5

// Capitals of Liberation Sans are 1409 of 2048 units high (OS/2 table).
const capitals = 1409.0 / 2048

func TestLetteringIsLargeEnoughAndUpright(t *testing.T) {
	everySheet(t, render.Options{Paper: render.A4}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			for _, l := range s.Texts() {
				assert.GreaterOrEqual(t, l.HeightMM, leastHeight, l.Text)
				assert.True(t, l.Turn > -90 && l.Turn <= 90, "%q is turned by %g", l.Text, l.Turn)
			}
			size := regexp.MustCompile(`(?:^|[ :])([\d.]+)px`)
			for _, style := range readSVG(t, s).fonts {
				px, err := strconv.ParseFloat(size.FindStringSubmatch(style)[1], 64)
				require.NoError(t, err)
				assert.GreaterOrEqual(t, px*capitals, leastHeight-1e-6)
				assert.Contains(t, style, "Liberation Sans, Arial, Helvetica, sans-serif")
			}
		}
	})
}

func TestEveryLetterIsInTheFonts(t *testing.T) {
	regular, err := sfnt.Parse(liberationsansregular.TTF)
	require.NoError(t, err)
	bold, err := sfnt.Parse(liberationsansbold.TTF)
	require.NoError(t, err)
	b := cottage(t)
	b.House.Name = "Häuschen №7 😀 \t with  a 木 tab"
	sheets, err := render.Survey(b, render.Options{})
	require.NoError(t, err)
	var buffer sfnt.Buffer
	check := func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			for _, l := range s.Texts() {
				for _, r := range l.Text {
					for _, f := range []*sfnt.Font{regular, bold} {
						g, err := f.GlyphIndex(&buffer, r)
						require.NoError(t, err)
						assert.NotZero(t, g, "%q in %q", r, l.Text)
					}
				}
			}
		}
	}
	check(t, b, sheets)
	everySheet(t, render.Options{}, check)
	var texts []string
	for _, l := range sheets[0].Texts() {
		texts = append(texts, l.Text)
	}
	assert.Contains(t, texts, "Häuschen №7 ? with a ? tab")
}

// Widths of lines after ISO 128: 0.18, 0.25, 0.35, 0.5, 0.7 mm.
func TestLineWidthsAreOfTheSeries(t *testing.T) {
	width := regexp.MustCompile(`stroke-width:([\d.]+)`)
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			for group, paths := range readSVG(t, s).paths {
				for _, p := range paths {
					m := width.FindStringSubmatch(p.style)
					if m == nil {
						assert.NotContains(t, p.style, "stroke:", "%s: a line of the default width", group)
						continue
					}
					v, err := strconv.ParseFloat(m[1], 64)
					require.NoError(t, err)
					assert.Contains(t, []float64{0.18, 0.25, 0.35, 0.5, 0.7}, v, group)
				}
			}
		}
	})
	assert.Equal(t, []float64{0.18, 0.25, 0.35, 0.5, 0.7}, render.LineWidths())
}
