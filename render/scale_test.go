package render_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// drawing is a sheet read back from its SVG.
type drawing struct {
	width, height string
	paths         map[string][]path // by group
	texts         []string
	fonts         []string // style of each text
}

type path struct{ d, style string }

func readSVG(t testing.TB, s *render.Sheet) drawing {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, s.WriteSVG(&b))
	out := drawing{paths: map[string][]path{}}
	group, text := "", 0
	for d := xml.NewDecoder(&b); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			attribute := func(name string) string {
				for _, a := range e.Attr {
					if a.Name.Local == name {
						return a.Value
					}
				}
				return ""
			}
			switch e.Name.Local {
			case "svg":
				out.width, out.height = attribute("width"), attribute("height")
			case "g":
				group = attribute("id")
			case "path":
				out.paths[group] = append(out.paths[group], path{attribute("d"), attribute("style")})
			case "text":
				out.fonts = append(out.fonts, attribute("style"))
			case "tspan":
				text++
				out.texts = append(out.texts, "")
			}
		case xml.EndElement:
			if e.Name.Local == "tspan" {
				text--
			}
		case xml.CharData:
			if text > 0 {
				out.texts[len(out.texts)-1] += string(e)
			}
		}
	}
}

// corners are the points of a path that is made of straight lines.
func (p path) corners(t testing.TB) [][2]float64 {
	t.Helper()
	var points [][2]float64
	var x, y float64
	for _, c := range regexp.MustCompile(`([MLHVzZ])([^MLHVzZA]*)`).FindAllStringSubmatch(p.d, -1) {
		var v []float64
		for _, n := range regexp.MustCompile(`-?(?:\d+\.?\d*|\.\d+)`).FindAllString(c[2], -1) {
			f, err := strconv.ParseFloat(n, 64)
			require.NoError(t, err)
			v = append(v, f)
		}
		switch c[1] {
		case "M", "L":
			for i := 0; i+1 < len(v); i += 2 {
				x, y = v[i], v[i+1]
				points = append(points, [2]float64{x, y})
			}
		case "H":
			x = v[len(v)-1]
			points = append(points, [2]float64{x, y})
		case "V":
			y = v[len(v)-1]
			points = append(points, [2]float64{x, y})
		}
	}
	return points
}

func TestAMetreIsTwentyMillimetresAtOneToFifty(t *testing.T) {
	sheets, err := render.Survey(cottage(t), render.Options{})
	require.NoError(t, err)
	seen := false
	for _, s := range sheets {
		if s.Title != "Main floor, existing" {
			continue
		}
		seen = true
		require.Equal(t, "1:50", s.Scale.Text)
		v := s.Views[0]
		for x := 0.0; x <= 8; x++ {
			a, b := v.Paper(geom.FromMetres(x, 1)), v.Paper(geom.FromMetres(x+1, 1))
			assert.InDelta(t, 20.00, math.Hypot(a.X-b.X, a.Y-b.Y), 1e-6)
		}
		// And in the file: the exterior faces lie 8.90 m and 6.90 m apart.
		d := readSVG(t, s)
		assert.Equal(t, "420mm", d.width)
		assert.Equal(t, "297mm", d.height)
		var xs, ys []float64
		for _, p := range d.paths["walls"] {
			for _, c := range p.corners(t) {
				xs, ys = append(xs, c[0]), append(ys, c[1])
			}
		}
		require.NotEmpty(t, xs)
		assert.InDelta(t, 8.90*20, slices.Max(xs)-slices.Min(xs), 0.01)
		assert.InDelta(t, 6.90*20, slices.Max(ys)-slices.Min(ys), 0.01)
	}
	assert.True(t, seen)
}

// Every corner of every wall of the cottage is on its plan, where the survey
// has it.
func TestWallsLieWhereTheSurveyPutsThem(t *testing.T) {
	b := cottage(t)
	sheets, err := render.Survey(b, render.Options{})
	require.NoError(t, err)
	for _, s := range sheets {
		if strings.HasPrefix(s.Title, "Site") {
			continue
		}
		v := s.Views[0]
		var drawn [][2]float64
		for _, p := range readSVG(t, s).paths["walls"] {
			drawn = append(drawn, p.corners(t)...)
		}
		for _, c := range b.Cells {
			if c.Level != v.Level || c.Outdoor || c.Flight {
				continue
			}
			for _, q := range c.Region.Outer {
				at := v.Paper(q)
				near := slices.ContainsFunc(drawn, func(d [2]float64) bool {
					return math.Hypot(d[0]-at.X, s.Paper.HeightMM-d[1]-at.Y) < 0.05
				})
				// Along a flight a room is open, and has no wall at its corner.
				open := slices.ContainsFunc(b.House.Stairs, func(f plan.Stair) bool { return f.Region.DistanceToBorder(q) < 0.001 })
				assert.True(t, near || open, "%s: corner %v of %s", s.Title, q, c.ID)
			}
		}
	}
}

func TestScalesAreStandardOnes(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, b *plan.Building, sheets []*render.Sheet) {
		// ISO 5455, 5.1, and the architect's scales by their ratio: 1/4" to the
		// foot is 12 x 4 = 48.
		allowed := []float64{0, 10, 20, 50, 100, 200, 500, 1000}
		if b.House.Unit == plan.Feet {
			allowed = []float64{0, 12, 24, 48, 64, 96, 128, 192, 384, 120, 240, 360, 480, 600}
		}
		for _, s := range sheets {
			assert.Contains(t, allowed, s.Scale.Ratio, s.Title)
			for _, v := range s.Views {
				assert.Equal(t, s.Scale, v.Scale)
			}
		}
	})
}
