package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"moiety/plan"
)

// model carries out "moiety model".
func (p *program) model(args []string) error {
	var brief, prices, out, answer string
	flags := flag.NewFlagSet("model", flag.ContinueOnError)
	flags.StringVar(&brief, "brief", "", "")
	flags.StringVar(&prices, "prices", "", "")
	flags.StringVar(&out, "o", "", "")
	flags.StringVar(&answer, "check", "", "")
	house, err := p.parse(flags, args, modelHelp)
	if err != nil {
		return err
	}
	switch {
	case out == "" && answer == "":
		return usage("-o: name the LP file to write, or - for standard output", modelHelp)
	case out != "" && answer != "":
		return usage("-o and -check: one at a time", modelHelp)
	case answer == "-" && (house == "-" || brief == "-" || prices == "-"):
		return badInput(errors.New("only one file can be read from standard input"))
	}
	if err := checkFile(out); err != nil {
		return err
	}
	progress := startProgress(p.stderr)
	defer progress.clear()

	statement, err := p.statement(progress, house, brief, prices)
	if err != nil {
		return err
	}
	if answer != "" {
		return p.check(progress, statement, answer)
	}
	progress.say("writing")
	var text bytes.Buffer
	if err := statement.WriteLP(&text); err != nil {
		return err
	}
	progress.clear()
	return p.saveFile(out, text.Bytes())
}

// check compares a general solver's answer with our own, and says by its error
// that they do not agree.
func (p *program) check(progress *progress, statement *plan.Statement, path string) error {
	progress.say("solving and comparing")
	c, err := readFile(p, path, "answer", func(r io.Reader, name string) (*plan.Comparison, error) {
		return statement.Compare(p.ctx, r, name)
	})
	if err != nil {
		return err
	}
	progress.clear()
	if err := c.WriteText(p.stdout); err != nil {
		return badInput(fmt.Errorf("standard output: %w", reason(err)))
	}
	switch c.Verdict {
	case plan.Agrees:
		return nil
	case plan.Better:
		return errors.New(c.Why) // a fault of the program
	}
	return cannot(errors.New(c.Why))
}

// statement reads the question and states it as one problem.
func (p *program) statement(progress *progress, house, brief, prices string) (*plan.Statement, error) {
	progress.say("reading")
	q, err := p.readQuestion(house, brief, prices)
	if err != nil {
		return nil, err
	}
	progress.say("finding walls and links")
	b, err := build(q.house, house)
	if err != nil {
		return nil, err
	}
	progress.say("stating the problem")
	statement, err := plan.StatePartition(b, q.brief, q.prices)
	if err != nil {
		return nil, markProblems(err, "")
	}
	if statement.Contradiction != nil {
		return nil, cannot(fmt.Errorf("%s cannot be split as asked: %s", q.house.Name, strings.Join(statement.Contradiction, "; ")))
	}
	return statement, nil
}

// checkFile tells whether a single file may be written to out.
func checkFile(out string) error {
	if out == "-" {
		return nil
	}
	info, err := os.Stat(out)
	switch {
	case err == nil && info.IsDir():
		return badInput(fmt.Errorf("-o %s: it is a directory; name the file to write", out))
	case err == nil && !info.Mode().IsRegular(), errors.Is(err, fs.ErrNotExist), err == nil:
		return nil
	}
	return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
}

// saveFile writes a single file, whole or not at all, or to standard output
// for "-". What is no regular file, such as a device, is written to as it is.
func (p *program) saveFile(out string, data []byte) (err error) {
	if out == "-" {
		if _, err := p.stdout.Write(data); err != nil {
			return badInput(fmt.Errorf("standard output: %w", reason(err)))
		}
		return nil
	}
	p.saving.Lock()
	defer p.saving.Unlock()
	if p.ctx.Err() != nil {
		return p.ctx.Err()
	}
	path := throughLinks(out)
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		err = os.WriteFile(path, data, 0o666)
		p.saved = err == nil
		return markFile(out, err)
	}
	made, err := makeParents(filepath.Dir(path))
	if err != nil {
		return markFile(out, err)
	}
	aside := fmt.Sprintf("%s.part-%d", path, os.Getpid())
	err = writeThrough(aside, data)
	if err == nil {
		err = os.Rename(aside, path)
	}
	if err != nil {
		_ = os.Remove(aside)
		removeEmpty(made)
		return markFile(out, err)
	}
	syncDirectory(filepath.Dir(path))
	p.saved = true
	return nil
}

func markFile(out string, err error) error {
	if err == nil {
		return nil
	}
	return badInput(fmt.Errorf("-o %s: %w", out, reason(err)))
}
