package render_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// wall is a paper on which any house can be drawn whole.
var wallPaper = render.Paper{Name: "Roll", WidthMM: 4000, HeightMM: 4000}

// large are houses that no sheet of the size given holds at 1:100.
func large(t testing.TB) map[string]*plan.Building {
	return map[string]*plan.Building{
		"row of 60 m":       longRow(t, 1, 60),
		"angle":             angled(t, 2, 34, 22, 0),
		"angle, turned":     angled(t, 5, 26, 30, 21),
		"a hundred rooms":   storeys(t, 1, 10, 10),
		"two long storeys":  storeys(t, 2, 20, 2),
		"one room too wide": longRow(t, 4, 41),
	}
}

var partOf = regexp.MustCompile(`^(.*), part (\d+) of (\d+)$`)

// partsOf are the sheets that show parts of levels.
func partsOf(sheets []*render.Sheet) []*render.Sheet {
	return slices.DeleteFunc(slices.Clone(sheets), func(s *render.Sheet) bool { return !partOf.MatchString(s.Title) })
}

func eachLarge(t *testing.T, check func(t *testing.T, b *plan.Building, o render.Options, parts []*render.Sheet)) {
	t.Helper()
	houses := large(t)
	for _, name := range []string{"row of 60 m", "angle", "angle, turned", "a hundred rooms", "two long storeys", "one room too wide"} {
		for _, o := range []render.Options{{Paper: render.A4}, {}, {Paper: render.ANSIB, Imperial: true}} {
			paper := o.Paper.Name
			if paper == "" {
				paper = "A3"
			}
			t.Run(name+" on "+paper, func(t *testing.T) {
				b := houses[name]
				sheets := sheetsOf(t, name, "survey", o, func() ([]*render.Sheet, error) { return render.Survey(b, o) })
				if parts := partsOf(sheets); len(parts) > 0 {
					check(t, b, o, parts)
				} else {
					require.NotEqual(t, render.A4, o.Paper, "drawn whole on A4")
				}
			})
		}
	}
}

// At 1:100 or 1/8 in to the foot and larger, doors and fixtures can be read.
func TestNoLevelIsDrawnSmallerThanCanBeRead(t *testing.T) {
	eachLarge(t, func(t *testing.T, _ *plan.Building, _ render.Options, parts []*render.Sheet) {
		for _, s := range parts {
			assert.LessOrEqual(t, s.Scale.Ratio, 100.0, s.Title)
		}
	})
}

// A part names the sheet on which the level goes on, and that one names it;
// all parts of a level can be reached so, and a key plan shows which is which.
func TestPartsOfALevelLeadToEachOther(t *testing.T) {
	eachLarge(t, func(t *testing.T, _ *plan.Building, _ render.Options, parts []*render.Sheet) {
		next := leadToEachOther(t, parts)
		levels := map[string][]*render.Sheet{}
		for _, s := range parts {
			level := partOf.FindStringSubmatch(s.Title)[1]
			levels[level] = append(levels[level], s)
			assert.True(t, slices.ContainsFunc(texts(s), func(v string) bool { return strings.HasPrefix(v, "Key plan, ") }), "%s has no key plan", s.Number)
		}
		for level, sheets := range levels {
			title := partOf.FindStringSubmatch(sheets[0].Title)
			assert.Equal(t, fmt.Sprint(len(sheets)), title[3], level)
			reached := map[string]bool{}
			for todo := []string{sheets[0].Number}; len(todo) > 0; todo = todo[1:] {
				if !reached[todo[0]] {
					reached[todo[0]] = true
					todo = append(todo, next[todo[0]]...)
				}
			}
			assert.Len(t, reached, len(sheets), level)
		}
	})
}

// leadToEachOther holds that the sheet on which a level goes on is the right
// one, and names this one; it gives the numbers of those that each leads to.
func leadToEachOther(t *testing.T, sheets []*render.Sheet) map[string][]string {
	t.Helper()
	leads := regexp.MustCompile(`^MATCH LINE, part (\d+) on sheet (\S+)$`)
	next := map[string][]string{}
	byNumber := map[string]*render.Sheet{}
	for _, s := range sheets {
		byNumber[s.Number] = s
	}
	for _, s := range partsOf(sheets) {
		title := partOf.FindStringSubmatch(s.Title)
		for _, text := range texts(s) {
			m := leads.FindStringSubmatch(text)
			if m == nil {
				continue
			}
			other := byNumber[m[2]]
			require.NotNil(t, other, "%s leads to %s", s.Number, m[2])
			assert.Contains(t, other.Title, fmt.Sprintf("part %s of %s", m[1], title[3]), "%s leads to %s", s.Number, m[2])
			assert.Contains(t, texts(other), fmt.Sprintf("MATCH LINE, part %s on sheet %s", title[2], s.Number))
			next[s.Number] = append(next[s.Number], m[2])
		}
	}
	return next
}

