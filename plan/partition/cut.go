package partition

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
	m     *model
	p, q  []int // nodes of a cell, -1 for public cells
	first []int // per node: its arcs in to, twin, left
	to    []int
	twin  []int
	left  []cost // capacity left
	term  []cost // per node: capacity left from the source (> 0) or to the sink (< 0)
	bar   []int  // per cell: the arc from p to q, -1
	dom   []LabelSet
	rest  [][]spare // per cell: links whose excess is not in the arcs

	value   cost
	press   [2]cost // what a unit of area costs in A, in B, beyond its price
	stop    cost    // no more is augmented once the value is above
	journal []change

	seen  []int
	dead  []int
	stamp int
	from  []int // arc by which a node was found
	queue []int
}

// spare is an excess that is due where exactly one of two cells is common.
type spare struct {
	to  int
	due cost
}

// change is an old value: of an arc's capacity, a node's, or a cell's labels.
type change struct {
	what changed
	at   int
	was  cost
}

type changed uint8

const (
	changedArc changed = iota
	changedNode
	changedCell
)

func newCut(m *model) *cut {
	k := &cut{m: m, stop: never, dom: make([]LabelSet, m.n), rest: make([][]spare, m.n)}
	nodes := 0
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
	k.term = make([]cost, nodes)
	k.seen = make([]int, nodes)
	k.dead = make([]int, nodes)
	k.from = make([]int, nodes)
	k.build(nodes)
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
	k.settle()
	k.journal = k.journal[:0]
	return k
}

// build lays out the arcs; parallel ones are joined.
func (k *cut) build(nodes int) {
	m := k.m
	weight := map[[2]int]cost{}
	var pairs [][2]int
	arc := func(u, v int, w cost) {
		if w == 0 || u == v {
			return
		}
		if weight[[2]int{u, v}] == 0 && weight[[2]int{v, u}] == 0 {
			pairs = append(pairs, [2]int{u, v})
		}
		weight[[2]int{u, v}] += w
	}
	for c := range m.cells {
		if k.p[c] != k.q[c] {
			arc(k.q[c], k.p[c], never)
			arc(k.p[c], k.q[c], m.own[c][Common])
		}
	}
	for i := range m.links {
		u, v := m.links[i].U, m.links[i].V
		if k.p[u] < 0 || k.p[v] < 0 {
			continue
		}
		half := min(m.sepc[i], m.sep[i]/2)
		for _, e := range [2][2]int{{u, v}, {v, u}} {
			arc(k.p[e[0]], k.p[e[1]], half)
			arc(k.q[e[0]], k.q[e[1]], half)
			arc(k.q[e[0]], k.p[e[1]], m.sep[i]-2*half)
		}
		due := m.sepc[i] - half
		switch openU, openV := k.p[u] != k.q[u], k.p[v] != k.q[v]; {
		case due == 0:
		case openU && openV:
			k.rest[u] = append(k.rest[u], spare{v, due})
			k.rest[v] = append(k.rest[v], spare{u, due})
		case openU:
			arc(k.p[u], k.q[u], due)
		case openV:
			arc(k.p[v], k.q[v], due)
		}
	}
	count := make([]int, nodes+1)
	for _, e := range pairs {
		count[e[0]+1]++
		count[e[1]+1]++
	}
	for i := range nodes {
		count[i+1] += count[i]
	}
	k.first = append([]int{}, count...)
	k.to = make([]int, 2*len(pairs))
	k.twin = make([]int, 2*len(pairs))
	k.left = make([]cost, 2*len(pairs))
	place := count[:nodes]
	for _, e := range pairs {
		a, b := place[e[0]], place[e[1]]
		place[e[0]]++
		place[e[1]]++
		k.to[a], k.to[b] = e[1], e[0]
		k.twin[a], k.twin[b] = b, a
		k.left[a], k.left[b] = weight[e], weight[[2]int{e[1], e[0]}]
	}
	for c := range m.cells {
		if k.p[c] == k.q[c] {
			continue
		}
		for a := k.first[k.p[c]]; a < k.first[k.p[c]+1]; a++ {
			if k.to[a] == k.q[c] {
				k.bar[c] = a
			}
		}
	}
}

// add gives a node more capacity from the source (x > 0) or to the sink
// (x < 0); what goes straight through is flow.
func (k *cut) add(node int, x cost) {
	was := k.term[node]
	k.journal = append(k.journal, change{changedNode, node, was})
	if was > 0 && x < 0 {
		k.value += min(was, -x)
	} else if was < 0 && x > 0 {
		k.value += min(-was, x)
	}
	k.term[node] = was + x
}

// mark is a point to which back returns.
type mark struct {
	length int
	value  cost
	press  [2]cost
}

func (k *cut) mark() mark { return mark{len(k.journal), k.value, k.press} }

func (k *cut) back(m mark) {
	for i := len(k.journal) - 1; i >= m.length; i-- {
		switch c := &k.journal[i]; c.what {
		case changedArc:
			k.left[c.at] = c.was
		case changedNode:
			k.term[c.at] = c.was
		default:
			k.dom[c.at] = LabelSet(c.was)
		}
	}
	k.journal = k.journal[:m.length]
	k.value, k.press = m.value, m.press
}

