package plan

// What a survey may hold. Lengths are metres, areas square metres.
const (
	// maxSurveyBytes is the largest survey file, 64 MiB by the survey format.
	maxSurveyBytes = 64 << 20

	// farthest is the largest coordinate or elevation: 10 km by the survey format.
	farthest = 10_000

	// maxCorners bounds the corners of one feature: far more than any room
	// has, few enough to compare every side with every other.
	maxCorners = 2_000

	// mostOverlap is how much two spaces of a level may overlap by an error
	// of measurement; the survey format says 0.02 m2. No space is smaller.
	mostOverlap = 0.02

	// leastFootprint is the smallest footprint of a fixture, one by one
	// centimetre: less is a line or a point.
	leastFootprint = 0.0001

	// ceilingSlack is how far a ceiling may pass the floor above by an error
	// of measurement: a tape is read to a centimetre.
	ceilingSlack = 0.01

	// farthestOffWall is how far beside its wall a door or window may be
	// drawn and is still moved onto it; the survey format says 0.10 m.
	farthestOffWall = 0.10

	// onLimit is how far a measurement may pass a limit and still be on it:
	// far more than the grid rounds where a house is turned on its lot, far
	// less than anybody measures.
	onLimit = 0.0005

	// pastWall is how far a door or window may run past the end of the faces
	// of its wall before the reader warns: as much as it may lie beside it.
	pastWall = 0.10

	// lookAround is how far a message looks for the wall that a door misses.
	lookAround = 5.0

	// landingReach is how far beyond a flight's end the space may begin that
	// it leads to: a wall with a door in it may stand between.
	landingReach = 0.60

	// landingStep is the spacing of the points that look for that space,
	// narrower than any space.
	landingStep = 0.05

	// longestFlight bounds that search: no flight of a house is as long.
	longestFlight = 50.0

	// mostProblems is how many problems and warnings end the comparison of
	// features with each other: a file with as many is no survey, and a heap of
	// overlaps would take long to list.
	mostProblems = 1000

	// garageHeight is taken for a garage on the outdoor level whose height
	// was not surveyed: a common clear height, no source.
	garageHeight = 2.40

	// leastGarageHeight is the height to which a floor above may bring that
	// down: a car and a person still get in (no source).
	leastGarageHeight = 1.80
)

// What a number of a survey may be: generous, to find slips of the pen (a
// height in centimetres, a minus sign) and nothing else.
var (
	coordinateLimits = limits{min: -farthest, max: farthest, length: true}
	heightLimits     = limits{min: 0, above: true, max: 30, length: true}
	openingLimits    = limits{min: 0, above: true, max: 15, length: true}
	sillLimits       = limits{min: 0, max: 15, length: true}
	widthLimits      = limits{min: 0, above: true, max: 30, length: true}
	northLimits      = limits{min: -360, max: 360}
	riserLimits      = limits{min: 1, max: 100, whole: true}
	ratingLimits     = limits{min: 0, max: 480, whole: true}
	capacityLimits   = limits{min: 0, above: true, max: 10_000}
)
