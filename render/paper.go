package render

import (
	"fmt"
	"strings"
)

// Paper is a trimmed sheet, as it lies on the table.
type Paper struct {
	Name              string
	WidthMM, HeightMM float64
}

// The papers that sheets are drawn on: ISO 216 sizes and ASME Y14.1 ones.
// All lie on their long side but A4, as ISO 5457 has it.
var (
	A4    = Paper{"A4", 210, 297}
	A3    = Paper{"A3", 420, 297}
	A2    = Paper{"A2", 594, 420}
	ANSIB = Paper{"ANSI B", 431.8, 279.4}
	ANSIC = Paper{"ANSI C", 558.8, 431.8}
	ArchD = Paper{"Arch D", 914.4, 609.6}
)

// Papers lists the papers, smallest first within each series.
func Papers() []Paper { return []Paper{A4, A3, A2, ANSIB, ANSIC, ArchD} }

// PaperNamed finds a paper by its name in any case, with or without the
// space: "a3", "ANSI B", "ansi-b".
func PaperNamed(name string) (Paper, error) {
	plain := func(s string) string {
		return strings.ToLower(strings.NewReplacer(" ", "", "-", "", "_", "").Replace(s))
	}
	names := make([]string, 0, len(Papers()))
	for _, p := range Papers() {
		if plain(p.Name) == plain(name) {
			return p, nil
		}
		names = append(names, strings.ToLower(strings.ReplaceAll(p.Name, " ", "-")))
	}
	return Paper{}, fmt.Errorf("render: no paper %q; there are %s", name, strings.Join(names, ", "))
}

// Borders of a sheet after ISO 5457, 4.2: wide on the left for filing.
const (
	filingMargin = 20.0
	margin       = 10.0
)

// frame is the drawing space inside the frame.
func (p Paper) frame() Rect {
	return Rect{filingMargin, margin, p.WidthMM - margin, p.HeightMM - margin}
}
