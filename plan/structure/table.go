package structure

import (
	"slices"

	"moiety/plan/published"
)

// TableSpan is the clear span in metres that the published table of built-up
// beams, which carry one floor of dwellings, gives a number of plies 38 mm thick
// of a depth. The supported length is half the sum of the joists' spans on both
// sides, in metres; between two rows it is interpolated. Below the table's least
// supported length its row holds; beyond its greatest, or for a size, species or
// grade that it lacks, there is none.
func TableSpan(species, grade string, plies int, depthMM, supportedM float64) (spanM float64, source published.Source, ok bool) {
	table := figures.BuiltUp
	size := -1
	for i, of := range table.Value.Sizes {
		if of.Plies == plies && of.DepthMM == depthMM {
			size = i
		}
	}
	if size < 0 {
		return 0, table.Source, false
	}
	type at struct{ supported, span float64 }
	var column []at
	for _, row := range table.Value.Rows {
		if row.Species == species && row.Grade == grade {
			column = append(column, at{row.SupportedM, row.SpansM[size]})
		}
	}
	slices.SortFunc(column, func(a, b at) int {
		if a.supported < b.supported {
			return -1
		}
		return 1
	})
	for i, row := range column {
		switch {
		case supportedM > row.supported:
		case i == 0:
			return row.span, table.Source, true
		default:
			below := column[i-1]
			part := (supportedM - below.supported) / (row.supported - below.supported)
			return below.span + part*(row.span-below.span), table.Source, true
		}
	}
	return 0, table.Source, false
}
