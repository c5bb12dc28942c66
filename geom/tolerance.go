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

	// sliver is the width under which a piece of an overlay is a remnant of
	// rounding and not a shape: twenty grid units, a fifth of a millimetre.
	// Rounding moves a corner by less than one unit, and a chain of a few
	// overlays by a few.
	sliver = 0.0002

	// centreStep is the precision of a visual centre.
	centreStep = 0.005

	// centreShare is the part of the greatest clearance that a visual centre
	// must have. The two per cent given up let it lie close to the centroid, so
	// that it does not jump along a room that is equally wide all the way.
	centreShare = 0.98
)
