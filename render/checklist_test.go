package render_test

import (
	"encoding/json"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// shownBy says where a set shows an item of the checklist: on a sheet whose
// number and title match, by a text that matches. What is not here no survey
// can supply, and the applicant has to add it.
var shownBy = map[string]struct{ sheet, text string }{
	"site-scale":     {`Site plan`, `^Scale |^1:\d+|= 1'-0"`},
	"site-north":     {`Site plan`, `^N$`},
	"site-lines":     {`Site plan`, `^\d{4,5}$|^\d+'-`},
	"site-setbacks":  {`Site plan`, `^distance to the property line$`},
	"site-bldgs":     {`Site plan`, `^footprint `},
	"site-proposed":  {`Site plan, proposed`, `^unit A$`},
	"site-hard":      {`Site plan`, `^edge of a ground surface$`},
	"site-street":    {`Site plan`, `(?i)street|lane|road|way`},
	"site-parking":   {`Site plan`, `^Parking stalls$`},
	"site-drive":     {`Site plan`, `.`},
	"site-access":    {`Site plan`, `^way from the street to an entry$|^ENTRY `},
	"site-amenity":   {`Site plan`, `^Outdoor area$`},
	"site-fence":     {`Site plan`, `.`},
	"site-newopen":   {`Site plan`, `^ENTRY `},
	"site-grade":     {`Site plan`, `ground [±+−]`},
	"site-stats":     {`Cover`, `^Areas$`},
	"fp-area":        {`Cover`, `^Gross$`},
	"nt-scope":       {`Cover`, `^Cost of the works`},
	"nt-suite-share": {`Cover`, `^\d+ %$`},
	"nt-legible":     {`Cover`, `.`}, // heights of lettering have a test of their own
	"nt-standards":   {`Cover`, `^Rule set$`},
	"fp-scale":       {`(proposed|existing)$`, `^Scale `},
	"fp-north":       {`proposed$`, `^N$`},
	"fp-all":         {`existing$`, `Finished floor`},
	"fp-exist-prop":  {`proposed$`, `, proposed$`},
	"fp-legend":      {`Cover`, `^existing wall, to remain$`},
	"fp-walltypes":   {`proposed$`, `thick|^SW?\d+$`},
	"fp-rooms":       {`proposed$`, `(?i)kitchen`},
	"fp-dims":        {`proposed$`, `^\d{3,5}$|^\d+'-`},
	"fp-stairs":      {`Schedules`, `^Flights of stairs$`},
	"fp-openings":    {`Schedules`, `^(new|to be sealed|stays)$`},
	"fp-garage":      {`Schedules`, `^Clear size$`},
	"fp-doors":       {`Schedules`, `^Doors and openings$`},
	"fp-windows":     {`Schedules`, `^Windows$`},
	"sch-openings":   {`Schedules`, `^Width$`},
	"fp-escape":      {`Schedules`, `^Clear( area)?$`},
	"fp-well":        {`Schedules`, `^Well$`},
	"fp-fire":        {`proposed$`, `^(SW?\d+|.*separating floor (under|over).*)$`},
	"fp-plumb":       {`Services, fixtures`, `^Fixtures and plant$`},
	"fp-mech":        {`Services`, `.`},
	"fp-sectmarks":   {`proposed$`, `.`},
	"fp-alarm":       {`proposed$|Cover`, `(?i)smoke alarm`},
	"fp-detailrefs":  {`proposed$|Cover`, `A-5\d\d`},
	"de-fire":        {`^A-5`, `.`},
	"sec-build":      {`^A-3`, `.`},
	"sec-ceil":       {`^A-3`, `.`},
	"sec-floors":     {`^A-3`, `.`},
	"sec-stair":      {`^A-3`, `.`},
	"el-all":         {`^A-2`, `.`},
	"el-label":       {`^A-2`, `.`},
	"el-heights":     {`^A-2`, `.`},
}

// Every item that 22 published permit lists ask for is on a sheet of the set,
// or stands on the cover as one to be added.
func TestThePermitChecklistIsShownOrListed(t *testing.T) {
	raw, err := os.ReadFile("testdata/permit-checklist.json")
	require.NoError(t, err)
	var list struct {
		Items []struct {
			ID, Item string
		}
	}
	require.NoError(t, json.Unmarshal(raw, &list))
	require.Len(t, list.Items, 78)
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		var cover []string
		for _, sheet := range sheets {
			if strings.HasPrefix(sheet.Title, "Cover") {
				cover = append(cover, texts(sheet)...)
			}
		}
		listed := strings.Join(cover, " ")
		for _, item := range list.Items {
			toAdd := strings.Contains(listed, "– "+item.Item)
			where, shown := shownBy[item.ID]
			if !shown {
				assert.True(t, toAdd, "%s: neither shown nor to be added", item.ID)
				continue
			}
			if toAdd {
				continue
			}
			found := false
			for _, sheet := range sheets {
				if regexp.MustCompile(where.sheet).MatchString(sheet.Title) || regexp.MustCompile(where.sheet).MatchString(sheet.Number) {
					found = found || slices.ContainsFunc(texts(sheet), regexp.MustCompile(where.text).MatchString)
				}
			}
			assert.True(t, found, "%s: not found on the sheets %s", item.ID, where.sheet)
		}
		// A survey with a lot, levels and rooms leaves these to no applicant.
		for _, id := range []string{"fp-scale", "fp-all", "fp-exist-prop", "fp-rooms", "fp-dims", "fp-doors", "fp-windows", "fp-legend", "fp-area"} {
			i := slices.IndexFunc(list.Items, func(item struct{ ID, Item string }) bool { return item.ID == id })
			assert.NotContains(t, listed, "– "+list.Items[i].Item)
		}
	})
}

// The cover lists every sheet with its title and scale, and the areas worked out.
func TestTheCoverIndexesTheSet(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		cover := texts(sheets[0])
		require.Equal(t, "A-001", sheets[0].Number)
		for _, sheet := range sheets {
			assert.Contains(t, cover, sheet.Number)
			assert.Contains(t, strings.Join(cover, " "), sheet.Title)
		}
	})
}
