package plan

import (
	"io"
)

// alarmSummary is an alarm in summary.json; at lies in the survey's own coordinates.
type alarmSummary struct {
	ID     string     `json:"id"`
	Kind   AlarmKind  `json:"kind"`
	Unit   string     `json:"unit"`
	Level  string     `json:"level"`
	Space  string     `json:"space"`
	At     [2]float64 `json:"at"`
	Why    string     `json:"why"`
	Clause string     `json:"clause"`
	Sounds string     `json:"sounds"`
}

func newAlarmSummaries(s *Scheme) []alarmSummary {
	out := []alarmSummary{}
	for _, a := range s.Alarms {
		out = append(out, alarmSummary{
			ID: a.ID, Kind: a.Kind, Unit: a.Unit, Level: s.Building.House.Levels[a.Level].ID, Space: a.Cell,
			At: surveyPoint(a.At, s.Building.House.Unit), Why: a.Why, Clause: a.Clause, Sounds: a.Sounds,
		})
	}
	return out
}

// alarmProperties are those of an alarm in plan.geojson.
type alarmProperties struct {
	Kind   string    `json:"kind"`
	Level  string    `json:"level"`
	Unit   string    `json:"unit"`
	Space  string    `json:"space"`
	Type   AlarmKind `json:"type"`
	Clause string    `json:"clause"`
}

func (c *schemeCollection) alarms() {
	for _, a := range c.scheme.Alarms {
		id := a.ID
		if c.ids[id] {
			id = c.number("alarm")
		}
		c.ids[id] = true
		c.add(id, c.point(a.At), alarmProperties{
			Kind: "alarm", Level: c.level(a.Level), Unit: a.Unit, Space: a.Cell, Type: a.Kind, Clause: a.Clause,
		})
	}
}

// WriteAlarms lists the alarms of a scheme; x and y are metres in the survey's
// own directions.
func WriteAlarms(w io.Writer, s *Scheme) error {
	rows := [][]string{{"id", "kind", "unit", "level", "space", "x_m", "y_m", "why", "clause", "sounds_with"}}
	for _, a := range s.Alarms {
		x, y := a.At.Metres()
		rows = append(rows, []string{
			a.ID, string(a.Kind), a.Unit, s.Building.House.Levels[a.Level].ID, a.Cell, lengthText(x), lengthText(y), a.Why, a.Clause, a.Sounds,
		})
	}
	if len(s.Alarms) > 0 {
		rows = append(rows, []string{"", cautionRow, "", "", "", "", "", ScreeningNote, "", ""})
	}
	return writeRows(w, "alarms", rows)
}
