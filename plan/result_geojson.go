package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"

	"moiety/geom"
)

// coordinateDecimals rounds positions in the survey's own unit: no coarser
// than the grid of geom in metres or in feet.
const coordinateDecimals = 5

// WriteScheme writes the divided house of a scheme as a FeatureCollection in
// the survey's own coordinates and unit, one feature a line. Lengths and
// areas among the properties are metres and square metres. Features come in
// the order cells, passages, walls, floors, fixtures, windows, alarms; same scheme,
// same bytes.
func WriteScheme(w io.Writer, s *Scheme) error {
	c := newSchemeCollection(s)
	c.cells()
	c.passages()
	c.walls()
	c.floors()
	c.fixtures()
	c.windows()
	c.alarms()
	return c.write(w)
}

type (
	cellProperties struct {
		Kind   string  `json:"kind"`
		Of     string  `json:"of"`
		Unit   string  `json:"unit"`
		Level  string  `json:"level"`
		Use    string  `json:"use"`
		UseWas string  `json:"use_was"`
		AreaM2 float64 `json:"area_m2"`
		After  float64 `json:"area_after_m2"` // inside the separation's linings
		Heated bool    `json:"heated"`
	}
	passageProperties struct {
		Kind    string    `json:"kind"`
		Level   string    `json:"level"`
		Of      string    `json:"of,omitempty"`
		Between [2]string `json:"between"`
		Type    string    `json:"type"`
		State   State     `json:"state"`
	}
	wallProperties struct {
		Kind      string    `json:"kind"`
		Level     string    `json:"level"`
		Between   [2]string `json:"between"`
		Thickness float64   `json:"thickness"`
		Height    float64   `json:"height"`
		State     State     `json:"state"`
		BuildUp   string    `json:"build_up"`
	}
	floorProperties struct {
		Kind    string    `json:"kind"`
		Between [2]string `json:"between"`
		State   State     `json:"state"`
		BuildUp string    `json:"build_up"`
	}
	fixtureProperties struct {
		Kind  string `json:"kind"`
		Level string `json:"level"`
		Use   string `json:"use"`
		Unit  string `json:"unit"`
		State State  `json:"state"`
	}
	windowProperties struct {
		Kind  string `json:"kind"`
		Level string `json:"level"`
		Unit  string `json:"unit"`
		State State  `json:"state"`
	}
)

// schemeCollection gathers the features of one scheme.
type schemeCollection struct {
	scheme   *Scheme
	ids      map[string]bool
	numbers  map[string]int // last number given out, by kind
	features []geojson.FeatureOf[any]
}

func newSchemeCollection(s *Scheme) *schemeCollection {
	c := &schemeCollection{scheme: s, ids: map[string]bool{}, numbers: map[string]int{}}
	// Ids of the survey are never given to anything else.
	for _, cell := range s.Building.Cells {
		c.ids[cell.ID] = true
	}
	h := s.Building.House
	for _, d := range h.Doors {
		c.ids[d.ID] = true
	}
	for _, win := range h.Windows {
		c.ids[win.ID] = true
	}
	for _, f := range h.Fixtures {
		c.ids[f.ID] = true
	}
	for _, mark := range h.Walls {
		c.ids[mark.ID] = true
	}
	return c
}

// number gives the next free id of a kind: "wall:1", "wall:2".
func (c *schemeCollection) number(kind string) string {
	for {
		c.numbers[kind]++
		id := fmt.Sprintf("%s:%d", kind, c.numbers[kind])
		if !c.ids[id] {
			c.ids[id] = true
			return id
		}
	}
}

func (c *schemeCollection) add(id string, g orb.Geometry, properties any) {
	c.features = append(c.features, geojson.FeatureOf[any]{ID: id, Geometry: g, Properties: properties})
}

func (c *schemeCollection) level(i int) string { return c.scheme.Building.House.Levels[i].ID }

func (c *schemeCollection) cells() {
	for i, cell := range c.scheme.Building.Cells {
		kind, use, was := "space", string(c.scheme.Uses[i]), string(cell.Use)
		if cell.Flight {
			kind, use, was = "stair", "stair", "stair"
		}
		c.add(cell.ID, c.polygon(cell.Region), cellProperties{
			Kind: kind, Of: cell.Of, Unit: c.scheme.Owners[i].String(), Level: c.level(cell.Level),
			Use: use, UseWas: was, AreaM2: decimal(cell.AreaM2, cellAreaDecimals), After: decimal(c.scheme.AfterM2(i), cellAreaDecimals), Heated: cell.Heated,
		})
	}
}

func (c *schemeCollection) passages() {
	h := c.scheme.Building.House
	surveyed := map[string]bool{}
	for _, d := range h.Doors {
		surveyed[d.ID] = true
	}
	for _, p := range c.scheme.Passages {
		id, of := p.Of, p.Of
		switch {
		case surveyed[id]:
			delete(surveyed, id)
		case p.State == New && id != "" && !c.ids[id]:
			// A new door has an id of its own, and nothing in the survey.
			c.ids[id] = true
			of = ""
		default:
			// A flight has two passages and is itself a cell: those are numbered.
			id = c.number("passage")
		}
		c.add(id, c.line(p.Line), passageProperties{
			Kind: "passage", Level: c.level(p.Level), Of: of, Between: p.Between, Type: p.Type, State: p.State,
		})
	}
}

