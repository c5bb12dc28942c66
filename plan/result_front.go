package plan

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"
)

type (
	frontSummary struct {
		WantedShareA float64             `json:"wanted_share_a"`
		Steps        []float64           `json:"steps"`
		Bedrooms     [2]int              `json:"bedrooms_asked"`
		MoreShared   int                 `json:"more_shared"`
		Complete     bool                `json:"complete"`
		Open         []string            `json:"open"`
		Points       []frontPointSummary `json:"points"`
	}
	frontPointSummary struct {
		ID        string      `json:"id"`
		Title     string      `json:"title"`
		Cost      costSummary `json:"cost"`
		Shared    int         `json:"shared"`
		Bedrooms  int         `json:"bedrooms"`
		ShareA    float64     `json:"share_a"`
		Within    float64     `json:"within"`
		Proved    bool        `json:"proved"`
		Bound     float64     `json:"bound"`
		Schemes   []string    `json:"schemes"`
		SharedIDs []string    `json:"shared_ids"`
		Unlike    []string    `json:"unlike_scheme_1"`
	}
)

// thousandth gives a part of the whole.
func thousandth(n int) float64 { return decimal(float64(n)/1000, shareDecimals) }

// frontSummaryOf gives the front as summary.json has it; nil where there is none.
func frontSummaryOf(a *Answer) *frontSummary {
	f := a.Front
	if f == nil {
		return nil
	}
	t := textSummary{answer: a, house: a.Building.House}
	out := &frontSummary{
		WantedShareA: thousandth(f.Wanted), Steps: []float64{}, Bedrooms: f.Bedrooms, MoreShared: frontMoreShared,
		Complete: f.Complete, Open: listed(f.Open), Points: []frontPointSummary{},
	}
	for _, step := range f.Steps {
		out.Steps = append(out.Steps, thousandth(step))
	}
	for _, p := range f.Points {
		s := p.Scheme
		out.Points = append(out.Points, frontPointSummary{
			ID: s.ID, Title: SchemeTitle(s), Cost: newCostSummary(s), Shared: p.Shared, Bedrooms: p.Bedrooms,
			ShareA: thousandth(p.ShareA), Within: thousandth(p.Step), Proved: s.Proved, Bound: decimal(s.Bound, moneyDecimals),
			Schemes: listed(p.Listed), SharedIDs: listed(sharedIDs(s)), Unlike: listed(t.differences(a.Schemes[0], s)),
		})
	}
	return out
}

// WriteFront writes the front as CSV, one scheme a line.
func WriteFront(w io.Writer, f *Front) error {
	rows := [][]string{{
		"id", "cost", "works", "priorities", "shared_not_accepted", "bedrooms", "bedrooms_a", "bedrooms_b",
		"share_a", "within", "proved", "bound", "schemes", "title",
	}}
	share := func(n int) string { return fixed(float64(n)/1000, shareDecimals) }
	for _, p := range f.Points {
		s := p.Scheme
		rows = append(rows, []string{
			s.ID, costText(s.Cost.Total), costText(s.Cost.Works), costText(s.Cost.Priorities), strconv.Itoa(p.Shared),
			strconv.Itoa(p.Bedrooms), strconv.Itoa(s.Units[UnitA].Bedrooms), strconv.Itoa(s.Units[UnitB].Bedrooms),
			share(p.ShareA), share(p.Step), yesNo(s.Proved), costText(s.Bound), strings.Join(p.Listed, " "), SchemeTitle(s),
		})
	}
	return writeRows(w, "front", rows)
}

// front prints the front as a table, and then how each scheme differs.
func (t *textSummary) front() {
	f := t.answer.Front
	if f == nil {
		return
	}
	percent := func(n int) string { return trimmed(math.Round(float64(n))/10) + " %" }
	t.printf("\nWhat there is to choose between: no other scheme is as good in all of these\n")
	table := tabwriter.NewWriter(&t.b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "      \tcost\tshared, not accepted\tbedrooms\tarea of A\tfrom %s\tproved\tscheme\n", percent(f.Wanted))
	for _, p := range f.Points {
		s := p.Scheme
		within := "further"
		if p.Step < frontAnyShare {
			within = "within " + percent(p.Step)
		}
		proved := "yes"
		if !s.Proved {
			proved = "at least " + thousands(s.Bound)
		}
		listed := "-"
		if len(p.Listed) > 0 {
			listed = strings.Join(p.Listed, ", ")
		}
		fmt.Fprintf(table, "  %s\t%s\t%d\t%d (%d + %d)\t%s\t%s\t%s\t%s\n", s.ID, t.cost(s.Cost.Total), p.Shared,
			p.Bedrooms, s.Units[UnitA].Bedrooms, s.Units[UnitB].Bedrooms, percent(p.ShareA), within, proved, listed)
	}
	table.Flush()
	first := t.answer.Schemes[0]
	for _, p := range f.Points {
		if len(p.Listed) > 0 && p.Listed[0] == first.ID {
			continue
		}
		t.listed("  "+p.Scheme.ID+" unlike scheme "+first.ID+": ", t.differences(first, p.Scheme), "what stays shared, or the works alone")
		t.listed("     still shared: ", sharedIDs(p.Scheme), "nothing")
	}
	t.frontProof()
}

// frontProof says what the front is complete for, and what is open.
func (t *textSummary) frontProof() {
	f := t.answer.Front
	var steps []string
	for _, s := range f.Steps {
		if s < frontAnyShare {
			steps = append(steps, trimmed(float64(s)/10)+" %")
		}
	}
	asked := fmt.Sprintf("%d to %d bedrooms in all", f.Bedrooms[0], f.Bedrooms[1])
	if f.Bedrooms[0] == f.Bedrooms[1] {
		asked = fmt.Sprintf("%d bedrooms in all", f.Bedrooms[0])
	}
	grid := fmt.Sprintf("looked for: %s; A's part of the area within %s of %s %%, or any; for each of these the fewest shared elements that there can be, and up to %d more.",
		asked, strings.Join(steps, ", "), trimmed(float64(f.Wanted)/10), frontMoreShared)
	if f.Complete {
		t.listed("  ", []string{"Complete and proved for what was " + grid}, "")
		return
	}
	t.listed("  ", []string{"Not complete. Was " + grid}, "")
	t.listed("  Not settled: ", f.Open, "")
}
