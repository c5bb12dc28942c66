// Package published holds figures that come from somewhere: a value with the
// clause, edition and document that print it, and whether that was read or is
// known from memory. It knows nothing of houses.
package published

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// Status says how far a figure can be relied on.
type Status string

// The statuses that a figure can have.
const (
	// Read: the figure was seen in the source's text, or in a transcription that the source names.
	Read Status = "read"
	// Memory: the figure is known, and no text of it was seen. Whoever is shown it is told so.
	Memory Status = "memory"
	// Practice: common practice of the trade, with no source.
	Practice Status = "common practice, no source"
)

// Source is where a figure comes from.
type Source struct {
	// Standard is the standard, code or method: "ASTM E413".
	Standard string `json:"standard"`
	// Clause of the standard, where there is one.
	Clause string `json:"clause,omitempty"`
	// Edition of the standard, where it is known.
	Edition string `json:"edition,omitempty"`
	// Seen is where the text was read: a title and, where there is one, an address.
	Seen string `json:"seen,omitempty"`
	// Status is Read, Memory or Practice.
	Status Status `json:"status"`
}

// String cites the source in one line: "ASTM E413 Table 1 (E413-22)", with a
// word on its status where it was not read.
func (s Source) String() string {
	var b strings.Builder
	b.WriteString(s.Standard)
	if s.Clause != "" {
		b.WriteString(" " + s.Clause)
	}
	if s.Edition != "" {
		b.WriteString(" (" + s.Edition + ")")
	}
	switch s.Status {
	case Memory:
		b.WriteString(", from memory")
	case Practice:
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		b.WriteString(string(Practice))
	}
	return b.String()
}

// Figure is a value and its source. T says what the value is.
type Figure[T any] struct {
	Value T `json:"value"`
	Source
}

// Decode reads a file of figures strictly: an unknown key or a figure without
// a standard or a status is an error. It is meant for files that are embedded
// in the program, so a fault in one is a fault of the program.
func Decode[T any](file []byte) (T, error) {
	var all T
	read := json.NewDecoder(bytes.NewReader(file))
	read.DisallowUnknownFields()
	if err := read.Decode(&all); err != nil {
		return all, fmt.Errorf("published: figures: %w", err)
	}
	if _, err := read.Token(); !errors.Is(err, io.EOF) {
		return all, errors.New("published: figures: something follows the last")
	}
	if err := complete(file); err != nil {
		return all, err
	}
	return all, nil
}

// MustDecode is Decode of a file that is part of the program.
// It panics if the file is faulty.
func MustDecode[T any](file []byte) T {
	all, err := Decode[T](file)
	if err != nil {
		panic(err)
	}
	return all
}

// complete reports the first figure, an object with a "value", that lacks a
// standard or a known status.
func complete(file []byte) error {
	var tree any
	if err := json.Unmarshal(file, &tree); err != nil {
		return fmt.Errorf("published: figures: %w", err)
	}
	return completeWithin("", tree)
}

func completeWithin(at string, tree any) error {
	switch tree := tree.(type) {
	case []any:
		for i, of := range tree {
			if err := completeWithin(fmt.Sprintf("%s[%d]", at, i), of); err != nil {
				return err
			}
		}
	case map[string]any:
		if _, figure := tree["value"]; figure {
			switch status, _ := tree["status"].(string); Status(status) {
			case Read, Memory, Practice:
			default:
				return fmt.Errorf("published: %s: status %q is none of %q, %q, %q", at, status, Read, Memory, Practice)
			}
			if standard, _ := tree["standard"].(string); standard == "" {
				return fmt.Errorf("published: %s: no standard", at)
			}
			return nil
		}
		var errs []error
		for key, of := range tree {
			errs = append(errs, completeWithin(at+"."+key, of))
		}
		return first(errs)
	}
	return nil
}

// first is the error whose text comes first, so that a file has one fault and
// not one at random.
func first(errs []error) error {
	var least error
	for _, err := range errs {
		if err != nil && (least == nil || err.Error() < least.Error()) {
			least = err
		}
	}
	return least
}
