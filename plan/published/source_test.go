package published_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/published"
)

func TestAFigureSaysWhereItComesFrom(t *testing.T) {
	for _, c := range []struct {
		name   string
		source published.Source
		want   string
	}{
		{"read in a clause", published.Source{Standard: "ASTM E413", Clause: "Table 1", Edition: "2022", Status: published.Read}, "ASTM E413 Table 1 (2022)"},
		{"known from memory", published.Source{Standard: "NDS", Clause: "3.4.2", Status: published.Memory}, "NDS 3.4.2, from memory"},
		{"what the trade does", published.Source{Standard: "tanks", Status: published.Practice}, "tanks, common practice, no source"},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.source.String()) })
	}
}

func TestFiguresWithoutASourceAreRefused(t *testing.T) {
	type file struct {
		Depth published.Figure[float64] `json:"depth"`
	}
	for _, c := range []struct{ name, file, want string }{
		{"no status", `{"depth": {"value": 1, "standard": "NDS"}}`, `.depth: status ""`},
		{"a status of one's own", `{"depth": {"value": 1, "standard": "NDS", "status": "sure"}}`, `status "sure"`},
		{"no standard", `{"depth": {"value": 1, "status": "read"}}`, "no standard"},
		{"unknown key", `{"depth": {"value": 1, "standard": "NDS", "status": "read", "claus": "3"}}`, "claus"},
		{"something behind", `{} {}`, "something follows"},
		{"not JSON", `{`, "unexpected EOF"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := published.Decode[file]([]byte(c.file))
			assert.ErrorContains(t, err, c.want)
		})
	}
	good, err := published.Decode[file]([]byte(`{"depth": {"value": 1.5, "standard": "NDS", "status": "memory"}}`))
	require.NoError(t, err)
	assert.Equal(t, 1.5, good.Depth.Value)
	assert.Panics(t, func() { published.MustDecode[file]([]byte(`{`)) })
}
