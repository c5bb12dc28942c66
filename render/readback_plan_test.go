package render_test

import (
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// planView is a plan of a level as it was read back from its SVG.
type planView struct {
	page
	sheet  *render.Sheet
	view   render.View
	what   string // existing, demolition, proposed, unit, services
	house  *plan.House
	scheme *plan.Scheme
	ratio  float64
	anchor spot // where the house's origin lies on the paper
}

// at is the place of a point of the house: turned as the view is, at the scale
// that is printed on the sheet.
func (v planView) at(p geom.Pt) spot {
	x, y := p.Metres()
	s, c := math.Sincos(v.view.Turn * math.Pi / 180)
	k := 1000 / v.ratio
	return v.anchor.plus(spot{(x*c - y*s) * k, (x*s + y*c) * k})
}

// mm is a length of the house on paper.
func (v planView) mm(metres float64) float64 { return metres * 1000 / v.ratio }

var imperialScale = regexp.MustCompile(`^(?:(\d+) )?(?:(\d+)/(\d+)|(\d+))" = (\d+)'-0"$`)

// ratioOf reads a scale as printed: 1:50, or 1/4" = 1'-0".
func ratioOf(t testing.TB, text string) float64 {
	t.Helper()
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err, text)
		return v
	}
	if ratio, ok := strings.CutPrefix(text, "1:"); ok {
		return number(ratio)
	}
	m := imperialScale.FindStringSubmatch(text)
	require.NotNil(t, m, text)
	inches := 0.0
	if m[1] != "" {
		inches += number(m[1])
	}
	if m[2] != "" {
		inches += number(m[2]) / number(m[3])
	}
	if m[4] != "" {
		inches += number(m[4])
	}
	return number(m[5]) * 12 / inches
}

// readPages keeps what was read back of each sheet.
var readPages = map[*render.Sheet]page{}

// everyPlanView hands over every plan of an indoor level on every sheet of
// every house, as surveyed and divided.
func everyPlanView(t *testing.T, check func(t *testing.T, v planView)) {
	t.Helper()
	for _, file := range surveys(t) {
		b := building(t, file)
		s := split(t, b, file)
		t.Run(strings.TrimSuffix(filepath.Base(file), ".house.json"), func(t *testing.T) {
			sheets := sheetsOf(t, file, "survey", render.Options{}, func() ([]*render.Sheet, error) { return render.Survey(b, render.Options{}) })
			if s != nil {
				sheets = sheetsOf(t, file, "set", render.Options{}, func() ([]*render.Sheet, error) { return render.Set(s, render.Options{}) })
			}
			for _, sheet := range sheets {
				if !strings.HasPrefix(sheet.Number, "A-1") || len(sheet.Views) == 0 {
					continue
				}
				p, read := readPages[sheet]
				if !read {
					p = readSheetSVG(t, sheet)
					readPages[sheet] = p
				}
				for _, view := range sheet.Views {
					if b.House.Levels[view.Level].Outdoor {
						continue
					}
					v := planView{page: p, sheet: sheet, view: view, house: b.House, ratio: ratioOf(t, sheet.Scale.Text)}
					switch {
					case view.Unit != "":
						v.what = "unit"
					case strings.HasPrefix(sheet.Title, "Services"):
						v.what = "services"
					default:
						_, v.what, _ = strings.Cut(sheet.Title, ", ")
					}
					if v.what != "existing" {
						v.scheme = s // a demolition plan shows what is broken out too
					}
					v.anchor = onPaper(view.Paper(geom.Pt{}))
					check(t, v)
				}
			}
		})
	}
}

// A view's places are a likeness of the house at the printed scale, not mirrored.
func TestAPlanIsALikenessAtThePrintedScale(t *testing.T) {
	everyPlanView(t, func(t *testing.T, v planView) {
		for _, c := range v.house.Spaces {
			for _, p := range c.Region.Outer {
				assert.LessOrEqual(t, v.at(p).to(onPaper(v.view.Paper(p))), 0.001, "sheet %s: %v", v.sheet.Number, p)
			}
		}
	})
}

const wallGrey, paleGrey = "#a8a8a8", "#e2e2e2" // as the legend shows them

func (v planView) onWall(p spot) bool { c := v.colourAt(p); return c == wallGrey || c == paleGrey }

// Just outside each side of each room there is wall, and just inside there is
// none: each face is where the survey has it. Not asked are sides that are
// open, to a room, a flight or through an opening, and what the scheme builds.
func TestWallFacesAreWhereTheSurveyPutsThem(t *testing.T) {
	everyPlanView(t, func(t *testing.T, v planView) {
		asked := 0
		for _, space := range v.house.Spaces {
			if space.Level != v.view.Level || space.Outdoor {
				continue
			}
			for _, ring := range space.Region.Rings() {
				for i, a := range ring {
					e := geom.Segment{A: a, B: ring[(i+1)%len(ring)]}
					for _, part := range []float64{0.04, 0.3, 0.5, 0.77, 0.96} {
						q := e.At(part * e.Length())
						at, out := v.at(q), v.at(e.B).minus(v.at(e.A)).unit().left().times(-tightly)
						if !v.isFace(q, space.ID) {
							continue
						}
						asked++
						if !v.onWall(at.plus(out)) {
							t.Errorf("sheet %s: no wall beside %s at %v, but %q", v.sheet.Number, space.ID, q, v.colourAt(at.plus(out)))
						}
						if v.onWall(at.minus(out)) {
							t.Errorf("sheet %s: the wall stands in %s at %v", v.sheet.Number, space.ID, q)
						}
					}
				}
			}
		}
		assert.Greater(t, asked, 20, "sheet %s", v.sheet.Number)
	})
}

// isFace tells whether a point on the side of a space lies on the face of a
// wall that stands: no other space or flight begins there, and no opening,
// surveyed or new, and no new or removed wall is near.
func (v planView) isFace(q geom.Pt, space string) bool {
	const beside = 0.03 // metres: walls are thicker
	for _, other := range v.house.Spaces {
		if other.Level == v.view.Level && other.ID != space && other.Region.DistanceToBorder(q) < beside {
			return false
		}
	}
	for _, f := range v.house.Stairs {
		if (f.Level == v.view.Level || f.To == v.view.Level) && (f.Region.DistanceToBorder(q) < beside || f.Region.Contains(q) != geom.Out) {
			return false
		}
	}
	const wall = 0.6 // metres, thicker than any
	through := func(line geom.Segment) bool {
		along := line.Along(q)
		return along > -0.02 && along < line.Length()+0.02 && math.Abs(line.Off(q)) < wall
	}
	for _, d := range v.house.Doors {
		if d.Level == v.view.Level && through(d.Line) {
			return false
		}
	}
	for _, w := range v.house.Windows {
		if w.Level == v.view.Level && through(w.Line) {
			return false
		}
	}
	if v.scheme == nil {
		return true
	}
	for _, p := range v.scheme.Passages {
		if p.Level == v.view.Level && p.Door != nil && through(p.Door.Line) {
			return false
		}
	}
	for _, w := range v.scheme.Windows {
		if w.Level == v.view.Level && through(w.Line) {
			return false
		}
	}
	for _, r := range v.scheme.Walls {
		if r.Level == v.view.Level && (r.State == plan.New || r.State == plan.Removed) && r.Line.DistanceTo(q) < r.Thickness+0.3 {
			return false
		}
	}
	return true
}
