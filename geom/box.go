package geom

// Box is an upright rectangle with its border, from Min to Max. The zero Box
// is the origin; the Box of nothing has Min beyond Max and meets nothing.
type Box struct{ Min, Max Pt }

// noBox is the box of nothing: joined with any other it gives that other.
var noBox = Box{Min: Pt{1 << 62, 1 << 62}, Max: Pt{-1 << 62, -1 << 62}}

func boxOf(points ...Pt) Box {
	b := noBox
	for _, p := range points {
		b = b.Join(Box{p, p})
	}
	return b
}

// Empty tells whether b is the box of nothing.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// Join returns the smallest box that holds both.
func (b Box) Join(c Box) Box {
	return Box{
		Pt{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)},
		Pt{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)},
	}
}

// Grow returns the box with its sides moved out by the given grid units.
func (b Box) Grow(units int64) Box {
	d := Pt{units, units}
	return Box{b.Min.Sub(d), b.Max.Add(d)}
}

// Meets tells whether the boxes have a common point.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// overlaps tells whether the insides of the boxes have a common point.
func (b Box) overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// Holds tells whether p lies in the box or on its border.
func (b Box) Holds(p Pt) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Centre returns the middle, rounded to the grid.
func (b Box) Centre() Pt { return Segment{b.Min, b.Max}.Mid() }

// Size returns width and height in metres.
func (b Box) Size() (width, height float64) {
	return Metres(b.Max.X - b.Min.X), Metres(b.Max.Y - b.Min.Y)
}
