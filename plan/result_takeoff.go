package plan

import (
	"fmt"
	"io"
	"strings"
)

// WriteTakeOff lists what every wall, floor and work takes, net and with waste,
// and after them the totals as they are bought.
func WriteTakeOff(w io.Writer, s *Scheme) error {
	rows := [][]string{{"item", "size", "measure", "unit", "level", "cause", "of", "net", "waste_percent", "needed", "source"}}
	all := TakeOff(s)
	for _, q := range all {
		rows = append(rows, []string{
			q.Item, q.Size, q.Measure, q.Unit, q.Level, q.Cause, q.Of, fixed(q.Net, 2), fixed(100*q.Waste, 0), fixed(q.Needed(), 2), q.Source.String(),
		})
	}
	for _, q := range Totals(all) {
		rows = append(rows, []string{q.Item, q.Size, q.Measure, q.Unit, "", "total", "", "", "", fixed(q.Net, 2), ""})
	}
	return writeRows(w, "take-off", rows)
}

type quantitySummary struct {
	Item     string  `json:"item"`
	Size     string  `json:"size"`
	Measure  string  `json:"measure"`
	Unit     string  `json:"unit"`
	Quantity float64 `json:"quantity"`
}

// newTakeOffSummary gives the totals as they are bought.
func newTakeOffSummary(s *Scheme) []quantitySummary {
	var out []quantitySummary
	for _, q := range Totals(TakeOff(s)) {
		out = append(out, quantitySummary{q.Item, q.Size, q.Measure, q.Unit, decimal(q.Net, 2)})
	}
	return out
}

// takeOff tells the totals in short.
func (t *textSummary) takeOff(s *Scheme) {
	var texts []string
	for _, q := range Totals(TakeOff(s)) {
		decimals := 0
		if q.Measure == "m2" || q.Measure == "kg" || q.Measure == "m" {
			decimals = 1
		}
		measure := q.Measure
		if decimals == 0 && q.Net == 1 {
			measure = strings.TrimSuffix(measure, "s")
		}
		text := fmt.Sprintf("%s %s %s", fixed(q.Net, decimals), measure, q.Item)
		if q.Size != "" {
			text += " " + q.Size
		}
		if q.Unit != bothText {
			text += " for " + q.Unit
		}
		texts = append(texts, text)
	}
	if len(texts) > 0 {
		t.printf("\n  Take-off, with waste, whole as bought (takeoff.csv says what causes each)\n")
		t.listed("    ", texts, "")
	}
}
