package plan

import (
	"fmt"
	"slices"
	"strings"
)

// plantNote cautions where plant that may burn fuel stands in what the scheme
// makes, or leaves, a bathroom or bedroom; "" where none does. The rule is that of
// IRC G2406.2, from memory.
func (m *model) plantNote(out *Scheme, c int, room Use) string {
	if !m.brief.Conditions.MayBurnFuel() {
		return ""
	}
	var plant []string
	for _, f := range out.Fixtures {
		if f.State == Removed || !slices.Contains(burners, f.Use) || f.Level != m.b.Cells[c].Level {
			continue
		}
		if old := slices.IndexFunc(m.b.House.Fixtures, func(o Fixture) bool { return o.ID == f.ID }); old >= 0 {
			if m.b.FixtureCell[old] == c {
				plant = append(plant, f.ID)
			}
		} else if slices.ContainsFunc(out.Fits, func(fit Fit) bool {
			return fit.Cell == c && slices.ContainsFunc(fit.Fixtures, func(n Fixture) bool { return n.ID == f.ID })
		}) {
			plant = append(plant, f.ID)
		}
	}
	if len(plant) == 0 {
		return ""
	}
	return fmt.Sprintf("%s in %s, a %s: plant that burns fuel may stand there only if it takes no air from the room (IRC G2406.2, from memory); a licensed gas fitter decides",
		strings.Join(plant, ", "), m.b.Cells[c].ID, words(string(room)))
}
