package geom_test

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"moiety/geom"
)

// grid is the independent reference for areas: a fine raster over a rectangle,
// each cell black or white by its middle. It is exact for upright shapes whose
// corners lie on cell corners, and near enough for slanted ones.
type grid struct {
	x0, y0, step  float64
	width, height int
	black         []bool
}

// newGrid covers the regions and a border of the given width in metres.
func newGrid(step, border float64, regions ...geom.Region) *grid {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, r := range regions {
		for _, p := range r.Outer {
			x, y := p.Metres()
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
	}
	x0, y0 = math.Floor((x0-border)/step)*step, math.Floor((y0-border)/step)*step
	g := &grid{x0: x0, y0: y0, step: step}
	g.width = int(math.Ceil((x1 + border - x0) / step))
	g.height = int(math.Ceil((y1 + border - y0) / step))
	g.black = make([]bool, g.width*g.height)
	return g
}

func (g *grid) middle(i int) (x, y float64) {
	return g.x0 + (float64(i%g.width)+0.5)*g.step, g.y0 + (float64(i/g.width)+0.5)*g.step
}

// each returns a grid of the same cells, black where the rule says so.
func (g *grid) each(rule func(i int) bool) *grid {
	out := *g
	out.black = make([]bool, len(g.black))
	for i := range out.black {
		out.black[i] = rule(i)
	}
	return &out
}

// paint returns the grid with the regions black, by another library's test of
// points in rings.
func (g *grid) paint(regions ...geom.Region) *grid {
	out := g.each(func(int) bool { return false })
	for _, r := range regions {
		outer := orbRing(r.Outer)
		var holes []orb.Ring
		for _, h := range r.Holes {
			holes = append(holes, orbRing(h))
		}
		b := outer.Bound()
		for i := range out.black {
			x, y := g.middle(i)
			p := orb.Point{x, y}
			if !b.Contains(p) || !planar.RingContains(outer, p) {
				continue
			}
			if !slices.ContainsFunc(holes, func(h orb.Ring) bool { return planar.RingContains(h, p) }) {
				out.black[i] = true
			}
		}
	}
	return out
}

func orbRing(r geom.Ring) orb.Ring {
	var out orb.Ring
	for _, p := range append(slices.Clone(r), r[0]) {
		x, y := p.Metres()
		out = append(out, orb.Point{x, y})
	}
	return out
}

func (g *grid) area() float64 {
	var n int
	for _, b := range g.black {
		if b {
			n++
		}
	}
	return float64(n) * g.step * g.step
}

// grown blackens every cell that has a black one within so many cells, in a
// square.
func (g *grid) grown(cells int) *grid { return g.spread(cells, true) }

// shrunk is grown for white; beyond the grid all is white.
func (g *grid) shrunk(cells int) *grid { return g.spread(cells, false) }

func (g *grid) spread(cells int, black bool) *grid {
	row := g.each(func(i int) bool {
		x, y := i%g.width, i/g.width
		for dx := -cells; dx <= cells; dx++ {
			in := x+dx >= 0 && x+dx < g.width && g.black[y*g.width+x+dx]
			if in == black {
				return black
			}
		}
		return !black
	})
	return g.each(func(i int) bool {
		x, y := i%g.width, i/g.width
		for dy := -cells; dy <= cells; dy++ {
			in := y+dy >= 0 && y+dy < g.height && row.black[(y+dy)*g.width+x]
			if in == black {
				return black
			}
		}
		return !black
	})
}

// outside blackens the white cells from which the border of the grid is
// reached over white cells.
func (g *grid) outside() *grid {
	out := g.each(func(int) bool { return false })
	var todo []int
	visit := func(x, y int) {
		if i := y*g.width + x; x >= 0 && x < g.width && y >= 0 && y < g.height && !g.black[i] && !out.black[i] {
			out.black[i] = true
			todo = append(todo, i)
		}
	}
	for x := range g.width {
		visit(x, 0)
		visit(x, g.height-1)
	}
	for y := range g.height {
		visit(0, y)
		visit(g.width-1, y)
	}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		x, y := i%g.width, i/g.width
		visit(x-1, y)
		visit(x+1, y)
		visit(x, y-1)
		visit(x, y+1)
	}
	return out
}
