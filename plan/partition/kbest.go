package partition

import (
	"cmp"
	"slices"
	"sync"
	"sync/atomic"
)

// pool keeps the best schemes that differ from each other. Of schemes that do
// not differ it keeps the first by cost, labels in order of cell name, and
// entries, so that what it holds in the end depends on nothing but what it was
// offered.
type pool struct {
	m     *model
	size  int
	limit atomic.Int64 // what costs more is of no interest
	first bool         // nor is anything once a scheme is found

	mu    sync.Mutex
	found []scheme // rising
}

type scheme struct {
	cost   cost
	labels []Label
	entry  [2]int
	class  string // alike in schemes that do not differ
}

func newPool(m *model, size int) *pool {
	p := &pool{m: m, size: size}
	p.limit.Store(m.limit)
	return p
}

func (a *scheme) compare(b *scheme) int {
	if c := cmp.Compare(a.cost, b.cost); c != 0 {
		return c
	}
	if c := slices.Compare(a.labels, b.labels); c != 0 {
		return c
	}
	return slices.Compare(a.entry[:], b.entry[:])
}

// offer puts a scheme in the pool if it is good enough; labels are copied.
func (p *pool) offer(c cost, labels []Label, entry [2]int) bool {
	if c > p.limit.Load() {
		return false
	}
	s := scheme{c, labels, entry, p.m.class(labels)}
	p.mu.Lock()
	defer p.mu.Unlock()
	i, same := slices.BinarySearchFunc(p.found, &s, func(a scheme, b *scheme) int { return a.compare(b) })
	if same || i == p.size {
		return false
	}
	for j := range p.found {
		if p.found[j].class != s.class {
			continue
		}
		if j < i {
			return false // there is a better one already
		}
		p.found = slices.Delete(p.found, j, j+1)
		break
	}
	s.labels = slices.Clone(labels)
	p.found = slices.Insert(p.found, i, s)
	if len(p.found) > p.size {
		p.found = p.found[:p.size]
	}
	if p.first {
		p.limit.Store(-1)
	} else if len(p.found) == p.size {
		p.limit.Store(p.found[p.size-1].cost)
	}
	return true
}

// class spells what tells schemes apart: the labels of the distinct cells; of
// two mirror images of alike units, the lesser spelling.
func (m *model) class(labels []Label) string {
	spell := func(flip bool) string {
		var b []byte
		for c := range m.cells {
			if !m.cells[c].Distinct || m.kind[c] == publicCell {
				continue
			}
			l := labels[c]
			if flip && l != Common {
				l = 1 - l
			}
			b = append(b, byte(l))
		}
		return string(b)
	}
	if m.symmetric {
		return min(spell(false), spell(true))
	}
	return spell(false)
}
