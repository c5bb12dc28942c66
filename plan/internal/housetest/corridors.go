package housetest

import (
	"fmt"

	"moiety/geom"
	"moiety/plan"
)

// Sizes of the generated house, in metres.
const (
	flightLength  = 4.0
	landingDepth  = 1.2
	roomWidth     = 3.2
	roomDepth     = 3.6
	corridorWidth = 2.0
	wallBetween   = 0.12
	wallOutside   = 0.25
	storey        = 2.8
	clearHeight   = 2.44
	roomsOnLevel  = 30
)

// Corridors generates a house of about so many rooms: on each level two rows
// of rooms along a corridor, with a stair room at its end, a yard, a drive and
// a street on the site. Every room has a door to its corridor and a window;
// the lowest corridor has a door to the yard. The same number gives the same house.
func Corridors(rooms int) *plan.House {
	levels := (rooms + roomsOnLevel - 1) / roomsOnLevel
	row := (rooms + 2*levels - 1) / (2 * levels)
	length := float64(row)*(roomWidth+wallBetween) - wallBetween
	d := New(fmt.Sprintf("House of %d rooms", rooms))
	d.Site("site", -0.3)
	for l := range levels {
		d.Level(fmt.Sprintf("level-%d", l), storey*float64(l), clearHeight)
	}
	top := roomDepth + wallBetween + corridorWidth + wallBetween // front of the back row
	left := rooms
	for l := range levels {
		level := fmt.Sprintf("level-%d", l)
		corridor := fmt.Sprintf("hall-%d", l)
		d.Room(corridor, plan.Hall, level, 0, roomDepth+wallBetween, length, top-wallBetween)
		for i := range row {
			x := float64(i) * (roomWidth + wallBetween)
			for side, y := range [...]float64{0, top} {
				if left == 0 {
					break
				}
				left--
				id := fmt.Sprintf("room-%d-%d-%d", l, i, side)
				d.Room(id, usesInTurn[(7*i+3*side+l)%len(usesInTurn)], level, x, y, x+roomWidth, y+roomDepth)
				doorY, windowY := roomDepth+wallBetween/2, -wallOutside/2
				if side == 1 {
					doorY, windowY = top-wallBetween/2, top+roomDepth+wallOutside/2
				}
				d.Door("door-"+id, level, x+0.3, doorY, x+1.1, doorY)
				d.Window("window-"+id, level, 0.8, 1.3, x+0.8, windowY, x+2.2, windowY)
			}
		}
		if l+1 < levels {
			d.stairwell(l, length)
		}
	}
	d.Door("door-front", "level-0", -wallOutside/2, roomDepth+wallBetween+0.25, -wallOutside/2, roomDepth+wallBetween+1.15)
	bottom, upper := -wallOutside, top+roomDepth+wallOutside
	house := geom.Ring{
		geom.FromMetres(-wallOutside, bottom), geom.FromMetres(length+wallOutside, bottom),
		geom.FromMetres(length+wallOutside, upper), geom.FromMetres(-wallOutside, upper),
	}
	yard := geom.Ring{
		geom.FromMetres(-12, -8), geom.FromMetres(length+12, -8), geom.FromMetres(length+12, upper+8), geom.FromMetres(-12, upper+8),
	}
	d.Space("yard", plan.Yard, "site", geom.Region{Outer: yard, Holes: []geom.Ring{house.Reverse()}})
	d.Room("drive", plan.Drive, "site", -12, -14, -6, -8)
	d.Room("street", plan.Street, "site", -12, -20, length+12, -14)
	return d.House()
}

// stairwell adds the flight from a level to the next in a bay at the end of
// the corridor, east and west in turn; on the upper level a landing leads from
// its head around the void back to the corridor.
//
//	corridor | landing            |
//	         |--------------+     |
//	         | flight  >    |     |
func (d *Draft) stairwell(l int, length float64) {
	level, next := fmt.Sprintf("level-%d", l), fmt.Sprintf("level-%d", l+1)
	y0 := roomDepth + wallBetween
	mid, y1 := y0+corridorWidth/2, y0+corridorWidth
	at := func(x float64) float64 { return length + x }
	up := "e"
	if l%2 == 1 {
		at = func(x float64) float64 { return -x }
		up = "w"
	}
	x0, x1, x2 := at(0), at(flightLength), at(flightLength+landingDepth)
	d.Flight(fmt.Sprintf("flight-%d", l), level, next, up, min(x0, x1), y0, max(x0, x1), mid)
	d.Room(fmt.Sprintf("landing-%d", l+1), plan.Hall, next, x0, mid, x1, mid, x1, y0, x2, y0, x2, y1, x0, y1)
}

var usesInTurn = [...]plan.Use{
	plan.Bedroom, plan.Living, plan.Bathroom, plan.Kitchen, plan.Storage, plan.Bedroom, plan.Laundry, plan.Office, plan.Family, plan.Mechanical,
}
