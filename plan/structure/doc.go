// Package structure sizes a beam for an opening in a wall that may bear: loads
// by the width that it carries, moment, shear, deflection and bearing, in
// built-up lumber or laminated veneer lumber (LVL).
//
// What it finds is preliminary, for a first price and headroom. An engineer
// decides, on what is really there: where loads come down from above, what
// carries the posts, and how the wall is held up while the work is done.
//
// Lengths are metres, sections millimetres, loads kilopascals and kilonewtons,
// stresses megapascals. Strength is by allowable stress. The package knows no
// houses.
package structure
