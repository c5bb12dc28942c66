package plan

import (
	"fmt"
	"io"
	"strings"

	"moiety/geom"
	"moiety/plan/published"
	"moiety/plan/structure"
)

type (
	openingSummary struct {
		ID         string       `json:"id"`
		Spaces     [2]string    `json:"spaces"`
		Level      string       `json:"level"`
		WidthM     float64      `json:"width_m"`
		AreaM2     float64      `json:"area_m2"`
		Bears      bool         `json:"bears"`
		Why        string       `json:"why"`
		TributaryM float64      `json:"tributary_m"`
		Beam       *beamSummary `json:"beam"`
		Notes      []string     `json:"notes"`
		Cost       float64      `json:"cost"`
		Line       [][2]float64 `json:"line"`
		Caution    string       `json:"caution"`
	}
	beamSummary struct {
		Name       string             `json:"name"`
		Plies      int                `json:"plies"`
		WidthMM    float64            `json:"width_mm"`
		DepthMM    float64            `json:"depth_mm"`
		SpanM      float64            `json:"span_m"`
		DeadKNPerM float64            `json:"dead_kn_m"`
		LiveKNPerM float64            `json:"live_kn_m"`
		ReactionKN float64            `json:"reaction_kn"`
		BearingMM  float64            `json:"bearing_mm"`
		PostStuds  int                `json:"post_studs"`
		Carries    []carriedSummary   `json:"carries"`
		Checks     []beamCheckSummary `json:"checks"`
	}
	carriedSummary struct {
		What    string             `json:"what"`
		WidthM  float64            `json:"width_m"`
		DeadKPa float64            `json:"dead_kpa"`
		LiveKPa float64            `json:"live_kpa"`
		Sources []published.Source `json:"sources"`
	}
	beamCheckSummary struct {
		Name     string           `json:"name"`
		Method   string           `json:"method"`
		Demand   float64          `json:"demand"`
		Capacity float64          `json:"capacity"`
		Unit     string           `json:"unit"`
		OK       bool             `json:"ok"`
		Source   published.Source `json:"source"`
	}
)

// beamDecimals is the precision of a beam's figures: a newton, a hundredth of a millimetre.
const beamDecimals = 3

func newOpeningSummaries(h *House) []openingSummary {
	var out []openingSummary
	for _, o := range h.Opened {
		summary := openingSummary{
			ID: o.ID, Spaces: o.Between, Level: h.Levels[o.Level].ID,
			WidthM: decimal(o.Line.Length(), lengthDecimals), AreaM2: decimal(o.AreaM2, areaDecimals),
			Bears: o.Bears, Why: o.Why, TributaryM: decimal(o.TributaryM, lengthDecimals), Notes: listed(o.Notes),
			Cost: decimal(o.Cost, moneyDecimals), Line: polyline(points(o), h.Unit), Caution: structure.Caution,
		}
		if o.Beam != nil {
			summary.Beam = newBeamSummary(o.Beam)
		}
		out = append(out, summary)
	}
	return out
}

func newBeamSummary(b *structure.Beam) *beamSummary {
	out := &beamSummary{
		Name: b.Name(), Plies: b.Plies, WidthMM: decimal(b.WidthMM, 1), DepthMM: decimal(b.DepthMM, 1), SpanM: decimal(b.SpanM, lengthDecimals),
		DeadKNPerM: decimal(b.DeadKNPerM, beamDecimals), LiveKNPerM: decimal(b.LiveKNPerM, beamDecimals),
		ReactionKN: decimal(b.ReactionKN, beamDecimals), BearingMM: decimal(b.BearingMM, 0), PostStuds: b.PostStuds,
	}
	for _, c := range b.Opening.Carries {
		out.Carries = append(out.Carries, carriedSummary{
			What: c.What, WidthM: decimal(c.WidthM, lengthDecimals), DeadKPa: decimal(c.DeadKPa, beamDecimals),
			LiveKPa: decimal(c.LiveKPa, beamDecimals), Sources: c.Sources,
		})
	}
	for _, c := range append(b.Checks, b.Bearing) {
		out.Checks = append(out.Checks, beamCheckSummary{
			Name: c.Name, Method: c.Method, Demand: decimal(c.Demand, beamDecimals), Capacity: decimal(c.Capacity, beamDecimals),
			Unit: c.Unit, OK: c.OK(), Source: c.Source,
		})
	}
	return out
}

// points is the line of an opening.
func points(o OpenedWall) []geom.Pt { return []geom.Pt{o.Line.A, o.Line.B} }

// WriteOpenings lists the walls that the brief opens, each with what it carries
// and every check of its beam, a row for each.
func WriteOpenings(w io.Writer, s *Scheme) error {
	rows := [][]string{{"id", "between", "width_m", "what", "method", "value", "limit", "value_unit", "ok", "source", "status", "note"}}
	for _, o := range s.Building.House.Opened {
		row := func(what, method, value, limit, unit, ok, source, status, note string) {
			rows = append(rows, []string{o.ID, strings.Join(o.Between[:], ", "), lengthText(o.Line.Length()), what, method, value, limit, unit, ok, source, status, note})
		}
		row("opening", o.Why, "", "", "", "", "", "", o.beamWords()+"; "+structure.Caution)
		if o.Beam == nil {
			continue
		}
		for _, c := range o.Beam.Opening.Carries {
			var sources []string
			status := published.Read
			for _, source := range c.Sources {
				sources = append(sources, source.String())
				if source.Status != published.Read {
					status = source.Status
				}
			}
			row(c.What, fmt.Sprintf("%.2f m x (%.2f dead + %.2f live) kPa", c.WidthM, c.DeadKPa, c.LiveKPa),
				fixed(c.WidthM*(c.DeadKPa+c.LiveKPa), beamDecimals), "", "kN/m", "", strings.Join(sources, "; "), string(status), "")
		}
		for _, c := range append(o.Beam.Checks, o.Beam.Bearing) {
			row(c.Name, c.Method, fixed(c.Demand, beamDecimals), fixed(c.Capacity, beamDecimals), c.Unit, yesNo(c.OK()), c.Source.String(), string(c.Source.Status), "")
		}
	}
	return writeRows(w, "openings", rows)
}

// openings tells which walls are opened and what has to carry them.
func (t *textSummary) openings() {
	opened := t.answer.Building.House.Opened
	if len(opened) == 0 {
		return
	}
	t.printf("\nWalls opened\n")
	for _, o := range opened {
		t.listed("  "+o.openingTitle()+": ", append([]string{o.beamWords()}, o.Notes...), "")
		if o.Beam == nil {
			continue
		}
		for _, c := range append(o.Beam.Checks, o.Beam.Bearing) {
			t.listed("    "+c.Name+" ", []string{fmt.Sprintf("%.1f of %.1f %s: %s", c.Demand, c.Capacity, c.Unit, c.Method)}, "")
		}
	}
	t.listed("  ", []string{structure.Caution}, "")
}
