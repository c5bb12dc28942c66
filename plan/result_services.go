package plan

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"moiety/plan/published"
	"moiety/plan/services"
)

type serviceSummary struct {
	Unit    string             `json:"unit"`
	Kind    string             `json:"kind"`
	Answer  string             `json:"answer"`
	Value   float64            `json:"value"`
	ValueIn string             `json:"value_unit"`
	Method  string             `json:"method"`
	Status  published.Status   `json:"status"`
	Lines   []services.Line    `json:"lines"`
	Sources []published.Source `json:"sources"`
	Notes   []string           `json:"notes"`
	Caution string             `json:"caution"`
}

// serviceDecimals is the precision of what services come to: a tenth of a watt.
const serviceDecimals = 1

func newServiceSummaries(all []Service) []serviceSummary {
	out := []serviceSummary{}
	for _, s := range all {
		summary := serviceSummary{
			Unit: s.Unit, Kind: s.Kind, Answer: s.Answer, Value: decimal(s.Value, serviceDecimals), ValueIn: s.Result.Unit,
			Method: s.Method, Status: s.Status(), Lines: []services.Line{}, Sources: s.Sources, Notes: listed(s.Notes), Caution: s.Caution,
		}
		for _, line := range s.Lines {
			line.Value = decimal(line.Value, serviceDecimals)
			summary.Lines = append(summary.Lines, line)
		}
		out = append(out, summary)
	}
	return out
}

// WriteServices lists the steps of every service's calculation: a row for each
// step and one for what it comes to, with the method, the sources and whether
// they were read.
func WriteServices(w io.Writer, s *Scheme) error {
	rows := [][]string{{"unit", "service", "what", "from", "value", "value_unit", "method", "source", "status", "note"}}
	for _, service := range s.Services {
		unit := service.Unit
		if unit == "" {
			unit = "both"
		}
		for _, line := range service.Lines {
			rows = append(rows, []string{unit, service.Kind, line.What, line.From, fixed(line.Value, serviceDecimals), line.Unit, "", "", "", ""})
		}
		var sources []string
		for _, source := range service.Sources {
			sources = append(sources, source.String())
		}
		rows = append(rows, []string{
			unit, service.Kind, "in all", service.Answer, fixed(service.Value, serviceDecimals), service.Result.Unit, service.Method,
			strings.Join(sources, "; "), string(service.Status()), strings.Join(append(service.Notes, service.Caution), "; "),
		})
	}
	return writeRows(w, "services", rows)
}

// services tells what each unit is supplied with, in a table, and what the
// figures are worth.
func (t *textSummary) services(s *Scheme) {
	if len(s.Services) == 0 {
		return
	}
	t.printf("\n  Services, preliminary: licensed trades size and install, each method is in services.csv\n")
	table := tabwriter.NewWriter(&t.b, 0, 0, 2, ' ', 0)
	for _, service := range s.Services {
		unit := "unit " + service.Unit
		if service.Unit == "" {
			unit = "both"
		}
		answer := service.Answer
		if service.Status() != published.Read {
			// What is there was surveyed or said; the figure alone is from memory.
			asked, there, both := strings.Cut(answer, "; ")
			if answer = asked + ", from memory"; both {
				answer += "; " + there
			}
		}
		fmt.Fprintf(table, "    %s\t%s\t%s\n", words(service.Kind), unit, answer)
	}
	table.Flush()
}
