package plan

// Plant, in metres: sizes of the trade, as in nominalSizes (common practice, no
// source); what is bought decides, and whoever installs it.
var (
	furnacePiece = piece{
		use: "furnace", wide: 0.55, deep: 0.75, high: 1.60,
		clear: serviceFront, front: serviceFront,
	}
	heaterPiece = piece{
		use: "water_heater", wide: 0.56, deep: 0.56, high: 1.60, pipe: wastePipe,
		clear: serviceFront, front: serviceFront,
	}
	panelPiece = piece{
		use: "electrical_panel", wide: 0.37, deep: 0.10, high: panelHeadroom,
		clear: panelWidth, front: panelFront,
	}
	// A shelf or rail that keeps a store a store: 24 in deep (closet-depth; from
	// memory), 1.20 m long and reached from 0.60 m before it (common practice, no source).
	shelfPiece = piece{wide: 1.20, deep: 24 * inch, high: 2.00, clear: 0.60, front: 0.60}
)

// panelHeadroom is the height of the space in front of a panel: 6 ft 6 in
// (NEC 110.26, from memory).
const panelHeadroom = 78 * inch

// panelWant places a panel where there is the height for its working space.
var panelWant = want{"electrical panel", func(r *fitRoom, done []placed) []placed {
	if cell := &r.b.Cells[r.cell]; cell.Ceiling-cell.Floor < panelHeadroom-fitTolerance {
		return nil
	}
	return r.nearestDrainFirst(r.stand(panelPiece, 0, done))
}}
