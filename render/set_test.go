package render_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

func ExampleSurvey() {
	f, err := os.Open("testdata/cottage.house.json")
	if err != nil {
		panic(err)
	}
	defer f.Close()
	house, err := plan.Read(f, "cottage.house.json")
	if err != nil {
		panic(err)
	}
	building, err := plan.Build(house)
	if err != nil {
		panic(err)
	}
	sheets, err := render.Survey(building, render.Options{Paper: render.A3})
	if err != nil {
		panic(err)
	}
	for _, s := range sheets {
		fmt.Println(s.Number, s.Title, s.Scale.Text)
	}
	// Output:
	// A-101 Site plan, existing 1:200
	// A-102 Main floor, existing 1:50
	// A-103 Upper floor, existing 1:50
}

func sheetTitled(t testing.TB, sheets []*render.Sheet, title string) *render.Sheet {
	t.Helper()
	i := slices.IndexFunc(sheets, func(s *render.Sheet) bool { return s.Title == title })
	require.GreaterOrEqual(t, i, 0, title)
	return sheets[i]
}

func texts(s *render.Sheet) []string {
	var all []string
	for _, l := range s.Texts() {
		all = append(all, l.Text)
	}
	return all
}

func TestASetShowsTheSiteTheLevelsAndTheUnits(t *testing.T) {
	sheets, err := render.Set(cottageDivided(t), render.Options{})
	require.NoError(t, err)
	var index []string
	for _, s := range sheets {
		index = append(index, s.Number+" "+s.Title)
	}
	assert.Equal(t, []string{
		"A-001 Cover", "A-101 Site plan, proposed", "A-102 Main floor, existing", "A-103 Upper floor, existing",
		"A-104 Main floor, demolition", "A-105 Main floor, proposed", "A-106 Upper floor, proposed",
		"A-107 Unit A", "A-108 Unit B", "A-109 Life safety", "A-110 Services", "A-111 Services, fixtures and plant", "A-201 South elevation", "A-301 Section 1", "A-601 Schedules",
	}, index)
	for _, s := range sheets {
		assert.Contains(t, texts(s), s.Number)
		assert.Contains(t, texts(s), "Mill Lane cottage")
	}
}

// What a scheme changes is on the plan and explained beside it; what does not
// occur is not.
func TestThePlanNamesWhatASchemeChanges(t *testing.T) {
	sheets, err := render.Set(cottageDivided(t), render.Options{})
	require.NoError(t, err)
	drawn := map[string][]string{}
	for _, s := range sheets {
		drawn[s.Title] = texts(s)
	}
	proposed := drawn["Main floor, proposed"]
	for _, want := range []string{"D1", "ENTRY A", "ENTRY B", "S1", "S2", "new separating wall", "separating floor overhead", "new door, numbered", "unit A", "unit B", "flight closed off at this end"} {
		assert.Contains(t, proposed, want)
	}
	for _, other := range []string{"separating floor underfoot", "new wall within a unit", "to be removed", "window well"} {
		assert.NotContains(t, proposed, other)
	}
	assert.Contains(t, drawn["Upper floor, proposed"], "Kitchen")
	assert.Contains(t, drawn["Upper floor, proposed"], "was Bedroom 3")
	for _, existing := range []string{"Main floor, existing", "Upper floor, existing"} {
		for _, no := range []string{"D1", "ENTRY A", "unit A", "S1", "Kitchen (new)"} {
			assert.NotContains(t, drawn[existing], no)
		}
	}
	assert.Contains(t, drawn["Upper floor, existing"], "Bedroom 3")
	// The sides of the lot lie 8.75, 5.75, 5.35 and 6.35 m from the exterior
	// faces, by the coordinates of the survey.
	for _, setback := range []string{"8750", "5750", "5350", "6350"} {
		assert.Contains(t, drawn["Site plan, proposed"], setback)
	}
	assert.NotContains(t, drawn["Unit A"], "Bedroom 2")
	assert.Contains(t, drawn["Unit B"], "Bedroom 2")
	assert.Contains(t, drawn["Unit B"], "D1 (new)")
}

// Every new door, entry and build-up of every sample is tagged on a plan.
func TestNothingGoesUntagged(t *testing.T) {
	for _, file := range surveys(t) {
		b := building(t, file)
		s := split(t, b, file)
		if s == nil {
			continue
		}
		sheets, err := render.Set(s, render.Options{})
		require.NoError(t, err)
		var proposed []string
		for _, sheet := range sheets {
			if strings.Contains(sheet.Title, "proposed") && !strings.HasPrefix(sheet.Title, "Site") {
				proposed = append(proposed, texts(sheet)...)
			}
		}
		n := 0
		for _, p := range s.Passages {
			if p.State == plan.New && p.Door != nil {
				n++
				assert.Contains(t, proposed, fmt.Sprintf("D%d", n), file)
			}
			for _, unit := range p.Entry {
				assert.Contains(t, proposed, "ENTRY "+string(unit), file)
			}
		}
		for _, f := range s.Floors {
			if f.State == plan.Separating && f.BuildUp != "" {
				assert.True(t, slices.Contains(proposed, f.BuildUp+" above") || slices.Contains(proposed, f.BuildUp+" below"), "%s: %s", file, f.BuildUp)
			}
		}
		for _, sheet := range sheets {
			for _, row := range texts(sheet) {
				if strings.HasPrefix(row, "S") && len(row) == 2 && row[1] >= '1' && row[1] <= '9' {
					count := 0
					for _, other := range texts(sheet) {
						if other == row {
							count++
						}
					}
					assert.GreaterOrEqual(t, count, 2, "%s, sheet %s: %s is listed and stands at no wall", file, sheet.Number, row)
				}
			}
		}
	}
}

