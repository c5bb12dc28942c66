package partition_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// optima are the proven optima of testdata/instances, from its README: two
// general solvers agree, except where noted there. -1 is infeasible.
var optima = []struct {
	name  string
	money partition.Money
	large bool
}{
	{"h016_s0", 35549, false}, {"h016_s1", 39406, false}, {"h016_s2", 34211, false},
	{"h024_s0", 40693, false}, {"h024_s1", 32224, false}, {"h024_s2", 37251, false},
	{"h032_s0", 27594, false}, {"h032_s1", 45148, false}, {"h032_s2", 28580, false},
	{"h048_s0", 32433, false}, {"h048_s1", 35041, false}, {"h048_s2", 35382, false},
	{"h064_s0", 25046, false}, {"h064_s1", 28226, false}, {"h064_s2", 23057, false},
	{"h100_s0", 29914, false}, {"h100_s1", 37510, false},
	{"t024_s0", 53952, false}, {"t024_s1", -1, false}, {"t024_s2", 49126, false},
	{"t032_s0", 33109, false}, {"t032_s1", 57292, false},
	{"t048_s0", 33449, false}, {"t048_s1", 38172, false},
	{"h200_s0", 45265, true}, {"x064_s1_share490", -1, false},
}

func readInstance(t testing.TB, name string) *partition.Problem {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "instances", name+".json"))
	require.NoError(t, err)
	defer f.Close()
	p, err := partition.ReadInstance(f)
	require.NoError(t, err)
	return p
}

func TestProvenOptimaOfTheInstances(t *testing.T) {
	for _, o := range optima {
		t.Run(o.name, func(t *testing.T) {
			if o.large && testing.Short() {
				t.Skip("large")
			}
			p := readInstance(t, o.name)
			start := time.Now()
			r, err := partition.Solve(context.Background(), p, partition.Options{})
			require.NoError(t, err)
			t.Logf("%v, %d parts", time.Since(start).Round(time.Millisecond/10), r.Nodes)
			if o.money < 0 {
				assert.Equal(t, partition.Infeasible, r.Status)
				return
			}
			require.Equal(t, partition.Proved, r.Status)
			assert.Equal(t, partition.Price{Money: o.money}, r.Solutions[0].Price)
			assert.NoError(t, partition.Verify(p, &r.Solutions[0]))
		})
	}
}

func TestInstancesThatAreNone(t *testing.T) {
	for text, want := range map[string]string{
		``:                             "EOF",
		`{"n": 1}`:                     "0 cells, not 1",
		`{"rooms": []}`:                "unknown field",
		`{"n": 0} {"n": 0}`:            "more than one value",
		`{"n": 0, "share": [700, 20]}`: "A's share from 700 to 20",
	} {
		_, err := partition.ReadInstance(strings.NewReader(text))
		assert.ErrorContains(t, err, want, text)
	}
}

// Whatever is read is either refused or sound.
func FuzzReadInstance(f *testing.F) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "instances", "?016*.json"))
	require.NoError(f, err)
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if p, err := partition.ReadInstance(bytes.NewReader(text)); err == nil {
			require.NoError(t, p.Check())
		}
	})
}
