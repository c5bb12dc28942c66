package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"moiety/plan"
)

// standardInput is what "-" is called in messages.
const standardInput = "standard input"

// readFile reads a file by its name, or standard input for "-". What read
// returns as an error is about the contents.
func readFile[T any](p *program, path, what string, read func(r io.Reader, name string) (T, error)) (T, error) {
	var none T
	if path == "-" {
		value, err := read(bufio.NewReader(p.stdin), standardInput)
		return value, markProblems(err, "")
	}
	f, err := os.Open(path)
	if err != nil {
		return none, badInput(fmt.Errorf("%s %s: %w", what, path, reason(err)))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return none, badInput(fmt.Errorf("%s %s: it is a directory; name the file in it", what, path))
	}
	value, err := read(bufio.NewReader(f), path)
	return value, markProblems(err, "")
}

// markProblems marks an error as bad input where it tells of a file's
// contents or of reading it. Where file is given, the problems are said to be
// in it. Any other error is a fault of the program.
func markProblems(err error, file string) error {
	var problems *plan.Problems
	if errors.As(err, &problems) {
		if file != "" {
			problems.File = file
		}
		return badInput(err)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return badInput(err)
	}
	return err
}

// build works out the building; what is wrong with it is wrong with the file.
func build(house *plan.House, path string) (*plan.Building, error) {
	if path == "-" {
		path = standardInput
	}
	b, err := plan.Build(house)
	return b, markProblems(err, path)
}

// question is everything that a split is asked with.
type question struct {
	house  *plan.House
	brief  *plan.Brief
	prices *plan.Prices
}

// besideBrief gives the path of a file that a brief names as seen from where it
// lies.
func besideBrief(briefPath, named string) string {
	if filepath.IsAbs(named) || briefPath == "-" {
		return named
	}
	return filepath.Join(filepath.Dir(briefPath), named)
}

// readQuestion reads the survey, the brief, the rule file and the prices, and
// reports the faults of all together.
func (p *program) readQuestion(housePath, briefPath, pricesPath string) (question, error) {
	if housePath == "-" && (briefPath == "-" || pricesPath == "-") || briefPath == "-" && pricesPath == "-" {
		return question{}, badInput(errors.New("only one file can be read from standard input"))
	}
	var q question
	var faults [5]error
	q.house, faults[0] = readFile(p, housePath, "survey", plan.Read)
	q.brief = plan.DefaultBrief()
	if briefPath != "" {
		q.brief, faults[1] = readFile(p, briefPath, "brief", plan.ReadBrief)
	}
	if q.brief != nil && q.brief.RuleFile() != "" {
		q.brief.RuleSet, faults[3] = readFile(p, besideBrief(briefPath, q.brief.RuleFile()), "rule file", plan.ReadRules)
	}
	if q.brief != nil && q.brief.BuildUps != "" {
		q.brief.OwnBuildUp, faults[4] = readFile(p, besideBrief(briefPath, q.brief.BuildUps), "build-ups", plan.ReadBuildUps)
	}
	q.prices = plan.DefaultPrices()
	if pricesPath == "" && q.brief != nil && q.brief.Prices != "" {
		pricesPath = besideBrief(briefPath, q.brief.Prices)
	}
	if pricesPath != "" {
		q.prices, faults[2] = readFile(p, pricesPath, "prices", plan.ReadPrices)
	}
	if err := errors.Join(faults[:]...); err != nil {
		return question{}, err
	}
	if err := q.brief.Check(q.house); err != nil {
		return question{}, markProblems(err, briefPath)
	}
	return q, nil
}
