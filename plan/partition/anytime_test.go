package partition_test

import (
	"context"
	"flag"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

var curveFlag = flag.Duration("curve", 10*time.Second, "how long BenchmarkAnytime searches")

// curve writes down each moment at which the best or the bound has changed.
type curve struct {
	b     *testing.B
	began time.Time
	last  partition.Progress
}

func (c *curve) Progress(p partition.Progress) {
	if p.Best == c.last.Best && p.Bound == c.last.Bound && p.Found == c.last.Found {
		return
	}
	c.last = p
	at := time.Since(c.began).Seconds()
	if p.Found == 0 {
		c.b.Logf("%7.2f s %7d parts   nothing found      bound %d %12d", at, p.Nodes, p.Bound.Shared, p.Bound.Money)
		return
	}
	gap := 100 * float64(p.Best.Money-p.Bound.Money) / float64(max(p.Best.Money, 1))
	c.b.Logf("%7.2f s %7d parts   best %d %12d   bound %d %12d   gap %5.2f %%",
		at, p.Nodes, p.Best.Shared, p.Best.Money, p.Bound.Shared, p.Bound.Money, gap)
}

// BenchmarkAnytime shows how best and bound close in on each other in large
// houses: go test -bench Anytime -benchtime 1x -curve 60s -v.
func BenchmarkAnytime(b *testing.B) {
	for _, p := range []*partition.Problem{readInstance(b, "h200_s0"), houseLike(3, 300)} {
		b.Run(p.Name, func(b *testing.B) {
			for b.Loop() {
				ctx, cancel := context.WithTimeout(context.Background(), *curveFlag)
				c := &curve{b: b, began: time.Now()}
				r, err := partition.Solve(ctx, p, partition.Options{Trace: c})
				cancel()
				require.NoError(b, err)
				b.Logf("%d cells, %d links: %s after %d parts", len(p.Cells), len(p.Links), r.Status, r.Nodes)
				for i := range r.Solutions {
					require.NoError(b, partition.Verify(p, &r.Solutions[i]))
				}
			}
		})
	}
}

// However early a search is stopped, what it says holds: a scheme no better
// than the optimum, a bound no worse, and no claim of a proof or of there being
// nothing unless that is so. The longer it lasts the better it knows.
func TestEveryStopOfASearchSaysWhatHolds(t *testing.T) {
	open := 0
	for seed := range uint64(8) {
		p := houseLike(seed, 30)
		done := solve(t, p, partition.Options{Schemes: 2, Workers: 1})
		var before partition.Result
		for nodes := int64(1); nodes < 4*done.Nodes; nodes *= 3 {
			r := solve(t, p, partition.Options{Schemes: 2, Workers: 1, Nodes: nodes})
			switch r.Status {
			case partition.Infeasible:
				require.Equal(t, partition.Infeasible, done.Status)
			case partition.Proved:
				require.Equal(t, prices(done), prices(r))
			default:
				open++
				assert.False(t, r.Complete)
				assert.LessOrEqual(t, r.Nodes, nodes)
			}
			for i := range r.Solutions {
				s := &r.Solutions[i]
				require.NoError(t, partition.Verify(p, s))
				require.False(t, s.Price.Less(done.Solutions[i].Price), "better than the optimum")
				require.False(t, done.Solutions[i].Price.Less(s.Bound), "the bound is above the optimum")
				require.Equal(t, s.Price == s.Bound, s.Proved)
				if i < len(before.Solutions) {
					require.False(t, before.Solutions[i].Price.Less(s.Price), "worse than before")
				}
			}
			before = r
		}
	}
	assert.Positive(t, open)
}
