package render_test

import (
	"context"
	"fmt"
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

// parted keeps the schemes found, per survey: finding them is not what is tested here.
var parted = map[string]*plan.Scheme{}

// split parts a house under the brief that lies beside its survey; nil where
// it cannot be parted as asked.
func split(t testing.TB, b *plan.Building, file string) *plan.Scheme {
	t.Helper()
	if s, ok := parted[file]; ok {
		return s
	}
	brief := plan.DefaultBrief()
	brief.Rules = "none" // its bedrooms have too few windows to be bedrooms by one
	if f, err := os.Open(strings.TrimSuffix(file, ".house.json") + ".brief.yaml"); err == nil {
		defer f.Close()
		brief, err = plan.ReadBrief(f, file)
		require.NoError(t, err)
	}
	a, err := plan.Split(context.Background(), b, brief, plan.DefaultPrices(), plan.SplitOptions{})
	require.NoError(t, err)
	parted[file] = nil
	if len(a.Schemes) > 0 {
		parted[file] = a.Schemes[0]
	}
	return parted[file]
}

// drawn keeps the sheets of each house, per way of drawing it.
var drawn = map[string][]*render.Sheet{}

// sheetsOf draws a house once.
func sheetsOf(t testing.TB, file, what string, o render.Options, draw func() ([]*render.Sheet, error)) []*render.Sheet {
	t.Helper()
	key := fmt.Sprint(file, what, o)
	if s, ok := drawn[key]; ok {
		return s
	}
	sheets, err := draw()
	require.NoError(t, err)
	drawn[key] = sheets
	return sheets
}

// everySheet draws every house as surveyed and, where it can be split, its
// best scheme, and hands over the sheets.
func everySheet(t *testing.T, o render.Options, check func(t *testing.T, b *plan.Building, sheets []*render.Sheet)) {
	t.Helper()
	for _, file := range surveys(t) {
		b := building(t, file)
		if s := split(t, b, file); s != nil {
			b = s.Building
		}
		name := strings.TrimSuffix(filepath.Base(file), ".house.json")
		t.Run(name+" as surveyed", func(t *testing.T) {
			check(t, b, sheetsOf(t, file, "survey", o, func() ([]*render.Sheet, error) { return render.Survey(b, o) }))
		})
		t.Run(name+" divided", func(t *testing.T) {
			s := split(t, b, file)
			if s == nil {
				t.Skip("cannot be split as asked")
			}
			check(t, b, sheetsOf(t, file, "set", o, func() ([]*render.Sheet, error) { return render.Set(s, o) }))
		})
	}
}
