package render_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// everyScheme draws the best scheme of every house that can be split.
func everyScheme(t *testing.T, check func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet)) {
	t.Helper()
	for _, file := range surveys(t) {
		s := split(t, building(t, file), file)
		if s == nil {
			continue
		}
		t.Run(file, func(t *testing.T) {
			check(t, s, sheetsOf(t, file, "set", render.Options{}, func() ([]*render.Sheet, error) { return render.Set(s, render.Options{}) }))
		})
	}
}

// series are the texts of the sheets whose numbers begin in one way.
func series(sheets []*render.Sheet, number string) []string {
	var all []string
	for _, s := range sheets {
		if strings.HasPrefix(s.Number, number) {
			all = append(all, texts(s)...)
		}
	}
	return all
}

var openingTag = regexp.MustCompile(`^[DW]\d+$`)

// Every tag on a plan leads to a row of the schedules, and every door and
// window of the house has one there, with its width.
func TestTagsLeadToTheSchedules(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		listed := series(sheets, "A-6")
		for _, text := range series(sheets, "A-1") {
			for _, tag := range strings.Fields(text) {
				if openingTag.MatchString(tag) {
					assert.Contains(t, listed, tag)
				}
			}
		}
		levels := s.Building.House.Levels
		doors, windows := map[string]bool{}, len(s.Windows)
		for _, p := range s.Passages {
			if p.Door != nil && (p.State == plan.New || !levels[p.Level].Outdoor) {
				doors[fmt.Sprint(p.Of, p.Level, p.Line)] = true
			}
		}
		for n := range len(doors) {
			assert.Contains(t, listed, fmt.Sprintf("D%d", n+1))
		}
		assert.NotContains(t, listed, fmt.Sprintf("D%d", len(doors)+1))
		for n := range windows {
			assert.Contains(t, listed, fmt.Sprintf("W%d", n+1))
		}
		assert.NotContains(t, listed, fmt.Sprintf("W%d", windows+1))
		if s.Building.House.Unit == plan.Metres {
			for _, p := range s.Passages {
				if p.Door != nil {
					assert.Contains(t, listed, fmt.Sprint(math.Round(p.Line.Length()*1000)), p.Of)
				}
			}
			for _, w := range s.Windows {
				assert.Contains(t, listed, fmt.Sprint(math.Round(w.Line.Length()*1000)), w.ID)
			}
		}
	})
}

// The areas in the schedule of rooms are those worked out.
func TestTheScheduleOfRoomsGivesTheAreas(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		listed := series(sheets, "A-6")
		for _, c := range s.Building.Cells {
			if c.Flight || c.Public {
				continue
			}
			area := fmt.Sprintf("%.1f m²", c.AreaM2)
			if s.Building.House.Unit == plan.Feet {
				area = fmt.Sprintf("%.0f ft²", c.AreaM2/(0.3048*0.3048))
			}
			assert.Contains(t, listed, area, c.ID)
		}
	})
}

// What the works cost together stands in their schedule: the sum of its rows.
func TestTheScheduleOfWorksAddsUp(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		listed := series(sheets, "A-6")
		i := slices.Index(listed, "Together")
		require.GreaterOrEqual(t, i, 0)
		sum := 0.0
		for _, w := range s.Works {
			sum += w.Cost
		}
		assert.Equal(t, fmt.Sprintf("%.0f", sum), strings.ReplaceAll(listed[i+1], ",", ""))
	})
}
