package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func passage(t *testing.T, s *plan.Scheme, of string) plan.Passage {
	t.Helper()
	i := slices.IndexFunc(s.Passages, func(p plan.Passage) bool { return p.Of == of })
	require.GreaterOrEqual(t, i, 0, of)
	return s.Passages[i]
}

func TestWhatBecomesOfPassages(t *testing.T) {
	d := pair().Door("joined", "main", 5.1, 1, 5.1, 1.8).Opening("arch", "main", 5.1, 5, 5.1, 6)
	s := best(t, d.House(), kept())
	assert.Equal(t, plan.Sealed, passage(t, s, "joined").State)
	assert.Equal(t, "door", passage(t, s, "joined").Type)
	assert.Equal(t, plan.Sealed, passage(t, s, "arch").State)
	assert.Equal(t, "opening", passage(t, s, "arch").Type)
	assert.Equal(t, plan.Kept, passage(t, s, "a-bed-door").State)
	assert.Equal(t, [2]string{"a-living", "outside"}, passage(t, s, "a-front").Between)
	assert.Equal(t, "A", passage(t, s, "a-front").Entry)
	assert.Empty(t, passage(t, s, "a-bed-door").Entry)
}

func TestEntriesAreListed(t *testing.T) {
	// Flat a has a second door out of its living room, and one out of its
	// bath, which is no way in; flat b's second door goes overhead.
	h := withDoor(pair().House(), "a-side", -0.1, 1, -0.1, 1.9)
	h = withDoor(h, "a-bath-out", 0.5, 7.2, 1.3, 7.2)
	h = withDoor(h, "b-over", 10.3, 1, 10.3, 3)
	h.Doors[len(h.Doors)-1].Leaf = plan.Overhead
	s := best(t, h, kept())
	assert.ElementsMatch(t, []string{"a-front", "a-side"}, s.Units[0].Entries)
	assert.Equal(t, []string{"b-front"}, s.Units[1].Entries)
	// The one that the proof rests on comes first, and is marked.
	assert.Equal(t, "A", passage(t, s, s.Units[0].Entries[0]).Entry)
}

func TestNewDoorsAreDrawn(t *testing.T) {
	h := withDoor(without(pair().House(), "a-bed-door"), "through-bath", 2.25, 5, 2.25, 5.8)
	s := best(t, h, kept())
	i := slices.IndexFunc(s.Passages, func(p plan.Passage) bool { return p.State == plan.New })
	require.GreaterOrEqual(t, i, 0)
	p := s.Passages[i]
	assert.Equal(t, "new-door-1", p.Of)
	assert.Equal(t, "new-door-1", workOf(t, s, "new_door").Of, "the work names the door")
	assert.Equal(t, [2]string{"a-bed", "a-living"}, p.Between)
	require.NotNil(t, p.Door)
	assert.InDelta(t, 0.90, p.Line.Length(), 1e-6)
	assert.InDelta(t, 2.03, p.Door.Height, 1e-9)
	assert.Equal(t, "a-bed", p.Door.OpensInto, "into the room that people do not pass through")
}

func TestWhatBecomesOfWalls(t *testing.T) {
	s := best(t, pairWithGround(eachOf(frontYards, street)), kept())
	state := map[[2]string]plan.State{}
	fences := 0
	for _, w := range s.Walls {
		state[w.Between] = w.State
		if w.Fence {
			fences++
			assert.Equal(t, [2]string{"a-yard", "b-yard"}, w.Between)
			assert.Equal(t, plan.New, w.State)
			assert.InDelta(t, 6.0, w.Line.Length(), 0.005)
		}
	}
	assert.Equal(t, 1, fences)
	assert.Equal(t, plan.Separating, state[[2]string{"a-living", "b-living"}])
	assert.Equal(t, plan.Existing, state[[2]string{"a-bath", "a-bed"}])
	assert.Equal(t, plan.Existing, state[[2]string{"a-bath", "outside"}])
}

func TestFixturesAndWindowsBelongToTheirUnits(t *testing.T) {
	s := best(t, withFixture(pair().House(), "meter", "gas_meter", 30, 30), kept())
	units := map[string]string{}
	for _, f := range s.Fixtures {
		units[f.ID] = f.Unit
		assert.Equal(t, plan.Kept, f.State)
	}
	for _, w := range s.Windows {
		units[w.ID] = w.Unit
	}
	assert.Equal(t, map[string]string{
		"a-washer": "A", "b-washer": "B", "a-window": "A", "b-window": "B", "meter": "none",
	}, units)
}