func (c *schemeCollection) walls() {
	for _, run := range c.scheme.Walls {
		c.add(c.number("wall"), c.line(run.Line), wallProperties{
			Kind: "wall", Level: c.level(run.Level), Between: run.Between,
			Thickness: decimal(run.Thickness, lengthDecimals), Height: decimal(run.Height, lengthDecimals),
			State: run.State, BuildUp: run.BuildUp,
		})
	}
}

func (c *schemeCollection) floors() {
	for _, run := range c.scheme.Floors {
		for _, region := range run.Region {
			c.add(c.number("floor"), c.polygon(region), floorProperties{
				Kind: "floor", Between: [2]string{run.Below, run.Above}, State: run.State, BuildUp: run.BuildUp,
			})
		}
	}
}

func (c *schemeCollection) fixtures() {
	for _, f := range c.scheme.Fixtures {
		var g orb.Geometry = c.point(f.At)
		if f.Footprint != nil {
			g = c.polygon(*f.Footprint)
		}
		c.add(c.own(f.ID, "fixture"), g, fixtureProperties{
			Kind: "fixture", Level: c.level(f.Level), Use: f.Use, Unit: f.Unit, State: f.State,
		})
	}
}

func (c *schemeCollection) windows() {
	for _, win := range c.scheme.Windows {
		c.add(c.own(win.ID, "window"), c.line(win.Line), windowProperties{
			Kind: "window", Level: c.level(win.Level), Unit: win.Unit, State: win.State,
		})
	}
}

// own is the id of a thing that has one, or a number for one that has none.
func (c *schemeCollection) own(id, kind string) string {
	if id == "" {
		return c.number(kind)
	}
	return id
}

func (c *schemeCollection) point(p geom.Pt) orb.Point {
	return surveyPoint(p, c.scheme.Building.House.Unit)
}

func (c *schemeCollection) line(s geom.Segment) orb.LineString {
	return orb.LineString{c.point(s.A), c.point(s.B)}
}

func (c *schemeCollection) polygon(r geom.Region) orb.Polygon {
	polygon := orb.Polygon{c.ring(r.Outer)}
	for _, hole := range r.Holes {
		polygon = append(polygon, c.ring(hole))
	}
	return polygon
}

// ring closes a ring by repeating its first corner, as GeoJSON has it.
func (c *schemeCollection) ring(r geom.Ring) orb.Ring {
	ring := make(orb.Ring, 0, len(r)+1)
	for _, p := range r {
		ring = append(ring, c.point(p))
	}
	return append(ring, ring[0])
}

// surveyPoint gives a position in the survey's own coordinates and unit.
func surveyPoint(p geom.Pt, unit LengthUnit) orb.Point {
	x, y := p.Metres()
	return orb.Point{
		decimal(x*unit.PerMetre(), coordinateDecimals),
		decimal(y*unit.PerMetre(), coordinateDecimals),
	}
}

// polyline gives positions in the survey's own coordinates and unit.
func polyline(line []geom.Pt, unit LengthUnit) [][2]float64 {
	points := make([][2]float64, 0, len(line))
	for _, p := range line {
		points = append(points, surveyPoint(p, unit))
	}
	return points
}

// houseMember repeats the survey's header, so that the file explains itself.
type houseMember struct {
	Name       string        `json:"name"`
	LengthUnit LengthUnit    `json:"length_unit"`
	North      float64       `json:"north"`
	Grade      *float64      `json:"grade,omitempty"`
	Levels     []levelMember `json:"levels"`
}

type levelMember struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	Floor   float64 `json:"floor"`
	Height  float64 `json:"height,omitempty"`
	Outdoor bool    `json:"outdoor,omitempty"`
}

func newHouseMember(h *House) houseMember {
	length := func(m float64) float64 { return decimal(m*h.Unit.PerMetre(), coordinateDecimals) }
	member := houseMember{Name: h.Name, LengthUnit: h.Unit, North: h.North}
	if h.GradeSaid {
		grade := length(h.Grade)
		member.Grade = &grade
	}
	for _, l := range h.Levels {
		member.Levels = append(member.Levels, levelMember{
			ID: l.ID, Name: l.Name, Floor: length(l.Floor), Height: length(l.Height), Outdoor: l.Outdoor,
		})
	}
	return member
}

func (c *schemeCollection) write(w io.Writer) error {
	var b bytes.Buffer
	house, err := jsonLine(newHouseMember(c.scheme.Building.House))
	if err != nil {
		return fmt.Errorf("plan: writing scheme %s: %w", c.scheme.ID, err)
	}
	scheme, err := jsonLine(c.scheme.ID)
	if err != nil {
		return fmt.Errorf("plan: writing scheme %s: %w", c.scheme.ID, err)
	}
	caution, err := jsonLine(Caution)
	if err != nil {
		return fmt.Errorf("plan: writing scheme %s: %w", c.scheme.ID, err)
	}
	fmt.Fprintf(&b, "{\"type\": \"FeatureCollection\",\n\"house\": %s,\n\"scheme\": %s,\n\"caution\": %s,\n\"features\": [", house, scheme, caution)
	for i := range c.features {
		feature, err := jsonLine(c.features[i])
		if err != nil {
			return fmt.Errorf("plan: writing %v of scheme %s: %w", c.features[i].ID, c.scheme.ID, err)
		}
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
		b.Write(feature)
	}
	b.WriteString("\n]}\n")
	_, err = w.Write(b.Bytes())
	return err
}

// jsonLine encodes v on one line, with < and & as they are.
func jsonLine(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}
