package render_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/render"
)

// Every noise conflict that is heard has its number on a plan of noise, once in
// the quiet room or once on either level of a floor, or a note that says why not;
// a scheme without conflicts has no such plan.
func TestEveryNoiseConflictIsDrawn(t *testing.T) {
	drawn := 0
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		all, has := "", false
		for _, sheet := range sheets {
			if strings.HasPrefix(sheet.Title, "Noise between") {
				has = true
				all += " " + strings.Join(texts(sheet), " ")
			}
		}
		heard := 0
		for _, n := range s.Noise {
			if n.SourceDB == 0 {
				continue
			}
			heard++
			number := fmt.Sprintf("N%d ", heard)
			noted := fmt.Sprintf("N%d: no room", heard)
			assert.GreaterOrEqual(t, strings.Count(all+" ", number)+strings.Count(all, noted), 2, "%s from %s into %s: listed and drawn", number, n.Noisy, n.Quiet)
			drawn++
		}
		assert.Equal(t, heard > 0, has)
	})
	assert.Positive(t, drawn)
}
