package plan

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"moiety/plan/assembly"
)

type (
	buildUpSummary struct {
		Tag           string                  `json:"tag"`
		Assembly      string                  `json:"assembly"`
		Name          string                  `json:"name"`
		Kind          assembly.Kind           `json:"kind"`
		Start         string                  `json:"start"`
		Layers        []layerSummary          `json:"layers"`
		Removed       []string                `json:"removed"`
		ThicknessM    float64                 `json:"thickness_m"`
		KgM2          float64                 `json:"kg_m2"`
		FireMinutes   int                     `json:"fire_minutes"`
		STC           int                     `json:"stc"`
		IIC           int                     `json:"iic"`
		Bearing       bool                    `json:"bearing"`
		FireEstimate  bool                    `json:"fire_estimated"`
		SoundEstimate bool                    `json:"sound_estimated"`
		How           string                  `json:"how"`
		Source        string                  `json:"source"`
		Target        targetSummary           `json:"target"`
		Meets         bool                    `json:"meets"`
		Shortfall     string                  `json:"shortfall"`
		AreaM2        float64                 `json:"area_m2"`
		LengthM       float64                 `json:"length_m"`
		CostPerM2     float64                 `json:"cost_per_m2"`
		GainM         [2]float64              `json:"gain_m"`
		Notes         []string                `json:"notes"`
		Surfaces      []buildUpSurfaceSummary `json:"surfaces"`
	}
	layerSummary struct {
		Material   assembly.Material `json:"material"`
		ThicknessM float64           `json:"thickness_m"`
		SpacingM   float64           `json:"spacing_m,omitempty"`
		KgM2       float64           `json:"kg_m2"`
		State      State             `json:"state"`
	}
	targetSummary struct {
		FireMinutes int    `json:"fire_minutes"`
		STC         int    `json:"stc"`
		IIC         int    `json:"iic"`
		From        string `json:"from"`
	}
	buildUpSurfaceSummary struct {
		Between [2]string `json:"between"`
		Level   string    `json:"level"`
		Work    string    `json:"work"`
		LengthM float64   `json:"length_m"`
		AreaM2  float64   `json:"area_m2"`
	}
	weakPointSummary struct {
		Kind      string    `json:"kind"`
		Between   [2]string `json:"between"`
		Composite int       `json:"composite_stc,omitempty"`
		Target    int       `json:"target_stc,omitempty"`
		Note      string    `json:"note"`
	}
)

func newBuildUpSummaries(s *Scheme) []buildUpSummary {
	var out []buildUpSummary
	for i := range s.BuildUps {
		u := &s.BuildUps[i]
		a := &u.Assembly
		summary := buildUpSummary{
			Tag: u.Tag, Assembly: a.ID, Name: a.Name, Kind: a.Kind, Start: u.Start, Removed: []string{},
			ThicknessM: decimal(a.Thickness(), buildUpDecimals), KgM2: decimal(a.Mass(), massDecimals),
			FireMinutes: a.FireFor(u.Bearing), STC: a.STC, IIC: a.IIC, Bearing: u.Bearing,
			FireEstimate: a.FireEstimated, SoundEstimate: a.SoundEstimated, How: a.How, Source: a.Source.String(),
			Target: targetSummary(u.Targets), Meets: u.Meets, Shortfall: u.Shortfall,
			AreaM2: decimal(u.AreaM2, areaDecimals), LengthM: decimal(u.LengthM, lengthDecimals), CostPerM2: decimal(u.CostPerM2, moneyDecimals),
			GainM: [2]float64{decimal(u.Gain[0], buildUpDecimals), decimal(u.Gain[1], buildUpDecimals)}, Notes: u.notes(),
		}
		for _, l := range u.Layers {
			summary.Layers = append(summary.Layers, layerSummary{
				l.Material, decimal(l.Thickness, buildUpDecimals), decimal(l.Spacing, buildUpDecimals), decimal(l.KgPerM2, massDecimals), l.State,
			})
		}
		for _, l := range u.Removed {
			summary.Removed = append(summary.Removed, l.String())
		}
		for _, x := range u.Surfaces {
			summary.Surfaces = append(summary.Surfaces, buildUpSurfaceSummary{
				x.Between, s.Building.House.Levels[x.Level].ID, x.Work, decimal(x.LengthM, lengthDecimals), decimal(x.AreaM2, areaDecimals),
			})
		}
		out = append(out, summary)
	}
	return out
}

// Decimals of what is smaller than a house: a tenth of a millimetre, a tenth of a kilogram.
const (
	buildUpDecimals = 4
	massDecimals    = 1
)

func (u *BuildUp) notes() []string {
	return []string{"head: " + u.Head, "base: " + u.Base, "junctions: " + u.Junction, "what passes through: " + u.Penetrations}
}

