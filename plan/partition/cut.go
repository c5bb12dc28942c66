package partition

import "slices"

// cut bounds the price of the labels from below by a minimum cut. Each cell
// that may be common has two nodes, p ("is the A unit's") and q ("is not the B
// unit's"), others have one; an arc that cannot be cut keeps q from being true
// without p. A's alone is (1,1), common (1,0), B's alone (0,0). Prices of
// labels and of links that part are then capacities (Kolmogorov and Zabih,
// What Energy Functions Can Be Minimized via Graph Cuts, 2004). Where Sep is
// less than twice SepCommon the excess of SepCommon over half of Sep is not
// such a function; it is added once one end is known to be common or not.
//
// The flow is only ever augmented while labels are taken away, and a journal
// restores it on the way back.
type cut struct {
	network
	m    *model
	p, q []int32 // nodes of a cell, -1 for public cells
	bar  []int32 // per cell: the arc from p to q, -1
	dom  []LabelSet
	rest [][]spare // per cell: links whose excess is not in the arcs
	doms []domChange

	value cost
	press [2]cost // what a unit of area costs in A, in B, beyond its price
	loose bool    // capacities have grown that no flow uses yet
}

// spare is an excess that is due where exactly one of two cells is common.
type spare struct {
	to  int
	due cost
}

type domChange struct {
	cell int
	was  LabelSet
}

func newCut(m *model) *cut {
	k := &cut{m: m, dom: make([]LabelSet, m.n), rest: make([][]spare, m.n)}
	nodes := int32(0)
	for c := range m.cells {
		k.p, k.q, k.bar = append(k.p, -1), append(k.q, -1), append(k.bar, -1)
		if m.kind[c] == publicCell {
			continue
		}
		k.p[c], k.q[c] = nodes, nodes
		nodes++
		if m.cells[c].Allowed&(1<<Common) != 0 {
			k.q[c] = nodes
			nodes++
		}
	}
	k.ends = make([]cost, nodes)
	k.grow(int(nodes))
	k.build(int(nodes))
	for c := range m.cells {
		if k.p[c] < 0 {
			continue
		}
		k.dom[c] = Any
		if k.p[c] == k.q[c] {
			k.dom[c] = 1<<A | 1<<B
		}
		k.add(k.q[c], -m.own[c][A])
		k.add(k.p[c], m.own[c][B])
	}
	k.flow()
	return k
}

// build lays out the arcs; parallel ones are joined.
func (k *cut) build(nodes int) {
	m := k.m
	weight := map[[2]int32]cost{}
	var pairs [][2]int32
	join := func(u, v int32, w cost) {
		if w == 0 || u == v {
			return
		}
		if weight[[2]int32{u, v}] == 0 && weight[[2]int32{v, u}] == 0 {
			pairs = append(pairs, [2]int32{u, v})
		}
		weight[[2]int32{u, v}] += w
	}
	for c := range m.cells {
		if k.p[c] != k.q[c] {
			join(k.q[c], k.p[c], never)
			join(k.p[c], k.q[c], m.own[c][Common])
		}
	}
	for i := range m.links {
		u, v := m.links[i].U, m.links[i].V
		if k.p[u] < 0 || k.p[v] < 0 {
			continue
		}
		half := min(m.sepc[i], m.sep[i]/2)
		for _, e := range [2][2]int{{u, v}, {v, u}} {
			join(k.p[e[0]], k.p[e[1]], half)
			join(k.q[e[0]], k.q[e[1]], half)
			join(k.q[e[0]], k.p[e[1]], m.sep[i]-2*half)
		}
		due := m.sepc[i] - half
		switch openU, openV := k.p[u] != k.q[u], k.p[v] != k.q[v]; {
		case due == 0:
		case openU && openV:
			k.rest[u] = append(k.rest[u], spare{v, due})
			k.rest[v] = append(k.rest[v], spare{u, due})
		case openU:
			join(k.p[u], k.q[u], due)
		case openV:
			join(k.p[v], k.q[v], due)
		}
	}
	k.first = make([]int32, nodes+1)
	for _, e := range pairs {
		k.first[e[0]+1]++
		k.first[e[1]+1]++
	}
	for i := range nodes {
		k.first[i+1] += k.first[i]
	}
	k.arcs = make([]arc, 2*len(pairs))
	place := slices.Clone(k.first)
	for _, e := range pairs {
		a, b := place[e[0]], place[e[1]]
		place[e[0]]++
		place[e[1]]++
		k.arcs[a] = arc{e[1], b, weight[e]}
		k.arcs[b] = arc{e[0], a, weight[[2]int32{e[1], e[0]}]}
	}
	for c := range m.cells {
		if k.p[c] == k.q[c] {
			continue
		}
		for a := k.first[k.p[c]]; a < k.first[k.p[c]+1]; a++ {
			if k.arcs[a].to == k.q[c] {
				k.bar[c] = a
			}
		}
	}
}

