package partition

// residual is what is left of a cut's network after its flow: the nodes that
// are not yet tied to an end, with the capacities left between them and to the
// two ends. On it the rise of the minimum cut by one more label is found fast.
// The nodes of a cell that cannot be common are one.
type residual struct {
	network
	k     *cut
	at    []int32 // the cut's node -> this one's, tiedA or tiedB for the ends
	cell  []int32 // cell of a node
	count []int32
}

const (
	tiedA = -1
	tiedB = -2
)

func newResidual(k *cut) *residual {
	nodes := len(k.ends)
	r := &residual{k: k, at: make([]int32, nodes), cell: make([]int32, 0, nodes), count: make([]int32, nodes+1)}
	r.first = make([]int32, nodes+1)
	r.arcs = make([]arc, 0, len(k.arcs))
	r.ends = make([]cost, 0, nodes)
	r.grow(nodes)
	return r
}

// load takes over the cut's present flow.
func (r *residual) load() {
	k := r.k
	r.cell, r.ends, r.arcs = r.cell[:0], r.ends[:0], r.arcs[:0]
	tie := func(node int32) int32 {
		switch {
		case k.ends[node] > never/2:
			return tiedA
		case k.ends[node] < -never/2:
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
	for u := range k.ends {
		i := r.at[u]
		if i < 0 {
			continue
		}
		r.ends[i] += k.ends[u]
		for a := k.first[u]; a < k.first[u+1]; a++ {
			switch j := r.at[k.arcs[a].to]; {
			case j == tiedB:
				r.ends[i] -= k.arcs[a].left
			case j == tiedA:
				r.ends[i] += k.arcs[k.arcs[a].twin].left
			case j != i && (k.arcs[a].left > 0 || k.arcs[k.arcs[a].twin].left > 0):
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
	for u := range k.ends {
		i := r.at[u]
		if i < 0 {
			continue
		}
		for a := k.first[u]; a < k.first[u+1]; a++ {
			j := r.at[k.arcs[a].to]
			if t := k.arcs[a].twin; j >= 0 && j != i && a < t && (k.arcs[a].left > 0 || k.arcs[t].left > 0) {
				x, y := count[i], count[j]
				count[i]++
				count[j]++
				r.arcs[x] = arc{j, y, k.arcs[a].left}
				r.arcs[y] = arc{i, x, k.arcs[t].left}
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
	r.back(0)
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

// forward sends what it can from node to the B end, up to a little more than
// stop.
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
	}
	if sum <= stop {
		sum += r.push(node, stop-sum+1, true)
	}
	if sum <= stop {
		r.touch(touched)
	}
	return sum
}

// backward sends what it can from the A end to node.
func (r *residual) backward(node int32, stop cost, touched []uint64) cost {
	if node == tiedB {
		return 0
	}
	if node == tiedA {
		return never
	}
	sum := max(0, r.ends[node])
	if sum <= stop {
		sum += r.push(node, stop-sum+1, false)
	}
	if sum <= stop {
		r.touch(touched)
	}
	return sum
}

func (r *residual) touch(touched []uint64) {
	for _, v := range r.queue {
		c := r.cell[v]
		touched[c>>6] |= 1 << (c & 63)
	}
}
