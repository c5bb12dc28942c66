package partition

import (
	"container/heap"
	"context"
	"runtime"
	"sync"
)

// node is a part of the search tree that is still to be looked at.
type node struct {
	dom   []LabelSet
	form  []form
	bound cost
	seq   int64
}

type nodes []*node

func (h nodes) Len() int { return len(h) }
func (h nodes) Less(i, j int) bool {
	if h[i].bound != h[j].bound {
		return h[i].bound < h[j].bound
	}
	return h[i].seq > h[j].seq
}
func (h nodes) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *nodes) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	old := *h
	x := old[len(old)-1]
	old[len(old)-1] = nil
	*h = old[:len(old)-1]
	return x
}

// maxOpen bounds the parts kept open, and with them the memory.
const maxOpen = 50_000

// search is a best-first branch and bound. A worker takes the open part with
// the least bound, narrows it and dives: it goes on with the most promising
// child and leaves the others open. Parts whose bound is above the cost of the
// last scheme asked for are dropped; equal ones are not, so that every scheme
// that belongs in the answer is met whatever the order.
type search struct {
	m     *model
	pool  *pool
	trace Tracer
	crowd int // parts kept open; beyond it workers search depth first

	mu     sync.Mutex
	wake   *sync.Cond
	open   nodes
	active []cost // bound of what each worker is busy with, never if idle
	busy   int
	seq    int64
	nodes  int64
	most   int64 // parts to look at, 0 all
	stop   bool  // cancelled
}

// Solve searches for the best schemes of a problem. It returns an error only
// for a malformed problem. When ctx ends it returns the best schemes found so
// far with what is proved about them.
func Solve(ctx context.Context, p *Problem, o Options) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	m := newModel(p)
	m.leaveOut(o.Except)
	s := newSearch(m, max(o.Schemes, 1))
	s.trace, s.most = o.Trace, o.Nodes
	if o.AtMost != nil {
		s.pool.limit.Store(min(m.limit, m.ceiling(*o.AtMost)))
	}
	s.run(ctx, o.Workers)
	return s.result(), nil
}

func newSearch(m *model, schemes int) *search {
	return &search{m: m, pool: newPool(m, schemes), crowd: maxOpen}
}

// feasible looks for any scheme, whatever it costs, in so many parts of the
// search tree; 0 is as many as it takes.
func feasible(ctx context.Context, p *Problem, nodes int64) (Result, error) {
	if err := p.Check(); err != nil {
		return Result{}, err
	}
	s := newSearch(newModel(p), 1)
	s.pool.first, s.most = true, nodes
	s.run(ctx, 1)
	return s.result(), nil
}

func (s *search) run(ctx context.Context, workers int) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	s.wake = sync.NewCond(&s.mu)
	s.open = nodes{{dom: s.m.start(), form: s.m.forms()}}
	s.active = make([]cost, workers)
	for w := range s.active {
		s.active[w] = never
	}
	end := context.AfterFunc(ctx, func() {
		s.mu.Lock()
		s.stop = true
		s.wake.Broadcast()
		s.mu.Unlock()
	})
	defer end()
	var group sync.WaitGroup
	for w := range workers {
		group.Add(1)
		go func() {
			defer group.Done()
			s.work(w)
		}()
	}
	group.Wait()
}

// work takes open parts until there are none.
func (s *search) work(w int) {
	var d *dive
	for {
		n := s.take(w)
		if n == nil {
			return
		}
		if d == nil {
			d = newDive(s, w)
		}
		rest := d.run(n)
		s.done(w, rest)
	}
}

// take waits for an open part; nil when the search is over.
func (s *search) take(w int) *node {
	s.mu.Lock()
	defer s.mu.Unlock()
	for {
		if s.stop {
			return nil
		}
		for len(s.open) > 0 {
			n := heap.Pop(&s.open).(*node)
			if n.bound > s.pool.limit.Load() {
				s.open = nil // the others are no better
				break
			}
			s.active[w] = n.bound
			s.busy++
			return n
		}
		if s.busy == 0 {
			s.wake.Broadcast()
			return nil
		}
		s.wake.Wait()
	}
}

// done ends a dive; rest is the least bound of what was left undone because
// the search was stopped, never if nothing was.
func (s *search) done(w int, rest cost) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.busy--
	s.active[w] = rest
	if s.busy == 0 && len(s.open) == 0 {
		s.wake.Broadcast()
	}
}

// leave opens parts for whoever comes first.
func (s *search) leave(parts []*node) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, n := range parts {
		s.seq++
		n.seq = s.seq
		heap.Push(&s.open, n)
		s.wake.Signal()
	}
}

// count notes one more part looked at, and reports whether to go on and
// whether many parts are open.
func (s *search) count(w int, bound cost) (on, crowded bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.nodes++
	s.stop = s.stop || s.most > 0 && s.nodes >= s.most
	if s.trace != nil && s.nodes%traceEvery == 0 {
		s.report()
	}
	return !s.stop, len(s.open) > s.crowd
}

const traceEvery = 64

// report tells the tracer; the lock is held.
func (s *search) report() {
	p := Progress{Nodes: s.nodes, Bound: s.m.price(s.bound())}
	s.pool.mu.Lock()
	if p.Found = len(s.pool.found); p.Found > 0 {
		p.Best = s.m.price(s.pool.found[0].cost)
	}
	s.pool.mu.Unlock()
	s.trace.Progress(p)
}

// bound is below every scheme not yet met; the lock is held.
func (s *search) bound() cost {
	b := s.pool.limit.Load()
	if len(s.open) > 0 {
		b = min(b, s.open[0].bound)
	}
	for _, a := range s.active {
		b = min(b, a)
	}
	return b
}

// cheapest is the cost of the best scheme in hand, or what none was to exceed.
func (s *search) cheapest() cost {
	if len(s.pool.found) > 0 {
		return s.pool.found[0].cost
	}
	return min(s.pool.limit.Load(), never-1)
}

func (s *search) result() Result {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := Result{Nodes: s.nodes}
	over := len(s.open) == 0
	for _, a := range s.active {
		over = over && a == never
	}
	least := never
	if !over {
		least = s.bound()
		if len(s.open) > 0 {
			least = min(least, s.open[0].bound)
		}
	}
	r.Bound = s.m.price(min(s.cheapest(), least))
	all := true
	finish := newCompletion(s.m)
	for i := range s.pool.found {
		sol := s.m.solution(finish, &s.pool.found[i])
		sol.Bound = sol.Price
		if !over && s.pool.found[i].cost > least {
			if b := s.m.price(least); b.Less(sol.Price) {
				sol.Bound = b
			}
		}
		sol.Proved = sol.Bound == sol.Price
		all = all && sol.Proved
		r.Solutions = append(r.Solutions, sol)
	}
	all = all && (over || len(r.Solutions) == s.pool.size)
	switch {
	case len(r.Solutions) == 0 && over:
		r.Status = Infeasible
	case len(r.Solutions) == 0:
		r.Status = Unknown
	case all:
		r.Status = Proved
	default:
		r.Status = Bounded
	}
	r.Complete = over && len(r.Solutions) < s.pool.size
	if s.trace != nil {
		s.report()
	}
	return r
}
