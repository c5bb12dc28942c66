// Package plan knows houses: it reads a survey and a brief, works out walls,
// links and cells from them, states the partition of the house into two
// self-contained units, and turns the answer into a scheme with its works,
// quantities and areas. It draws nothing and opens no files.
//
// Lengths are metres, areas square metres, elevations metres above the
// survey's datum, angles degrees, whatever the survey's own unit.
package plan
