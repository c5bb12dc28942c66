package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan"
	"moiety/plan/internal/housetest"
)

// plot is a room of a house that is cut up by rule, in metres.
type plot struct{ x0, y0, x1, y1 float64 }

func (b plot) width() float64 { return b.x1 - b.x0 }
func (b plot) depth() float64 { return b.y1 - b.y0 }

// cutUp parts a plot by walls across it until the rooms are small, drawing
// where and how thick. Lengths are whole centimetres.
func cutUp(t *rapid.T, b plot) []plot {
	const least = 1.2
	wide := b.width() >= b.depth()
	length := math.Max(b.width(), b.depth())
	if length < 2*least+0.5 || (length < 5 && rapid.Bool().Draw(t, "keep")) {
		return []plot{b}
	}
	thickness := float64(rapid.IntRange(8, 30).Draw(t, "thickness")) / 100
	at := float64(rapid.IntRange(int(least*100), int((length-least-thickness)*100)).Draw(t, "at")) / 100
	one, two := b, b
	if wide {
		one.x1, two.x0 = b.x0+at, b.x0+at+thickness
	} else {
		one.y1, two.y0 = b.y0+at, b.y0+at+thickness
	}
	return append(cutUp(t, one), cutUp(t, two)...)
}

// shared gives the length of wall between two rooms and the line in its
// middle: where they lie side by side, no farther apart than a wall is thick.
// Rooms are wider than that, so that nothing lies between.
func shared(a, b plot) (length float64, line [4]float64) {
	if y0, y1 := math.Max(a.y0, b.y0), math.Min(a.y1, b.y1); y1 > y0 {
		for _, p := range [][2]plot{{a, b}, {b, a}} {
			if gap := p[1].x0 - p[0].x1; gap > 0 && gap < 0.6 {
				x := (p[0].x1 + p[1].x0) / 2
				return y1 - y0, [4]float64{x, y0, x, y1}
			}
		}
	}
	if x0, x1 := math.Max(a.x0, b.x0), math.Min(a.x1, b.x1); x1 > x0 {
		for _, p := range [][2]plot{{a, b}, {b, a}} {
			if gap := p[1].y0 - p[0].y1; gap > 0 && gap < 0.6 {
				y := (p[0].y1 + p[1].y0) / 2
				return x1 - x0, [4]float64{x0, y, x1, y}
			}
		}
	}
	return 0, line
}

// overlap gives the plot that two boxes share, and whether there is one worth a
// floor: not a strip where two walls are a hand off being above each other.
func overlap(a, b plot) (plot, bool) {
	c := plot{math.Max(a.x0, b.x0), math.Max(a.y0, b.y0), math.Min(a.x1, b.x1), math.Min(a.y1, b.y1)}
	return c, c.width() > 0.035 && c.depth() > 0.035 && c.width()*c.depth() > 0.021
}

// A house of two levels, each cut up by walls across the whole, has the walls
// and floors that follow from the cuts by arithmetic on the boxes alone, and its
// doors join the rooms that they were set between, however it is turned.
func TestAHouseCutUpByRuleHasTheLinksOfItsCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := plot{0, 0, float64(rapid.IntRange(40, 140).Draw(t, "width")) / 10, float64(rapid.IntRange(40, 120).Draw(t, "depth")) / 10}
		draft := housetest.New("cut").Level("main", 0, 2.4).Level("upper", 2.7, 2.4)
		rooms := map[string][]plot{"main": cutUp(t, whole), "upper": cutUp(t, whole)}
		want := map[string]float64{}
		doors := map[string]string{}
		for _, level := range []string{"main", "upper"} {
			id := func(i int) string { return fmt.Sprintf("%s-%03d", level, i) }
			for i, r := range rooms[level] {
				draft.Room(id(i), plan.Living, level, r.x0, r.y0, r.x1, r.y1)
				for j, s := range rooms[level][:i] {
					length, line := shared(r, s)
					if length < 0.045 {
						continue // a corner
					}
					key := "wall " + id(j) + "|" + id(i)
					want[key] += length
					if length > 1 && rapid.Bool().Draw(t, "door") {
						from := rapid.Float64Range(0, 1-0.8/length).Draw(t, "from")
						to := from + 0.8/length
						on := func(p float64) (x, y float64) {
							return line[0] + p*(line[2]-line[0]), line[1] + p*(line[3]-line[1])
						}
						x0, y0 := on(from)
						x1, y1 := on(to)
						door := fmt.Sprintf("door-%d", len(doors))
						draft.Door(door, level, x0, y0, x1, y1)
						doors[door] = id(j) + "|" + id(i)
					}
				}
				for _, out := range []bool{r.x0 == whole.x0, r.x1 == whole.x1} {
					if out {
						want["exterior "+id(i)+"|outside"] += r.depth()
					}
				}
				for _, out := range []bool{r.y0 == whole.y0, r.y1 == whole.y1} {
					if out {
						want["exterior "+id(i)+"|outside"] += r.width()
					}
				}
			}
		}
		for i, r := range rooms["main"] {
			for j, s := range rooms["upper"] {
				if c, ok := overlap(r, s); ok {
					want[fmt.Sprintf("floor main-%03d|upper-%03d", i, j)] = c.width() * c.depth()
				}
			}
		}
		h := housetest.Turned(draft.House(), rapid.Float64Range(-180, 180).Draw(t, "angle"))
		b, err := plan.Build(h)
		require.NoError(t, err)
		got := map[string]float64{}
		for _, l := range b.Links {
			switch l.Kind {
			case plan.LinkDoor:
				require.Equal(t, doors[l.Of], between(b, l), l.Of)
				delete(doors, l.Of)
			case plan.LinkFloor:
				got["floor "+between(b, l)] = l.AreaM2
			default:
				got[string(l.Kind)+" "+between(b, l)] += l.Length
			}
		}
		require.Empty(t, doors, "doors that join nothing")
		for key, length := range want {
			assert.InDelta(t, length, got[key], 0.002+0.001*length, key)
		}
		for key, length := range got {
			if _, ok := want[key]; !ok && !(strings.HasPrefix(key, "floor") && length < 0.5) { // a strip
				assert.Fail(t, "unexpected", "%s %.3f", key, length)
			}
		}
	})
}
