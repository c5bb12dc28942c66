package main

import (
	"bytes"
	"flag"
	"fmt"
	"path"
	"strings"
	"time"

	"moiety/render"
)

// drawingFlags are the flags that say how sheets are drawn.
type drawingFlags struct {
	paper    string
	date     string
	imperial bool
}

func (d *drawingFlags) define(flags *flag.FlagSet) {
	flags.StringVar(&d.paper, "paper", "a3", "")
	flags.StringVar(&d.date, "date", "", "")
	flags.BoolVar(&d.imperial, "imperial", false, "")
}

// options checks the flags.
func (d *drawingFlags) options(help string) (render.Options, error) {
	paper, err := render.PaperNamed(d.paper)
	if err != nil {
		return render.Options{}, usage("-paper: "+strings.TrimPrefix(err.Error(), "render: "), help)
	}
	if d.date != "" {
		if _, err := time.Parse(time.DateOnly, d.date); err != nil {
			return render.Options{}, usage(fmt.Sprintf("-date %q: no date of the form YYYY-MM-DD", d.date), help)
		}
	}
	return render.Options{Paper: paper, Date: d.date, Imperial: d.imperial}, nil
}

// drawings gives the files of a set of sheets, below the directory dir of a
// result: all in set.pdf, and each in sheets/NUMBER.svg.
func drawings(dir, title string, sheets []*render.Sheet) ([]resultFile, error) {
	var set bytes.Buffer
	if err := render.WritePDF(&set, sheets, title); err != nil {
		return nil, err
	}
	files := []resultFile{{path.Join(dir, "set.pdf"), set.Bytes()}}
	for _, s := range sheets {
		var sheet bytes.Buffer
		if err := s.WriteSVG(&sheet); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.Number, err)
		}
		files = append(files, resultFile{path.Join(dir, "sheets", s.Number+".svg"), sheet.Bytes()})
	}
	return files, nil
}
