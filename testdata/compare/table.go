package main

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"moiety/plan/partition"
)

// agreement is the part of the price up to which two prices are the same.
const agreement = 1e-6

// comparison runs the solvers and prints the table.
type comparison struct {
	limit         time.Duration
	scratch       string
	solvers       []*solver
	slow          map[string]int // per solver: instances on which it ran out of time
	disagreements int
	ratios        []ratio
}

// ratio is how many times as long the fastest general solver took.
type ratio struct {
	cells int
	times float64
}

// tooSlow is on how many instances a solver may run out of time before it is
// left out of the larger ones.
const tooSlow = 2

func (c *comparison) head() {
	cells := []string{"problem", "cells", "rows", "columns", "optimum", "moiety"}
	for _, s := range c.solvers {
		cells = append(cells, s.name)
	}
	cells = append(cells, "fastest / moiety", "agree")
	printRow(cells)
	printRow(slices.Repeat([]string{"---"}, len(cells)))
}

func printRow(cells []string) { fmt.Printf("| %s |\n", strings.Join(cells, " | ")) }

func (c *comparison) compare(p problem) error {
	rows, columns := partition.LPSize(p.problem)
	result, took, err := ours(p.problem, c.limit)
	if err != nil {
		return err
	}
	model := filepath.Join(c.scratch, "model.lp")
	if err := writeModel(model, p); err != nil {
		return err
	}
	line := []string{p.name, fmt.Sprint(len(p.problem.Cells)), fmt.Sprint(rows), fmt.Sprint(columns), c.optimum(p, result), seconds(took)}
	fastest := time.Duration(math.MaxInt64)
	var agree []string
	for _, s := range c.solvers {
		if p.perUnit == 1 && c.slow[s.name] >= tooSlow {
			line = append(line, "not tried")
			continue
		}
		o, err := s.run(p.problem, model, c.scratch, c.limit)
		if err != nil {
			return err
		}
		word := c.judge(result, o)
		switch {
		case o.ended:
			line = append(line, seconds(o.took))
			fastest = min(fastest, o.took)
		case word == "":
			line = append(line, "> "+seconds(c.limit))
		default:
			line = append(line, "> "+seconds(c.limit)+", "+word)
		}
		if !o.ended {
			c.slow[s.name]++
		} else if word != "" {
			agree = append(agree, s.name+" "+word)
		} else {
			agree = append(agree, s.name)
		}
	}
	times := "-"
	proved := result.Status == partition.Proved || result.Status == partition.Infeasible
	if fastest < math.MaxInt64 && proved {
		r := ratio{len(p.problem.Cells), float64(fastest) / float64(took)}
		times = fmt.Sprintf("%.0f", r.times)
		if r.times < 10 {
			times = fmt.Sprintf("%.1f", r.times)
		}
		c.ratios = append(c.ratios, r)
	}
	if len(agree) == 0 {
		agree = []string{"nobody ended"}
	}
	printRow(append(line, times, strings.Join(agree, ", ")))
	return nil
}

// optimum spells our price.
func (c *comparison) optimum(p problem, r partition.Result) string {
	switch r.Status {
	case partition.Infeasible:
		return "no scheme"
	case partition.Unknown:
		return "not found"
	}
	price := r.Solutions[0].Price
	text := fmt.Sprintf("%.2f", float64(price.Money)/float64(p.perUnit))
	if p.perUnit == 1 {
		text = fmt.Sprint(price.Money)
	}
	if price.Shared > 0 {
		text = fmt.Sprintf("%d shared, %s", price.Shared, text)
	}
	if r.Status == partition.Bounded {
		text += " (not proved)"
	}
	return text
}

// judge compares an outcome with ours. It returns "" where they agree, or where
// a solver that was stopped has nothing better.
func (c *comparison) judge(r partition.Result, o outcome) string {
	wrong := func(format string, args ...any) string {
		c.disagreements++
		return "**" + fmt.Sprintf(format, args...) + "**"
	}
	switch {
	case o.answer == nil:
		return ""
	case o.faults != nil:
		return wrong("gives no scheme: %v", o.faults)
	case o.answer.Claim == partition.ClaimsNone && len(r.Solutions) > 0:
		return wrong("says there is none")
	case o.scheme == nil:
		return ""
	case r.Status == partition.Infeasible:
		return wrong("has a scheme")
	case len(r.Solutions) == 0:
		return ""
	}
	ours, theirs := r.Solutions[0].Price, o.scheme.Price
	same := ours.Shared == theirs.Shared && math.Abs(float64(ours.Money-theirs.Money)) <= agreement*math.Max(float64(ours.Money), 1)
	switch {
	case same:
		return ""
	case theirs.Less(ours) && r.Status == partition.Proved:
		return wrong("better: %+v", theirs)
	case ours.Less(theirs) && o.ended:
		return wrong("worse: %+v", theirs)
	}
	return ""
}

func seconds(d time.Duration) string {
	switch s := d.Seconds(); {
	case s < 0.1:
		return fmt.Sprintf("%.2g ms", s*1000)
	case s < 10:
		return fmt.Sprintf("%.2f s", s)
	default:
		return fmt.Sprintf("%.0f s", s)
	}
}

func writeModel(path string, p problem) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	w := bufio.NewWriter(f)
	if err := partition.WriteLP(w, p.problem, partition.LPOptions{PerUnit: p.perUnit}); err != nil {
		return err
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return f.Close()
}

// summary gives the median ratio by size.
func (c *comparison) summary() {
	median := func(keep func(r ratio) bool) string {
		var times []float64
		for _, r := range c.ratios {
			if keep(r) {
				times = append(times, r.times)
			}
		}
		if len(times) == 0 {
			return "none"
		}
		slices.Sort(times)
		return fmt.Sprintf("%.0f (least %.1f, %d problems)", times[len(times)/2], times[0], len(times))
	}
	fmt.Printf("\nThe fastest general solver took, in the median, as many times as long as moiety, where it ended:\n\n")
	fmt.Printf("- up to 64 cells: %s\n", median(func(r ratio) bool { return r.cells <= 64 }))
	fmt.Printf("- above: %s\n", median(func(r ratio) bool { return r.cells > 64 }))
	fmt.Printf("\nDisagreements: %d\n", c.disagreements)
}
