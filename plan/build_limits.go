package plan

// Every limit that is taken in working out cells and links, with its reason.
// Lengths are metres.
const (
	// offWall is how far a door, window or wall mark may lie off its wall: the
	// survey format mends 0.10 m; the rest is for the mending's own rounding.
	offWall = 0.12

	// thickest is the thickest wall between two facing edges (survey format).
	thickest = 0.60

	// leastPassage is the least width of an open boundary that a person gets
	// through, turned sideways (common practice, no source). What is narrower
	// is still open, and still has to be built up when its sides part.
	leastPassage = 0.45

	// leastRun is the length under which a run of wall is what a corner left
	// over: less than the thinnest partition is thick.
	leastRun = 0.03

	// settled is the length under which a piece is what rounding to the grid left.
	settled = 0.0002

	// doorStep is the greatest step that a door between two indoor levels makes
	// up: half a storey (common practice, no source).
	doorStep = 1.5

	// doorShare is how much of a door's height must lie within the space that
	// it opens to: half of a common leaf.
	doorShare = 1.0

	// usualDoor is the height of a door whose height was not surveyed:
	// 6 ft 8 in, the common leaf.
	usualDoor = 2.03

	// tallestSteps is the greatest difference in height that steps before a
	// door make up without having been surveyed as a flight: less than a
	// storey, so that a door on the upper floor over the yard is no way down
	// (common practice, no source).
	tallestSteps = 2.0

	// outdoorReach is how far beyond the wall an outdoor space may begin and
	// still be what a door or window looks on: a border or a window well that
	// nobody surveyed.
	outdoorReach = 0.60

	// sameDistance is the difference in distance at which two outdoor spaces
	// are equally near to a door, and the upper one is the one walked on: the
	// overhang of a porch floor.
	sameDistance = 0.30

	// outdoorStep is the greatest difference in height between two outdoor
	// spaces that is still walked: a few steps (common practice, no source).
	outdoorStep = 1.0

	// outdoorGap is the gap at which two outdoor spaces still touch: ground is
	// paced out, not taped.
	outdoorGap = 0.10

	// stairReach is how far beyond the end of its walk a flight may arrive: the
	// thickest wall.
	stairReach = 0.60

	// widestEnd is the width from which the edge over which a walk leaves its
	// flight is the flight's long side, left sideways; usualEnd is how much of
	// it people then walk over (common practice, no source).
	widestEnd = 2.0
	usualEnd  = 1.2

	// besideEnd is how far from the end of a walk a door beside the last step
	// may stand: half a common leaf and the width of half a flight.
	besideEnd = 1.0

	// deepestFloor is the greatest depth of a floor from the ceiling below to
	// the finish above: deep joists or trusses (0.40 m) with a dropped ceiling
	// and ducts below them (common practice, no source). What is deeper is a
	// place of its own that nobody surveyed.
	deepestFloor = 1.2

	// usualExterior is the thickness of an exterior wall of which the survey
	// shows nothing: a 140 mm stud wall with sheathing, cladding and lining
	// (common practice, no source).
	usualExterior = 0.20

	// leastOffset is the offset of an opening from the face of its wall under
	// which it was drawn on the face and says nothing of the thickness.
	leastOffset = 0.03

	// usualPartition is the thickness taken for a partition over the low end
	// of a flight whose line no other wall shares: a 90 mm stud and two 13 mm
	// boards (common practice, no source).
	usualPartition = 0.116

	// inLine is how far two runs may lie off each other's line and still be one
	// wall: two readings of a tape.
	inLine = 0.02

	// fixtureReach is how far from a space a fixture may lie and still be that
	// space's: within a wall or a shaft beside it.
	fixtureReach = 1.0

	// shaft is the area in square metres under which a hole in the outline of
	// a level that nobody surveyed is a shaft or a chimney, not a court.
	shaft = 4.0

	// sliverM2 is the overlap in square metres that the survey format takes
	// for inaccuracy.
	sliverM2 = 0.02
)
