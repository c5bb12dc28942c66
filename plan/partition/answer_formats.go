package partition

import (
	"strconv"
	"strings"
)

// The formats are those that the solvers wrote when these lines were: HiGHS
// 1.15, CBC 2.10, GLPK 5.0. testdata/answers has one of each.

// highs reads a raw solution of HiGHS.
func (a *answerReader) highs() {
	a.answer.Solver = "HiGHS"
	line, _ := a.next()
	for strings.HasPrefix(line, "Running HiGHS") || strings.HasPrefix(line, "Includes third-party") {
		line, _ = a.next()
	}
	if line != "Model status" {
		a.fail("%q where \"Model status\" should be", abridged(line))
		return
	}
	a.answer.Status, _ = a.next()
	if line, _ := a.next(); line != "# Primal solution values" {
		a.fail("%q where \"# Primal solution values\" should be", abridged(line))
		return
	}
	values, _ := a.next()
	switch {
	case a.answer.Status == "Infeasible":
		a.answer.Claim = ClaimsNone
		return
	case values == "None" || values == "Infeasible":
		return
	case values != "Feasible":
		a.fail("the values are %q: neither Feasible, Infeasible nor None", abridged(values))
		return
	}
	a.answer.Claim = ClaimsScheme
	if a.answer.Status == "Optimal" {
		a.answer.Claim = ClaimsOptimal
	}
	line, _ = a.next()
	price, ok := strings.CutPrefix(line, "Objective ")
	if !ok {
		a.fail("%q where the objective should be", abridged(line))
		return
	}
	a.answer.Price, _ = a.number("the objective", price)
	line, _ = a.next()
	columns, ok := strings.CutPrefix(line, "# Columns ")
	if !ok {
		a.fail("%q where the number of columns should be", abridged(line))
		return
	}
	if strings.HasPrefix(columns, "-") {
		a.fail("a sparse solution; write it in the raw style (write_solution_style 0)")
		return
	}
	n, ok := a.count("# Columns", columns)
	if !ok {
		return
	}
	if n != len(a.columns) {
		a.fail("%d columns, but the LP file has %d: is it the answer to another file?", n, len(a.columns))
		return
	}
	a.begin()
	for range n {
		line, ok := a.next()
		words := strings.Fields(line)
		if !ok || len(words) != 2 {
			a.fail("%q where a column and its value should be", abridged(line))
			return
		}
		a.set(words[0], words[1])
	}
	if line, _ := a.next(); !strings.HasPrefix(line, "# Rows ") {
		a.fail("%q where the rows should begin", abridged(line))
	}
	a.complete()
}

// cbc reads a solution file of CBC. It lists columns that are not 0, or all.
func (a *answerReader) cbc() {
	a.answer.Solver = "CBC"
	line, _ := a.next()
	status, price, _ := strings.Cut(line, " - objective value ")
	a.answer.Status = status
	lower := strings.ToLower(status)
	switch {
	case status == "Optimal":
		a.answer.Claim = ClaimsOptimal
	case lower == "infeasible" || lower == "integer infeasible":
		a.answer.Claim = ClaimsNone
		return
	case strings.Contains(lower, "no integer solution") || !strings.HasPrefix(lower, "stopped"):
		return
	default:
		a.answer.Claim = ClaimsScheme
	}
	a.answer.Price, _ = a.number("the objective", price)
	a.begin()
	for {
		line, ok := a.next()
		if !ok {
			return
		}
		words := strings.Fields(line)
		if len(words) > 0 && words[0] == "**" {
			a.fail("%s is out of its bounds, as CBC itself says", abridged(strings.Join(words[1:], " ")))
			continue
		}
		if len(words) != 4 {
			a.fail("%q where the number, the name, the value and the reduced cost of a column should be", abridged(line))
			return
		}
		if _, ok := a.count("the number of a column", words[0]); ok {
			a.set(words[1], words[2])
		}
	}
}

// glpkStatus are the statuses of GLPK: printed, plain, and what they claim.
var glpkStatus = []struct {
	printed, plain string
	claim          Claim
}{
	{"INTEGER OPTIMAL", "o", ClaimsOptimal},
	{"INTEGER NON-OPTIMAL", "f", ClaimsScheme},
	{"INTEGER EMPTY", "n", ClaimsNone},
	{"INTEGER UNDEFINED", "u", ClaimsNothing},
}

