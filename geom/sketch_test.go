package geom_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/geom"
)

// rect is the upright rectangle between two corners, in metres.
func rect(x0, y0, x1, y1 float64) geom.Region {
	return geom.Region{Outer: ring(x0, y0, x1, y0, x1, y1, x0, y1)}
}

// ring takes coordinates in metres, x and y in turn.
func ring(xy ...float64) geom.Ring {
	var r geom.Ring
	for i := 0; i < len(xy); i += 2 {
		r = append(r, geom.FromMetres(xy[i], xy[i+1]))
	}
	return r
}

// storey is an enclosed prism from the ground to 2.4 m.
func storey(base geom.Region) geom.Prism { return geom.Prism{Base: base, High: 2.4} }

func storeys(bases ...geom.Region) []geom.Prism {
	var out []geom.Prism
	for _, b := range bases {
		out = append(out, storey(b))
	}
	return out
}

// sketch reads a plan drawn in characters, each a square of the given side in
// metres, the last line at y = 0: every letter is one region, '.' is nothing.
// The regions come in the order of their letters.
func sketch(t testing.TB, side float64, picture string) []geom.Region {
	t.Helper()
	lines := strings.Fields(picture)
	rows := make(map[rune][]geom.Shape)
	for i, line := range lines {
		y := float64(len(lines)-1-i) * side
		for from := 0; from < len(line); {
			to := from
			for to < len(line) && line[to] == line[from] {
				to++
			}
			if line[from] != '.' {
				letter := rune(line[from])
				rows[letter] = append(rows[letter], geom.Shape{rect(float64(from)*side, y, float64(to)*side, y+side)})
			}
			from = to
		}
	}
	var letters []rune
	for letter := range rows {
		letters = append(letters, letter)
	}
	slices.Sort(letters)
	var out []geom.Region
	for _, letter := range letters {
		s, err := geom.Union(rows[letter]...)
		require.NoError(t, err)
		require.Len(t, s, 1, "letter %c is in one piece", letter)
		out = append(out, s[0])
	}
	return out
}

// motion is a way to lay a plan on its lot: mirrored or not, turned, moved.
type motion struct {
	shear   float64 // no motion, but makes a slanted house of a square one
	mirror  bool
	degrees float64
	x, y    float64
}

func (m motion) pt(p geom.Pt) geom.Pt {
	x, y := p.Metres()
	x += m.shear * y
	if m.mirror {
		x = -x
	}
	sin, cos := math.Sincos(m.degrees * math.Pi / 180)
	return geom.FromMetres(x*cos-y*sin+m.x, x*sin+y*cos+m.y)
}

func (m motion) region(r geom.Region) geom.Region {
	move := func(ring geom.Ring) geom.Ring {
		out := make(geom.Ring, len(ring))
		for i, p := range ring {
			out[i] = m.pt(p)
		}
		return out
	}
	out := geom.Region{Outer: move(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, move(h))
	}
	return geom.Wound(out)
}

func (m motion) shape(s geom.Shape) geom.Shape {
	var out geom.Shape
	for _, r := range s {
		out = append(out, m.region(r))
	}
	return out
}

func (m motion) prisms(prisms []geom.Prism) []geom.Prism {
	out := slices.Clone(prisms)
	for i := range out {
		out[i].Base = m.region(out[i].Base)
	}
	return out
}

// tape rounds every corner to the given step in metres, as a survey has it.
func tape(prisms []geom.Prism, step float64) []geom.Prism {
	round := func(r geom.Ring) geom.Ring {
		out := make(geom.Ring, len(r))
		for i, p := range r {
			x, y := p.Metres()
			out[i] = geom.FromMetres(math.Round(x/step)*step, math.Round(y/step)*step)
		}
		return out
	}
	out := slices.Clone(prisms)
	for i, p := range prisms {
		out[i].Base = geom.Region{Outer: round(p.Base.Outer)}
		for _, h := range p.Base.Holes {
			out[i].Base.Holes = append(out[i].Base.Holes, round(h))
		}
	}
	return out
}

// requireSound fails unless every region of the shape is a sound one.
func requireSound(t testing.TB, s geom.Shape, what string) {
	t.Helper()
	for _, r := range s {
		require.Empty(t, geom.Breaches(r.Rings()), "%s: %v", what, r)
		require.True(t, r.Outer.CounterClockwise(), what)
		for _, h := range r.Holes {
			require.False(t, h.CounterClockwise(), what)
		}
	}
}

// randomHouse parts a rectangle of rooms by walls of random thickness, and
// leaves some rooms out so that the house has corners of every sort. The rooms
// are on a grid of 5 cm; gaps are 0.10 to 0.40 m.
func randomHouse(rnd *rand.Rand, width, depth int) []geom.Region {
	const cell = 0.05
	var rooms []geom.Region
	var part func(x0, y0, x1, y1 int)
	part = func(x0, y0, x1, y1 int) {
		w, h := x1-x0, y1-y0
		if max(w, h) < 60 || (max(w, h) < 110 && rnd.IntN(3) == 0) {
			if rnd.IntN(7) > 0 {
				rooms = append(rooms, rect(float64(x0)*cell, float64(y0)*cell, float64(x1)*cell, float64(y1)*cell))
			}
			return
		}
		wall := 2 + rnd.IntN(7)
		if rnd.IntN(8) == 0 {
			wall = 0
		}
		if w > h {
			at := x0 + w/3 + rnd.IntN(w/3)
			part(x0, y0, at, y1)
			part(at+wall, y0, x1, y1)
			return
		}
		at := y0 + h/3 + rnd.IntN(h/3)
		part(x0, y0, x1, at)
		part(x0, at+wall, x1, y1)
	}
	part(0, 0, width*20, depth*20)
	return rooms
}
