package render_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
	"moiety/render"
)

// sketch draws houses by rule: rooms of any width on both sides of a corridor.
type sketch struct {
	h    *plan.House
	r    *rand.Rand
	turn float64 // degrees that all is turned
	n    map[string]int
}

// Thicknesses of walls, in metres.
const (
	partition = 0.12
	outerHalf = 0.125
)

func newSketch(name string, seed uint64, turn float64) *sketch {
	return &sketch{h: &plan.House{Name: name, Unit: plan.Metres}, r: rand.New(rand.NewPCG(seed, 7)), turn: turn, n: map[string]int{}}
}

func (s *sketch) between(low, high float64) float64 {
	return math.Round((low+(high-low)*s.r.Float64())*100) / 100
}

func (s *sketch) pt(x, y float64) geom.Pt {
	sin, cos := math.Sincos(s.turn * math.Pi / 180)
	return geom.FromMetres(x*cos-y*sin, x*sin+y*cos)
}

func (s *sketch) level(name string, floor float64) {
	s.h.Levels = append(s.h.Levels, plan.Level{ID: name, Name: name, Floor: floor, Height: 2.4})
}

// room adds a room with opposite corners to the last level, and names it by
// its use and a number.
func (s *sketch) room(use plan.Use, x0, y0, x1, y1 float64) string {
	s.n[string(use)]++
	l := len(s.h.Levels) - 1
	id := fmt.Sprintf("%s-%d", use, s.n[string(use)])
	s.h.Spaces = append(s.h.Spaces, plan.Space{ID: id, Name: fmt.Sprintf("%s %d", nameOfUse[use], s.n[string(use)]), Use: use, Level: l,
		Region: geom.Wound(geom.Region{Outer: geom.Ring{s.pt(x0, y0), s.pt(x1, y0), s.pt(x1, y1), s.pt(x0, y1)}}),
		Floor:  s.h.Levels[l].Floor, Height: 2.4, Heated: true})
	return id
}

var nameOfUse = map[plan.Use]string{
	plan.Living: "Living room", plan.Kitchen: "Kitchen", plan.Bedroom: "Bedroom", plan.Bathroom: "Bathroom",
	plan.Storage: "Store", plan.Hall: "Hall", plan.Laundry: "Laundry", plan.Closet: "Closet",
}

func (s *sketch) line(x0, y0, x1, y1 float64) geom.Segment {
	return geom.Segment{A: s.pt(x0, y0), B: s.pt(x1, y1)}
}

func (s *sketch) door(into string, x0, y0, x1, y1 float64) {
	s.n["door"]++
	s.h.Doors = append(s.h.Doors, plan.Door{ID: fmt.Sprintf("door-%d", s.n["door"]), Level: len(s.h.Levels) - 1, Line: s.line(x0, y0, x1, y1),
		Height: 2.03, Leaf: plan.Single, OpensInto: into, HingeAtEnd: s.r.IntN(2) == 0})
}

func (s *sketch) window(x0, y0, x1, y1 float64) {
	s.n["window"]++
	s.h.Windows = append(s.h.Windows, plan.Window{ID: fmt.Sprintf("window-%d", s.n["window"]), Level: len(s.h.Levels) - 1, Line: s.line(x0, y0, x1, y1), Sill: 0.6, Height: 1.3, Operation: "casement"})
}

func (s *sketch) fixture(use string, x, y float64) {
	s.n["fixture"]++
	s.h.Fixtures = append(s.h.Fixtures, plan.Fixture{ID: fmt.Sprintf("%s-%d", use, s.n["fixture"]), Use: use, Level: len(s.h.Levels) - 1, At: s.pt(x, y)})
}

// usesInTurn are given to the rooms of a row.
var usesInTurn = []plan.Use{plan.Living, plan.Bathroom, plan.Bedroom, plan.Kitchen, plan.Bedroom, plan.Closet, plan.Storage}

