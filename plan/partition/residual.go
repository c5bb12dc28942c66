package partition

// residual is what is left of a cut's network after its flow: the nodes that
// are not yet tied to an end, with the capacities left between them and to the
// two ends. On it the rise of the minimum cut by one more label is found fast.
// The nodes of a cell that cannot be common are one.
type residual struct {
	k     *cut
	at    []int32 // the cut's node -> this one's, tiedA or tiedB for the ends
	cell  []int32 // cell of a node
	first []int32
	arcs  []arc
	ends  []cost // capacity left from A's end (> 0) or to B's end (< 0)

	undoArcs []arcUndo
	undoEnds []endUndo
	seen     []int32
	stamp    int32
	level    []int32
	next     []int32 // per node: the next arc to try
	queue    []int32
	count    []int32
}

type arc struct {
	to, twin int32
	left     cost
}

type arcUndo struct {
	at  int32
	was cost
}

type endUndo struct {
	at  int32
	was cost
}

const (
	tiedA = -1
	tiedB = -2
)

func newResidual(k *cut) *residual {
	nodes := len(k.term)
	return &residual{k: k, at: make([]int32, nodes), cell: make([]int32, 0, nodes),
		first: make([]int32, nodes+1), arcs: make([]arc, 0, len(k.to)), ends: make([]cost, 0, nodes),
		seen: make([]int32, nodes), level: make([]int32, nodes), next: make([]int32, nodes), count: make([]int32, nodes+1)}
}

// load takes over the cut's present flow.
func (r *residual) load() {
	k := r.k
	r.cell, r.ends, r.arcs = r.cell[:0], r.ends[:0], r.arcs[:0]
	tie := func(node int) int32 {
		switch {
		case k.term[node] > never/2:
			return tiedA
		case k.term[node] < -never/2:
			return tiedB
		}
		r.cell = append(r.cell, 0)
		return int32(len(r.cell) - 1)
	}
	for c, p := range k.p {
		if p < 0 {
			continue
		}
		r.at[p] = tie(p)
		if r.at[p] >= 0 {
			r.cell[r.at[p]] = int32(c)
		}
		q := k.q[c]
		if q == p {
			continue
		}
		if k.dom[c]&(1<<Common) == 0 {
			r.at[q] = r.at[p]
			continue
		}
		r.at[q] = tie(q)
		if r.at[q] >= 0 {
			r.cell[r.at[q]] = int32(c)
		}
	}
	n := len(r.cell)
	r.ends = append(r.ends, make([]cost, n)...)
	count := r.count[:n+1]
	clear(count)
	for u := range k.term {
		i := r.at[u]
		if i < 0 {
			continue
		}
		r.ends[i] += k.term[u]
		for a := k.first[u]; a < k.first[u+1]; a++ {
			switch j := r.at[k.to[a]]; {
			case j == tiedB:
				r.ends[i] -= k.left[a]
			case j == tiedA:
				r.ends[i] += k.left[k.twin[a]]
			case j != i && (k.left[a] > 0 || k.left[k.twin[a]] > 0):
				count[i]++
			}
		}
	}
	r.first = r.first[:n+1]
	sum := int32(0)
	for i := range n {
		r.first[i] = sum
		sum += count[i]
		count[i] = r.first[i]
	}
	r.first[n] = sum
	r.arcs = r.arcs[:sum]
	for u := range k.term {
		i := r.at[u]
		if i < 0 {
			continue
		}
		for a := k.first[u]; a < k.first[u+1]; a++ {
			j := r.at[k.to[a]]
			if t := k.twin[a]; j >= 0 && j != i && a < t && (k.left[a] > 0 || k.left[t] > 0) {
				x, y := count[i], count[j]
				count[i]++
				count[j]++
				r.arcs[x] = arc{j, y, k.left[a]}
				r.arcs[y] = arc{i, x, k.left[t]}
			}
		}
	}
}

// rise returns by how much the minimum cut rises, at least, when the cell's
// labels are reduced to l; the exact rise unless it is above stop. The cells
// whose labels may be others then are marked in touched.
func (r *residual) rise(c int, l Label, stop cost, touched []uint64) cost {
	k := r.k
	p, q := r.at[k.p[c]], r.at[k.q[c]]
	var sum cost
	switch l {
	case A:
		sum = r.forward(q, stop, touched)
	case B:
		sum = r.backward(p, stop, touched)
	case Common:
		if sum = r.forward(p, stop, touched); sum <= stop {
			if p >= 0 {
				r.setEnd(p, never)
			}
			sum += r.backward(q, stop-sum, touched)
		}
		for i := range touched { // the second search may change what the first has seen
			touched[i] = ^uint64(0)
		}
	}
	for i := len(r.undoArcs) - 1; i >= 0; i-- {
		r.arcs[r.undoArcs[i].at].left = r.undoArcs[i].was
	}
	for i := len(r.undoEnds) - 1; i >= 0; i-- {
		r.ends[r.undoEnds[i].at] = r.undoEnds[i].was
	}
	r.undoArcs, r.undoEnds = r.undoArcs[:0], r.undoEnds[:0]
	return sum
}

