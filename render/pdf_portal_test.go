package render_test

import (
	"bytes"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// strictly checks a document against ISO 32000-1, not as readers forgive it.
// The oracle is the PDF library pdfcpu.
func strictly() *model.Configuration {
	api.DisableConfigDir()
	c := model.NewDefaultConfiguration()
	c.ValidationMode = model.ValidationStrict
	return c
}

// portalLimit is what a set for a normal house may take in an online portal.
const portalLimit = 2 << 20

// A set is a valid document: pages of the paper's size, a bookmark for every
// sheet that opens it, fonts embedded and cut down, its title and what it is in
// the document's information, and nothing that a portal refuses: no script, no
// form, no attachment, no link.
func TestASetIsFitForAPortal(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		raw := writePDF(t, sheets)
		require.NoError(t, api.Validate(bytes.NewReader(raw), strictly()))
		assert.Less(t, len(raw), portalLimit)

		marks, err := api.Bookmarks(bytes.NewReader(raw), strictly())
		require.NoError(t, err)
		require.Len(t, marks, len(sheets))
		for i, m := range marks {
			assert.Equal(t, sheets[i].Number+"  "+sheets[i].Title, m.Title)
			assert.Equal(t, i+1, m.PageFrom)
		}

		d := readPDF(t, raw)
		fonts := 0
		for _, o := range d.objects {
			if strings.Contains(o, "/Type/Font") && strings.Contains(o, "/BaseFont") {
				fonts++
				assert.Regexp(t, `/BaseFont/[A-Z]{6}\+`, o, "a font that is not cut down")
			}
			assert.NotRegexp(t, `/(JavaScript|JS|AcroForm|EmbeddedFile|Launch|URI|Encrypt)\b`, o)
		}
		assert.Positive(t, fonts)
		info := d.objects[2]
		for _, key := range []string{"/Title", "/Subject", "/Creator", "/Producer"} {
			assert.Contains(t, info, key)
		}
		assert.NotContains(t, info, "Date", "the same sheets give the same bytes on any day")
		assert.Regexp(t, regexp.MustCompile(`/Lang ?\(en\)`), d.objects[1])
	})
}

// Pages are as large as the paper that was asked for, within a twentieth of a
// millimetre.
func TestPagesHaveThePapersSize(t *testing.T) {
	for _, paper := range []render.Paper{render.A4, render.A3, render.A2, render.ANSIB, render.ANSIC, render.ArchD} {
		sheets, err := render.Survey(cottage(t), render.Options{Paper: paper})
		require.NoError(t, err)
		raw := writePDF(t, sheets)
		require.NoError(t, api.Validate(bytes.NewReader(raw), strictly()), paper.Name)
		pages, err := api.PageDims(bytes.NewReader(raw), strictly())
		require.NoError(t, err)
		require.Len(t, pages, len(sheets))
		for _, p := range pages {
			width, height := p.Width*pointMM, p.Height*pointMM
			assert.LessOrEqual(t, math.Max(math.Abs(width-paper.WidthMM), math.Abs(height-paper.HeightMM)), 0.05, paper.Name)
		}
	}
}
