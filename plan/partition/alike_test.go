package partition_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// Where exchanging the units changes nothing, every different scheme is found
// once, and of its two images the one whose first cell by name that is not common
// is A's: by trying everything, all schemes asked for.
func TestEqualUnitsByTryingEverything(t *testing.T) {
	looked, several := 0, 0
	for seed := uint64(30_000); seed < 30_000+fewer(6000); seed++ {
		p := randomProblem(seed)
		if !alike(p) {
			continue
		}
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			agree(t, p, 8)
			r := solve(t, p, partition.Options{Schemes: 8, Workers: 2})
			for i := range r.Solutions {
				first := -1
				for c, l := range r.Solutions[i].Labels {
					if !p.Cells[c].Public && l != partition.Common && (first < 0 || p.Cells[c].Name < p.Cells[first].Name) {
						first = c
					}
				}
				if first >= 0 {
					require.Equal(t, partition.A, r.Solutions[i].Labels[first])
				}
			}
			if len(r.Solutions) > 1 {
				several++
			}
		})
		looked++
	}
	t.Log(looked, "problems,", several, "with several schemes")
	assert.Positive(t, several)
}