func newWeakPointSummaries(s *Scheme) []weakPointSummary {
	var out []weakPointSummary
	for _, w := range s.WeakPoints {
		out = append(out, weakPointSummary(w))
	}
	return out
}

// WriteBuildUps lists the separating build-ups layer by layer, and what they reach.
func WriteBuildUps(w io.Writer, s *Scheme) error {
	rows := [][]string{{
		"tag", "layer", "state", "thickness_mm", "spacing_mm", "kg_m2", "fire_min", "fire_asked_min", "stc", "stc_asked", "iic", "iic_asked",
		"meets", "area_m2", "source", "cost_per_m2", "what_is_there", "how", "lacks",
	}}
	for i := range s.BuildUps {
		u := &s.BuildUps[i]
		a := &u.Assembly
		rows = append(rows, []string{
			u.Tag, a.Name, "", tenths(a.Thickness()), "", fixed(a.Mass(), massDecimals),
			known(a.FireFor(u.Bearing)), known(u.Targets.FireMinutes), known(a.STC), known(u.Targets.STC), known(a.IIC), known(u.Targets.IIC),
			yesNo(u.Meets), areaText(u.AreaM2), a.Source.String(), costText(u.CostPerM2), u.Start, a.How, u.Shortfall,
		})
		for _, l := range u.Layers {
			spacing := ""
			if l.Spacing > 0 {
				spacing = tenths(l.Spacing)
			}
			rows = append(rows, []string{
				u.Tag, string(l.Material), string(l.State), tenths(l.Thickness), spacing, fixed(l.KgPerM2, massDecimals), "", "", "", "", "", "", "", "", "", "", "", "", "",
			})
		}
		for _, l := range u.Removed {
			rows = append(rows, []string{u.Tag, string(l.Material), string(Removed), tenths(l.Thickness), "", "", "", "", "", "", "", "", "", "", "", "", "", "", ""})
		}
	}
	return writeRows(w, "build-ups", rows)
}

func tenths(metres float64) string { return fixed(1000*metres, 1) }

// known writes a rating, nothing where none is known or asked.
func known(rating int) string {
	if rating == 0 {
		return ""
	}
	return strconv.Itoa(rating)
}

// separation tells the build-ups, what they reach and where they are weak.
func (t *textSummary) separation(s *Scheme) {
	if len(s.BuildUps) == 0 {
		return
	}
	t.printf("\n  Separation\n")
	t.listed("    Asked: ", []string{s.BuildUps[0].Targets.From}, "")
	for i := range s.BuildUps {
		u := &s.BuildUps[i]
		a := &u.Assembly
		t.listed(fmt.Sprintf("    %s: ", u.Tag), []string{
			fmt.Sprintf("%s, %.0f mm: %s", t.area(u.AreaM2), 1000*a.Thickness(), a.Describe()),
			"what is there: " + u.Start, fmt.Sprintf("%s a m2 by the price file's layers", t.cost(u.CostPerM2)),
		}, "")
		reach := fmt.Sprintf("%s; %s; %s", u.reaches(), a.How, a.Source)
		if !u.Meets {
			reach = "DOES NOT REACH what is asked: " + u.Shortfall + ". " + reach
		}
		t.listed("         ", []string{reach}, "")
	}
	for _, u := range s.Units {
		if took := decimal(u.LiningM2, areaDecimals); took > 0 {
			t.listed("    ", []string{fmt.Sprintf("The separating walls take %s off %s's net area, which is given as surveyed: %s are left", t.area(took), unitTitle(u), t.area(u.AfterM2()))}, "")
		} else if took < 0 {
			t.listed("    ", []string{fmt.Sprintf("The separating walls are thinner than drawn and leave %s %s more: %s net", unitTitle(u), t.area(-took), t.area(u.AfterM2()))}, "")
		}
	}
	for _, w := range s.WeakPoints {
		text := w.Note
		if w.Between[0] != "" {
			text = fmt.Sprintf("between %s and %s: %s", t.name(s, w.Between[0]), t.name(s, w.Between[1]), text)
		}
		if w.Composite > 0 {
			text = strings.Replace(text, ": ", fmt.Sprintf(": the surface with it reaches STC %d by area, %d asked; ", w.Composite, w.Target), 1)
		}
		t.listed("    Weak: ", []string{w.Kind + ": " + text}, "")
	}
}

// reaches says what a build-up reaches in short.
func (u *BuildUp) reaches() string {
	a := &u.Assembly
	var texts []string
	if fire := a.FireFor(u.Bearing); fire > 0 {
		texts = append(texts, fmt.Sprintf("%d min", fire))
	}
	if a.STC > 0 {
		texts = append(texts, fmt.Sprintf("STC %d", a.STC))
	}
	if a.IIC > 0 && a.Kind == assembly.Floor {
		texts = append(texts, fmt.Sprintf("IIC %d", a.IIC))
	}
	if len(texts) == 0 {
		return "nothing known"
	}
	return strings.Join(texts, ", ")
}
