package render_test

import (
	"encoding/json"
	"fmt"
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
	"site-drive":     {`Site plan`, `(?i)drive`},
	"site-access":    {`Site plan`, `^way from the street to an entry$|^ENTRY `},
	"site-amenity":   {`Site plan`, `^Outdoor area$`},
	"site-fence":     {`Site plan`, `^new fence$`},
	"site-newopen":   {`Site plan`, `^ENTRY `},
	"site-grade":     {`Site plan`, `ground [±+−]`},
	"site-stats":     {`Cover`, `^Lot area$`},
	"fp-area":        {`Cover`, `^Gross$`},
	"nt-scope":       {`Cover`, `^Cost of the works`},
	"nt-suite-share": {`Cover`, `^\d+ %$`},
	"nt-legible":     {`Cover`, `^Legend$`}, // heights and inks of lettering: legibleSets
	"nt-standards":   {`Cover`, `^Rule set$`},
	"nt-fireplan":    {`^Life safety`, `^(Longest ways out|smoke alarm, on the ceiling|opening to escape by|way out, its number|existing wall, upgraded|new separating wall|separating floor).*`},
	"fp-scale":       {`(proposed|existing)$`, `^Scale `},
	"fp-north":       {`proposed$`, `^N$`},
	"fp-all":         {`existing$`, `Finished floor`},
	"fp-exist-prop":  {`proposed$`, `, proposed$`},
	"fp-legend":      {`Cover`, `^existing wall, to remain$`},
	"fp-walltypes":   {`proposed$`, `^SW?\d+`},
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
	"fp-fire":        {`^Life safety`, `^S[WF]?\d+.* \d+ min$|fire \d+ min|no published fire`},
	"fp-sound":       {`^A-5`, `STC \d\d`},
	"fp-plumb":       {`Services, fixtures`, `^Fixtures and plant$`},
	"fp-mech":        {`Services`, `^(F|B|WH)$`},
	"fp-sectmarks":   {`proposed$`, `^1/A-3\d\d$`},
	"fp-alarm":       {`proposed$|Life safety`, `^(S|C|SC)$`},
	"fp-detailrefs":  {`proposed$|Cover`, `A-5\d\d`},
	"de-fire":        {`^A-5`, `^S[WF]\d+, (wall|floor)`},
	"sec-build":      {`^A-3`, `^(existing wall, to remain|separating floor, upgraded|new separating wall|existing wall, upgraded.*)$`},
	"sec-ceil":       {`^A-3`, `^ceiling \d`},
	"sec-floors":     {`^A-3`, `^[±+−]\d`},
	"sec-stair":      {`^A-3|Schedules`, `^Going$|^flight, cut lengthwise$|^Flights of stairs$`},
	"el-all":         {`^A-2`, `(?i)elevation$`},
	"el-label":       {`^A-2`, `^(North|South|East|West)(-east|-west)? elevation$`},
	"el-heights":     {`^A-2`, `^[±+−]\d`},
}

// alsoShown asks more of an item than a word on the sheet: what is drawn, and
// that nothing of its kind is missing.
var alsoShown = map[string]func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) string{
	"nt-legible": legibleSets,
	"fp-all":     everyLevelTwice,
	"site-parking": func(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
		return sizedGround(s, sheets, plan.Parking)
	},
	"site-drive": func(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
		return sizedGround(s, sheets, plan.Drive)
	},
	"site-street": publicWaysNamed,
	"site-access": entriesReached,
	"site-fence":  fencesDrawn,
	"fp-garage":   garagesSized,
	"fp-rooms":    roomsNamed,
	"el-all":      changedSidesDrawn,
}

// legibleSets finds a text too small or too pale to be read: Portland asks for
// black line work and a readable height.
func legibleSets(_ *testing.T, _ *plan.Scheme, sheets []*render.Sheet) string {
	for _, sheet := range sheets {
		for _, x := range sheet.Texts() {
			if x.HeightMM < render.MinTextMM-1e-9 {
				return sheet.Number + ": " + x.Text
			}
		}
	}
	return ""
}

// everyLevelTwice finds an indoor level without a plan as it is or as proposed.
func everyLevelTwice(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	for l, level := range s.Building.House.Levels {
		for _, what := range []string{", existing", ", proposed"} {
			if !level.Outdoor && !slices.ContainsFunc(sheets, func(sheet *render.Sheet) bool {
				return len(sheet.Views) > 0 && sheet.Views[0].Level == l && strings.Contains(sheet.Title, what)
			}) {
				return level.ID + what
			}
		}
	}
	return ""
}

