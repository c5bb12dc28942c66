package rules

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"unicode/utf8"
)

// Caution goes with every list of figures.
const Caution = "Figures for screening, not the law: municipalities amend codes, and editions differ. " +
	"The local building authority decides, and licensed designers, engineers and trades judge."

// WriteList writes which sets come with the program.
func WriteList(w io.Writer) error {
	var b bytes.Buffer
	table := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	for _, id := range ShippedIDs() {
		set, _ := Shipped(id)
		name := set.Name
		if id == DefaultID {
			name += " (where a brief names none)"
		}
		fmt.Fprintf(table, "%s\t%s\t%s\n", id, name, counts(set))
	}
	table.Flush()
	b.WriteByte('\n')
	writeFolded(&b, "", Caution)
	_, err := w.Write(b.Bytes())
	return err
}

// counts says how many figures a set has, and how many are not from a text.
func counts(set *Set) string {
	text := fmt.Sprintf("%d figures", len(set.Figures))
	if n := set.FromMemory(); n > 0 {
		text += fmt.Sprintf(", %d of them from memory", n)
	}
	return text
}

// WriteText writes every figure of a set, topic by topic, with its clause,
// edition, source and status.
func WriteText(w io.Writer, set *Set) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n%s\n", set.ID, set.Name, counts(set))
	if set.Base != "" {
		fmt.Fprintf(&b, "built on %s\n", set.Base)
	}
	if set.Note != "" {
		writeFolded(&b, "", set.Note)
	}
	topic := ""
	for _, f := range set.Figures {
		if f.Topic != topic {
			topic = f.Topic
			fmt.Fprintf(&b, "\n%s%s\n", strings.ToUpper(topic[:1]), topic[1:])
		}
		fmt.Fprintf(&b, "  %s: %s\n", f.ID, f.inWords())
		if f.When != "" {
			writeFolded(&b, "    ", f.When)
		}
		writeFolded(&b, "    ", f.origin())
	}
	b.WriteByte('\n')
	writeFolded(&b, "", Caution)
	_, err := w.Write(b.Bytes())
	return err
}

// inWords gives the limit and how it is meant.
func (f Figure) inWords() string {
	text := f.Required()
	if f.Advice {
		text += ", as advice"
	}
	if says := f.Status.Says(); says != "" {
		text += " (" + says + ")"
	}
	return text
}

// origin says where the figure stands and where it was read.
func (f Figure) origin() string {
	text := f.Clause + "; " + f.Edition
	switch f.Status {
	case Read:
		text += ". Read in: " + f.Source.Title
	case Memory:
		text += ". From memory, not seen"
	default:
		text += ". From: " + f.Source.Title
	}
	return text
}

// textWidth is where lists are broken.
const textWidth = 92

// writeFolded writes a text broken at words, indented.
func writeFolded(b *bytes.Buffer, indent, text string) {
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = indent + word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > textWidth:
			b.WriteString(line + "\n")
			line = indent + word
		default:
			line += " " + word
		}
	}
	b.WriteString(line + "\n")
}

type (
	setDocument struct {
		Set     string           `json:"set"`
		Name    string           `json:"name"`
		Base    string           `json:"base"`
		Lengths Lengths          `json:"lengths"`
		Note    string           `json:"note"`
		Caution string           `json:"caution"`
		Figures []figureDocument `json:"figures"`
	}
	figureDocument struct {
		ID       ID      `json:"id"`
		Topic    string  `json:"topic"`
		About    string  `json:"about"`
		Quantity string  `json:"quantity"`
		Sense    string  `json:"sense"`
		Limit    any     `json:"limit"`
		Unit     string  `json:"unit"`
		Value    float64 `json:"value"` // metres, m2, minutes, degrees, parts of one
		Required string  `json:"required"`
		Advice   bool    `json:"advice"`
		When     string  `json:"condition"`
		Clause   string  `json:"clause"`
		Edition  string  `json:"edition"`
		Source   string  `json:"source"`
		URL      string  `json:"url"`
		Status   Status  `json:"status"`
	}
)

// Word names a quantity in machine-readable results, with its unit.
func (q Quantity) Word() string {
	return [...]string{"truth", "length_m", "area_m2", "share", "time_min", "angle_deg", "count"}[q]
}

// Word names a sense in machine-readable results.
func (s Sense) Word() string {
	return [...]string{"asked", "at_least", "at_most", "decides"}[s]
}

// WriteJSON writes a set for other programs.
func WriteJSON(w io.Writer, set *Set) error {
	document := setDocument{
		Set: set.ID, Name: set.Name, Base: set.Base, Lengths: set.Lengths, Note: set.Note, Caution: Caution,
		Figures: []figureDocument{},
	}
	for _, f := range set.Figures {
		var limit any = f.Limit.Number
		if f.Quantity == Truth {
			limit = f.Yes()
		}
		document.Figures = append(document.Figures, figureDocument{
			ID: f.ID, Topic: f.Topic, About: f.About, Quantity: f.Quantity.Word(), Sense: f.Sense.Word(),
			Limit: limit, Unit: f.Limit.Unit, Value: f.Value(), Required: f.Required(), Advice: f.Advice,
			When: f.When, Clause: f.Clause, Edition: f.Edition, Source: f.Source.Title, URL: f.Source.URL, Status: f.Status,
		})
	}
	return writeDocument(w, document)
}

// WriteListJSON writes which sets come with the program for other programs.
func WriteListJSON(w io.Writer) error {
	type entry struct {
		Set        string `json:"set"`
		Name       string `json:"name"`
		Default    bool   `json:"default"`
		Figures    int    `json:"figures"`
		FromMemory int    `json:"from_memory"`
	}
	document := struct {
		Caution string  `json:"caution"`
		Sets    []entry `json:"sets"`
	}{Caution: Caution}
	for _, id := range ShippedIDs() {
		set, _ := Shipped(id)
		document.Sets = append(document.Sets, entry{id, set.Name, id == DefaultID, len(set.Figures), set.FromMemory()})
	}
	return writeDocument(w, document)
}

func writeDocument(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("rules: writing a set: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}
