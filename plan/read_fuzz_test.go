package plan_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan"
)

// seed adds the files whose name has an ending, of all folders of test data.
func seed(f *testing.F, ending string) {
	f.Helper()
	files, err := filepath.Glob(filepath.Join("..", "testdata", "*", "*"+ending))
	require.NoError(f, err)
	require.NotEmpty(f, files)
	for _, path := range files {
		data, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(data)
	}
}

// refused checks that an error is one about the file: a list of sentences.
func refused(t *testing.T, err error) {
	var problems *plan.Problems
	require.ErrorAs(t, err, &problems)
	require.NotEmpty(t, problems.List)
	for _, p := range problems.List {
		assert.NotEmpty(t, p.Message)
		assert.NotContains(t, p.String(), "\n", "one line each")
	}
}

// Whatever the bytes, the reader gives a sound house or says what is wrong.
func FuzzRead(f *testing.F) {
	seed(f, ".house.json")
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := plan.Read(bytes.NewReader(data), "fuzz.house.json")
		if err != nil {
			assert.Nil(t, h)
			refused(t, err)
			return
		}
		ids := map[string]bool{}
		unique := func(id string) {
			assert.False(t, ids[id], "id %q twice", id)
			assert.NotEmpty(t, strings.TrimSpace(id))
			ids[id] = true
		}
		level := func(i int) { assert.True(t, i >= 0 && i < len(h.Levels), "level %d", i) }
		for _, s := range h.Spaces {
			unique(s.ID)
			level(s.Level)
			assert.True(t, s.Use.Known())
			assert.Positive(t, s.Region.AreaM2())
			assert.True(t, s.Region.Outer.CounterClockwise())
			assert.Equal(t, s.Outdoor, s.Height == 0)
		}
		for _, s := range h.Stairs {
			unique(s.ID)
			level(s.Level)
			level(s.To)
			assert.GreaterOrEqual(t, len(s.Walk), 2)
			assert.Greater(t, h.Levels[s.To].Floor, h.Levels[s.Level].Floor)
		}
		for _, d := range h.Doors {
			unique(d.ID)
			level(d.Level)
			assert.Positive(t, d.Line.Length())
		}
		for _, w := range h.Windows {
			unique(w.ID)
			level(w.Level)
			assert.Positive(t, w.Line.Length())
		}
		again, err := plan.Read(bytes.NewReader(data), "fuzz.house.json")
		require.NoError(t, err)
		assert.Equal(t, h, again, "the same bytes give the same house")
	})
}

func FuzzReadBrief(f *testing.F) {
	seed(f, ".brief.yaml")
	f.Fuzz(func(t *testing.T, data []byte) {
		b, err := plan.ReadBrief(bytes.NewReader(data), "fuzz.brief.yaml")
		if err != nil {
			assert.Nil(t, b)
			refused(t, err)
			return
		}
		assert.Equal(t, "A", b.Units[0].ID)
		assert.Equal(t, "B", b.Units[1].ID)
		assert.Positive(t, b.Schemes)
		for _, u := range b.Units {
			assert.True(t, !u.Bedrooms.MaxSaid || u.Bedrooms.Min <= u.Bedrooms.Max)
			assert.True(t, u.AreaShare >= 0 && u.AreaShare <= 1)
			assert.GreaterOrEqual(t, u.AreaMin, 0.0)
		}
		if err := b.Check(&plan.House{}); err != nil {
			refused(t, err)
		}
	})
}

func FuzzReadPrices(f *testing.F) {
	seed(f, ".prices.yaml")
	data, err := os.ReadFile(filepath.Join("data", "prices.yaml"))
	require.NoError(f, err)
	f.Add(data)
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := plan.ReadPrices(bytes.NewReader(data), "fuzz.prices.yaml")
		if err != nil {
			assert.Nil(t, p)
			refused(t, err)
			return
		}
		assert.NotEmpty(t, p.Currency)
		assert.Positive(t, p.SeparatingWall.Thickness)
		assert.GreaterOrEqual(t, p.NewKitchen, 0.0)
	})
}
