package partition

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// hostingProblem draws cells that could host for two units.
func hostingProblem(r *rand.Rand) *Problem {
	p := &Problem{Name: "hosts", ShareMax: 1000}
	functions := 2 + r.IntN(3)
	for f := range functions {
		p.Functions = append(p.Functions, Function{Name: fmt.Sprint("f", f), Uncounted: r.IntN(3) == 0})
	}
	for c := range 3 + r.IntN(5) {
		cell := Cell{Name: fmt.Sprint("c", c), Allowed: LabelSet(1 + r.IntN(7)), Capacity: r.IntN(4), Clashes: [][]int{{0, 1}}}
		for range functions {
			price := Money(r.IntN(12))
			if r.IntN(4) == 0 {
				price = Impossible
			}
			cell.Host = append(cell.Host, price)
		}
		p.Cells = append(p.Cells, cell)
	}
	for u := range p.Units {
		for range functions {
			lack := Price{Money: Money(r.IntN(20))}
			if r.IntN(2) == 0 {
				lack.Money = Impossible
			}
			p.Units[u].Need = append(p.Units[u].Need, r.IntN(3))
			p.Units[u].Lack = append(p.Units[u].Lack, lack)
		}
	}
	return p
}

// Hosts that are put right after one is barred cost what they cost if all are
// looked for anew, however many have been barred before; and all is as it was
// once that is undone.
func TestHostsPutRightAfterOneIsBarred(t *testing.T) {
	barred, without := 0, 0
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 1))
		p := hostingProblem(r)
		require.NoError(t, p.Check(), "seed %d", seed)
		m := newModel(p)
		here, anew := newTransport(m, m.forms()), newTransport(m, m.forms())
		dom := m.start()
		total := here.ignoring(dom)
		if total >= never {
			continue
		}
		first := total
		before := fmt.Sprint(here.at, here.load, here.lacks)
		for range 4 {
			f, c := r.IntN(m.nf), r.IntN(m.n)
			if here.clash.barred[f][c] {
				continue
			}
			more := here.bar(f, c, dom)
			anew.clash.barred[f][c] = true
			want := anew.ignoring(dom)
			if more >= never {
				require.GreaterOrEqual(t, want, never, "seed %d", seed)
				without++
				break
			}
			total += more
			require.Equal(t, want, total, "seed %d", seed)
			barred++
		}
		here.unshift(0)
		require.Equal(t, before, fmt.Sprint(here.at, here.load, here.lacks))
		for f := range here.clash.barred {
			clear(here.clash.barred[f])
		}
		require.Equal(t, first, here.ignoring(dom))
	}
	t.Log(barred, "barred,", without, "without another")
	require.Positive(t, without)
}