// Every room is labelled; on two parts only where it spans them.
func TestEveryRoomIsLabelledOnThePartThatHasIt(t *testing.T) {
	eachLarge(t, func(t *testing.T, b *plan.Building, _ render.Options, parts []*render.Sheet) {
		type place struct {
			sheet string
			x, y  float64
		}
		labels := map[string][]place{}
		for _, s := range parts {
			for _, box := range s.Boxes {
				if box.Cell == "" {
					continue
				}
				x, y := s.Views[box.View].House(box.Corners[0]).Metres()
				if at := labels[box.Cell]; len(at) == 0 || at[len(at)-1].sheet != s.Number {
					labels[box.Cell] = append(at, place{s.Number, x, y})
				}
			}
		}
		led := 0
		for _, c := range b.Cells {
			at := labels[c.ID]
			if len(at) == 0 { // its number stands in another room
				require.Contains(t, everyText(parts), c.Name)
				led++
			}
			for i := range at {
				for j := range i {
					assert.Greater(t, math.Hypot(at[i].x-at[j].x, at[i].y-at[j].y), 0.5, "%s is labelled twice at one place", c.ID)
				}
			}
		}
		assert.LessOrEqual(t, led, len(b.Cells)/20)
	})
}

func everyText(sheets []*render.Sheet) string {
	var all []string
	for _, s := range sheets {
		all = append(all, texts(s)...)
	}
	return strings.Join(all, " ")
}

// The parts together give the lengths that the level gives when it is drawn
// whole, each once.
func TestPartsGiveEveryDimensionOnce(t *testing.T) {
	count := func(sheets []*render.Sheet) (given map[string]int, all int) {
		given = map[string]int{}
		for _, s := range sheets {
			for _, d := range s.Dimensions {
				all++
				if d.Text != "" {
					given[d.Text]++
				}
			}
		}
		return given, all
	}
	eachLarge(t, func(t *testing.T, b *plan.Building, o render.Options, parts []*render.Sheet) {
		o.Paper = wallPaper
		whole, err := render.Survey(b, o)
		require.NoError(t, err)
		want, all := count(whole)
		got, drawn := count(parts)
		assert.Equal(t, all, drawn, "dimension lines")
		missing := 0
		for text, n := range want {
			assert.LessOrEqual(t, got[text], n, text)
			missing += n - got[text]
		}
		assert.LessOrEqual(t, missing, all/20, "lengths without room for their text")
	})
}

// Each door and window of a scheme is tagged on one part.
func TestPartsTagEveryOpeningOnce(t *testing.T) {
	tag := regexp.MustCompile(`^[DW]\d+$`)
	count := func(sheets []*render.Sheet) map[string]int {
		tags := map[string]int{}
		for _, s := range sheets {
			for _, box := range s.Boxes {
				if box.View >= 0 && box.Kind == render.TagBox && tag.MatchString(box.Text) && strings.Contains(s.Title, ", proposed") {
					tags[box.Text]++
				}
			}
		}
		return tags
	}
	for _, o := range []render.Options{{Paper: render.A4}, {}} {
		for name, b := range map[string]*plan.Building{"row": longRow(t, 1, 60), "angle": angled(t, 2, 34, 22, 0)} {
			s := halved(t, b, 1)
			sheets, err := render.Set(s, o)
			require.NoError(t, err)
			parts := partsOf(sheets)
			require.NotEmpty(t, parts, name)
			tags := count(parts)
			untagged := 0
			for i := range len(b.House.Doors) {
				tag := fmt.Sprintf("D%d", i+1)
				assert.LessOrEqual(t, tags[tag], 1, "%s: %s", name, tag)
				untagged += 1 - tags[tag]
			}
			for i := range len(b.House.Windows) {
				assert.Equal(t, 1, tags[fmt.Sprintf("W%d", i+1)], "%s: W%d", name, i+1)
			}
			assert.LessOrEqual(t, untagged, len(b.House.Doors)/20, "doors that no tag finds place at")
			apart(t, name, sheets)
			leadToEachOther(t, sheets)
		}
	}
}

// Every corner of every room is drawn on a part, where the survey has it.
func TestPartsShowEveryWall(t *testing.T) {
	for name, b := range map[string]*plan.Building{"row": longRow(t, 1, 60), "angle, turned": angled(t, 5, 26, 30, 21)} {
		sheets, err := render.Survey(b, render.Options{Paper: render.A4})
		require.NoError(t, err)
		drawn := map[*render.Sheet][][2]float64{}
		for _, s := range partsOf(sheets) {
			for _, group := range []string{"walls", "faces"} {
				for _, p := range readSVG(t, s).paths[group] {
					drawn[s] = append(drawn[s], p.corners(t)...)
				}
			}
		}
		for _, c := range b.Cells {
			for _, q := range c.Region.Outer {
				shown := false
				for s, corners := range drawn {
					at := s.Views[0].Paper(q)
					shown = shown || slices.ContainsFunc(corners, func(d [2]float64) bool { return math.Hypot(d[0]-at.X, s.Paper.HeightMM-d[1]-at.Y) < 0.05 })
				}
				assert.True(t, shown, "%s: corner %v of %s", name, q, c.ID)
			}
		}
	}
}

func TestPartsAreLetteredWithoutOverlap(t *testing.T) {
	eachLarge(t, func(t *testing.T, _ *plan.Building, _ render.Options, parts []*render.Sheet) {
		apart(t, "", parts)
	})
}

// apart holds all boxes of sheets apart, but for dimension lines that cross.
func apart(t *testing.T, name string, sheets []*render.Sheet) {
	t.Helper()
	for _, s := range sheets {
		for i, a := range s.Boxes {
			for _, b := range s.Boxes[:i] {
				if (a.Kind != render.LineBox || b.Kind != render.LineBox) && a.Overlaps(b, touch) {
					t.Errorf("%s sheet %s %q: %s %q lies over %s %q at %.1f, %.1f", name, s.Number, s.Title, a.Kind, a.Text, b.Kind, b.Text, a.Corners[0].X, a.Corners[0].Y)
				}
			}
		}
	}
}
