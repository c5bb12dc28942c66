package plan

import "slices"

// A bathroom that is built into a corner of a large unfinished room, in
// metres: bath or shower, wc and basin side by side along one wall, each with
// its bay, partitions at the ends and in front, a door before the basin that
// opens outwards. With a bath it is the usual 60 by 90 in inside.
const (
	// builtBathroomRoomM2 is the area above which nobody makes a bathroom of all
	// of a room (common practice, no source).
	builtBathroomRoomM2 = 12.0
	// builtBathroomDeep is its depth inside: a bath's length, and more than wc,
	// basin and shower are deep with the clear spaces before them.
	builtBathroomDeep = 60 * inch
	// builtBathroomDoor is the width of its doorway: a leaf of 28 in (common
	// practice, no source).
	builtBathroomDoor = 28 * inch
	// builtBathroomFront is the floor before the doorway into which the leaf
	// swings, and from which it is opened.
	builtBathroomFront = 0.90
)

// besideBuiltBathroom are the functions that may go on in a room into which a
// bathroom is built. A bedroom is not among them: others would have to pass it.
var besideBuiltBathroom = setOf(HasKitchen, HasLiving, HasLaundry, HasHeat, HasHotWater, HasPanel, HasStorage)

// buildsBathroom tells whether a bathroom would be built into the cell rather
// than made of it.
func (b *Building) buildsBathroom(c int) bool {
	cell := &b.Cells[c]
	return cell.Use == Unfinished && !cell.is(Bathroom) && cell.AreaM2 >= builtBathroomRoomM2
}

// builtBathroom gives the parts of one, the bathing place at its start along
// the wall or at its end, and its width outside.
func builtBathroom(bathing piece, atEnd bool) (parts []part, outside float64) {
	across, along := bathing.wide, bathing.deep
	if bathing.use == bathPiece.use {
		across, along = along, across // its length runs off the wall
	}
	wide := across + 2*fixtureBay
	outside = wide + 2*closetWall
	deep := builtBathroomDeep + closetWall
	place := func(p piece, bay span, across, along float64) part {
		middle := (bay.from + bay.to) / 2
		return part{
			role: aBody, x: bay, off: span{0, deep}, high: closetHigh, use: p.use, pipe: p.pipe, closet: true,
			drawn: [2]span{{middle - across/2, middle + across/2}, {0, along}},
		}
	}
	bays := []span{{0, across}, {across, across + fixtureBay}, {across + fixtureBay, wide}}
	middle := (bays[2].from + bays[2].to) / 2
	door := span{middle - builtBathroomDoor/2, middle + builtBathroomDoor/2}
	parts = []part{
		place(bathing, bays[0], across, along), place(wcPiece, bays[1], wcPiece.wide, wcPiece.deep), place(basinPiece, bays[2], basinPiece.wide, basinPiece.deep),
	}
	turned := func(s span) span {
		if atEnd {
			s = span{wide - s.to, wide - s.from}
		}
		return span{s.from + closetWall, s.to + closetWall}
	}
	door = turned(door)
	for i := range parts {
		p := &parts[i]
		p.x, p.drawn[0], p.door = turned(p.x), turned(p.drawn[0]), door
		if p.x.from <= closetWall+fitTolerance {
			p.x.from = 0
		}
		if p.x.to >= outside-closetWall-fitTolerance {
			p.x.to = outside
		}
	}
	slices.SortFunc(parts, func(p, q part) int {
		if p.x.from < q.x.from {
			return -1
		}
		return 1
	})
	return append(parts, part{role: aClear, x: door, off: span{deep, deep + builtBathroomFront}}), outside
}

// builtBathroomWant places one: with a bath, or behind it in order a shower.
var builtBathroomWant = want{"built bathroom", func(r *fitRoom, done []placed) []placed {
	var out []placed
	for variant, bathing := range [...]piece{bathPiece, showerPiece} {
		for _, atEnd := range [...]bool{false, true} {
			parts, _ := builtBathroom(bathing, atEnd)
			out = append(out, r.along(parts, false, variant, done)...)
		}
	}
	return r.nearestDrainFirst(out)
}}
