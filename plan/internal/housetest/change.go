package housetest

import (
	"math"
	"math/rand/v2"
	"slices"

	"moiety/geom"
	"moiety/plan"
)

// Turned gives the house turned about the origin, counter-clockwise.
func Turned(h *plan.House, degrees float64) *plan.House {
	sin, cos := math.Sincos(degrees / 180 * math.Pi)
	t := Placed(h, func(p geom.Pt) geom.Pt {
		x, y := p.Metres()
		return geom.FromMetres(x*cos-y*sin, x*sin+y*cos)
	})
	t.North -= degrees
	return t
}

// Moved gives the house moved by a vector in metres.
func Moved(h *plan.House, dx, dy float64) *plan.House {
	d := geom.FromMetres(dx, dy)
	return Placed(h, func(p geom.Pt) geom.Pt { return p.Add(d) })
}

// Mirrored gives the house in a mirror along the y axis.
func Mirrored(h *plan.House) *plan.House {
	m := Placed(h, func(p geom.Pt) geom.Pt { return geom.Pt{X: -p.X, Y: p.Y} })
	m.North = -m.North
	return m
}

// InFeet gives the house as it comes back from a file in decimal feet with
// four decimals.
func InFeet(h *plan.House) *plan.House {
	round := func(v float64) float64 {
		per := plan.Feet.PerMetre()
		return math.Round(v*per*1e4) / 1e4 / per
	}
	f := Placed(h, func(p geom.Pt) geom.Pt {
		x, y := p.Metres()
		return geom.FromMetres(round(x), round(y))
	})
	f.Unit = plan.Feet
	return f
}

// Divisible gives the house with every space divisible whose use is by default
// (survey format, "Uses of a space").
func Divisible(h *plan.House) *plan.House {
	uses := []plan.Use{
		plan.Entry, plan.Hall, plan.Living, plan.Family, plan.Unfinished, plan.Storage, plan.Mechanical, plan.Garage,
		plan.Yard, plan.Drive, plan.Patio, plan.Deck, plan.Parking,
	}
	n := *h
	n.Spaces = slices.Clone(h.Spaces)
	for i := range n.Spaces {
		n.Spaces[i].Divisible = slices.Contains(uses, n.Spaces[i].Use)
	}
	return &n
}

// Shuffled gives the house with its features in another order.
func Shuffled(h *plan.House, seed uint64) *plan.House {
	c := *h
	s := &c
	s.Spaces, s.Stairs, s.Doors = slices.Clone(h.Spaces), slices.Clone(h.Stairs), slices.Clone(h.Doors)
	s.Windows, s.Walls, s.Fixtures = slices.Clone(h.Windows), slices.Clone(h.Walls), slices.Clone(h.Fixtures)
	r := rand.New(rand.NewPCG(seed, 1))
	r.Shuffle(len(s.Spaces), func(i, j int) { s.Spaces[i], s.Spaces[j] = s.Spaces[j], s.Spaces[i] })
	r.Shuffle(len(s.Stairs), func(i, j int) { s.Stairs[i], s.Stairs[j] = s.Stairs[j], s.Stairs[i] })
	r.Shuffle(len(s.Doors), func(i, j int) { s.Doors[i], s.Doors[j] = s.Doors[j], s.Doors[i] })
	r.Shuffle(len(s.Windows), func(i, j int) { s.Windows[i], s.Windows[j] = s.Windows[j], s.Windows[i] })
	r.Shuffle(len(s.Walls), func(i, j int) { s.Walls[i], s.Walls[j] = s.Walls[j], s.Walls[i] })
	r.Shuffle(len(s.Fixtures), func(i, j int) { s.Fixtures[i], s.Fixtures[j] = s.Fixtures[j], s.Fixtures[i] })
	return s
}

// Placed gives the house with every point put where to says; to keeps
// distances. The house given stays as it is.
func Placed(h *plan.House, to func(geom.Pt) geom.Pt) *plan.House {
	points := func(in []geom.Pt) []geom.Pt {
		out := make([]geom.Pt, len(in))
		for i, p := range in {
			out[i] = to(p)
		}
		return out
	}
	region := func(r geom.Region) geom.Region {
		out := geom.Region{Outer: points(r.Outer)}
		for _, hole := range r.Holes {
			out.Holes = append(out.Holes, points(hole))
		}
		return geom.Wound(out)
	}
	line := func(s geom.Segment) geom.Segment { return geom.Segment{A: to(s.A), B: to(s.B)} }
	n := *h
	n.Spaces, n.Stairs, n.Doors = slices.Clone(h.Spaces), slices.Clone(h.Stairs), slices.Clone(h.Doors)
	n.Windows, n.Walls, n.Fixtures = slices.Clone(h.Windows), slices.Clone(h.Walls), slices.Clone(h.Fixtures)
	n.Lots = slices.Clone(h.Lots)
	for i := range n.Spaces {
		n.Spaces[i].Region = region(n.Spaces[i].Region)
	}
	for i := range n.Stairs {
		n.Stairs[i].Region, n.Stairs[i].Walk = region(n.Stairs[i].Region), points(n.Stairs[i].Walk)
	}
	for i := range n.Doors {
		n.Doors[i].Line = line(n.Doors[i].Line)
	}
	for i := range n.Windows {
		n.Windows[i].Line = line(n.Windows[i].Line)
	}
	for i := range n.Walls {
		n.Walls[i].Line = points(n.Walls[i].Line)
	}
	for i := range n.Fixtures {
		f := &n.Fixtures[i]
		f.At = to(f.At)
		if f.Footprint != nil {
			footprint := region(*f.Footprint)
			f.Footprint = &footprint
		}
	}
	for i := range n.Lots {
		n.Lots[i].Region = region(n.Lots[i].Region)
	}
	return &n
}
