package plan_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	sf "github.com/peterstace/simplefeatures/geom"

	"moiety/geom"
	"moiety/plan"
)

// collection and item are a survey file in the making.
type collection struct {
	Type     string         `json:"type"`
	House    map[string]any `json:"house"`
	Features []item         `json:"features"`
}

type item struct {
	Type       string         `json:"type"`
	ID         string         `json:"id"`
	Geometry   map[string]any `json:"geometry"`
	Properties map[string]any `json:"properties"`
}

func (c collection) text(t interface{ Fatal(...any) }) string {
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

type position = [2]float64

func polygon(corners ...position) map[string]any {
	return map[string]any{"type": "Polygon", "coordinates": [][]position{append(corners, corners[0])}}
}

func line(from, to position) map[string]any {
	return map[string]any{"type": "LineString", "coordinates": []position{from, to}}
}

// rowHouse draws a row of rooms with walls between them, a door in each wall,
// a window in each room and a flight along the row:
//
//	+--------------------+
//	|      flight        |
//	+----+ +-------+ +---+
//	|    |d|       |d|   |
//	+-w--+ +---w---+ +-w-+
func rowHouse(t *rapid.T) collection {
	num := func(from, to float64, label string) float64 {
		return math.Round(rapid.Float64Range(from, to).Draw(t, label)*1000) / 1000
	}
	depth, height := num(2.5, 5, "depth"), num(2, 3, "height")
	c := collection{Type: "FeatureCollection", House: map[string]any{"levels": []map[string]any{
		{"id": "site", "floor": num(-1, 0, "ground"), "outdoor": true},
		{"id": "main", "floor": 0.0, "height": height},
		{"id": "upper", "floor": height + 0.3, "height": height},
	}}}
	rooms := rapid.IntRange(2, 5).Draw(t, "rooms")
	x := num(-50, 50, "x")
	west := x
	for i := range rooms {
		width := num(2, 6, "width")
		c.Features = append(c.Features,
			item{"Feature", fmt.Sprintf("room-%d", i), polygon(position{x, 0}, position{x + width, 0}, position{x + width, depth}, position{x, depth}),
				map[string]any{"kind": "space", "level": "main", "use": rapid.SampledFrom([]string{"living", "bedroom", "kitchen", "garage"}).Draw(t, "use")}},
			item{"Feature", fmt.Sprintf("window-%d", i), line(position{x + 0.5, -0.1}, position{x + 1.5, -0.1}),
				map[string]any{"kind": "window", "level": "main", "sill": num(0, 1, "sill"), "height": num(0.4, 1.2, "window"), "clear": []float64{0.5, 0.4}}})
		if i+1 < rooms {
			wall := num(0.06, 0.5, "wall")
			middle := x + width + wall/2
			c.Features = append(c.Features, item{"Feature", fmt.Sprintf("door-%d", i), line(position{middle, 0.3}, position{middle, 1.2}),
				map[string]any{"kind": "door", "level": "main", "height": num(1.9, 2.1, "door")}})
			width += wall
		}
		x += width
	}
	c.Features = append(c.Features,
		item{"Feature", "flight", polygon(position{west, depth + 0.1}, position{x, depth + 0.1}, position{x, depth + 1.1}, position{west, depth + 1.1}),
			map[string]any{"kind": "stair", "level": "main", "to": "upper", "width": 1.0, "risers": 14,
				"walk": []position{{west + 0.5, depth}, {west + 0.5, depth + 0.6}, {x - 0.5, depth + 0.6}, {x - 0.5, depth}}}},
		item{"Feature", "attic", polygon(position{west, 0}, position{x, 0}, position{x, depth}, position{west, depth}),
			map[string]any{"kind": "space", "level": "upper", "use": "unfinished"}},
		item{"Feature", "panel", map[string]any{"type": "Point", "coordinates": position{west + 0.1, 0.1}},
			map[string]any{"kind": "fixture", "level": "main", "use": "electrical_panel"}})
	return c
}

// scaled gives the file with all its lengths multiplied: coordinates and the
// keys that the survey format counts as lengths.
func scaled(c collection, factor float64, t interface{ Fatal(...any) }) collection {
	var any1 any
	if err := json.Unmarshal([]byte(c.text(t)), &any1); err != nil {
		t.Fatal(err)
	}
	lengths := []string{"coordinates", "walk", "floor", "height", "sill", "clear", "well", "width", "grade"}
	var walk func(v any, length bool) any
	walk = func(v any, length bool) any {
		switch v := v.(type) {
		case map[string]any:
			for k := range v {
				v[k] = walk(v[k], length || slices.Contains(lengths, k))
			}
		case []any:
			for i := range v {
				v[i] = walk(v[i], length)
			}
		case float64:
			if length {
				return v * factor
			}
		}
		return v
	}
	data, err := json.Marshal(walk(any1, false))
	if err != nil {
		t.Fatal(err)
	}
	var out collection
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// closeTo compares two houses: points to one grid unit, numbers to a
// micrometre, all else exactly.
func closeTo(t assert.TestingT, want, got any, path string) {
	switch w := want.(type) {
	case map[string]any:
		g, _ := got.(map[string]any)
		if !assert.Len(t, g, len(w), path) {
			return
		}
		for k := range w {
			closeTo(t, w[k], g[k], path+"."+k)
		}
	case []any:
		g, _ := got.([]any)
		if !assert.Len(t, g, len(w), path) {
			return
		}
		for i := range w {
			closeTo(t, w[i], g[i], fmt.Sprintf("%s[%d]", path, i))
		}
	case float64:
		tolerance := 1e-6
		if strings.HasSuffix(path, ".X") || strings.HasSuffix(path, ".Y") {
			tolerance = 1
		}
		g, _ := got.(float64)
		assert.InDelta(t, w, g, tolerance, path)
	default:
		assert.Equal(t, want, got, path)
	}
}

// plain turns a house into maps and lists, without what a file's unit changes.
func plain(t interface{ Fatal(...any) }, h *plan.House) any {
	copied := *h
	copied.Unit, copied.SHA256 = "", ""
	data, err := json.Marshal(copied)
	if err != nil {
		t.Fatal(err)
	}
	var out any
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestTheSameHouseInFeetIsTheSameHouse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		metres := rowHouse(t)
		feet := scaled(metres, 1/0.3048, t) // 1 ft = 0.3048 m by definition (1959)
		feet.House["length_unit"] = "ft"
		inMetres, err := read(metres.text(t))
		require.NoError(t, err)
		inFeet, err := read(feet.text(t))
		require.NoError(t, err)
		assert.Equal(t, plan.Feet, inFeet.Unit)
		closeTo(t, plain(t, inMetres), plain(t, inFeet), "house")
	})
}

