package rules_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan/rules"
)

func shipped(t testing.TB, id string) *rules.Set {
	t.Helper()
	set, ok := rules.Shipped(id)
	require.True(t, ok, "set %s", id)
	return set
}

func figure(t testing.TB, set, id string) rules.Figure {
	t.Helper()
	f, ok := shipped(t, set).Get(rules.ID(id))
	require.True(t, ok, "%s in %s", id, set)
	return f
}

const (
	squareInch = 0.0254 * 0.0254
	foot       = 0.3048
)

func TestFiguresAreThoseOfThePublishedTexts(t *testing.T) {
	for _, test := range []struct {
		set, id string
		value   float64 // metres, square metres, minutes or parts of one
		text    string
		clause  string
		status  rules.Status
	}{
		// IRC 2021 R310.2, as Boulder County's publication B10 gives it; 44 in: Greenwood Village.
		{"us-irc-2021", "escape-area", 820.8 * squareInch, "at least 5.7 ft2", "R310.2.1", rules.Read},
		{"us-irc-2021", "escape-area-at-grade", 720 * squareInch, "at least 5 ft2", "R310.2.1 exception", rules.Read},
		{"us-irc-2021", "escape-height", 0.6096, "at least 24 in", "R310.2.2", rules.Read},
		{"us-irc-2021", "escape-width", 0.508, "at least 20 in", "R310.2.2", rules.Read},
		{"us-irc-2021", "escape-sill", 1.1176, "at most 44 in", "R310.2.3 (2021), R310.2.2 (2018)", rules.Read},
		// IRC R304, R305 and R303, as a building officials' forum and Clear Creek County give them.
		{"us-irc-2021", "room-area", 70 * foot * foot, "at least 70 ft2", "R304.1", rules.Read},
		{"us-irc-2021", "ceiling-habitable", 7 * foot, "at least 84 in", "R305.1", rules.Read},
		{"us-irc-2021", "glass-share", 0.08, "at least 8 %", "R303.1", rules.Read},
		{"us-irc-2021", "separation-rating", 60, "at least 60 min", "R302.3", rules.Read},
		{"us-irc-2021", "stair-rise-most", 0.19685, "at most 7.75 in", "R311.7.5.1", rules.Read},
		{"us-irc-2021", "ceiling-under-beams", 76 * 0.0254, "at least 76 in", "R305.1.1", rules.Memory},
		// NBC 9.9.10.1., 9.5.3.1. and 9.10.9.16., read in the 2023 Alberta Edition.
		{"ca-nbc-2020", "escape-area", 0.35, "at least 0.35 m2", "9.9.10.1.(2)(a)", rules.Read},
		{"ca-nbc-2020", "escape-width", 0.38, "at least 380 mm", "9.9.10.1.(2)(a)", rules.Read},
		{"ca-nbc-2020", "escape-sill", 1.5, "at most 1500 mm", "Note A-9.9.10.1.(1)", rules.Memory},
		{"ca-nbc-2020", "ceiling-suite", 1.95, "at least 1950 mm", "9.5.3.1.(2)", rules.Read},
		{"ca-nbc-2020", "separation-rating", 45, "at least 45 min", "9.10.9.16.(1)", rules.Read},
		{"ca-nbc-2020", "stair-rise-most", 0.2, "at most 200 mm", "Table 9.8.4.1.", rules.Read},
		// Approved Document B volume 1, 2.10 and 3.6; the space standard's Table 1 and 10(c).
		{"uk-england", "escape-area", 0.33, "at least 0.33 m2", "AD B1 2.10(a)(i), 3.6(a)(i)", rules.Read},
		{"uk-england", "escape-sill", 1.1, "at most 1100 mm", "AD B1 2.10(a)(iii), 3.6(a)(iii)", rules.Read},
		{"uk-england", "bedroom-area", 7.5, "at least 7.5 m2", "NDSS 10(c)", rules.Read},
		{"uk-england", "dwelling-area-2b4p", 70, "at least 70 m2", "NDSS Table 1", rules.Read},
		{"uk-england", "ceiling-dwelling-share", 0.75, "at least 75 %", "NDSS 10(i)", rules.Memory},
	} {
		t.Run(test.set+"/"+test.id, func(t *testing.T) {
			f := figure(t, test.set, test.id)
			assert.InDelta(t, test.value, f.Value(), 1e-12*max(1, test.value))
			assert.Equal(t, test.text, f.Required())
			assert.Equal(t, test.clause, f.Clause)
			assert.Equal(t, test.status, f.Status)
		})
	}
}

