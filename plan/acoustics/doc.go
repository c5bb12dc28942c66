// Package acoustics rates sound insulation: STC by ASTM E413, Rw with C and
// Ctr by ISO 717-1, IIC by ASTM E989, Ln,w with CI by ISO 717-2; it estimates
// what no laboratory measured from mass alone, and puts a surface together
// from its parts by area.
//
// Levels and losses are in decibels, frequencies in hertz, areas in square
// metres, masses in kilograms per square metre. One-third-octave values come
// in an array of 16, lowest band first; STCBands and ISOBands name the bands.
// The package knows no houses, walls or rooms.
//
// A rating of parts or an estimate is no test: what is built transmits round
// the surface too (flanking), and a field test commonly reads some decibels
// less than the laboratory's.
package acoustics