// sync takes over the labels left to cell c, and augments the flow. The value
// reaches never where the labels contradict each other.
func (k *cut) sync(c int, dom LabelSet) {
	if k.p[c] < 0 || k.dom[c]&dom == k.dom[c] || k.value >= never {
		return
	}
	was := k.dom[c]
	k.journal = append(k.journal, change{changedCell, c, cost(was)})
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
			k.push(k.q[r.to])
			k.add(k.p[r.to], r.due)
			k.push(k.p[r.to])
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

func (k *cut) hold(node int, x cost) {
	if x > 0 && k.term[node] < never/2 || x < 0 && k.term[node] > -never/2 {
		k.add(node, x)
		k.push(node)
	}
}

// widen makes it dearer by x that cell c is common.
func (k *cut) widen(c int, x cost) {
	a := k.bar[c]
	if a < 0 || k.left[a] >= never/2 {
		return
	}
	k.journal = append(k.journal, change{changedArc, a, k.left[a]})
	k.left[a] += x
	k.settle()
}

// push augments the flow from a node with capacity from the source left, or
// into one with capacity to the sink left, after it was given some.
func (k *cut) push(node int) {
	for k.value <= k.stop {
		var end int
		switch {
		case k.term[node] > 0:
			end = k.forward(node, -1)
		case k.term[node] < 0:
			end = k.backward(node)
		default:
			return
		}
		if end < 0 {
			return
		}
	}
}

// settle augments the flow after capacities have grown anywhere. What one
// search without success has seen leads nowhere, whatever is augmented later,
// so that each node is given up only once.
func (k *cut) settle() {
	k.stamp++
	dead := k.stamp
	for node := range k.term {
		for k.term[node] > 0 && k.dead[node] != dead && k.value <= k.stop {
			if k.forward(node, dead) < 0 {
				for _, v := range k.queue {
					k.dead[v] = dead
				}
			}
		}
	}
}

// forward looks for a way from node to one with capacity to the sink left and
// augments along it; it returns where it ended, or -1.
// Nodes given up as dead are not entered.
func (k *cut) forward(node, dead int) int {
	k.stamp++
	k.seen[node] = k.stamp
	k.queue = append(k.queue[:0], node)
	for i := 0; i < len(k.queue); i++ {
		u := k.queue[i]
		for a := k.first[u]; a < k.first[u+1]; a++ {
			v := k.to[a]
			if k.left[a] == 0 || k.seen[v] == k.stamp || k.dead[v] == dead {
				continue
			}
			k.seen[v] = k.stamp
			k.from[v] = a
			if k.term[v] < 0 {
				k.carryBack(node, v)
				return v
			}
			k.queue = append(k.queue, v)
		}
	}
	return -1
}

// backward looks for a way from a node with capacity from the source left.
func (k *cut) backward(node int) int {
	k.stamp++
	k.seen[node] = k.stamp
	k.queue = append(k.queue[:0], node)
	for i := 0; i < len(k.queue); i++ {
		v := k.queue[i]
		for t := k.first[v]; t < k.first[v+1]; t++ {
			u, a := k.to[t], k.twin[t]
			if k.left[a] == 0 || k.seen[u] == k.stamp {
				continue
			}
			k.seen[u] = k.stamp
			k.from[u] = a
			if k.term[u] > 0 {
				k.carry(u, node)
				return u
			}
			k.queue = append(k.queue, u)
		}
	}
	return -1
}

// carryBack sends flow along the arcs by which v was found from node.
func (k *cut) carryBack(node, v int) {
	x := min(k.term[node], -k.term[v])
	for at := v; at != node; at = k.to[k.twin[k.from[at]]] {
		x = min(x, k.left[k.from[at]])
	}
	for at := v; at != node; at = k.to[k.twin[k.from[at]]] {
		k.shift(k.from[at], x)
	}
	k.finish(node, v, x)
}

// carry sends flow along the arcs by which u was found from node backwards.
func (k *cut) carry(u, node int) {
	x := min(k.term[u], -k.term[node])
	for at := u; at != node; at = k.to[k.from[at]] {
		x = min(x, k.left[k.from[at]])
	}
	for at := u; at != node; at = k.to[k.from[at]] {
		k.shift(k.from[at], x)
	}
	k.finish(u, node, x)
}

func (k *cut) shift(a int, x cost) {
	t := k.twin[a]
	k.journal = append(k.journal, change{changedArc, a, k.left[a]}, change{changedArc, t, k.left[t]})
	k.left[a] -= x
	k.left[t] += x
}

func (k *cut) finish(source, sink int, x cost) {
	k.journal = append(k.journal, change{changedNode, source, k.term[source]}, change{changedNode, sink, k.term[sink]})
	k.term[source] -= x
	k.term[sink] += x
	k.value += x
}

// labels fills in the labels of a minimum cut: as few cells as possible are
// A's. Public cells are common.
func (k *cut) labels(into []Label) {
	k.stamp++
	k.queue = k.queue[:0]
	for node, t := range k.term {
		if t > 0 {
			k.seen[node] = k.stamp
			k.queue = append(k.queue, node)
		}
	}
	for i := 0; i < len(k.queue); i++ {
		u := k.queue[i]
		for a := k.first[u]; a < k.first[u+1]; a++ {
			if v := k.to[a]; k.left[a] > 0 && k.seen[v] != k.stamp {
				k.seen[v] = k.stamp
				k.queue = append(k.queue, v)
			}
		}
	}
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
