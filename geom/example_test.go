package geom_test

import (
	"fmt"

	"moiety/geom"
)

// Two rooms side by side, walls of 0.25 m outside:
//
//	+------+ +----+
//	|  0   | | 1  |  3 m
//	+------+ +----+
//	   4 m  0.1  3 m
func twoRooms() []geom.Prism {
	room := func(x0, x1 float64) geom.Prism {
		return geom.Prism{High: 2.4, Base: geom.Region{Outer: geom.Ring{
			geom.FromMetres(x0, 0), geom.FromMetres(x1, 0), geom.FromMetres(x1, 3), geom.FromMetres(x0, 3),
		}}}
	}
	return []geom.Prism{room(0, 4), room(4.1, 7.1)}
}

func ExampleWalls() {
	for _, w := range geom.Walls(twoRooms(), 0.25) {
		if w.B != geom.Exposed {
			fmt.Printf("rooms %d and %d share %.1f m of wall, %.0f mm thick\n", w.A, w.B, w.CentreLine().Length(), w.Thickness*1000)
		}
	}
	// Output: rooms 0 and 1 share 3.0 m of wall, 100 mm thick
}

func ExampleOutline() {
	prisms := twoRooms()
	outline, err := geom.Outline(prisms, geom.Walls(prisms, 0.25), 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	width, depth := outline.Bounds().Size()
	fmt.Printf("%.2f m by %.2f m, %.2f m2\n", width, depth, outline.AreaM2())
	// Output: 7.60 m by 3.50 m, 26.60 m2
}

func ExampleShares() {
	prisms := twoRooms()
	outline, err := geom.Outline(prisms, geom.Walls(prisms, 0.25), 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	shares, err := geom.Shares(outline, prisms, []int{0, 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, p := range prisms {
		fmt.Printf("room %d: %.2f m2 within its walls, %.2f m2 to the middle of them\n", i, p.Base.AreaM2(), shares[i])
	}
	// Output:
	// room 0: 12.00 m2 within its walls, 15.05 m2 to the middle of them
	// room 1: 9.00 m2 within its walls, 11.55 m2 to the middle of them
}

func ExampleContacts() {
	prisms := twoRooms()
	prisms[1].Base = prisms[0].Base
	prisms[1].Low, prisms[1].High, prisms[1].Layer = 2.7, 5.1, 1
	floors, err := geom.Contacts(prisms, 0.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range floors {
		fmt.Printf("%d lies over %d: %.1f m2 of floor, %.2f m deep\n", f.Above, f.Below, f.AreaM2(), f.Depth)
	}
	// Output: 1 lies over 0: 12.0 m2 of floor, 0.30 m deep
}

func ExampleBreaches() {
	// A bow tie:
	//
	//	|\/|
	//	|/\|
	tie := geom.Ring{geom.FromMetres(0, 0), geom.FromMetres(2, 2), geom.FromMetres(2, 0), geom.FromMetres(0, 2)}
	for _, b := range geom.Breaches([]geom.Ring{tie}) {
		x, y := b.At.Metres()
		fmt.Printf("%s at (%g, %g)\n", b.Kind, x, y)
	}
	// Output: self-crossing at (1, 1)
}

func ExampleVisualCentre() {
	// The label of an L-shaped room lies in the room:
	//
	//	+--+
	//	|  |
	//	|  +--+
	//	|     |
	//	+-----+
	ell := geom.Region{Outer: geom.Ring{
		geom.FromMetres(0, 0), geom.FromMetres(4, 0), geom.FromMetres(4, 2), geom.FromMetres(2, 2), geom.FromMetres(2, 4), geom.FromMetres(0, 4),
	}}
	at, clearance := geom.VisualCentre(ell)
	fmt.Println(ell.Contains(at) == geom.Inside, clearance > 1.1)
	// Output: true true
}

// A hall of two arms, 1.2 m and 0.9 m wide: the shortest way bends around its
// inner corner, and the narrower arm is as wide as the way is.
//
//	   +--+
//	   |  |
//	+--+  |
//	|     |
//	+-----+
func ExampleWalkway_Way() {
	hall := geom.Region{Outer: geom.Ring{
		geom.FromMetres(0, 0), geom.FromMetres(4, 0), geom.FromMetres(4, 3),
		geom.FromMetres(2.8, 3), geom.FromMetres(2.8, 0.9), geom.FromMetres(0, 0.9),
	}}
	way, length, _ := geom.NewWalkway(hall, 0).Way(geom.FromMetres(0, 0.45), geom.FromMetres(3.4, 3))
	fmt.Printf("%.2f m past %v\n", length, way[1])

	width, at, _ := geom.ClearWidth(hall,
		geom.Segment{A: geom.FromMetres(0, 0), B: geom.FromMetres(0, 0.9)},
		geom.Segment{A: geom.FromMetres(2.8, 3), B: geom.FromMetres(4, 3)})
	fmt.Printf("%.2f m wide at x = %.1f m\n", width, geom.Metres(at.A.X))
	// Output:
	// 5.02 m past {280000 90000}
	// 0.90 m wide at x = 2.8 m
}