// byID sorts what a house has by id.
func byID(h *plan.House) *plan.House {
	out := *h
	out.Spaces, out.Doors, out.Windows = slices.Clone(h.Spaces), slices.Clone(h.Doors), slices.Clone(h.Windows)
	slices.SortFunc(out.Spaces, func(a, b plan.Space) int { return strings.Compare(a.ID, b.ID) })
	slices.SortFunc(out.Doors, func(a, b plan.Door) int { return strings.Compare(a.ID, b.ID) })
	slices.SortFunc(out.Windows, func(a, b plan.Window) int { return strings.Compare(a.ID, b.ID) })
	return &out
}

func TestTheOrderOfFeaturesChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rowHouse(t)
		inOrder, err := read(c.text(t))
		require.NoError(t, err)
		rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))).Shuffle(len(c.Features), func(i, j int) {
			c.Features[i], c.Features[j] = c.Features[j], c.Features[i]
		})
		shuffled, err := read(c.text(t))
		require.NoError(t, err)
		assert.Equal(t, plain(t, byID(inOrder)), plain(t, byID(shuffled)))
	})
}

func TestASliceKeepsTheOrderOfTheFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rowHouse(t)
		h, err := read(c.text(t))
		require.NoError(t, err)
		var want, got []string
		for _, f := range c.Features {
			if f.Properties["kind"] == "space" {
				want = append(want, f.ID)
			}
		}
		for _, s := range h.Spaces {
			got = append(got, s.ID)
		}
		assert.Equal(t, want, got)
	})
}

// A ring of any corners is read just when simplefeatures, a library of OGC
// simple features, calls it valid; only its winding may be mended.
func TestARingIsReadWhenItIsASimpleFeature(t *testing.T) {
	read, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.IntRange(0, 4)
		var corners []position
		var flat []float64
		for range rapid.IntRange(3, 6).Draw(t, "corners") {
			p := position{float64(coordinate.Draw(t, "x")), float64(coordinate.Draw(t, "y"))}
			corners = append(corners, p)
			flat = append(flat, p[0], p[1])
		}
		flat = append(flat, flat[0], flat[1])
		ring := sf.NewLineString(sf.NewSequence(flat, sf.DimXY))
		valid := sf.NewPolygon([]sf.LineString{ring}).Validate() == nil
		c := collection{"FeatureCollection",
			map[string]any{"levels": []map[string]any{{"id": "main", "floor": 0, "height": 2.4}}},
			[]item{{"Feature", "room", polygon(corners...), map[string]any{"kind": "space", "use": "hall", "level": "main"}}}}
		h, err := plan.Read(strings.NewReader(c.text(t)), "room.house.json")
		require.Equal(t, valid, err == nil, "%v: %v", corners, err)
		if err != nil {
			refused++
			return
		}
		read++
		assert.InDelta(t, sf.NewPolygon([]sf.LineString{ring}).Area(), h.Spaces[0].Region.AreaM2(), 1e-9)
	})
	assert.Positive(t, read)
	assert.Positive(t, refused)
}

