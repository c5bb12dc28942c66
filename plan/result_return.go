package plan

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

type (
	returnSummary struct {
		Caution      string             `json:"caution"`
		RunningShare float64            `json:"running_share"`
		AsItIs       returnRowSummary   `json:"as_it_is"`
		Schemes      []returnRowSummary `json:"schemes"`
	}
	returnRowSummary struct {
		Scheme       string       `json:"scheme"`
		Works        float64      `json:"works"`
		Low          float64      `json:"works_low"`
		High         float64      `json:"works_high"`
		PerAddedUnit float64      `json:"per_added_unit"`
		Rents        []float64    `json:"rents_per_month,omitempty"`
		Income       *float64     `json:"income_per_year,omitempty"`
		More         *float64     `json:"more_per_year,omitempty"`
		Yield        *spreadShown `json:"yield,omitempty"`
		Payback      *spreadShown `json:"payback_years,omitempty"`
		Sale         *float64     `json:"sale,omitempty"`
		SaleGain     *spreadShown `json:"sale_gain,omitempty"`
	}
	// spreadShown is a figure at the works' low cost, their cost and their high cost.
	spreadShown struct {
		AtLow  float64 `json:"at_low_cost"`
		AtCost float64 `json:"at_cost"`
		AtHigh float64 `json:"at_high_cost"`
	}
)

func newReturnSummary(a *Answer) *returnSummary {
	if len(a.Schemes) == 0 {
		return nil
	}
	out := &returnSummary{Caution: ReturnCaution, RunningShare: decimal(a.Brief.Return.Running, shareDecimals)}
	for i, r := range Returns(a) {
		row := newReturnRow(r)
		if i == 0 {
			out.AsItIs = row
		} else {
			out.Schemes = append(out.Schemes, row)
		}
	}
	return out
}

func newReturnRow(r Return) returnRowSummary {
	money := func(v float64) *float64 { v = decimal(v, moneyDecimals); return &v }
	shown := func(v [3]float64, decimals int) *spreadShown {
		return &spreadShown{decimal(v[0], decimals), decimal(v[1], decimals), decimal(v[2], decimals)}
	}
	row := returnRowSummary{
		Scheme: r.Scheme, Works: decimal(r.Works, moneyDecimals), Low: decimal(r.Low, moneyDecimals), High: decimal(r.High, moneyDecimals),
		PerAddedUnit: decimal(r.PerAddedUnit, moneyDecimals),
	}
	if r.RentSaid {
		for _, rent := range r.Rents {
			row.Rents = append(row.Rents, decimal(rent, moneyDecimals))
		}
		row.Income = money(r.Income)
		if r.Scheme != "" {
			row.More = money(r.More)
		}
	}
	if r.Pays {
		row.Yield, row.Payback = shown(r.Yield, shareDecimals), shown(r.Payback, yearDecimals)
	}
	if r.SaleSaid {
		row.Sale = money(r.Sale)
		if r.Scheme != "" {
			row.SaleGain = shown(r.SaleGain, moneyDecimals)
		}
	}
	return row
}

const yearDecimals = 1

// WriteReturn writes what each scheme costs and is hoped to bring beside the
// house as it is: money in the price file's currency, an empty field for what
// the brief does not say, low and high by the works' low and high cost.
func WriteReturn(w io.Writer, a *Answer) error {
	rows := [][]string{{
		"scheme", "works", "works_low", "works_high", "per_added_unit", "rent_per_month", "income_per_year", "more_per_year",
		"yield_percent", "yield_percent_low_cost", "yield_percent_high_cost", "payback_years", "payback_years_low_cost", "payback_years_high_cost",
		"sale", "sale_gain", "sale_gain_low_cost", "sale_gain_high_cost",
	}}
	for _, r := range Returns(a) {
		name := r.Scheme
		if name == "" {
			name = "as it is"
		}
		row := make([]string, len(rows[0]))
		copy(row, []string{name, costText(r.Works), costText(r.Low), costText(r.High), costText(r.PerAddedUnit)})
		if r.RentSaid {
			var rents []string
			for _, rent := range r.Rents {
				rents = append(rents, costText(rent))
			}
			row[5], row[6] = strings.Join(rents, " + "), costText(r.Income)
			if r.Scheme != "" {
				row[7] = costText(r.More)
			}
		}
		for i, at := range []int{1, 0, 2} { // the works' cost first
			if r.Pays {
				row[8+i], row[11+i] = fixed(100*r.Yield[at], 1), fixed(r.Payback[at], yearDecimals)
			}
			if r.SaleSaid && r.Scheme != "" {
				row[15+i] = costText(r.SaleGain[at])
			}
		}
		if r.SaleSaid {
			row[14] = costText(r.Sale)
		}
		rows = append(rows, row)
	}
	return writeRows(w, "return", rows)
}

// returns tells cost and return of all schemes beside the house as it is.
func (t *textSummary) returns() {
	if len(t.answer.Schemes) == 0 {
		return
	}
	all := Returns(t.answer)
	said := false
	for _, r := range all[1:] {
		said = said || r.RentSaid || r.SaleSaid
	}
	t.printf("\nCost and return\n")
	table := tabwriter.NewWriter(&t.b, 0, 0, 2, ' ', 0)
	for _, r := range all {
		switch {
		case r.Scheme != "":
			fmt.Fprintf(table, "  scheme %s\tworks %s to %s\t%s\n", r.Scheme, t.cost(r.Low), t.cost(r.High), t.brings(r))
		case said && (r.RentSaid || r.SaleSaid):
			fmt.Fprintf(table, "  as it is\tno works\t%s\n", t.brings(r))
		case said:
			fmt.Fprintf(table, "  as it is\tno works\tthe brief names no rent of it: taken as none\n")
		}
	}
	table.Flush()
	if !said {
		t.listed("  ", []string{"The brief names no rents or sale prices (units: rent, sale; return: as_it_is), so nothing is reckoned against these costs"}, "")
	}
	t.listed("  ", []string{ReturnCaution}, "")
}

// brings says what one way to leave the house is hoped to bring.
func (t *textSummary) brings(r Return) string {
	var texts []string
	if r.RentSaid {
		texts = append(texts, fmt.Sprintf("%s a year after running costs", t.cost(r.Income)))
		switch {
		case r.Pays:
			texts = append(texts, fmt.Sprintf("%s more than as it is: %.1f to %.1f years to pay the works back, a yield of %.1f to %.1f %%",
				t.cost(r.More), r.Payback[0], r.Payback[2], 100*r.Yield[2], 100*r.Yield[0]))
		case r.Scheme != "":
			texts = append(texts, "no more than as it is: the works are not paid back by rent")
		}
	}
	if r.SaleSaid {
		text := fmt.Sprintf("sale %s", t.cost(r.Sale))
		if r.Scheme != "" {
			text += fmt.Sprintf(", %s to %s beyond the works and a sale as it is", t.cost(r.SaleGain[2]), t.cost(r.SaleGain[0]))
		}
		texts = append(texts, text)
	}
	if len(texts) == 0 {
		return "nothing said of what it brings"
	}
	return strings.Join(texts, "; ")
}
