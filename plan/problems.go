package plan

import (
	"fmt"
	"slices"
	"strings"
)

// Problem is one thing that is wrong with a file.
type Problem struct {
	Feature string // id of the feature, level or unit; "" where it is the whole file
	Place   string // path in the file, such as features[3].properties.use
	Line    int    // from 1; 0 where the file has no such place
	Column  int    // from 1, in characters
	Message string // a sentence
}

// Problems is the error of a file that cannot be used: everything that is
// wrong with it, sorted by place.
type Problems struct {
	File string
	List []Problem
}

// Error gives the problems, one a line, as FILE:LINE:COLUMN: FEATURE: MESSAGE [PLACE].
func (p *Problems) Error() string {
	lines := make([]string, len(p.List))
	for i, problem := range p.List {
		lines[i] = p.File + ":" + problem.String()
	}
	return strings.Join(lines, "\n")
}

// String gives the problem on one line, without the file.
func (p Problem) String() string {
	var b strings.Builder
	if p.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", p.Line, p.Column)
	}
	b.WriteByte(' ')
	if p.Feature != "" {
		b.WriteString(quoteUnlessPlain(p.Feature) + ": ")
	}
	b.WriteString(p.Message)
	if p.Place != "" {
		b.WriteString(" [" + p.Place + "]")
	}
	return b.String()
}

// add notes a problem at a node; n may be nil for the whole file.
func (p *Problems) add(n *node, feature, format string, args ...any) {
	problem := Problem{Feature: feature, Message: fmt.Sprintf(format, args...)}
	if n != nil {
		problem.Place, problem.Line, problem.Column = n.place(), int(n.line), int(n.column)
	}
	p.List = append(p.List, problem)
}

// err sorts the problems and returns them as an error, nil where there are none.
func (p *Problems) err() error {
	if len(p.List) == 0 {
		return nil
	}
	slices.SortStableFunc(p.List, func(a, b Problem) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	p.List = slices.Compact(p.List)
	return p
}
