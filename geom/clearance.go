package geom

import "math"

// clearanceStep is the precision of a clearance: that of the grid.
const clearanceStep = 1.0 / UnitsPerMetre

// worthAStep is the part of a step that it has to gain: without it the search
// would creep along the middle of a room for nothing.
const worthAStep = 0.05

// clearanceTurns is in how many directions a better place is looked for.
const clearanceTurns = 16

// Clearance is the radius in metres of the widest disc in the region: half the
// clear width of a room of any shape. Found as VisualCentre finds its pole, and
// then by ever smaller steps down to the grid: exact to 0.01 mm in a rectangle
// and wherever the disc is held by two sides, and never too large. Of a disc
// that three sides hold it may be too small by up to the pole's precision.
func (r Region) Clearance() float64 {
	if len(r.Outer) < 3 {
		return 0
	}
	x, y := r.Centroid()
	at, best := clearest(r, FromMetres(x, y))
	for step := 2 * centreStep; step >= clearanceStep/2; {
		better, from := at, best
		for i := range clearanceTurns {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / clearanceTurns)
			p := at.Add(FromMetres(step*cos, step*sin))
			if d := clearanceAt(r, p); d > best && d > from+worthAStep*step {
				best, better = d, p
			}
		}
		if better == at {
			step /= 2
		}
		at = better
	}
	return best
}
