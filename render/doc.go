// Package render draws: it turns a surveyed building, or a scheme that divides
// it, into sheets at a standard scale, and writes them as PDF and SVG. It
// knows ink and paper; it decides nothing about the house.
//
// On a sheet lengths are millimetres of paper, the origin is the lower left
// corner of the trimmed sheet and y runs up. Heights of text are heights of
// its capital letters. Angles are degrees, counter-clockwise.
//
// The conventions followed, where each is used: sheet sizes and frames ISO
// 5457, title block ISO 7200, scales ISO 5455, line widths ISO 128, lettering
// heights ISO 3098, dimensions ISO 129-1, plans ISO 7519, existing and new
// work ISO 7518.
package render