// Two upright rectangles overlap by width times height of what they share.
func TestSpacesMayOverlapByTwoHundredthsOfASquareMetre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centimetre := func(from, to int, label string) float64 {
			return float64(rapid.IntRange(from, to).Draw(t, label)) / 100
		}
		x, y := centimetre(180, 220, "x"), centimetre(-150, 150, "y")
		c := collection{"FeatureCollection",
			map[string]any{"levels": []map[string]any{{"id": "main", "floor": 0, "height": 2.4}}},
			[]item{
				{"Feature", "first", polygon(position{0, 0}, position{2, 0}, position{2, 2}, position{0, 2}), map[string]any{"kind": "space", "use": "hall", "level": "main"}},
				{"Feature", "second", polygon(position{x, y}, position{x + 2, y}, position{x + 2, y + 2}, position{x, y + 2}), map[string]any{"kind": "space", "use": "hall", "level": "main"}},
			}}
		shared := math.Max(0, 2-x) * (2 - math.Abs(y))
		_, err := read(c.text(t))
		if shared > 0.02+1e-9 {
			require.Error(t, err)
			_, after, found := strings.Cut(err.Error(), "second: overlaps first on level main by ")
			require.True(t, found, "%v", err)
			var said float64
			_, scanErr := fmt.Sscan(after, &said)
			require.NoError(t, scanErr)
			assert.InDelta(t, shared, said, 0.005+1e-6, "to the hundredth")
		} else if shared < 0.02-1e-9 {
			require.NoError(t, err)
		}
	})
}

// A door beside the wall between two rooms, in a house turned by any angle:
//
//	room a | wall | room b      within the wall it stays, up to 0.10 m beside it
//	       :  d   :             it comes to the middle, farther off it is refused
func TestADoorComesToTheMiddleOfItsWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thickness := float64(rapid.IntRange(2, 60).Draw(t, "thickness")) / 100
		off := float64(rapid.IntRange(-60, 60).Draw(t, "off")) / 100 // from the middle
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
		turned := func(x, y float64) position {
			sin, cos := math.Sincos(angle)
			return position{x*cos - y*sin, x*sin + y*cos}
		}
		half := thickness / 2
		c := collection{"FeatureCollection",
			map[string]any{"levels": []map[string]any{{"id": "main", "floor": 0, "height": 2.4}}},
			[]item{
				{"Feature", "a", polygon(turned(-4, 0), turned(-half, 0), turned(-half, 3), turned(-4, 3)), map[string]any{"kind": "space", "use": "hall", "level": "main"}},
				{"Feature", "b", polygon(turned(half, 0), turned(4, 0), turned(4, 3), turned(half, 3)), map[string]any{"kind": "space", "use": "hall", "level": "main"}},
				{"Feature", "d", line(turned(off, 1), turned(off, 1.9)), map[string]any{"kind": "door", "level": "main"}},
			}}
		beside := math.Abs(off) - half
		if math.Abs(beside-0.01) < 1e-4 {
			t.Skip("it stays or comes to the middle, as rounding has it")
		}
		h, err := read(c.text(t))
		if beside > 0.10+1e-6 {
			require.ErrorContains(t, err, "the door lies on no wall of level main")
			return
		}
		require.NoError(t, err)
		want := off
		if beside > 0.01 {
			want = 0
			require.Len(t, h.Warnings, 1)
			assert.Equal(t, "d", h.Warnings[0].Feature)
		} else {
			assert.Empty(t, h.Warnings)
		}
		from, to := turned(want, 1), turned(want, 1.9)
		assert.LessOrEqual(t, geom.FromMetres(from[0], from[1]).Distance(h.Doors[0].Line.A), 0.0001)
		assert.LessOrEqual(t, geom.FromMetres(to[0], to[1]).Distance(h.Doors[0].Line.B), 0.0001)
	})
}
