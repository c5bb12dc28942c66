package render_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// touch is how far, in millimetres, two boxes may reach into each other: boxes
// are drawn around descenders that few texts have.
const touch = 0.05

func TestNothingLetteredOverlaps(t *testing.T) {
	for _, o := range []render.Options{{}, {Paper: render.A2}, {Paper: render.A4}, {Paper: render.ANSIB, Imperial: true}} {
		t.Run(o.Paper.Name, func(t *testing.T) {
			everySheet(t, o, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
				for _, s := range sheets {
					for i, a := range s.Boxes {
						for _, b := range s.Boxes[:i] {
							if a.Kind == render.LineBox && b.Kind == render.LineBox {
								continue // dimension lines of two directions may cross
							}
							if a.Overlaps(b, touch) {
								t.Errorf("sheet %s %q: %s %q lies over %s %q at %.1f, %.1f", s.Number, s.Title, a.Kind, a.Text, b.Kind, b.Text, a.Corners[0].X, a.Corners[0].Y)
							}
						}
					}
				}
			})
		})
	}
}

// No lettering or tag lies on a wall, standing or new.
func TestLetteringKeepsClearOfWalls(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			if strings.HasPrefix(s.Title, "Site") {
				continue
			}
			for _, box := range s.Boxes {
				if box.View < 0 || box.Kind == render.LineBox {
					continue
				}
				v := s.Views[box.View]
				mass := v.Building.Levels[v.Level].Mass
				a, c := box.Corners[0], box.Corners[2]
				for _, part := range [][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}, {0.5, 0.5}, {0.25, 0.5}, {0.75, 0.5}} {
					p := render.Point{X: a.X + part[0]*(c.X-a.X), Y: a.Y + part[1]*(c.Y-a.Y)}
					assert.NotEqual(t, geom.Inside, mass.Contains(v.House(p)), "sheet %s: %q lies on a wall", s.Number, box.Text)
				}
			}
		}
	})
}

// However a house is divided, its sheets are drawn and keep their lettering apart.
func TestAnyDivisionIsDrawn(t *testing.T) {
	const divisions = 6
	for _, file := range []string{"testdata/cottage.house.json", "../samples/split-level/split-level.house.json"} {
		b := building(t, file)
		for seed := range uint64(divisions) {
			random := rand.New(rand.NewPCG(seed, 1))
			owners := map[string]plan.Owner{}
			for _, c := range b.Cells {
				owners[c.ID] = plan.Owner(random.IntN(3))
			}
			sheets, err := render.Set(divided(t, b, owners), render.Options{})
			require.NoError(t, err, "%s, seed %d", file, seed)
			for _, s := range sheets {
				for i, a := range s.Boxes {
					for _, other := range s.Boxes[:i] {
						if (a.Kind != render.LineBox || other.Kind != render.LineBox) && a.Overlaps(other, touch) {
							t.Errorf("%s, seed %d, sheet %s: %q lies over %q", file, seed, s.Number, a.Text, other.Text)
						}
					}
				}
			}
		}
	}
}

// storeys makes a house of a grid of small rooms on several levels.
func storeys(t testing.TB, levels, columns, rows int) *plan.Building {
	t.Helper()
	h := &plan.House{Name: "Grid", Unit: plan.Metres}
	const room, wall, height = 2.4, 0.12, 2.4
	rectangle := func(x0, y0, x1, y1 float64) geom.Region {
		return geom.Region{Outer: geom.Ring{geom.FromMetres(x0, y0), geom.FromMetres(x1, y0), geom.FromMetres(x1, y1), geom.FromMetres(x0, y1)}}
	}
	for l := range levels {
		h.Levels = append(h.Levels, plan.Level{ID: fmt.Sprint("level-", l), Name: fmt.Sprint("Level ", l), Floor: 2.7 * float64(l), Height: height})
		for i := range columns {
			for j := range rows {
				x, y := float64(i)*(room+wall), float64(j)*(room+wall)
				id := fmt.Sprintf("room-%d-%d-%d", l, i, j)
				h.Spaces = append(h.Spaces, plan.Space{ID: id, Name: fmt.Sprintf("Storage room %d.%d%d", l, i, j), Use: plan.Storage, Level: l,
					Region: rectangle(x, y, x+room, y+room), Floor: 2.7 * float64(l), Height: height, Heated: true})
				if i > 0 {
					line := geom.Segment{A: geom.FromMetres(x-wall/2, y+0.3), B: geom.FromMetres(x-wall/2, y+1.1)}
					h.Doors = append(h.Doors, plan.Door{ID: "door-" + id, Level: l, Line: line, Leaf: plan.Single, OpensInto: id})
				}
			}
		}
	}
	b, err := plan.Build(h)
	require.NoError(t, err)
	return b
}

// Three hundred rooms: most carry a number, and the key goes on to further sheets.
func TestALargeHouseIsDrawnInFull(t *testing.T) {
	b := storeys(t, 3, 10, 10)
	sheets, err := render.Survey(b, render.Options{})
	require.NoError(t, err)
	var all []string
	for _, s := range sheets {
		all = append(all, texts(s)...)
		for i, a := range s.Boxes {
			for _, other := range s.Boxes[:i] {
				if (a.Kind != render.LineBox || other.Kind != render.LineBox) && a.Overlaps(other, touch) {
					t.Errorf("sheet %s: %q lies over %q", s.Number, a.Text, other.Text)
				}
			}
		}
	}
	joined := strings.Join(all, "\n")
	for _, space := range b.House.Spaces {
		assert.Contains(t, strings.ReplaceAll(joined, "\n", " "), space.Name)
	}
}

func TestLabelsStayInTheirRoom(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		for _, s := range sheets {
			for _, box := range s.Boxes {
				if box.Cell == "" {
					continue
				}
				v := s.Views[box.View]
				for _, c := range v.Building.Cells {
					if c.ID != box.Cell {
						continue
					}
					for _, corner := range box.Corners {
						assert.NotZero(t, c.Region.Contains(v.House(corner)), "sheet %s: %q leaves %s", s.Number, box.Text, c.ID)
					}
				}
			}
		}
	})
}

func TestEverythingStaysWithinTheFrame(t *testing.T) {
	everySheet(t, render.Options{}, func(t *testing.T, _ *plan.Building, sheets []*render.Sheet) {
		const gridStrip = 5 // letters and numerals of the reference grid stand outside
		for _, s := range sheets {
			for _, b := range s.Boxes {
				for _, c := range b.Corners {
					assert.True(t, c.X >= 20-gridStrip && c.Y >= 10-gridStrip && c.X <= s.Paper.WidthMM-10+gridStrip && c.Y <= s.Paper.HeightMM-10+gridStrip,
						"sheet %s: %q at %v", s.Number, b.Text, c)
				}
			}
		}
	})
}
