package plan_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/geom"
	"moiety/plan"
)

func read(text string) (*plan.House, error) {
	return plan.Read(strings.NewReader(text), "test.house.json")
}

// mustRead reads a survey that has nothing wrong with it.
func mustRead(t testing.TB, text string) *plan.House {
	t.Helper()
	h, err := read(text)
	require.NoError(t, err)
	return h
}

// oneRoom is a survey of a room of 5 by 4 m whose parts can be added to:
// house are further keys of the house, properties of the room, and features
// stand after it.
func oneRoom(house, properties, features string) string {
	return `{"type": "FeatureCollection", "house": {` + house + `"levels": [
	{"id": "site", "floor": -0.5, "outdoor": true}, {"id": "main", "floor": 0.1, "height": 2.4}]},
	"features": [{"type": "Feature", "id": "room",
	"geometry": {"type": "Polygon", "coordinates": [[[0,0], [5,0], [5,4], [0,4], [0,0]]]},
	"properties": {"kind": "space", "level": "main"` + properties + `}}` + features + `]}`
}

func TestTheSmallestSurveyIsOneRoom(t *testing.T) {
	h := readHouse(t, "one-room")
	assert.Equal(t, "one-room", h.Name, "named after its file")
	assert.Empty(t, h.Warnings)
	assert.False(t, h.GradeSaid, "nothing says where the ground is")
	require.Len(t, h.Spaces, 1)
	assert.InDelta(t, 20, h.Spaces[0].Region.AreaM2(), 1e-9)
}

func TestWhatASurveyLeavesOutTakesItsDefault(t *testing.T) {
	h := mustRead(t, oneRoom("", `, "use": "living"`, ""))
	assert.Equal(t, plan.Metres, h.Unit)
	assert.Zero(t, h.North)
	assert.True(t, h.GradeSaid)
	assert.Equal(t, -0.5, h.Grade, "the outdoor level's floor")
	assert.Equal(t, plan.Level{ID: "main", Name: "main", Floor: 0.1, Height: 2.4}, h.Levels[1])
	s := h.Spaces[0]
	assert.Equal(t, "room", s.Name)
	assert.Equal(t, 0.1, s.Floor)
	assert.Equal(t, 2.4, s.Height)
	assert.False(t, s.Outdoor)
	assert.True(t, s.Heated && s.Finished && s.Divisible)
}

func TestTheGradeOfTheHouseGoesBeforeTheOutdoorLevel(t *testing.T) {
	h := mustRead(t, oneRoom(`"grade": -0.2, `, `, "use": "living"`, ""))
	assert.Equal(t, -0.2, h.Grade)
}

// Whether a space is outdoors, heated, finished and divisible follows from its
// use and level as partition.md and survey-format.md say.
func TestDefaultsFollowTheUseOfASpace(t *testing.T) {
	tests := []struct {
		use, level                           string
		outdoor, heated, finished, divisible bool
	}{
		{"bedroom", "main", false, true, true, false},
		{"hall", "main", false, true, true, true},
		{"unfinished", "main", false, true, false, true},
		{"sunroom", "main", false, false, true, false},
		{"deck", "main", true, false, false, true},
		{"balcony", "main", true, false, false, false},
		{"yard", "site", true, false, false, true},
		{"street", "site", true, false, false, false},
		{"garage", "site", false, false, false, true},
		{"garage", "main", false, false, false, true},
	}
	for _, tt := range tests {
		t.Run(tt.use+" on "+tt.level, func(t *testing.T) {
			feature := `, {"type": "Feature", "id": "x",
			"geometry": {"type": "Polygon", "coordinates": [[[10,0], [15,0], [15,4], [10,4], [10,0]]]},
			"properties": {"kind": "space", "use": "` + tt.use + `", "level": "` + tt.level + `"}}`
			s := mustRead(t, oneRoom("", `, "use": "living"`, feature)).Spaces[1]
			assert.Equal(t, tt.outdoor, s.Outdoor, "outdoor")
			assert.Equal(t, tt.heated, s.Heated, "heated")
			assert.Equal(t, tt.finished, s.Finished, "finished")
			assert.Equal(t, tt.divisible, s.Divisible, "divisible")
			assert.Equal(t, tt.outdoor, s.Height == 0, "no ceiling outdoors")
		})
	}
}

func TestASpaceMaySayOtherwise(t *testing.T) {
	s := mustRead(t, oneRoom("", `, "use": "living", "also": ["kitchen", "dining"], "name": "Great room",
		"floor": -0.2, "height": 3.1, "heated": false, "finished": false, "divisible": false`, "")).Spaces[0]
	assert.Equal(t, "Great room", s.Name)
	assert.Equal(t, []plan.Use{plan.Kitchen, plan.Dining}, s.Also)
	assert.Equal(t, -0.2, s.Floor)
	assert.Equal(t, 3.1, s.Height)
	assert.False(t, s.Heated || s.Finished || s.Divisible)
}

