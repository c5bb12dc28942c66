package partition

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Depth first, as when too many parts are open, the search finds the same.
func TestSearchingDepthFirstFindsTheSame(t *testing.T) {
	for _, name := range []string{"h016_s0", "h016_s1", "h024_s0", "t024_s1", "t024_s2", "h032_s1"} {
		f, err := os.Open(filepath.Join("..", "..", "testdata", "instances", name+".json"))
		require.NoError(t, err)
		p, err := ReadInstance(f)
		f.Close()
		require.NoError(t, err)
		find := func(crowd int) Result {
			s := newSearch(newModel(p), 4)
			s.crowd = crowd
			s.run(context.Background(), 1)
			r := s.result()
			r.Nodes = 0
			return r
		}
		assert.Equal(t, find(maxOpen), find(-1), name)
		assert.Equal(t, find(maxOpen), find(5), name)
	}
}
