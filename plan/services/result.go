package services

import "moiety/plan/published"

// Line is one step of a calculation: what, from which numbers, and how much.
type Line struct {
	What  string  `json:"what"`
	From  string  `json:"from,omitempty"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
}

// Result is a quantity that was worked out, and how.
type Result struct {
	// Method is the name of the method; Lines are its steps with their inputs.
	Method string  `json:"method"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Lines  []Line  `json:"lines"`
	// Sources are those of the figures used, each once.
	Sources []published.Source `json:"sources"`
	// Caution says what the result leaves out and who decides.
	Caution string `json:"caution"`
}

// Status is the weakest status of the sources: a result that rests on one
// figure from memory is itself from memory.
func (r Result) Status() published.Status {
	weakest := published.Read
	for _, source := range r.Sources {
		switch {
		case source.Status == published.Memory:
			return published.Memory
		case source.Status == published.Practice:
			weakest = published.Practice
		}
	}
	return weakest
}

// add appends a step and returns its value.
func (r *Result) add(what, from string, value float64, unit string) float64 {
	r.Lines = append(r.Lines, Line{What: what, From: from, Value: value, Unit: unit})
	return value
}

// rest names figures that the result rests on.
func (r *Result) rest(on ...published.Source) {
	for _, source := range on {
		known := false
		for _, have := range r.Sources {
			known = known || have == source
		}
		if !known {
			r.Sources = append(r.Sources, source)
		}
	}
}