// add gives a node more capacity from the source (x > 0) or to the sink
// (x < 0); what goes straight through is flow.
func (k *cut) add(node int32, x cost) {
	was := k.ends[node]
	if was > 0 && x < 0 {
		k.value += min(was, -x)
	} else if was < 0 && x > 0 {
		k.value += min(-was, x)
	}
	k.setEnd(node, was+x)
	k.loose = true
}

// flow brings the value up to the minimum cut.
func (k *cut) flow() {
	if k.loose && k.value < never {
		k.value += k.settle(never)
		k.loose = false
	}
}

// mark is a point to which rewind returns.
type mark struct {
	length, doms int
	value        cost
	press        [2]cost
}

func (k *cut) mark() mark {
	k.flow()
	return mark{len(k.journal), len(k.doms), k.value, k.press}
}

func (k *cut) rewind(m mark) {
	k.back(m.length)
	for i := len(k.doms) - 1; i >= m.doms; i-- {
		k.dom[k.doms[i].cell] = k.doms[i].was
	}
	k.doms = k.doms[:m.doms]
	k.value, k.press, k.loose = m.value, m.press, false
}

// sync takes over the labels left to cell c; flow is to follow. The value
// reaches never where the labels contradict each other.
func (k *cut) sync(c int, dom LabelSet) {
	if k.p[c] < 0 || k.dom[c]&dom == k.dom[c] || k.value >= never {
		return
	}
	was := k.dom[c]
	k.doms = append(k.doms, domChange{c, was})
	k.dom[c] = was & dom
	k.force(c, k.dom[c])
	if len(k.rest[c]) == 0 || commonness(was) == commonness(k.dom[c]) {
		return
	}
	for _, r := range k.rest[c] {
		if commonness(k.dom[r.to]) != 0 {
			continue
		}
		if commonness(k.dom[c]) > 0 { // due unless the other is common, too
			k.add(k.q[r.to], -r.due)
			k.add(k.p[r.to], r.due)
		} else {
			k.widen(r.to, r.due)
		}
	}
}

// commonness is 1 for a cell that is common, -1 for one that is not, 0 where
// that is open.
func commonness(dom LabelSet) int {
	switch {
	case dom == 1<<Common:
		return 1
	case dom&(1<<Common) == 0:
		return -1
	}
	return 0
}

// force makes labels outside dom impossible in the cut.
func (k *cut) force(c int, dom LabelSet) {
	p, q := k.p[c], k.q[c]
	switch dom {
	case 1 << A:
		k.hold(q, never)
		k.hold(p, never)
	case 1 << B:
		k.hold(p, -never)
		k.hold(q, -never)
	case 1 << Common:
		k.hold(p, never)
		k.hold(q, -never)
	case 1<<A | 1<<Common:
		k.hold(p, never)
	case 1<<B | 1<<Common:
		k.hold(q, -never)
	case 1<<A | 1<<B:
		k.widen(c, never)
	}
}

func (k *cut) hold(node int32, x cost) {
	if x > 0 && k.ends[node] < never/2 || x < 0 && k.ends[node] > -never/2 {
		k.add(node, x)
	}
}

// widen makes it dearer by x that cell c is common.
func (k *cut) widen(c int, x cost) {
	a := k.bar[c]
	if a < 0 || k.arcs[a].left >= never/2 {
		return
	}
	k.journal = append(k.journal, change{a, k.arcs[a].left})
	k.arcs[a].left += x
	k.loose = true
}

// labels fills in the labels of a minimum cut: as few cells as possible are
// A's. Public cells are common.
func (k *cut) labels(into []Label) {
	k.begin()
	for node, e := range k.ends {
		if e > 0 {
			k.start(int32(node))
		}
	}
	k.levels(never, true)
	for c := range into {
		switch {
		case k.p[c] < 0:
			into[c] = Common
		case k.seen[k.q[c]] == k.stamp:
			into[c] = A
		case k.seen[k.p[c]] == k.stamp:
			into[c] = Common
		default:
			into[c] = B
		}
	}
}

// owned marks the cells that some minimum cut gives to unit u, alone or in
// common.
func (k *cut) owned(u int, into []bool) {
	k.begin()
	for node, e := range k.ends {
		if u == int(A) && e < 0 || u == int(B) && e > 0 {
			k.start(int32(node))
		}
	}
	k.levels(never, u == int(B))
	for c := range into {
		node := k.p[c]
		if u == int(B) {
			node = k.q[c]
		}
		into[c] = node < 0 || k.seen[node] != k.stamp
	}
}