// sizedGround finds ground of a use whose length and width are on no site plan
// and in no schedule.
func sizedGround(s *plan.Scheme, sheets []*render.Sheet, use plan.Use) string {
	listed := strings.Join(append(series(sheets, "A-6"), series(sheets, "A-101")...), "\n")
	for _, c := range s.Building.Cells {
		if c.Use != use || len(c.Region.Outer) != 4 {
			continue
		}
		a, b := c.Region.Outer[0].Distance(c.Region.Outer[1]), c.Region.Outer[1].Distance(c.Region.Outer[2])
		metric := fmt.Sprintf("%.2f × %.2f", a, b)
		turned := fmt.Sprintf("%.2f × %.2f", b, a)
		if s.Building.House.Unit == plan.Metres && !strings.Contains(listed, metric) && !strings.Contains(listed, turned) {
			return c.ID + ": " + metric
		}
	}
	return ""
}

func publicWaysNamed(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	drawn := running(sheets, "Site plan")
	for _, c := range s.Building.Cells {
		if c.Public && c.Name != "" && !strings.Contains(drawn, c.Name) {
			return c.Name
		}
	}
	return ""
}

// entriesReached finds a unit whose entry is on no site plan.
func entriesReached(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	drawn := running(sheets, "Site plan")
	for _, u := range s.Units {
		if len(u.Entries) > 0 && !strings.Contains(drawn, "ENTRY "+u.ID) {
			return "ENTRY " + u.ID
		}
	}
	return ""
}

// fencesDrawn finds a new fence that no line of the site plan runs along.
func fencesDrawn(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	for _, sheet := range sheets {
		if !strings.HasPrefix(sheet.Title, "Site plan") || len(sheet.Views) == 0 {
			continue
		}
		v := sheet.Views[0]
		for _, r := range s.Walls {
			if !r.Fence || r.State != plan.New || r.Line.Length() < 0.5 {
				continue
			}
			a, b := onPaper(v.Paper(r.Line.A)), onPaper(v.Paper(r.Line.B))
			found := false
			p := readSheetSVG(t, sheet)
			for i := range p.paths {
				q := &p.paths[i]
				found = found || q.stroke != "" && q.runsThrough(a.between(b)) && q.runsThrough(a.plus(b.minus(a).times(0.3)))
			}
			if !found {
				return r.Between[0] + " | " + r.Between[1]
			}
		}
	}
	return ""
}

// garagesSized finds a garage or a room for plant or laundry whose clear size
// is in no schedule and in no plan.
func garagesSized(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	listed := strings.Join(series(sheets, "A-6"), "\n")
	for _, c := range s.Building.Cells {
		if (c.Use == plan.Garage || c.Use == plan.Mechanical || c.Use == plan.Laundry) && len(c.Region.Outer) == 4 && s.Building.House.Unit == plan.Metres {
			a, b := c.Region.Outer[0].Distance(c.Region.Outer[1]), c.Region.Outer[1].Distance(c.Region.Outer[2])
			if !strings.Contains(listed, fmt.Sprintf("%.2f × %.2f", a, b)) && !strings.Contains(listed, fmt.Sprintf("%.2f × %.2f", b, a)) {
				return c.ID
			}
		}
	}
	return ""
}

// roomsNamed finds a room whose name is on no proposed plan.
func roomsNamed(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	var drawn []string
	for _, sheet := range sheets {
		if strings.Contains(sheet.Title, ", proposed") {
			drawn = append(drawn, texts(sheet)...)
		}
	}
	words := strings.Fields(strings.Join(drawn, " "))
	for _, c := range s.Building.Cells {
		if c.Flight || c.Public || c.Outdoor {
			continue
		}
		for _, w := range strings.Fields(c.Name) {
			if !slices.ContainsFunc(words, func(x string) bool { return strings.HasPrefix(x, w) }) {
				return c.ID + ": " + w
			}
		}
	}
	return ""
}

// changedSidesDrawn finds a side of the house that the works change and that
// has no elevation.
func changedSidesDrawn(_ *testing.T, s *plan.Scheme, sheets []*render.Sheet) string {
	titles := 0
	for _, text := range series(sheets, "A-2") {
		if regexp.MustCompile(`^(North|South|East|West)(-east|-west)? elevation$`).MatchString(text) {
			titles++
		}
	}
	if titles < len(s.Elevations()) {
		return fmt.Sprintf("%d of %d", titles, len(s.Elevations()))
	}
	return ""
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
			if more := alsoShown[item.ID]; more != nil {
				assert.Empty(t, more(t, s, sheets), item.ID)
			}
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
