package plan_test

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func TestSchedules(t *testing.T) {
	for _, schedule := range plan.Schedules() {
		t.Run(schedule.Name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, schedule.Write(&b, cottage()))
			golden(t, "cottage/"+schedule.Name+".csv", b.Bytes())
			rows, err := csv.NewReader(&b).ReadAll()
			require.NoError(t, err, "the table is not rectangular CSV")
			if schedule.Name == "checks" || schedule.Name == "openings" || schedule.Name == "build-ups" {
				assert.Len(t, rows, 1, "the cottage is checked against nothing, no wall of it is opened, and no build-up was chosen for it")
				return
			}
			assert.Greater(t, len(rows), 1)
		})
	}
}

func TestTheScheduleOfWorksAddsUp(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, plan.WriteWorks(&b, cottage()))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	const cost = 9
	require.Equal(t, "cost", rows[0][cost])
	sum := 0.0
	for _, row := range rows[1 : len(rows)-1] {
		v, err := strconv.ParseFloat(row[cost], 64)
		require.NoError(t, err)
		sum += v
	}
	total, err := strconv.ParseFloat(rows[len(rows)-1][cost], 64)
	require.NoError(t, err)
	// Each line is rounded to a cent.
	assert.InDelta(t, total, sum, 0.005*float64(len(rows)))
}