// wing draws a corridor from a place along x, or along y where it is upright,
// as long as asked, with a row of rooms on either side and a door at the far end.
func (s *sketch) wing(x, y, long float64, upright bool) {
	put := func(u, v float64) (float64, float64) {
		if upright {
			return x - v, y + u
		}
		return x + u, y + v
	}
	four := func(u0, v0, u1, v1 float64) (a, b, c, d float64) {
		a, b = put(u0, v0)
		c, d = put(u1, v1)
		return
	}
	at := func(f func(a, b, c, d float64), u0, v0, u1, v1 float64) {
		a, b, c, d := four(u0, v0, u1, v1)
		f(a, b, c, d)
	}
	const corridor = 1.3
	var hall string
	at(func(a, b, c, d float64) { hall = s.room(plan.Hall, min(a, c), min(b, d), max(a, c), max(b, d)) }, 0, 0, long, corridor)
	at(func(a, b, c, d float64) { s.door(hall, a, b, c, d) }, long+outerHalf, 0.2, long+outerHalf, 1.1)
	for i, side := range []float64{1, -1} {
		deep := s.between(2.6, 4.2)
		for u, k := 0.0, s.r.IntN(len(usesInTurn)); u < long; k++ {
			use := usesInTurn[k%len(usesInTurn)]
			wide := s.between(2.4, 4.8)
			switch use {
			case plan.Bathroom, plan.Storage:
				wide = s.between(1.5, 2.2)
			case plan.Closet:
				wide = s.between(0.6, 1.0)
			}
			if long-u-wide < 2.4 {
				wide = long - u
			}
			near, far := corridor+partition, corridor+partition+deep
			if side < 0 {
				near, far = -partition, -partition-deep
			}
			var id string
			at(func(a, b, c, d float64) { id = s.room(use, min(a, c), min(b, d), max(a, c), max(b, d)) }, u, near, u+wide, far)
			leaf := min(0.8, wide-0.2)
			from := u + 0.1 + s.r.Float64()*(wide-0.2-leaf)
			wall := (near + corridor) / 2
			if side < 0 {
				wall = -partition / 2
			}
			at(func(a, b, c, d float64) { s.door(id, a, b, c, d) }, from, wall, from+leaf, wall)
			if wide > 1.4 {
				pane := min(wide-0.6, s.between(0.8, 1.6))
				from := u + 0.3 + s.r.Float64()*(wide-0.6-pane)
				at(s.window, from, far+side*outerHalf, from+pane, far+side*outerHalf)
			}
			stand := far - side*0.3
			switch use {
			case plan.Bathroom:
				for j, what := range []string{"wc", "basin"} {
					px, py := put(u+0.4+0.8*float64(j), stand)
					s.fixture(what, px, py)
				}
			case plan.Kitchen:
				for j, what := range []string{"sink", "range", "refrigerator"} {
					px, py := put(u+0.5+0.75*float64(j), stand)
					s.fixture(what, px, py)
				}
			case plan.Storage:
				px, py := put(u+0.4, stand)
				s.fixture([]string{"furnace", "water_heater"}[i], px, py)
			}
			u += wide + partition
		}
	}
}

func (s *sketch) build(t testing.TB) *plan.Building {
	t.Helper()
	b, err := plan.Build(s.h)
	require.NoError(t, err)
	return b
}

// longRow is a bungalow many rooms long on one corridor.
func longRow(t testing.TB, seed uint64, long float64) *plan.Building {
	s := newSketch(fmt.Sprintf("Row %d", seed), seed, 0)
	s.level("Ground floor", 0)
	s.wing(0, 0, long, false)
	return s.build(t)
}

// angled is a house in the shape of an L, turned on its lot.
func angled(t testing.TB, seed uint64, long, wing, turn float64) *plan.Building {
	s := newSketch(fmt.Sprintf("Angle %d", seed), seed, turn)
	s.level("Ground floor", 0)
	s.wing(0, 0, long, false)
	s.wing(long-2, 8, wing, true)
	return s.build(t)
}

// generated are small houses by rule, some turned, some of two levels.
func generated(t testing.TB, seed uint64) *plan.Building {
	s := newSketch(fmt.Sprintf("House %d", seed), seed, []float64{0, 0, 17, -31}[seed%4])
	s.level("Ground floor", 0)
	s.wing(0, 0, s.between(7, 13), false)
	if seed%3 == 0 {
		s.level("Upper floor", 2.7)
		s.wing(0, 0, s.between(7, 10), false)
	}
	return s.build(t)
}

// drawnGenerated are the sheets of generated houses: as surveyed, divided at
// random, and as the search divides them.
func drawnGenerated(t testing.TB, seeds int, o render.Options) map[string][]*render.Sheet {
	t.Helper()
	all := map[string][]*render.Sheet{}
	for seed := range uint64(seeds) {
		b := generated(t, seed)
		sheets, err := render.Survey(b, o)
		require.NoError(t, err)
		all[fmt.Sprintf("house %d as surveyed", seed)] = sheets
		s := halved(t, b, seed)
		sheets, err = render.Set(s, o)
		require.NoError(t, err)
		all[fmt.Sprintf("house %d divided by hand", seed)] = sheets
		if s := searched(t, b); s != nil {
			sheets, err = render.Set(s, o)
			require.NoError(t, err)
			all[fmt.Sprintf("house %d divided by the search", seed)] = sheets
		}
	}
	return all
}

// halved gives the rooms of either side of a house to a unit, the halls to both.
func halved(t testing.TB, b *plan.Building, seed uint64) *plan.Scheme {
	random := rand.New(rand.NewPCG(seed, 3))
	owners := map[string]plan.Owner{}
	for i, c := range b.Cells {
		if c.Use != plan.Hall {
			owners[c.ID] = plan.Owner(2 * i / len(b.Cells))
			if random.IntN(6) == 0 {
				owners[c.ID] = plan.Owner(random.IntN(2))
			}
		}
	}
	return divided(t, b, owners)
}

// searched is the best scheme that the search finds of a house, nil where
// there is none.
func searched(t testing.TB, b *plan.Building) *plan.Scheme {
	t.Helper()
	brief := plan.DefaultBrief()
	brief.Rules = "none"
	a, err := plan.Split(context.Background(), b, brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	if len(a.Schemes) == 0 {
		return nil
	}
	return a.Schemes[0]
}
