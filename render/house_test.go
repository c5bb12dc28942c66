package render_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
	"moiety/render"
)

// building reads and works out a survey.
func building(t testing.TB, file string) *plan.Building {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	h, err := plan.Read(f, filepath.Base(file))
	require.NoError(t, err)
	b, err := plan.Build(h)
	require.NoError(t, err)
	return b
}

// cottage is a house of two levels with a garden, a drive and a street.
func cottage(t testing.TB) *plan.Building { return building(t, "testdata/cottage.house.json") }

// surveys are the sample houses and the real duplex.
func surveys(t testing.TB) []string {
	files, err := filepath.Glob("../samples/*/*.house.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return append(files, "../testdata/houses/duplex.house.json", "testdata/cottage.house.json")
}

// split parts a house under the brief that lies beside its survey.
func split(t testing.TB, b *plan.Building, file string) *plan.Scheme {
	t.Helper()
	brief := plan.DefaultBrief()
	if f, err := os.Open(strings.TrimSuffix(file, ".house.json") + ".brief.yaml"); err == nil {
		defer f.Close()
		brief, err = plan.ReadBrief(f, file)
		require.NoError(t, err)
	}
	a, err := plan.Split(context.Background(), b, brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	if len(a.Schemes) == 0 {
		return nil
	}
	return a.Schemes[0]
}

// everySheet draws every house as surveyed and, where it can be split, its
// best scheme, and hands over the sheets.
func everySheet(t *testing.T, o render.Options, check func(t *testing.T, b *plan.Building, sheets []*render.Sheet)) {
	t.Helper()
	for _, file := range surveys(t) {
		b := building(t, file)
		name := strings.TrimSuffix(filepath.Base(file), ".house.json")
		t.Run(name+" as surveyed", func(t *testing.T) {
			sheets, err := render.Survey(b, o)
			require.NoError(t, err)
			check(t, b, sheets)
		})
		t.Run(name+" divided", func(t *testing.T) {
			s := split(t, b, file)
			if s == nil {
				t.Skip("cannot be split as asked")
			}
			sheets, err := render.Set(s, o)
			require.NoError(t, err)
			check(t, b, sheets)
		})
	}
}
