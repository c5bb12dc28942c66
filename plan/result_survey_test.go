package plan_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// surveyed reads and builds a house of the repository.
func surveyed(t *testing.T, path ...string) *plan.Building {
	t.Helper()
	name := filepath.Join(append([]string{".."}, path...)...)
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	h, err := plan.Read(f, name)
	require.NoError(t, err)
	b, err := plan.Build(h)
	require.NoError(t, err)
	return b
}

func TestTheListOfAHouseAsSurveyed(t *testing.T) {
	list := plan.ListSurvey(surveyed(t, "testdata", "two-flats.house.json"))
	var text, data bytes.Buffer
	require.NoError(t, list.WriteText(&text))
	golden(t, "two-flats.survey.txt", text.Bytes())
	require.NoError(t, list.WriteJSON(&data))
	golden(t, "two-flats.survey.json", data.Bytes())
	assert.NotContains(t, data.String(), "null", "lists are empty, never missing")
	assert.True(t, json.Valid(data.Bytes()))
}

func TestARoomIsMeasuredAlongItsLongestSideAndAcross(t *testing.T) {
	for _, s := range plan.ListSurvey(surveyed(t, "testdata", "two-flats.house.json")).Spaces {
		if s.ID == "bed-1" {
			assert.Equal(t, [2]float64{3.1, 2.9}, s.Size)
			assert.Equal(t, 8.99, s.AreaM2)
			assert.Equal(t, 2.44, s.Height)
		}
	}
}

func TestAHouseSurveyedInFeetIsListedInFeetAndInches(t *testing.T) {
	s := cottage()
	s.Building.Levels = make([]plan.LevelShape, 3)
	list := plan.ListSurvey(s.Building)
	var text bytes.Buffer
	require.NoError(t, list.WriteText(&text))
	assert.Contains(t, text.String(), `20'-0" x 12'-0"`)
	assert.Contains(t, text.String(), `22.3 m2 (240 ft2)`)
	assert.Contains(t, text.String(), `clear 2'-6" x 3'-6"`)
	assert.Contains(t, text.String(), `floor at -1'-6"`)
}

func TestWhatASurveyLeavesOpenIsSaid(t *testing.T) {
	s := cottage()
	s.Building.Levels = make([]plan.LevelShape, 3)
	list := plan.ListSurvey(s.Building)
	missing := strings.Join(list.NotSurveyed, "\n")
	for _, said := range []string{
		"the property line", "electrical panel", "source of heat", "hot water", "drain stack", "water entry",
		"bearing walls: none is marked", "height of doors and openings: of d3",
	} {
		assert.Contains(t, missing, said)
	}
	for _, surveyed := range []string{"the elevation of the ground", "leaf of doors", "clear opening", "the outdoors"} {
		assert.NotContains(t, missing, surveyed)
	}
}
