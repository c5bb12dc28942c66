package render_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/render"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares bytes with a file, and says on which line they part.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "run the test with -update to write it")
	if bytes.Equal(want, got) {
		return
	}
	w, g := strings.Split(string(want), "\n"), strings.Split(string(got), "\n")
	for i := range min(len(w), len(g)) {
		require.Equal(t, w[i], g[i], "%s, line %d", name, i+1)
	}
	assert.Len(t, g, len(w), name)
}

// The sheets of the cottage, by their titles.
func TestCottageIsDrawnAsBefore(t *testing.T) {
	sheets, err := render.Set(cottageDivided(t), render.Options{Date: "2025-01-31", Revision: "B"})
	require.NoError(t, err)
	drawn := map[string]*render.Sheet{}
	for _, s := range sheets {
		drawn[s.Title] = s
	}
	for title, file := range map[string]string{
		"Site plan, proposed":   "site.svg",
		"Main floor, existing":  "existing.svg",
		"Main floor, proposed":  "proposed.svg",
		"Upper floor, proposed": "proposed-upper.svg",
	} {
		s := drawn[title]
		if !assert.NotNil(t, s, title) {
			continue
		}
		var b bytes.Buffer
		require.NoError(t, s.WriteSVG(&b))
		golden(t, file, b.Bytes())
	}
}
