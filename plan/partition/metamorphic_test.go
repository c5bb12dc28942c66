package partition_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan/partition"
)

// renamed gives the cells other names and the cells, links and functions
// another order. Names decide where the search begins, so that it goes another
// way.
func renamed(p *partition.Problem, seed uint64) *partition.Problem {
	r := rand.New(rand.NewPCG(seed, 1))
	q := *p
	at := r.Perm(len(p.Cells)) // new place -> old
	place := make([]int, len(at))
	functions := r.Perm(len(p.Functions))
	q.Cells = make([]partition.Cell, len(at))
	name := r.Perm(len(at))
	for i, old := range at {
		place[old] = i
		c := p.Cells[old]
		c.Name = fmt.Sprintf("cell %03d", name[i])
		c.Host = shuffled(c.Host, functions)
		c.Closes = shuffled(c.Closes, functions)
		c.Clashes = nil
		for _, clash := range p.Cells[old].Clashes {
			var set []int
			for _, f := range clash {
				set = append(set, slices.Index(functions, f))
			}
			c.Clashes = append(c.Clashes, set)
		}
		q.Cells[i] = c
	}
	q.Functions = shuffled(p.Functions, functions)
	for u := range q.Units {
		q.Units[u].Need = shuffled(p.Units[u].Need, functions)
		q.Units[u].Lack = shuffled(p.Units[u].Lack, functions)
	}
	q.Links = shuffled(p.Links, r.Perm(len(p.Links)))
	for i := range q.Links {
		l := &q.Links[i]
		l.U, l.V = place[l.U], place[l.V]
	}
	return &q
}

func shuffled[T any](from []T, at []int) []T {
	if len(from) == 0 {
		return from
	}
	to := make([]T, len(from))
	for i, old := range at {
		to[i] = from[old]
	}
	return to
}

// exchanged swaps the units.
func exchanged(p *partition.Problem) *partition.Problem {
	q := *p
	q.Units[0], q.Units[1] = p.Units[1], p.Units[0]
	q.ShareMin, q.ShareMax = 1000-p.ShareMax, 1000-p.ShareMin
	q.Balance.Share = 1000 - p.Balance.Share
	q.Cells = append([]partition.Cell(nil), p.Cells...)
	for i := range q.Cells {
		c := &q.Cells[i]
		c.Own[0], c.Own[1] = c.Own[1], c.Own[0]
		c.Allowed = c.Allowed&(1<<partition.Common) | c.Allowed&1<<1 | c.Allowed>>1&1
	}
	q.Links = append([]partition.Link(nil), p.Links...)
	for i := range q.Links {
		e := &q.Links[i].Entry
		e[0], e[1] = e[1], e[0]
	}
	return &q
}

func prices(r partition.Result) (p []partition.Price) {
	for _, s := range r.Solutions {
		p = append(p, s.Price)
	}
	return p
}

func TestPricesDoNotDependOnNamesOrderOrWhichUnitIsA(t *testing.T) {
	for _, o := range optima {
		if o.large || testing.Short() && len(o.name) > 7 {
			continue
		}
		p := readInstance(t, o.name)
		seeds := uint64(4)
		if len(p.Cells) > 48 || testing.Short() {
			seeds = 1
		}
		for seed := range seeds {
			q := renamed(p, seed)
			if seed%2 == 1 {
				q = exchanged(q)
			}
			r := solve(t, q, partition.Options{})
			if o.money < 0 {
				require.Equal(t, partition.Infeasible, r.Status, "%s, seed %d", o.name, seed)
				continue
			}
			require.Equal(t, []partition.Price{{Money: o.money}}, prices(r), "%s, seed %d", o.name, seed)
			require.NoError(t, partition.Verify(q, &r.Solutions[0]))
		}
	}
}
