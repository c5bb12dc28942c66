package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// Caution goes with every result, whatever its form.
const Caution = "Screening only: not a permit drawing, not an engineer's or electrician's judgement. " +
	"Fire separation, escape, structure, gas and electricity are to be checked by licensed practice " +
	"and by the local building authority, whose code decides."

// AreaStandard names the published standard that gross areas follow.
// The reading of the standard is from memory, not checked against its text.
const AreaStandard = "gross areas to the outer face of external walls and the centre line of shared walls, " +
	"after IPMS Residential (2016), IPMS 3A; the standard's text was cited from memory"

// NothingChecked says that results carry no checks against a rule set.
const NothingChecked = "no rule set is applied: nothing was checked against a building code"

type (
	summaryDocument struct {
		Program        string           `json:"program"`
		House          string           `json:"house"`
		SurveySHA256   string           `json:"survey_sha256"`
		Rules          string           `json:"rules"`
		Status         string           `json:"status"`
		WhyNot         []string         `json:"why_not"`
		WhyNotProof    WhyNotProof      `json:"why_not_proof,omitempty"`
		CoordinateUnit LengthUnit       `json:"coordinate_unit"`
		AreaStandard   string           `json:"area_standard"`
		Currency       string           `json:"currency"`
		PricesNote     string           `json:"prices_note"`
		Caution        string           `json:"caution"`
		Schemes        []schemeSummary  `json:"schemes"`
		Openings       []openingSummary `json:"openings,omitempty"`
		Wishes         []wishSummary    `json:"wishes,omitempty"`
		Front          *frontSummary    `json:"front,omitempty"`
		Return         *returnSummary   `json:"return,omitempty"`
		Warnings       []string         `json:"warnings"`
	}
	schemeSummary struct {
		ID       string           `json:"id"`
		Title    string           `json:"title"`
		Proved   bool             `json:"proved"`
		Bound    float64          `json:"bound"`
		Gap      float64          `json:"gap"`
		Cost     costSummary      `json:"cost"`
		Units    []unitSummary    `json:"units"`
		Shared   []sharedSummary  `json:"shared"`
		Works    []workSummary    `json:"works"`
		Checks   []checkSummary   `json:"checks"`
		Services []serviceSummary `json:"services"`
		Alarms   []alarmSummary   `json:"alarms"`
		Noise    []noiseSummary   `json:"noise"`

		BuildUps   []buildUpSummary   `json:"build_ups,omitempty"`
		WeakPoints []weakPointSummary `json:"weak_points,omitempty"`
		TakeOff    []quantitySummary  `json:"takeoff,omitempty"`
	}
	costSummary struct {
		Total      float64 `json:"total"`
		Works      float64 `json:"works"`
		Priorities float64 `json:"priorities"`
	}
	unitSummary struct {
		ID        string      `json:"id"`
		Name      string      `json:"name"`
		Spaces    []string    `json:"spaces"`
		Area      areaSummary `json:"area"`
		Bedrooms  int         `json:"bedrooms"`
		Bathrooms float64     `json:"bathrooms"`
		Entries   []string    `json:"entries"`
		OutdoorM2 float64     `json:"outdoor_m2"`
		LiningM2  float64     `json:"lining_m2,omitempty"` // what thicker separating walls take off net_m2
		Parking   int         `json:"parking"`
		Notes     []string    `json:"notes"`
	}
	areaSummary struct {
		Net   float64 `json:"net_m2"`
		Gross float64 `json:"gross_m2"`
		Above float64 `json:"above_grade_m2"`
		Below float64 `json:"below_grade_m2"`
		After float64 `json:"net_after_m2"` // net_m2 inside the separation's linings
	}
	sharedSummary struct {
		ID       string `json:"id"`
		Use      string `json:"use"`
		Accepted bool   `json:"accepted"`
		Why      string `json:"why"`
		Cure     string `json:"cure"`
	}
	workSummary struct {
		ID      string       `json:"id"`
		Kind    string       `json:"kind"`
		Unit    string       `json:"unit"`
		Level   string       `json:"level"`
		Spaces  []string     `json:"spaces"`
		Of      string       `json:"of"`
		LengthM float64      `json:"length_m"`
		AreaM2  float64      `json:"area_m2"`
		Count   int          `json:"count"`
		Cost    float64      `json:"cost"`
		Low     float64      `json:"cost_low"`
		High    float64      `json:"cost_high"`
		Line    [][2]float64 `json:"line"`
		Note    string       `json:"note"`
	}
)

