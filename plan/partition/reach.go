package partition

// reach holds what one unit can still reach indoors; its slices are reused.
type reach struct {
	m     *model
	dist  []cost // least price of the doors between the root and a cell
	done  []bool
	heap  []step
	order []int // through cells in the order of a depth-first search
	disc  []int // position in order, -1 where not reached
	low   []int
	head  []int // the last cell before it that every way from the root passes
	depth []int // number of such cells
	stack []int
	live  []bool // ground reached from the public way over open links
	comp  []int
	must  []bool
}

type step struct {
	at   cost
	cell int
}

func (r *reach) init(m *model) {
	r.m = m
	r.dist = make([]cost, m.n)
	r.done = make([]bool, m.n)
	r.disc = make([]int, m.n)
	r.low = make([]int, m.n)
	r.head = make([]int, m.n)
	r.depth = make([]int, m.n)
	r.live = make([]bool, m.n)
	r.comp = make([]int, m.n)
	r.must = make([]bool, m.n)
}

// doorShare is the part of a door's price that one unit surely bears: half
// where both units might still share the door.
func (s *state) doorShare(link int) cost {
	l := &s.m.links[link]
	if s.dom[l.U]&s.dom[l.V]&(1<<Common) != 0 {
		return s.m.door[link] / 2
	}
	return s.m.door[link]
}

// spread fills dist with the least price of doors from root to each indoor
// cell that unit u may still have (Dijkstra).
func (s *state) spread(u, root int) {
	r := &s.reach
	for c := range r.dist {
		r.dist[c] = never
		r.done[c] = false
	}
	r.dist[root] = 0
	r.heap = append(r.heap[:0], step{0, root})
	for len(r.heap) > 0 {
		c := r.pop().cell
		if r.done[c] {
			continue
		}
		r.done[c] = true
		for _, h := range s.m.thru[c] {
			if !mayBe(s.dom[h.to], u) || r.done[h.to] || s.dead(h.to) {
				continue
			}
			if d := r.dist[c] + s.doorShare(h.link); d < r.dist[h.to] {
				r.dist[h.to] = d
				r.push(step{d, h.to})
			}
		}
	}
	for _, c := range s.m.deads {
		if !s.dead(c) || !mayBe(s.dom[c], u) {
			continue
		}
		for _, h := range s.m.into[c] {
			if mayBe(s.dom[h.to], u) && s.m.leads(h, s.form) && r.dist[h.to] != never {
				r.dist[c] = min(r.dist[c], r.dist[h.to]+s.doorShare(h.link))
			}
		}
	}
}

func (r *reach) push(x step) {
	h := append(r.heap, x)
	i := len(h) - 1
	for i > 0 && x.at < h[(i-1)/2].at {
		h[i] = h[(i-1)/2]
		i = (i - 1) / 2
	}
	h[i] = x
	r.heap = h
}

func (r *reach) pop() step {
	h := r.heap
	top, x := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	r.heap = h
	for i := 0; len(h) > 0; {
		k := 2*i + 1
		if k+1 < len(h) && h[k+1].at < h[k].at {
			k++
		}
		if k >= len(h) || h[k].at >= x.at {
			h[i] = x
			break
		}
		h[i] = h[k]
		i = k
	}
	return top
}

// passes fills head and depth: for each through cell that unit u may have and
// that is reached from root, the nearest other cell that every way to it
// passes (the dominator tree of an undirected graph, from its biconnected
// components: Hopcroft and Tarjan 1973).
func (s *state) passes(u, root int) {
	r := &s.reach
	for c := range r.disc {
		r.disc[c] = -1
		r.head[c] = -1
		r.depth[c] = 0
	}
	r.order = r.order[:0]
	r.stack = r.stack[:0]
	s.visit(u, root, -1)
	for _, c := range r.order {
		if c != root {
			r.depth[c] = r.depth[r.head[c]] + 1
		}
	}
}

func (s *state) visit(u, c, parent int) {
	r := &s.reach
	r.disc[c] = len(r.order)
	r.low[c] = r.disc[c]
	r.order = append(r.order, c)
	r.stack = append(r.stack, c)
	for _, h := range s.m.thru[c] {
		if !mayBe(s.dom[h.to], u) || h.to == parent || s.dead(h.to) {
			continue
		}
		if r.disc[h.to] >= 0 {
			r.low[c] = min(r.low[c], r.disc[h.to])
			continue
		}
		s.visit(u, h.to, c)
		r.low[c] = min(r.low[c], r.low[h.to])
		if r.low[h.to] >= r.disc[c] { // c cuts off all that was stacked since
			for {
				top := r.stack[len(r.stack)-1]
				r.stack = r.stack[:len(r.stack)-1]
				r.head[top] = c
				if top == h.to {
					break
				}
			}
		}
	}
}

// meet is the nearest cell that every way to a and every way to b passes, or
// one of them. -1 stands for nothing yet.
func (r *reach) meet(a, b int) int {
	if a < 0 {
		return b
	}
	for a != b {
		if r.depth[a] < r.depth[b] {
			a, b = b, a
		}
		a = r.head[a]
	}
	return a
}

// walk marks in live the ground that unit u may still reach from the public
// way over open links without setting foot on the cell barred (-1: none).
func (s *state) walk(u, barred int) {
	r := &s.reach
	clear(r.live)
	r.stack = r.stack[:0]
	for c, k := range s.m.kind {
		if k == publicCell {
			r.live[c] = true
			r.stack = append(r.stack, c)
		}
	}
	for len(r.stack) > 0 {
		c := r.stack[len(r.stack)-1]
		r.stack = r.stack[:len(r.stack)-1]
		for _, h := range s.m.incid[c] {
			if !r.live[h.to] && h.to != barred && s.m.links[h.link].Open && s.m.cells[h.to].ground() && mayBe(s.dom[h.to], u) {
				r.live[h.to] = true
				r.stack = append(r.stack, h.to)
			}
		}
	}
}