func TestEveryFigureSaysWhereItIsFrom(t *testing.T) {
	for _, id := range rules.ShippedIDs() {
		set := shipped(t, id)
		assert.Equal(t, id, set.ID)
		assert.NotEmpty(t, set.Name)
		assert.NotEmpty(t, set.Note)
		for _, f := range set.Figures {
			about := id + " " + string(f.ID)
			assert.NotEmpty(t, f.Clause, about)
			assert.NotEmpty(t, f.Edition, about)
			assert.NotEmpty(t, f.Source.Title, about)
			assert.NotEmpty(t, f.When, about)
			switch f.Status {
			case rules.Read:
				assert.NotEmpty(t, f.Source.URL, "%s was read somewhere", about)
			case rules.Memory:
				assert.Contains(t, f.Source.Title, "from memory", about)
			default:
				t.Errorf("%s: status %q", about, f.Status)
			}
		}
	}
}

func TestVocabularyNamesEachThingOnce(t *testing.T) {
	seen := map[rules.ID]bool{}
	used := map[rules.ID]bool{}
	for _, id := range rules.ShippedIDs() {
		for _, f := range shipped(t, id).Figures {
			used[f.ID] = true
		}
	}
	for _, term := range rules.Vocabulary() {
		assert.False(t, seen[term.ID], "%s stands twice", term.ID)
		seen[term.ID] = true
		assert.NotEmpty(t, term.About, term.ID)
		assert.Equal(t, term.Quantity == rules.Truth, term.Sense == rules.Asked || term.Sense == rules.Says && term.Quantity == rules.Truth, "%s: a truth is asked, a measure is limited", term.ID)
	}
	for id := range used {
		assert.True(t, seen[id], id)
	}
}

func TestLimitsAreMetAtAndNotBeyond(t *testing.T) {
	for _, id := range rules.ShippedIDs() {
		for _, f := range shipped(t, id).Figures {
			if f.Sense != rules.AtLeast && f.Sense != rules.AtMost {
				continue
			}
			about := id + " " + string(f.ID)
			limit, step := f.Value(), 0.001*f.Value()
			if f.Quantity == rules.Length {
				step = 0.0001 // a tenth of a millimetre
			}
			if limit == 0 {
				continue
			}
			assert.True(t, f.Meets(limit), about)
			assert.Equal(t, f.Sense == rules.AtLeast, f.Meets(limit+step), about)
			assert.Equal(t, f.Sense == rules.AtMost, f.Meets(limit-step), about)
		}
	}
}

// The area of a clear opening in inches, IRC R310.2.1: 5.7 ft2 are 820.8 in2.
func TestOpeningsInInchesAgainst5Point7SquareFeet(t *testing.T) {
	f := figure(t, "us-irc-2021", "escape-area")
	for _, test := range []struct {
		wide, high float64
		meets      bool
		text       string
	}{
		{20, 24, false, "3.33 ft2"},        // both least dimensions, and far too small
		{34.2, 24, true, "5.7 ft2"},        // at the least height
		{20, 41.04, true, "5.7 ft2"},       // at the least width
		{34, 24, false, "5.67 ft2"},        // often quoted, and short by 4.8 in2
		{34.19, 24, false, "5.698 ft2"},    // shown with as many decimals as tell it apart
		{34.1999, 24, true, "5.7 ft2"},     // 0.0025 mm short: nobody measures that
		{34.1975, 24, false, "5.6996 ft2"}, // 0.06 mm short: not rounded in
		{34.25, 24, true, "5.71 ft2"},
	} {
		value := test.wide * test.high * squareInch
		assert.Equal(t, test.meets, f.Meets(value), "%g x %g in", test.wide, test.high)
		assert.Equal(t, test.text, f.Provided(value), "%g x %g in", test.wide, test.high)
	}
}

// NBC 9.9.10.1.: 0.35 m2 and 380 mm, of a survey in feet with four decimals.
func TestOpeningsInFeetAgainstMetricLimits(t *testing.T) {
	area, width := figure(t, "ca-nbc-2020", "escape-area"), figure(t, "ca-nbc-2020", "escape-width")
	for _, test := range []struct {
		wide, high float64 // m
		area, side bool
	}{
		{0.5, 0.7, true, true},
		{0.38, 0.922, true, true},   // 0.35036 m2
		{0.38, 0.9211, true, true},  // 0.350018 m2
		{0.3799, 0.95, true, false}, // a tenth of a millimetre
		{0.5, 0.6999, false, true},
	} {
		wide, high := fourDecimals(test.wide/foot)*foot, fourDecimals(test.high/foot)*foot
		assert.Equal(t, test.side, width.Meets(wide), "%g m", test.wide)
		assert.Equal(t, test.area, area.Meets(wide*high), "%g x %g m", test.wide, test.high)
	}
}

