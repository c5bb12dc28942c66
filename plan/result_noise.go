package plan

import (
	"fmt"
	"io"
	"strconv"
)

type noiseSummary struct {
	Noisy      string  `json:"noisy"`
	NoisyUse   string  `json:"noisy_use"`
	Quiet      string  `json:"quiet"`
	Surface    string  `json:"surface"`
	Above      bool    `json:"above"`
	AreaM2     float64 `json:"area_m2"`
	STC        int     `json:"stc"`
	IIC        int     `json:"iic"`
	RatedBy    string  `json:"rated_by"`
	SourceDB   float64 `json:"source_db"`
	ReceivedDB float64 `json:"received_db"`
	Cost       float64 `json:"cost"`
	Note       string  `json:"note"`
}

// levelDecimals is the precision of sound levels: usual levels are no better known.
const levelDecimals = 0

func newNoiseSummaries(all []NoiseConflict) []noiseSummary {
	out := []noiseSummary{}
	for _, n := range all {
		out = append(out, noiseSummary{
			Noisy: n.Noisy, NoisyUse: n.NoisyUse, Quiet: n.Quiet, Surface: n.Surface, Above: n.Above, AreaM2: decimal(n.AreaM2, areaDecimals),
			STC: n.STC, IIC: n.IIC, RatedBy: n.RatedBy, SourceDB: n.SourceDB, ReceivedDB: decimal(n.ReceivedDB, levelDecimals),
			Cost: decimal(n.Cost, moneyDecimals), Note: n.Note,
		})
	}
	return out
}

// WriteNoise lists the noise conflicts across the separation, the loudest first.
func WriteNoise(w io.Writer, s *Scheme) error {
	rows := [][]string{{"rank", "noisy", "noisy_use", "quiet", "surface", "above", "area_m2", "stc", "iic", "rated_by", "source_db", "received_db", "cost", "note"}}
	for i, n := range s.Noise {
		iic := ""
		if n.IIC > 0 {
			iic = strconv.Itoa(n.IIC)
		}
		rows = append(rows, []string{
			strconv.Itoa(i + 1), n.Noisy, n.NoisyUse, n.Quiet, n.Surface, yesNo(n.Above), areaText(n.AreaM2), strconv.Itoa(n.STC), iic, n.RatedBy,
			fixed(n.SourceDB, levelDecimals), fixed(n.ReceivedDB, levelDecimals), costText(n.Cost), n.Note,
		})
	}
	return writeRows(w, "noise conflicts", rows)
}

// noiseShown is how many conflicts the summary tells; the schedule has all.
const noiseShown = 5

// noise tells what is heard from one unit's rooms in the other's bedrooms.
func (t *textSummary) noise(s *Scheme) {
	if len(s.Noise) == 0 {
		return
	}
	t.printf("\n  Noise across the separation, the loudest first (usual levels, from memory; through the surface alone)\n")
	for _, n := range s.Noise[:min(len(s.Noise), noiseShown)] {
		where := "beside"
		switch {
		case n.Surface == "floor" && n.Above:
			where = "above"
		case n.Surface == "floor":
			where = "below"
		}
		rated := fmt.Sprintf("STC %d of %s", n.STC, n.RatedBy)
		if n.RatedBy == "taken" {
			rated = fmt.Sprintf("STC %d taken", n.STC)
		}
		text := fmt.Sprintf("%s (%s) %s %s: %s over %s, about %.0f dB", n.Noisy, words(n.NoisyUse), where, n.Quiet, rated, t.area(n.AreaM2), max(n.ReceivedDB, 0))
		t.listed("    - ", []string{joinNotes(text, n.Note)}, "")
	}
	if more := len(s.Noise) - noiseShown; more > 0 {
		t.printf("    and %d more in noise.csv\n", more)
	}
}