// A house turned on its lot is drawn with its walls level, and measures the same.
func TestTurningAHouseChangesNoDimension(t *testing.T) {
	measured := func(degrees float64) map[string][]string {
		b := turned(t, "testdata/cottage.house.json", degrees)
		sheets, err := render.Survey(b, render.Options{})
		require.NoError(t, err)
		out := map[string][]string{}
		for _, s := range sheets {
			if strings.HasPrefix(s.Title, "Site") {
				continue
			}
			for _, d := range s.Dimensions {
				out[s.Title] = append(out[s.Title], d.Text)
				level, upright := math.Abs(d.A.Y-d.B.Y) < 1e-3, math.Abs(d.A.X-d.B.X) < 1e-3
				assert.True(t, level || upright, "turned by %g: a slanting dimension line", degrees)
			}
			slices.Sort(out[s.Title])
		}
		return out
	}
	straight := measured(0)
	require.Len(t, straight, 2)
	for _, degrees := range []float64{12, -30, 7.3, 40} {
		assert.Equal(t, straight, measured(degrees), "turned by %g", degrees)
	}
}

// turned reads a survey with every coordinate turned about the origin.
func turned(t testing.TB, file string, degrees float64) *plan.Building {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	var tree any
	require.NoError(t, json.Unmarshal(raw, &tree))
	s, c := math.Sincos(degrees * math.Pi / 180)
	var walk func(v any) any
	walk = func(v any) any {
		switch v := v.(type) {
		case map[string]any:
			for k := range v {
				if k != "clear" && k != "well" {
					v[k] = walk(v[k])
				}
			}
		case []any:
			if len(v) == 2 {
				x, isX := v[0].(float64)
				y, isY := v[1].(float64)
				if isX && isY {
					return []any{x*c - y*s, x*s + y*c}
				}
			}
			for i := range v {
				v[i] = walk(v[i])
			}
		}
		return v
	}
	text, err := json.Marshal(walk(tree))
	require.NoError(t, err)
	h, err := plan.Read(strings.NewReader(string(text)), file)
	require.NoError(t, err)
	b, err := plan.Build(h)
	require.NoError(t, err)
	return b
}

// A way to an entry stays on ground that its unit may use.
func TestAWayStaysOnItsGround(t *testing.T) {
	s := cottageDivided(t)
	sheets, err := render.Set(s, render.Options{})
	require.NoError(t, err)
	site := sheetTitled(t, sheets, "Site plan, proposed")
	v := site.Views[0]
	ways := 0
	for _, p := range readSVG(t, site).paths["signs"] {
		if !strings.Contains(p.style, "stroke-width:.35;stroke-dasharray") {
			continue
		}
		corners := p.corners(t)
		require.GreaterOrEqual(t, len(corners), 2)
		ways++
		for i := 0; i+1 < len(corners); i++ {
			for k := 0.0; k <= 1; k += 0.05 {
				q := v.House(render.Point{
					X: corners[i][0] + k*(corners[i+1][0]-corners[i][0]),
					Y: site.Paper.HeightMM - corners[i][1] - k*(corners[i+1][1]-corners[i][1]),
				})
				on := false
				for c, cell := range s.Building.Cells {
					const slack = 0.02 // metres: a path is rounded to a micrometre of paper
					inside := cell.Region.Contains(q) != geom.Out || cell.Region.DistanceToBorder(q) < slack
					on = on || cell.Outdoor && inside && (cell.Public || s.Owners[c] == plan.Common || s.Owners[c] == plan.UnitA || s.Owners[c] == plan.UnitB)
				}
				assert.True(t, on, "the way leaves the ground at %v", q)
			}
		}
	}
	assert.Equal(t, 2, ways)
}

func TestPapersByName(t *testing.T) {
	for name, want := range map[string]render.Paper{"a3": render.A3, "A2": render.A2, "ansi-b": render.ANSIB, "ANSI C": render.ANSIC, "arch-d": render.ArchD} {
		got, err := render.PaperNamed(name)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	_, err := render.PaperNamed("letter")
	assert.ErrorContains(t, err, "a3")
	// ISO 216 and ASME Y14.1 (11 by 17 and 17 by 22 in), lying on their side.
	assert.Equal(t, render.Paper{Name: "A3", WidthMM: 420, HeightMM: 297}, render.A3)
	assert.InDelta(t, 17*25.4, render.ANSIB.WidthMM, 1e-9)
	assert.InDelta(t, 22*25.4, render.ANSIC.WidthMM, 1e-9)
	// 24 by 36 in, the architects' series (from memory).
	assert.InDelta(t, 36*25.4, render.ArchD.WidthMM, 1e-9)
	assert.InDelta(t, 24*25.4, render.ArchD.HeightMM, 1e-9)
}

func TestWhatCannotBeDrawnIsAnError(t *testing.T) {
	_, err := render.Survey(nil, render.Options{})
	assert.Error(t, err)
	_, err = render.Set(nil, render.Options{})
	assert.Error(t, err)
	_, err = render.Survey(&plan.Building{House: &plan.House{}}, render.Options{})
	assert.ErrorContains(t, err, "no level")
}

func TestADateIsPrintedOnlyWhereOneIsGiven(t *testing.T) {
	for _, date := range []string{"", "2025-01-31"} {
		sheets, err := render.Survey(cottage(t), render.Options{Date: date})
		require.NoError(t, err)
		for _, s := range sheets {
			assert.Equal(t, date != "", slices.Contains(texts(s), "2025-01-31"))
			assert.Contains(t, texts(s), "Date")
		}
	}
}
