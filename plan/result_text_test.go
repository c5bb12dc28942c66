package plan_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/plan/partition"
)

func textOf(t *testing.T, a *plan.Answer) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, plan.WriteText(&b, a))
	return b.String()
}

func TestReadableSummary(t *testing.T) {
	golden(t, "cottage/summary.txt", []byte(textOf(t, cottageAnswer())))
}

func TestReadableSummaryOfAQuestionWithoutAnAnswer(t *testing.T) {
	golden(t, "cottage/summary-impossible.txt", []byte(textOf(t, noAnswer())))
}

func TestASearchThatWasStoppedIsNotCalledImpossible(t *testing.T) {
	a := noAnswer()
	a.Status, a.WhyNot = partition.Unknown, nil
	text := textOf(t, a)
	assert.Contains(t, text, "does not mean that there is none")
	assert.NotContains(t, text, "cannot be parted")
}

func TestASchemeThatIsNotProvedSaysItsBound(t *testing.T) {
	a := cottageAnswer()
	a.Schemes[0].Proved, a.Schemes[0].Bound, a.Schemes[0].Gap = false, 19142.5, 0.05
	text := strings.Join(strings.Fields(textOf(t, a)), " ")
	assert.Contains(t, text, "Not proved: the best found; none costs less than 19,142.50 USD (gap 5.0 %).")
}

func TestCautionsStandOnEveryReadableSummary(t *testing.T) {
	for _, a := range []*plan.Answer{cottageAnswer(), noAnswer()} {
		text := strings.Join(strings.Fields(textOf(t, a)), " ")
		for _, caution := range []string{plan.Caution, plan.NothingChecked, plan.AreaStandard} {
			assert.Contains(t, text, caution)
		}
	}
}

func TestListsAreBrokenAtTheWidthOfATerminal(t *testing.T) {
	a := cottageAnswer()
	a.Warnings = append(a.Warnings, plan.Warning{Message: strings.Repeat("word ", 100)})
	for line := range strings.Lines(textOf(t, a)) {
		if strings.Contains(line, "word") {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 92)
		}
	}
}

func TestFurtherSchemesAreToldByTheirDifferences(t *testing.T) {
	a := cottageAnswer()
	second := cottage()
	second.ID = "2"
	second.Owners[0], second.Owners[5] = plan.UnitB, plan.UnitA // attic and yard
	second.Uses[2], second.Uses[0] = plan.Family, plan.Office   // living is still A's, the attic is not
	second.Passages[0].Between = [2]string{"living", "street"}
	second.Shared = nil
	a.Schemes = append(a.Schemes, second)
	_, text, found := strings.Cut(textOf(t, a), "Scheme 2")
	require.True(t, found)
	text = strings.Join(strings.Fields(text), " ")
	assert.Contains(t, text, "Unlike scheme 1: Yard to Garden suite; Attic to Unit B; Living room, with \"kitchen\" as family; "+
		"Garden suite entered by d1, between Living room, with \"kitchen\" and Street")
	assert.Contains(t, text, "Still shared: nothing")
	assert.NotContains(t, text, "Works", "works are listed for the best scheme alone")
}

func TestWorksOfOneKindAreSummed(t *testing.T) {
	a := cottageAnswer()
	s := a.Schemes[0]
	s.Works = nil
	for range 3 {
		s.Works = append(s.Works, plan.Work{Kind: "upgrade_wall", Spaces: []string{"bed", "living"}, LengthM: 1.5, AreaM2: 3, Cost: 100})
	}
	assert.Regexp(t, `upgrade wall +3 places +4\.50 m, 9\.00 m2 +300\.00 USD`, textOf(t, a))
}
