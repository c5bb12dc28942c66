package partition_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// unordered puts cells, links and functions in another order, names unchanged.
func unordered(p *partition.Problem, seed uint64) *partition.Problem {
	q := renamed(p, seed)
	names := map[string]string{}
	for i, j := range places(p, seed) {
		names[q.Cells[i].Name] = p.Cells[j].Name
	}
	for i := range q.Cells {
		q.Cells[i].Name = names[q.Cells[i].Name]
	}
	return q
}

// places tells which old cell is at each new place of renamed.
func places(p *partition.Problem, seed uint64) []int {
	old := *p
	old.Cells = append([]partition.Cell(nil), p.Cells...)
	for i := range old.Cells {
		old.Cells[i].Area = int64(i)
	}
	var at []int
	for _, c := range renamed(&old, seed).Cells {
		at = append(at, int(c.Area))
	}
	return at
}

// spelled is a solution in words that do not depend on the order of anything.
func spelled(p *partition.Problem, s partition.Solution) map[string]string {
	words := map[string]string{}
	for c, l := range s.Labels {
		words[p.Cells[c].Name] = l.String()
	}
	words["price"] = fmt.Sprintf("%+v %+v %+v", s.Price, s.Terms, s.Bound)
	return words
}

func assortment() (problems []*partition.Problem) {
	for seed := range uint64(40) {
		problems = append(problems, randomProblem(7000+seed), houseLike(seed, 14+int(seed)%20))
	}
	return problems
}

func TestAnyNumberOfWorkersGivesTheSameAnswer(t *testing.T) {
	for i, p := range assortment() {
		one := solve(t, p, partition.Options{Schemes: 4, Workers: 1})
		for _, workers := range []int{2, 5} {
			other := solve(t, p, partition.Options{Schemes: 4, Workers: workers})
			other.Nodes = one.Nodes
			require.Equal(t, one, other, "problem %d, %d workers", i, workers)
		}
	}
}

func TestOrderOfCellsLinksAndFunctionsDoesNotMatter(t *testing.T) {
	for i, p := range assortment() {
		q := unordered(p, uint64(i))
		want := solve(t, p, partition.Options{Schemes: 3})
		got := solve(t, q, partition.Options{Schemes: 3})
		require.Equal(t, want.Status, got.Status)
		require.Len(t, got.Solutions, len(want.Solutions))
		for k := range want.Solutions {
			require.Equal(t, spelled(p, want.Solutions[k]), spelled(q, got.Solutions[k]), "problem %d, scheme %d", i, k)
		}
	}
}

func TestFewerSchemesAreTheFirstOfMore(t *testing.T) {
	for i, p := range assortment() {
		five := solve(t, p, partition.Options{Schemes: 5})
		one := solve(t, p, partition.Options{})
		require.Equal(t, five.Solutions[:min(1, len(five.Solutions))], one.Solutions[:min(1, len(five.Solutions))], "problem %d", i)
		for k := 1; k < len(five.Solutions); k++ {
			require.False(t, five.Solutions[k].Price.Less(five.Solutions[k-1].Price))
		}
	}
}

// One more demand never makes the best scheme cheaper, nor possible what was not.
func TestOneMoreDemandIsNeverCheaper(t *testing.T) {
	more := map[string]func(p *partition.Problem){
		"a function more": func(p *partition.Problem) {
			p.Units[0].Need = append([]int(nil), p.Units[0].Need...)
			for f := range p.Units[0].Need {
				p.Units[0].Need[f]++
				return
			}
		},
		"more area":     func(p *partition.Problem) { p.Units[1].MinArea += 3 },
		"an own entry":  func(p *partition.Problem) { p.Units[0].NeedEntry = true },
		"a fixed owner": func(p *partition.Problem) { keepFirst(p) },
		"a closer share": func(p *partition.Problem) {
			p.ShareMin, p.ShareMax = max(p.ShareMin, 350), max(min(p.ShareMax, 650), max(p.ShareMin, 350))
		},
		"no lacking": func(p *partition.Problem) {
			p.Units[1].Lack = append([]partition.Price(nil), p.Units[1].Lack...)
			for f := range p.Units[1].Lack {
				p.Units[1].Lack[f].Money = partition.Impossible
			}
		},
	}
	for i, p := range assortment() {
		before := solve(t, p, partition.Options{})
		for what, demand := range more {
			q := *p
			q.Cells = append([]partition.Cell(nil), p.Cells...)
			demand(&q)
			after := solve(t, &q, partition.Options{})
			if before.Status == partition.Infeasible {
				require.Equal(t, partition.Infeasible, after.Status, "problem %d: %s", i, what)
			} else if after.Status == partition.Proved {
				require.False(t, after.Solutions[0].Price.Less(before.Solutions[0].Price), "problem %d: %s", i, what)
			}
		}
	}
}

