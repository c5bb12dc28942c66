package render_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/render"
)

// A caution or a note stands in a set where what it warns of is in the scheme,
// and nowhere else.
func TestNotesSayOnlyWhatApplies(t *testing.T) {
	check := func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		all := everyText(sheets)
		works := func(kinds ...string) bool {
			return slices.ContainsFunc(s.Works, func(w plan.Work) bool { return slices.Contains(kinds, w.Kind) })
		}
		separates := slices.ContainsFunc(s.Walls, func(w plan.WallRun) bool { return w.State == plan.Separating || w.State == plan.New && !w.Fence }) ||
			slices.ContainsFunc(s.Floors, func(f plan.FloorRun) bool { return f.State == plan.Separating })
		levels := map[int]bool{}
		for _, c := range s.Building.Cells {
			levels[c.Level] = levels[c.Level] || c.Outdoor
		}
		outdoors := slices.ContainsFunc(s.Building.Cells, func(c plan.Cell) bool { return c.Outdoor })
		lot := len(s.Building.House.Lots) > 0
		// Of the works a new entry, a wall that goes and a window made or made
		// larger open a wall; a new door does where none was before.
		opens := works("new_entry", "remove_wall", "new_window", "enlarge_window") ||
			slices.ContainsFunc(s.Passages, func(p plan.Passage) bool { return p.State == plan.New && p.Door != nil })
		for text, applies := range map[string]bool{
			"Before a wall is opened or removed":                           opens,
			"Gas, electricity, heating and plumbing":                       works("new_kitchen", "new_bathroom", "new_laundry", "new_furnace", "new_water_heater", "new_panel", "new_meter"),
			"Fire and sound ratings of the separation":                     separates,
			"Distances to the property line are measured":                  lot,
			"The way to each entry is the shortest over ground":            outdoors,
			"Draft - not for construction":                                 true,
			"every dimension is to be checked on site":                     true,
			"A ceiling height holds for all rooms of a level that give no": slices.ContainsFunc(s.Building.House.Levels, func(l plan.Level) bool { return !l.Outdoor && l.Height > 0 }),
		} {
			assert.Equal(t, applies, strings.Contains(all, text), text)
		}
	}
	everyScheme(t, check)
	t.Run("no works at all", func(t *testing.T) {
		s := halved(t, longRow(t, 3, 9), 1)
		sheets, err := render.Set(s, render.Options{})
		assert.NoError(t, err)
		check(t, s, sheets)
	})
}
