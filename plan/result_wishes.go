package plan

import (
	"fmt"
	"strings"
)

type (
	wishSummary struct {
		Unit   string       `json:"unit"`
		Key    string       `json:"key"`
		Word   string       `json:"word"`
		Demand string       `json:"demand"`
		Asked  bool         `json:"asked"`
		Costs  wishCosts    `json:"costs"`
		Proved bool         `json:"proved"`
		AtMost *float64     `json:"at_most,omitempty"`
		Best   *wishWithout `json:"without,omitempty"`
	}
	wishCosts struct {
		Total  float64 `json:"total"`
		Shared int     `json:"shared"`
	}
	wishWithout struct {
		Title  string      `json:"title"`
		Cost   costSummary `json:"cost"`
		Bound  float64     `json:"bound"`
		Shared []string    `json:"shared"`
		Unlike []string    `json:"unlike_scheme_1"`
	}
)

// wishSummaries gives the wishes of an answer as summary.json has them.
func wishSummaries(a *Answer) []wishSummary {
	t := textSummary{answer: a, house: a.Building.House}
	var out []wishSummary
	for _, w := range a.Wishes {
		s := wishSummary{
			Unit: w.Unit, Key: w.Key, Word: w.Word, Demand: w.Demand, Asked: w.Asked,
			Costs: wishCosts{decimal(w.Cost, moneyDecimals), w.Shared}, Proved: w.Proved,
		}
		if w.Asked && w.Limited {
			most := decimal(w.Most, moneyDecimals)
			s.AtMost = &most
		}
		if o := w.Without; o != nil {
			s.Best = &wishWithout{
				Title: SchemeTitle(o), Cost: newCostSummary(o), Bound: decimal(o.Bound, moneyDecimals),
				Shared: listed(sharedIDs(o)), Unlike: listed(t.differences(a.Schemes[0], o)),
			}
		}
		out = append(out, s)
	}
	return out
}

// wishes says what each demand costs, the dearest first, and which cost nothing.
func (t *textSummary) wishes() {
	if len(t.answer.Wishes) == 0 {
		return
	}
	t.printf("\nWhat each demand costs, were it dropped alone\n")
	var free, open []string
	for _, w := range t.answer.Wishes {
		switch {
		case !w.Asked:
			open = append(open, w.Demand)
		case w.Without == nil && w.Proved:
			free = append(free, w.Demand)
		default:
			t.wish(w)
		}
	}
	t.listed("  - Nothing: ", free, "")
	t.listed("  - Not looked into before the search was stopped: ", open, "")
}

func (t *textSummary) wish(w Wish) {
	t.listed("  - ", []string{w.Demand + ": " + t.wishPrice(w) + "."}, "")
	o := w.Without
	if o == nil {
		return
	}
	first := t.answer.Schemes[0]
	t.listed("      Without it: ", append([]string{t.cost(o.Cost.Total)}, t.differences(first, o)...), "")
	if n, was := strings.Join(sharedIDs(o), "; "), strings.Join(sharedIDs(first), "; "); n != was {
		t.listed("      Then shared: ", sharedIDs(o), "nothing")
	}
}

// wishPrice says what a demand costs and how far that is proved.
func (t *textSummary) wishPrice(w Wish) string {
	more := "one more element shared that the brief does not accept"
	if w.Shared > 1 {
		more = fmt.Sprintf("%d more elements shared that the brief does not accept", w.Shared)
	}
	text := t.cost(w.Cost)
	switch {
	case w.Shared > 0 && w.Cost < 0:
		text = more + ", though " + t.cost(-w.Cost) + " less to spend"
	case w.Shared > 0 && w.Cost > 0:
		text = more + ", and " + t.cost(w.Cost)
	case w.Shared > 0:
		text = more
	case w.Without == nil:
		text = "nothing by the schemes found"
	}
	switch {
	case w.Proved:
	case w.Limited && t.answer.Schemes[0].Proved:
		text += fmt.Sprintf(", or more: at most %s (not proved)", t.cost(w.Most))
	default:
		text += ", by the best schemes found (not proved)"
	}
	return text
}
