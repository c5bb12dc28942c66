package partition

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// Answer is what a general solver made of the LP file of a problem.
type Answer struct {
	Solver string         // HiGHS, CBC or GLPK
	Status string         // in the solver's words
	Claim  Claim          // what that means
	Price  float64        // of the objective, as the solver says; 0 without values
	Values []float64      // per column of the file; nil where the answer has none
	places map[string]int // of the columns
}

// Claim is what a solver says of its values.
type Claim uint8

// The claims.
const (
	// ClaimsNothing: it was stopped before it found values, or says something else.
	ClaimsNothing Claim = iota
	// ClaimsScheme: the values keep the rows; nothing is said of the best.
	ClaimsScheme
	// ClaimsOptimal: no values are better.
	ClaimsOptimal
	// ClaimsNone: no values keep the rows.
	ClaimsNone
)

// maxAnswerFaults is how many faults of an answer are listed.
const maxAnswerFaults = 20

// ReadAnswer reads a general solver's answer to the LP file that WriteLP
// writes of the problem: a solution file of HiGHS in its raw style, of CBC, or
// of GLPK's glpsol, printed (-o) or plain (-w). Which it is shows in its first
// lines. It is read strictly: every column must be named once and be one of the
// file's (CBC leaves out those that are 0), and numbers must be finite. The
// error of an answer that cannot be read is an AnswerFaults.
func ReadAnswer(r io.Reader, p *Problem) (*Answer, error) {
	l, err := newLinear(p, LPOptions{})
	if err != nil {
		return nil, err
	}
	return readAnswer(r, l.columns())
}

func readAnswer(r io.Reader, columns []string) (*Answer, error) {
	a := &answerReader{columns: columns, answer: &Answer{places: make(map[string]int, len(columns))}}
	for i, name := range columns {
		a.answer.places[name] = i
	}
	scanner := bufio.NewScanner(r)
	scanner.Buffer(nil, 1<<20)
	for scanner.Scan() {
		a.lines = append(a.lines, strings.TrimRight(scanner.Text(), " \t\r"))
	}
	if err := scanner.Err(); errors.Is(err, bufio.ErrTooLong) {
		return nil, AnswerFaults{{Line: len(a.lines) + 1, Message: "longer than any line of a solver's answer"}}
	} else if err != nil {
		return nil, err
	}
	a.read()
	if len(a.faults) > 0 {
		return nil, a.faults
	}
	return a.answer, nil
}

// AnswerFaults is the error of an answer that cannot be read: what is wrong
// with it, in the order of its lines.
type AnswerFaults []AnswerFault

// AnswerFault is one thing that is wrong with an answer.
type AnswerFault struct {
	Line    int // from 1
	Message string
}

// Error gives the faults, one a line.
func (f AnswerFaults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fmt.Sprintf("line %d: %s", fault.Line, fault.Message)
	}
	return strings.Join(lines, "\n")
}

// answerReader reads one answer line by line.
type answerReader struct {
	columns []string
	lines   []string
	at      int // of the line after the one read last
	answer  *Answer
	seen    []bool
	faults  AnswerFaults
	full    bool // no more faults are listed
}

func (a *answerReader) read() {
	for a.at < len(a.lines) && a.lines[a.at] == "" {
		a.at++
	}
	if a.at == len(a.lines) {
		a.fail("the answer is empty")
		return
	}
	switch first := a.lines[a.at]; {
	case first == "Model status" || strings.HasPrefix(first, "Running HiGHS"):
		a.highs()
	case strings.HasPrefix(first, "Problem:"):
		a.printed()
	case strings.HasPrefix(first, "c Problem:") || strings.HasPrefix(first, "s mip "):
		a.plain()
	case strings.Contains(first, " - objective value "):
		a.cbc()
	case first == "Columns":
		a.fail("a solution of HiGHS in its style for people; write it in the raw style (write_solution_style 0)")
	default:
		a.fail("no solution file of HiGHS, CBC or glpsol begins with %q", abridged(first))
	}
}

// next gives the next line that is not empty; false at the end.
func (a *answerReader) next() (string, bool) {
	for a.at < len(a.lines) {
		a.at++
		if line := a.lines[a.at-1]; line != "" {
			return line, true
		}
	}
	return "", false
}

// fail notes a fault of the line read last.
func (a *answerReader) fail(format string, args ...any) {
	fault := AnswerFault{Line: max(a.at, 1), Message: fmt.Sprintf(format, args...)}
	if a.full {
		return
	}
	if a.full = len(a.faults) == maxAnswerFaults; a.full {
		fault.Message = "more is wrong from here on"
	}
	a.faults = append(a.faults, fault)
}

// begin makes room for values.
func (a *answerReader) begin() {
	a.answer.Values = make([]float64, len(a.columns))
	a.seen = make([]bool, len(a.columns))
}

// set takes the value of a column by its name.
func (a *answerReader) set(name, number string) {
	i, known := a.answer.places[name]
	if !known {
		a.fail("no column of the LP file is called %q: is it the answer to another file?", abridged(name))
		return
	}
	a.setAt(i, number)
}

func (a *answerReader) setAt(i int, number string) {
	if a.seen[i] {
		a.fail("%s has a second value", a.columns[i])
		return
	}
	a.seen[i] = true
	a.answer.Values[i], _ = a.number(a.columns[i], number)
}

// number reads a finite number.
func (a *answerReader) number(what, text string) (float64, bool) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		a.fail("%s is %q, which is no number", what, abridged(text))
		return 0, false
	}
	return v, true
}

// count reads a number of rows or columns.
func (a *answerReader) count(what, text string) (int, bool) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		a.fail("%s: %q is no count", what, abridged(text))
		return 0, false
	}
	return n, true
}

// complete finds out that every column has a value.
func (a *answerReader) complete() {
	if len(a.faults) > 0 {
		return
	}
	for i, seen := range a.seen {
		if !seen {
			a.fail("%s has no value", a.columns[i])
		}
	}
}

// abridged keeps what is quoted short.
func abridged(text string) string {
	if len(text) > 60 {
		return strings.ToValidUTF8(text[:57], "") + "..."
	}
	return text
}
