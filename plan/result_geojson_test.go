package plan_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func written(t *testing.T, s *plan.Scheme) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, plan.WriteScheme(&b, s))
	return b.Bytes()
}

func TestSchemeFileIsWrittenAsContracted(t *testing.T) {
	golden(t, "cottage/plan.geojson", written(t, cottage()))
}

func TestSchemeFileIsTheSameOnASecondRun(t *testing.T) {
	assert.Equal(t, written(t, cottage()), written(t, cottage()))
}

// The keys that the contract gives each kind of feature.
var contracted = map[string][]string{
	"space":   {"kind", "of", "unit", "level", "use", "use_was", "area_m2", "heated"},
	"stair":   {"kind", "of", "unit", "level", "use", "use_was", "area_m2", "heated"},
	"passage": {"kind", "between", "type", "state"},
	"wall":    {"kind", "between", "thickness", "height", "state", "build_up"},
	"floor":   {"kind", "between", "state", "build_up"},
	"fixture": {"kind", "unit", "state"},
	"window":  {"kind", "unit", "state"},
	"alarm":   {"kind", "unit", "level"}, // beside the contract's kinds
}

func TestEveryFeatureHasTheKeysOfItsKindAndAnIDOfItsOwn(t *testing.T) {
	collection, err := geojson.UnmarshalFeatureCollection(written(t, cottage()))
	require.NoError(t, err)
	kinds := map[string]int{}
	ids := map[any]bool{}
	for _, f := range collection.Features {
		kind := f.Properties.MustString("kind")
		kinds[kind]++
		require.Contains(t, contracted, kind)
		for _, key := range contracted[kind] {
			assert.Contains(t, f.Properties, key, "%v", f.ID)
		}
		assert.False(t, ids[f.ID], "id %v is given twice", f.ID)
		ids[f.ID] = true
	}
	// The floor between bed and attic comes in two pieces, the flight has a
	// passage at its foot and one at its head.
	assert.Equal(t, map[string]int{"space": 5, "stair": 1, "passage": 7, "wall": 2, "floor": 2, "fixture": 2, "window": 1, "alarm": 1}, kinds)
}

func TestAreasReadBackFromTheFileAreTheSchemes(t *testing.T) {
	s := cottage()
	collection, err := geojson.UnmarshalFeatureCollection(written(t, s))
	require.NoError(t, err)
	cells := map[string]*geojson.Feature{}
	for _, f := range collection.Features {
		cells[f.ID.(string)] = f
	}
	for _, c := range s.Building.Cells {
		f := cells[c.ID]
		// orb measures in the survey's unit, square feet here.
		measured := planar.Area(f.Geometry.(orb.Polygon)) * sqFoot
		assert.InDelta(t, c.AreaM2, measured, 1e-4, "%s as drawn", c.ID)
		assert.InDelta(t, c.AreaM2, f.Properties.MustFloat64("area_m2"), 1e-4, "%s as written", c.ID)
	}
}

func TestPositionsComeBackAsTheSurveyGaveThem(t *testing.T) {
	var file struct {
		House struct {
			LengthUnit string `json:"length_unit"`
			Grade      float64
			Levels     []struct {
				Floor, Height float64
			}
		}
		Features []struct {
			ID       string
			Geometry struct{ Coordinates json.RawMessage }
		}
	}
	require.NoError(t, json.Unmarshal(written(t, cottage()), &file))
	assert.Equal(t, "ft", file.House.LengthUnit)
	assert.Equal(t, -1.5, file.House.Grade)
	assert.Equal(t, 9.0, file.House.Levels[2].Floor)
	for _, f := range file.Features {
		if f.ID == "d3" {
			assert.JSONEq(t, `[[13.25,15],[13.25,17.5]]`, string(f.Geometry.Coordinates))
		}
	}
}

func TestNumberedFeaturesNeverTakeAnIDOfTheSurvey(t *testing.T) {
	s := cottage()
	s.Building.House.Walls = []plan.WallMark{{ID: "wall:1"}}
	collection, err := geojson.UnmarshalFeatureCollection(written(t, s))
	require.NoError(t, err)
	for _, f := range collection.Features {
		if f.Properties["kind"] == "wall" {
			assert.Contains(t, []any{"wall:2", "wall:3"}, f.ID)
		}
	}
}

func TestANewDoorHasAnIDOfItsOwnAndNothingInTheSurvey(t *testing.T) {
	collection, err := geojson.UnmarshalFeatureCollection(written(t, cottage()))
	require.NoError(t, err)
	for _, f := range collection.Features {
		if f.ID == "new-door-1" {
			assert.Equal(t, "new", f.Properties["state"])
			assert.NotContains(t, f.Properties, "of")
			return
		}
	}
	t.Fatal("the new door is not in the file")
}
