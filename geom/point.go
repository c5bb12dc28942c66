package geom

import "math"

// UnitsPerMetre is the grid: one unit is a hundredth of a millimetre, fine
// enough that a house turned by any angle keeps its walls and areas to
// well under a square millimetre.
const UnitsPerMetre = 100_000

// Pt is a point on the grid.
type Pt struct{ X, Y int64 }

// FromMetres rounds a position in metres to the grid.
func FromMetres(x, y float64) Pt { return Pt{Units(x), Units(y)} }

// Units rounds a length in metres to grid units.
func Units(metres float64) int64 { return int64(math.Round(metres * UnitsPerMetre)) }

// Metres gives a grid length in metres.
func Metres(units int64) float64 { return float64(units) / UnitsPerMetre }

// Metres gives the position in metres.
func (p Pt) Metres() (x, y float64) { return Metres(p.X), Metres(p.Y) }

// Add returns p + q.
func (p Pt) Add(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Pt) Sub(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Cross returns the z component of p x q, exact.
func (p Pt) Cross(q Pt) int64 { return p.X*q.Y - p.Y*q.X }

// Dot returns the scalar product, exact.
func (p Pt) Dot(q Pt) int64 { return p.X*q.X + p.Y*q.Y }

// Distance returns the distance between p and q in metres.
func (p Pt) Distance(q Pt) float64 {
	return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) / UnitsPerMetre
}

// Less orders points by x, then y.
func (p Pt) Less(q Pt) bool { return p.X < q.X || (p.X == q.X && p.Y < q.Y) }

// Segment is a straight line from A to B.
type Segment struct{ A, B Pt }

// Length returns the length in metres.
func (s Segment) Length() float64 { return s.A.Distance(s.B) }

// Mid returns the middle, rounded to the grid.
func (s Segment) Mid() Pt { return Pt{(s.A.X + s.B.X) / 2, (s.A.Y + s.B.Y) / 2} }

// Ring is a closed line of at least three corners, the first not repeated.
type Ring []Pt

// Region is an area with one outer ring (counter-clockwise) and holes (clockwise).
type Region struct {
	Outer Ring
	Holes []Ring
}

// Shape is a set of regions whose interiors do not overlap; nil is empty.
type Shape []Region
