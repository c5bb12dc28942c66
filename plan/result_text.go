package plan

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"moiety/plan/partition"
)

// WriteText writes the readable summary of an answer: per scheme what each
// unit has, what stays shared and why, the works with quantities and costs,
// and how far it is proved; then, if asked for, the price of each demand and
// the front; then warnings and cautions.
func WriteText(w io.Writer, a *Answer) error {
	t := textSummary{answer: a, house: a.Building.House}
	t.head()
	for _, s := range a.Schemes {
		t.scheme(s)
	}
	t.openings()
	t.returns()
	t.wishes()
	t.front()
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
		if text := t.house.Name + ": " + noSchemeText(t.answer); t.answer.Status == partition.Infeasible {
			t.listed("", []string{text}, "")
		} else {
			t.printf("%s\n", text)
		}
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
		return "cannot be parted as asked. " + conflictText(a.WhyNotProof)
	}
	return "no scheme found before the search was stopped; that does not mean that there is none"
}

// conflictText leads to the demands that conflict, and says what is proved of them.
func conflictText(proof WhyNotProof) string {
	switch proof {
	case SmallestConflict:
		return "What cannot hold together (no fewer of what the brief asks conflict):"
	case MinimalConflict:
		return "What cannot hold together (it could without any one of these; that no fewer conflict is not proved):"
	case SomeConflict:
		return "What cannot hold together (a smaller reason was not found in good time; some of this may be beside the point):"
	}
	return "What cannot hold together:"
}

// noMoreText says that the schemes listed are all that differ.
func noMoreText(a *Answer) string {
	if a.Complete {
		return "; no other differs from these by more than closets"
	}
	return ""
}

// scheme tells the first scheme whole, and of the others how they differ.
func (t *textSummary) scheme(s *Scheme) {
	t.printf("\nScheme %s: %s\n", s.ID, SchemeTitle(s))
	t.listed("  ", []string{fmt.Sprintf("Cost %s: works %s, priorities %s. %s", t.cost(s.Cost.Total), t.cost(s.Cost.Works), t.cost(s.Cost.Priorities), t.proof(s))}, "")
	first := t.answer.Schemes[0]
	if s != first {
		t.listed(fmt.Sprintf("  Unlike scheme %s: ", first.ID), t.differences(first, s), "the works alone differ")
		for _, u := range s.Units {
			t.listed("  "+unitTitle(u)+": ", t.measures(u), "")
		}
		t.listed("  Still shared: ", sharedIDs(s), "nothing")
		t.checks(s)
		return
	}
	for _, u := range s.Units {
		t.unit(s, u)
	}
	t.shared(s)
	t.works(s)
	t.services(s)
	t.separation(s)
	t.noise(s)
	t.takeOff(s)
	t.checks(s)
}

// differences says which cells have another owner or use in the second
// scheme or are divided otherwise, and which unit is entered elsewhere.
func (t *textSummary) differences(first, second *Scheme) []string {
	to := map[Owner][]string{}
	var uses []string
	for c, cell := range second.Building.Cells {
		was := first.Building.CellNamed(cell.ID)
		switch {
		case cell.isPiece() && !samePiece(first, was, cell):
			if second.Building.lead(c) {
				uses = append(uses, second.Whole.nameOf(cell.Of)+" divided"+t.otherwise(first, cell.Of))
			}
		case was < 0 && !cell.isPiece():
			to[second.Owners[c]] = append(to[second.Owners[c]], "the whole of "+cell.Name)
		case second.Owners[c] != first.Owners[was]:
			to[second.Owners[c]] = append(to[second.Owners[c]], cell.Name)
		case second.Uses[c] != first.Uses[was]:
			as := "as"
			if second.Uses[c] == cell.Use {
				as = "stays"
			}
			uses = append(uses, fmt.Sprintf("%s %s %s", cell.Name, as, words(string(second.Uses[c]))))
		}
	}
	var texts []string
	for _, o := range []Owner{UnitA, UnitB, Common, Nobody} {
		if len(to[o]) == 0 {
			continue
		}
		whose := "shared"
		switch o {
		case UnitA, UnitB:
			whose = "to " + unitTitle(second.Units[o])
		case Nobody:
			whose = "to nobody"
		}
		texts = append(texts, fmt.Sprintf("%s %s", strings.Join(to[o], ", "), whose))
	}
	texts = append(texts, uses...)
	for i, u := range second.Units {
		if entries := t.entries(second, u); !slices.Equal(entries, t.entries(first, first.Units[i])) && len(entries) > 0 {
			texts = append(texts, fmt.Sprintf("%s entered by %s", unitTitle(u), strings.Join(entries, ", and by ")))
		}
	}
	return texts
}

