package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"path"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"moiety/plan"
	"moiety/plan/partition"
	"moiety/render"
)

// splitFlags are the flags of "moiety split".
type splitFlags struct {
	brief, prices, out string
	schemes            int
	limit              time.Duration
	json               bool
	wishes, front      bool
	drawing            drawingFlags
}

// maxSchemes is more schemes than anybody compares.
const maxSchemes = 50

// split carries out "moiety split".
func (p *program) split(args []string) error {
	var o splitFlags
	flags := flag.NewFlagSet("split", flag.ContinueOnError)
	flags.StringVar(&o.brief, "brief", "", "")
	flags.StringVar(&o.prices, "prices", "", "")
	flags.StringVar(&o.out, "o", "", "")
	flags.IntVar(&o.schemes, "schemes", 0, "")
	flags.DurationVar(&o.limit, "limit", 0, "")
	flags.BoolVar(&o.json, "json", false, "")
	flags.BoolVar(&o.wishes, "wishes", false, "")
	flags.BoolVar(&o.front, "front", false, "")
	o.drawing.define(flags)
	house, err := p.parse(flags, args, splitHelp)
	if err != nil {
		return err
	}
	schemesSaid, limitSaid := false, false
	flags.Visit(func(f *flag.Flag) {
		schemesSaid = schemesSaid || f.Name == "schemes"
		limitSaid = limitSaid || f.Name == "limit"
	})
	if schemesSaid && (o.schemes < 1 || o.schemes > maxSchemes) {
		return usage(fmt.Sprintf("-schemes %d: ask for 1 to %d", o.schemes, maxSchemes), splitHelp)
	}
	if limitSaid && o.limit <= 0 {
		return usage(fmt.Sprintf("-limit %v: give a time such as 30s or 5m", o.limit), splitHelp)
	}
	options, err := o.drawing.options(splitHelp)
	if err != nil {
		return err
	}
	if err := p.checkOut(flags, o.out, splitHelp); err != nil {
		return err
	}
	progress := startProgress(p.stderr)
	defer progress.clear()

	progress.say("reading")
	q, err := p.readQuestion(house, o.brief, o.prices)
	if err != nil {
		return err
	}
	if schemesSaid {
		q.brief.Schemes = o.schemes
	}
	answer, err := p.answer(progress, q, house, o)
	if err != nil {
		return err
	}
	if o.out != "" && len(answer.Schemes) > 0 {
		progress.say("drawing")
		files, err := splitFiles(answer, options)
		if err != nil {
			return err
		}
		progress.say("writing")
		if err := p.save(o.out, files); err != nil {
			return err
		}
	}
	progress.clear()
	return p.printAnswer(answer, o)
}

// answer works out the building and parts it. It stops early, with what it
// has by then, where a limit is set.
func (p *program) answer(progress *progress, q question, house string, o splitFlags) (*plan.Answer, error) {
	progress.say("finding walls and links")
	b, err := build(q.house, house)
	if err != nil {
		return nil, err
	}
	progress.say("parting the house")
	ctx := p.ctx
	if o.limit > 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, o.limit)
		defer stop()
	}
	answer, err := plan.Split(ctx, b, q.brief, q.prices, plan.SplitOptions{Wishes: o.wishes, Front: o.front})
	if p.ctx.Err() != nil {
		return nil, p.ctx.Err()
	}
	if err != nil {
		return nil, markProblems(err, "")
	}
	return answer, nil
}

// printAnswer prints the summary, and says by its error that there is no scheme.
func (p *program) printAnswer(answer *plan.Answer, o splitFlags) error {
	var text bytes.Buffer
	write := plan.WriteText
	if o.json {
		write = plan.WriteSummary
	}
	if err := write(&text, answer); err != nil {
		return err
	}
	if !o.json && len(answer.Schemes) > 0 {
		if o.out == "" {
			fmt.Fprintf(&text, "\nNo files were written: add -o DIRECTORY for drawings and schedules.\n")
		} else {
			fmt.Fprintf(&text, "\nDrawings and schedules are in %s.\n", o.out)
		}
	}
	if _, err := p.stdout.Write(text.Bytes()); err != nil {
		return badInput(fmt.Errorf("standard output: %w", reason(err)))
	}
	switch {
	case len(answer.Schemes) > 0:
		return nil
	case answer.Status == partition.Infeasible:
		return cannot(fmt.Errorf("%s cannot be split as asked; nothing was written", answer.Building.House.Name))
	}
	return cannot(errors.New("no scheme was found within the limit, which does not mean that there is none; nothing was written"))
}

// splitFiles gives every file of the result of a split. Schemes are drawn at
// the same time, and listed in their order.
func splitFiles(answer *plan.Answer, options render.Options) ([]resultFile, error) {
	outputs := []output{
		{"summary.json", func(w io.Writer) error { return plan.WriteSummary(w, answer) }},
		{"summary.txt", func(w io.Writer) error { return plan.WriteText(w, answer) }},
		{"return.csv", func(w io.Writer) error { return plan.WriteReturn(w, answer) }},
	}
	if answer.Front != nil {
		outputs = append(outputs, output{"front.csv", func(w io.Writer) error { return plan.WriteFront(w, answer.Front) }})
	}
	files, err := written(outputs)
	if err != nil {
		return nil, err
	}
	parts := make([][]resultFile, len(answer.Schemes))
	faults := make([]error, len(answer.Schemes))
	var all sync.WaitGroup
	for i, s := range answer.Schemes {
		all.Go(func() {
			defer func() {
				if cause := recover(); cause != nil {
					faults[i] = fault{cause, debug.Stack()}
				}
			}()
			parts[i], faults[i] = schemeFiles(s, options)
		})
	}
	all.Wait()
	return slices.Concat(append([][]resultFile{files}, parts...)...), errors.Join(faults...)
}

// schemeFiles gives the files of one scheme.
func schemeFiles(s *plan.Scheme, options render.Options) ([]resultFile, error) {
	dir := "scheme-" + s.ID
	outputs := []output{{path.Join(dir, "plan.geojson"), func(w io.Writer) error { return plan.WriteScheme(w, s) }}}
	for _, schedule := range plan.Schedules() {
		outputs = append(outputs, output{path.Join(dir, schedule.Name+".csv"), func(w io.Writer) error { return schedule.Write(w, s) }})
	}
	files, err := written(outputs)
	if err != nil {
		return nil, err
	}
	sheets, err := render.Set(s, options)
	if err != nil {
		return nil, fmt.Errorf("drawing scheme %s: %w", s.ID, err)
	}
	title := fmt.Sprintf("%s, scheme %s", s.Building.House.Name, s.ID)
	drawn, err := drawings(dir, title, sheets)
	if err != nil {
		return nil, fmt.Errorf("drawing scheme %s: %w", s.ID, err)
	}
	return append(files, drawn...), nil
}
