package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// The partitions of a bathroom of 60 by 90 in built into a room 2.44 m high,
// counted by hand: two ends of 1.644 m, and in front 2.286 m less a doorway of
// 0.711 m, in one piece of 1.549 m and one of 0.025 m at the jamb. Studs at
// 400 mm: 5, 5, 4 and 1. Two plates of 4.863 m. Both faces: 23.73 m2, which are
// 7.97 sheets of 1.22 x 2.44 m.
func TestThePartitionsOfABuiltBathroomCountedByHand(t *testing.T) {
	b := build(t, oneLevel().Room("room", plan.Unfinished, "main", 0, 0, 5, 4).House())
	c := cellIndex(t, b, "room")
	fits := plan.FitsOf(b, c, plan.HasBathroom)
	require.NotEmpty(t, fits)
	height := b.Cells[c].Ceiling - b.Cells[c].Floor
	s := &plan.Scheme{
		Building: b, Owners: make([]plan.Owner, len(b.Cells)), Uses: []plan.Use{plan.Unfinished}, Fits: fits[:1],
		Works: []plan.Work{{ID: "W1", Kind: "new_bathroom", Spaces: []string{"room"}, Count: 1}},
	}
	rows := plan.TakeOff(s)
	got := amounts(rows)
	length := 2*(60*in+0.12) + 90*in - 28*in
	assert.InDelta(t, 4.863, length, 0.001)
	assert.InDelta(t, 15, got["wood studs"], 1e-9)
	assert.InDelta(t, 2*length, got["plates"], 0.001)
	long := 2.44
	if height > long {
		long = 3.05
	}
	assert.InDelta(t, 2*length*height/(1.22*long), got["gypsum board"], 0.01)
	assert.InDelta(t, 1, got["inner door with frame"], 1e-9)
	for _, q := range rows {
		assert.Equal(t, "W1", q.Of)
		assert.Equal(t, "partitions in room for new bathroom", q.Cause)
	}
}