// WriteSummary writes summary.json: the house, how the question was answered,
// and every scheme with units, shared elements and works. Lengths are metres,
// areas square metres; lines of works lie in the survey's own coordinates, in
// coordinate_unit. Same answer, same bytes.
//
// why_not_proof says of the demands in why_not that no fewer conflict (smallest),
// that without any one of them the others hold (minimal), or no more than that
// they conflict (conflict).
//
// Where the price of each demand was asked for, wishes lists them, the dearest
// first: unit, key and word say where the brief has the demand, demand says it
// in words; costs is what it costs (total, and shared elements beside), proved
// tells that this is exact, at_most how much more it can be; without is the best
// scheme without the demand, absent where it is no better. asked is false where
// the search was stopped before.
//
// Where the front was asked for, front has its points, the cheapest first: what
// each costs, how many elements it leaves shared against the brief, bedrooms of
// both units, A's part of the area and how near to the wanted one it keeps
// (within, one of steps; 1 is any), how far it is proved, and the ids of the
// schemes that are as good. complete tells that nothing is missing for
// bedrooms_asked, steps, and the fewest shared elements and more_shared more;
// open says what is not settled.
func WriteSummary(w io.Writer, a *Answer) error {
	h := a.Building.House
	document := summaryDocument{
		Program: "moiety", House: h.Name, SurveySHA256: h.SHA256, Rules: rulesID(a.Rules),
		Status: a.Status.String(), WhyNot: listed(a.WhyNot), WhyNotProof: a.WhyNotProof, CoordinateUnit: h.Unit,
		AreaStandard: AreaStandard, Currency: a.Prices.Currency, PricesNote: pricesNote(a.Prices), Caution: Caution,
		Schemes: []schemeSummary{}, Warnings: answerWarnings(a), Wishes: wishSummaries(a), Front: frontSummaryOf(a),
		Return:   newReturnSummary(a),
		Openings: newOpeningSummaries(a.Building.House),
	}
	for _, s := range a.Schemes {
		document.Schemes = append(document.Schemes, newSchemeSummary(s))
	}
	return writeDocument(w, document)
}

// pricesNote says what the prices are worth.
func pricesNote(p *Prices) string {
	if p.Note == "" {
		return "prices as the price file gives them, which says nothing of where they come from"
	}
	return p.Note
}

// answerWarnings gives every warning of an answer as a sentence.
func answerWarnings(a *Answer) []string {
	texts := []string{checksNote(a.Rules)}
	for _, warning := range a.Warnings {
		texts = append(texts, warning.text())
	}
	return texts
}

// text puts the feature before the message, unless the message names it.
func (w Warning) text() string {
	if w.Feature == "" || strings.Contains(w.Message, w.Feature) {
		return w.Message
	}
	return w.Feature + ": " + w.Message
}

func newSchemeSummary(s *Scheme) schemeSummary {
	unit := s.Building.House.Unit
	summary := schemeSummary{
		ID: s.ID, Title: SchemeTitle(s), Proved: s.Proved,
		Bound: decimal(s.Bound, moneyDecimals), Gap: decimal(s.Gap, shareDecimals),
		Cost:   newCostSummary(s),
		Shared: []sharedSummary{}, Works: []workSummary{}, Checks: newCheckSummaries(s.Findings), Alarms: newAlarmSummaries(s),
		Services: newServiceSummaries(s.Services), Noise: newNoiseSummaries(s.Noise),
		BuildUps: newBuildUpSummaries(s), WeakPoints: newWeakPointSummaries(s), TakeOff: newTakeOffSummary(s),
	}
	for _, u := range s.Units {
		spaces := make([]string, 0, len(u.Cells))
		for _, c := range u.Cells {
			spaces = append(spaces, s.Building.Cells[c].ID)
		}
		summary.Units = append(summary.Units, unitSummary{
			ID: u.ID, Name: u.Name, Spaces: spaces,
			Area: areaSummary{
				Net: decimal(u.NetM2, areaDecimals), Gross: decimal(u.GrossM2, areaDecimals),
				Above: decimal(u.AboveM2, areaDecimals), Below: decimal(u.BelowM2, areaDecimals),
				After: decimal(u.AfterM2(), areaDecimals),
			},
			Bedrooms: u.Bedrooms, Bathrooms: u.Bathrooms, Entries: listed(u.Entries),
			OutdoorM2: decimal(u.OutdoorM2, areaDecimals), LiningM2: decimal(u.LiningM2, areaDecimals), Parking: u.Parking, Notes: listed(u.Notes),
		})
	}
	for _, e := range s.Shared {
		summary.Shared = append(summary.Shared, sharedSummary(e))
	}
	for _, w := range s.Works {
		summary.Works = append(summary.Works, workSummary{
			ID: w.ID, Kind: w.Kind, Unit: w.Unit, Level: w.Level, Spaces: listed(w.Spaces), Of: w.Of,
			LengthM: decimal(w.LengthM, lengthDecimals), AreaM2: decimal(w.AreaM2, areaDecimals), Count: w.Count,
			Cost: decimal(w.Cost, moneyDecimals), Low: decimal(w.Low, moneyDecimals), High: decimal(w.High, moneyDecimals), Line: polyline(w.Line, unit), Note: w.Note,
		})
	}
	return summary
}

func newCostSummary(s *Scheme) costSummary {
	return costSummary{
		Total: decimal(s.Cost.Total, moneyDecimals), Works: decimal(s.Cost.Works, moneyDecimals),
		Priorities: decimal(s.Cost.Priorities, moneyDecimals),
	}
}

// listed gives an empty list rather than none, so that it is written as [].
func listed(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}

// writeDocument writes v as indented JSON with < and & as they are.
func writeDocument(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("plan: writing a summary: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}
