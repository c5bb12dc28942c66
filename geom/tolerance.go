package geom

// Every tolerance of the package, each with its reason. Lengths are metres,
// areas square metres, angles degrees.
const (
	// Coincide is the greatest gap at which two edges count as one: a tape is
	// read to about a centimetre, and the survey format says 10 mm.
	Coincide = 0.010

	// ThickestWall is the greatest gap between facing edges that is a wall
	// rather than a place that nobody surveyed; the survey format says 0.60 m.
	ThickestWall = 0.60

	// DeepestOverlap is how far the edges of two prisms may lie within each
	// other and still count as coinciding: a survey may have spaces that overlap
	// by a hand's breadth of slivers, and they have no wall between them.
	DeepestOverlap = 0.05

	// FacingAngle is the angle, in degrees, by which two facing edges may lean
	// towards each other. Walls of old houses are out of parallel by a degree or
	// two, and a survey to the centimetre turns a short edge by as much again;
	// edges that lean by more meet in a corner.
	FacingAngle = 10

	// ShortestWall is the length under which a stretch is a corner bit and not a wall.
	ShortestWall = 0.05

	// LowestWall is the height under which the vertical extents of two prisms
	// only touch.
	LowestWall = 0.05

	// LowestExposed is the height from which an uncovered band of an edge is an
	// exterior wall. The floor assembly between two half levels, which nothing
	// faces either, is lower.
	LowestExposed = 0.60

	// headHeight is the height given to a boundary between two outdoor prisms,
	// which have no ceiling: a fence that a person does not see over.
	headHeight = 2.0

	// between is the distance by which something must lie in front of an edge to
	// hide it: ten grid units, more than the rounding of a turned house.
	between = 0.0001

	// sameFloor is the difference in height up to which two outdoor floors are level.
	sameFloor = 0.01

	// NarrowestContact is the mean width under which an overlap of two levels is
	// no floor: as much as two measurings of one wall differ.
	NarrowestContact = 0.02

	// DeepestOverlapOfFloors is how far a floor may lie below the ceiling under
	// it, where heights were measured separately.
	DeepestOverlapOfFloors = 0.05

	// NarrowestSlot is the width under which a slot between two exterior walls
	// is filled: no wall stands between two faces of masonry a hand apart.
	NarrowestSlot = 0.30

	// NarrowestCourt is the width under which a void closed in by exterior walls
	// is a chimney or a shaft and not outdoors: nobody could stand in it.
	NarrowestCourt = 0.60

	// SharpestMitre is the longest mitre, in wall thicknesses, to which two
	// exterior faces are prolonged; at a corner sharper than about 30 degrees
	// they are joined across.
	SharpestMitre = 4

	// lap is by how much the parts of an outline lie over each other, so that
	// rounding leaves no gap: five grid units.
	lap = 0.00005

	// cornerLap is lap for the faces of two rooms that are prolonged from their
	// corners to the end of the wall between them. A survey to the centimetre
	// leaves them out of parallel by a degree or so, and an exterior wall is
	// less than half a metre thick.
	cornerLap = 0.01

	// bent is how far a corner of an outline may lie off the line through its
	// neighbours and still be dropped: twice what lap and rounding make.
	bent = 0.00015

	// sliver is the width under which a piece of an overlay is a remnant of
	// rounding and not a shape: twenty grid units, a fifth of a millimetre.
	// Rounding moves a corner by less than one unit, and a chain of a few
	// overlays by a few.
	sliver = 0.0002

	// seam is the distance, in grid units, at which corners and edges of the
	// shapes of an overlay coincide. Points that were one before a plan was
	// turned, or that were worked out in two ways, are rounded to within two.
	seam = 3

	// centreStep is the precision of a visual centre.
	centreStep = 0.005

	// centreShare is the part of the greatest clearance that a visual centre
	// must have. The two per cent given up let it lie close to the centroid, so
	// that it does not jump along a room that is equally wide all the way.
	centreShare = 0.98
)
