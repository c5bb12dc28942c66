package plan

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"moiety/plan/partition"
)

// WriteText writes the readable summary of an answer: per scheme what each
// unit has, what stays shared and why, the works with quantities and costs,
// and how far it is proved; then warnings and cautions.
func WriteText(w io.Writer, a *Answer) error {
	t := textSummary{answer: a, house: a.Building.House}
	t.head()
	for _, s := range a.Schemes {
		t.scheme(s)
	}
	t.notes()
	_, err := w.Write(t.b.Bytes())
	return err
}

type textSummary struct {
	b      bytes.Buffer
	answer *Answer
	house  *House
}

func (t *textSummary) printf(format string, args ...any) { fmt.Fprintf(&t.b, format, args...) }

func (t *textSummary) head() {
	switch n := len(t.answer.Schemes); n {
	case 0:
		t.printf("%s: %s\n", t.house.Name, noSchemeText(t.answer))
		for _, demand := range t.answer.WhyNot {
			t.listed("  - ", []string{demand}, "")
		}
	case 1:
		t.printf("%s: one scheme%s\n", t.house.Name, noMoreText(t.answer))
	default:
		t.printf("%s: %d schemes, the best first%s\n", t.house.Name, n, noMoreText(t.answer))
	}
}

// noSchemeText says why there is no scheme, before the demands are listed.
func noSchemeText(a *Answer) string {
	if a.Status == partition.Infeasible {
		return "cannot be parted as asked. What cannot hold together:"
	}
	return "no scheme found before the search was stopped; that does not mean that there is none"
}

// noMoreText says that the schemes listed are all that differ.
func noMoreText(a *Answer) string {
	if a.Complete {
		return "; no other differs from these by more than closets"
	}
	return ""
}

func (t *textSummary) scheme(s *Scheme) {
	t.printf("\nScheme %s: %s\n", s.ID, SchemeTitle(s))
	t.printf("  Cost %s: works %s, priorities %s. %s\n", t.cost(s.Cost.Total), t.cost(s.Cost.Works), t.cost(s.Cost.Priorities), t.proof(s))
	for _, u := range s.Units {
		t.unit(s, u)
	}
	t.shared(s)
	t.works(s)
}

// proof says how good the scheme is known to be.
func (t *textSummary) proof(s *Scheme) string {
	switch {
	case s.Proved && s.ID == "1":
		return "Proved: none that shares no more costs less."
	case s.Proved:
		return "Proved: none that differs from those before it and shares no more costs less."
	}
	return fmt.Sprintf("Not proved: the best found; none costs less than %s (gap %.1f %%).", t.cost(s.Bound), 100*s.Gap)
}

func (t *textSummary) unit(s *Scheme, u Unit) {
	t.printf("\n  %s\n", unitTitle(u))
	t.listed("    Area:     ", []string{
		fmt.Sprintf("%s net, %s gross (%s above grade, %s below)", t.area(u.NetM2), t.area(u.GrossM2), t.area(u.AboveM2), t.area(u.BelowM2)),
		counted(float64(u.Bedrooms), "bedroom"), counted(u.Bathrooms, "bathroom"),
	}, "")
	rooms := make([][]string, len(t.house.Levels))
	var outdoors []string
	for _, c := range u.Cells {
		cell := s.Building.Cells[c]
		text := fmt.Sprintf("%s %s", cell.Name, t.area(cell.AreaM2))
		if !cell.Flight && s.Uses[c] != cell.Use {
			text += fmt.Sprintf(" (%s becomes %s)", words(string(cell.Use)), words(string(s.Uses[c])))
		}
		if cell.Outdoor || cell.Use == Garage {
			outdoors = append(outdoors, text)
		} else {
			rooms[cell.Level] = append(rooms[cell.Level], text)
		}
	}
	label := "    Rooms:    "
	for _, l := range levelsFromBelow(t.house) {
		if len(rooms[l]) > 0 {
			t.listed(label, append([]string{t.house.Levels[l].Name + ": " + rooms[l][0]}, rooms[l][1:]...), "")
			label = strings.Repeat(" ", len(label))
		}
	}
	t.listed("    Entry:    ", t.entries(s, u), "none of its own")
	if u.Parking > 0 {
		outdoors = append(outdoors, "parking for "+counted(float64(u.Parking), "car"))
	}
	t.listed("    Outdoors: ", outdoors, "")
	t.listed("    Note:     ", u.Notes, "")
}

