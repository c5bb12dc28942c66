package render_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/render"
)

// What a scheme closes for good has a detail, and no other scheme has it.
func TestWhatIsClosedHasADetail(t *testing.T) {
	doors, flights := 0, 0
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		if len(s.BuildUps) == 0 {
			return
		}
		sealed := slices.ContainsFunc(s.Passages, func(p plan.Passage) bool { return p.State == plan.Sealed && p.Door != nil })
		closed := slices.ContainsFunc(s.Passages, func(p plan.Passage) bool { return p.State == plan.Sealed && p.Type == "stair" })
		details := strings.Join(series(sheets, "A-5"), " ")
		assert.Equal(t, sealed, strings.Contains(details, "Sealed door, plan section"))
		assert.Equal(t, closed, strings.Contains(details, "Closed-off flight, section"))
		if sealed {
			doors++
			assert.Regexp(t, `Here: D\d+, `, details)
		}
		if closed {
			flights++
		}
	})
	assert.Positive(t, doors)
	assert.Positive(t, flights)
}