// offers returns what the rise by label l of cell c cannot exceed: the
// capacity left on the arcs of its node alone.
func (r *residual) offers(c int, l Label) (sum cost) {
	k := r.k
	p, q := r.at[k.p[c]], r.at[k.q[c]]
	if l != B {
		node := q
		if l == Common {
			node = p
		}
		if node >= 0 {
			sum += max(0, -r.ends[node])
			for a := r.first[node]; a < r.first[node+1]; a++ {
				sum += min(r.arcs[a].left, never/8)
			}
		}
	}
	if l != A {
		node := p
		if l == Common {
			node = q
		}
		if node >= 0 {
			sum += max(0, r.ends[node])
			for a := r.first[node]; a < r.first[node+1]; a++ {
				sum += min(r.arcs[r.arcs[a].twin].left, never/8)
			}
		}
	}
	return min(sum, never)
}

// forward sends what it can from node to B's end, up to a little more than
// stop: blocking flows on the graph of levels from node (Dinic 1970), with an
// end at every node that has capacity left to it.
func (r *residual) forward(node int32, stop cost, touched []uint64) cost {
	if node == tiedA {
		return 0
	}
	if node == tiedB {
		return never
	}
	var sum cost
	if e := r.ends[node]; e < 0 {
		sum = -e
		r.setEnd(node, 0)
	}
	for sum <= stop {
		if !r.levels(node, stop-sum+1, true) {
			r.touch(touched)
			return sum
		}
		sum += r.send(node, stop-sum+1, true)
	}
	return sum
}

// backward sends what it can from A's end to node.
func (r *residual) backward(node int32, stop cost, touched []uint64) cost {
	if node == tiedB {
		return 0
	}
	if node == tiedA {
		return never
	}
	var sum cost
	if e := r.ends[node]; e > 0 {
		sum = e
		r.setEnd(node, 0)
	}
	for sum <= stop {
		if !r.levels(node, stop-sum+1, false) {
			r.touch(touched)
			return sum
		}
		sum += r.send(node, stop-sum+1, false)
	}
	return sum
}

// levels fills in the distances from node, over arcs with capacity left in
// (or against) their direction, until the ends seen offer plenty for need. It
// reports whether any end was seen.
func (r *residual) levels(node int32, need cost, ahead bool) bool {
	r.stamp++
	r.seen[node] = r.stamp
	r.level[node] = 0
	r.next[node] = r.first[node]
	r.queue = append(r.queue[:0], node)
	var seen cost
	plenty := min(need, never/8) * 2
	deepest := int32(1 << 30)
	for i := 0; i < len(r.queue); i++ {
		u := r.queue[i]
		if r.level[u] >= deepest {
			break
		}
		for a := r.first[u]; a < r.first[u+1]; a++ {
			v := r.arcs[a].to
			if r.seen[v] == r.stamp {
				continue
			}
			var left, end cost
			if ahead {
				left, end = r.arcs[a].left, -r.ends[v]
			} else {
				left, end = r.arcs[r.arcs[a].twin].left, r.ends[v]
			}
			if left == 0 {
				continue
			}
			r.seen[v] = r.stamp
			r.level[v] = r.level[u] + 1
			r.next[v] = r.first[v]
			r.queue = append(r.queue, v)
			if end > 0 {
				if seen += min(end, left, plenty); seen >= plenty && deepest > r.level[v] {
					deepest = r.level[v]
				}
			}
		}
	}
	return seen > 0
}

// send sends up to x from u along rising levels; it returns how much arrived.
func (r *residual) send(u int32, x cost, ahead bool) cost {
	var sent cost
	if e := r.ends[u]; ahead && e < 0 {
		sent = min(x, -e)
		r.setEnd(u, e+sent)
	} else if !ahead && e > 0 {
		sent = min(x, e)
		r.setEnd(u, e-sent)
	}
	for ; r.next[u] < r.first[u+1]; r.next[u]++ {
		if sent == x {
			return sent
		}
		a := r.next[u]
		v := r.arcs[a].to
		if r.seen[v] != r.stamp || r.level[v] != r.level[u]+1 {
			continue
		}
		if !ahead {
			a = r.arcs[a].twin
		}
		left := r.arcs[a].left
		if left == 0 {
			continue
		}
		part := r.send(v, min(x-sent, left), ahead)
		if part == 0 {
			continue
		}
		t := r.arcs[a].twin
		r.undoArcs = append(r.undoArcs, arcUndo{a, r.arcs[a].left}, arcUndo{t, r.arcs[t].left})
		r.arcs[a].left -= part
		r.arcs[t].left += part
		sent += part
		if sent == x {
			return sent // the arc may have capacity left
		}
	}
	return sent
}

func (r *residual) setEnd(node int32, x cost) {
	r.undoEnds = append(r.undoEnds, endUndo{node, r.ends[node]})
	r.ends[node] = x
}

func (r *residual) touch(touched []uint64) {
	for _, v := range r.queue {
		c := r.cell[v]
		touched[c>>6] |= 1 << (c & 63)
	}
}
