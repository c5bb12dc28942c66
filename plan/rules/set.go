package rules

import (
	"fmt"
	"slices"
	"strings"
)

// Status says how a figure is known.
type Status string

// The statuses.
const (
	Read   Status = "read"   // seen in the text that the source names
	Memory Status = "memory" // known, not seen: whoever relies on it is told so
	Own    Status = "own"    // from a file of the user's
)

// Statuses lists all statuses.
func Statuses() []Status { return []Status{Read, Memory, Own} }

// Says tells what a reader is to know of a status; "" of one that was read.
func (s Status) Says() string {
	switch s {
	case Memory:
		return "from memory"
	case Own:
		return "from the rule file given"
	}
	return ""
}

// Figure is one figure of a set.
type Figure struct {
	Term
	Limit   Measure
	Advice  bool // advice, no limit: missing it is said, not held against the house
	When    string
	Clause  string
	Edition string
	Source  Source
	Status  Status
}

// Source is where a figure was read.
type Source struct {
	Title string
	URL   string // "" where it was read nowhere
}

// Value is the limit in metres, square metres, minutes, degrees or parts of one.
func (f Figure) Value() float64 { return f.Limit.Value() }

// Yes tells whether a truth is asked.
func (f Figure) Yes() bool { return f.Limit.Number != 0 }

// Meets tells whether a value, in the same unit as Value, meets the limit. A
// value that misses it by no more than the tolerance of its quantity does.
func (f Figure) Meets(value float64) bool {
	limit := f.Value()
	slack := tolerance(f.Quantity, limit)
	switch f.Sense {
	case AtLeast:
		return value >= limit-slack
	case AtMost:
		return value <= limit+slack
	}
	return (value != 0) == f.Yes()
}

// Limits tells whether the figure says a limit. One that says none stands for
// what is measured though a set has no figure for it.
func (f Figure) Limits() bool {
	return f.Quantity == Truth || f.Quantity == Count || f.Limit.Unit != ""
}

// Required gives the limit in words: at least 5.7 ft2.
func (f Figure) Required() string {
	switch {
	case !f.Limits():
		return "no figure in the set"
	case f.Quantity == Truth && f.Yes():
		return "required"
	case f.Quantity == Truth:
		return "not required"
	case f.Sense == AtMost:
		return "at most " + f.Limit.String()
	case f.Sense == AtLeast:
		return "at least " + f.Limit.String()
	}
	return f.Limit.String()
}

// Set is a rule set. Its figures stand in the order of the vocabulary.
type Set struct {
	ID      string
	Name    string
	Base    string // the set that a user's file builds on; "" of a shipped one
	Note    string
	Lengths Lengths
	Figures []Figure
}

// Get gives the figure of an id; ok is false where the set says nothing of it.
func (s *Set) Get(id ID) (f Figure, ok bool) {
	for _, f := range s.Figures {
		if f.ID == id {
			return f, true
		}
	}
	return Figure{}, false
}

// Asks tells whether the set asks for a truth.
func (s *Set) Asks(id ID) bool {
	f, ok := s.Get(id)
	return ok && f.Yes()
}

// Put adds a figure, or puts it in the place of the one with its id.
func (s *Set) Put(f Figure) {
	order := termIndex[f.ID]
	i, found := slices.BinarySearchFunc(s.Figures, order, func(f Figure, order int) int { return termIndex[f.ID] - order })
	if found {
		s.Figures[i] = f
		return
	}
	s.Figures = slices.Insert(s.Figures, i, f)
}

// Drop takes a figure out.
func (s *Set) Drop(id ID) {
	s.Figures = slices.DeleteFunc(s.Figures, func(f Figure) bool { return f.ID == id })
}

// Clone gives a copy that can be changed alone.
func (s *Set) Clone() *Set {
	c := *s
	c.Figures = slices.Clone(s.Figures)
	return &c
}

// FromMemory counts the figures that were not seen in any text.
func (s *Set) FromMemory() int {
	n := 0
	for _, f := range s.Figures {
		if f.Status == Memory {
			n++
		}
	}
	return n
}

// validate checks what the types cannot hold.
func (f Figure) validate() error {
	var missing []string
	for _, need := range []struct{ name, value string }{{"clause", f.Clause}, {"edition", f.Edition}, {"source", f.Source.Title}} {
		if strings.TrimSpace(need.value) == "" {
			missing = append(missing, need.name)
		}
	}
	if len(missing) > 0 {
		return fmt.Errorf("rules: %s lacks %s", f.ID, strings.Join(missing, ", "))
	}
	if f.Status == Read && f.Source.URL == "" {
		return fmt.Errorf("rules: %s is said to be read, but not where", f.ID)
	}
	return nil
}
