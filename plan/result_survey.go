package plan

import (
	"fmt"
	"io"
	"slices"

	"moiety/geom"
)

// AsSurveyed lists a house as it is: what the survey says and what follows
// from it. Lengths are metres, areas square metres. Slices of spaces, flights
// and passages are in the order of the building's cells and links, others in
// the order of the survey.
type AsSurveyed struct {
	Program      string            `json:"program"`
	House        string            `json:"house"`
	SurveySHA256 string            `json:"survey_sha256"`
	LengthUnit   LengthUnit        `json:"length_unit"`
	Caution      string            `json:"caution"`
	Levels       []SurveyedLevel   `json:"levels"`
	Spaces       []SurveyedSpace   `json:"spaces"`
	Stairs       []SurveyedStair   `json:"stairs"`
	Passages     []SurveyedPassage `json:"passages"`
	Windows      []SurveyedWindow  `json:"windows"`
	Fixtures     []SurveyedFixture `json:"fixtures"`
	Warnings     []string          `json:"warnings"`
	NotSurveyed  []string          `json:"not_surveyed"`
	// Cuts are the candidate lines, where they have been added.
	Cuts []SurveyedCut `json:"cuts,omitempty"`
}

// SurveyedCut is a line along which a space may be divided, in the survey's
// own coordinates and unit.
type SurveyedCut struct {
	Number  string       `json:"number"`
	Space   string       `json:"space"`
	Level   string       `json:"level"`
	LengthM float64      `json:"length_m"`
	Fence   bool         `json:"fence"`
	Line    [][2]float64 `json:"line"`
	Why     string       `json:"why"`
}

// SurveyedLevel is a level with its areas. Net is the sum of its indoor
// spaces, gross its outline to the exterior face.
type SurveyedLevel struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	Floor   float64 `json:"floor_m"`
	Height  float64 `json:"height_m"`
	Outdoor bool    `json:"outdoor"`
	NetM2   float64 `json:"net_m2"`
	GrossM2 float64 `json:"gross_m2"`
}

// SurveyedSpace is a space; its size is measured along its longest side and
// across it, wall to wall at the widest.
type SurveyedSpace struct {
	ID      string     `json:"id"`
	Name    string     `json:"name"`
	Level   string     `json:"level"`
	Use     Use        `json:"use"`
	Also    []Use      `json:"also"`
	Size    [2]float64 `json:"size_m"`
	AreaM2  float64    `json:"area_m2"`
	Height  float64    `json:"height_m"`
	Outdoor bool       `json:"outdoor"`
	Heated  bool       `json:"heated"`
}

// SurveyedStair is a flight; Rise is from the floor at its foot to that at its head.
type SurveyedStair struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	Level  string  `json:"level"`
	To     string  `json:"to"`
	Rise   float64 `json:"rise_m"`
	Risers int     `json:"risers"`
	Width  float64 `json:"width_m"`
}

// SurveyedPassage is a door, a cased opening, an open boundary or the end of
// a flight, and the two cells that it joins.
type SurveyedPassage struct {
	Of      string    `json:"of"`
	Type    string    `json:"type"`
	Level   string    `json:"level"`
	Between [2]string `json:"between"`
	Width   float64   `json:"width_m"`
	Height  float64   `json:"height_m"`
	Leaf    Leaf      `json:"leaf"`
}

// SurveyedWindow is a window and the space behind it.
type SurveyedWindow struct {
	ID        string     `json:"id"`
	Level     string     `json:"level"`
	Space     string     `json:"space"`
	Width     float64    `json:"width_m"`
	Height    float64    `json:"height_m"`
	Sill      float64    `json:"sill_m"`
	Operation string     `json:"operation"`
	Clear     [2]float64 `json:"clear_m"`
}

// SurveyedFixture is a fixture and the space that it stands in.
type SurveyedFixture struct {
	ID    string `json:"id"`
	Use   string `json:"use"`
	Level string `json:"level"`
	Space string `json:"space"`
}

// ListSurvey lists the house of a building as it is.
func ListSurvey(b *Building) *AsSurveyed {
	h := b.House
	l := &AsSurveyed{
		Program: "moiety", House: h.Name, SurveySHA256: h.SHA256, LengthUnit: h.Unit, Caution: Caution,
		Levels: []SurveyedLevel{}, Spaces: []SurveyedSpace{}, Stairs: []SurveyedStair{}, Passages: []SurveyedPassage{},
		Windows: []SurveyedWindow{}, Fixtures: []SurveyedFixture{}, Warnings: []string{}, NotSurveyed: notSurveyed(b),
	}
	l.addLevels(b)
	l.addCells(b)
	l.addPassages(b)
	spaces := windowSpaces(b)
	for _, w := range h.Windows {
		l.Windows = append(l.Windows, SurveyedWindow{
			ID: w.ID, Level: h.Levels[w.Level].ID, Space: spaces[w.ID], Width: metre(w.Line.Length()),
			Height: metre(w.Height), Sill: metre(w.Sill), Operation: w.Operation, Clear: [2]float64{metre(w.Clear[0]), metre(w.Clear[1])},
		})
	}
	for i, f := range h.Fixtures {
		space := ""
		if c := b.FixtureCell[i]; c != Outside {
			space = b.Cells[c].ID
		}
		l.Fixtures = append(l.Fixtures, SurveyedFixture{ID: f.ID, Use: f.Use, Level: h.Levels[f.Level].ID, Space: space})
	}
	for _, w := range slices.Concat(h.Warnings, b.Warnings) {
		l.Warnings = append(l.Warnings, w.text())
	}
	return l
}

