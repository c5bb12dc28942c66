package render_test

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// onPlans counts the signs on the views of a level, over some sheets.
func onPlans(sheets []*render.Sheet, titled string, level int, text string) int {
	n := 0
	for _, s := range sheets {
		if !strings.HasPrefix(s.Title, titled) {
			continue
		}
		for _, b := range s.Boxes {
			if b.View >= 0 && s.Views[b.View].Level == level && b.Text == text {
				n++
			}
		}
	}
	return n
}

// The sheet of life safety shows every alarm, the rating of everything that
// separates, every way in, and the longest way out of each unit with the
// length that was worked out.
func TestTheSheetOfLifeSafety(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		const title = "Life safety"
		letters := map[plan.AlarmKind]string{plan.SmokeAlarm: "S", plan.COAlarm: "C", plan.SmokeCOAlarm: "SC"}
		for l := range s.Building.House.Levels {
			for kind, letter := range letters {
				want := 0
				for _, a := range s.Alarms {
					if a.Level == l && a.Kind == kind {
						want++
					}
				}
				assert.Equal(t, want, onPlans(sheets, title, l, letter), "%s alarms on level %d", kind, l)
				proposed := slices.DeleteFunc(slices.Clone(sheets), func(s *render.Sheet) bool { return !strings.HasSuffix(s.Title, ", proposed") })
				assert.Equal(t, want, onPlans(proposed, "", l, letter), "%s alarms on the proposed plan of level %d", kind, l)
			}
		}
		all := running(sheets, title)
		for _, up := range s.BuildUps {
			if strings.HasPrefix(up.Tag, "SW") && !slices.ContainsFunc(s.Walls, func(r plan.WallRun) bool { return r.BuildUp == up.Tag && !r.Fence && r.Line.Length() > 0.5 }) {
				continue
			}
			minutes := up.Assembly.FireFor(up.Bearing)
			if minutes == 0 {
				assert.Contains(t, all, "no published fire rating", up.Tag)
				continue
			}
			rated := slices.ContainsFunc(sheets, func(sheet *render.Sheet) bool {
				return strings.HasPrefix(sheet.Title, title) && slices.ContainsFunc(sheet.Boxes, func(b render.Box) bool {
					return b.View >= 0 && (b.Text == up.Tag || strings.HasPrefix(b.Text, up.Tag+" ") && strings.HasSuffix(b.Text, fmt.Sprintf("%d min", minutes)))
				})
			})
			assert.True(t, rated, "%s is not tagged with its %d min", up.Tag, minutes)
			assert.Contains(t, all, fmt.Sprintf("fire %d min", minutes))
		}
		longest := map[string]float64{}
		for _, way := range plan.Travels(s) {
			if way.To == plan.ToOutside {
				longest[way.Unit] = max(longest[way.Unit], way.LengthM)
			}
		}
		for unit, metres := range longest {
			text := fmt.Sprintf("%.2f m", metres)
			if s.Building.House.Unit == plan.Feet {
				continue // printed to the eighth of an inch
			}
			tagged := slices.ContainsFunc(sheets, func(sheet *render.Sheet) bool {
				return strings.HasPrefix(sheet.Title, title) && slices.ContainsFunc(sheet.Boxes, func(b render.Box) bool {
					return b.View >= 0 && wayTag.MatchString(b.Text)
				})
			})
			assert.True(t, tagged, "the longest way of unit %s, %s", unit, text)
			assert.Contains(t, strings.Fields(all), fmt.Sprintf("%.2f", metres))
		}
	})
}

var wayTag = regexp.MustCompile(`^T\d+(  [\d.]+ m)?$`)

// Each way out is drawn where it runs: every corner of it lies on a line of
// its kind, or under lettering for which the line is broken.
func TestWaysOutAreDrawnWhereTheyRun(t *testing.T) {
	everyScheme(t, func(t *testing.T, s *plan.Scheme, sheets []*render.Sheet) {
		ways := plan.Travels(s)
		drawn := 0
		for _, sheet := range sheets {
			if !strings.HasPrefix(sheet.Title, "Life safety") || len(sheet.Views) == 0 {
				continue
			}
			p := readSheetSVG(t, sheet)
			for i := range p.paths {
				q := &p.paths[i]
				if q.group != "signs" || !slices.Equal(q.dash, []float64{4, 1.2}) || len(q.lines) != 1 || len(q.lines[0].points) != 2 {
					continue
				}
				a, b := q.lines[0].points[0], q.lines[0].points[1]
				on := false
				for _, v := range sheet.Views {
					for _, w := range ways {
						for _, leg := range w.Legs {
							for k := 0; k+1 < len(leg.Points) && leg.Level == v.Level; k++ {
								from, to := onPaper(v.Paper(leg.Points[k])), onPaper(v.Paper(leg.Points[k+1]))
								line := inkedPath{lines: []inkedLine{{points: []spot{from, to}}}}
								on = on || from.to(to) > 0 && line.runsThrough(a) && line.runsThrough(b)
							}
						}
					}
				}
				assert.True(t, on, "sheet %s: a way out from %v to %v that nobody walks", sheet.Number, a, b)
				drawn++
			}
		}
		if len(ways) > 0 {
			require.Positive(t, drawn)
		}
	})
}
