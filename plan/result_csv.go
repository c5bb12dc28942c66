package plan

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Schedule is one table of a scheme, written as CSV (RFC 4180) with a header
// line: lengths in metres, areas in square metres, costs in the price file's
// currency. An empty field is a thing that was not surveyed.
type Schedule struct {
	Name  string // file name without its ending
	Write func(w io.Writer, s *Scheme) error
}

// Schedules lists the schedules of a scheme.
func Schedules() []Schedule {
	return []Schedule{
		{"rooms", WriteRooms},
		{"doors", WriteDoors},
		{"windows", WriteWindows},
		{"works", WriteWorks},
		{"areas", WriteAreas},
		{"checks", WriteChecks},
		{"services", WriteServices},
		{"openings", WriteOpenings},
		{"alarms", WriteAlarms},
		{"build-ups", WriteBuildUps},
		{"noise", WriteNoise},
		{"takeoff", WriteTakeOff},
	}
}

// WriteRooms lists every cell, flights too, with its owner and use.
func WriteRooms(w io.Writer, s *Scheme) error {
	b := s.Building
	rows := [][]string{{"id", "name", "unit", "level", "use", "use_was", "area_m2", "ceiling_height_m", "heated", "area_after_m2"}}
	for i, c := range b.Cells {
		use, was := string(s.Uses[i]), string(c.Use)
		if c.Flight {
			use, was = "stair", "stair"
		}
		height := ""
		if !c.Outdoor && !c.Flight {
			height = lengthText(c.Ceiling - c.Floor)
		}
		rows = append(rows, []string{
			c.ID, c.Name, s.Owners[i].String(), b.House.Levels[c.Level].ID, use, was,
			areaText(c.AreaM2), height, yesNo(c.Heated), areaText(s.AfterM2(i)),
		})
	}
	return writeRows(w, "rooms", rows)
}

// WriteDoors lists every door, gate and cased opening with what becomes of it.
func WriteDoors(w io.Writer, s *Scheme) error {
	levels := s.Building.House.Levels
	rows := [][]string{{"id", "state", "type", "level", "from", "to", "width_m", "height_m", "leaf", "opens_into", "rating_min", "entry_of"}}
	for _, p := range s.Passages {
		if p.Type != "door" && p.Type != "opening" && p.Type != "gate" {
			continue
		}
		row := []string{p.Of, string(p.State), p.Type, levels[p.Level].ID, p.Between[0], p.Between[1], lengthText(p.Line.Length()), "", "", "", "", p.Entry}
		if d := p.Door; d != nil {
			if row[0] == "" {
				row[0] = d.ID
			}
			row[7], row[8], row[9] = surveyedLength(d.Height), string(d.Leaf), d.OpensInto
			if d.RatingMinutes > 0 {
				row[10] = strconv.Itoa(d.RatingMinutes)
			}
		}
		rows = append(rows, row)
	}
	return writeRows(w, "doors", rows)
}

// WriteWindows lists every window with the space that it lights.
func WriteWindows(w io.Writer, s *Scheme) error {
	b := s.Building
	rows := [][]string{{"id", "state", "unit", "level", "space", "width_m", "height_m", "sill_m", "operation", "clear_width_m", "clear_height_m"}}
	for _, win := range s.Windows {
		clear := [2]string{}
		if win.ClearSaid {
			clear = [2]string{lengthText(win.Clear[0]), lengthText(win.Clear[1])}
		}
		rows = append(rows, []string{
			win.ID, string(win.State), win.Unit, b.House.Levels[win.Level].ID, win.Cell,
			lengthText(win.Line.Length()), surveyedLength(win.Height), lengthText(win.Sill), win.Operation, clear[0], clear[1],
		})
	}
	return writeRows(w, "windows", rows)
}

// WriteWorks lists the works with their quantities and costs, and their sum.
func WriteWorks(w io.Writer, s *Scheme) error {
	rows := [][]string{{"id", "kind", "unit", "level", "spaces", "of", "length_m", "area_m2", "count", "cost", "cost_low", "cost_high", "note"}}
	for _, work := range s.Works {
		count := ""
		if work.Count > 0 {
			count = strconv.Itoa(work.Count)
		}
		rows = append(rows, []string{
			work.ID, work.Kind, work.Unit, work.Level, strings.Join(work.Spaces, " "), work.Of,
			surveyedLength(work.LengthM), surveyedArea(work.AreaM2), count, costText(work.Cost), rangeText(work.Low, work.High), rangeText(work.High, work.High), work.Note,
		})
	}
	low, high := s.spread()
	rows = append(rows, []string{"", "total", "", "", "", "", "", "", "", costText(s.Cost.Works), rangeText(low, high), rangeText(high, high), ""})
	return writeRows(w, "works", rows)
}

// WriteAreas gives the areas of the two units and what they count.
func WriteAreas(w io.Writer, s *Scheme) error {
	rows := [][]string{{"unit", "name", "net_m2", "gross_m2", "above_grade_m2", "below_grade_m2", "outdoor_m2", "bedrooms", "bathrooms", "parking", "net_after_m2"}}
	for _, u := range s.Units {
		rows = append(rows, []string{
			u.ID, u.Name, areaText(u.NetM2), areaText(u.GrossM2), areaText(u.AboveM2), areaText(u.BelowM2),
			areaText(u.OutdoorM2), strconv.Itoa(u.Bedrooms), strconv.FormatFloat(u.Bathrooms, 'f', -1, 64), strconv.Itoa(u.Parking),
			areaText(u.AfterM2()),
		})
	}
	return writeRows(w, "areas", rows)
}

// windowSpaces gives, per surveyed window, the id of the indoor cell behind it.
func windowSpaces(b *Building) map[string]string {
	spaces := map[string]string{}
	for i, win := range b.House.Windows {
		if i < len(b.WindowCells) && b.WindowCells[i][0] != Outside {
			spaces[win.ID] = b.Cells[b.WindowCells[i][0]].ID
		}
	}
	return spaces
}

func writeRows(w io.Writer, name string, rows [][]string) error {
	c := csv.NewWriter(w)
	if err := c.WriteAll(rows); err != nil {
		return fmt.Errorf("plan: writing the schedule of %s: %w", name, err)
	}
	return nil
}

func fixed(value float64, decimals int) string {
	return strconv.FormatFloat(decimal(value, decimals), 'f', decimals, 64)
}

func costText(v float64) string { return fixed(v, moneyDecimals) }

// rangeText gives an end of a cost's range, nothing where none was worked out.
func rangeText(v, high float64) string {
	if high == 0 {
		return ""
	}
	return costText(v)
}

func areaText(v float64) string   { return fixed(v, areaDecimals) }
func lengthText(v float64) string { return fixed(v, lengthDecimals) }

// surveyedMetres leaves a length that was not surveyed, or does not apply, empty.
func surveyedLength(v float64) string {
	if v == 0 {
		return ""
	}
	return lengthText(v)
}

func surveyedArea(v float64) string {
	if v == 0 {
		return ""
	}
	return areaText(v)
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