// samePiece tells whether a scheme has a piece of the same size.
func samePiece(s *Scheme, c int, piece Cell) bool {
	return c >= 0 && math.Abs(s.Building.Cells[c].AreaM2-piece.AreaM2) <= sameAreaM2
}

// otherwise says that a scheme divides a space too.
func (t *textSummary) otherwise(s *Scheme, space string) string {
	if s.Building.CellNamed(space) < 0 {
		return " elsewhere"
	}
	return ""
}

// nameOf is the name of the cell with an id.
func (b *Building) nameOf(id string) string { return b.Cells[b.CellNamed(id)].Name }

// sharedIDs lists what is shared, marked where the brief does not accept it.
func sharedIDs(s *Scheme) []string {
	var texts []string
	for _, e := range s.Shared {
		text := e.ID
		if !e.Accepted {
			text += " (NOT accepted by the brief)"
		}
		texts = append(texts, text)
	}
	return texts
}

// proof says how good the scheme is known to be.
func (t *textSummary) proof(s *Scheme) string {
	among, but := "", ""
	if n := len(t.answer.Cuts); n > 0 {
		among = fmt.Sprintf(" among %d lines to divide rooms and ground along", n)
	}
	if s.Gap >= 0.0005 {
		but = fmt.Sprintf(", but for what the new walls' thickness makes (%.1f %%)", 100*s.Gap)
	}
	switch {
	case s.Proved && s.ID == "1":
		return fmt.Sprintf("Proved%s: none that shares no more costs less%s.", among, but)
	case s.Proved:
		return fmt.Sprintf("Proved%s: none that differs from those before it and shares no more costs less%s.", among, but)
	}
	return fmt.Sprintf("Not proved: the best found; none costs less than %s (gap %.1f %%).", t.cost(s.Bound), 100*s.Gap)
}

func (t *textSummary) unit(s *Scheme, u Unit) {
	t.printf("\n  %s\n", unitTitle(u))
	t.listed("    Area:     ", t.measures(u), "")
	rooms := make([][]string, len(t.house.Levels))
	var outdoors []string
	for _, c := range u.Cells {
		cell := s.Building.Cells[c]
		text := fmt.Sprintf("%s %s", cell.Name, t.area(cell.AreaM2))
		if after := t.area(s.AfterM2(c)); after != t.area(cell.AreaM2) {
			text += fmt.Sprintf(" (%s inside the linings)", after)
		}
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

// measures gives the areas of a unit and counts its rooms.
func (t *textSummary) measures(u Unit) []string {
	return []string{
		fmt.Sprintf("%s net, %s gross (%s above grade, %s below)", t.area(u.NetM2), t.area(u.GrossM2), t.area(u.AboveM2), t.area(u.BelowM2)),
		counted(float64(u.Bedrooms), "bedroom"), counted(u.Bathrooms, "bathroom"),
	}
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
		text := e.ID
		if use := words(e.Use); use != e.ID {
			text += " (" + use + ")"
		}
		if !e.Accepted {
			text += ", NOT accepted by the brief"
		}
		text += ": " + strings.TrimSuffix(e.Why, ".") + "."
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
	for _, g := range groupWorks(s.Works) {
		fmt.Fprintf(table, "    %s\t%s\t%s\t%*s\n", g.name, g.where(), g.quantity(), width, t.cost(g.cost))
	}
	fmt.Fprintf(table, "    \t\ttogether\t%s\n", total)
	table.Flush()
	if low, high := s.spread(); high > 0 {
		t.printf("    From %s to %s by the price file's spread; works.csv has both for each work\n", t.cost(low), t.cost(high))
	}
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