// entries says from where each entry door of the unit is reached.
func (t *textSummary) entries(s *Scheme, u Unit) []string {
	var texts []string
	for _, id := range u.Entries {
		text := id
		for _, p := range s.Passages {
			if p.Of != id {
				continue
			}
			text = fmt.Sprintf("%s, between %s and %s", id, t.name(s, p.Between[0]), t.name(s, p.Between[1]))
			if p.State == New {
				text += " (new)"
			}
			break
		}
		texts = append(texts, text)
	}
	return texts
}

// name gives the name of a cell, or what it is called where it is none.
func (t *textSummary) name(s *Scheme, id string) string {
	for _, c := range s.Building.Cells {
		if c.ID == id {
			return c.Name
		}
	}
	return id
}

func (t *textSummary) shared(s *Scheme) {
	if len(s.Shared) == 0 {
		t.printf("\n  Still shared: nothing\n")
		return
	}
	t.printf("\n  Still shared\n")
	for _, e := range s.Shared {
		accepted := "accepted by the brief"
		if !e.Accepted {
			accepted = "NOT accepted by the brief"
		}
		text := fmt.Sprintf("%s (%s), %s: %s.", e.ID, words(e.Use), accepted, strings.TrimSuffix(e.Why, "."))
		if e.Cure != "" {
			text += fmt.Sprintf(" Cure: %s.", strings.TrimSuffix(e.Cure, "."))
		}
		t.listed("    - ", []string{text}, "")
	}
}

func (t *textSummary) works(s *Scheme) {
	if len(s.Works) == 0 {
		t.printf("\n  Works: none\n")
		return
	}
	t.printf("\n  Works\n")
	total := t.cost(s.Cost.Works)
	width := utf8.RuneCountInString(total)
	table := tabwriter.NewWriter(&t.b, 0, 0, 2, ' ', 0)
	for _, work := range s.Works {
		where := strings.Join(work.Spaces, " | ")
		if work.Of != "" {
			where += " at " + work.Of
		}
		fmt.Fprintf(table, "    %s\t%s\t%s\t%s\t%*s\n", work.ID, workText(work), where, quantityText(work), width, t.cost(work.Cost))
	}
	fmt.Fprintf(table, "    \t\t\ttogether\t%s\n", total)
	table.Flush()
}

// workText names the work and whose it is.
func workText(w Work) string {
	text := words(w.Kind)
	if w.Unit != "" {
		text += " for " + w.Unit
	}
	return text
}

// quantityText gives what the price was multiplied by.
func quantityText(w Work) string {
	switch {
	case w.AreaM2 > 0 && w.LengthM > 0:
		return fmt.Sprintf("%.2f m, %.2f m2", w.LengthM, w.AreaM2)
	case w.AreaM2 > 0:
		return fmt.Sprintf("%.2f m2", w.AreaM2)
	case w.LengthM > 0:
		return fmt.Sprintf("%.2f m", w.LengthM)
	case w.Count > 0:
		return fmt.Sprintf("%d no.", w.Count)
	}
	return ""
}

func (t *textSummary) notes() {
	t.printf("\nNotes\n")
	for _, text := range answerWarnings(t.answer) {
		t.listed("  - ", []string{text}, "")
	}
	for _, text := range []string{AreaStandard, pricesNote(t.answer.Prices), Caution} {
		t.listed("  - ", []string{text}, "")
	}
}

func (t *textSummary) listed(label string, items []string, none string) {
	writeListed(&t.b, label, items, none)
}

// area gives square metres, and square feet too where the survey is in feet.
func (t *textSummary) area(m2 float64) string { return areaIn(t.house.Unit, m2) }

// cost gives an amount with thousands apart and its currency.
func (t *textSummary) cost(v float64) string {
	return thousands(v) + " " + t.answer.Prices.Currency
}
