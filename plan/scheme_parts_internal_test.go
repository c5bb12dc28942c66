package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestANewDoorTakesNoIDOfASurveyedOne(t *testing.T) {
	h := &House{Doors: []Door{{ID: "new-door-1"}, {ID: "new-door-3"}}}
	assert.Equal(t, "new-door-2", h.newDoorID(1))
	assert.Equal(t, "new-door-4", h.newDoorID(2))
	assert.Equal(t, "new-door-1", (&House{}).newDoorID(1))
}
