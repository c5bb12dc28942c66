package plan

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// WriteText writes the list to be read: level by level the spaces, then
// flights, passages, windows and fixtures, what was mended or assumed, and what is not
// surveyed.
func (l *AsSurveyed) WriteText(w io.Writer) error {
	t := surveyText{list: l}
	t.printf("%s, surveyed in %s\n", l.House, map[LengthUnit]string{Metres: "metres", Feet: "feet"}[l.LengthUnit])
	for _, level := range l.Levels {
		t.level(level)
	}
	t.stairs()
	t.passages()
	t.windows()
	t.fixtures()
	t.cuts()
	t.sentences("Mended or assumed", l.Warnings)
	t.sentences("Not surveyed", l.NotSurveyed)
	t.sentences("Notes", []string{l.Caution})
	_, err := w.Write(t.b.Bytes())
	return err
}

type surveyText struct {
	b    bytes.Buffer
	list *AsSurveyed
}

func (t *surveyText) printf(format string, args ...any) { fmt.Fprintf(&t.b, format, args...) }

// table writes rows whose cells are parted by tabs, in columns.
func (t *surveyText) table(title string, rows []string) {
	if len(rows) == 0 {
		return
	}
	t.printf("\n%s\n", title)
	table := tabwriter.NewWriter(&t.b, 0, 0, 2, ' ', 0)
	for _, row := range rows {
		fmt.Fprintf(table, "  %s\n", strings.TrimRight(row, "\t"))
	}
	table.Flush()
}

// cuts lists the candidate lines.
func (t *surveyText) cuts() {
	var rows []string
	for _, c := range t.list.Cuts {
		what := "wall"
		if c.Fence {
			what = "fence"
		}
		rows = append(rows, fmt.Sprintf("%s\t%s\t%s, %s\t%s", c.Number, c.Space, what, t.length(c.LengthM), c.Why))
	}
	t.table("Lines to divide along", rows)
}

func (t *surveyText) level(level SurveyedLevel) {
	title := fmt.Sprintf("%s (%s): floor at %s", level.Name, level.ID, t.length(level.Floor))
	if !level.Outdoor {
		title += fmt.Sprintf(", ceiling height %s; %s net, %s gross", t.length(level.Height), t.area(level.NetM2), t.area(level.GrossM2))
	}
	var rows []string
	for _, s := range t.list.Spaces {
		if s.Level != level.ID {
			continue
		}
		use := words(string(s.Use))
		for _, also := range s.Also {
			use += ", " + words(string(also))
		}
		note := ""
		if !s.Outdoor && s.Height != level.Height {
			note = "ceiling height " + t.length(s.Height)
		}
		rows = append(rows, strings.Join([]string{s.ID, s.Name, use, t.length(s.Size[0]) + " x " + t.length(s.Size[1]), t.area(s.AreaM2), note}, "\t"))
	}
	t.table(title, rows)
}

func (t *surveyText) stairs() {
	var rows []string
	for _, s := range t.list.Stairs {
		risers := "risers not surveyed"
		if s.Risers > 0 {
			risers = fmt.Sprintf("%d risers of %.0f mm", s.Risers, s.Rise/float64(s.Risers)*1000)
		}
		rows = append(rows, strings.Join([]string{s.ID, s.Name, s.Level + " to " + s.To, "rises " + t.length(s.Rise), risers}, "\t"))
	}
	t.table("Flights", rows)
}

func (t *surveyText) passages() {
	var rows []string
	for _, p := range t.list.Passages {
		of := p.Of
		if of == "" {
			of = "-"
		}
		what := p.Type
		if p.Leaf != NoLeaf {
			what = string(p.Leaf) + " " + what
		}
		rows = append(rows, strings.Join([]string{of, what, p.Between[0] + " | " + p.Between[1], t.length(p.Width) + " wide"}, "\t"))
	}
	t.table("Passages", rows)
}

func (t *surveyText) windows() {
	var rows []string
	for _, w := range t.list.Windows {
		space := w.Space
		if space == "" {
			space = "no space"
		}
		clear := "clear opening not surveyed"
		switch {
		case w.Clear != [2]float64{}:
			clear = fmt.Sprintf("clear %s x %s", t.length(w.Clear[0]), t.length(w.Clear[1]))
		case w.Operation == "fixed":
			clear = "does not open"
		}
		rows = append(rows, strings.Join([]string{w.ID, space, t.length(w.Width) + " x " + t.length(w.Height), "sill " + t.length(w.Sill), w.Operation, clear}, "\t"))
	}
	t.table("Windows", rows)
}

func (t *surveyText) fixtures() {
	var rows []string
	for _, f := range t.list.Fixtures {
		space := f.Space
		if space == "" {
			space = "in no space"
		}
		rows = append(rows, strings.Join([]string{f.ID, words(f.Use), space}, "\t"))
	}
	t.table("Fixtures", rows)
}

// sentences writes texts under a title.
func (t *surveyText) sentences(title string, texts []string) {
	if len(texts) == 0 {
		return
	}
	t.printf("\n%s\n", title)
	for _, s := range texts {
		writeListed(&t.b, "  - ", []string{s}, "")
	}
}

// length gives a length in the survey's unit.
func (t *surveyText) length(m float64) string {
	if t.list.LengthUnit == Feet {
		return feetAndInches(m)
	}
	return fmt.Sprintf("%.2f m", m)
}

func (t *surveyText) area(m2 float64) string { return areaIn(t.list.LengthUnit, m2) }

// inchesPerMetre follows from the international inch, 25.4 mm.
const inchesPerMetre = 1 / 0.0254

// feetAndInches rounds to an eighth of an inch, as the trade does: 12'-6 1/2".
func feetAndInches(m float64) string {
	eighths := int(decimal(m*inchesPerMetre*8, 0))
	sign := ""
	if eighths < 0 {
		sign, eighths = "-", -eighths
	}
	inches := eighths / 8
	fraction := [...]string{"", " 1/8", " 1/4", " 3/8", " 1/2", " 5/8", " 3/4", " 7/8"}[eighths%8]
	return fmt.Sprintf("%s%d'-%d%s\"", sign, inches/12, inches%12, fraction)
}