// printed reads a solution of glpsol as it is printed for people (-o).
func (a *answerReader) printed() {
	a.answer.Solver = "GLPK"
	known := false
	for {
		line, ok := a.next()
		if !ok {
			a.fail("the answer ends before its columns")
			return
		}
		words := strings.Fields(line)
		switch {
		case words[0] == "Status:":
			a.answer.Status = strings.Join(words[1:], " ")
			for _, s := range glpkStatus {
				if s.printed == a.answer.Status {
					a.answer.Claim, known = s.claim, true
				}
			}
		case words[0] == "Objective:" && len(words) >= 4:
			a.answer.Price, _ = a.number("the objective", words[3])
		case words[0] == "Columns:" && len(words) >= 2:
			if n, ok := a.count("Columns", words[1]); ok && n != len(a.columns) {
				a.fail("%d columns, but the LP file has %d: is it the answer to another file?", n, len(a.columns))
				return
			}
		case strings.HasPrefix(strings.TrimSpace(line), "No. Column name"):
			if !known {
				a.fail("the status is %q, which no integer program of glpsol has", abridged(a.answer.Status))
				return
			}
			if a.answer.Claim == ClaimsNone || a.answer.Claim == ClaimsNothing {
				a.answer.Price = 0
				return
			}
			a.printedColumns()
			return
		}
	}
}

// printedColumns reads lines of number, name, mark of an integer, value and
// bounds. After a long name the rest stands on a line of its own.
func (a *answerReader) printedColumns() {
	a.begin()
	a.next() // the rule under the title
	for i := range a.columns {
		line, ok := a.next()
		words := strings.Fields(line)
		if ok && len(words) == 2 {
			var rest string
			rest, ok = a.next()
			words = append(words, strings.Fields(rest)...)
		}
		if len(words) > 2 && words[2] == "*" {
			words = append(words[:2], words[3:]...)
		}
		if !ok || len(words) < 3 || words[0] != strconv.Itoa(i+1) {
			a.fail("%q where column %d should be", abridged(line), i+1)
			return
		}
		a.set(words[1], words[2])
	}
	a.complete()
}

// plain reads a solution of glpsol as it is written for programs (-w). Columns
// have numbers there, in the order in which the LP file names them first.
func (a *answerReader) plain() {
	a.answer.Solver = "GLPK"
	ended := false
	for {
		line, ok := a.next()
		if !ok {
			break
		}
		words := strings.Fields(line)
		switch {
		case ended:
			a.fail("%q after the end", abridged(line))
			return
		case words[0] == "c" || words[0] == "i":
		case words[0] == "s":
			if !a.plainStatus(words) {
				return
			}
			if a.answer.Claim == ClaimsScheme || a.answer.Claim == ClaimsOptimal {
				a.begin()
			}
		case words[0] == "j":
			if a.answer.Values == nil {
				continue // an answer without values lists zeros
			}
			if len(words) != 3 {
				a.fail("%q where the number and the value of a column should be", abridged(line))
				return
			}
			n, ok := a.count("the number of a column", words[1])
			if !ok {
				continue
			}
			if n < 1 || n > len(a.columns) {
				a.fail("column %d of %d", n, len(a.columns))
				continue
			}
			a.setAt(n-1, words[2])
		case line == "e o f":
			ended = true
		default:
			a.fail("%q is no line of such a file", abridged(line))
			return
		}
	}
	if !ended {
		a.fail("the answer breaks off")
	}
	if a.answer.Status == "" {
		a.fail("no line says the status")
	}
	a.complete()
}

// plainStatus reads "s mip ROWS COLUMNS STATUS OBJECTIVE".
func (a *answerReader) plainStatus(words []string) bool {
	if a.answer.Status != "" {
		a.fail("a second status")
		return false
	}
	if len(words) != 6 || words[1] != "mip" {
		a.fail("%q is no status of an integer program", abridged(strings.Join(words, " ")))
		return false
	}
	if n, ok := a.count("columns", words[3]); !ok {
		return false
	} else if n != len(a.columns) {
		a.fail("%d columns, but the LP file has %d: is it the answer to another file?", n, len(a.columns))
		return false
	}
	for _, s := range glpkStatus {
		if s.plain == words[4] {
			a.answer.Claim, a.answer.Status = s.claim, s.printed
		}
	}
	if a.answer.Status == "" {
		a.fail("the status %q is none of glpsol's", abridged(words[4]))
		return false
	}
	if a.answer.Claim == ClaimsScheme || a.answer.Claim == ClaimsOptimal {
		a.answer.Price, _ = a.number("the objective", words[5])
	}
	return true
}
