package plan

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"moiety/plan/partition"
)

// agreement is the part of the price up to which two prices are the same.
const agreement = 1e-6

// Verdict says how a general solver's answer compares with our own.
type Verdict int

// The verdicts.
const (
	Agrees     Verdict = iota // the same price, or both found that there is no scheme
	Worse                     // a scheme that costs more than ours, or none although there is one
	Infeasible                // no scheme of the problem
	Misstated                 // the price of ours, but the solver states another for it
	Better                    // a scheme that costs less than what we proved: ours is wrong
)

// Comparison is a general solver's answer beside our own.
type Comparison struct {
	Statement *Statement
	Answer    *partition.Answer
	Scheme    *partition.Solution // what the answer says; nil if it says that there is none
	Ours      partition.Result
	Verdict   Verdict
	Why       string // a sentence
	Faults    error  // what makes the answer no scheme
}

// Compare reads a general solver's answer to the file that WriteLP writes,
// gives the scheme that it stands for, reckons its price from the definition
// and compares it with our own proved optimum, to a millionth. The name is that
// of the answer's file. The error is a *Problems for an answer that cannot be
// read or has nothing to compare.
func (s *Statement) Compare(ctx context.Context, r io.Reader, name string) (*Comparison, error) {
	answer, err := partition.ReadAnswer(r, s.Problem)
	var faults partition.AnswerFaults
	switch {
	case errors.As(err, &faults):
		problems := &Problems{File: name}
		for _, f := range faults {
			problems.List = append(problems.List, Problem{Line: f.Line, Column: 1, Message: f.Message})
		}
		return nil, problems.err()
	case err != nil:
		return nil, fmt.Errorf("plan: %s: %w", name, err)
	case answer.Claim == partition.ClaimsNothing:
		problems := &Problems{File: name}
		problems.add(nil, "", "%s says %q and gives no scheme: let it run to its end", answer.Solver, answer.Status)
		return nil, problems.err()
	}
	c := &Comparison{Statement: s, Answer: answer}
	if c.Ours, err = partition.Solve(ctx, s.Problem, partition.Options{}); err != nil {
		return nil, fmt.Errorf("plan: stating the partition of %q: %w", s.Problem.Name, err)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if answer.Claim != partition.ClaimsNone {
		scheme, err := answer.Scheme(s.Problem)
		c.Scheme, c.Faults = &scheme, err
	}
	c.judge()
	return c, nil
}

func (c *Comparison) judge() {
	say := func(v Verdict, format string, args ...any) {
		c.Verdict, c.Why = v, fmt.Sprintf(format, args...)
	}
	solver, none := c.Answer.Solver, c.Ours.Status == partition.Infeasible
	switch {
	case c.Scheme == nil && none:
		say(Agrees, "%s and moiety agree that the house cannot be split as asked", solver)
		return
	case c.Scheme == nil:
		say(Worse, "%s says that there is no scheme; moiety has one", solver)
		return
	case c.Faults != nil:
		say(Infeasible, "what %s gives is no scheme of this house", solver)
		return
	case none:
		say(Better, "%s gives a scheme where moiety says that there is none", solver)
		return
	}
	ours, theirs := c.Ours.Solutions[0].Price, c.Scheme.Price
	same := ours.Shared == theirs.Shared && math.Abs(float64(ours.Money-theirs.Money)) <= agreement*math.Max(float64(ours.Money), moneyPerUnit)
	reckoned := partition.Objective(c.Statement.Problem, theirs, moneyPerUnit)
	switch {
	case !same && ours.Less(theirs):
		say(Worse, "the scheme of %s costs more than moiety's", solver)
	case !same:
		say(Better, "the scheme of %s costs less than what moiety proved to be the least", solver)
	case c.Answer.Claim == partition.ClaimsOptimal && math.Abs(c.Answer.Price-reckoned) > agreement*math.Max(reckoned, 1):
		say(Misstated, "%s states an objective of %.4f, but its scheme comes to %.4f", solver, c.Answer.Price, reckoned)
	case c.Answer.Claim != partition.ClaimsOptimal:
		say(Agrees, "the scheme of %s costs what moiety's does, which is proved to be the least (%s has not proved it)", solver, solver)
	default:
		say(Agrees, "%s and moiety agree on the least price", solver)
	}
}

// WriteText writes the comparison for people.
func (c *Comparison) WriteText(w io.Writer) error {
	var text strings.Builder
	p := c.Statement.Problem
	fmt.Fprintf(&text, "%s: %d cells, %d links\n", p.Name, len(p.Cells), len(p.Links))
	fmt.Fprintf(&text, "answer of %s: %s\n", c.Answer.Solver, c.Answer.Status)
	if c.Scheme != nil {
		c.writeScheme(&text)
	}
	price := func(who string, price partition.Price) {
		fmt.Fprintf(&text, "  %-10s %14.2f  and %s\n", who, currency(price.Money), c.shared(price))
	}
	text.WriteString("price\n")
	if c.Scheme != nil && c.Faults == nil {
		price("answer", c.Scheme.Price)
	}
	if len(c.Ours.Solutions) > 0 {
		price("moiety", c.Ours.Solutions[0].Price)
	} else {
		text.WriteString("  moiety: there is no scheme\n")
	}
	if c.Faults != nil {
		for line := range strings.Lines(c.Faults.Error()) {
			fmt.Fprintf(&text, "fault: %s\n", strings.TrimPrefix(strings.TrimSuffix(line, "\n"), "partition: "))
		}
	}
	fmt.Fprintf(&text, "%s.\n", c.Why)
	_, err := io.WriteString(w, text.String())
	return err
}

// shared says how many elements are shared; a divided house counts in halves.
func (c *Comparison) shared(price partition.Price) string {
	n := float64(price.Shared)
	if c.Statement.model.whole != nil {
		n /= 2
	}
	if n == 1 {
		return "1 shared element that was not accepted"
	}
	return fmt.Sprintf("%g shared elements that were not accepted", n)
}

func (c *Comparison) writeScheme(text *strings.Builder) {
	p, s := c.Statement.Problem, c.Scheme
	list := func(title string, n int, word func(i int) string) {
		var words []string
		for i := range n {
			if w := word(i); w != "" {
				words = append(words, w)
			}
		}
		if len(words) > 0 {
			fmt.Fprintf(text, "  %-10s %s\n", title, strings.Join(words, ", "))
		}
	}
	for label := partition.A; label <= partition.Common; label++ {
		list(label.String(), len(p.Cells), func(i int) string {
			if p.Cells[i].Public || s.Labels[i] != label {
				return ""
			}
			return p.Cells[i].Name
		})
	}
	for u := range p.Units {
		list("entry of "+partition.Label(u).String(), 1, func(int) string {
			if s.Entry[u] < 0 {
				return ""
			}
			return p.Links[s.Entry[u]].Name
		})
	}
	list("new doors", len(s.Bought), func(i int) string { return p.Links[s.Bought[i]].Name })
	for u := range p.Units {
		list("hosts of "+partition.Label(u).String(), len(p.Functions), func(f int) string {
			if u >= len(s.Hosts) || f >= len(s.Hosts[u]) || len(s.Hosts[u][f]) == 0 {
				return ""
			}
			var cells []string
			for _, i := range s.Hosts[u][f] {
				cells = append(cells, p.Cells[i].Name)
			}
			return p.Functions[f].Name + ": " + strings.Join(cells, " + ")
		})
	}
}