func fourDecimals(v float64) float64 {
	var out float64
	fmt.Sscanf(fmt.Sprintf("%.4f", v), "%g", &out)
	return out
}

func TestWhatIsShownNeverContradictsTheResult(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set, _ := rules.Shipped(rapid.SampledFrom(rules.ShippedIDs()).Draw(t, "set"))
		f := rapid.SampledFrom(set.Figures).Draw(t, "figure")
		if f.Quantity == rules.Truth || f.Sense == rules.Says || f.Value() == 0 {
			t.Skip("no limit")
		}
		value := f.Value() * (1 + rapid.Float64Range(-0.002, 0.002).Draw(t, "off"))
		shown, err := rules.ParseMeasure(f.Provided(value), f.Quantity)
		require.NoError(t, err, "what is shown can be read again")
		assert.Equal(t, f.Meets(value), f.Meets(shown.Value()), "%s: %s for %s", f.ID, f.Provided(value), f.Required())
	})
}

func TestMeasuresAreReadWithTheirUnit(t *testing.T) {
	for _, test := range []struct {
		text  string
		of    rules.Quantity
		value float64
		fault string
	}{
		{"5.7 ft2", rules.Area, 0.529547328, ""},
		{"0.32m2", rules.Area, 0.32, ""},
		{"12 in", rules.Length, 0.3048, ""},
		{"22in", rules.Length, 0.5588, ""},
		{"380 mm", rules.Length, 0.38, ""},
		{"1 h", rules.Time, 60, ""},
		{"8 %", rules.Share, 0.08, ""},
		{"2", rules.Count, 2, ""},
		{"true", rules.Truth, 1, ""},
		{"12", rules.Length, 0, "12 needs a unit (m, cm, mm, ft, in)"},
		{"12 yd", rules.Length, 0, `"yd" is no unit of a length (m, cm, mm, ft, in)`},
		{"12 ft2", rules.Length, 0, `"ft2" is no unit of a length (m, cm, mm, ft, in)`},
		{"-1 in", rules.Length, 0, "-1 in is out of all proportion"},
		{"much", rules.Area, 0, `an area is written as a number and a unit (m2, ft2, in2), not "much"`},
		{"yes", rules.Truth, 0, `true or false is asked for, not "yes"`},
	} {
		m, err := rules.ParseMeasure(test.text, test.of)
		if test.fault != "" {
			assert.EqualError(t, err, test.fault, test.text)
			continue
		}
		require.NoError(t, err, test.text)
		assert.InDelta(t, test.value, m.Value(), 1e-15, test.text)
	}
}

func TestASetIsTheCallersOwn(t *testing.T) {
	mine := shipped(t, "us-irc-2021")
	mine.Drop("escape-area")
	_, ok := mine.Get("escape-area")
	assert.False(t, ok)
	f := figure(t, "us-irc-2021", "escape-area")
	f.Limit = rules.Measure{Number: 6, Unit: "ft2"}
	mine.Put(f)
	got, ok := mine.Get("escape-area")
	require.True(t, ok)
	assert.Equal(t, "at least 6 ft2", got.Required())
	assert.Equal(t, "at least 5.7 ft2", figure(t, "us-irc-2021", "escape-area").Required(), "the shipped set stays as it is")
	order := map[rules.ID]int{}
	for i, term := range rules.Vocabulary() {
		order[term.ID] = i
	}
	for i := 1; i < len(mine.Figures); i++ {
		assert.Less(t, order[mine.Figures[i-1].ID], order[mine.Figures[i].ID], "in the order of the vocabulary")
	}
}

func ExampleShipped() {
	set, _ := rules.Shipped("us-irc-2021")
	f, _ := set.Get("escape-area")
	opening := 34 * 24 * 0.0254 * 0.0254 // inches
	fmt.Println(f.Required(), "by", f.Clause, "of", f.Edition)
	fmt.Println("34 x 24 in:", f.Provided(opening), f.Meets(opening))
	// Output:
	// at least 5.7 ft2 by R310.2.1 of IRC 2021 (2018 alike)
	// 34 x 24 in: 5.67 ft2 false
}
