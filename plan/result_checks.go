package plan

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"moiety/plan/rules"
)

// checkSummary is one finding in summary.json. Value and limit are metres,
// square metres, minutes, degrees, counts or parts of one, as quantity says.
type checkSummary struct {
	Rule     string   `json:"rule"`
	Topic    string   `json:"topic"`
	Clause   string   `json:"clause"`
	Edition  string   `json:"edition"`
	Source   string   `json:"source"`
	Status   string   `json:"status"`
	Unit     string   `json:"unit"`
	Subject  string   `json:"subject"`
	Required string   `json:"required"`
	Provided string   `json:"provided"`
	Quantity string   `json:"quantity"`
	Limit    *float64 `json:"limit"` // null of what is asked, not measured
	Value    *float64 `json:"value"` // null where nothing was measured
	OK       bool     `json:"ok"`
	Result   Result   `json:"result"`
	Advice   bool     `json:"advice"`
	Note     string   `json:"note"`
	Cure     string   `json:"cure"`
}

// checkDecimals keep a millionth of a metre: what a limit is told by.
const checkDecimals = 6

func newCheckSummaries(findings []Finding) []checkSummary {
	out := []checkSummary{}
	for _, f := range findings {
		s := checkSummary{
			Rule: string(f.Figure.ID), Topic: f.Figure.Topic, Clause: f.Figure.Clause, Edition: f.Figure.Edition,
			Source: f.Figure.Source.Title, Status: string(f.Figure.Status), Unit: f.Unit, Subject: f.Subject,
			Required: f.Required, Provided: f.Provided, Quantity: f.Figure.Quantity.Word(),
			OK: f.Result == OK, Result: f.Result, Advice: f.Figure.Advice, Note: f.Note, Cure: f.Cure,
		}
		if f.Figure.Quantity != rules.Truth && f.Figure.Limits() {
			limit := decimal(f.Figure.Value(), checkDecimals)
			s.Limit = &limit
		}
		if f.Measured {
			value := decimal(f.Value, checkDecimals)
			s.Value = &value
		}
		out = append(out, s)
	}
	return out
}

// WriteChecks lists the findings of a scheme.
func WriteChecks(w io.Writer, s *Scheme) error {
	rows := [][]string{{"result", "unit", "subject", "rule", "topic", "required", "provided", "value", "limit", "quantity", "clause", "edition", "status", "note", "cure"}}
	for _, c := range newCheckSummaries(s.Findings) {
		number := func(v *float64) string {
			if v == nil {
				return ""
			}
			return strconv.FormatFloat(*v, 'f', -1, 64)
		}
		rows = append(rows, []string{
			string(c.Result), c.Unit, c.Subject, c.Rule, c.Topic, c.Required, c.Provided, number(c.Value), number(c.Limit),
			c.Quantity, c.Clause, c.Edition, c.Status, c.Note, c.Cure,
		})
	}
	if len(s.Findings) > 0 {
		last := make([]string, len(rows[0]))
		last[0], last[slices.Index(rows[0], "note")] = cautionRow, ScreeningNote
		rows = append(rows, last)
	}
	return writeRows(w, "checks", rows)
}

// countFindings says how many findings came out how.
func countFindings(findings []Finding) string {
	n := map[Result]int{}
	for _, f := range findings {
		n[f.Result]++
	}
	text := fmt.Sprintf("%d ok, %d not ok, %d not surveyed", n[OK], n[NotOK], n[NotSurveyed])
	if n[Informed] > 0 {
		text += fmt.Sprintf(", %d for information", n[Informed])
	}
	return text
}

// checks tells what is not ok and what is not surveyed; of the other schemes
// how many.
func (t *textSummary) checks(s *Scheme) {
	set := t.answer.Rules
	if set == nil {
		return
	}
	if s != t.answer.Schemes[0] {
		t.listed("  Checks: ", []string{countFindings(s.Findings)}, "")
		return
	}
	t.printf("\n  Checks against %s\n", set.Name)
	t.listed("    ", []string{countFindings(s.Findings) + " (checks.csv lists all)"}, "")
	for _, result := range []Result{NotOK, NotSurveyed, Informed} {
		for _, g := range groupFindings(s.Findings, result) {
			t.listed("    - ", []string{g.text()}, "")
		}
	}
}

// findingGroup is findings that say the same of several subjects.
type findingGroup struct {
	first    Finding
	subjects []string
}

// groupFindings puts the findings of a result together that are of one figure
// and say the same.
func groupFindings(findings []Finding, result Result) []*findingGroup {
	var groups []*findingGroup
	for _, f := range findings {
		if f.Result != result {
			continue
		}
		i := slices.IndexFunc(groups, func(g *findingGroup) bool {
			return g.first.Figure.ID == f.Figure.ID && g.first.Note == f.Note && g.first.Cure == f.Cure
		})
		if i < 0 {
			groups = append(groups, &findingGroup{first: f})
			i = len(groups) - 1
		}
		groups[i].subjects = append(groups[i].subjects, f.subject())
	}
	return groups
}

// subject names what a finding is about, with what it provides.
func (f Finding) subject() string {
	text := f.Subject
	if text == "" {
		text = "the house"
	}
	if f.Unit != "" && f.Unit != f.Subject {
		text += " of " + f.Unit
	}
	if f.Provided != "" {
		text += ": " + f.Provided
	}
	return text
}

// text is the group as one remark.
func (g *findingGroup) text() string {
	f := g.first
	required := f.Required
	if says := f.Figure.Status.Says(); says != "" {
		required += ", " + says
	}
	if f.Figure.Limits() {
		required += fmt.Sprintf(" (%s, %s)", f.Figure.Clause, f.Figure.Edition)
	} else {
		required = "(" + required + ")"
	}
	text := fmt.Sprintf("%s: %s %s – %s.", strings.ToUpper(string(f.Result)), f.Figure.About, required, strings.Join(g.subjects, ", "))
	if f.Note != "" {
		text += " " + sentence(f.Note)
	}
	if f.Cure != "" {
		text += " Cure: " + strings.TrimSuffix(f.Cure, ".") + "."
	}
	return text
}

// sentence makes a remark a sentence.
func sentence(text string) string {
	return strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".") + "."
}

// ScreeningNote goes with every list of checks.
const ScreeningNote = "for screening only: local codes and amendments rule, and licensed designers, engineers and trades decide"

// cautionRow marks the last row of a table, which holds a caution.
const cautionRow = "caution"

// checksNote says what the checks of an answer are worth.
func checksNote(set *rules.Set) string {
	if set == nil {
		return NothingChecked
	}
	note := fmt.Sprintf("checked against %s (%s), %s", set.Name, set.ID, ScreeningNote)
	if n := set.FromMemory(); n > 0 {
		note += fmt.Sprintf("; %d of its %d figures are from memory and say so", n, len(set.Figures))
	}
	return note
}

// rulesID names the set of an answer.
func rulesID(set *rules.Set) string {
	if set == nil {
		return noRules
	}
	return set.ID
}
