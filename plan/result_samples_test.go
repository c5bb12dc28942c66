package plan_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
	"github.com/paulmach/orb/planar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// divided splits a sample under its own brief.
func divided(t *testing.T, survey string) *plan.Answer {
	t.Helper()
	brief := plan.DefaultBrief()
	if f, err := os.Open(strings.TrimSuffix(survey, ".house.json") + ".brief.yaml"); err == nil {
		defer f.Close()
		brief, err = plan.ReadBrief(f, f.Name())
		require.NoError(t, err)
	}
	brief.Schemes = 1
	b := surveyed(t, strings.TrimPrefix(survey, "../"))
	answer, err := plan.Split(context.Background(), b, brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	return answer
}

// What the result files of the samples say must hold together: the divided
// house measured again from plan.geojson by another library, against
// summary.json.
func TestResultsOfTheSamplesHoldTogether(t *testing.T) {
	surveys, err := filepath.Glob("../samples/*/*.house.json")
	require.NoError(t, err)
	require.NotEmpty(t, surveys)
	for _, survey := range append(surveys, "../testdata/two-flats.house.json") {
		t.Run(strings.TrimSuffix(filepath.Base(survey), ".house.json"), func(t *testing.T) {
			answer := divided(t, survey)
			require.NotEmpty(t, answer.Schemes, "%v", answer.WhyNot)
			checkResult(t, answer)
			checkBuildUps(t, answer.Schemes[0])
			checkTakeOff(t, answer.Schemes[0])
		})
	}
}

func checkResult(t *testing.T, answer *plan.Answer) {
	t.Helper()
	var file struct {
		Schemes []struct {
			Units []struct {
				ID     string
				Spaces []string
				Area   struct {
					Net   float64 `json:"net_m2"`
					Gross float64 `json:"gross_m2"`
					Above float64 `json:"above_grade_m2"`
					Below float64 `json:"below_grade_m2"`
				}
				Entries []string
			}
			Works []struct{ Cost float64 }
			Cost  struct{ Total, Works, Priorities float64 }
		}
	}
	require.NoError(t, json.Unmarshal(summaryOf(t, answer), &file))
	house := answer.Building.House
	squareMetre := 1 / (house.Unit.PerMetre() * house.Unit.PerMetre())
	outdoor := map[string]bool{}
	for _, l := range house.Levels {
		outdoor[l.ID] = l.Outdoor
	}
	for i, scheme := range file.Schemes {
		collection, err := geojson.UnmarshalFeatureCollection(written(t, answer.Schemes[i]))
		require.NoError(t, err)
		cells, passages := map[string]*geojson.Feature{}, map[string]*geojson.Feature{}
		for _, f := range collection.Features {
			id := f.ID.(string)
			switch f.Properties.MustString("kind") {
			case "space", "stair":
				cells[id] = f
			case "passage":
				passages[id] = f
			}
		}
		for _, f := range collection.Features {
			if between, ok := f.Properties["between"].([]any); ok {
				for _, side := range between {
					assert.True(t, side == "outside" || cells[side.(string)] != nil, "%v lies between %v", f.ID, between)
				}
			}
		}
		for _, u := range scheme.Units {
			net := 0.0
			for _, id := range u.Spaces {
				f := cells[id]
				require.NotNil(t, f, "%s of unit %s is no cell", id, u.ID)
				assert.Equal(t, u.ID, f.Properties["unit"], id)
				measured := planar.Area(f.Geometry.(orb.Polygon)) * squareMetre
				assert.InDelta(t, measured, f.Properties.MustFloat64("area_m2"), 0.001, id)
				use := plan.Use(f.Properties.MustString("use"))
				if !outdoor[f.Properties.MustString("level")] && !use.Outdoor() && use != plan.Garage {
					net += measured
				}
			}
			assert.InDelta(t, net, u.Area.Net, 0.01, "net area of unit %s", u.ID)
			assert.InDelta(t, u.Area.Gross, u.Area.Above+u.Area.Below, 0.011, "gross area of unit %s", u.ID)
			assert.Greater(t, u.Area.Gross, u.Area.Net, "walls have a thickness")
			require.NotEmpty(t, u.Entries, "unit %s has no entry", u.ID)
			for _, id := range u.Entries {
				require.NotNil(t, passages[id], "entry %s of unit %s is no passage", id, u.ID)
				assert.NotEqual(t, "sealed", passages[id].Properties["state"], id)
			}
		}
		works := 0.0
		for _, w := range scheme.Works {
			works += w.Cost
		}
		assert.InDelta(t, scheme.Cost.Works, works, 0.01)
		assert.InDelta(t, scheme.Cost.Total, scheme.Cost.Works+scheme.Cost.Priorities, 0.01)
	}
}

func TestResultFilesAreTheSameOnASecondRun(t *testing.T) {
	files := func() []byte {
		answer := divided(t, "../samples/storey-and-a-half/storey-and-a-half.house.json")
		var b bytes.Buffer
		require.NoError(t, plan.WriteSummary(&b, answer))
		require.NoError(t, plan.WriteText(&b, answer))
		for _, s := range answer.Schemes {
			require.NoError(t, plan.WriteScheme(&b, s))
			for _, schedule := range plan.Schedules() {
				require.NoError(t, schedule.Write(&b, s))
			}
		}
		return b.Bytes()
	}
	assert.Equal(t, string(files()), string(files()))
}