func TestAllKindsOfFeaturesAreRead(t *testing.T) {
	h := mustRead(t, oneRoom(`"name": "Cabin", "north": 12.5, `, `, "use": "living"`, `,
	{"type": "Feature", "id": "door", "geometry": {"type": "LineString", "coordinates": [[1,-0.1], [1.9,-0.1]]},
	 "properties": {"kind": "door", "level": "main", "height": 2.03, "leaf": "double", "hinge": "end", "opens_into": "room", "rating_minutes": 45}},
	{"type": "Feature", "id": "arch", "geometry": {"type": "LineString", "coordinates": [[3,-0.1], [4,-0.1]]},
	 "properties": {"kind": "opening", "level": "main", "height": 2.1}},
	{"type": "Feature", "id": "window", "geometry": {"type": "LineString", "coordinates": [[5.1,1], [5.1,2]]},
	 "properties": {"kind": "window", "level": "main", "sill": 0.9, "height": 1.2, "operation": "tilt_turn", "clear": [0.6, 1.1], "well": [0.9, 1.2]}},
	{"type": "Feature", "id": "bearing", "geometry": {"type": "LineString", "coordinates": [[5.1,0], [5.1,4]]},
	 "properties": {"kind": "wall", "level": "main", "bearing": true}},
	{"type": "Feature", "id": "tank", "geometry": {"type": "Polygon", "coordinates": [[[1,3], [1.5,3], [1.5,3.5], [1,3.5], [1,3]]]},
	 "properties": {"kind": "fixture", "use": "water_heater", "level": "main", "capacity_l": 180}},
	{"type": "Feature", "id": "plot", "geometry": {"type": "Polygon", "coordinates": [[[-5,-5], [9,-5], [9,9], [-5,9], [-5,-5]]]},
	 "properties": {"kind": "lot", "level": "site"}}`))
	assert.Empty(t, h.Warnings)
	assert.Equal(t, "Cabin", h.Name)
	assert.Equal(t, 12.5, h.North)
	metres := func(x, y float64) geom.Pt { return geom.FromMetres(x, y) }
	assert.Equal(t, []plan.Door{
		{ID: "door", Level: 1, Line: geom.Segment{A: metres(1, -0.1), B: metres(1.9, -0.1)},
			Height: 2.03, Leaf: plan.Double, HingeAtEnd: true, OpensInto: "room", RatingMinutes: 45},
		{ID: "arch", Level: 1, Line: geom.Segment{A: metres(3, -0.1), B: metres(4, -0.1)}, Opening: true, Height: 2.1},
	}, h.Doors)
	assert.Equal(t, []plan.Window{{ID: "window", Level: 1, Line: geom.Segment{A: metres(5.1, 1), B: metres(5.1, 2)},
		Sill: 0.9, Height: 1.2, Operation: "tilt_turn", Clear: [2]float64{0.6, 1.1}, ClearSaid: true,
		WellProjection: 0.9, Width: 1.2, WellSaid: true}}, h.Windows)
	assert.Equal(t, []plan.WallMark{{ID: "bearing", Level: 1, Line: []geom.Pt{metres(5.1, 0), metres(5.1, 4)}, Bearing: true}}, h.Walls)
	require.Len(t, h.Fixtures, 1)
	assert.Equal(t, metres(1.25, 3.25), h.Fixtures[0].At, "the middle of its footprint")
	assert.Equal(t, 180.0, h.Fixtures[0].CapacityL)
	assert.NotNil(t, h.Fixtures[0].Footprint)
	require.Len(t, h.Lots, 1)
	assert.InDelta(t, 196, h.Lots[0].Region.AreaM2(), 1e-9)
}

func TestTheHashIsThatOfTheBytes(t *testing.T) {
	text := "\ufeff" + oneRoom("", `, "use": "living"`, "")
	sum := sha256.Sum256([]byte(text))
	assert.Equal(t, hex.EncodeToString(sum[:]), mustRead(t, text).SHA256)
}

// The duplex is a real building: BSI (2020) "Duplex Apartment Test Files",
// buildingSMART International, CC BY 4.0. Its numbers of things are those
// that its credit in testdata/houses lists; areas are compared with those of a
// reference library for the polygons as they stand in the file.
func TestTheDuplexIsRead(t *testing.T) {
	h := readHouse(t, "duplex")
	assert.Len(t, h.Spaces, 18)
	assert.Len(t, h.Stairs, 2)
	assert.Len(t, h.Doors, 14)
	assert.False(t, h.GradeSaid)
	require.Len(t, h.Warnings, 1, "its program drew clockwise: %v", h.Warnings)
	assert.Contains(t, h.Warnings[0].Message, "wound the wrong way round")

	data, err := os.ReadFile(filepath.Join("..", "testdata", "houses", "duplex.house.json"))
	require.NoError(t, err)
	file, err := geojson.UnmarshalFeatureCollection(data)
	require.NoError(t, err)
	areas := map[string]float64{}
	for _, f := range file.Features {
		if p, ok := f.Geometry.(orb.Polygon); ok {
			areas[fmt.Sprint(f.ID)] = planar.Area(p)
		}
	}
	for _, s := range h.Spaces {
		// Corners may have been brought together by up to 10 mm.
		assert.InDelta(t, areas[s.ID], s.Region.AreaM2(), 0.01*s.Region.Outer.Length(), s.ID)
		assert.True(t, s.Region.Outer.CounterClockwise(), s.ID)
	}
}

func TestRoomsWithinTenMillimetresMeet(t *testing.T) {
	feature := `, {"type": "Feature", "id": "next",
	"geometry": {"type": "Polygon", "coordinates": [[[5.006,0], [9,0], [9,4], [5.006,4], [5.006,0]]]},
	"properties": {"kind": "space", "use": "dining", "level": "main"}}`
	h := mustRead(t, oneRoom("", `, "use": "living"`, feature))
	edges := map[geom.Segment]bool{}
	for _, e := range h.Spaces[0].Region.Edges() {
		edges[e] = true
	}
	meet := 0
	for _, e := range h.Spaces[1].Region.Edges() {
		if edges[e.Reverse()] {
			meet++
		}
	}
	assert.Equal(t, 1, meet, "one edge of the one is one of the other")
}
