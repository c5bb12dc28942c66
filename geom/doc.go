// Package geom holds the plane shapes of a survey and what is worked out from
// them: overlays, the walls between facing edges, contacts between floors,
// outlines to the exterior face, and centres for labels. It knows shapes and
// vertical extents; it knows no houses.
//
// Coordinates are whole hundredths of a millimetre (UnitsPerMetre to the
// metre), x to the right and y up, so that orientation and crossing are
// decided exactly: a survey spans at most 10 km either side of its origin,
// 1e9 units, and the product of two differences stays below 2^63.
// Areas come out in square metres, lengths in metres, angles in degrees.
//
// A Ring is closed without repeating its first corner. Outer rings run
// counter-clockwise, holes clockwise.
package geom
