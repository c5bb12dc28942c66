package main

import (
	"bytes"
	"flag"
	"fmt"

	"moiety/plan"
	"moiety/render"
)

// survey carries out "moiety survey".
func (p *program) survey(args []string) error {
	var (
		out     string
		asJSON  bool
		cuts    bool
		drawing drawingFlags
	)
	flags := flag.NewFlagSet("survey", flag.ContinueOnError)
	flags.StringVar(&out, "o", "", "")
	flags.BoolVar(&asJSON, "json", false, "")
	flags.BoolVar(&cuts, "cuts", false, "")
	drawing.define(flags)
	path, err := p.parse(flags, args, surveyHelp)
	if err != nil {
		return err
	}
	options, err := drawing.options(surveyHelp)
	if err != nil {
		return err
	}
	if err := p.checkOut(flags, out, surveyHelp); err != nil {
		return err
	}
	progress := startProgress(p.stderr)
	defer progress.clear()

	progress.say("reading")
	house, err := readFile(p, path, "survey", plan.Read)
	if err != nil {
		return err
	}
	progress.say("finding walls and links")
	b, err := build(house, path)
	if err != nil {
		return err
	}
	list := plan.ListSurvey(b)
	if cuts {
		options.Cuts = b.Cuts(plan.DefaultPrices().SeparatingWall.Thickness)
		list.AddCuts(b, options.Cuts)
	}
	if out != "" {
		progress.say("drawing")
		files, err := surveyFiles(b, list, options)
		if err != nil {
			return err
		}
		progress.say("writing")
		if err := p.save(out, files); err != nil {
			return err
		}
	}
	progress.clear()
	return p.printSurvey(list, asJSON, out)
}

func (p *program) printSurvey(list *plan.AsSurveyed, asJSON bool, out string) error {
	var text bytes.Buffer
	write := list.WriteText
	if asJSON {
		write = list.WriteJSON
	}
	if err := write(&text); err != nil {
		return err
	}
	if !asJSON && out != "" {
		fmt.Fprintf(&text, "\nDrawings and lists are in %s.\n", out)
	}
	if _, err := p.stdout.Write(text.Bytes()); err != nil {
		return badInput(fmt.Errorf("standard output: %w", reason(err)))
	}
	return nil
}

// surveyFiles gives every file of the result of a survey.
func surveyFiles(b *plan.Building, list *plan.AsSurveyed, options render.Options) ([]resultFile, error) {
	files, err := written([]output{{"survey.json", list.WriteJSON}, {"survey.txt", list.WriteText}})
	if err != nil {
		return nil, err
	}
	sheets, err := render.Survey(b, options)
	if err != nil {
		return nil, fmt.Errorf("drawing the house: %w", err)
	}
	drawn, err := drawings("", b.House.Name, sheets)
	if err != nil {
		return nil, fmt.Errorf("drawing the house: %w", err)
	}
	return append(files, drawn...), nil
}
