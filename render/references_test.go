package render_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"moiety/plan"
	"moiety/render"
)

var (
	sheetReference = regexp.MustCompile(`\bA-\d{3}\b`)
	sectionMark    = regexp.MustCompile(`^(\d+)/(A-\d{3})$`)
	buildUpTag     = regexp.MustCompile(`^(S[WF]\d+)\b`)
	crossingTag    = regexp.MustCompile(`^P\d+$`)
	travelTag      = regexp.MustCompile(`^(T\d+)\b`)
)

// Every number of a sheet that is named on another is that of a sheet of the
// set, and every section mark names the sheet that the section is on.
func TestReferencesLeadToSheets(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		titles := map[string]string{}
		for _, sheet := range sheets {
			assert.NotContains(t, titles, sheet.Number, "two sheets of one number")
			titles[sheet.Number] = sheet.Title
		}
		marks, references := 0, 0
		for _, sheet := range sheets {
			for _, text := range texts(sheet) {
				for _, number := range sheetReference.FindAllString(text, -1) {
					references++
					assert.Contains(t, titles, number, "sheet %s: %q", sheet.Number, text)
				}
				if m := sectionMark.FindStringSubmatch(text); m != nil {
					marks++
					assert.Equal(t, "Section "+m[1], titles[m[2]], "sheet %s: %s", sheet.Number, text)
				}
			}
		}
		assert.Greater(t, references, len(sheets))
		if slices.Contains(slices.Collect(func(yield func(string) bool) {
			for _, title := range titles {
				if !yield(title) {
					return
				}
			}
		}), "Section 1") {
			assert.Positive(t, marks, "a section that no plan marks")
		}
	})
}

// Every tag on a plan is explained on the same sheet: of a build-up, which has
// a detail too, of a crossing and of a way out.
func TestTagsAreKeyedOnTheirSheet(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		details := strings.Join(series(sheets, "A-5"), "\n")
		for i, sheet := range sheets {
			// The key may go on to further sheets of the same title.
			keyed := map[string]bool{}
			for _, other := range sheets[i:] {
				if other != sheet && other.Title != sheet.Title+", continued" {
					break
				}
				for _, b := range other.Boxes {
					if b.View < 0 {
						keyed[b.Text] = true
					}
				}
			}
			for _, b := range sheet.Boxes {
				if b.View < 0 {
					continue
				}
				for _, pattern := range []*regexp.Regexp{buildUpTag, crossingTag, travelTag} {
					m := pattern.FindStringSubmatch(b.Text)
					if m == nil || b.Kind != render.TagBox {
						continue
					}
					tag := m[len(m)-1]
					assert.True(t, keyed[tag], "sheet %s: %s is not in a key", sheet.Number, tag)
					if pattern == buildUpTag {
						assert.Regexp(t, `(?m)^`+tag+`, (wall|floor)`, details, "sheet %s", sheet.Number)
					}
				}
			}
		}
	})
}

// The index on the cover has a row for every sheet, with its number, its title
// and its scale beside each other, and no other row.
func TestTheIndexIsComplete(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		cover := readSheetSVG(t, sheets[0])
		rows := 0
		for _, x := range cover.texts {
			if !regexp.MustCompile(`^A-\d{3}$`).MatchString(x.text) || math.Mod(x.at.x-24, 68) > 0.01 {
				continue // in the title block, or the end of a sentence: rows begin a column
			}
			rows++
			i := slices.IndexFunc(sheets, func(s *render.Sheet) bool { return s.Number == x.text })
			if !assert.GreaterOrEqual(t, i, 0, x.text) {
				continue
			}
			var beside []string
			for _, y := range cover.texts {
				if math.Abs(y.at.y-x.at.y) < 0.01 && y.at.x > x.at.x && y.at.x < x.at.x+64 {
					beside = append(beside, y.text)
				}
			}
			row := strings.Join(beside, " ")
			first := strings.Fields(sheets[i].Title)[0]
			assert.Contains(t, row, first, x.text)
			if scale := sheets[i].Scale.Text; scale != "" {
				assert.Contains(t, row, scale, x.text)
			}
		}
		assert.Equal(t, len(sheets), rows)
	})
}