// keepFirst gives the first cell that may be B's to B.
func keepFirst(p *partition.Problem) {
	for c := range p.Cells {
		if !p.Cells[c].Public && p.Cells[c].Allowed&(1<<partition.B) != 0 {
			p.Cells[c].Allowed = 1 << partition.B
			return
		}
	}
}

// Two houses joined by links that cost little to part are parted there.
//
//	 house 1              house 2
//	[hall]-[room]...     [hall]-[room]...
//	    \____________________/        a few links at 1 each
func TestJoinedHousesArePartedWhereTheyWereJoined(t *testing.T) {
	for seed := range uint64(20) {
		rooms := 4 + int(seed%8)
		p := &partition.Problem{ShareMax: 1000, Functions: []partition.Function{{Name: "kitchen"}, {Name: "bed"}}}
		for house := range 2 {
			for r := range rooms {
				c := partition.Cell{Name: fmt.Sprintf("%d-%02d", house, r), Area: 10, Capacity: 1,
					Allowed: 1<<partition.A | 1<<partition.B, Host: []partition.Money{5000, 5000}, Distinct: true}
				if r == 1 || r == 2 {
					c.Host[r-1] = 0
				}
				p.Cells = append(p.Cells, c)
				if r > 0 { // every room by two ways, each dearer to part than the joint
					to := house*rooms + int(seed+uint64(3*r))%r
					p.Links = append(p.Links, partition.Link{U: to, V: len(p.Cells) - 1, Open: true, Sep: 100, Door: partition.Impossible},
						partition.Link{U: len(p.Cells) - 2, V: len(p.Cells) - 1, Open: true, Sep: 100, Door: partition.Impossible})
				}
			}
		}
		joints := 2 + int(seed%4)
		for j := range joints {
			p.Links = append(p.Links, partition.Link{U: j % rooms, V: rooms + (j*3+1)%rooms, Open: true, Sep: 1, Door: partition.Impossible})
		}
		for u := range p.Units {
			p.Units[u] = partition.Unit{Need: []int{1, 1}, MinArea: 10,
				Lack: []partition.Price{{Money: partition.Impossible}, {Money: partition.Impossible}}}
		}
		r := solve(t, p, partition.Options{})
		require.Equal(t, partition.Proved, r.Status)
		assert.Equal(t, partition.Price{Money: partition.Money(joints)}, r.Solutions[0].Price)
		for c, l := range r.Solutions[0].Labels {
			assert.Equal(t, partition.Label(c/rooms), l, "seed %d, cell %s", seed, p.Cells[c].Name)
		}
	}
}

// A search that is stopped says what it has, and never that nothing exists.
func TestStoppedSearchIsNeverInfeasible(t *testing.T) {
	p := readInstance(t, "h100_s1")
	const optimum = 37510
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	r, err := partition.Solve(stopped, p, partition.Options{})
	require.NoError(t, err)
	assert.Contains(t, []partition.Status{partition.Unknown, partition.Bounded}, r.Status)
	assert.False(t, r.Complete)
	for _, wait := range []time.Duration{20 * time.Millisecond, 80 * time.Millisecond} {
		ctx, cancel := context.WithTimeout(context.Background(), wait)
		r, err := partition.Solve(ctx, p, partition.Options{Schemes: 3})
		cancel()
		require.NoError(t, err)
		require.NotEqual(t, partition.Infeasible, r.Status)
		for i := range r.Solutions {
			s := &r.Solutions[i]
			assert.NoError(t, partition.Verify(p, s))
			assert.False(t, s.Price.Less(s.Bound))
			assert.Equal(t, s.Price == s.Bound, s.Proved)
		}
		if len(r.Solutions) > 0 {
			assert.LessOrEqual(t, r.Solutions[0].Bound.Money, partition.Money(optimum))
			assert.GreaterOrEqual(t, r.Solutions[0].Price.Money, partition.Money(optimum))
		}
	}
}

// The tracer sees bounds that rise to the optimum and schemes that sink to it.
func TestTracerSeesTheGapClose(t *testing.T) {
	p := readInstance(t, "h048_s0")
	tr := &record{}
	r := solve(t, p, partition.Options{Trace: tr})
	require.NotEmpty(t, tr.seen)
	last := tr.seen[len(tr.seen)-1]
	assert.Equal(t, r.Solutions[0].Price, last.Best)
	assert.Equal(t, r.Solutions[0].Price, last.Bound)
	assert.Equal(t, r.Nodes, last.Nodes)
	for i := 1; i < len(tr.seen); i++ {
		assert.False(t, tr.seen[i].Bound.Less(tr.seen[i-1].Bound), "bounds only rise")
		if tr.seen[i-1].Found > 0 {
			assert.False(t, tr.seen[i-1].Best.Less(tr.seen[i].Best), "the best only gets better")
			assert.False(t, tr.seen[i].Best.Less(tr.seen[i].Bound))
		}
	}
}

type record struct{ seen []partition.Progress }

func (r *record) Progress(p partition.Progress) { r.seen = append(r.seen, p) }