// AddCuts adds the candidate lines to the list, numbered in their order.
func (l *AsSurveyed) AddCuts(b *Building, cuts []Cut) {
	for i, c := range cuts {
		l.Cuts = append(l.Cuts, SurveyedCut{
			Number: CutNumber(i), Space: c.Space, Level: b.House.Levels[c.Level].ID, LengthM: metre(c.LengthM), Fence: c.Fence,
			Line: polyline(c.Line, b.House.Unit), Why: c.Why,
		})
	}
}

// CutNumber is how lists and drawings number the candidate lines.
func CutNumber(i int) string { return fmt.Sprintf("L%d", i+1) }

// WriteJSON writes the list as JSON. Same survey, same bytes.
func (l *AsSurveyed) WriteJSON(w io.Writer) error { return writeDocument(w, l) }

func metre(v float64) float64 { return decimal(v, lengthDecimals) }

func (l *AsSurveyed) addLevels(b *Building) {
	net := make([]float64, len(b.House.Levels))
	for _, c := range b.Cells {
		if !c.Outdoor {
			net[c.Level] += c.AreaM2
		}
	}
	for i, level := range b.House.Levels {
		l.Levels = append(l.Levels, SurveyedLevel{
			ID: level.ID, Name: level.Name, Floor: metre(level.Floor), Height: metre(level.Height), Outdoor: level.Outdoor,
			NetM2: decimal(net[i], areaDecimals), GrossM2: decimal(b.Levels[i].Outline.AreaM2(), areaDecimals),
		})
	}
}

func (l *AsSurveyed) addCells(b *Building) {
	levels := b.House.Levels
	for _, c := range b.Cells {
		if c.Flight {
			l.Stairs = append(l.Stairs, surveyedStair(b, c))
			continue
		}
		also := c.Also
		if also == nil {
			also = []Use{}
		}
		along, across := clearSize(c.Region)
		l.Spaces = append(l.Spaces, SurveyedSpace{
			ID: c.ID, Name: c.Name, Level: levels[c.Level].ID, Use: c.Use, Also: also, Size: [2]float64{metre(along), metre(across)},
			AreaM2: decimal(c.AreaM2, areaDecimals), Height: metre(c.Ceiling - c.Floor), Outdoor: c.Outdoor, Heated: c.Heated,
		})
	}
}

func surveyedStair(b *Building, c Cell) SurveyedStair {
	levels := b.House.Levels
	stair := SurveyedStair{
		ID: c.ID, Name: c.Name, Level: levels[c.Level].ID, To: levels[c.To].ID, Rise: metre(levels[c.To].Floor - levels[c.Level].Floor),
	}
	for _, s := range b.House.Stairs {
		if s.ID == c.Of {
			stair.Risers, stair.Width = s.Risers, metre(s.Width)
		}
	}
	return stair
}

func (l *AsSurveyed) addPassages(b *Building) {
	id := func(c int) string {
		if c == Outside {
			return "outside"
		}
		return b.Cells[c].ID
	}
	for _, link := range b.Links {
		if !link.Passage() {
			continue
		}
		passage := SurveyedPassage{
			Of: link.Of, Type: string(link.Kind), Level: b.House.Levels[link.Level].ID,
			Between: [2]string{id(link.U), id(link.V)}, Width: metre(link.Line.Length()),
		}
		for _, d := range b.House.Doors {
			if d.ID == link.Of && link.Kind != LinkStair {
				passage.Height, passage.Leaf = metre(d.Height), d.Leaf
			}
		}
		l.Passages = append(l.Passages, passage)
	}
}

// clearSize measures a space along its longest side and across it, in metres.
func clearSize(r geom.Region) (along, across float64) {
	var longest geom.Segment
	for _, e := range r.Outer.Edges() {
		if e.Length() > longest.Length() {
			longest = e
		}
	}
	var a, o [2]float64
	for i, p := range r.Outer {
		pa, po := longest.Along(p), longest.Off(p)
		if i == 0 {
			a, o = [2]float64{pa, pa}, [2]float64{po, po}
		}
		a = [2]float64{min(a[0], pa), max(a[1], pa)}
		o = [2]float64{min(o[0], po), max(o[1], po)}
	}
	return a[1] - a[0], o[1] - o[0]
}
