// Package assembly describes what walls and floors between two dwellings are
// built of: layer by layer, with thickness, mass, fire rating and sound rating,
// and where each rating comes from. It holds the published table rows that were
// read, some generic build-ups, and a rule that rates what no table lists by
// the best published row that it contains.
//
// Thicknesses and spacings are metres, masses kilograms per square metre, fire
// ratings minutes, sound ratings STC and IIC in decibels of the laboratory. The
// package knows no houses.
//
// A published rating is that of a specimen built as described: fasteners,
// joints, edges and whatever passes through decide what is reached. Licensed
// practice and the local authority decide what is accepted.
package assembly
