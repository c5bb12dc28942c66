// Package rules holds rule sets: the figures that building codes and standards
// set for a house parted into two units, each with its clause, edition, source
// and whether it was read or is known from memory. It knows no houses: what a
// figure is compared with is somebody else's.
//
// Lengths are metres, areas square metres, times minutes, angles degrees and
// shares parts of one, whatever unit a figure was written in.
//
// None of this is the law anywhere: municipalities amend it, and theirs decides.
package rules
