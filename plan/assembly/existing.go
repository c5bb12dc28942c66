package assembly

import (
	"fmt"
	"math"
)

// Depths of framing as it is sold: 38 mm lumber, and joists.
var (
	studDepths  = []float64{0.064, 0.089, 0.140, 0.184, 0.235}
	joistDepths = []float64{0.140, 0.184, 0.235, 0.286, 0.356}
)

// nearest is the sold depth next to a measured one.
func nearest(depths []float64, depth float64) float64 {
	best := depths[0]
	for _, d := range depths {
		if math.Abs(d-depth) < math.Abs(best-depth) {
			best = d
		}
	}
	return best
}

// ExistingWall is a stud wall of a house as it stands, of that thickness
// between its faces: studs of the nearest depth that is sold, at 400 mm, with a
// sheet of 12.7 mm board on each side and nothing between (common practice, no
// source). Of the published rows those with studs at 600 mm rate no worse.
func ExistingWall(thickness float64) Assembly {
	board := NewLayer(GypsumRegular, ThinBoard, 0)
	depth := nearest(studDepths, thickness-2*ThinBoard)
	a := Assembly{
		ID: "existing-wall", Kind: Wall,
		Name:   fmt.Sprintf("taken as a wall of %g mm studs with a sheet of 12.7 mm board on each side and nothing between", millimetres(depth)),
		Layers: []Layer{board, NewLayer(Studs, depth, Close), board},
	}
	if depth > thickWall {
		a.Name += "; so thick a wall may be masonry or two rows of studs: look before anything is ordered"
	}
	a.Rating = Rate(a)
	return a
}

// thickWall is how deep the studs of an inside wall are at most; what is
// thicker is something else.
const thickWall = 0.150

// ExistingFloor is a joist floor of a house as it stands, of that thickness
// from the ceiling's face to the floor's: a subfloor panel, joists of the
// nearest depth that is sold and, where the room below has a ceiling, a sheet
// of 12.7 mm board (common practice, no source).
func ExistingFloor(thickness float64, ceiling bool) Assembly {
	panel := NewLayer(Subfloor, 0.0155, 0)
	depth := thickness - panel.Thickness
	if ceiling {
		depth -= ThinBoard
	}
	depth = nearest(joistDepths, depth)
	a := Assembly{ID: "existing-floor", Kind: Floor, Layers: []Layer{panel, NewLayer(Joists, depth, Close)}}
	a.Name = fmt.Sprintf("taken as a floor of %g mm joists under a subfloor panel, open below", millimetres(depth))
	if ceiling {
		a.Layers = append(a.Layers, NewLayer(GypsumRegular, ThinBoard, 0))
		a.Name = fmt.Sprintf("taken as a floor of %g mm joists under a subfloor panel, with a ceiling of 12.7 mm board", millimetres(depth))
	}
	a.Rating = Rate(a)
	return a
}

// flightDepth is that of treads; common practice, no source.
const flightDepth = 0.040

// ExistingFlight is a flight of stairs over another space, lined below or not.
func ExistingFlight() Assembly {
	a := Assembly{ID: "existing-flight", Kind: Floor, Name: "the underside of a flight", Layers: []Layer{NewLayer(Flight, flightDepth, 0)}}
	a.Rating = Rate(a)
	return a
}

// UnderFlight lists ways to separate a flight from what lies under it: a
// ceiling frame of its own between the strings, filled, with two sheets below,
// which no published row covers; and, where depth metres are free, every
// published joist floor built whole under the flight, which then carries the
// rating, the treads over it counting for nothing.
func UnderFlight(depth float64) []Change {
	flight := NewLayer(Flight, flightDepth, 0)
	var out []Change
	for _, board := range []float64{ThinBoard, ThickBoard} {
		x := NewLayer(GypsumX, board, 0)
		a := Assembly{
			ID: "under-flight", Kind: Floor, Name: "a filled frame and two sheets of Type X board under a flight",
			Layers: []Layer{flight, NewLayer(Joists, StudDepth, Close), NewLayer(StoneWool, StudDepth, 0), x, x},
		}
		a.Rating = Rate(a)
		out = append(out, Change{Assembly: a, New: []bool{false, true, true, true, true}, Gain: [2]float64{0, StudDepth + 2*board}})
	}
	for _, row := range ForAnySpacing() {
		if row.Kind != Floor || sections(row.Layers).core[0].Material != Joists || row.Thickness() > depth {
			continue
		}
		a := Assembly{ID: row.ID + "-under-flight", Kind: Floor, Name: "a floor of its own under a flight, " + row.Name, Layers: append([]Layer{flight}, row.Layers...)}
		a.Rating = Rate(a)
		c := Build(a)
		c.New[0] = false
		c.Gain = [2]float64{0, row.Thickness()}
		out = append(out, c)
	}
	return out
}
