// Package housetest draws houses for tests and benchmarks: small ones by hand,
// in metres, and large ones by rule.
package housetest

import (
	"fmt"
	"math"

	"moiety/geom"
	"moiety/plan"
)

// Draft is a house in the making. Positions are metres. Its methods panic on a
// level that does not exist: a mistake of the test.
type Draft struct{ h plan.House }

// New starts a house without levels.
func New(name string) *Draft { return &Draft{plan.House{Name: name, Unit: plan.Metres}} }

// House gives the house as drawn so far.
func (d *Draft) House() *plan.House {
	h := d.h
	return &h
}

// Level adds an indoor level.
func (d *Draft) Level(id string, floor, height float64) *Draft {
	d.h.Levels = append(d.h.Levels, plan.Level{ID: id, Name: id, Floor: floor, Height: height})
	return d
}

// Site adds an outdoor level.
func (d *Draft) Site(id string, floor float64) *Draft {
	d.h.Levels = append(d.h.Levels, plan.Level{ID: id, Name: id, Floor: floor, Outdoor: true})
	if !d.h.GradeSaid {
		d.h.Grade, d.h.GradeSaid = floor, true
	}
	return d
}

func (d *Draft) level(id string) int {
	for i, l := range d.h.Levels {
		if l.ID == id {
			return i
		}
	}
	panic(fmt.Sprintf("housetest: no level %q", id))
}

// Room adds a space with the given corners, x and y in turn; two corners are
// those of a rectangle.
func (d *Draft) Room(id string, use plan.Use, level string, xy ...float64) *Draft {
	return d.Space(id, use, level, geom.Region{Outer: ring(xy)})
}

// Space adds a space of any shape, on the floor and of the height of its level.
func (d *Draft) Space(id string, use plan.Use, level string, region geom.Region) *Draft {
	i := d.level(level)
	l := d.h.Levels[i]
	s := plan.Space{
		ID: id, Name: id, Use: use, Level: i, Region: geom.Wound(region), Floor: l.Floor, Height: l.Height,
		Outdoor: use.Outdoor() || (l.Outdoor && use != plan.Garage),
	}
	s.Heated = !s.Outdoor && use != plan.Garage
	if s.Outdoor {
		s.Height = 0
	} else if s.Height == 0 {
		s.Height = 2.4
	}
	d.h.Spaces = append(d.h.Spaces, s)
	return d
}

// At sets floor and height of the last space, as elevations of its own.
func (d *Draft) At(floor, height float64) *Draft {
	s := &d.h.Spaces[len(d.h.Spaces)-1]
	s.Floor, s.Height = floor, height
	return d
}

// Divisible lets the last space be divided.
func (d *Draft) Divisible() *Draft {
	d.h.Spaces[len(d.h.Spaces)-1].Divisible = true
	return d
}

// Also gives the last space further uses.
func (d *Draft) Also(uses ...plan.Use) *Draft {
	d.h.Spaces[len(d.h.Spaces)-1].Also = uses
	return d
}

// Flight adds a straight flight in the rectangle of two corners, walked along
// its middle from the foot side to the head side: "n", "e", "s" or "w" is the
// direction of going up.
func (d *Draft) Flight(id, from, to, up string, x0, y0, x1, y1 float64) *Draft {
	mx, my := (x0+x1)/2, (y0+y1)/2
	walk := map[string][]float64{
		"n": {mx, y0, mx, y1}, "s": {mx, y1, mx, y0},
		"e": {x0, my, x1, my}, "w": {x1, my, x0, my},
	}[up]
	return d.Stair(id, from, to, walk, x0, y0, x1, y1)
}

// Stair adds a flight with any footprint and walk.
func (d *Draft) Stair(id, from, to string, walk []float64, xy ...float64) *Draft {
	d.h.Stairs = append(d.h.Stairs, plan.Stair{
		ID: id, Name: id, Level: d.level(from), To: d.level(to),
		Region: geom.Wound(geom.Region{Outer: ring(xy)}), Walk: points(walk),
	})
	return d
}

// Door adds a door, drawn from jamb to jamb.
func (d *Draft) Door(id, level string, x0, y0, x1, y1 float64) *Draft {
	d.h.Doors = append(d.h.Doors, plan.Door{
		ID: id, Level: d.level(level), Line: line(x0, y0, x1, y1), Height: 2.03, Leaf: plan.Single,
	})
	return d
}

// Leaf says how the last door opens.
func (d *Draft) Leaf(leaf plan.Leaf) *Draft {
	d.h.Doors[len(d.h.Doors)-1].Leaf = leaf
	return d
}

// Opening adds a cased opening.
func (d *Draft) Opening(id, level string, x0, y0, x1, y1 float64) *Draft {
	d.Door(id, level, x0, y0, x1, y1)
	o := &d.h.Doors[len(d.h.Doors)-1]
	o.Opening, o.Leaf = true, plan.NoLeaf
	return d
}

// Window adds a window with its sill and height above the floor of its level.
func (d *Draft) Window(id, level string, sill, height, x0, y0, x1, y1 float64) *Draft {
	d.h.Windows = append(d.h.Windows, plan.Window{
		ID: id, Level: d.level(level), Line: line(x0, y0, x1, y1), Sill: sill, Height: height,
	})
	return d
}

// Bearing marks a bearing wall.
func (d *Draft) Bearing(id, level string, xy ...float64) *Draft {
	d.h.Walls = append(d.h.Walls, plan.WallMark{ID: id, Level: d.level(level), Line: points(xy), Bearing: true})
	return d
}

// Fixture adds a fixture as a point.
func (d *Draft) Fixture(id, use, level string, x, y float64) *Draft {
	d.h.Fixtures = append(d.h.Fixtures, plan.Fixture{ID: id, Use: use, Level: d.level(level), At: geom.FromMetres(x, y)})
	return d
}

// Footprint gives the last fixture the footprint of a rectangle.
func (d *Draft) Footprint(x0, y0, x1, y1 float64) *Draft {
	f := &d.h.Fixtures[len(d.h.Fixtures)-1]
	r := geom.Wound(geom.Region{Outer: ring([]float64{x0, y0, x1, y1})})
	f.Footprint = &r
	return d
}

func line(x0, y0, x1, y1 float64) geom.Segment {
	return geom.Segment{A: geom.FromMetres(x0, y0), B: geom.FromMetres(x1, y1)}
}

func points(xy []float64) []geom.Pt {
	out := make([]geom.Pt, len(xy)/2)
	for i := range out {
		out[i] = geom.FromMetres(xy[2*i], xy[2*i+1])
	}
	return out
}

func ring(xy []float64) geom.Ring {
	if len(xy) == 4 {
		x0, x1 := math.Min(xy[0], xy[2]), math.Max(xy[0], xy[2])
		y0, y1 := math.Min(xy[1], xy[3]), math.Max(xy[1], xy[3])
		xy = []float64{x0, y0, x1, y0, x1, y1, x0, y1}
	}
	return points(xy)
}
